"""The only way from a text of a file, a scanner or a person to the screen.

Such a text is data: it is shown letter for letter and never read as markup, and nothing in it reaches the
terminal as a command. Controls become a visible replacement sign; joiners that have no width are left out.
"""

from __future__ import annotations

import re

REPLACEMENT = "\N{REPLACEMENT CHARACTER}"

_BLANKS = re.compile(r"[\t\n\r\v\f\u2028\u2029\u0085]+")
_NO_WIDTH = re.compile(r"[\u00ad\u200b-\u200f\u2060\ufe00-\ufe0f\U000e0100-\U000e01ef]")
_CONTROLS = re.compile(
    r"[\u0000-\u001f\u007f-\u009f\u061c\u06dd\u0600-\u0605\u070f\u0890\u0891\u08e2\u180e"
    r"\u202a-\u202e\u2061-\u206f\ud800-\udfff\ufdd0-\ufdef\ufeff\ufff9-\uffff"
    r"\U000110bd\U000110cd\U00013430-\U0001343f\U0001bca0-\U0001bca3\U0001d173-\U0001d17a\U000e0000-\U000e007f]"
)


def literal(text: str) -> str:
    """A text of one line that is safe to draw: no control, no line break, no letter without a place."""
    if text.isascii() and text.isprintable():
        return text
    return made_safe(_NO_WIDTH.sub("", _BLANKS.sub(" ", text)))


def made_safe(text: str) -> str:
    """The text with anything a terminal would obey replaced; what is safe stays as it is."""
    return _CONTROLS.sub(REPLACEMENT, text)
