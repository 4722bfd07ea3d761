"""One session as the desk reads it: the record weighed, what it adds up to, and what stands out in it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from benchcheck.report.journal import Journal, journal_of, proof_of
from benchcheck.session.events import Judged
from benchcheck.session.record import Seal
from benchcheck.session.remarks import Remark, damaged, heaviest_first, remarks
from benchcheck.session.state import Registers
from benchcheck.store.disk import StoreFault
from benchcheck.store.library import Unreadable
from benchcheck.store.recorded import Recorded, read_recorded, state_of_recorded
from benchcheck.store.sitting import CannotOpen

_BY_OTHERS = "readings copied"
"""The kind of remark that looks at earlier records too."""


@dataclass(frozen=True)
class OneSession:
    """A record, read to be looked at."""

    recorded: Recorded
    journal: Journal | None
    """None where the events cannot be made sense of."""
    cannot: str
    """Why there is no journal."""
    remarks: tuple[Remark, ...]

    @property
    def path(self) -> Path:
        return self.recorded.path

    @property
    def name(self) -> str:
        """The pump's serial number, else the file's name."""
        header = self.recorded.record.header
        return header.serial if header is not None else self.path.stem

    @property
    def tables(self) -> Sequence[Mapping[str, Any]]:
        """The events as the record holds them."""
        return self.recorded.record.events

    @property
    def seals(self) -> Sequence[Seal]:
        return self.recorded.record.seals

    @property
    def waits_for_decision(self) -> bool:
        """Whether a deviation can be decided on here: one of a session not over, in a record that holds."""
        if self.journal is None or not self.recorded.verdict.intact:
            return False
        state = self.journal.state
        return state.closed is None and bool(state.open_deviations)

    @property
    def judged(self) -> tuple[Judged, ...]:
        """What reviewers said, the latest last."""
        return tuple(self.journal.of(Judged)) if self.journal is not None else ()


def look_at(
    path: Path, registers: Registers | None, today: date, known: tuple[Remark, ...] = ()
) -> OneSession:
    """Read a record and all that it adds up to.

    `known` are the remarks that the index has: some are made by looking at other records too, and are kept.

    Raises StoreFault, NewerFormat.
    """
    recorded = read_recorded(path)
    bad, journal, why = recorded.verdict.first_bad_event, None, ""
    damage = (bad, _sentence(recorded)) if bad is not None else None
    found: tuple[Remark, ...] = (damaged(*damage),) if damage is not None else ()
    try:
        state, events = state_of_recorded(recorded, registers)
    except (CannotOpen, StoreFault) as fault:
        why = str(fault)
    except Unreadable as fault:
        why = str(fault).splitlines()[0]
    else:
        proof = proof_of(path.name, recorded.record, recorded.verdict)
        journal = journal_of(state, events, proof)
        found = remarks(state, events, today=today, damage=damage)
        others = (each for each in known if each.kind == _BY_OTHERS and each not in found)
        found = heaviest_first((*found, *others))
    return OneSession(recorded, journal, why, found)


def _sentence(recorded: Recorded) -> str:
    """What is wrong with the record, as it was weighed."""
    number = recorded.verdict.first_bad_event
    start = f"From event {number} on: "
    return next(
        (each.removeprefix(start) for each in recorded.verdict.not_proved if each.startswith(start)),
        f"From event {number} on it does not agree with its seals.",
    )
