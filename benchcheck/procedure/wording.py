"""How findings put things: the nearest known word, lists, places in a table, values cut to a length.

Plain functions over plain words, for every check of the package; no check stands here.
"""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches

from benchcheck.procedure.table import Path

_LONGEST_SHOWN = 60
_LIKE_ENOUGH = 0.6


def shortened(text: str) -> str:
    """`text` on one line, cut where it gets long."""
    text = " ".join(text[: 4 * _LONGEST_SHOWN].split())
    return text if len(text) <= _LONGEST_SHOWN else f"{text[: _LONGEST_SHOWN - 1]}…"


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word most like `word`, big and small letters being the same; None if none is like it."""
    by_letters = {each.casefold(): each for each in known}
    if len(word) > _LONGEST_SHOWN:  # comparing takes quadratic time, and no word of ours is so long
        return None
    matches = get_close_matches(word.casefold(), by_letters, n=1, cutoff=_LIKE_ENOUGH)
    return by_letters[matches[0]] if matches else None


def listed(words: Iterable[str], last: str = "or") -> str:
    """`a, b or c`."""
    *before, end = words
    return f"{', '.join(before)} {last} {end}" if before else end


def spelled(path: Path) -> str:
    """A path as a person would say it: `step 4, ask 1, min` (people count from one)."""
    words = ""
    for part in path:
        words += f" {part + 1}" if isinstance(part, int) else f"{', ' if words else ''}{shortened(part)}"
    return words
