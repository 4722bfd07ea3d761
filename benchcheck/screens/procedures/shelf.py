"""The procedures of a workspace as they lie on the disk now: read, checked, understood; again on a change.

No Textual: it is looked at from a thread beside the screen, and hands over whole values that nobody changes.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from benchcheck.checking.catalogue import Silenced
from benchcheck.checking.check import check_read, read_any, workshop_among
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Head, Procedure
from benchcheck.procedure.reading import Read
from benchcheck.procedure.references import references
from benchcheck.procedure.registers import ShopRegister
from benchcheck.report.understood import Understood, understood
from benchcheck.session.rehearsal import RehearsalFile
from benchcheck.store.disk import StoreFault, read_file
from benchcheck.store.workspace import Workspace

Stamp = tuple[int, int, int]


@dataclass(frozen=True)
class Book:
    """One file of `procedures/`, as it is now and as it was last understood."""

    path: Path
    content: bytes = b""
    fault: str = ""
    """Why it cannot be opened."""
    checking: bool = True
    """Whether it is being checked; what is found is that of before until then."""
    findings: tuple[Finding, ...] = ()
    """The worst first, then by place."""
    silenced: tuple[Silenced, ...] = ()
    lines: tuple[bytes, ...] = ()
    """Of the content that the findings are about."""
    reads: bool = False
    """Whether it reads now, with all that it names."""
    head: Head | None = None
    """As it last read."""
    understood: Understood | None = None
    """As it last read with all that it names."""
    at: datetime | None = None
    """When this content was read."""
    understood_at: datetime | None = None

    def count(self, severity: Severity) -> int:
        return sum(each.severity is severity for each in self.findings)


class Shelf:
    """What is known of the folder so far. Only one thread may look at a time."""

    def __init__(self, workspace: Workspace, clock: Callable[[], datetime]) -> None:
        self._workspace = workspace
        self._clock = clock
        self._stamps: dict[Path, Stamp] | None = None
        self._reads: dict[Path, Read[Any] | list[Finding]] = {}
        self._books: dict[Path, Book] = {}

    def look(
        self, tell: Callable[[tuple[Book, ...]], None], first: Path | None, is_over: Callable[[], bool]
    ) -> None:
        """See what changed; read that, then check everything, `first` before all others.

        `tell` is called with all books as soon as one is known better; `is_over` ends it early.
        """
        while not is_over():
            stamps = self._stamps_now()
            if stamps == self._stamps:
                return
            self._take(stamps)
            tell(tuple(self._books.values()))
            for path in sorted(self._books, key=lambda path: path != first):
                if is_over() or self._stamps_now() != stamps:
                    break
                self._books[path] = self._checked(self._books[path])
                tell(tuple(self._books.values()))

    def _stamps_now(self) -> dict[Path, Stamp]:
        """The files there are, and what changes when one of them is written."""
        try:
            procedures = self._workspace.procedure_paths()
        except StoreFault:
            procedures = []
        paths = (*procedures, self._workspace.instruments, self._workspace.shop)
        return {path: stamp for path in paths if (stamp := _stamp(path)) is not None}

    def _take(self, stamps: dict[Path, Stamp]) -> None:
        """Read what changed, and forget what is gone."""
        before, self._stamps = self._stamps or {}, stamps
        registers = (self._workspace.instruments, self._workspace.shop)
        self._books = {path: self._books.get(path, Book(path)) for path in stamps if path not in registers}
        for path in sorted(stamps, key=lambda path: path not in registers):
            if before.get(path) != stamps[path]:
                self._read(path)
        self._reads = {path: each for path, each in self._reads.items() if path in stamps}
        self._books = {path: replace(book, checking=True) for path, book in self._books.items()}

    def _read(self, path: Path) -> None:
        try:
            content = read_file(path)
        except StoreFault as fault:
            self._reads.pop(path, None)
            if path in self._books:
                self._books[path] = replace(self._books[path], content=b"", fault=str(fault), reads=False)
            return
        read = self._reads[path] = read_any(content, path.name, lambda: RehearsalFile)
        if path not in self._books:
            return
        book = replace(self._books[path], content=content, fault="", at=self._now(), reads=False)
        if isinstance(read, Read) and isinstance(read.model, Procedure):
            sound = not any(each.severity is Severity.ERROR for each in references(read))
            book = replace(book, head=read.model.procedure, reads=sound)
        self._books[path] = book

    def _now(self) -> datetime:
        """The time by the shop's clock, if its register can be read."""
        shop = self._reads.get(self._workspace.shop)
        register = shop.model if isinstance(shop, Read) else None
        zone = register.shop.time_zone if isinstance(register, ShopRegister) else "UTC"
        return self._clock().astimezone(ZoneInfo(zone))

    def _checked(self, book: Book) -> Book:
        read = self._reads.get(book.path)
        if read is None:
            return replace(book, checking=False, findings=(), silenced=())
        others = (
            each for path, each in self._reads.items() if path != book.path and not isinstance(each, list)
        )
        workshop = workshop_among(others)
        checked = check_read(read, workshop)
        worst_first = sorted(checked.findings, key=lambda each: list(Severity).index(each.severity))
        book = replace(
            book,
            checking=False,
            findings=tuple(worst_first),
            silenced=checked.silenced,
            lines=tuple(book.content.split(b"\n")),
        )
        if not book.reads:
            return book
        assert isinstance(read, Read)
        subject = Subject(read, workshop.wrenches, workshop.gauges, workshop.others)
        return replace(book, understood=understood(subject), understood_at=book.at)


def _stamp(path: Path) -> Stamp | None:
    """What changes when a file is written; None for one that is not there."""
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_mtime_ns, found.st_ctime_ns, found.st_size
