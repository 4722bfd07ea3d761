"""Rules on paper: as text for one who got a finding, as a table and a page for the manual."""

from __future__ import annotations

import tomllib
from types import SimpleNamespace
from typing import cast

from benchcheck.checking.catalogue import Rule
from benchcheck.procedure.finding import Severity
from benchcheck.report.rules import as_json, as_text, catalogue_as_markdown, list_as_markdown, list_as_text

RULE = cast(
    Rule,
    SimpleNamespace(
        SEVERITY=Severity.WARNING,
        WHAT="A lid | lies on the wrong side, and this sentence goes on until it is longer than the lines of "
        "a page.",
        WHY="It falls.",
        WRONG='\n[[part]]\nid = "lid"\n\n[[part]]\nid = "pot"\n',
        RIGHT='\n[[part]]\nid = "pot"\n',
    ),
)


def test_as_text() -> None:
    assert as_text("lid-below", RULE).splitlines() == [
        "lid-below (warning)",
        "",
        "A lid | lies on the wrong side, and this sentence goes on until it is longer than the lines of a",
        "page.",
        "It falls.",
        "",
        "Wrong:",
        "",
        "    [[part]]",
        '    id = "lid"',
        "",
        "    [[part]]",
        '    id = "pot"',
        "",
        "Right:",
        "",
        "    [[part]]",
        '    id = "pot"',
    ]


def test_as_json_keeps_the_examples_as_toml() -> None:
    told = as_json("lid-below", RULE)
    assert told["severity"] == "warning"
    assert [part["id"] for part in tomllib.loads(told["wrong"])["part"]] == ["lid", "pot"]


def test_lists() -> None:
    assert (
        list_as_text([("a", RULE), ("lid-below", RULE)])
        .splitlines()[0]
        .startswith("a          warning  A lid")
    )
    *_, row = list_as_markdown([("lid-below", RULE)]).splitlines()
    assert row.startswith("| lid-below | warning | A lid \\| lies") and row.count(" | ") == 2


def test_the_page_has_each_example_in_a_fence() -> None:
    page = catalogue_as_markdown([("lid-below", RULE), ("pot-above", RULE)])
    assert page.count("\n## ") == 2 and page.count("```toml\n") == page.count("\n```\n") == 4
