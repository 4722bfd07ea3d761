"""Findings as a person reads them, each with the line it is about, and as other programs do.

What is found is for `checking`. A file's text is shown as it stands, but for what would steer the terminal.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Mapping, Sequence

from benchcheck.procedure.characters import clean, steering_characters
from benchcheck.procedure.finding import Finding, Place, Severity

WIDEST = 100
"""How much of a long line is shown [cells]."""
_COLOURS = {Severity.ERROR: "1;31", Severity.WARNING: "1;33", Severity.ADVICE: "1;36"}


def as_text(findings: Iterable[Finding], contents: Mapping[str, bytes], *, coloured: bool = False) -> str:
    """All findings, one below the other.

    Parameters:
        contents: the bytes of each file that findings are about.
        coloured: whether what is bad may stand out in colour too.
    """
    lines = {file: content.split(b"\n") for file, content in contents.items()}
    return "".join(_block(each, lines.get(each.place.file, []), coloured) for each in findings)


def silenced_as_text(silenced: Iterable[tuple[Finding, str]]) -> str:
    """Findings that their file lets stand, each with the reason that it gives."""
    return "".join(
        f"{clean(str(finding.place))}: silenced {finding.rule}: {clean(finding.message)}\n"
        f"    {clean(reason)}\n"
        for finding, reason in silenced
    )


def as_json(
    findings: Iterable[Finding], files: int, silenced: Iterable[tuple[Finding, str]] = ()
) -> dict[str, object]:
    """The findings on so many files, for other programs."""
    return {
        "findings": [finding.as_json() for finding in findings],
        "silenced": [{**finding.as_json(), "reason": reason} for finding, reason in silenced],
        "files": files,
    }


def summary(findings: Sequence[Finding], files: int, silenced: int = 0) -> str:
    """How many of each there are, as a sentence."""
    counts = [
        _count(number, word)
        for severity, word in ((Severity.ERROR, "error"), (Severity.WARNING, "warning"))
        if (number := sum(finding.severity is severity for finding in findings))
    ]
    if advice := sum(finding.severity is Severity.ADVICE for finding in findings):
        counts.append(f"{advice} piece{'s' * (advice > 1)} of advice")
    rest = f"; {_count(silenced, 'finding')} silenced" if silenced else ""
    return f"{', '.join(counts) or 'Nothing found'} in {_count(files, 'file')}{rest}."


def guilty_line(place: Place, lines: Sequence[bytes], widest: int = WIDEST) -> tuple[str, int] | None:
    """The part of a file's line that a place is in, and how many cells before it the mark has to leave.

    Parameters:
        lines: all lines of the file.
        widest: how much of a long line is shown [cells].

    None where there is nothing to be seen.
    """
    line = _shown(lines[place.line - 1]) if place.line <= len(lines) else ""
    return _marked(line, place.column, widest) if line.strip() else None


def _block(finding: Finding, lines: Sequence[bytes], coloured: bool) -> str:
    place = finding.place
    kind = f"{finding.severity} {finding.rule}"
    if coloured:
        kind = f"\x1b[{_COLOURS[finding.severity]}m{kind}\x1b[0m"
    block = f"{clean(str(place))}: {kind}: {clean(finding.message)}\n"
    if (guilty := guilty_line(place, lines)) is not None:
        part, mark = guilty
        margin = " " * len(str(place.line))
        block += f"    {place.line} | {part}\n    {margin} | {' ' * mark}^\n"
    return f"{block}    {clean(finding.remedy)}\n"


def _shown(line: bytes) -> str:
    """A line safe to be shown, with one sign for each of its own, so that columns go on meaning the same."""
    if b"\0" in line:
        return ""  # no text
    text = line.removesuffix(b"\r").decode("utf-8-sig", "replace")
    steering = set(steering_characters(text))
    return "".join("\ufffd" if at in steering else sign for at, sign in enumerate(text)).replace("\t", " ")


def _marked(line: str, column: int, widest: int) -> tuple[str, int]:
    """The part of the line around a column, and how many cells before it the mark has to leave."""
    at = min(column - 1, len(line))
    start = max(0, min(at - widest // 2, len(line) - widest))
    shown = line[start : start + widest]
    before, behind = "…" * (start > 0), "…" * (start + widest < len(line))
    return before + shown.rstrip() + behind, len(before) + sum(map(_cells, line[start:at]))


def _cells(character: str) -> int:
    if unicodedata.combining(character):
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}{'' if number == 1 else 's'}"
