"""Which wrenches serve a group that is half done: what is done of it asks nothing of them any more."""

from __future__ import annotations

from benchcheck.session import troubles
from tests.pumps import can_with, tiny_job
from tests.session.bench import Bench

CLICKS = "TW-01"
"""Begins at 10 lbf·ft (13.6 N·m): too much for the first round of the can's cover, right for the second."""


def serves(at: Bench, wrench: str) -> bool:
    return next(each.serves for each in at.prompt.choices if each.value == wrench)


def test_a_wrench_that_goes_on_has_to_do_the_rounds_that_are_left() -> None:
    at = Bench(tiny_job(can_with())).until("F-tight/tighten:F wrench")
    assert not serves(at, CLICKS)
    at.say("TW-08")
    at.until("F-tight/tighten:F round 2 position 1")
    at.carry_out(troubles.change_wrench(at.state, "its dial sticks", at.now))
    assert serves(at, CLICKS)
    at.say(CLICKS)
    assert at.asked == "F-tight/tighten:F round 2 position 1"


def test_after_going_back_a_wrench_has_to_do_all_rounds_again() -> None:
    at = Bench(tiny_job(can_with())).until("F-tight/tighten:F wrench")
    at.say("TW-08")
    at.until("F-tight/tighten:F round 2 position 1")
    at.carry_out(troubles.change_wrench(at.state, "its dial sticks", at.now))
    at.say(CLICKS)
    at.carry_out(troubles.trouble(at.state, 1, "never", "it turned and turned", at.now))
    at.until("F-tight/tighten:F wrench")
    assert not serves(at, CLICKS)
