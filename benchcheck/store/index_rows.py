"""What a record gives to the index at a glance: header, summary and last event, with every seal checked.

Plain values that go from one process to another. What the events say is read in `index_reading`; where it is
kept is for `index_file`; which records are looked at, and when, for `index`. Nothing here is slow to import:
ten thousand records are glanced at in seconds.
"""

from __future__ import annotations

import dataclasses
import unicodedata
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any, Literal, NamedTuple

from benchcheck.session.flat_table import flat_table
from benchcheck.session.record import CLOSING_KIND, FORMAT, NewerFormat, RecordRead, read, sound_seals
from benchcheck.session.verification import OutsideSeal, contradiction
from benchcheck.store.disk import StoreFault, read_file
from benchcheck.store.seen_seals import SOURCE

MentionKind = Literal["serial", "procedure", "person", "instrument", "lot"]
DAMAGED, MISSING, UNREADABLE = "damaged", "missing", "unreadable"
"""What stands for the state of a record that cannot be believed, is gone, or cannot be read."""
NOT_READ = "not read yet"
"""The kind of remark on a record of which only a glance was taken."""
NOT_UNDERSTOOD = "not understood"
"""The kind of remark on a record whose events cannot be added up here."""

_EVENT = b"\n[[event]]\n"
_CLOSED = f'\nkind = "{CLOSING_KIND}"\n'.encode()
_OPENING = b"format = %d\n\n[record]\n" % FORMAT
_SEAL_START = len('chain = "sha256:')
_SEAL_LINE = _SEAL_START + 64 + len('"\n')


class Stamp(NamedTuple):
    """By which a file is known to be as it was when it was taken in."""

    size: int
    """[bytes]; -1: there is no file."""
    changed_ns: int
    remembered: str
    """What is remembered of its seals, as text."""


@dataclass(frozen=True, slots=True)
class Task:
    """A record to be looked at."""

    path: str
    stamp: Stamp
    remembered: tuple[tuple[int, str], ...]
    """Number and digits of each remembered seal."""

    @property
    def file(self) -> str:
        return self.path.rpartition("/")[2]

    @property
    def known(self) -> list[OutsideSeal]:
        return [OutsideSeal(number, digits, SOURCE) for number, digits in self.remembered]


class Mention(NamedTuple):
    """A name that stands in a record."""

    kind: MentionKind
    key: str
    """The spelling by which it is found."""
    name: str
    event: int
    """The first event that holds it; 0: the header, or not known yet."""


class Said(NamedTuple):
    """A remark as it is kept; `weight` as in `session.remarks`."""

    kind: str
    weight: int
    sentence: str
    event: int | None


@dataclass(frozen=True, slots=True)
class Glance:
    """What header, closing summary and seals say. `read` says that there is nothing more to be read."""

    file: str
    stamp: Stamp
    serial: str = ""
    procedure: str = ""
    revision: str = ""
    procedure_sha256: str = ""
    variant: str = ""
    practice: bool = False
    opened: str = ""
    last: str = ""
    """Time of the last event."""
    events: int = 0
    last_seal: str = ""
    state: str = "open"
    judged: bool = False
    words: str = ""
    mentions: tuple[Mention, ...] = ()
    remarks: tuple[Said, ...] = ()
    read: bool = False


@dataclass(frozen=True, slots=True)
class Reading:
    """What the events of a record say; it takes the place of what the glance had to go by."""

    file: str
    stamp: Stamp
    state: str
    judged: bool
    words: str
    mentions: tuple[Mention, ...]
    remarks: tuple[Said, ...]
    uses: tuple[tuple[str, str, int], ...] = ()
    """Instrument, last day of use, event."""
    concessions: tuple[tuple[str, str, str, int], ...] = ()
    """Last day, limit, name, event."""
    shown: tuple[tuple[str | int | float | tuple[float, ...], ...], ...] = ()
    """What wrenches showed, as `index_comparing` packs it."""
    understood: bool = True
    """False: its procedure is not at hand, or this program does not know what it holds."""


def mention(kind: MentionKind, name: str, event: int) -> Mention:
    return Mention(kind, key(kind, name), name, event)


