"""What a hand, a scanner or a paste means while one question stands: the field, pointing, when Enter counts.

No Textual here: keys come in with the time at which they arrived, and what was heard comes out. Three rules
are kept. Enter is deaf for a moment after a question is drawn, and answers it once. Whatever types faster
than a hand fills the field but never accepts. A burst that begins while nothing listens is dropped whole.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from benchcheck.screens.content import literal
from benchcheck.screens.keys import DEED_OF, Deed
from benchcheck.screens.widgets.cells import clusters, width_of

GROUP_SEPARATOR = "ctrl+right_square_bracket"
"""The key as which a terminal reports the separator inside some scanned codes."""

_GROUP_SEPARATOR_SIGN = "\N{SYMBOL FOR GROUP SEPARATOR}"
_SCAN_FRAMES = frozenset({"ctrl+j", "tab", "ctrl+b", "ctrl+c", "ctrl+m"})
"""What scanners send around a code besides Enter: never a key of ours."""
_UNIT_SIGNS = " ·*/-°%²\"'µ"
"""Signs in the names of units, besides letters."""


class Takes(Enum):
    """What a question takes besides Enter."""

    NOTHING = "nothing"
    POINTING = "pointing"
    NUMBER = "number"
    TEXT = "text"


@dataclass(frozen=True)
class Timing:
    """How long Enter is deaf once a question is drawn, and the longest gaps in a burst and in a held key [s].

    Terminals tell nothing of keys let go. A held Enter is known by the Enters that follow closely.
    """

    deaf: float = 0.4
    burst_gap: float = 0.08
    held_gap: float = 0.12


AT_ONCE = Timing(deaf=0.0, burst_gap=0.0, held_gap=0.0)
"""For tests: every key counts as a hand's."""


@dataclass(frozen=True)
class Question:
    """What is asked.

    `choices` is how many places can be pointed at; `if_empty` is said when Enter comes before there is
    anything to answer; `letters` are those that a number field takes besides digits and its point; `unit`
    says that the figure may be followed by the unit it was read in.
    `answering` are further keys that answer, such as the second F6 on the page that
    shows what would come apart; they are as deaf as Enter, and take no field with them.
    """

    id: str
    takes: Takes = Takes.NOTHING
    choices: int = 0
    if_empty: str = ""
    most_cells: int = 40
    letters: str = ""
    unit: bool = False
    answering: frozenset[Deed] = frozenset()


@dataclass(frozen=True)
class Answered:
    """Enter was taken, or another answering key: the text of the field, the number pointed at, or neither."""

    question: str
    text: str = ""
    pointed_at: int | None = None
    deed: Deed = Deed.CONFIRM


@dataclass(frozen=True)
class Changed:
    """The field or the place pointed at is another now."""


@dataclass(frozen=True)
class Asked:
    """A key with a deed of its own; `key` tells left from right."""

    deed: Deed
    key: str


@dataclass(frozen=True)
class Refused:
    """Not taken, and why in a sentence; empty where a bell says enough."""

    why: str = ""


@dataclass(frozen=True)
class Stray:
    """Letters in a burst that no field asked for."""

    text: str


Heard = Answered | Changed | Asked | Refused | Stray


