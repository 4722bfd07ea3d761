"""A workspace: a folder with `procedures/` and `sessions/`, and what lies where in it.

It hands out paths, bytes and records. What procedures and registers say is read in
`benchcheck.procedure`; how a record is written is in `records`.
"""

from __future__ import annotations

import contextlib
import hashlib
import itertools
import os
import re
import unicodedata
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from benchcheck.session.record import Fields, Header, RecordRead, has_closing_event, read
from benchcheck.store.disk import StoreFault, fault, make_folder, read_file, write_new, write_whole
from benchcheck.store.lock import Held, Holder
from benchcheck.store.records import RecordFile, create, open_record
from benchcheck.store.seen_seals import SeenSeals

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable

_REGISTERS = ("shop.toml", "instruments.toml", "people.toml")
_NAME_BYTES = 80
_TAIL_BYTES = 65536


class Workspace:
    """The folder that a shop works in. Making one touches nothing on the disk."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.procedures = folder / "procedures"
        self.rehearsals = self.procedures / "rehearsals"
        self.shop, self.instruments, self.people = (self.procedures / name for name in _REGISTERS)
        self.sessions = folder / "sessions"
        self.pinned_procedures = self.sessions / "procedures"
        self.prints = self.sessions / "print"
        self.seen_seals = SeenSeals(self.sessions / "seen-seals.txt")

    def procedure_paths(self) -> list[Path]:
        """The files in `procedures/` that are not registers, by name.

        Raises StoreFault, as the other listings do. A folder that is not there lists nothing.
        """
        return [path for path in _listed(self.procedures, ".toml") if path.name not in _REGISTERS]

    def rehearsal_paths(self, procedure: str) -> list[Path]:
        """The rehearsal files of a procedure's id, by name."""
        if procedure != safe_name(procedure):
            return []
        return _listed(self.rehearsals / procedure, ".toml")

    def record_paths(self) -> list[Path]:
        """All records, by name."""
        return _listed(self.sessions, ".toml")

    def open_record_paths(self) -> list[Path]:
        """The records that hold no closing event, by name: a quick look at each file's end, not a proof."""
        return [path for path in self.record_paths() if not _looks_closed(path)]

    def missing_records(self) -> list[str]:
        """Names of records whose seals are remembered and whose files are gone."""
        return sorted(self.seen_seals.all().keys() - {path.name for path in self.record_paths()})

    def read_record(self, path: Path) -> RecordRead:
        """Read a record, also one that another process is writing.

        Raises StoreFault, NewerFormat.
        """
        return read(read_file(path))

    def create_record(self, header: Header, first: Fields, procedure: bytes, who: str) -> RecordFile:
        """Make the record of a new session, with its first event, and pin the procedure's bytes beside it.

        The file is named for the serial number and the time of opening, with a number if the name was taken.

        Raises StoreFault; ValueError if the header names other bytes than `procedure`.
        """
        if self.pin(procedure) != header.procedure_sha256:
            raise ValueError("the header names another procedure than the one to be pinned")
        holder = Holder.here(who, header.opened)
        opened = datetime.fromisoformat(header.opened).astimezone(UTC)
        names = _names(f"{safe_name(header.serial)}-{opened:%Y%m%dT%H%M%SZ}", ".toml")
        known = self.seen_seals.all()
        while True:
            name = next(names)
            # What is remembered of a record that is gone must not speak of this one.
            if name not in known:
                with contextlib.suppress(FileExistsError, Held):
                    return create(self.sessions / name, header, first, holder, self.seen_seals)

    def open_record(self, path: Path, who: str, since: str) -> RecordFile:
        """Open a record for writing; what it raises, and what becomes of a torn tail, is in `records`.

        Parameters: the person it is opened for, and now, as RFC 3339 with offset; both are shown to whoever
        comes second.
        """
        return open_record(path, Holder.here(who, since), self.seen_seals)

    def pin(self, procedure: bytes) -> str:
        """Keep a copy of a procedure's bytes with the records; returns their SHA-256, which is its name.

        Raises StoreFault.
        """
        sha256 = hashlib.sha256(procedure).hexdigest()
        path = self._pinned_path(sha256)
        make_folder(self.pinned_procedures)
        try:
            if not path.is_file() or path.read_bytes() != procedure:
                write_whole(path, procedure)
        except OSError as error:
            raise fault(f"The copy of the procedure, {path}, was not written", error) from error
        return sha256

    def pinned(self, sha256: str) -> bytes:
        """The bytes of a pinned procedure.

        Raises StoreFault, also if they are not the ones that were pinned.
        """
        path = self._pinned_path(sha256)
        procedure = read_file(path)
        if hashlib.sha256(procedure).hexdigest() != sha256:
            raise StoreFault(f"{path} is not the procedure that was pinned: its SHA-256 is another one.")
        return procedure

    def print_text(self, name: str, text: str, ending: str = ".txt") -> Path:
        """Write a text to `sessions/print/`, never over an earlier one; returns where it is.

        Raises StoreFault.
        """
        make_folder(self.prints)
        names = _names(safe_name(name), ending)
        while True:
            path = self.prints / next(names)
            try:
                with contextlib.suppress(FileExistsError):
                    write_new(path, text.encode("utf-8", "replace"))
                    return path
            except OSError as error:
                raise fault(f"{path} was not written", error) from error

    def write_demonstration(self) -> list[Path]:
        """Copy the demonstration pumps and registers into `procedures/`; a file that is there stays as it is.

        Raises StoreFault.
        """
        written: list[Path] = []
        try:
            files = _files(demonstration())
        except OSError as error:
            raise fault(
                "The demonstration procedures that belong to the program cannot be read", error
            ) from error
        for place, source in files:
            path = self.procedures / place
            make_folder(path.parent)
            if path.exists():
                continue
            try:
                # At one stroke: half a file would stand in the way of the whole one next time.
                write_whole(path, source.read_bytes())
                written.append(path)
            except OSError as error:
                raise fault(f"{path} was not written", error) from error
        return written

    def _pinned_path(self, sha256: str) -> Path:
        # It comes out of a file, so it must not lead anywhere else.
        return self.pinned_procedures / f"{safe_name(sha256)}.toml"