@cache
def key(kind: MentionKind, name: str) -> str:
    """The spelling by which a name is found: case, blanks, and for people stops and accents do not count."""
    if kind == "person":
        letters = unicodedata.normalize("NFKD", name)
        return "".join(each for each in letters.casefold() if each.isalnum())
    return ("" if kind == "serial" else " ").join(name.split()).casefold()


def day_words(time: str) -> tuple[str, ...]:
    """A day as it stands in the file, and as lists show it: "2026-10-30", "30 Oct 2026"."""
    try:
        return time[:10], f"{date.fromisoformat(time[:10]):%-d %b %Y}"
    except ValueError:
        return (time[:10],)


def folded_words(words: Iterable[str]) -> str:
    """What is searched when something is typed: each word once, in small letters, one a line."""
    return "\n".join(dict.fromkeys(" ".join(word.split()).casefold() for word in words if word))


# ---------------------------------------------------------------------- at a glance


def glance(task: Task) -> Glance:
    """Read a record, check every seal, and take its header and what follows the last of the work.

    Never raises: what is wrong with a record is in what it gives.
    """
    try:
        data = read_file(Path(task.path))
        offsets = sound_seals(data)
        if _is_whole(data, offsets, task):
            return _glance_of_whole(task, data, offsets)
        return _glance_of_part(task, read(data))
    except (StoreFault, NewerFormat) as fault:
        return _unreadable(task, str(fault))


def glance_all(tasks: Sequence[Task]) -> list[Glance]:
    """A glance at each."""
    return [glance(task) for task in tasks]


def gone(task: Task) -> Glance:
    """What stands for a record whose seal is remembered, and whose file is not there."""
    sentence = "Its seal is remembered, and the file is not there."
    return Glance(
        task.file,
        task.stamp,
        serial=_serial_by_name(task.file),
        state=MISSING,
        words=folded_words((task.file, MISSING)),
        remarks=(Said(MISSING, 4, sentence, None),),
        read=True,
    )


def _is_whole(data: bytes, offsets: list[int], task: Task) -> bool:
    """Whether every byte is sealed, each event has its seal, and what is remembered of it agrees."""
    return (
        bool(offsets)
        and data.startswith(_OPENING)
        and offsets[-1] + _SEAL_LINE == len(data)
        and data.count(_EVENT) == len(offsets)
        and all(
            number <= len(offsets) and data.startswith(digits.encode(), offsets[number - 1] + _SEAL_START)
            for number, digits in task.remembered
        )
    )


def _glance_of_whole(task: Task, data: bytes, offsets: list[int]) -> Glance:
    """The header, the last event, and the closing summary with what follows it, without the rest."""
    closed = data.rfind(_CLOSED)
    start = data.rfind(_EVENT, 0, closed + 1) if closed >= 0 else data.rfind(_EVENT)
    try:
        header = _fields(data[len(_OPENING) : data.find(_EVENT)])
        tail = [_fields(event) for event in data[start + len(_EVENT) :].split(_EVENT)]
        last_seal = str(tail[-1]["chain"]).removeprefix("sha256:")
        return _glance(task, header, tail, len(offsets), last_seal, closed >= 0)
    except (ValueError, KeyError, TypeError):
        return _glance_of_part(task, read(data))  # it says what is wrong


def _fields(table: bytes) -> dict[str, Any]:
    """The fields of one table. Raises ValueError where it is not a flat one."""
    fields = flat_table(table.decode())
    if fields is None:
        raise ValueError("not a flat table")
    return fields


def _glance_of_part(task: Task, record: RecordRead) -> Glance:
    """Of a record that is torn, damaged, or contradicted by what is remembered of it."""
    header = record.header
    if header is None:
        if record.damage is None:
            return _unreadable(task, "It holds no whole event; the power failed while it was being made.")
        return _damaged(Glance(task.file, task.stamp), record.first_bad_event or 1, record.damage)
    table = dataclasses.asdict(header)
    closed = record.closed
    tail = list(record.events)
    if closed:
        tail = tail[next(place for place, each in enumerate(tail) if each["kind"] == CLOSING_KIND) :]
    found = _glance(task, table, tail, len(record.events), record.seals[-1].hexadecimal, closed)
    wrong = weighed(record, task.known)
    if wrong is not None:
        return _damaged(found, *wrong)
    return dataclasses.replace(found, remarks=(*torn(record), *found.remarks))


