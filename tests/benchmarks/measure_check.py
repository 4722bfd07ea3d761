"""How long the check of many procedures takes, as ratios to the standard parser on the same texts.

Not collected by the tests. Run it with

    python -m tests.benchmarks.measure_check [COPIES]

COPIES of the largest procedure (200 if left out), each with an id of its own, are read, and then checked
beside each other as in one workspace. The parser reads the same texts in the same run.
"""

from __future__ import annotations

import gc
import sys
import time
import tomllib
from collections.abc import Callable
from pathlib import Path

from benchcheck.checking.check import check_read, read_any, workshop_among
from benchcheck.procedure.model import Procedure
from benchcheck.procedure.reading import Read
from benchcheck.procedure.table import Table
from benchcheck.session.rehearsal import RehearsalFile

PROCEDURES = Path(__file__).parents[2] / "procedures"


def seconds(work: Callable[[], object]) -> float:
    """The processor's time, which other work on the machine stretches less than the clock's."""
    start = time.process_time()
    work()
    return time.process_time() - start


def rehearsal() -> type[Table]:
    return RehearsalFile


def read_all(texts: dict[str, str]) -> dict[str, Read[Procedure]]:
    reads = {name: read_any(text.encode(), name, rehearsal) for name, text in texts.items()}
    return {name: read for name, read in reads.items() if not isinstance(read, list)}


def check_all(reads: dict[str, Read[Procedure]], registers: Read[Procedure]) -> int:
    """Each beside all the others; how many findings there are."""
    count = 0
    for name, read in reads.items():
        others = [each for other, each in reads.items() if other != name]
        count += len(check_read(read, workshop_among([registers, *others])).findings)
    return count


def measure(title: str, texts: dict[str, str]) -> None:
    registers = read_all({"instruments.toml": (PROCEDURES / "instruments.toml").read_text(encoding="utf-8")})
    reads = read_all(texts)
    gc.collect()
    floor = seconds(lambda: [tomllib.loads(text) for text in texts.values()])
    reading = seconds(lambda: read_all(texts))
    checking = seconds(lambda: check_all(reads, registers["instruments.toml"]))
    print(
        f"{title}: tomllib {floor * 1000:.0f} ms; read {reading / floor:.2f} x, "
        f"checked {checking / floor:.2f} x that, {checking / len(texts) * 1000:.0f} ms each"
    )


def main(copies: int) -> None:
    """Measure, and print."""
    shipped = {path.name: path.read_text(encoding="utf-8") for path in sorted(PROCEDURES.glob("xmpl-*.toml"))}
    largest = max(shipped, key=lambda name: len(shipped[name]))
    own = f'id = "{largest.rpartition("-")[0]}"'
    assert own in shipped[largest]
    check_all(read_all(shipped), next(iter(read_all(shipped).values())))  # so that all is loaded
    measure("all that is shipped", shipped)
    many = {
        f"copy-{number}.toml": shipped[largest].replace(own, f'id = "copy-{number}"', 1)
        for number in range(copies)
    }
    measure(f"{copies} copies of {largest}", many)


if __name__ == "__main__":
    main(int(sys.argv[1]) if sys.argv[1:] else 200)
