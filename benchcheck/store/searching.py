"""Records searched for what turned out wrong: an instrument, a lot, a procedure, a person, a pump.

The index says which records name it; those that it has not read, or that are damaged, are looked at anyhow,
and without an index all are. A record whose seals all hold, that is as it is remembered, and that nowhere
names what is searched for, is not read event by event, which takes many times as long. What cannot be
searched, or only up to an event, is told as a gap. What was found means is said in `session.trace`.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import datetime, timedelta
from difflib import get_close_matches
from pathlib import Path
from typing import Any

from benchcheck.procedure.model import Procedure
from benchcheck.session.arrival import same_serial
from benchcheck.session.events import Event, MovedOn, UnknownEvent, from_table
from benchcheck.session.record import NewerFormat, read, sound_seals
from benchcheck.session.state import Job, Registers
from benchcheck.session.trace.past import Past
from benchcheck.session.trace.search import Gap, Touched, Trace, touched, with_later_records
from benchcheck.session.trace.wanted import Kind, Wanted
from benchcheck.session.verification import contradiction
from benchcheck.store.disk import StoreFault, read_file
from benchcheck.store.index import Index
from benchcheck.store.index_queries import Listed, Query
from benchcheck.store.index_rows import DAMAGED, NOT_UNDERSTOOD, UNREADABLE
from benchcheck.store.index_taking import Progress, never, nothing_to_say
from benchcheck.store.library import Unreadable, parse_procedure
from benchcheck.store.revisions import texts_met
from benchcheck.store.sitting import CannotOpen
from benchcheck.store.workspace import Workspace

_SEAL_LINE = len('chain = "sha256:') + 64 + len('"\n')
_EVENT = b"\n[[event]]\n"
_NAMED_IN: dict[Kind, str] = {
    "instrument": "wrench|gauge|instrument",
    "lot": "lot|value",
    "person": "by|name|witness|second",
}
"""The keys of events under which a name of each kind stands."""


def find(
    workspace: Workspace,
    registers: Registers,
    wanted: Wanted,
    now: datetime,
    index: Index | None = None,
    progress: Callable[[Progress], None] = nothing_to_say,
    stop: Callable[[], bool] = never,
) -> Trace:
    """Search the records of a workspace; with an index, which is brought up to date, only those it points at.

    `progress` is told which record is next; `stop` is asked before each, and then those that were not looked
    into are counted. Raises StoreFault where the folder itself cannot be read.
    """
    paths = all_paths = workspace.record_paths()
    records = len(all_paths)
    # Where this is stopped, the index does not know every record; then no other is looked into either.
    by_index = index is not None and not index.refresh(progress, stop, events=False).stopped
    if index is not None and by_index:
        paths = _pointed_at(index, wanted, all_paths, now)
    reader = Reader(workspace, registers)
    found: list[Touched] = []
    not_reached: set[Path] = set()
    for number, path in enumerate(paths, 1):
        if stop():
            not_reached.update(paths[number - 1 :])
            break
        progress(Progress("records searched", number, len(paths)))
        past = reader.past(path, wanted)
        try:
            touches = touched(past, wanted, registers) if past is not None else None
        except Exception as fault:  # a record made elsewhere may name what its procedure does not have
            reader.does_not_fit(path, fault)
            continue
        found += [touches] if touches is not None else []
    known = () if found or not_reached else _names(wanted, registers, index, reader)
    sought = wanted.step or wanted.name
    serials = {each.past.header.serial for each in found}
    if index is not None:
        of_them = {file for serial in serials for file in index.mentioning("serial", serial)}
        all_paths = [path for path in all_paths if path.name in of_them]
    others = reader.of_the_pumps(serials, all_paths)
    later: list[Past] = []
    for number, path in enumerate(others, 1):
        if stop() and not reader.has_read(path):
            not_reached.add(path)
            continue
        progress(Progress("records of these pumps", number, len(others)))
        past = reader.past(path)
        later += [past] if past is not None else []
    missing = workspace.missing_records()
    gaps = [
        *reader.gaps.values(),
        *(Gap(name, "", 0, "its seal is remembered, and the file is gone") for name in missing),
    ]
    return Trace(
        wanted=wanted,
        on=now,
        records=records + len(missing),
        touched=with_later_records(found, later),
        by_index=by_index,
        misspelt=bool(known) and not any(wanted.is_meant(name) for name in known),
        like=tuple(get_close_matches(sought, known, n=3)),
        gaps=tuple(sorted(gaps, key=lambda gap: gap.file)),
        not_reached=len(not_reached),
    )


def _names(wanted: Wanted, registers: Registers, index: Index | None, reader: Reader) -> tuple[str, ...]:
    """Every name that may have been meant, as far as they are known without opening more records."""
    if wanted.step:
        steps = (step.id for past in reader.pasts for step in past.pump.steps)
        return tuple(dict.fromkeys(steps))
    names = index.names(wanted.kind) if index is not None else []
    if wanted.kind == "instrument":
        names += (each.id for each in registers.instruments)
    if wanted.kind == "person":
        names += (each.name for each in registers.people.person)
    return tuple(dict.fromkeys(names))


def _pointed_at(index: Index, wanted: Wanted, paths: Iterable[Path], now: datetime) -> list[Path]:
    """The records that name what is wanted, and those of which the index cannot tell."""
    named = set(index.mentioning(wanted.kind, wanted.name))
    files = {
        each.file
        for each in index.listed(Query(latest_first=True), now.date())
        if _cannot_tell(each) or ((each.file in named or not each.read) and _in_days(each, wanted))
    }
    return [path for path in paths if path.name in files]


def _cannot_tell(listed: Listed) -> bool:
    """Whether a record may hold more than the index knows of it."""
    in_doubt = (DAMAGED, UNREADABLE)
    return listed.state in in_doubt or any(remark.kind == NOT_UNDERSTOOD for remark in listed.remarks)


def _in_days(listed: Listed, wanted: Wanted) -> bool:
    """Whether a record can hold anything of these days; of one whose clock was odd, nobody knows.

    On the clock of the bench, a day may be the one before or after.
    """
    if not listed.read or any(remark.kind == "clock odd" for remark in listed.remarks):
        return True
    day = timedelta(days=1)
    opened, last = (datetime.fromisoformat(each).date() for each in (listed.opened, listed.last))
    return (wanted.until is None or opened - day <= wanted.until) and (
        wanted.since is None or last + day >= wanted.since
    )


class Reader:
    """Reads records for searches; what could not be read is gathered in `gaps`, by file name."""

    def __init__(self, workspace: Workspace, registers: Registers) -> None:
        self.gaps: dict[str, Gap] = {}
        self._workspace = workspace
        self._registers = registers
        self._seen = workspace.seen_seals.all()
        self._jobs: dict[str, Job | str] = {}
        self._pasts: dict[Path, Past] = {}
        self._serials: dict[Path, str] = {}
        """As the headers say, whether or not the rest can be read."""

    def past(self, path: Path, wanted: Wanted | None = None) -> Past | None:
        """A record to be searched; None if it names nothing of what is wanted, or cannot be read at all."""
        if path in self._pasts:
            return self._pasts[path]
        try:
            data = read_file(path)
            self._serials[path] = str(_header_of(data).get("serial", ""))
            if wanted is not None and self._is_whole(path, data) and not may_name(data, wanted):
                return None
            return self._read(path, data)
        except (StoreFault, NewerFormat, CannotOpen) as why:
            self._note(path, 0, str(why), damaged=False)
            return None

    def _read(self, path: Path, data: bytes) -> Past | None:
        """Raises NewerFormat; CannotOpen where no event is whole, or the procedure is missing."""
        record = read(data)
        if record.header is None and record.damage is None:
            raise CannotOpen("it holds no whole event")
        contradicted = contradiction(record, self._seen.get(path.name, ()))
        if record.damage is not None:
            self._note(path, len(record.events), record.damage)
        elif contradicted is not None:
            self._note(path, contradicted[0] - 1, contradicted[1])
        if record.header is None:
            return None
        events: list[Event] = []
        for table in record.events:
            try:
                events.append(from_table(table))
            except UnknownEvent as unknown:
                self._note(
                    path, len(events), f"{unknown}; another program may have written it", damaged=False
                )
                break
        job = self._job(record.header.procedure_sha256)
        if any(isinstance(event, MovedOn) for event in events):
            job = replace(job, later=self._texts_met(record.events))
        self._pasts[path] = past = Past(path.name, record.header, tuple(events), job)
        return past

    def _texts_met(self, tables: Sequence[Mapping[str, Any]]) -> dict[str, Procedure]:
        """The other texts that a record moved on to. Raises CannotOpen."""
        try:
            return texts_met(self._workspace.sessions, tables)
        except (StoreFault, Unreadable) as fault:
            raise CannotOpen(f"a procedure it moved on to: {str(fault).splitlines()[0]}") from None

    def does_not_fit(self, path: Path, fault: Exception) -> None:
        """Note a record whose events make no sense of the procedure that it names."""
        why = f"its events do not fit the procedure it names ({type(fault).__name__}: {fault})"
        self._note(path, 0, why, damaged=False)

    @property
    def pasts(self) -> Iterable[Past]:
        """The records that were read so far."""
        return self._pasts.values()

    def has_read(self, path: Path) -> bool:
        """Whether a record is in hand."""
        return path in self._pasts

    def of_the_pumps(self, serials: Iterable[str], paths: Iterable[Path]) -> list[Path]:
        """All records of these pumps, as their headers say."""
        wanted = list(serials)
        return [path for path in paths if any(same_serial(self._serial(path), serial) for serial in wanted)]

    def _serial(self, path: Path) -> str:
        if path not in self._serials:
            try:
                self._serials[path] = str(_header_of(read_file(path)).get("serial", ""))
            except StoreFault:
                self._serials[path] = ""
        return self._serials[path]

    def _note(self, path: Path, beyond: int, why: str, *, damaged: bool = True) -> None:
        self.gaps[path.name] = Gap(path.name, self._serials.get(path, ""), beyond, why, damaged)

    def _is_whole(self, path: Path, data: bytes) -> bool:
        """Whether every byte is sealed, each event has its seal, and what is remembered of it agrees."""
        seals = sound_seals(data)
        if not seals or seals[-1] + _SEAL_LINE != len(data) or data.count(_EVENT) != len(seals):
            return False
        start = len('chain = "sha256:')
        return all(
            known.number <= len(seals)
            and data.startswith(known.digits.encode(), seals[known.number - 1] + start)
            for known in self._seen.get(path.name, ())
        )

    def _job(self, sha256: str) -> Job:
        """The procedure that a record was made by. Raises CannotOpen."""
        if sha256 not in self._jobs:
            try:
                content = self._workspace.pinned(sha256)
                made = parse_procedure(content, f"{sha256}.toml").model
                self._jobs[sha256] = Job(made, self._registers)
            except (StoreFault, Unreadable) as fault:
                self._jobs[sha256] = f"the procedure it was made by: {str(fault).splitlines()[0]}"
        job = self._jobs[sha256]
        if isinstance(job, str):
            raise CannotOpen(job)
        return job


def may_name(data: bytes, wanted: Wanted) -> bool:
    """Whether the bytes of a record can hold what is searched for: False is sure."""
    if wanted.kind == "procedure":
        header = _header_of(data)
        # A revision that the work moved on to stands in an event.
        revisions = {value.decode("utf-8", "replace") for value in _values("revision").findall(data)}
        return any(wanted.is_procedure(str(header.get("procedure")), revision) for revision in revisions)
    if wanted.kind == "serial":
        return wanted.is_name(str(_header_of(data).get("serial", "")))
    values = set(_values(_NAMED_IN[wanted.kind]).findall(data))
    # A value with an escape in it, or one that is split, is left to the reading itself.
    return any(b"\\" in value or wanted.is_name(value.decode("utf-8", "replace")) for value in values)


def _values(keys: str) -> re.Pattern[bytes]:
    return re.compile(rb'^(?:%s) = "(.*)"$' % keys.encode(), re.MULTILINE)


def _header_of(data: bytes) -> dict[str, object]:
    """The header of a record, without its seal; empty where it cannot be read."""
    try:
        table = tomllib.loads(data.partition(_EVENT)[0].decode()).get("record")
    except (ValueError, RecursionError):
        return {}
    return table if isinstance(table, dict) else {}
