"""Taking off, and what lies beside the pump: as found, in order, into the tray; signatures; plain work."""

from __future__ import annotations

from dataclasses import replace

import pytest

from benchcheck.session import engine
from benchcheck.session.events import Done, GroupLoosened, PartRemoved, RingLifted, Signed
from benchcheck.session.prompt import Form, Outcome
from tests.pumps import REVIEWER, SECOND, TECHNICIAN, THIRD, can_with, main_job, tiny_job
from tests.session.bench import Bench


def at(where: str, *changes: tuple[str, str]) -> Bench:
    return Bench(tiny_job(can_with(*changes))).until(where)


# ---------------------------------------------------------------------- off


def test_how_it_lay_is_asked_before_it_moves_and_a_difference_is_a_finding_not_an_error() -> None:
    bench = at("open/remove:cover")
    assert bench.prompt.question == "face"
    bench.say("face")
    (removed,) = bench.events(PartRemoved)
    assert isinstance(removed, PartRemoved) and (removed.part, removed.seen) == ("cover", "face")
    assert bench.state.deviations == ()


def test_what_is_not_the_part_is_not_taken_off_as_it() -> None:
    assert at("open/remove:cover").refused("neither") == ["part-not-recognised"]


def test_screws_come_off_in_the_reverse_of_their_order() -> None:
    bench = at("open/loosen:F loose")
    # The reverse of 1-3-2-4.
    assert any("4, 2, 3, 1" in line for line in bench.prompt.do)
    bench.say("")
    assert isinstance(bench.events(GroupLoosened)[-1], GroupLoosened)


def test_nothing_is_taken_off_through_something_else() -> None:
    bench = at("open", ('off = ["F", "cover", "G", "lip"]', 'off = ["cover", "F", "G", "lip"]'))
    bench.until("open/remove:cover face")
    outcome = bench.answer("rear", over="it comes off all the same")
    assert outcome is not None and outcome.refusals[0].rule == "something-in-the-way" and not outcome.passable
    bench.mend(outcome)
    assert bench.asked.startswith("going back/loosen:F")
    bench.to_the_end()
    assert bench.state.outcome == "released"


def test_a_ring_is_lifted_out_of_its_open_groove() -> None:
    bench = at("open/lift:G")
    bench.say("")
    assert isinstance(bench.events(RingLifted)[-1], RingLifted) and not bench.state.assembly.sealed
    hidden = at("open", ('off = ["F", "cover", "G", "lip"]', 'off = ["F", "G", "cover", "lip"]')).until(
        "open/lift:G"
    )
    assert hidden.refused("") == ["something-in-the-way"]


def test_the_work_lies_so_that_it_can_be_reached() -> None:
    bench = at("open/loosen")
    assert bench.asked == "open/loosen:F pose" and bench.prompt.verb == "LAY IT"
    assert bench.refused("bottom") == ["work-lies-the-wrong-way"]


def test_work_that_lies_is_turned_toward_the_technician() -> None:
    job = tiny_job(can_with())
    head = job.procedure.procedure.model_copy(update={"lies": True})
    lying = replace(job, procedure=job.procedure.model_copy(update={"procedure": head}), _pumps={})
    assert "toward you" in Bench(lying).until("open/loosen").prompt.ask


# ---------------------------------------------------------------------- scrap, tools, mat


SCRAP = (
    '[[step]]\nid = "bore"',
    '[[step]]\nid = "discard"\nphase = "teardown"\nact = "check"\n'
    'ask = [{ what = "scrap", kind = "scrap" }]\n\n[[step]]\nid = "bore"',
)


def test_the_scrap_tray_holds_what_came_off_and_may_not_go_back() -> None:
    bench = at("discard", SCRAP)
    assert bench.careful() == "2", "the ring and the lip"
    assert bench.refused("1") == ["scrap-does-not-add-up"]
    bench.say("2")


def test_on_the_main_pump_the_scrap_is_what_the_kit_replaces() -> None:
    bench = Bench(main_job(), "-05").until("discard")
    # 11 rings, 2 lips, 3 retaining rings, nut, washer, and the face seal pair.
    assert bench.careful() == str(11 + 2 + 3 + 1 + 1 + 2)


# ---------------------------------------------------------------------- work without a number


def test_work_without_a_number_is_done_or_not() -> None:
    do = (
        '[[step]]\nid = "cover-on"',
        '[[step]]\nid = "grease"\nact = "do"\ntext = "One third."\n\n[[step]]\nid = "cover-on"',
    )
    bench = at("grease", do)
    assert bench.prompt.form is Form.CONFIRM and bench.prompt.do == ("One third.",)
    bench.say("")
    assert isinstance(bench.events(Done)[-1], Done)


# ---------------------------------------------------------------------- signatures


def test_the_release_wants_another_entitled_person() -> None:
    bench = at("release/sign")
    assert bench.prompt.verb == "RELEASE"
    assert bench.refused(TECHNICIAN) == ["witness-is-the-doer"]
    assert bench.refused(SECOND) == bench.refused(REVIEWER) == ["person-not-entitled"]
    assert bench.refused("N. Body") == ["person-not-known"]
    bench.say("q.example")
    signed, closed = bench.events()[-2:]
    assert isinstance(signed, Signed) and signed.second == THIRD and closed.kind == "closed"


@pytest.mark.parametrize("where", ["lip-in/ask", "gap/ask", "bore/ask"])
def test_what_was_left_out_is_decided_on_before_the_release(where: str) -> None:
    bench = at(where)
    assert bench.carry_out(engine.leave_out(bench.state, "no gauge at hand", bench.now)) is None
    bench.until("release/sign")
    assert bench.prompt.verb == "NOT YET" and "not decided" in bench.prompt.notes[0]
    outcome = bench.answer(THIRD, over="it is Friday")
    assert (
        isinstance(outcome, Outcome) and outcome.refusals[0].rule == "deviation-open" and not outcome.passable
    )
    bench.decide()
    bench.say(THIRD)
    assert bench.state.outcome == "released"


def test_a_signature_before_the_release_agrees_to_what_was_decided() -> None:
    sign = (
        '[[step]]\nid = "lip-in"',
        '[[step]]\nid = "agree"\nphase = "inspection"\nact = "sign"\n\n[[step]]\nid = "lip-in"',
    )
    verdict = (
        'ask = [{ what = "bore of the seat", min = "30.00 mm", max = "30.05 mm" }]',
        'ask = [{ what = "seat", one_of = ["good", "worn"], sets = "seat" }]',
    )
    bench = at("agree", sign, verdict)
    assert bench.prompt.notes == ("seat: good",)
    bench.say(SECOND)
    assert bench.state.closed is None and bench.asked.startswith("lip-in")
