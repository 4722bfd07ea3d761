"""Records on disk: made, opened by one writer at a time, appended to, and set right after a power cut.

An event counts as written when its bytes are on the disk, and not before: state in memory follows the file.
What the events mean is for the session; which records there are, and where, is for the workspace.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
from dataclasses import dataclass
from pathlib import Path
from types import TracebackType

from benchcheck.session.record import Chain, Fields, Header, RecordRead, header_bytes, read
from benchcheck.session.verification import contradiction
from benchcheck.store.disk import StoreFault, fault, read_file, sync_folder, write_all, write_new
from benchcheck.store.lock import Holder, Lock
from benchcheck.store.seen_seals import SeenSeals


@dataclass(frozen=True, slots=True)
class SetAside:
    """The torn tail of a record, moved out of it. The session says so in its next event."""

    file: str
    """Name of the file that holds it, beside the record."""
    size: int
    """[bytes]"""
    sha256: str


class DamagedRecord(Exception):
    """The record contradicts its seals, or what is known of them: it can be read, and is not added to."""

    def __init__(self, name: str, first_bad_event: int, damage: str, record: RecordRead) -> None:
        super().__init__(
            f"{name} is damaged from event {first_bad_event} on, and nothing is added to it. {damage}"
        )
        self.first_bad_event = first_bad_event
        self.record = record


class NeverBegun(Exception):
    """The power failed while the record was being made: no event of it is whole, so there is no record."""

    def __init__(self, name: str, set_aside: SetAside) -> None:
        super().__init__(
            f"{name} holds no whole event, so nothing had been confirmed; "
            f"what there was is kept as {set_aside.file}."
        )
        self.set_aside = set_aside


class RecordFile:
    """A record open for writing, under its lock."""

    def __init__(
        self, path: Path, lock: Lock, descriptor: int, record: RecordRead, seen_seals: SeenSeals
    ) -> None:
        self.path = path
        self.record = record
        """As it was when it was opened; what was appended since is not in it."""
        self.set_aside: SetAside | None = None
        """The torn tail that was found on opening."""
        self.chain: Chain = record.chain
        self.event_count = len(record.events)
        self._lock = lock
        self._descriptor = descriptor
        self._seen_seals = seen_seals
        self._unusable: str | None = None

    def append(self, *events: Fields) -> None:
        """Write the events, in one piece, so that they are on the disk when this returns.

        Their numbers go on from `event_count`. On failure the file is as it was, and so is this object.

        Raises StoreFault, and what `record.flat` raises.
        """
        data = b""
        chain = self.chain
        for number, event in enumerate(events, start=self.event_count + 1):
            if event["number"] != number:
                raise ValueError(f"event {event['number']} is appended where event {number} is due")
            block, chain = chain.then(event)
            data += block
        if self._unusable:
            raise StoreFault(self._unusable)
        self._require_in_place(self.chain.length)
        try:
            write_all(self._descriptor, data)
        except OSError as error:
            self._take_back()
            raise fault(f"Nothing was added to {self.path.name}", error) from error
        try:
            os.fsync(self._descriptor)
        except OSError as error:
            # What a disk holds after a failed sync is anyone's guess, even if a later one goes well.
            self._take_back()
            self._unusable = f"{self.path.name} could not be brought to the disk: leave it and open it again."
            raise fault(f"Nothing was added to {self.path.name}", error) from error
        self._require_in_place(chain.length)
        self.chain = chain
        self.event_count += len(events)

    def passed_to(self, who: str) -> None:
        """Say in the lock who works on it now, for whoever comes second."""
        self._lock.passed_to(who)

    def close(self) -> None:
        """Give the record free for others, and remember its last seal.

        Raises StoreFault if the seal cannot be remembered; the record is free all the same.
        """
        if self._descriptor < 0:
            return
        try:
            os.close(self._descriptor)
            self._descriptor = -1
            self._seen_seals.remember(self.path.name, self.event_count, self.chain.last_seal)
        finally:
            self._unusable = f"{self.path.name} is closed."
            self._lock.release()

    def __enter__(self) -> RecordFile:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        traceback: TracebackType | None,
    ) -> None:
        self.close()

    def _require_in_place(self, length: int) -> None:
        """The file must still be the one under its name, and as long as it was left.

        Otherwise an answer would go into a file that was deleted, or behind bytes that another program wrote.
        """
        try:
            there = os.stat(self.path)
            ours = os.fstat(self._descriptor)
        except OSError as error:
            self._unusable = f"{self.path} is gone: nothing more can be added to it."
            raise fault(f"{self.path} cannot be added to", error) from error
        if not os.path.samestat(there, ours):
            self._unusable = f"{self.path} was replaced by another file: nothing more can be added to it."
        elif ours.st_size != length:
            self._unusable = f"{self.path} was changed by another program: nothing more can be added to it."
        if self._unusable:
            raise StoreFault(self._unusable)

    def _take_back(self) -> None:
        """Cut off what a failed write left, so that the file ends with a seal again."""
        try:
            os.ftruncate(self._descriptor, self.chain.length)
            os.fsync(self._descriptor)
        except OSError:
            # The next opening finds a torn tail and sets it aside.
            self._unusable = f"{self.path.name} could not be put back as it was: leave it and open it again."


def create(path: Path, header: Header, first: Fields, holder: Holder, seen_seals: SeenSeals) -> RecordFile:
    """Make a record, with its first event, and hold it open for writing.

    Header and first event are written in one piece: there is no record without an event.

    Raises FileExistsError, Held, StoreFault.
    """
    head = header_bytes(header)
    block, _ = Chain(head).then(first)
    lock = Lock(path, holder)
    try:
        write_new(path, head + block)
        return _opened(path, lock, seen_seals)
    except BaseException as error:
        lock.release()
        if isinstance(error, OSError) and not isinstance(error, FileExistsError):
            raise fault(f"The record {path} was not made", error) from error
        raise


def open_record(path: Path, holder: Holder, seen_seals: SeenSeals) -> RecordFile:
    """Open a record for writing, and set a torn tail aside.

    Raises DamagedRecord, Held, NeverBegun, StoreFault, and NewerFormat.
    """
    # Without this a name that was mistyped would leave a lock file behind.
    read_file(path)
    lock = Lock(path, holder)
    try:
        return _opened(path, lock, seen_seals)
    except BaseException as error:
        lock.release()
        if isinstance(error, OSError):
            raise fault(f"{path} cannot be opened for writing", error) from error
        raise


def _opened(path: Path, lock: Lock, seen_seals: SeenSeals) -> RecordFile:
    known = seen_seals.of(path.name)
    descriptor = os.open(path, os.O_RDWR | os.O_APPEND | os.O_CLOEXEC)
    try:
        data = read_file(path)
        record = read(data)
        if record.damage and record.first_bad_event:
            raise DamagedRecord(path.name, record.first_bad_event, record.damage, record)
        contradicted = contradiction(record, known)
        if contradicted:
            raise DamagedRecord(path.name, *contradicted, record)
        file = RecordFile(path, lock, descriptor, record, seen_seals)
        if record.torn or not record.events:
            file.set_aside = _set_aside(path, record.torn)
            os.ftruncate(descriptor, record.kept)
            os.fsync(descriptor)
            if not record.events:
                path.unlink()
                sync_folder(path.parent)
                raise NeverBegun(path.name, file.set_aside)
        return file
    except BaseException:
        os.close(descriptor)
        raise


def _set_aside(path: Path, torn: bytes) -> SetAside:
    """Put a torn tail into a file of its own beside the record, before it is cut off."""
    number = 1
    while True:
        aside = path.with_name(f"{path.name}.torn-{number}")
        with contextlib.suppress(FileExistsError):
            write_new(aside, torn)
            return SetAside(aside.name, len(torn), hashlib.sha256(torn).hexdigest())
        number += 1