def weighed(record: RecordRead, known: Iterable[OutsideSeal]) -> tuple[int, str] | None:
    """From which event on a record cannot be believed, and why; None if nothing speaks against it."""
    if record.damage is not None:
        return record.first_bad_event or 1, record.damage
    return contradiction(record, known)


def _glance(
    task: Task,
    header: Mapping[str, Any],
    tail: Sequence[Mapping[str, Any]],
    events: int,
    last_seal: str,
    is_closed: bool,
) -> Glance:
    closed: Mapping[str, Any] = tail[0] if is_closed else {}
    judged = tail[-1] if len(tail) > 1 and is_closed else None
    state = str((judged or closed).get("outcome", "open"))
    mentions = [*_header_mentions(header), *_summary_mentions(closed)]
    if judged is not None:
        mentions.append(mention("person", str(judged.get("name", "")), 0))
    return Glance(
        file=task.file,
        stamp=task.stamp,
        serial=str(header["serial"]),
        procedure=str(header["procedure"]),
        revision=str(header["revision"]),
        procedure_sha256=str(header["procedure_sha256"]),
        variant=str(closed.get("variant", header["variant"])),
        practice=bool(header["practice"]),
        opened=str(header["opened"]),
        last=str(tail[-1]["at"]),
        events=events,
        last_seal=last_seal,
        state=state,
        judged=judged is not None,
        words=folded_words((*_header_words(header), state, *(each.name for each in mentions))),
        mentions=tuple(mentions),
        remarks=(_not_read(closed),),
    )


def _not_read(closed: Mapping[str, Any]) -> Said:
    """What is said of a record until its events are read."""
    deviations, voided = closed.get("deviations", 0), closed.get("voided", 0)
    counts = f" Its summary counts {deviations} deviations and {voided} voided facts." if closed else ""
    return Said(NOT_READ, 2 if deviations or voided else 1, f"Its events are not read yet.{counts}", None)


def _header_mentions(header: Mapping[str, Any]) -> Iterator[Mention]:
    procedure = str(header["procedure"])
    yield mention("serial", str(header["serial"]), 0)
    yield mention("procedure", procedure, 0)
    yield mention("procedure", f"{procedure}-{header['revision']}", 0)


def _summary_mentions(closed: Mapping[str, Any]) -> Iterator[Mention]:
    kinds: tuple[tuple[MentionKind, str], ...] = (
        ("instrument", "wrenches"),
        ("instrument", "gauges"),
        ("lot", "lots"),
        ("person", "people"),
    )
    for kind, names in kinds:
        yield from (mention(kind, str(name), 0) for name in closed.get(names, ()))


def _header_words(header: Mapping[str, Any]) -> tuple[str, ...]:
    practice = "practice" if header["practice"] else ""
    return (str(header["variant"]), *day_words(str(header["opened"])), str(header["bench"]), practice)


def torn(record: RecordRead) -> tuple[Said, ...]:
    """What is said of a record whose last entry was cut off."""
    if not record.torn:
        return ()
    number = len(record.events)
    sentence = f"After event {number}, {len(record.torn)} bytes of an entry that was never finished are left."
    return (Said("torn", 1, sentence, number),)


def damage_words(event: int, sentence: str) -> str:
    """What is said of a damaged record."""
    return f"Damaged from event {event} on. {sentence}"


def _damaged(found: Glance, event: int, sentence: str) -> Glance:
    said = Said(DAMAGED, 4, damage_words(event, sentence), event)
    return dataclasses.replace(
        found,
        serial=found.serial or _serial_by_name(found.file),
        state=DAMAGED,
        words=folded_words((*found.words.split("\n"), found.file, DAMAGED)),
        remarks=(said, *found.remarks),
        read=not found.serial,
    )


def _unreadable(task: Task, sentence: str) -> Glance:
    return Glance(
        task.file,
        task.stamp,
        serial=_serial_by_name(task.file),
        state=UNREADABLE,
        words=folded_words((task.file, UNREADABLE)),
        remarks=(Said(UNREADABLE, 3, sentence, None),),
        read=True,
    )


def _serial_by_name(file: str) -> str:
    """The serial number as the name of a record gives it, where the record itself does not."""
    return file.rpartition("-")[0] or file
