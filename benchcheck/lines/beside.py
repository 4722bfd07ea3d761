"""A wrench that talks, beside the keyboard: its readings are told, and Enter alone takes the last one.

They answer nothing: a hand does, as with any other reading.
"""

from __future__ import annotations

from collections.abc import Mapping

from benchcheck.instruments.into_the_field import Field
from benchcheck.instruments.wrench_line import Reading, WrenchLine
from benchcheck.procedure.registers import LineEntry
from benchcheck.session.prompt import Prompt


class BesideTheKeyboard:
    """What the wrench in hand sends while a question stands."""

    def __init__(self, entries: Mapping[str, LineEntry]) -> None:
        self._wire = WrenchLine(entries)
        self._field = Field()
        self._prompt: Prompt | None = None
        self.reading = ""
        """What Enter alone answers; empty if nothing was sent."""

    def attend(self, wrench: str, prompt: Prompt) -> tuple[str, ...]:
        """A question is put, with this wrench in hand; what there is to say already."""
        self._wire.attend(wrench)
        if self._prompt is None or prompt.id != self._prompt.id:
            self._prompt, self.reading = prompt, self._field.kept_for(prompt)
        kept = (self._offer(prompt),) if self.reading else ()
        return (*kept, *self.said())

    def _offer(self, prompt: Prompt) -> str:
        return f"Sent: {self.reading} {prompt.unit}. Enter takes it."

    @property
    def talks(self) -> bool:
        """Whether the wrench in hand has a line at all."""
        return self._wire.talks

    def fileno(self) -> int:
        """What to wait for; below 0 if nothing is open."""
        return self._wire.line.fileno() if self._wire.line is not None else -1

    def said(self) -> tuple[str, ...]:
        """What came since, in sentences; a reading that is asked for is kept for Enter."""
        assert self._prompt is not None
        found: list[str] = []
        for heard in self._wire.listen():
            if not isinstance(heard, Reading):
                found.append(heard.words)
                continue
            text, words = self._field.take(self._prompt, heard)
            self.reading = text or self.reading
            found.append(words or self._offer(self._prompt))
        return tuple(found)

    def close(self) -> None:
        self._wire.close()
