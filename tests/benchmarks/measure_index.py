"""What the index of many records costs, as ratios to a floor measured in the same run.

Not collected by the tests. Run it with

    python -m tests.benchmarks.measure_index [RECORDS] [FOLDER]

It makes so many records (10,000) of a rehearsed session below FOLDER, by default the folder for temporary
files: one in ten is written by the program's own writer, the others are copies of it. The events of 200 are
read. What is done over all cores is held against one process, so a machine with other work shows more.
"""

from __future__ import annotations

import dataclasses
import hashlib
import os
import shutil
import sqlite3
import sys
import tempfile
import time
import tomllib
from collections.abc import Callable
from datetime import date, datetime, timedelta
from pathlib import Path

from benchcheck.session.events import Closed, Event
from benchcheck.session.record import flat
from benchcheck.session.rehearsal import rehearse
from benchcheck.session.state import Job
from benchcheck.store import index_file
from benchcheck.store.index import Index
from benchcheck.store.index_queries import Query
from benchcheck.store.library import load_procedure, load_registers
from benchcheck.store.workspace import Workspace
from tests.benchmarks.measure_record import ratio

ROOT = Path(__file__).parents[2]
PROCEDURE = ROOT / "procedures" / "xmpl-gx18-b.toml"
FEW = 200
APART = timedelta(minutes=30)
TODAY = date(2026, 11, 30)
LATEST = (
    "SELECT id, file, serial, procedure, revision, variant, practice, opened, last, events, last_seal, "
    "state, judged, reading != 0 FROM records ORDER BY last_utc DESC, file LIMIT 200"
)
REMARKS = "SELECT record, kind, weight, sentence, event FROM remarks WHERE record IN ({})"


def shelf(folder: Path, count: int) -> Workspace:
    """A workspace with so many released pumps, half an hour apart."""
    workspace = Workspace(folder)
    shutil.copytree(ROOT / "procedures", workspace.procedures)
    content = PROCEDURE.read_bytes()
    job = Job(load_procedure(PROCEDURE).procedure, load_registers(workspace))
    run = rehearse(job, "R")
    made = dataclasses.replace(
        run.state.header, procedure_sha256=hashlib.sha256(content).hexdigest(), host="bench-1"
    )
    begins = datetime.fromisoformat(made.opened)
    for number in range(count):
        opened = (begins + number * APART).isoformat()
        header = dataclasses.replace(made, serial=str(10_000 + number), opened=opened)
        first, *rest = (flat(_moved(each, header.serial, number * APART).as_table()) for each in run.events)
        with workspace.create_record(header, first, content, "T. Sample") as record:
            record.append(*rest)
    return workspace


def _moved(event: Event, serial: str, by: timedelta) -> Event:
    """The event as it would be on another pump, so much later."""
    at = (datetime.fromisoformat(event.at) + by).isoformat(timespec="milliseconds")
    moved = dataclasses.replace(event, at=at)
    return dataclasses.replace(moved, serial=serial) if isinstance(moved, Closed) else moved


def with_copies(workspace: Workspace, times: int) -> None:
    """Each record so many times more, under other names."""
    for path in workspace.record_paths():
        for number in range(times):
            shutil.copyfile(path, path.with_name(f"{path.stem}-copy-{number}.toml"))


def read_and_hash(workspace: Workspace) -> None:
    """Every byte of every record once, in one process."""
    for path in workspace.record_paths():
        hashlib.sha256(path.read_bytes()).digest()


def read_as_toml(workspace: Workspace) -> None:
    """Every record once as what it is written in, in one process."""
    for path in workspace.record_paths():
        tomllib.loads(path.read_text())


def look_at_all(workspace: Workspace) -> None:
    """The least that notices what changed."""
    with os.scandir(workspace.sessions) as entries:
        for entry in entries:
            entry.stat()


def rebuilt(workspace: Workspace) -> None:
    """All records glanced at, every seal checked, into a file that was not there."""
    (workspace.sessions / index_file.NAME).unlink(missing_ok=True)
    with Index(workspace) as index:
        index.refresh(events=False)


def latest_bare(tables: sqlite3.Connection) -> None:
    """The same questions without us."""
    rows = tables.execute(LATEST).fetchall()
    tables.execute(REMARKS.format(", ".join("?" * len(rows))), [row[0] for row in rows]).fetchall()


def seconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def main(count: int, folder: Path) -> None:
    """Measure, and print."""
    workspace = shelf(folder / "workspace", count // 10)
    few = shelf(folder / "few", FEW)
    with Index(few) as index:
        index.refresh(events=False)
        reading = seconds(index.refresh) / seconds(lambda: read_as_toml(few))
        say("read the events", reading, "x one process that reads the same records as TOML")
    with_copies(workspace, 9)
    size = sum(path.stat().st_size for path in workspace.record_paths()) / 1e6
    print(f"{len(workspace.record_paths())} records, {size:.0f} MB")
    rebuild = ratio(lambda: rebuilt(workspace), lambda: read_and_hash(workspace), 3)
    say("rebuild, every seal checked", rebuild, "x one process that reads and hashes all")
    with Index(workspace) as index:
        notice = ratio(lambda: index.refresh(events=False), lambda: look_at_all(workspace), 15)
        say("notice that nothing changed", notice, "x scandir and stat")
        with sqlite3.connect(workspace.sessions / index_file.NAME) as tables:
            query = Query(latest_first=True, limit=200)
            latest = ratio(lambda: index.listed(query, TODAY), lambda: latest_bare(tables), 50)
        tables.close()
        say("the latest 200", latest, "x the same questions to the bare tables")
        say("all, what stands out first", seconds(lambda: index.listed(Query(), TODAY)), "s")
        page = Query(text="TW-02 sample", limit=20)
        say("a page of those found by typing", seconds(lambda: index.listed(page, TODAY)), "s")


def say(what: str, measured: float, unit: str) -> None:
    print(f"{what:33} {measured:6.2f} {unit}", flush=True)


if __name__ == "__main__":
    with tempfile.TemporaryDirectory(dir=sys.argv[2] if sys.argv[2:] else None) as temporary:
        main(int(sys.argv[1]) if sys.argv[1:] else 10_000, Path(temporary))
