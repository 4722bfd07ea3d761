"""A process of its own that writes a record, for tests that kill it or take its disk away.

    python -m tests.store.writer FOLDER NAME COUNT [FILE-SIZE-LIMIT]

Opens the record, or makes it; says `ready`; appends COUNT events, and after each says its number; on a fault
says `fault` and the sentence, and ends with status 1. With a COUNT of 0 it holds the record until its input
ends.
"""

from __future__ import annotations

import resource
import sys
from pathlib import Path

from benchcheck.store.disk import StoreFault
from tests.session.samples import event
from tests.store.making import made, opened


def main(folder: Path, name: str, count: int, limit: int | None) -> int:
    """Write; the exit status."""
    path = folder / name
    record = opened(path) if path.exists() else made(path)
    if limit is not None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))
    print("ready", flush=True)
    if count == 0:
        sys.stdin.read()
    try:
        for _ in range(count):
            record.append(event(record.event_count + 1))
            print(record.event_count, flush=True)
    except StoreFault as error:
        print("fault", error, flush=True)
        return 1
    record.close()
    return 0


if __name__ == "__main__":
    sys.exit(
        main(Path(sys.argv[1]), sys.argv[2], int(sys.argv[3]), int(sys.argv[4]) if sys.argv[4:] else None)
    )
