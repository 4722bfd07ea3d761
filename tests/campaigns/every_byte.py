"""Change every byte of a short record to every other value, take out every byte, and put in every value.

Not collected by the tests, which take a sample of it. Run it whole with

    python -m tests.campaigns.every_byte

It prints how many changes were made, and how they were found; it ends with 1 if any went unseen.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterator

from benchcheck.session.record import NewerFormat, read
from tests.session.samples import event, record_bytes


def changed(data: bytes) -> Iterator[bytes]:
    """Every record that is one byte away from this one."""
    for at in range(len(data)):
        yield data[:at] + data[at + 1 :]
        for value in range(256):
            if value != data[at]:
                yield data[:at] + bytes([value]) + data[at + 1 :]
            yield data[:at] + bytes([value]) + data[at:]
    for value in range(256):
        yield data + bytes([value])


def found(data: bytes, changed_data: bytes, events: int) -> str:
    """How the change shows."""
    try:
        record = read(changed_data)
    except NewerFormat:
        return "refused as a newer format"
    if record.damage:
        return "damage"
    if record.torn and len(record.events) <= events and data.startswith(changed_data[: record.kept]):
        return "torn"
    return "UNSEEN"


def main() -> int:
    """Make all changes; the exit status."""
    data = record_bytes(event(1), event(2, "closed", outcome="released"))
    counts = Counter(found(data, one, 2) for one in changed(data) if one != data)
    for how, count in counts.most_common():
        print(f"{count:8} {how}")
    print(f"{counts.total():8} changes of {len(data)} bytes")
    return 1 if counts["UNSEEN"] else 0


if __name__ == "__main__":
    sys.exit(main())
