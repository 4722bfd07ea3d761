"""Text in columns: how wide it is on paper, broken into lines that fit, and padded.

Widths count cells, as terminals and printers of plain text do: most letters take one, some two, marks over a
letter none. What the text says is for others.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator

PAGE = 72
"""Width of a page of plain text [cells]."""
KEPT = "\N{NO-BREAK SPACE}"
"""A blank at which no line is broken."""


def width(text: str) -> int:
    """How many cells a text takes."""
    return len(text) if text.isascii() else sum(map(_cells, text))


def padded(text: str, cells: int, *, right: bool = False) -> str:
    """The text with blanks up to a width, behind it or before it."""
    blanks = " " * (cells - width(text))
    return blanks + text if right else text + blanks


def kept(text: str) -> str:
    """The text as one word: it is not broken at its blanks."""
    return text.replace(" ", KEPT)


def printed(text: str) -> str:
    """The text as it goes on paper, once all lines are broken."""
    return text.replace(KEPT, " ")


def wrapped(text: str, cells: int, indent: str = "", hanging: str | None = None) -> list[str]:
    """The text in lines that fit, broken at blanks only; a word that is too long by itself is cut.

    `indent` stands before the first line, `hanging` (the same, if left out) before the others.
    """
    hanging = indent if hanging is None else hanging
    lines: list[str] = []
    line, empty = indent, True
    for word in _words(text, cells - max(width(indent), width(hanging))):
        if not empty and width(line) + 1 + width(word) > cells:
            lines.append(line)
            line, empty = hanging, True
        line += word if empty else f" {word}"
        empty = False
    if not empty:
        lines.append(line)
    return lines


def longest_word(text: str) -> int:
    """The width below which the text cannot be broken without cutting a word."""
    return max((width(word) for word in text.split(" ")), default=0)


def _words(text: str, longest: int) -> Iterator[str]:
    for word in text.replace("\n", " ").replace("\t", " ").split(" "):
        piece = ""
        for letter in word:
            if width(piece) + _cells(letter) > max(longest, 2):
                yield piece
                piece = ""
            piece += letter
        if piece:
            yield piece


def _cells(letter: str) -> int:
    if unicodedata.category(letter) in ("Mn", "Me", "Cf"):
        return 0
    return 2 if unicodedata.east_asian_width(letter) in "WF" else 1
