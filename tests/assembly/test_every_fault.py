"""Which single faults there are, and how the pump on the bench differs by each from the one in the record.

Expected ones are read off the procedures by hand.
"""

from __future__ import annotations

import pytest

from benchcheck.assembly.every_fault import READING_SLIPS, every_fault, outside_answers
from benchcheck.assembly.facing import misfits
from benchcheck.assembly.faults import (
    AnotherRing,
    CutShort,
    FactOutside,
    Fault,
    LeftOut,
    LeftOver,
    LikeExchanged,
    OldForNew,
    OtherEnd,
    OutOfOrder,
    PositionOutOfTurn,
    PositionSkipped,
    Reversed,
    ToolLeftInside,
    Turned,
    TwoInOne,
)
from benchcheck.assembly.planned import as_found
from benchcheck.assembly.pump import Pump
from benchcheck.procedure.model import Ask
from tests.pumps import built, main_job, tiny_pump

F = tuple[Fault, ...]


@pytest.fixture(scope="module")
def pump() -> Pump:
    return main_job().pump("-05")


@pytest.fixture(scope="module")
def every(pump: Pump) -> F:
    return every_fault(pump, ("TW-01",))


def kinds(faults: F, kind: type[Fault]) -> list[str]:
    return [each.thing for each in faults if isinstance(each, kind)]


def test_each_is_named_once(pump: Pump, every: F) -> None:
    assert len(set(every)) == len(every)
    assert all(each.words(pump) and each.kind for each in every)


def test_every_part_ring_and_loose_group_can_be_left_out(pump: Pump, every: F) -> None:
    tools = {part.id for part in pump.parts.values() if part.temporary}
    loose = {group.id for group in pump.groups.values() if not group.parts}
    assert set(kinds(every, LeftOut)) == {*pump.needed(), *tools, *pump.grooves, *loose}


def test_what_is_seen_and_covered_in_one_step_does_not_get_lost(every: F) -> None:
    lost = kinds(every, LeftOver)
    assert {"main-lip", "ir-cart", "G2", "G3", "G4"} <= set(lost)
    assert "G10" not in lost, "it grips, and the seat goes in with the same step"
    assert "G5" in lost, "it lies loose in the face that is turned down"
    assert "rotor-key" not in lost, "only a yes is asked of it: left out is the same"


def test_each_part_with_ends_can_be_reversed_alone_and_with_what_carries_it(pump: Pump, every: F) -> None:
    alone = {each.thing for each in every if isinstance(each, Reversed) and not each.carrier}
    assert alone == {part for part in pump.needed() if pump.parts[part].ends}
    both = {each.parts for each in every if isinstance(each, Reversed) and each.carrier}
    assert {("main-lip", "cartridge"), ("excluder", "cartridge"), ("rotor-outer", "ring")} <= both
    assert not any("body" in each for each in both)


def test_like_seats_like_items_like_rings(every: F) -> None:
    ends = {(each.thing, each.end) for each in every if isinstance(each, OtherEnd)}
    assert ends == {("main-lip", "shallow pocket end"), ("excluder", "deep pocket end")}
    alike = {(each.thing, each.other) for each in every if isinstance(each, LikeExchanged)}
    assert alike == {("tw-front", "tw-rear"), ("fitting-p", "fitting-t")}
    assert {(each.full, each.thing) for each in every if isinstance(each, TwoInOne)} == {
        ("G2", "G3"),
        ("G3", "G2"),
    }
    rings = {(each.thing, each.size) for each in every if isinstance(each, AnotherRing)}
    assert {("G4", "-150"), ("G5", "-151")} <= rings


def test_each_other_way_round_its_axis_with_the_mark_that_then_stands_there(every: F) -> None:
    plate = {each.degree: each.mark for each in every if isinstance(each, Turned) and each.thing == "plate"}
    assert plate == {60: "", 120: "", 180: "T mark", 240: "", 300: ""}


def test_each_position_of_each_round(every: F) -> None:
    skipped = [(e.thing, e.round, e.position) for e in every if isinstance(e, PositionSkipped)]
    assert len(skipped) == 6 * 3 + 8 * 3 + 1 + 1 + 2 + 1
    turns = [e for e in every if isinstance(e, PositionOutOfTurn) and e.thing == "F1" and e.round == 2]
    assert {(e.position, e.due) for e in turns} == {(4, 1), (2, 1), (5, 1), (3, 1), (6, 1), (1, 4)}


