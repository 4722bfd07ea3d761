"""Characters that steer a terminal or a line instead of being read: they are taken out of every text.

Control characters (escape sequences), format characters (reversed text, invisible marks), halves of
surrogate pairs and the line and paragraph separators. Tabs and newlines stay; so do the two joiners after a
letter of the scripts that spell with them. What is shown, and how it is escaped there, is no business of
this module.
"""

from __future__ import annotations

import unicodedata

_STEERING_CATEGORIES = frozenset({"Cc", "Cf", "Cs", "Zl", "Zp"})
_JOINERS = "\u200c\u200d"
# The scripts that spell with joiners (Arabic, Indic and their neighbours) begin at the Arabic block.
_FIRST_SCRIPT_WITH_JOINERS = "\u0600"


def steering_characters(text: str) -> list[int]:
    """The offsets in `text` of the characters that have to go, in order; a carriage return is one of them."""
    suspects = {
        character
        for character in set(text)
        if character not in "\t\n" and unicodedata.category(character) in _STEERING_CATEGORIES
    }
    if not suspects:
        return []
    return [
        offset
        for offset, character in enumerate(text)
        if character in suspects and not _joins_letters(text, offset)
    ]


def without(text: str, offsets: list[int]) -> str:
    """`text` without the characters at `offsets`, which are in order."""
    pieces, start = [], 0
    for offset in offsets:
        pieces.append(text[start:offset])
        start = offset + 1
    return "".join((*pieces, text[start:]))


def clean(text: str) -> str:
    """`text` without its steering characters."""
    return without(text, steering_characters(text))


def name_of(character: str) -> str:
    """A character in words an author can look up: `U+001B (escape)`."""
    point = ord(character)
    name = _UNNAMED.get(point) or unicodedata.name(character, "control character").lower()
    return f"U+{point:04X} ({name})"


# Unicode gives control characters no names; these are the ones that turn up in files.
_UNNAMED = {
    0x00: "null",
    0x07: "bell",
    0x08: "backspace",
    0x0B: "vertical tab",
    0x0C: "form feed",
    0x0D: "carriage return",
    0x1B: "escape",
    0x1D: "group separator",
    0x7F: "delete",
    0x85: "next line",
    0x9B: "control sequence introducer",
}


def _joins_letters(text: str, offset: int) -> bool:
    return (
        text[offset] in _JOINERS
        and offset > 0
        and text[offset - 1] >= _FIRST_SCRIPT_WITH_JOINERS
        and unicodedata.category(text[offset - 1])[0] in "LM"
    )
