"""The bytes of a TOML file, read: its values, and the line and column of each.

A file that cannot be read gives findings instead, each with its place. What steers a terminal is taken out
of every text, and said. What the keys mean, and whether they are the right ones, is for `reading`.
"""

from __future__ import annotations

import codecs
import re
import tomllib
from bisect import bisect_left, bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from benchcheck.procedure.characters import clean, name_of, steering_characters, without
from benchcheck.procedure.finding import Finding, Place, Severity, sort
from benchcheck.procedure.positions import (
    DEEPEST_NESTING,
    Position,
    locate,
    tokenise,
    too_deep,
)
from benchcheck.procedure.table import Path
from benchcheck.procedure.toml_faults import explain

SIZE_LIMIT = 1_000_000
"""The longest file that is read [bytes]; who opens a file need not read more than one byte beyond it."""

_FIRST_LINES = 10
"""How many lines with control characters are said one by one; the rest is counted."""


@dataclass(frozen=True)
class Lines:
    """A decoded file whose steering characters are gone, and which still knows its original columns."""

    file: str
    text: str
    removed: tuple[int, ...] = ()

    @cached_property
    def line_starts(self) -> list[int]:
        starts = [0]
        while (newline := self.text.find("\n", starts[-1])) >= 0:
            starts.append(newline + 1)
        return starts

    def place(self, offset: int) -> Place:
        """The place of the character at `offset`, in columns of the file as it stands on disk."""
        line = bisect_right(self.line_starts, offset)
        start = self.line_starts[line - 1]
        gone = bisect_right(self.removed, offset) - bisect_left(self.removed, start)
        return Place(self.file, line, offset - start + gone + 1)

    def line(self, number: int) -> str:
        """Line `number`, from 1, without its end; empty beyond the last."""
        if not 1 <= number <= len(self.line_starts):
            return ""
        start = self.line_starts[number - 1]
        end = self.text.find("\n", start)
        return self.text[start : end if end >= 0 else None]


@dataclass(frozen=True)
class Source:
    """A TOML file that was read.

    Parameters:
        data: its values, as the standard library gives them, with steering characters taken out.
        findings: what was taken out; warnings only.
    """

    lines: Lines
    data: dict[str, Any]
    findings: tuple[Finding, ...] = ()

    @cached_property
    def positions(self) -> dict[Path, Position]:
        """Where each value stands; worked out when something is first to be said of one."""
        return locate(self.lines.text, tokenise(self.lines.text))

    @property
    def file(self) -> str:
        return self.lines.file

    def line(self, number: int) -> str:
        """Line `number` of the file, from 1, safe to be shown."""
        return self.lines.line(number)

    def place(self, path: Path, *, key: bool = False) -> Place:
        """Where the value at `path` stands (with `key`: its key), or the nearest thing around it.

        What a table lacks is thus placed at the table's header.
        """
        for length in range(len(path), 0, -1):
            position = self.positions.get(path[:length])
            if position is not None:
                return self.lines.place(position.key if key else position.start)
        return Place(self.file, 1, 1)

    def value(self, path: Path) -> Any:
        """The value at `path`. Raises KeyError or IndexError if there is none."""
        value: Any = self.data
        for part in path:
            value = value[part]
        return value

    def raw(self, path: Path) -> str:
        """The value at `path` as it is written in the file; empty if it is not written as one value."""
        position = self.positions.get(path)
        return self.lines.text[position.start : position.end] if position else ""


def read(content: bytes, file: str) -> Source | list[Finding]:
    """A TOML file's bytes as values with places, or what is wrong with them.

    Parameters:
        content: the whole file; beyond `SIZE_LIMIT` it is refused unread.
        file: its name as it shall stand in findings.
    """
    text = _decode(content, file)
    if isinstance(text, Finding):
        return [text]
    removed = steering_characters(text)
    lines = Lines(file, without(text, removed), tuple(at - index for index, at in enumerate(removed)))
    warnings = _said(removed, Lines(file, text))
    data = _parse(lines)
    if isinstance(data, Finding):
        return sort([*warnings, data])
    escaped = "\\" in lines.text and _RARE_ESCAPE.search(lines.text)
    if not (escaped or _LONG_NUMBER.search(lines.text)):
        return Source(lines, data, tuple(sort(warnings)))
    faults = list(_faults_of_values(Source(lines, data), data, ()))
    if any(fault.severity is Severity.ERROR for fault in faults):
        return sort([*warnings, *faults])
    return Source(lines, _cleaned(data), tuple(sort([*warnings, *faults])))


def _decode(content: bytes, file: str) -> str | Finding:
    """The file's text with one kind of line end, or why it is none."""

    def fault(rule: str, message: str, remedy: str, at: int = 0) -> Finding:
        start = content.rfind(b"\n", 0, at) + 1
        column = len(content[start:at].removeprefix(codecs.BOM_UTF8).decode("utf-8", "replace")) + 1
        place = Place(file, content.count(b"\n", 0, at) + 1, column)
        return Finding(rule, Severity.ERROR, place, message, remedy)

    if len(content) > SIZE_LIMIT:
        return fault(
            "file-too-long",
            "The file is longer than 1 MB (1 000 000 bytes), which is more than a file of this kind needs.",
            "Check that it is the right file.",
        )
    if content.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)) or content[:2].count(0) == 1:
        return fault("not-utf-8", "The file is written in UTF-16.", "Save it again, as UTF-8.")
    if b"\0" in content:
        at = content.index(b"\0")
        return fault(
            "not-text",
            "The file holds null characters from here on; it is no text, or its end was lost in a power cut.",
            "Check that it is the right file, or take it back from a copy.",
            at,
        )
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        # The byte order mark is cut off before the error's offset is counted.
        at = error.start + (len(codecs.BOM_UTF8) if content.startswith(codecs.BOM_UTF8) else 0)
        perhaps = content[at : at + 1].decode("latin-1")
        letter = f" (it may be meant as {perhaps} in Latin-1)" if perhaps.isprintable() else ""
        return fault(
            "not-utf-8",
            f"The byte 0x{content[at]:02X} here is not UTF-8{letter}.",
            "Save the file again, as UTF-8.",
            at,
        )
    text = text.replace("\r\n", "\n")
    if "\r" in text and "\n" not in text:
        return fault(
            "old-line-ends",
            "The lines of the file end with a carriage return alone.",
            "Save it again, with the line ends of Linux or of Windows.",
        )
    return text


