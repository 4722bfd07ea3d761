"""Trends as text, page and JSON; the figures are those worked out by hand in tests/session/test_trends.py."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import UTC, datetime
from functools import cache
from typing import Any

import pytest

from benchcheck.report import traces
from benchcheck.report import trends as report
from benchcheck.report.html_page import as_html
from benchcheck.report.plain_text import as_text
from benchcheck.session.trace.past import Past
from benchcheck.session.trace.search import Gap
from benchcheck.session.trends import Trends
from tests.report import sample
from tests.report.test_html_page import Page, assert_accessible, assert_alone
from tests.report.test_traces import DAMAGED, W_1, keys_in, keys_told, trace
from tests.session.test_trends import even, gathered, session
from tests.session.trace.test_tightenings import past_of
from tests.session.trace.test_uses import careful, low, taken_apart

ON = datetime(2026, 11, 25, 18, 0, tzinfo=UTC)
GAP = Gap("4470.toml", "4470", 12, "The seal of event 13 does not match the bytes above it.")


@cache
def outlier() -> tuple[Past, ...]:
    return *even(), session(3, 20, 20, 20, 20), session(4, 20, 20, 20, 22)


def text(trends: Trends, *gaps: Gap, plain: bool = False) -> str:
    return as_text([report.document_of(trends, ON, gaps)], plain=plain)


def flowing(trends: Trends) -> str:
    return " ".join(text(trends).split())


def test_a_quiet_group_is_charted_with_its_figures() -> None:
    said = flowing(gathered(*even()))
    assert "NO RULE FIRED" in said
    assert "limits 18 to 22 N·m, target 20" in said and "readings 8 on 2 pumps" in said
    assert "control 18.48 to 21.52, mean 20" in said and "Cp 1.76, Cpk 1.76" in said
    assert "21.52 ········" in said


def test_a_rule_that_fired_is_said_in_words_with_the_pump_and_its_event() -> None:
    said = flowing(gathered(*outlier()))
    event = gathered(*outlier()).groups[0].readings[-1].event
    assert "A RULE FIRED ON 1 OF 1 CHART" in said
    assert "Point 16: beyond the control limit, three standard deviations above the mean." in said
    assert f"SN-4, position 4, 22, event {event}." in said
    assert "Moving range 16, from point 15 to 16: beyond its control limit." in said


def test_of_rules_that_fired_very_often_the_latest_are_told() -> None:
    trends = gathered(*outlier())
    often = replace(trends.groups[0], signals=(), range_signals=tuple(range(15)))
    said = flowing(replace(trends, groups=(often,)))
    assert "A rule fired 15 times; the latest 12:" in said
    assert said.count("beyond its control limit") == 12 and "Moving range 16," in said


def test_a_wrench_that_stands_apart_is_said_in_words() -> None:
    raised = session(3, 21.5, 22, 21, 21.5, wrench="W-2"), session(4, 22, 21.5, 21, 21.5, wrench="W-2")
    said = flowing(gathered(*even(), *raised))
    # 1.5 N·m is 7.5 % of 20
    assert "W-2 shows 1.5 N·m (7.5 % of the target) more than the other wrenches on the same screws" in said


@pytest.mark.parametrize("readings", [(20, 20.5, 19.5, 20), (20, 20, 20, 20, 20, 20, 20, 20)])
def test_what_cannot_be_charted_is_said(readings: tuple[float, ...]) -> None:
    pasts = [session(at, *readings[at : at + 4]) for at in range(0, len(readings), 4)]
    said = flowing(gathered(*pasts))
    assert "TOO FEW READINGS TO CHART" in said
    assert "nothing is charted" in said and "·····" not in said
    assert "NO SESSION" in flowing(gathered())


def test_steps_done_again_and_deviations_have_their_tables() -> None:
    said = flowing(gathered(careful(), taken_apart()))
    assert "install ring of G1 and cover (cover-on) 1 of 2" in said and "There is no deviation." in said


def test_it_fits_the_page_keeps_to_ascii_and_names_what_was_not_read() -> None:
    lines = text(gathered(*outlier(), taken_apart(), group=None), GAP, plain=True).splitlines()
    assert max(map(len, lines)) <= 72 and "".join(lines).isascii()
    assert any("4470.toml" in line for line in lines)


def searches() -> str:
    """A trace and trends on one page, both with all that they can show."""
    found = traces.document_of(trace(W_1, [careful(), low()], (DAMAGED,)))
    return as_html([found, report.document_of(gathered(*outlier()), ON, (GAP,))])


def test_a_page_of_searches_is_whole_and_needs_nothing_else() -> None:
    text = searches()
    assert_accessible(text)
    assert_alone(text)


def test_a_page_has_the_chart_as_a_drawing() -> None:
    seen = Page(as_html([report.document_of(gathered(*outlier()), ON)]))
    assert seen.tags["svg"] == 1 and "Beyond them: value 16, 22." in seen.text


def test_the_readme_tells_every_key_and_no_other() -> None:
    bench = sample.Bench()
    bench.until("cover-on/fit:G1")
    bench.answer("-138 NBR", why="the kit holds no other one")
    found = gathered(*outlier(), taken_apart(), past_of(bench, "open.toml"))
    assert keys_in(report.as_json(found, ON, (GAP,))) == keys_told("trends")


def test_json_has_readings_limits_and_what_fired() -> None:
    found: Any = report.as_json(gathered(*outlier()), ON, (GAP,))
    json.dumps(found)
    (group,) = found["groups"]
    assert len(group["readings"]) == 16 and group["readings"][0]["shown"] == {"value": 20.0, "unit": "N·m"}
    assert group["upper_control_limit"]["value"] == pytest.approx(21.1888, abs=1e-4)
    assert [(each["rule"], each["first"]) for each in group["signals"]][-1] == ("beyond a limit", 16)
    assert group["moving_ranges_beyond"] == [16]
    assert found["not_read"][0]["beyond_event"] == 12
