"""The signs that stand on both sides of a number or a name, so that a state has a shape.

Here is only what a state looks like. Which state a thing is in, the session knows.
"""

from __future__ import annotations

from enum import Enum

from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.cells import Run


class Sign(Enum):
    """A state: left mark, right mark, tone, and the word that stands beside it in a legend."""

    DONE = ("═", "═", Tone.INK, "done")
    NOW = ("►", "◄", Tone.NOW, "now")
    NEXT = ("(", ")", Tone.INK, "next")
    TO_COME = (" ", " ", Tone.INK, "to come")
    FAULTY = ("!", "!", Tone.WRONG, "fault")
    DEVIATION = ("~", "~", Tone.INK, "deviation")
    VOID = ("x", "x", Tone.INK, "void")

    def __init__(self, left: str, right: str, tone: Tone, word: str) -> None:
        self.left = left
        self.right = right
        self.tone = tone
        self.word = word

    def around(self, text: str) -> Run:
        """The text between its two marks."""
        return Run(f"{self.left}{text}{self.right}", self.tone)
