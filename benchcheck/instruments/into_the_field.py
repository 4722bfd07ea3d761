"""Where a reading that a wrench sent belongs: in the field that asks for it, or in the one that comes next.

The same for each face. Nothing is answered by it: a hand still has to accept.
"""

from __future__ import annotations

from benchcheck.instruments.wrench_line import Reading
from benchcheck.session.prompt import Form, Prompt

_ASK_FOR_A_TORQUE = ("round", "reading", "running")
_COMES_NEXT = "pass"
"""The check pass asks first whether the position moved, and then what was shown by the same pull."""


class Field:
    """What was sent for the question that stands, or for the one behind it."""

    def __init__(self) -> None:
        self._kept: tuple[str, Reading] | None = None

    def take(self, prompt: Prompt | None, reading: Reading) -> tuple[str, str]:
        """What goes into the field now, and what there is to say; either may be empty."""
        kind, _, position = prompt.question.partition(" ") if prompt is not None else ("", "", "")
        sent = f"{reading.wrench} sent {reading.shown}"
        if prompt is not None and kind == _COMES_NEXT:
            self._kept = (position, reading)
            return "", f"{sent}; it is kept for the next field."
        if prompt is None or kind not in _ASK_FOR_A_TORQUE or prompt.form is not Form.NUMBER:
            return "", f"{sent}; nothing asked for it."
        if reading.shown.unit != prompt.unit:
            return "", f"{sent}, and was chosen in {prompt.unit}: set it to that, and pull again."
        return f"{reading.shown.value:f}", ""

    def kept_for(self, prompt: Prompt | None) -> str:
        """What was sent before its question came; it is handed out once, and to no other question."""
        kept, self._kept = self._kept, None
        if kept is None or prompt is None or prompt.question != f"reading {kept[0]}":
            return ""
        return self.take(prompt, kept[1])[0]
