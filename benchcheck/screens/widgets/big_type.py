"""The two sizes of large type: the verb in half blocks, three rows; the one number in full blocks, five rows.

Large type is read from a step away, so a sheet holds one of each at most. In plain ASCII the verb becomes
spaced capitals over a rule, in the same three rows; the number stays, because its blocks have a twin.
"""

from __future__ import annotations

from collections.abc import Mapping

from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.cells import Drawing, Run, cut, width_of

VERB_ROWS = 3
NUMBER_ROWS = 5

_VERB_GAP = 1
_NUMBER_GAP = 2

_VERB_GLYPHS: Mapping[str, tuple[str, str, str]] = {
    " ": ("  ", "  ", "  "),
    "-": ("   ", "▀▀▀", "   "),
    "A": ("▄▀▀▄", "█▀▀█", "▀  ▀"),
    "B": ("█▀▀▄", "█▀▀▄", "▀▀▀ "),
    "C": ("▄▀▀▀", "█   ", " ▀▀▀"),
    "D": ("█▀▀▄", "█  █", "▀▀▀ "),
    "E": ("█▀▀▀", "█▀▀ ", "▀▀▀▀"),
    "F": ("█▀▀▀", "█▀▀ ", "▀   "),
    "G": ("▄▀▀▀", "█ ▀█", " ▀▀▀"),
    "H": ("█  █", "█▀▀█", "▀  ▀"),
    "I": ("█", "█", "▀"),
    "J": ("  ▀█", "▄  █", " ▀▀ "),
    "K": ("█ ▄▀", "█▀▄ ", "▀  ▀"),
    "L": ("█   ", "█   ", "▀▀▀▀"),
    "M": ("█▄ ▄█", "█ ▀ █", "▀   ▀"),
    "N": ("█▄ █", "█ ▀█", "▀  ▀"),
    "O": ("▄▀▀▄", "█  █", " ▀▀ "),
    "P": ("█▀▀▄", "█▀▀ ", "▀   "),
    "Q": ("▄▀▀▄", "█ ▄▀", " ▀ ▀"),
    "R": ("█▀▀▄", "█▀█ ", "▀  ▀"),
    "S": ("▄▀▀▀", " ▀▀▄", "▀▀▀ "),
    "T": ("▀▀█▀▀", "  █  ", "  ▀  "),
    "U": ("█  █", "█  █", " ▀▀ "),
    "V": ("█   █", " █ █ ", "  ▀  "),
    "W": ("█   █", "█▄▀▄█", "▀   ▀"),
    "X": ("▀▄ ▄▀", " ▄▀▄ ", "▀   ▀"),
    "Y": ("▀▄ ▄▀", "  █  ", "  ▀  "),
    "Z": ("▀▀█▀", "▄▀  ", "▀▀▀▀"),
    "0": ("▄▀▀▄", "█  █", " ▀▀ "),
    "1": ("▄█", " █", " ▀"),
    "2": ("▀▀▀▄", "▄▀▀ ", "▀▀▀▀"),
    "3": ("▀▀▀▄", " ▀▀▄", "▀▀▀ "),
    "4": ("█ █ ", "▀▀█▀", "  ▀ "),
    "5": ("█▀▀▀", "▀▀▀▄", "▀▀▀ "),
    "6": ("▄▀▀ ", "█▀▀▄", " ▀▀ "),
    "7": ("▀▀▀█", " ▄▀ ", " ▀  "),
    "8": ("▄▀▀▄", "▄▀▀▄", " ▀▀ "),
    "9": ("▄▀▀▄", " ▀▀█", " ▀▀ "),
}

_NUMBER_GLYPHS: Mapping[str, tuple[str, str, str, str, str]] = {
    "0": ("██████", "██  ██", "██  ██", "██  ██", "██████"),
    "1": ("  ██  ", "████  ", "  ██  ", "  ██  ", "██████"),
    "2": ("██████", "    ██", "██████", "██    ", "██████"),
    "3": ("██████", "    ██", "██████", "    ██", "██████"),
    "4": ("██  ██", "██  ██", "██████", "    ██", "    ██"),
    "5": ("██████", "██    ", "██████", "    ██", "██████"),
    "6": ("██████", "██    ", "██████", "██  ██", "██████"),
    "7": ("██████", "    ██", "    ██", "    ██", "    ██"),
    "8": ("██████", "██  ██", "██████", "██  ██", "██████"),
    "9": ("██████", "██  ██", "██████", "    ██", "██████"),
    ".": ("  ", "  ", "  ", "  ", "██"),
    ":": ("  ", "██", "  ", "██", "  "),
    "-": ("    ", "    ", "████", "    ", "    "),
    "°": ("██████", "██  ██", "██████", "      ", "      "),
}


def draw_verb(words: str, width: int, *, plain: bool = False) -> Drawing:
    """The verb of a sheet in half blocks, three rows.

    Words that hold a letter without a block form, or that need more than `width` cells, are set as spaced
    capitals over a rule, as they always are when `plain`; if even those are too wide, as close capitals.
    """
    capitals = " ".join(words.upper().split())
    if not plain and all(letter in _VERB_GLYPHS for letter in capitals):
        rows = _set(capitals, _VERB_GLYPHS, VERB_ROWS, _VERB_GAP)
        if width_of(rows[0]) <= width:
            return tuple((Run(row, Tone.INK),) for row in rows)
    spaced = " ".join(capitals)
    text = spaced if width_of(spaced) <= width else cut(capitals, width)
    return ((), (Run(text, Tone.INK),), (Run("═" * width_of(text), Tone.INK),))


def draw_number(figure: str) -> Drawing:
    """A number, a time left or an angle in full blocks, five rows; digits, point, colon, minus and degree.

    Raises ValueError for any other character: what goes on a wrench is never drawn in part.
    """
    unknown = sorted(set(figure) - set(_NUMBER_GLYPHS))
    if unknown:
        raise ValueError(f"no large form for {''.join(unknown)!r} in {figure!r}")
    rows = _set(figure, _NUMBER_GLYPHS, NUMBER_ROWS, _NUMBER_GAP)
    return tuple((Run(row, Tone.INK),) for row in rows)


def number_width(figure: str) -> int:
    """Width in cells of a figure as `draw_number` sets it."""
    return sum(len(_NUMBER_GLYPHS[sign][0]) for sign in figure) + _NUMBER_GAP * (len(figure) - 1)


def _set(text: str, glyphs: Mapping[str, tuple[str, ...]], rows: int, gap: int) -> list[str]:
    return [(" " * gap).join(glyphs[letter][row] for letter in text) for row in range(rows)]