def demonstration() -> Traversable:
    """The demonstration procedures: inside an installed package, else at the top of the repository."""
    # Slow to import, and only an empty workspace needs it.
    import importlib.resources

    package = importlib.resources.files("benchcheck")
    packaged = package / "demonstration"
    return packaged if packaged.is_dir() else Path(str(package)).parent / "procedures"


def safe_name(text: str) -> str:
    """A file name from what a person typed: letters and digits of any script, dots, dashes and underscores.

    Never empty, hidden, a path, or too long. Different texts may come out alike: it is for finding, not for
    telling apart.
    """
    kept = "".join(
        character if character.isalnum() or character in "._-" else "-"
        for character in unicodedata.normalize("NFKC", text)
    )
    name = re.sub(r"-{2,}", "-", kept).strip(".-").encode()[:_NAME_BYTES].decode("utf-8", "ignore")
    return name.strip(".-") or "unnamed"


def _names(stem: str, ending: str) -> Iterator[str]:
    yield stem + ending
    for number in itertools.count(2):
        yield f"{stem}-{number}{ending}"


def _listed(folder: Path, ending: str) -> list[Path]:
    try:
        with os.scandir(folder) as entries:
            names = sorted(
                entry.name
                for entry in entries
                if entry.name.endswith(ending) and not entry.name.startswith(".") and entry.is_file()
            )
    except FileNotFoundError:
        return []
    except OSError as error:
        raise fault(f"The folder {folder} cannot be listed", error) from error
    return [folder / name for name in names]


def _looks_closed(path: Path) -> bool:
    try:
        with path.open("rb") as file:
            size = file.seek(0, os.SEEK_END)
            file.seek(max(0, size - _TAIL_BYTES))
            if has_closing_event(file.read()):
                return True
            file.seek(0)
            # Reviewers may have written more behind the closing event than the tail shows.
            return size > _TAIL_BYTES and has_closing_event(file.read())
    except OSError as error:
        raise fault(f"{path} cannot be read", error) from error


def _files(folder: Traversable, above: Path = Path()) -> list[tuple[Path, Traversable]]:
    found: list[tuple[Path, Traversable]] = []
    for entry in sorted(folder.iterdir(), key=lambda entry: entry.name):
        if entry.is_dir():
            found += _files(entry, above / entry.name)
        elif entry.name.endswith((".toml", ".md")):
            found.append((above / entry.name, entry))
    return found
