"""`benchcheck explain`: one rule, all of them, and a name that is none."""

from __future__ import annotations

import json

import pytest

from benchcheck.checking.catalogue import names
from benchcheck.cli import main
from benchcheck.exit_status import ExitStatus


def said(capsys: pytest.CaptureFixture[str], status: ExitStatus, *words: str) -> tuple[str, str]:
    assert main(["explain", *words]) == status
    captured = capsys.readouterr()
    return captured.out, captured.err


def test_a_rule_is_told_with_its_examples(capsys: pytest.CaptureFixture[str]) -> None:
    out, _ = said(capsys, ExitStatus.GOOD, "groove-left-empty")
    lines = out.splitlines()
    assert lines[0] == "groove-left-empty (error)"
    wrong, right = lines.index("Wrong:"), lines.index("Right:")
    assert 0 < wrong < right
    assert '    id = "cover-on"' in lines[wrong:right] and '    id = "cover-on"' in lines[right:]
    assert max(map(len, lines)) <= 110


def test_without_a_name_all_are_listed(capsys: pytest.CaptureFixture[str]) -> None:
    out, _ = said(capsys, ExitStatus.GOOD)
    assert [line.split()[0] for line in out.splitlines()] == list(names())


def test_programs_get_the_same(capsys: pytest.CaptureFixture[str]) -> None:
    (rule,) = json.loads(said(capsys, ExitStatus.GOOD, "--json", "ids-alike")[0])
    assert rule.keys() == {"rule", "severity", "what", "why", "wrong", "right"}
    assert (rule["rule"], rule["severity"]) == ("ids-alike", "warning")


def test_a_name_that_is_none_is_told_with_the_nearest(capsys: pytest.CaptureFixture[str]) -> None:
    out, err = said(capsys, ExitStatus.UNUSABLE, "groove-left-emtpy")
    assert out == "" and err == (
        "benchcheck explain: there is no rule 'groove-left-emtpy'; did you mean groove-left-empty?\n"
    )
    assert "the manual explains" in said(capsys, ExitStatus.UNUSABLE, "qqqq")[1]
