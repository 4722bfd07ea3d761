"""A small good procedure for the tests of rules to break, and the guilty lines that they mark in it.

It is the manual's whole procedure: two bodies, a lip, a groove, a group, teardown, test and release. A test
changes it as text. A guilty line ends in `# ← rule` or, where the place is not the first value of the line,
in `# ← rule at "value"`.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache

from benchcheck.checking.catalogue import check
from benchcheck.checking.subject import Subject
from benchcheck.mechanics.wrench import Wrench
from benchcheck.procedure.finding import Finding
from benchcheck.procedure.model import Procedure
from benchcheck.procedure.reading import Read
from benchcheck.store.library import parse_procedure
from tests.manual import WHOLE, within_the_whole
from tests.pumps import MAIN_PUMP, registers

SMALL_PUMP = WHOLE
Told = tuple[str, int, int]
"""Rule, line and column."""


@cache
def main_pump() -> str:
    """The text of the main pump, XMPL-HC40."""
    return MAIN_PUMP.read_text(encoding="utf-8")


def changed(text: str, *changes: tuple[str, str]) -> str:
    """The text with each old piece, which has to stand there exactly once, made the new one."""
    for old, new in changes:
        assert text.count(old) == 1, f"found {text.count(old)} times: {old!r}"
        text = text.replace(old, new)
    return text


def small_pump(*changes: tuple[str, str], more: str = "") -> str:
    """The small pump, changed, with more tables at its end."""
    return changed(SMALL_PUMP, *changes) + more


def in_small_pump(piece: str) -> str:
    """The small pump with a piece read into it as the manual says: by ids, beside its neighbours."""
    return within_the_whole(piece)


def parsed(text: str) -> Read[Procedure]:
    return parse_procedure(text.encode(), "small.toml")


@cache
def other_pump() -> Read[Procedure]:
    """The procedure of another, larger pump in the same workspace."""
    return parsed(
        small_pump(
            ('id = "xmpl-s1"', 'id = "xmpl-s2"'),
            ('item = "M6 x 20"', 'item = "M8 x 30"'),
            ('target = "7 N·m", tolerance = "10 %"', 'target = "18 N·m", tolerance = "8 %"'),
            ('thread = "M6"', 'thread = "M8"'),
        )
    )


@cache
def earlier_revision() -> Read[Procedure]:
    """Revision 0 of the small pump, which is still released."""
    return parsed(
        small_pump(('revision = "A"', 'revision = "0"'), ('status = "draft"', 'status = "released"'))
    )


def subject(
    text: str, *, wrenches: Sequence[Wrench] | None = None, others: Sequence[Read[Procedure]] | None = None
) -> Subject:
    """What the rules look at; if not told, with the demonstration's wrenches and two other procedures."""
    return Subject(
        parsed(text),
        registers().wrenches if wrenches is None else tuple(wrenches),
        registers().gauges,
        (other_pump(), earlier_revision()) if others is None else tuple(others),
    )


def findings(
    text: str, *, wrenches: Sequence[Wrench] | None = None, others: Sequence[Read[Procedure]] | None = None
) -> list[Finding]:
    """All that the rules say on a procedure."""
    return list(check(subject(text, wrenches=wrenches, others=others)).findings)


def told(found: Sequence[Finding]) -> list[Told]:
    return [(each.rule, each.place.line, each.place.column) for each in found]


def rules_found(text: str, *, wrenches: Sequence[Wrench] | None = None) -> list[str]:
    return [each.rule for each in findings(text, wrenches=wrenches)]


_MARK = re.compile(r"# ← (?P<rule>[a-z0-9-]+)(?: at (?P<value>.+?))?\s*$")


def marked(text: str) -> list[Told]:
    """The findings that a text says of itself."""
    found: list[Told] = []
    for number, line in enumerate(text.splitlines(), 1):
        if mark := _MARK.search(line):
            found.append((mark["rule"], number, _column(line[: mark.start()], mark["value"])))
    return found


def _column(line: str, value: str | None) -> int:
    """Where the value stands; without one: the first value of a key, or the name of a table's header."""
    if value is not None:
        return line.index(value) + 1
    start = re.match(r"\s*\[*(?:[\w.\"' -]+? = )?", line)
    assert start is not None
    return start.end() + 1


def assert_as_marked(
    text: str, *consequences: str, wrenches: Sequence[Wrench] | None = None
) -> list[Finding]:
    """The marked findings come, in their places, and nothing else but the named rules that follow from them.

    Returns the marked ones.
    """
    found = findings(text, wrenches=wrenches)
    theirs = [each for each in found if told([each])[0] in marked(text)]
    others = [each for each in found if each not in theirs]
    shown = "\n".join(each.as_text() for each in found)
    assert told(theirs) == marked(text), shown or "nothing was found"
    assert sorted({each.rule for each in others}) == sorted(set(consequences)), shown
    return theirs
