"""Short records for the tests of bytes and disk: what the events say does not matter here."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from benchcheck.session.record import Chain, Fields, Header, Seal, header_bytes, read

PROCEDURE = b'format = 1\n\n[procedure]\nid = "sample"\n'
HEADER = Header(
    serial="SN 0815/a",
    procedure="sample",
    revision="C",
    # sha256sum of PROCEDURE
    procedure_sha256="261b3de27d87b1569dc1b4ebb1219ab3a2852aca2a2989cdbf15f84b2d8fdab0",
    variant="",
    practice=False,
    program_version="0.1.0",
    host="bench-2",
    bench="Bench 2",
    time_zone="Europe/Sofia",
    opened="2026-03-02T10:00:00+02:00",
)


def event(number: int, kind: str = "told", **more: object) -> Fields:
    """An event as flat as a record wants it."""
    fields: Mapping[str, object] = {
        "number": number,
        "kind": kind,
        "at": f"2026-03-02T10:{number % 60:02}:00+02:00",
        "by": "Ana Fitter",
        "note": 'read off the bag: "-137" [OIL]\nchain = "sha256:0"',
        "positions": [1, 5, 3],
        "newton_metre": 20.3,
        "moved": number % 2 == 0,
        **more,
    }
    return fields  # type: ignore[return-value]


def record_bytes(*events: Fields, header: Header = HEADER) -> bytes:
    """A record of these events, each sealed."""
    data = header_bytes(header)
    chain = Chain(data)
    for fields in events:
        block, chain = chain.then(fields)
        data += block
    return data


def events(count: int) -> list[Fields]:
    """So many events, numbered from 1."""
    return [event(number) for number in range(1, count + 1)]


def closed_record() -> bytes:
    """Three events, a closing event and a reviewer's."""
    return record_bytes(
        *events(3), event(4, "closed", outcome="released"), event(5, "judged", outcome="accepted")
    )


def seals_of(data: bytes) -> tuple[Seal, ...]:
    """The seals of a good record."""
    record = read(data)
    assert record.damage is None and not record.torn
    return record.seals


def header_with(**changes: object) -> Header:
    """The sample header, changed."""
    return replace(HEADER, **changes)  # type: ignore[arg-type]
