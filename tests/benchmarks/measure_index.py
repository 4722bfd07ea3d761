"""What the index of many records costs, as ratios to a floor measured in the same run.

Not collected by the tests. Run it with

    python -m tests.benchmarks.measure_index [RECORDS] [FOLDER]

It writes so many records (3,000) of a rehearsed session with the program's own writer, each synced, into a
workspace below FOLDER; by default the folder for temporary files. Reading events is given in seconds a
thousand records, since nothing does the same work in another way.
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
from collections.abc import Callable
from datetime import date, datetime, timedelta
from pathlib import Path

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
        first, *rest = (
            flat(dataclasses.replace(each, at=_later(each.at, number * APART)).as_table())
            for each in run.events
        )
        with workspace.create_record(header, first, content, "T. Sample") as record:
            record.append(*rest)
    return workspace


def _later(time_of_event: str, by: timedelta) -> str:
    return (datetime.fromisoformat(time_of_event) + by).isoformat(timespec="milliseconds")


def read_and_hash(workspace: Workspace) -> None:
    """Every byte of every record once, in one process."""
    for path in workspace.record_paths():
        hashlib.sha256(path.read_bytes()).digest()


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
    workspace = shelf(folder / "workspace", count)
    size = sum(path.stat().st_size for path in workspace.record_paths()) / 1e6
    print(f"{count} records, {size:.0f} MB")
    rebuild = ratio(lambda: rebuilt(workspace), lambda: read_and_hash(workspace), 5)
    print(f"rebuild, every seal checked  {rebuild:5.2f} x one process that reads and hashes all")
    with Index(workspace) as index:
        per_thousand = seconds(index.refresh) / count * 1000
        print(f"read the events              {per_thousand:5.1f} s a thousand records, over all cores")
        notice = ratio(index.refresh, lambda: look_at_all(workspace), 15)
        print(f"notice that nothing changed  {notice:5.2f} x scandir and stat")
        with sqlite3.connect(workspace.sessions / index_file.NAME) as tables:
            query = Query(latest_first=True, limit=200)
            latest = ratio(lambda: index.listed(query, TODAY), lambda: latest_bare(tables), 50)
        tables.close()
        print(f"the latest 200               {latest:5.2f} x the same questions to the bare tables")
        everything = seconds(lambda: index.listed(Query(), TODAY)) / count * 10_000
        print(f"all, what stands out first   {everything:5.2f} s ten thousand records")


if __name__ == "__main__":
    with tempfile.TemporaryDirectory(dir=sys.argv[2] if sys.argv[2:] else None) as temporary:
        main(int(sys.argv[1]) if sys.argv[1:] else 3_000, Path(temporary))
