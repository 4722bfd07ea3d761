"""Words of orientation in a text: which of them depend on how the work happens to be held.

"Up" in "pick up" does not, "up" in "lip up" does; "the right depth" is no side. Names that the procedure
itself gives to ends, marks and parts have a frame, and so has a sentence that says from where one looks.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from functools import lru_cache

from benchcheck.checking.texts import sentences
from benchcheck.procedure.model import Procedure

_NAME = "¤+"
"""A name of the procedure, letter by letter, while its text is looked at."""

_LONGEST_NAME = 60

_FRAME = re.compile(
    r"\b(?:(?:as )?(?:seen|viewed|looked at) (?:from|on|at)|look(?:ing)? (?:at|from|on|down on|into)"
    r"|facing you|from the (?:[\w-]+ ){0,3}(?:end|side|face)\b)",
    re.I,
)
_ENDS = r"\s*(?:[.,;:)!?]|$|and\b|when\b|while\b|as\b|side\b|end\b|face\b|edge\b|corner\b)"
"""What follows a side that is meant as one: "to the right." but not "to the right depth"."""
_SURFACES = (
    rf"(?:{_NAME}|lips?|sides?|ends?|faces?|mouth|groov\w+|dots?|edges?|chamfers?|flats?|springs?|seals?|rings?"
    r"|letters?|ports?|pockets?|arrows?|marks?|heads?|open|closed)"
)
_FACING = r"(?:fac(?:es?|ing|ed)|points?|pointing|looks|turn(?:s|ed|ing)?|lie(?:s)?|lying|stands?|standing)"

_PATTERNS = (
    r"\b(?:up|down|right|left)wards?\b",
    r"\b(?:upside[- ]down|(?:right|wrong) (?:way|side) up|face[- ]?(?:up|down))\b",
    r"\b(?:upper|lower)-?most\b",
    r"\b(?:upper|lower|top|bottom) (?:side|face|end|edge|half|corner|left|right)\b",
    rf"(?<!\w){_SURFACES} (?:up|down)\b(?!\s+(?:to|on|into|by|with|against|until)\b)",
    rf"\b{_FACING}(?: (?:{_NAME}|\w+)){{0,3}}? (?:up|down)\b(?!\s+(?:to|until)\b)",
    rf"\b{_FACING} (?:forwards?|backwards?|rearwards?|inwards?|outwards?|inside|outside)\b",
    rf"\b(?:to|toward|towards|on|at|from) (?:the|your|its) (?:left|right)(?={_ENDS})",
    r"\b(?:left|right)(?:-hand| hand)? (?:side|end|face|edge|corner)\b|\b(?:left|right)-?most\b",
    rf"\b(?:to|toward|towards|on|at|facing) (?:the|its) (?:front|rear|back)(?! of)(?={_ENDS})",
    r"\b(?:front|rear|back) (?:side|face|end)\b",
    rf"\b(?:toward|towards|on|at|facing) (?:the|its) (?:top|bottom)(?! of)(?={_ENDS})",
    rf"\b(?:toward|towards|facing|faces) the (?:inside|outside)(?={_ENDS})",
)
"""Compiled when first needed: few texts come so far."""
_ANY = re.compile(r"\b(?:up|down)\b|upper|lower|left|right|top|bottom|front|rear|back|side|ward", re.I)
"""One of these words is in whatever a pattern finds; most texts have none, and are looked at no further."""

UNSTEADY_NAME = re.compile(r"\b(?:up|down|top|bottom|upper|lower|left|right)\b", re.I)
"""In the name of an end: a word that is true only while the part is held in one way."""

_PHRASAL = re.compile(
    r"\b(?:lin|set|sett|pick|clean|look|open|warm|cool|run|screw|bolt|tighten|torqu|press|push|dr|us|wind|back|writ"
    r"|wear|worn|let|shut|slow|build|mak|tak|clos|mark|start|jack|lift|tie|roll|hold|held)(?:e|es|s|ed|ied|y|ing|ning)?"
    r" (?:up|down)\b",
    re.I,
)


def names_of(file: Procedure) -> frozenset[str]:
    """What a procedure calls its ends, marks, parts and groups."""
    names = {name for group in file.fasteners for name in (group.id, group.called)}
    for part in file.part:
        names |= {part.id, part.called, part.item or "", *(part.ends or ()), *part.marks}
    return frozenset(names)


def is_framed(text: str) -> bool:
    """Whether a text says from where one looks."""
    return _FRAME.search(text) is not None


def orientation_word(text: str, names: Iterable[str]) -> str | None:
    """The first words of a text that depend on how the work is held; None if none do.

    `names`: what the procedure calls its ends, marks and parts.
    """
    for sentence in sentences(text):
        if not _ANY.search(sentence) or is_framed(sentence):
            continue
        plain = _PHRASAL.sub(_veiled("_"), _pattern(frozenset(names)).sub(_veiled("¤"), sentence))
        if not _ANY.search(plain):
            continue
        for pattern in _PATTERNS:
            match = re.search(pattern, plain, re.I)
            if match is not None:
                return sentence[match.start() : match.end()]
    return None


def _veiled(sign: str) -> Callable[[re.Match[str]], str]:
    return lambda match: sign * len(match[0])


@lru_cache(maxsize=8)
def _pattern(names: frozenset[str]) -> re.Pattern[str]:
    ordered = sorted((name for name in names if 1 < len(name) <= _LONGEST_NAME), key=len, reverse=True)
    return re.compile(rf"(?<!\w)(?:{'|'.join(map(re.escape, ordered)) or '(?!)'})(?!\w)", re.I)
