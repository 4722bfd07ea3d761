"""One writer at a time: a lock file beside each record, which says who holds it.

The lock itself is the kernel's and ends with the process that holds it, however that ends. The file's content
is for the person who is refused. It works among the processes of one machine; on a network folder it is only
as good as that file system's own locking.
"""

from __future__ import annotations

import contextlib
import errno
import fcntl
import os
import tomllib
from dataclasses import asdict, dataclass, replace
from pathlib import Path

import tomli_w

from benchcheck.store.disk import fault


@dataclass(frozen=True, slots=True)
class Holder:
    """Who has a record open for writing."""

    who: str
    """The person's name; empty if nobody has signed on yet."""
    since: str
    """RFC 3339 with offset."""
    host: str
    pid: int

    @classmethod
    def here(cls, who: str, since: str) -> Holder:
        """This process, working for `who`."""
        return cls(who, since, os.uname().nodename, os.getpid())


class Held(Exception):
    """Another process has the record open for writing; it can still be read."""

    def __init__(self, name: str, by: Holder | None) -> None:
        who = "another program"
        if by is not None:
            who = f"{by.who or 'someone'} (process {by.pid} on {by.host}, since {by.since})"
        super().__init__(f"{name} is being written by {who}: until that ends it can only be read.")
        self.by = by


class Lock:
    """The lock on one record, held from its making until `release`."""

    def __init__(self, record: Path, holder: Holder) -> None:
        """Raises Held at once if another process has it, StoreFault if the lock file cannot be made."""
        self.path = record.with_name(record.name + ".lock")
        try:
            self._descriptor = self._acquire(record.name)
        except OSError as error:
            raise fault(f"{record.name} cannot be opened for writing", error) from error
        self._holder = holder
        try:
            self._write()
        except OSError as error:
            self.release()
            raise fault(f"{record.name} cannot be opened for writing", error) from error

    def passed_to(self, who: str) -> None:
        """Another person works now, at the same program. What cannot be written is only not shown."""
        self._holder = replace(self._holder, who=who)
        with contextlib.suppress(OSError):
            self._write()

    def _write(self) -> None:
        content = tomli_w.dumps(asdict(self._holder)).encode("utf-8", "replace")
        os.ftruncate(self._descriptor, 0)
        os.pwrite(self._descriptor, content, 0)

    def release(self) -> None:
        """Let the next one have it."""
        # The name goes before the lock does, so that no one can hold a lock on a file that has lost its name.
        with contextlib.suppress(OSError):
            self.path.unlink()
        os.close(self._descriptor)

    def _acquire(self, name: str) -> int:
        while True:
            descriptor = os.open(self.path, os.O_RDWR | os.O_CREAT | os.O_CLOEXEC, 0o644)
            try:
                fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
                if self._is_in_place(descriptor):
                    return descriptor
            except OSError as error:
                holder = _holder(descriptor)
                os.close(descriptor)
                if error.errno in (errno.EWOULDBLOCK, errno.EACCES):
                    raise Held(name, holder) from None
                raise
            # The last holder took the name away between our opening and our locking.
            os.close(descriptor)

    def _is_in_place(self, descriptor: int) -> bool:
        try:
            return os.path.samestat(os.fstat(descriptor), os.stat(self.path))
        except FileNotFoundError:
            return False


def _holder(descriptor: int) -> Holder | None:
    """What the lock file says; None while its holder has not written it yet."""
    try:
        content = tomllib.loads(os.pread(descriptor, 4096, 0).decode())
        return Holder(
            who=str(content["who"]),
            since=str(content["since"]),
            host=str(content["host"]),
            pid=int(content["pid"]),
        )
    except (OSError, ValueError, KeyError, TypeError):
        return None