def _parse(lines: Lines) -> dict[str, Any] | Finding:
    def fault(offset: int, rule: str, message: str, remedy: str) -> Finding:
        return Finding(rule, Severity.ERROR, lines.place(offset), message, remedy)

    # The parser takes quadratic time for long dotted keys, so those are looked at first.
    dotted = any(line.count(".") >= DEEPEST_NESTING for line in lines.text.split("\n"))
    data = None if dotted else _loaded(lines.text)
    if not isinstance(data, dict) or _is_too_deep(data):
        deep = too_deep(tokenise(lines.text))
        if deep is not None:
            return fault(
                deep,
                "nested-too-deep",
                f"More than {DEEPEST_NESTING} levels of tables or arrays stand inside each other here.",
                "Look for a bracket or a dot too many.",
            )
        if data is None:
            data = _loaded(lines.text)
    if isinstance(data, tomllib.TOMLDecodeError):
        return explain(lines.text, tokenise(lines.text), data, lines.place)
    if isinstance(data, Exception):
        # The one other thing that the parser lets through from Python: too many digits for an integer.
        words = (token for token in tokenise(lines.text) if token.kind == "word")
        longest = max(words, key=lambda token: token.end - token.start)
        return fault(longest.start, "number-too-large", *_TOO_LARGE)
    if not data:
        what = "nothing but remarks and blank lines" if lines.text.strip() else "nothing"
        return fault(
            0, "empty-file", f"The file holds {what}.", "Write it, or check that it is the right file."
        )
    return data


def _loaded(text: str) -> dict[str, Any] | Exception:
    """What the parser makes of a text; it falls over deep brackets."""
    try:
        return tomllib.loads(text)
    except (ValueError, RecursionError) as error:
        return error


def _is_too_deep(data: dict[str, Any]) -> bool:
    """Whether more tables and arrays stand inside each other than brackets may."""
    level: list[Any] = [data]
    for _ in range(DEEPEST_NESTING + 1):
        level = [
            item
            for value in level
            for item in (value.values() if isinstance(value, dict) else value)
            if isinstance(item, dict | list)
        ]
        if not level:
            return False
    return True


_TOO_LARGE = (
    "A whole number here has more digits than can be meant.",
    "Write a number of at most 18 digits.",
)
_LARGEST_INTEGER = 10**18
_RARE_ESCAPE = re.compile(r"""\\[^\\"nt\s]""")
"""Without one no text has a character to take out that the file has not."""
_LONG_NUMBER = re.compile(r"[0-9][0-9A-Fa-f_box]{15}")
"""Ten to the eighteenth has as many characters in each base."""


def _said(removed: list[int], original: Lines) -> list[Finding]:
    """A warning for each line from which characters were taken, the first of them placed and named."""
    by_line: dict[int, list[int]] = {}
    for at in removed:
        by_line.setdefault(bisect_right(original.line_starts, at), []).append(at)
    lines = list(by_line.values())
    warnings = []
    for first, *others in lines[:_FIRST_LINES]:
        message = f"Found {name_of(original.text[first])}; it was taken out."
        if others:
            more = f"{len(others)} more such characters in this line"
            message = f"Found {name_of(original.text[first])} and {more}; they were taken out."
        warnings.append(
            _taken_out(original.place(first), message, "Delete from the file what cannot be seen here.")
        )
    if rest := lines[_FIRST_LINES:]:
        message = f"{len(rest)} more lines, from here on, hold control characters; they were taken out."
        warnings.append(_taken_out(original.place(rest[0][0]), message, "Delete them from the file."))
    return warnings


def _taken_out(place: Place, message: str, remedy: str) -> Finding:
    return Finding("control-character", Severity.WARNING, place, message, remedy)


def _faults_of_values(source: Source, value: object, path: Path) -> Iterator[Finding]:
    """What TOML allows and we do not: escaped control characters, integers beyond all use."""
    if isinstance(value, dict):
        for key, item in value.items():
            inner = (*path, key)
            if steering := steering_characters(key):
                yield Finding(
                    "control-character",
                    Severity.ERROR,
                    source.place(inner, key=True),
                    f"Found {name_of(key[steering[0]])} in the name of a key.",
                    "Write the key without it.",
                )
            yield from _faults_of_values(source, item, inner)
    elif isinstance(value, list):
        for index, item in enumerate(value):
            yield from _faults_of_values(source, item, (*path, index))
    elif isinstance(value, str):
        if steering := steering_characters(value):
            message = (
                f"Found {name_of(value[steering[0]])}, written as an escape; it was taken out of the text."
            )
            yield _taken_out(source.place(path), message, "Delete it from the file.")
    elif isinstance(value, int) and abs(value) >= _LARGEST_INTEGER:
        yield Finding("number-too-large", Severity.ERROR, source.place(path), *_TOO_LARGE)


def _cleaned(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _cleaned(item) for key, item in value.items()}
    if isinstance(value, list):
        return [_cleaned(item) for item in value]
    return clean(value) if isinstance(value, str) else value
