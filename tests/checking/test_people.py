"""A register of people in which one person may stand twice."""

from __future__ import annotations

from benchcheck.checking.check import check
from benchcheck.procedure.table import Table

TWICE = """format = 1

[[person]]
name = "T. Sample"
may = ["work"]

[[person]]
name = "Tom Sample"
may = ["witness"]
"""


def said(text: str) -> list[str]:
    found = check(text.encode(), "people.toml", lambda: Table)
    return [f"{each.place.line}:{each.place.column} {each.rule}" for each in found.findings]


def test_who_may_be_one_person_stands_out() -> None:
    assert said(TWICE) == ["8:8 names-alike"]


def test_who_is_said_to_be_two_is_two() -> None:
    assert said(f'{TWICE}other_than = ["T. Sample"]\n') == []
