"""What the record costs, as ratios to a floor measured in the same run.

Not collected by the tests. Run it with

    python -m tests.benchmarks.measure_record [FOLDER]

FOLDER is where it writes: one on the disk that matters; by default the folder for temporary files.
"""

from __future__ import annotations

import hashlib
import os
import statistics
import sys
import tempfile
import time
import tomllib
from collections.abc import Callable
from pathlib import Path

from benchcheck.session.record import read, sound_seals
from benchcheck.store.records import create
from tests.session.samples import HEADER, event, events, record_bytes
from tests.store.making import HOLDER, seen_beside

EVENTS = 500


def ratio(of: Callable[[], object], floor: Callable[[], object], times: int) -> float:
    """Median of `of` against median of `floor`, run in turn."""
    taken: tuple[list[float], list[float]] = ([], [])
    for _ in range(times):
        for each, work in zip(taken, (of, floor), strict=True):
            start = time.perf_counter()
            work()
            each.append(time.perf_counter() - start)
    return statistics.median(taken[0]) / statistics.median(taken[1])


def main(folder: Path) -> None:
    """Measure, and print."""
    data = record_bytes(*events(EVENTS))
    bare = ratio(lambda: read(data), lambda: tomllib.loads(data.decode()), 15)
    print(f"read {EVENTS} events, all seals     {bare:5.2f} x tomllib.loads")
    seals = ratio(lambda: sound_seals(data), lambda: hashlib.sha256(data).digest(), 200)
    print(f"check all seals              {seals:5.2f} x one SHA-256")

    with create(folder / "record.toml", HEADER, event(1), HOLDER, seen_beside(folder / "x")) as record:
        block = len(record.chain.then(event(2))[0])
        raw = os.open(folder / "raw", os.O_WRONLY | os.O_APPEND | os.O_CREAT, 0o644)

        def floor() -> None:
            os.write(raw, bytes(block))
            os.fsync(raw)

        append = ratio(lambda: record.append(event(record.event_count + 1)), floor, 300)
        print(f"append one event             {append:5.2f} x write and fsync of the same bytes")
        os.close(raw)


if __name__ == "__main__":
    with tempfile.TemporaryDirectory(dir=sys.argv[1] if sys.argv[1:] else None) as temporary:
        main(Path(temporary))
