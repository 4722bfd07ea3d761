"""Where in a TOML text each key and each value stands.

The standard parser gives values without places. This scanner goes over a text which that parser has
accepted and notes the offset of every key, value and array item under its path. It judges nothing, with one
exception: for a text refused because something is declared twice, it knows the two places.
"""

from __future__ import annotations

import re
import tomllib
from contextlib import suppress
from typing import NamedTuple

from benchcheck.procedure.table import Path

_STRING = r'''
      (?P<string> """(?:[^"\\]++|\\[\s\S]|"(?!""))*+"{3,5}
                | \'\'\'(?:[^']++|'(?!\'\'))*+'{3,5} )
    | (?P<open>   """[\s\S]*+ | \'\'\'[\s\S]*+ )
    | (?P<line>   "(?:[^"\\\n]++|\\[^\n])*+" | '[^'\n]*+' )
    | (?P<broken> ["'][^\n]*+ )
'''
_TOKEN = re.compile(
    _STRING
    + r"""
    | (?P<skip>   [ \t]++ | \#[^\n]*+ )
    | (?P<mark>   [\n\[\]{}=,.] )
    | (?P<word>   [^\s\[\]{}=,."'\#]++ )
    | (?P<other>  [\s\S] )
    """,
    re.VERBOSE,
)
DEEPEST_NESTING = 32
"""Arrays and tables inside each other, or parts of a dotted key; far beyond what any of our formats uses."""


class Token(NamedTuple):
    """A piece of TOML. Its kind is the mark itself, or string, word, broken (no closing quote) or other."""

    kind: str
    start: int
    end: int


class Position(NamedTuple):
    """Offsets of a key and of its value (`start` to `end`; for a table with a header both are the key's)."""

    key: int
    start: int
    end: int


class Twice(NamedTuple):
    """A path that is declared a second time, and the offsets of both declarations."""

    path: Path
    first: int
    second: int


def tokenise(text: str) -> list[Token]:
    """The pieces of a TOML text, right or wrong, without blanks and comments."""
    tokens = []
    for match in _TOKEN.finditer(text):
        group = match.lastgroup or ""
        if group == "skip":
            continue
        kind = match.group() if group == "mark" else _KINDS.get(group, group)
        tokens.append(Token(kind, match.start(), match.end()))
    return tokens


_KINDS = {"line": "string", "open": "broken"}


def too_deep(tokens: list[Token]) -> int | None:
    """The offset where brackets, or the parts of a dotted key, first nest deeper than we read."""
    depth = dots = 0
    for token in tokens:
        if token.kind in "[{":
            depth += 1
        elif token.kind in "]}":
            depth -= 1
        dots = 0 if token.kind in "\n=,[]{}" else dots + (token.kind == ".")
        if depth > DEEPEST_NESTING or dots >= DEEPEST_NESTING:
            return token.start
    return None


def locate(text: str, tokens: list[Token]) -> dict[Path, Position]:
    """The position of every path of a text that the standard parser accepts."""
    scan = _Scan(text, tokens)
    scan.document()
    return scan.positions


def declared_twice(text: str, tokens: list[Token]) -> Twice | None:
    """The first thing that a text declares twice; the text may be broken after that."""
    scan = _Scan(text, tokens)
    with suppress(IndexError, tomllib.TOMLDecodeError):  # it may run into whatever else is wrong
        scan.document()
    return scan.twice


class _Scan:
    """One pass over the tokens; `kinds` says what made a path: a value, a header, the way to a header."""

    def __init__(self, text: str, tokens: list[Token]) -> None:
        self.text = text
        self.tokens = tokens
        self.next = 0
        self.positions: dict[Path, Position] = {}
        self.kinds: dict[Path, str] = {}
        self.count: dict[Path, int] = {}
        self.twice: Twice | None = None

    def document(self) -> None:
        table: Path = ()
        while self.next < len(self.tokens) and self.twice is None:
            kind = self.tokens[self.next].kind
            if kind == "\n":
                self.next += 1
            elif kind == "[":
                table = self.header()
            else:
                self.pair(table)

    def header(self) -> Path:
        self.next += 1
        is_array = self.tokens[self.next].kind == "["
        self.next += is_array
        path: Path = ()
        *before, (last, offset) = self.key()
        for name, part_offset in before:
            path = (*path, name)
            if self.kinds.get(path) == "value":
                self.note_twice(path, part_offset)
            if path in self.count:
                path = (*path, self.count[path] - 1)
            elif path not in self.kinds:
                self.note(path, part_offset, "on the way")
        path = (*path, last)
        known = self.kinds.get(path)
        if known not in (None, "array" if is_array else "on the way"):
            self.note_twice(path, offset)
        if is_array:
            if known is None:
                self.note(path, offset, "array")
            index = self.count.get(path, 0)
            self.count[path] = index + 1
            path = (*path, index)
        self.note(path, offset, "header")
        self.next += 1 + is_array
        return path

    def pair(self, table: Path) -> None:
        *before, (last, offset) = self.key()
        path = table
        for name, part_offset in before:
            path = (*path, name)
            known = self.kinds.get(path)
            if known in ("value", "header", "array"):
                self.note_twice(path, part_offset)
            elif known is None:
                self.note(path, part_offset, "dotted")
        path = (*path, last)
        if path in self.kinds:
            self.note_twice(path, offset)
        self.next += 1
        self.value(path, offset)

    def key(self) -> list[tuple[str, int]]:
        """The parts of a dotted key up to its `=` or `]`, each with its offset."""
        parts = []
        while True:
            kind, start, end = self.tokens[self.next]
            self.next += 1
            raw = self.text[start:end]
            if kind == "string":
                raw = tomllib.loads(f"x = {raw}")["x"] if "\\" in raw else raw[1:-1]
            parts.append((raw, start))
            if self.tokens[self.next].kind != ".":
                return parts
            self.next += 1

    def value(self, path: Path, key: int) -> None:
        kind, start, end = self.tokens[self.next]
        self.kinds[path] = "value"
        self.positions.setdefault(path, Position(key, start, end))
        self.next += 1
        if kind == "[":
            self.array(path)
        elif kind == "{":
            self.inline_table(path)
        elif kind != "string":
            while self.next < len(self.tokens) and self.tokens[self.next].kind not in _AFTER_SCALAR:
                self.next += 1
        if self.positions[path].key == key:
            self.positions[path] = Position(key, start, self.tokens[self.next - 1].end)

    def array(self, path: Path) -> None:
        index = 0
        while (kind := self.tokens[self.next].kind) != "]":
            if kind in "\n,":
                self.next += 1
            else:
                self.value((*path, index), self.tokens[self.next].start)
                index += 1
        self.next += 1

    def inline_table(self, path: Path) -> None:
        while (kind := self.tokens[self.next].kind) != "}":
            if kind in "\n,":
                self.next += 1
            else:
                self.pair(path)
        self.next += 1

    def note(self, path: Path, offset: int, kind: str) -> None:
        self.kinds[path] = kind
        self.positions[path] = Position(offset, offset, offset)

    def note_twice(self, path: Path, offset: int) -> None:
        if self.twice is None:
            self.twice = Twice(path, self.positions[path].key, offset)


_AFTER_SCALAR = frozenset("\n,]}")
