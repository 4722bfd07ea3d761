"""Whether two spellings are one person: surely, or perhaps.

Case, blanks, full stops and accents tell nobody apart. Names that are a slip of the hand apart, or where one
has an initial for what the other spells out, may be one person's; that is for a person to say.
"""

from __future__ import annotations

import re
import unicodedata

LEAST_LETTERS = 4
"""A shorter word that differs by a letter is another word."""


def same_name(one: str, other: str) -> bool:
    """Whether two spellings are one person: case, blanks, full stops and accents do not tell people apart."""
    return "".join(_words(one)) == "".join(_words(other))


def alike(one: str, other: str) -> bool:
    """Whether two names may be one person's."""
    these, those = _words(one), _words(other)
    if sorted(these) == sorted(those):
        return True
    if len(these) != len(those):
        return _a_letter_off("".join(these), "".join(those))
    differ = [(this, that) for this, that in zip(these, those, strict=True) if this != that]
    if these[-1] == those[-1] and all(_initial_of(*pair) for pair in differ):
        return True
    return len(differ) == 1 and _a_letter_off(*differ[0])


def _words(name: str) -> list[str]:
    """The words of a name: what is left of it without case, marks and accents."""
    letters = unicodedata.normalize("NFKD", name).casefold()
    plain = "".join(each for each in letters if not unicodedata.combining(each))
    return re.findall(r"[^\W_]+", plain)


def _initial_of(one: str, other: str) -> bool:
    """Whether one is the other's first letter."""
    return min(len(one), len(other)) == 1 and one[0] == other[0]


def _a_letter_off(one: str, other: str) -> bool:
    """Whether a letter is another one, too many, missing, or changed places with its neighbour."""
    short, long = sorted((one, other), key=len)
    if len(short) < LEAST_LETTERS or len(long) - len(short) > 1:
        return False
    if len(short) < len(long):
        return any(long[:place] + long[place + 1 :] == short for place in range(len(long)))
    wrong = [place for place, (this, that) in enumerate(zip(short, long, strict=True)) if this != that]
    if len(wrong) == 2 and wrong[1] == wrong[0] + 1:
        return short[wrong[0]] == long[wrong[1]] and short[wrong[1]] == long[wrong[0]]
    return len(wrong) == 1