class Listener:
    """Listens for one question at a time; every method takes the time at which its key arrived [s]."""

    def __init__(self, timing: Timing | None = None) -> None:
        self._timing = timing or Timing()
        self._question = Question(id="")
        self._deaf_until: float | None = None
        self._answered = True
        self._muted = False
        self._text = ""
        self._pointed_at: int | None = None
        self._last_letter = float("-inf")
        self._last_answering: dict[str, float] = {}
        self._burst = ""
        self._text_before_burst = ""
        self._pointed_before_burst: int | None = None
        self._burst_began_deaf = False
        self._bell_rung = False

    @property
    def question(self) -> Question:
        return self._question

    @property
    def text(self) -> str:
        """What stands in the field."""
        return self._text

    @property
    def pointed_at(self) -> int | None:
        """The number pointed at."""
        return self._pointed_at

    @property
    def muted(self) -> bool:
        """Whether no answer is taken at all."""
        return self._muted

    def ask(self, question: Question, text: str = "", pointed_at: int | None = None) -> None:
        """Put a question; until `drawn` says that it can be seen, everything is deaf."""
        self._question = question
        self._text = text
        self._pointed_at = pointed_at
        self._deaf_until = None
        self._answered = False
        self._bell_rung = False
        # What is left of a burst that is under way was meant for another question.
        self._text_before_burst, self._pointed_before_burst = text, pointed_at
        self._burst_began_deaf = True

    def drawn(self, time: float) -> None:
        """The question can be seen since `time`."""
        if self._deaf_until is None:
            self._deaf_until = time + self._timing.deaf

    def seen_again(self, time: float) -> None:
        """The window came to the front: a touch that brought it there was no answer."""
        if self._deaf_until is not None:
            self._deaf_until = max(self._deaf_until, time + self._timing.deaf)

    def mute(self, muted: bool) -> None:
        """Take no answer at all, as in a window too small to work in; what was typed stays."""
        self._muted = muted

    def key(self, name: str, character: str | None, time: float) -> Heard | None:
        """A key pressed by a hand or sent by a tool; None where it means nothing."""
        deed = DEED_OF.get(name)
        if deed is Deed.CONFIRM:
            return self._enter(name, time)
        if deed in self._question.answering:
            return self._answering_key(name, deed, time)
        if deed is not None:
            return Asked(deed, name)
        if self._muted or name in _SCAN_FRAMES:
            return None
        if name == "backspace":
            return self._erase()
        if name == GROUP_SEPARATOR:
            return self._letter(_GROUP_SEPARATOR_SIGN, time)
        if character and character.isprintable():
            return self._letter(literal(character), time)
        return None

    def touch(self, name: str, time: float) -> Heard | None:
        """A key touched where it is written: as one pressed, but a digit is a letter of no field."""
        if not name.isdigit():
            return self.key(name, None, time)
        if self._muted or self._question.takes is not Takes.POINTING:
            return None
        if self._answered or self._deaf_until is None:
            return Refused()
        self._last_letter, self._burst = float("-inf"), name
        return self._point(name)

    def paste(self, text: str, time: float) -> Heard | None:
        """A text pasted at once: it fills the field whole or not at all, and never accepts."""
        if self._muted:
            return None
        if self._is_deaf(time):
            return Refused()
        lines = text.strip("\r\n").replace("\r\n", "\n").replace("\r", "\n").split("\n")
        if self._question.takes not in (Takes.NUMBER, Takes.TEXT):
            return Stray(literal(lines[0]))
        if len(lines) > 1:
            return Refused(f"What was pasted has {len(lines)} lines; this field takes one.")
        pasted = literal(lines[0])
        for place, letter in enumerate(pasted):
            if why := self._refusal_of(letter, self._text + pasted[:place]):
                return Refused(why)
        if width_of(self._text + pasted) > self._question.most_cells:
            return Refused("What was pasted is too long for this field.")
        self._text += pasted
        return Changed()

    def tool(self, text: str, time: float) -> Heard | None:
        """A reading that an instrument sent along its own line: it fills the field anew, and never accepts.

        Enter is deaf for a moment then, as after a question: what changed has to be seen first.
        """
        if self._muted or self._question.takes is not Takes.NUMBER:
            return None if self._muted else Stray(literal(text))
        if self._is_deaf(time):
            return Refused()
        named = "".join(self._text.rpartition(":")[:2])
        if why := next(filter(None, (self._refusal_of(each, text[:at]) for at, each in enumerate(text))), ""):
            return Refused(why)
        self._text = f"{named}{text}"
        self._deaf_until = time + self._timing.deaf
        return Changed()

    # --- Enter ------------------------------------------------------------------------------------------

    def _enter(self, name: str, time: float) -> Heard | None:
        in_burst, held = self._in_burst(time), self._is_held(name, time)
        self._last_letter = float("-inf")
        if self._muted or (in_burst and self._burst_began_deaf):
            return None
        if held or self._is_deaf(time):
            return self._rung_once()
        if in_burst:  # a tool's own Enter; after a single letter it may have been a quick hand's
            return Refused() if len(self._burst) == 1 else None
        question = self._question
        empty = not self._text.strip() if question.takes in (Takes.NUMBER, Takes.TEXT) else False
        nothing_pointed = question.takes is Takes.POINTING and self._pointed_at is None
        if (empty or nothing_pointed) and question.if_empty:
            return Refused(question.if_empty)
        self._answered = True
        return Answered(question.id, self._text.strip(), self._pointed_at)

    def _answering_key(self, name: str, deed: Deed, time: float) -> Heard | None:
        held = self._is_held(name, time)
        if self._muted:
            return None
        if held or self._is_deaf(time):
            return self._rung_once()
        self._answered = True
        return Answered(self._question.id, deed=deed)

    def _is_held(self, name: str, time: float) -> bool:
        """Whether the same key came a moment ago, as it does again and again while it is held down."""
        before = self._last_answering.get(name, float("-inf"))
        self._last_answering[name] = time
        return time - before < self._timing.held_gap

    def _rung_once(self) -> Heard | None:
        """One bell for all the Enters that come too soon."""
        if self._bell_rung:
            return None
        self._bell_rung = True
        return Refused()

    # --- letters ----------------------------------------------------------------------------------------

    def _letter(self, letter: str, time: float) -> Heard | None:
        in_burst = self._in_burst(time)
        self._last_letter = time
        if not in_burst:
            self._begin_burst(time)
        self._burst += letter
        if self._burst_began_deaf:
            return self._deaf_letter(letter, in_burst)
        if self._question.takes is Takes.POINTING:
            return self._point(letter)
        if self._question.takes is Takes.NOTHING:
            return Stray(self._burst) if len(self._burst) > 1 else None
        if why := self._refusal_of(letter):
            return Refused(why)
        if width_of(self._text + letter) > self._question.most_cells:
            return Refused("The field is full.")
        self._text += letter
        return Changed()

    def _begin_burst(self, time: float) -> None:
        self._burst = ""
        self._text_before_burst = self._text
        self._pointed_before_burst = self._pointed_at
        self._burst_began_deaf = self._is_deaf(time)

    def _deaf_letter(self, letter: str, in_burst: bool) -> Heard | None:
        """A letter while nothing listens: one alone is a quick hand's and kept, more are dropped whole."""
        if in_burst:
            first_of_it = len(self._burst) == 2
            self._text, self._pointed_at = self._text_before_burst, self._pointed_before_burst
            return Refused() if first_of_it else None
        if self._answered or self._deaf_until is None:
            return Refused()
        if self._question.takes is Takes.POINTING:
            return self._point(letter)
        if self._question.takes is Takes.NOTHING or self._refusal_of(letter):
            return None
        self._text += letter
        return Changed()

    def _point(self, letter: str) -> Heard | None:
        if len(self._burst) > 1:
            self._pointed_at = self._pointed_before_burst
            return Stray(self._burst)
        if letter.isascii() and letter.isdigit() and 1 <= int(letter) <= self._question.choices:
            self._pointed_at = int(letter)
            return Changed()
        return Refused()

    def _erase(self) -> Heard | None:
        if self._question.takes not in (Takes.NUMBER, Takes.TEXT) or not self._text or self._answered:
            return None
        self._text = "".join(clusters(self._text)[:-1])
        return Changed()

    def _refusal_of(self, letter: str, before: str | None = None) -> str:
        """Why a letter does not belong into the field behind what stands there; empty if it does."""
        if self._question.takes is not Takes.NUMBER or letter in self._question.letters:
            return ""
        before = self._text if before is None else before
        if (
            self._question.unit
            and any(map(str.isdigit, before))
            and (letter.isalpha() or letter in _UNIT_SIGNS)
        ):
            return ""
        if letter in ".,":
            return "There is a point or comma already." if set(before) & set(".,") else ""
        return "" if letter.isascii() and letter.isdigit() else "Only digits, and a point or comma."

    # --- time -------------------------------------------------------------------------------------------

    def _is_deaf(self, time: float) -> bool:
        return self._answered or self._deaf_until is None or time < self._deaf_until

    def _in_burst(self, time: float) -> bool:
        return time - self._last_letter < self._timing.burst_gap
