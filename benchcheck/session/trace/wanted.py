"""What is searched for, as a person asks it: one instrument, lot, procedure, person or pump, which days."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal, get_args

from benchcheck.mechanics.units import Quantity, QuantityError, parse
from benchcheck.procedure.people_names import same_name
from benchcheck.session.arrival import same_serial

Kind = Literal["instrument", "lot", "procedure", "person", "serial"]
KINDS: tuple[Kind, ...] = get_args(Kind)


@dataclass(frozen=True, slots=True)
class Wanted:
    """One search.

    Parameters
    ----------
    kind, name : what, and which one; a procedure by its id, or by id and revision: "xmpl-hc40-c"
    step : of a procedure, only this step
    since, until : first and last day of use, on the clock of the bench; None: no end
    error : of an instrument, how much more it showed than there was: a share, or a value
    """

    kind: Kind
    name: str
    step: str = ""
    since: date | None = None
    until: date | None = None
    error: Quantity | None = None

    def covers(self, day: date) -> bool:
        """Whether a day lies in the days that are searched."""
        return (self.since is None or self.since <= day) and (self.until is None or day <= self.until)

    def is_name(self, text: str) -> bool:
        """Whether a text of a record is the name that is searched for."""
        if self.kind == "person":
            return same_name(text, self.name)
        if self.kind == "serial":
            return same_serial(text, self.name)
        return _folded(text) == _folded(self.name)

    def is_meant(self, name: str) -> bool:
        """Whether a name that is known is the one that was typed: of a step, its own."""
        return name == self.step if self.step else self.is_name(name)

    def is_procedure(self, procedure: str, revision: str) -> bool:
        """Whether it is the procedure, or the revision of it, that is searched for."""
        return _folded(self.name) in (_folded(procedure), _folded(f"{procedure}-{revision}"))


def parse_error(text: str) -> Quantity:
    """The error of an instrument out of "+9 %" or "-0.5 psi". Raises QuantityError."""
    error = parse(text, signed=True)
    if error.kind == "share" and error.si <= -1:
        raise QuantityError(
            f'"{text[:40]}": no instrument shows 100 % less than there is; write one such as "+9 %"'
        )
    if not error.value:
        raise QuantityError(f'"{text[:40]}" is no error; leave it out, or write one such as "+9 %"')
    return error


def parse_day(text: str) -> date:
    """A day out of "2026-11-24". Raises QuantityError."""
    try:
        return date.fromisoformat(text.strip())
    except ValueError:
        raise QuantityError(f'found date "{text[:20]}", expected one such as 2026-11-24') from None


def _folded(text: str) -> str:
    return " ".join(text.split()).casefold()
