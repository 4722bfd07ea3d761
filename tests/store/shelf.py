"""A workspace with records of a small test pump on its shelf, for the tests of the index."""

from __future__ import annotations

import dataclasses
import hashlib
import os
from collections.abc import Sequence
from datetime import datetime, timedelta
from pathlib import Path

from benchcheck.session.events import Event
from benchcheck.session.record import Header, flat
from benchcheck.store.workspace import Workspace
from tests.report import sample
from tests.session.samples import record_bytes

SHOP = 'format = 1\n\n[shop]\nname = "Sample Shop"\nbench = "bench 2"\ntime_zone = "UTC"\n'
PROCEDURE = sample.PROCEDURE.encode()


def shelf(folder: Path) -> Workspace:
    """A workspace without records."""
    workspace = Workspace(folder)
    workspace.procedures.mkdir(parents=True)
    workspace.sessions.mkdir()
    for path, text in (
        (workspace.shop, SHOP),
        (workspace.instruments, sample.INSTRUMENTS),
        (workspace.people, sample.PEOPLE),
    ):
        path.write_text(text)
    workspace.pin(PROCEDURE)
    return workspace


def header(serial: str, days: int = 0, **changes: object) -> Header:
    begins = sample.BEGINS + timedelta(days=days)
    made = dataclasses.replace(
        sample.released().state.header,
        serial=serial,
        opened=begins.isoformat(),
        procedure_sha256=hashlib.sha256(PROCEDURE).hexdigest(),
    )
    return dataclasses.replace(made, **changes)  # type: ignore[arg-type]


def bytes_of(events: Sequence[Event], serial: str, days: int = 0, **changes: object) -> bytes:
    """A record of these events, so many days later, on the pump with that serial number."""
    moved = []
    for event in events:
        at = (datetime.fromisoformat(event.at) + timedelta(days=days)).isoformat(timespec="milliseconds")
        fields = {"serial": serial} if hasattr(event, "serial") else {}
        moved.append(flat(dataclasses.replace(event, at=at, **fields).as_table()))  # type: ignore[arg-type]
    return record_bytes(*moved, header=header(serial, days, **changes))


def put(workspace: Workspace, data: bytes, name: str) -> Path:
    """A file on the shelf; its time of change is another than that of a file put there before."""
    path = workspace.sessions / name
    later = path.stat().st_mtime_ns + 10**9 if path.exists() else None
    path.write_bytes(data)
    if later is not None:
        os.utime(path, ns=(later, later))
    return path


def put_released(workspace: Workspace, serial: str, days: int = 0, **changes: object) -> Path:
    """The careful technician's session."""
    return put(
        workspace, bytes_of(sample.released().events, serial, days, **changes), f"{serial}-{days:03}.toml"
    )


def put_departed(workspace: Workspace, serial: str, days: int = 0) -> Path:
    """A session in which much went otherwise, and all of it was mended or decided on."""
    return put(workspace, bytes_of(sample.departed().events, serial, days), f"{serial}-{days:03}.toml")
