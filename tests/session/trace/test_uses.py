"""What a record has of a lot, a person, a step; and what a later record of the same pump undid of it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from functools import cache

import pytest

from benchcheck.mechanics.units import QuantityError, parse
from benchcheck.procedure.registers import PeopleRegister
from benchcheck.session import commands
from benchcheck.session.events import Event, GroupLoosened, RingFitted, RingLifted, SignedOn, Told
from benchcheck.session.state import Registers
from benchcheck.session.trace.past import Past
from benchcheck.session.trace.search import Standing, Touched, touched, with_later_records
from benchcheck.session.trace.uses import Entitlement, Use
from benchcheck.session.trace.wanted import Wanted, parse_day, parse_error
from tests.report import sample
from tests.session.trace.test_tightenings import moved_on, past_of

NINE = parse("9 %")


def found(past: Past, wanted: Wanted) -> Touched:
    touches = touched(past, wanted, sample.registers())
    assert touches is not None
    return touches


@cache
def careful() -> Past:
    bench = sample.Bench()
    bench.finish()
    return past_of(bench)


@cache
def low() -> Past:
    """Position 3 of the cover screws showed 19.5 N·m: 17.89 if the wrench showed 9 % too much."""
    bench = sample.Bench()
    bench.until("tighten/tighten:F1", "round 2 position 3")
    bench.answer("19.5")
    bench.finish()
    return past_of(bench)


@cache
def taken_apart() -> Past:
    """After the nut was on, the cover came off again, and its ring with it."""
    bench = sample.Bench()
    bench.until("nut-on/install:nut")
    bench.command(commands.go_back, "G1", "the ring was pinched")
    bench.finish()
    return past_of(bench)


# --- a wrench -------------------------------------------------------------------------------------------


def test_a_pump_whose_screws_all_stay_inside() -> None:
    touches = found(careful(), Wanted("instrument", "w-1", error=NINE))
    assert touches.standing is Standing.INSIDE
    assert all(use.recalibrated is not None and not use.recalibrated.beyond for use in touches.uses)


def test_a_pump_with_one_screw_that_leaves_its_limits() -> None:
    touches = found(low(), Wanted("instrument", "W-1", error=NINE))
    assert touches.standing is Standing.OUTSIDE
    (off,) = [use for use in touches.uses if use.recalibrated is not None and use.recalibrated.beyond]
    assert off.tightening is not None and off.recalibrated is not None
    assert (off.tightening.round, off.tightening.event.position) == (2, 3)
    # 19.5 / 1.09 = 17.8899; 18 - 17.8899 = 0.1101
    assert off.recalibrated.beyond == pytest.approx(-0.1101, abs=5e-5)


def test_without_an_error_it_is_only_said_that_the_pump_holds_it() -> None:
    assert found(low(), Wanted("instrument", "W-1")).standing is Standing.IN_THE_PUMP


def test_another_wrench_and_other_days_do_not_touch_it() -> None:
    nowhere = Wanted("instrument", "W-2"), Wanted("instrument", "W-1", since=date(2026, 11, 20))
    assert [touched(careful(), each, sample.registers()) for each in nowhere] == [None, None]
    assert (
        touched(careful(), Wanted("instrument", "W-1", until=date(2026, 11, 2)), sample.registers())
        is not None
    )


def later(past: Past, **header: object) -> Past:
    """The same work once more, a year later: its teardown takes apart what the first session put together."""
    opened = past.opened + timedelta(days=365)
    moved = tuple(
        replace(event, at=(past.local(event.at) + timedelta(days=365)).isoformat()) for event in past.events
    )
    changed = replace(past.header, opened=opened.isoformat(), **header)  # type: ignore[arg-type]
    return replace(past, file="4471-2.toml", header=changed, events=moved)


def test_what_a_later_session_took_apart_is_not_in_the_pump() -> None:
    first = found(low(), Wanted("instrument", "W-1", error=NINE))
    (whole,) = with_later_records([first], [low(), later(careful())])
    assert whole.standing is Standing.NOT_IN_THE_PUMP
    last = [use for use in whole.uses if use.tightening is not None and use.tightening.followed is None]
    for use in last:
        assert use.undone is not None and use.undone.file == "4471-2.toml"
        assert isinstance(use.undone.by, GroupLoosened)


@pytest.mark.parametrize(
    "header",
    [{"serial": "4472"}, {"practice": True}, {"procedure": "another"}],
    ids=lambda each: next(iter(each)),
)
def test_a_session_on_another_pump_for_practice_or_by_another_procedure_takes_nothing_apart(
    header: dict[str, object],
) -> None:
    first = found(low(), Wanted("instrument", "W-1", error=NINE))
    (whole,) = with_later_records([first], [low(), later(careful(), **header)])
    assert whole.standing is Standing.OUTSIDE


def test_the_worst_pump_stands_first() -> None:
    wanted = Wanted("instrument", "W-1", error=NINE)
    inside, outside = found(careful(), wanted), found(low(), wanted)
    assert [each.standing for each in with_later_records([inside, outside], [])] == [
        Standing.OUTSIDE,
        Standing.INSIDE,
    ]


# --- a lot ----------------------------------------------------------------------------------------------


def rings(uses: tuple[Use, ...]) -> list[Use]:
    return [use for use in uses if isinstance(use.event, RingFitted)]


def test_a_lot_is_found_on_the_bag_and_in_every_ring_that_came_from_it() -> None:
    touches = found(careful(), Wanted("lot", " lot-1 "))
    assert isinstance(touches.uses[0].event, Told)
    assert len(rings(touches.uses)) == 1 and touches.standing is Standing.IN_THE_PUMP


def test_a_ring_that_came_out_again_is_found_too_and_told_apart() -> None:
    # The kit has no more of it: the second one is from stock, of a lot of its own.
    (first,) = rings(found(taken_apart(), Wanted("lot", "LOT-1")).uses)
    (second,) = rings(found(taken_apart(), Wanted("lot", "S-1")).uses)
    assert first.undone is not None and isinstance(first.undone.by, RingLifted)
    assert second.undone is None


# --- a procedure, a step, a pump ------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["tiny", "tiny-B", "TINY-b"])
def test_a_procedure_is_found_by_its_id_with_or_without_its_revision(name: str) -> None:
    assert found(careful(), Wanted("procedure", name)).standing is Standing.TOUCHED


def test_a_revision_that_the_work_moved_on_to_is_found() -> None:
    bench = sample.Bench()
    bench.finish()
    past = moved_on(bench)
    for name in ("tiny-B", "tiny-C"):
        assert found(past, Wanted("procedure", name)).standing is Standing.TOUCHED


@pytest.mark.parametrize("name", ["tiny-C", "tin", "B"])
def test_another_revision_is_not_touched(name: str) -> None:
    assert touched(careful(), Wanted("procedure", name), sample.registers()) is None


def test_a_step_is_found_with_each_time_it_was_done() -> None:
    once = found(careful(), Wanted("procedure", "tiny", step="cover-on")).uses
    assert all(use.undone is None for use in once)
    twice = found(taken_apart(), Wanted("procedure", "tiny", step="cover-on")).uses
    assert len(twice) == 2 * len(once)
    assert [use.undone is None for use in twice] == [False] * len(once) + [True] * len(once)


def test_a_session_that_did_not_come_to_the_step_is_not_touched() -> None:
    bench = sample.Bench()
    bench.until("cover-on")
    wanted = Wanted("procedure", "tiny", step="tighten")
    assert touched(past_of(bench), wanted, sample.registers()) is None


def test_a_pump_is_found_by_its_serial_however_it_is_typed() -> None:
    assert found(careful(), Wanted("serial", "44 71")).uses == ()


# --- a person -------------------------------------------------------------------------------------------


def test_a_person_is_found_in_each_capacity_with_what_he_was_entitled_to() -> None:
    worked = found(careful(), Wanted("person", "t sample")).uses
    assert [(use.right, use.entitlement) for use in worked] == [("work", Entitlement(True, True))]
    assert worked[0].times == sum(event.by == "T. Sample" for event in careful().events)
    # Who did not sign on has no right of his own in the record: the register of today has to tell.
    saw = found(careful(), Wanted("person", "W. Specimen")).uses
    assert [(use.right, use.entitlement) for use in saw] == [("witness", Entitlement(None, True))]
    signed = found(careful(), Wanted("person", "Q. Example")).uses
    assert [(use.right, use.entitlement) for use in signed] == [("release", Entitlement(None, True))]


def known_today(until: date) -> Registers:
    """Only those who may work are known any more, and no longer than that."""
    registers = sample.registers()
    people = (each for each in registers.people.person if "work" in each.may)
    ended = tuple(each.model_copy(update={"until": until}) for each in people)
    return replace(registers, people=PeopleRegister(format=1, person=ended))


def rights(past: Past, name: str, registers: Registers) -> list[Entitlement | None]:
    touches = touched(past, Wanted("person", name), registers)
    assert touches is not None
    return [use.entitlement for use in touches.uses]


def test_the_record_tells_what_the_register_gave_then_whatever_it_says_today() -> None:
    ended = known_today(date(2026, 11, 1))
    (worked,) = rights(careful(), "T. Sample", ended)
    assert worked == Entitlement(True, False) and worked.then is True
    (signed,) = rights(careful(), "Q. Example", ended)
    assert signed == Entitlement(None, None) and signed.then is None


def test_an_older_record_that_does_not_keep_rights_goes_by_the_register_of_today() -> None:
    def older(event: Event) -> Event:
        return replace(event, may=(), until="") if isinstance(event, SignedOn) else event

    before = replace(careful(), events=tuple(map(older, careful().events)))
    assert rights(before, "T. Sample", known_today(date(2026, 11, 1))) == [Entitlement(None, False)]
    assert rights(before, "T. Sample", sample.registers()) == [Entitlement(None, True)]


def test_a_right_that_ends_while_the_work_goes_on_has_ended() -> None:
    def short(event: Event) -> Event:
        return replace(event, until="2026-11-01") if isinstance(event, SignedOn) else event

    late = replace(careful(), events=tuple(map(short, careful().events)))
    assert rights(late, "T. Sample", sample.registers()) == [Entitlement(False, True)]


# --- what is asked --------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "error"), [("+9 %", "9 %"), ("-4%", "-4 %"), ("2.5 percent", "2.5 %"), ("-0.5 psi", "-0.5 psi")]
)
def test_an_error_is_read_with_its_sign(text: str, error: str) -> None:
    assert str(parse_error(text)) == error


@pytest.mark.parametrize("text", ["0 %", "-100 %", "9", "0 psi", "much"])
def test_an_error_that_is_none_is_refused(text: str) -> None:
    with pytest.raises(QuantityError):
        parse_error(text)


def test_a_day_is_read_and_anything_else_refused() -> None:
    assert parse_day("2026-11-24") == date(2026, 11, 24)
    with pytest.raises(QuantityError, match="such as 2026-11-24"):
        parse_day("24.11.2026")
