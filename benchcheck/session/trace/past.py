"""A record as it is searched: its good events and the pump they are about, without adding them up.

Folding a record takes many times longer than reading it, and a search goes over hundreds. What a trace needs
of the order of events, what undid what, stands in the events themselves. Which records are opened, and which
cannot be, is the store's business.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date, datetime
from functools import cache, cached_property
from typing import TypeVar
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from benchcheck.assembly.acts import Act, Verb
from benchcheck.assembly.pump import Pump
from benchcheck.session.events import ActEvent, Closed, Event, Judged, Measured, MovedOn, Opened, Told
from benchcheck.session.record import Header
from benchcheck.session.state import Job, moment

E = TypeVar("E", bound=Event)


@dataclass(frozen=True)
class Past:
    """What is good of one record."""

    file: str
    header: Header
    events: tuple[Event, ...]
    job: Job = field(repr=False)

    def of(self, kind: type[E]) -> Iterator[E]:
        """The events of a kind, in order."""
        return (each for each in self.events if isinstance(each, kind))

    @cached_property
    def texts(self) -> tuple[tuple[int, Job], ...]:
        """The procedure that was followed, with the event from which on: the last one first."""
        moved = ((event.number, self.job.by(event.procedure_sha256)) for event in self.of(MovedOn))
        return (*reversed(tuple(moved)), (0, self.job))

    def job_at(self, event: Event) -> Job:
        """The job by the text that was followed when an event happened."""
        return next(job for number, job in self.texts if number <= event.number)

    def act(self, event: ActEvent) -> Act | None:
        """The act of an event, as the text that was followed then has it."""
        return self.job_at(event).acts(self.variant).get(event.act)

    @property
    def revisions(self) -> tuple[str, ...]:
        """The revisions that were followed, the first one first."""
        return (self.header.revision, *(event.revision for event in self.of(MovedOn)))

    @cached_property
    def variant(self) -> str | None:
        """The variant as it was proved last, else as it was claimed on opening."""
        variant = self.header.variant or None
        for event in self.events:
            if isinstance(event, Told | Measured) and event.done and event.verdict != "outside":
                act = self.job_at(event).acts(variant).get(event.act)
                if act is not None and act.verb is Verb.ASK and act.question.sets == "variant":
                    variant = event.value if isinstance(event, Told) else event.verdict
        return variant

    @cached_property
    def pump(self) -> Pump:
        """The pump by the text that was followed last."""
        return self.texts[0][1].pump(self.variant)

    @cached_property
    def last_word(self) -> Closed | Judged | None:
        """The event that says where the pump stands; None while it is open."""
        return next((each for each in reversed(self.events) if isinstance(each, Closed | Judged)), None)

    @property
    def outcome(self) -> str:
        """open, released, ..., accepted ...: where the session stands."""
        return self.last_word.outcome if self.last_word is not None else "open"

    @property
    def model(self) -> str:
        """What the plate says, as far as the variant tells."""
        models, variant = self.pump.procedure.procedure.models, self.variant or ""
        if len(models) == 1:
            return models[0]
        return next(
            (each for each in models if variant and each.endswith(variant)),
            f"{self.header.procedure} {variant}".strip(),
        )

    @cached_property
    def opened(self) -> datetime:
        first = next(self.of(Opened), None)
        return moment(first.at if first is not None and first.at else self.header.opened)

    def local(self, text: str) -> datetime:
        """A time of the record on the clock of its bench."""
        zone = _zone(self.header.time_zone)
        return moment(text) if zone is None else moment(text).astimezone(zone)

    def day(self, event: Event) -> date:
        """The day of an event on the clock of its bench."""
        return self.local(event.at).date()


@cache
def _zone(name: str) -> ZoneInfo | None:
    """The zone of a record; None if this system does not know it, so that times stay as they were written."""
    try:
        return ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return None
