"""Report text in ASCII, for printers and programs that know nothing else.

Signs are spelled out where that takes more than one letter, so this comes before a text is laid out. A letter
with a mark loses the mark; one that has no twin becomes a question mark.
"""

from __future__ import annotations

import re
import unicodedata

from benchcheck.report.columns import KEPT

_SPELLED_OUT = {
    "±": "+/-",
    "·": ".",
    "×": "x",
    "≤": "<=",
    "≥": ">=",
    "…": "...",
    "²": "^2",
    "³": "^3",
    "½": "1/2",
    "¼": "1/4",
    "¾": "3/4",
    "µ": "u",
    "ß": "ss",
    "ø": "o",
    "Ø": "O",
    "–": "-",
    "—": "-",
    "−": "-",
    "‘": "'",
    "’": "'",
    "“": '"',
    "”": '"',
    KEPT: KEPT,  # becomes a blank once the lines are broken
    **dict.fromkeys("─━", "-"),
    **dict.fromkeys("├┤│", "|"),
    "┼": "+",
    "●": "o",
    "═": "=",
}
_DEGREES = re.compile(r" ?°(?=([A-Za-z]?))")


def in_ascii(text: str) -> str:
    """The text in ASCII; it may come out longer."""
    if text.isascii():
        return text
    text = _DEGREES.sub(lambda found: " deg " if found[1] else " deg", text)
    return "".join(_SPELLED_OUT.get(sign) or _bare(sign) for sign in text)


def _bare(sign: str) -> str:
    if sign.isascii():
        return sign
    if unicodedata.combining(sign):
        return ""
    bare = "".join(each for each in unicodedata.normalize("NFKD", sign) if each.isascii())
    return bare or "?"
