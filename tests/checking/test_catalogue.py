"""The catalogue of rules: each explains itself, and its examples show what they say they show."""

from __future__ import annotations

import re

import pytest

from benchcheck.checking.catalogue import names, rule
from benchcheck.procedure.finding import Severity
from tests.checking.make_catalogue import made
from tests.checking.small_pump import SMALL_PUMP, findings, in_small_pump, main_pump

_GRAVEST_FIRST = list(Severity)
"""A rule may be milder than its severity says where less is at stake, never graver."""


def test_the_small_pump_has_nothing_wrong() -> None:
    assert [each.as_text() for each in findings(SMALL_PUMP)] == []


def test_the_main_pump_has_nothing_wrong() -> None:
    assert [each.as_text() for each in findings(main_pump())] == []


def test_the_manual_has_the_rules_as_they_are() -> None:
    for path, text in made().items():
        assert path.read_text(encoding="utf-8") == text, "run tests/checking/make_catalogue.py"


@pytest.mark.parametrize("name", names())
def test_each_rule_explains_itself(name: str) -> None:
    told = rule(name)
    assert isinstance(told.SEVERITY, Severity)
    for words in (told.WHAT, told.WHY):
        assert re.fullmatch(r"[A-Z].*[.]", words, re.DOTALL) and len(words) < 400


@pytest.mark.parametrize("name", names())
def test_the_wrong_example_is_found_and_the_right_one_is_not(name: str) -> None:
    told = rule(name)
    wrong, right = (
        [each.rule for each in findings(in_small_pump(text))] for text in (told.WRONG, told.RIGHT)
    )
    assert name in wrong
    assert name not in right


@pytest.mark.parametrize("name", names())
def test_each_finding_says_its_severity_and_is_a_sentence(name: str) -> None:
    for finding in findings(in_small_pump(rule(name).WRONG)):
        if finding.rule == name:
            assert _GRAVEST_FIRST.index(finding.severity) >= _GRAVEST_FIRST.index(rule(name).SEVERITY)
            for words in (finding.message, finding.remedy):
                assert re.fullmatch(r"[^a-z].*[.]", words, re.DOTALL), words
