"""A word where a number or a fact belongs."""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.WARNING
WHAT = 'A text says "until tight", "properly", "as required", "reverse of removal" or the like.'
WHY = "Everybody does it, each in a different way; nothing is measured, and nothing can be checked."
WRONG = """
[[step]]
id = "screws"
act = "tighten"
group = "F1"
text = "Tighten until tight; reassembly is the reverse of removal."
"""
RIGHT = """
[[step]]
id = "screws"
act = "tighten"
group = "F1"
"""


_VAGUE: dict[str, str] = {
    r"until (?:it is |they are |all are )?(?:tight|snug|firm|secure|home)": "a torque, a depth or a gap",
    r"(?:hand|finger)[- ]?tight": "how far it has to run by fingers, or a torque",
    r"(?:do not|don't|never|avoid) over-?tighten(?:ing)?": "the torque with its tolerance",
    r"properly|correctly|suitably|adequately|appropriately|sufficiently|securely|firmly": (
        "what one sees or measures"
    ),
    r"(?:as|if|when|where) (?:required|necessary|needed|appropriate)": "when exactly, or how much",
    r"as (?:usual|normal|before(?=\s*(?:[.,;]|$)))": "what it is",
    r"(?:the |in )?reverse (?:of|order|sequence)(?: of)?(?: the)?(?: removal| disassembly| teardown)?": (
        "the steps themselves: from them the program proves the order"
    ),
    r"(?:in )?good condition": "what is looked for, and what is not good",
    r"appropriate|suitable|adequate|sufficient": "which one, or how much",
    r"a little|a bit of|plenty of|sparingly|generously|liberally|some (?=oil|grease|paste)": "how much",
    r"etc\b\.?|and so on|and the like": "all of them",
    r"(?:approximately|approx\.?|roughly|about) (?=\d)": "the value and its limits",
}
_PATTERN = re.compile(
    rf"\b(?:{'|'.join(f'(?P<v{index}>{words})' for index, words in enumerate(_VAGUE))})", re.I
)


def check(subject: Subject) -> Iterator[Finding]:
    for passage in subject.instructions:
        match = _PATTERN.search(passage.text)
        if match is not None and match.lastgroup is not None:
            instead = list(_VAGUE.values())[int(match.lastgroup[1:])]
            yield subject.finding(
                "vague-word",
                SEVERITY,
                passage.table,
                passage.keys,
                f'"{match[0].strip()}" can mean anything.',
                f"Write {instead}.",
            )
