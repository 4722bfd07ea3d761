"""Another technician takes over: the card is signed by who leaves and by who comes."""

from __future__ import annotations

from benchcheck.session import commands
from benchcheck.session.events import CardLeft, TakenOver
from benchcheck.session.prompt import Outcome
from tests.pumps import CAN, SECOND, TECHNICIAN, tiny_job
from tests.session.bench import Bench


def left(where: str = "cover-on/install") -> Bench:
    """A can that a technician has left, and another one has come to."""
    bench = Bench(tiny_job(CAN)).until(where)
    bench.cut()
    bench.say(SECOND)
    return bench


def test_both_sign_before_the_pump_is_looked_at_again() -> None:
    bench = left()
    assert bench.asked == "handover left" and bench.state.taking_over == TECHNICIAN
    bench.say("t sample")
    assert bench.asked == "handover taken"
    assert bench.prompt.notes == ("T. Sample signed the card",)
    assert bench.refused(TECHNICIAN) == ["not-your-name"]
    bench.say(SECOND)
    card, taken = bench.events(CardLeft, TakenOver)
    assert isinstance(card, CardLeft) and card.signed and card.name == TECHNICIAN and card.by == SECOND
    assert isinstance(taken, TakenOver) and (taken.name, taken.left_by) == (SECOND, TECHNICIAN)
    assert bench.state.worker == SECOND and bench.state.taking_over == ""
    assert bench.asked == "serial"
    bench.to_the_end()
    assert bench.state.outcome == "released"


def test_who_is_gone_has_not_signed_and_the_record_says_why() -> None:
    bench = left()
    bench.say("gone home, the bus leaves at four")
    (card,) = bench.events(CardLeft)
    assert isinstance(card, CardLeft) and not card.signed
    assert card.words == "gone home, the bus leaves at four"
    assert bench.prompt.notes == ('T. Sample did not sign: "gone home, the bus leaves at four"',)
    bench.say(SECOND)
    assert bench.asked == "serial"


def test_a_card_that_was_signed_on_leaving_is_not_asked_for_again() -> None:
    bench = Bench(tiny_job(CAN)).until("cover-on/install")
    assert bench.carry_out(commands.sign_card(bench.state, " mind the lip ", bench.now)) is None
    bench.cut(stopped=True)
    bench.say(SECOND)
    assert bench.asked == "handover taken"
    assert bench.prompt.notes == ('T. Sample signed the card: "mind the lip"',)


def test_a_signature_holds_for_the_pump_as_it_was_then() -> None:
    bench = Bench(tiny_job(CAN)).until("cover-on/install")
    assert bench.carry_out(commands.sign_card(bench.state, "", bench.now)) is None
    bench.go_on()
    assert bench.state.card is None
    bench.cut()
    bench.say(SECOND)
    assert bench.asked == "handover left"


def test_who_comes_back_to_the_own_work_signs_nothing() -> None:
    bench = left()
    bench.cut()
    bench.say(TECHNICIAN)
    assert bench.asked == "serial" and bench.state.taking_over == ""
    assert bench.events(TakenOver) == []


def test_two_who_come_one_after_the_other_take_over_from_who_had_worked() -> None:
    bench = left()
    bench.cut()
    bench.say("K. Sketch")
    assert bench.state.taking_over == TECHNICIAN


def test_nothing_is_changed_before_it_is_taken_over() -> None:
    bench = left()
    for outcome in (
        commands.go_back(bench.state, "lip", "to look", bench.now),
        commands.sign_card(bench.state, "", bench.now),
    ):
        assert isinstance(outcome, Outcome)


def test_another_who_goes_on_in_the_middle_signs_too() -> None:
    bench = Bench(tiny_job(CAN)).until("F-tight/tighten")
    bench.go_on(3)
    bench.carry_out(commands.sign_on(bench.state, SECOND, bench.now))
    assert bench.asked == "handover left"
    bench.say(bench.careful(), SECOND)
    assert bench.state.read_again[0] == "serial"
    assert bench.state.assembly.held["F"].done == (), "the round begins again"
