"""The rules of the check, explained: for a person who got a finding, and as the catalogue of the manual.

What a rule finds stands in the rule; here it is only put on paper.
"""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import fill

from benchcheck.checking.catalogue import Rule

_WIDTH = 100
_EXPLAIN = "benchcheck explain RULE"


def as_text(name: str, rule: Rule) -> str:
    """What a rule finds and why, with a piece of a procedure that has the fault and one that has not."""
    return "\n".join(
        (
            f"{name} ({rule.SEVERITY.value})",
            "",
            fill(rule.WHAT, _WIDTH),
            fill(rule.WHY, _WIDTH),
            "",
            "Wrong:",
            "",
            _indented(rule.WRONG),
            "",
            "Right:",
            "",
            _indented(rule.RIGHT),
            "",
        )
    )


def as_json(name: str, rule: Rule) -> dict[str, str]:
    """The same for other programs."""
    return {
        "rule": name,
        "severity": rule.SEVERITY.value,
        "what": rule.WHAT,
        "why": rule.WHY,
        "wrong": rule.WRONG.strip("\n"),
        "right": rule.RIGHT.strip("\n"),
    }


def list_as_text(rules: Sequence[tuple[str, Rule]]) -> str:
    """All rules, one a line."""
    width = max(len(name) for name, _ in rules)
    return "".join(f"{name:{width}}  {rule.SEVERITY.value:7}  {rule.WHAT}\n" for name, rule in rules)


def list_as_markdown(rules: Sequence[tuple[str, Rule]]) -> str:
    """All rules as a table."""
    rows = (f"| {name} | {rule.SEVERITY.value} | {_in_a_cell(rule.WHAT)} |\n" for name, rule in rules)
    return "| rule | severity | what it finds |\n|---|---|---|\n" + "".join(rows)


def catalogue_as_markdown(rules: Sequence[tuple[str, Rule]]) -> str:
    """All rules with their examples, as a page of their own."""
    head = (
        "# The rules of the check\n\n"
        "Each rule with a piece of a procedure that has its fault, and one that has not. The pieces belong\n"
        "to the small pump of [the manual](README.md), and are read as that says. This page is made from\n"
        f"the rules; the same is shown by `{_EXPLAIN}`.\n"
    )
    return head + "".join(
        f"\n## {name}\n\n{rule.SEVERITY.value.capitalize()}. {rule.WHAT}\n\n{rule.WHY}\n\n"
        f"Wrong:\n\n{_fenced(rule.WRONG)}\nRight:\n\n{_fenced(rule.RIGHT)}"
        for name, rule in rules
    )


def _fenced(example: str) -> str:
    return f"```toml\n{_stripped(example)}\n```\n"


def _stripped(example: str) -> str:
    return example.strip("\n")


def _indented(example: str) -> str:
    return "\n".join(f"    {line}".rstrip() for line in _stripped(example).split("\n"))


def _in_a_cell(words: str) -> str:
    return words.replace("|", "\\|")
