"""A workspace with a few sessions on the small pump, for the screens that search many records."""

from __future__ import annotations

import hashlib
import shutil
from dataclasses import replace
from pathlib import Path

from benchcheck.session.record import Chain, header_bytes
from benchcheck.session.trace.past import Past
from benchcheck.store.workspace import Workspace
from tests.pumps import ROOT
from tests.report import sample
from tests.session.test_trends import session

SHA256 = hashlib.sha256(sample.PROCEDURE.encode()).hexdigest()


def four_sessions(folder: Path) -> Workspace:
    """Four pumps; of the last, one cover screw was drawn to the upper limit, and one on the second is low."""
    made = Workspace(folder)
    made.procedures.mkdir(parents=True)
    for register in ("shop.toml", "people.toml"):
        shutil.copy(ROOT / "procedures" / register, made.procedures)
    made.instruments.write_text(sample.INSTRUMENTS, encoding="utf-8")
    (made.procedures / "tiny-b.toml").write_text(sample.PROCEDURE, encoding="utf-8")
    made.pin(sample.PROCEDURE.encode())
    for past in (
        session(1, 20, 20.5, 20, 20.5),
        session(2, 20.5, 20, 19.5, 20),
        session(3, 20, 20, 20, 20),
        session(4, 20, 20, 20, 22),
    ):
        (made.sessions / past.file).write_bytes(record_of(past))
    return made


def record_of(past: Past) -> bytes:
    """The bytes of its record."""
    data = header_bytes(replace(past.header, procedure_sha256=SHA256))
    chain = Chain(data)
    for event in past.events:
        block, chain = chain.then(event.as_table())
        data += block
    return data
