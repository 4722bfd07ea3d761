"""Numbers that are not yet confirmed: said in a draft, and a bar to release."""

from __future__ import annotations

from benchcheck.procedure.finding import Severity
from tests.checking.small_pump import assert_as_marked, findings, parsed, rules_found, small_pump

RELEASED = 'status = "released"\nissued = 2026-03-02\napprover = "B. Template"\n'
DRAFT = 'status = "draft"'
MARKED = """unconfirmed = [
  "F1: torque",      # ← number-not-confirmed
  "F1: thread",
  "step runout: ask", # ← number-not-confirmed
]"""


def test_each_thing_is_found_once_with_all_that_is_open() -> None:
    text = small_pump((DRAFT, f"{DRAFT}\n{MARKED}"))
    assert_as_marked(text)
    first, second = findings(text)
    assert "of `F1`: `torque` and `thread`." in first.message
    assert "of `step runout`: `ask`." in second.message
    assert first.severity is second.severity is Severity.WARNING


def test_released_it_is_an_error_and_the_procedure_still_serves_for_practice_only() -> None:
    text = small_pump((DRAFT, f"{RELEASED}{MARKED}"))
    found = [each.severity for each in findings(text) if each.rule == "number-not-confirmed"]
    assert found == [Severity.ERROR, Severity.ERROR]
    assert parsed(text).model.procedure.practice_only == "released with numbers not yet confirmed"


def test_confirmed_it_may_be_released() -> None:
    text = small_pump((DRAFT, f"{RELEASED}unconfirmed = []"))
    assert "number-not-confirmed" not in rules_found(text)
    assert parsed(text).model.procedure.practice_only is None
