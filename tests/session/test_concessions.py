"""A decision that holds under a limit and up to a day, and a release that comes after that day."""

from __future__ import annotations

from datetime import timedelta

from benchcheck.session import commands
from benchcheck.session.prompt import Outcome
from tests.pumps import THIRD, can_with, tiny_job
from tests.session.bench import Bench

JOB = tiny_job(can_with())


def deviated() -> Bench:
    at = Bench(JOB).until("F-tight/tighten:F wrench")
    at.say("TW-08")
    assert at.answer("12.5", over="the screw is not stretched") is None
    return at


def decide(at: Bench, what: str, expires: str) -> str:
    result = commands.dispose(
        at.state, 1, what, THIRD, "it holds", at.now, limit="low pressure only", expires=expires
    )
    outcome = at.carry_out(result)
    return outcome.refusals[0].rule if isinstance(outcome, Outcome) else ""


def test_only_what_stays_on_the_pump_can_be_conceded_and_up_to_a_day_to_come() -> None:
    at = deviated()
    assert decide(at, "scrap", "2026-12-31") == "no-concession"
    assert decide(at, "repair", "soon") == "not-a-day"
    assert decide(at, "use as is", "2026-11-01") == "concession-expired"
    assert decide(at, "use as is", "2026-11-02") == ""
    assert at.state.dispositions[1].limit == "low pressure only"
    assert at.to_the_end().state.outcome == "released"


def test_after_its_last_day_it_is_decided_anew_before_release() -> None:
    at = deviated()
    assert decide(at, "use as is", "2026-11-03") == ""
    at.until("release")
    at.now += timedelta(days=2)
    at.cut()
    at.arrive()
    assert "concession-expired" in at.refused(THIRD)
    assert decide(at, "use as is", "2026-12-31") == ""
    assert at.to_the_end().state.outcome == "released"
