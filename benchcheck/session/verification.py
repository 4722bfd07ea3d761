"""What a record proves, and what it does not, in words.

The seals inside a record prove that its events fit together. They cannot show that it was cut back to an
earlier seal, or written anew from the start: that takes a seal known from outside the file. Here both are
weighed and said. Finding the outside seals, and showing the verdict, is for others.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from benchcheck.session.record import CLOSING_KIND, RecordRead, Seal, check_value

RELEASED = "released"
"""The outcome in a closing event that lets the pump go."""
CHECK_DIGITS = 12
"""How many digits of a seal the check value shows; fewer prove nothing."""


@dataclass(frozen=True, slots=True)
class OutsideSeal:
    """What something other than the record itself knows of one of its seals."""

    number: int
    """Of the event."""
    digits: str
    """The seal in hexadecimal, or its first digits as far as they are known: twelve or more."""
    source: str
    """What knows it, as the start of a sentence: "The printed check value"."""

    def agrees_with(self, seal: Seal) -> bool:
        """Whether this is that seal, as far as it is known."""
        digits = "".join(self.digits.split()).lower()
        return (
            seal.number == self.number and len(digits) >= CHECK_DIGITS and seal.hexadecimal.startswith(digits)
        )


@dataclass(frozen=True, slots=True)
class Verdict:
    """The judgement on one record's bytes."""

    events: int
    """How many events the seals prove."""
    intact: bool
    """Whether it holds an event and nothing contradicts it. A torn tail does not: a power cut leaves that."""
    first_bad_event: int | None
    released: bool
    check_value: str | None
    """Of the last good event; None if there is none."""
    proved_by: tuple[str, ...]
    not_proved: tuple[str, ...]

    def as_json(self, file: str) -> dict[str, Any]:
        """For other programs."""
        return {
            "file": file,
            "events": self.events,
            "intact": self.intact,
            "first_bad_event": self.first_bad_event,
            "released": self.released,
            "check_value": self.check_value,
            "proved_by": list(self.proved_by),
            "not_proved": list(self.not_proved),
        }

    def as_text(self, file: str) -> str:
        """For people."""
        state = "intact" if self.intact else f"DAMAGED from event {self.first_bad_event} on"
        if not self.events and self.first_bad_event is None:
            state = "NO RECORD"
        lines = [
            f"{file}: {state}, {_count(self.events, 'event')}, {'' if self.released else 'not '}released"
        ]
        if self.check_value:
            lines.append(f"  check value of event {self.events}: {self.check_value}")
        lines += [f"  proved: {sentence}" for sentence in self.proved_by]
        lines += [f"  not proved: {sentence}" for sentence in self.not_proved]
        return "\n".join(lines) + "\n"


def contradiction(record: RecordRead, outside: Iterable[OutsideSeal]) -> tuple[int, str] | None:
    """The first outside seal that the record does not bear out: from which event it is in doubt, and why."""
    agreed = 0
    for known in sorted(outside, key=lambda known: known.number):
        if known.number > len(record.seals):
            return len(record.seals) + 1, (
                f"{known.source} knows an event {known.number}, and the record holds "
                f"{_count(len(record.seals), 'good event')}: its end was cut away or altered."
            )
        if not known.agrees_with(record.seals[known.number - 1]):
            return agreed + 1, (
                f"{known.source} knows another seal of event {known.number}: "
                f"what stands in {_span(agreed + 1, known.number)} is not what was written."
            )
        agreed = known.number
    return None


def verify(record: RecordRead, outside: Sequence[OutsideSeal], procedure_sha256: str | None) -> Verdict:
    """Weigh a record against its own seals and against what is known outside of it.

    `procedure_sha256` is that of the kept copy of the procedure which the header names; None without a copy.
    """
    count = len(record.seals)
    proved_by: list[str] = []
    not_proved: list[str] = []
    if count:
        proved_by.append(
            f"The seals in the record fit: nothing up to event {count} was changed after it was sealed, "
            "unless all that follows the change was sealed anew."
        )
    first_bad_event = record.first_bad_event
    if not count and not record.damage:
        not_proved.append("Anything: no event is whole in this file, so nothing was ever confirmed in it.")
    if record.damage:
        not_proved.append(f"From event {first_bad_event} on: {record.damage}")

    contradicted = contradiction(record, outside)
    if contradicted and not (record.damage and contradicted[0] > count):
        # What is damaged anyway is not also cut back: what the outside knows may be in the damaged part.
        first_bad_event = contradicted[0]
        not_proved.append(f"From event {first_bad_event} on: {contradicted[1]}")

    agreeing = {
        known.source: known.number
        for known in sorted(outside, key=lambda known: known.number)
        if known.number <= count and known.agrees_with(record.seals[known.number - 1])
    }
    proved_by += [
        f"{source} is that of event {number}: nothing up to it was changed or taken out."
        for source, number in agreeing.items()
    ]
    agreed = max(agreeing.values(), default=0)
    if agreed < count:
        not_proved.append(
            f"That nobody wrote {_span(agreed + 1, count)} anew, seals and all: "
            "no remembered seal, printed check value or signature speaks for that part."
        )
    if count:
        not_proved.append(f"That nothing was written after event {count} and then cut away.")
    if record.torn:
        not_proved.append(
            f"The last {_count(len(record.torn), 'byte')}: event {count + 1} is not whole; "
            "it was being written when the file was read, or when the power failed."
        )
    if record.header:
        _weigh_procedure(record.header.procedure_sha256, procedure_sha256, proved_by, not_proved)
    not_proved.append(
        "Who and when: names are as they were given, and times as the clock of the bench had them."
    )

    closing = [event for event in record.events if event["kind"] == CLOSING_KIND]
    return Verdict(
        events=count,
        intact=first_bad_event is None and count > 0,
        first_bad_event=first_bad_event,
        released=bool(closing) and closing[-1].get("outcome") == RELEASED,
        check_value=check_value(record.seals[-1].hexadecimal) if count else None,
        proved_by=tuple(proved_by),
        not_proved=tuple(not_proved),
    )


def _weigh_procedure(named: str, found: str | None, proved_by: list[str], not_proved: list[str]) -> None:
    if found is None:
        not_proved.append(
            "Which procedure was followed: the copy that belongs beside the records is missing."
        )
    elif found != named:
        not_proved.append(
            "Which procedure was followed: the copy beside the records is not the one that was used."
        )
    else:
        proved_by.append(
            "The SHA-256 in the header is that of the procedure kept beside the records: it is the one used."
        )


def _span(first: int, last: int) -> str:
    return f"event {first}" if first == last else f"events {first} to {last}"


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}{'' if number == 1 else 's'}"
