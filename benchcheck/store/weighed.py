"""A record weighed where it lies: against its own seals, those its folder remembers, and its signatures.

Nothing is locked, changed or remembered, and nothing is loaded that only understanding the events needs.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from benchcheck.session.record import Header, RecordRead, read
from benchcheck.session.verification import OutsideSeal, Verdict, verify
from benchcheck.store.disk import fault, read_file
from benchcheck.store.seen_seals import SeenSeals
from benchcheck.store.signature import as_outside_seals, signature_files, signatures

if TYPE_CHECKING:
    from benchcheck.procedure.registers import PeopleRegister

SEEN_SEALS = "seen-seals.txt"
MOVED_ON_KIND = "moved on"
"""The kind of the events with which another text of the procedure is followed."""


@dataclass(frozen=True)
class Weighed:
    """A record, with what it proves."""

    path: Path
    record: RecordRead
    verdict: Verdict


def weigh(path: Path, outside: Sequence[OutsideSeal] = ()) -> Weighed:
    """Read a record and weigh it. Raises StoreFault, NewerFormat."""
    record = read(read_file(path))
    pinned_sha256 = None
    pinned = pinned_path(path, record.header)
    if pinned is not None and pinned.is_file():
        pinned_sha256 = hashlib.sha256(read_file(pinned)).hexdigest()
    known = [*SeenSeals(path.parent / SEEN_SEALS).of(path.name), *outside]
    signed, doubts = _signed(path, record)
    verdict = verify(record, [*known, *signed], pinned_sha256)
    proved, not_proved = _moved_on(path, record)
    return Weighed(
        path,
        record,
        replace(
            verdict,
            proved_by=(*verdict.proved_by, *proved),
            not_proved=(*verdict.not_proved, *not_proved, *doubts),
        ),
    )


def records_in(path: Path) -> tuple[list[Path], list[str]]:
    """A record, or all of a folder by name; and the names that the folder remembers and does not hold.

    Raises StoreFault.
    """
    if not path.is_dir():
        return [path], []
    try:
        found = sorted(
            each for each in path.glob("*.toml") if each.is_file() and not each.name.startswith(".")
        )
    except OSError as error:
        raise fault(f"The folder {path} cannot be listed", error) from error
    known = SeenSeals(path / SEEN_SEALS).all()
    return found, sorted(known.keys() - {each.name for each in found})


def pinned_path(path: Path, header: Header | None) -> Path | None:
    """Where the procedure is kept that a record was begun by."""
    return _kept_copy(path, header.procedure_sha256) if header is not None else None


def _moved_on(path: Path, record: RecordRead) -> tuple[list[str], list[str]]:
    """Of the texts that the work moved on to: whether their copies are the ones that were followed."""
    proved, not_proved = [], []
    for event in record.events:
        if event["kind"] != MOVED_ON_KIND:
            continue
        sha256 = str(event.get("procedure_sha256"))
        kept = _kept_copy(path, sha256)
        if kept is not None and kept.is_file() and hashlib.sha256(read_file(kept)).hexdigest() == sha256:
            proved.append(f"The text followed from event {event['number']} on is kept beside the records.")
        else:
            number = event["number"]
            not_proved.append(f"Which text was followed from event {number} on: its copy is not the one.")
    return proved, not_proved


def _kept_copy(path: Path, sha256: str) -> Path | None:
    """Where a procedure is kept; the name comes out of the file, so it must not lead elsewhere."""
    if not re.fullmatch(r"[0-9a-f]{64}", sha256):
        return None
    return path.parent / "procedures" / f"{sha256}.toml"


def _signed(path: Path, record: RecordRead) -> tuple[tuple[OutsideSeal, ...], tuple[str, ...]]:
    """What signatures say of the record, and in sentences what they do not.

    A record says which of its events somebody has a key for; where it says none, there was none to sign with.
    """
    wanted = {
        event["number"]: event["keys"] for event in record.events if isinstance(event.get("keys"), list)
    }
    there = signature_files(path)
    if not there and not wanted:
        return (), ()
    seals = [seal.hexadecimal for seal in record.seals]
    found = signatures(path, seals, _people(path)) if there else ()
    doubts = [
        f"By whom event {each.number} was signed: of {each.path.name}, {each.doubt}."
        for each in found
        if each.doubt and each.fits
    ]
    for number, names in wanted.items():
        have = {each.name for each in found if each.number == number}
        missing = [str(name) for name in names if name not in have]
        if missing:
            doubts.append(f"That {', '.join(missing)} signed event {number}: no signature proves it.")
        if not names:
            doubts.append(f"By a signature who wrote event {number}: nobody in it had a registered key.")
    return as_outside_seals(found, seals), tuple(doubts)


def _people(record: Path) -> PeopleRegister | None:
    """The people of the workspace that a record lies in; None where there is no such register."""
    from benchcheck.store.library import Unreadable, load_people

    try:
        return load_people(record.resolve().parent.parent / "procedures")
    except Unreadable:
        return None
