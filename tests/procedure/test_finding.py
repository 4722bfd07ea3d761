"""Findings: how they read, how they sort, what JSON says."""

from __future__ import annotations

import pytest

from benchcheck.procedure.finding import Finding, Place, Severity, sort

FINDING = Finding("key-unknown", Severity.ERROR, Place("a.toml", 3, 7), "`x` is not known.", "Write `y`.")


def test_text_names_place_severity_rule_and_remedy() -> None:
    assert FINDING.as_text() == "a.toml:3:7: error key-unknown: `x` is not known.\n    Write `y`."


def test_json_holds_the_documented_keys() -> None:
    assert FINDING.as_json() == {
        "rule": "key-unknown",
        "severity": "error",
        "file": "a.toml",
        "line": 3,
        "column": 7,
        "message": "`x` is not known.",
        "remedy": "Write `y`.",
    }


def test_a_finding_needs_a_place() -> None:
    with pytest.raises(TypeError):
        Finding(rule="x", severity=Severity.ERROR, message="m", remedy="r")  # type: ignore[call-arg]


def test_findings_sort_by_file_line_and_column_as_numbers_and_are_said_once() -> None:
    places = [Place("b.toml", 1, 1), Place("a.toml", 10, 1), Place("a.toml", 9, 2), Place("a.toml", 9, 1)]
    findings = [Finding("r", Severity.ADVICE, place, "m", "r") for place in [*places, places[0]]]
    assert [finding.place for finding in sort(findings)] == places[::-1]
