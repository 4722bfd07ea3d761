"""What the guard says: one act may not be done now, why, where, and what mends it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Refusal:
    """A refused act or answer. A refusal changes nothing."""

    rule: str
    """Its stable word-name, such as `groove-left-empty`."""
    wrong: str
    """What is wrong, in a sentence."""
    where: str = ""
    """Where on the pump."""
    mend: str = ""
    """The act or answer that mends it."""
    passable: bool = True
    """Whether a person may take it over with a reason; some faults nobody may."""
    chain: tuple[str, ...] = ()
    """The reasons, step by step, for a facing."""
    step: str = ""
    """The step that mends it, where one does."""
    off: str = ""
    """The part, group or groove that has to be reached to mend it, where one has to."""
    about: str = ""
    """The part, group or groove with which it is wrong, by id."""
    of_form: bool = False
    """Whether only the answer's form is at fault: nothing on the pump is wrong, nothing can be taken over."""

    def as_text(self) -> str:
        """The whole refusal as lines."""
        lines = [f"wrong: {self.wrong}"]
        lines += [f"   so: {reason}" for reason in self.chain]
        if self.where:
            lines.append(f"where: {self.where}")
        if self.mend:
            lines.append(f" mend: {self.mend}")
        if not self.passable and not self.of_form:
            lines.append("       nobody may pass this")
        return "\n".join(lines)


Refusals = tuple[Refusal, ...]