def test_times_tools_used_up_pieces_and_neighbours(every: F) -> None:
    assert [each.act for each in every if isinstance(each, CutShort)] == [
        "cure/wait:F3 cure",
        "test/ask:1",
        "test/ask:3",
    ]
    assert kinds(every, ToolLeftInside) == ["guard"]
    assert {"nut", "washer", "main-lip", "seat", "bearing", "G1", "G11"} <= set(kinds(every, OldForNew))
    assert not {"shaft", "ring", "impeller"} & set(kinds(every, OldForNew))
    assert any(
        isinstance(each, OutOfOrder)
        and each.act.startswith("ir-cart-in")
        and each.first.startswith("bearing-on")
        for each in every
    )


def test_a_step_before_one_it_has_to_come_after() -> None:
    pump = tiny_pump(
        """
        part = [
          { id = "body" },
          { id = "a", into = "body", from = "side" },
          { id = "b", into = "body", from = "side" },
          { id = "c", into = "body", from = "side" },
        ]
        step = [
          { id = "a-in", part = "a" },
          { id = "b-in", part = "b" },
          { id = "c-in", part = "c", after = ["a-in"] },
        ]
        """
    )
    pairs = {(each.act, each.first) for each in every_fault(pump) if isinstance(each, OutOfOrder)}
    assert ("a-in/install:a", "c-in/install:c") in pairs


# ---------------------------------------------------------------------- the true pump


def test_the_true_pump_differs_only_by_its_fault(pump: Pump, every: F) -> None:
    recorded = as_found(pump)
    assert not misfits(recorded)
    for fault in every:
        true = fault.true(recorded)
        seats = {part for part in pump.parts if true.seated.get(part) != recorded.seated.get(part)}
        rings = {g for g in pump.grooves if true.sealed.get(g, ()) != recorded.sealed.get(g, ())}
        mine = {fault.thing, getattr(fault, "carrier", ""), getattr(fault, "full", "")}
        assert seats | rings <= mine, fault


@pytest.mark.parametrize(
    ("thing", "carrier", "misfit"),
    [
        ("main-lip", "", {"main-lip"}),
        ("cartridge", "", {"main-lip", "excluder", "cartridge"}),
        # the two cancel for the lip, and not for what carries it nor for its neighbour
        ("main-lip", "cartridge", {"cartridge", "excluder"}),
    ],
)
def test_reversals_compose(pump: Pump, thing: str, carrier: str, misfit: set[str]) -> None:
    fault = Reversed(act="x", thing=thing, carrier=carrier)
    assert {each.must.part for each in misfits(fault.true(as_found(pump)))} == misfit


def test_two_in_one_keeps_the_count(pump: Pump) -> None:
    true = TwoInOne(act="x", thing="G3", full="G2").true(as_found(pump))
    assert (len(true.sealed["G2"]), len(true.sealed["G3"])) == (2, 0)


def test_before_its_act_a_fault_changes_nothing(pump: Pump, every: F) -> None:
    empty = built(pump)
    tools = (ToolLeftInside,)
    assert all(fault.true(empty) == empty for fault in every if not isinstance(fault, tools))


# ---------------------------------------------------------------------- answers that are not good


@pytest.mark.parametrize(
    ("question", "answers"),
    [
        ({"min": "1 mm", "max": "2 mm"}, ("0.5", "2.4")),
        ({"max": "20 lbf·in"}, ("24",)),
        ({"max": "0 psi"}, ("1",)),
        ({"min": "5 min"}, ("4",)),
        ({"min": "0 turns"}, ()),  # fewer than none cannot be counted
        ({"min": "0 in", "max": "0.010 in"}, ("-0.005", "0.012")),  # proud of the edge
        ({"one_of": ["yes", "no", "half"], "good": ["yes"]}, ("no", "half")),
        ({"one_of": ["yes", "no"]}, ()),  # the author calls none of them bad
    ],
)
def test_answers_outside(question: dict[str, object], answers: tuple[str, ...]) -> None:
    tuples = {key: tuple(each) if isinstance(each, list) else each for key, each in question.items()}
    assert outside_answers(Ask.model_validate({"what": "it", **tuples}, by_alias=True)) == answers


def test_a_reading_of_one_unit_taken_for_another() -> None:
    # NIST SP 811, appendix B.8: 1 lbf·ft = 1.355 818 N·m; 1 kgf·m = 9.806 65 N·m; 12 in = 1 ft
    assert READING_SLIPS["lbf·ft taken for N·m"] == pytest.approx(1.355818)
    assert READING_SLIPS["kgf·m taken for N·m"] == pytest.approx(9.80665)
    assert READING_SLIPS["N·m taken for kgf·cm"] == pytest.approx(100 / 9.80665, rel=1e-6)
    assert READING_SLIPS["a foot taken for an inch"] == 12


def test_facts_outside_are_those_of_the_questions(pump: Pump, every: F) -> None:
    widths = [
        each.answer for each in every if isinstance(each, FactOutside) and each.act == "rotor-width/ask:0"
    ]
    assert len(widths) == 1 and float(widths[0]) < 0.499
