"""The record as bytes: a header, then an `[[event]]` table for each thing that happened, ended by its seal.

Here events become bytes, and bytes are told apart into what is proved, what is torn and what is damaged.
What an event means belongs to the fold; files, locks and syncing belong to the store; saying in words what a
record proves belongs to `verification`. This module opens nothing and reads no clock.
"""

from __future__ import annotations

import dataclasses
import functools
import hashlib
import math
import re
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

import tomli_w

from benchcheck.session.flat_table import flat_table

FORMAT = 1
CLOSING_KIND = "closed"
"""The kind of the event that ends the work on the bench."""
REVIEWER_KIND = "judged"
"""The kind of the only events that may follow a closing event."""

Scalar = str | int | float | bool
Value = Scalar | Sequence[Scalar]
Fields = Mapping[str, Value]

_EVENT_LINE = b"\n[[event]]\n"
_SEAL_START = b'chain = "sha256:'
_SEAL_LINE = re.compile(rb'\nchain = "sha256:[0-9a-f]{64}"\n')
_SEAL_END = 64 + len(b'"\n')
_SEAL_LENGTH = len(_SEAL_START) + _SEAL_END
_FORMAT_LINE = re.compile(rb"format = ([0-9]{1,9})\n")
_OPENING = b"format = %d\n\n[record]\n" % FORMAT
_CLOSED_LINE = f'\nkind = "{CLOSING_KIND}"\n'.encode()
_KEY = re.compile(r"[a-z][a-z0-9_]*")
# Control characters but tab and line feed, lone surrogates, and the marks that turn text round unseen.
_UNPRINTABLE = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff\u202a-\u202e\u2066-\u2069]")
_INTEGER_LIMIT = 2**63


class NewerFormat(ValueError):
    """The record is written in a format that this program does not know yet."""

    def __init__(self, found: int) -> None:
        super().__init__(
            f"The record is in format {found}, and this program reads formats up to {FORMAT}: "
            "use a newer Benchcheck."
        )
        self.found = found


@dataclass(frozen=True, slots=True)
class Header:
    """What a record says of itself before its first event; it never changes."""

    serial: str
    """The pump's serial number, as the technician gave it."""
    procedure: str
    """The procedure's id."""
    revision: str
    procedure_sha256: str
    """Of the procedure file's bytes, which are kept beside the records."""
    variant: str
    """The variant claimed on opening; empty if the procedure has none."""
    practice: bool
    program_version: str
    host: str
    bench: str
    time_zone: str
    opened: str
    """RFC 3339 with offset."""
    format: int = FORMAT


class Seal(NamedTuple):
    """Where one event stands in the file, and the SHA-256 of every byte above its seal line."""

    number: int
    start: int
    """Offset of the empty line before `[[event]]`; 0 for the first event: its seal covers the header."""
    covers: int
    """How many bytes of the file the seal is made over; the offset of the seal line."""
    end: int
    hexadecimal: str


@dataclass(frozen=True, slots=True)
class RecordRead:
    """What the bytes of a record turned out to hold."""

    header: Header | None
    """None while no good seal covers it."""
    events: tuple[dict[str, Any], ...]
    """The events of the good prefix, without their seal lines; event n is `events[n - 1]`."""
    seals: tuple[Seal, ...]
    """One for each of `events`."""
    chain: Chain
    """From which the next event is sealed."""
    torn: bytes
    """The tail of a write that was cut off; empty if there is none."""
    damage: str | None
    """What is wrong, in one sentence; None if nothing is."""
    first_bad_event: int | None
    """Number of the event at which the damage begins."""

    @property
    def kept(self) -> int:
        """Length of the good prefix [bytes]: it always ends with a seal line, or is 0."""
        return self.chain.length

    @property
    def closed(self) -> bool:
        """Whether the work on the bench is over."""
        return any(event["kind"] == CLOSING_KIND for event in reversed(self.events))


class Chain:
    """The running seal of a record: the SHA-256 of all its bytes so far. Never changed in place."""

    __slots__ = ("_digest", "last_seal", "length")

    def __init__(self, data: bytes = b"", last_seal: str = "") -> None:
        self._digest = hashlib.sha256(data)
        self.length = len(data)
        self.last_seal = last_seal
        """Of the last event, in hexadecimal; empty before the first."""

    def then(self, event: Fields) -> tuple[bytes, Chain]:
        """The bytes that append `event`, and the chain after them.

        Raises what `flat` raises.
        """
        body = _EVENT_LINE + _table(event)
        digest = self._digest.copy()
        digest.update(body)
        following = Chain.__new__(Chain)
        following.last_seal = digest.hexdigest()
        line = f'chain = "sha256:{following.last_seal}"\n'.encode()
        digest.update(line)
        following._digest = digest
        following.length = self.length + len(body) + len(line)
        return body + line, following


def clean_text(text: str) -> str:
    """The text without control characters (tab, line feed stay), lone surrogates, direction overrides."""
    if text.isprintable():
        return text
    return _UNPRINTABLE.sub("", text.replace("\r\n", "\n").replace("\r", "\n"))


def flat(fields: Fields) -> dict[str, Any]:
    """The fields as they will be read back from the record: texts cleaned, arrays as lists.

    Raises TypeError or ValueError for what a record cannot hold: a table, a number that is not finite, a key
    that would need quotes.
    """
    return {_checked_key(key): _checked_value(key, value) for key, value in fields.items()}


def header_bytes(header: Header) -> bytes:
    """The first bytes of a record. The seal of the first event covers them."""
    fields = {name: value for name, value in dataclasses.asdict(header).items() if name != "format"}
    return b"format = %d\n\n[record]\n" % header.format + _table(fields)


def check_value(seal: str) -> str:
    """The short form of a seal, for labels and reading aloud: its first twelve digits in groups of four."""
    return " ".join(seal[at : at + 4] for at in (0, 4, 8))


def sound_seals(data: bytes) -> list[int]:
    """Offsets of the seal lines that hold, from the start of the file to the first that does not.

    One pass over the bytes with one running hash, without reading them as TOML. Each offset is the number of
    bytes that the seal is made over. Whether each seal stands at the end of an event is for `read` to see.
    """
    first, *rest = data.split(_SEAL_START)
    digest = hashlib.sha256(first)
    update, hexdigest = digest.update, digest.hexdigest
    offsets: list[int] = []
    covers = len(first)
    for piece in rest:
        if piece[:_SEAL_END] != hexdigest().encode() + b'"\n':
            break
        offsets.append(covers)
        covers += len(_SEAL_START) + len(piece)
        update(_SEAL_START + piece)
    return offsets


def has_closing_event(data: bytes) -> bool:
    """Whether the bytes, or the last part of them, hold a sealed closing event. The seal is not checked."""
    at = data.rfind(_CLOSED_LINE)
    return at >= 0 and _SEAL_LINE.search(data, at) is not None


def read(data: bytes) -> RecordRead:
    """Take a record apart into what its seals prove, a torn tail, and damage.

    Torn is one event without a complete seal line at the end, as a write leaves it that was cut off, or with
    zeros in it, as a file system leaves it that had given out the space and not yet filled it. All else that
    does not fit is damage.

    Raises NewerFormat. All other faults are in the result.
    """
    declared = _FORMAT_LINE.match(data)
    if declared and int(declared[1]) > FORMAT:
        raise NewerFormat(int(declared[1]))

    seals = _seals(data)
    good_end = seals[-1].end if seals else 0
    number = len(seals) + 1
    tail = data[good_end:]
    torn = b""
    damage: str | None = None
    seal_lines = len(_SEAL_LINE.findall(data, max(good_end - 1, 0)))
    cut_off = seal_lines == 0 or (seal_lines == 1 and 0 in tail)
    if not seals and not _begins_like_a_record(data):
        damage = "The file does not begin as a record does."
    elif not cut_off:
        damage = f"The seal of event {number} does not match the bytes above it."
    elif tail.count(_EVENT_LINE.rstrip()) > 1:  # whatever ends the lines now
        damage = f"The seal line of event {number} is missing or altered, and more follows it."
    else:
        torn = tail

    header, events, fault = _parsed(data, seals)
    if fault is not None:
        # A fault inside the sealed part comes before whatever is wrong behind it.
        number, damage = fault
        torn = b""
        seals = seals[: number - 1]
    chain = Chain(data[: seals[-1].end], seals[-1].hexadecimal) if seals else Chain()
    return RecordRead(
        header=header if seals else None,
        events=tuple(events),
        seals=tuple(seals),
        chain=chain,
        torn=torn,
        damage=damage,
        first_bad_event=number if damage else None,
    )


def _table(fields: Mapping[str, Value]) -> bytes:
    return tomli_w.dumps(flat(fields)).encode()


@functools.cache
def _checked_key(key: str) -> str:
    # "chain" is the seal's own; any other spelling would need quotes, and a reader's eye.
    if key == "chain" or not _KEY.fullmatch(key):
        raise ValueError(f"{key!r} cannot be a key in a record")
    return key


def _checked_value(key: str, value: Value) -> Value:
    if isinstance(value, list | tuple):
        return [_checked_scalar(key, item) for item in value]
    return _checked_scalar(key, value)


def _checked_scalar(key: str, value: object) -> Scalar:
    if isinstance(value, str):
        return clean_text(value)
    if isinstance(value, bool):
        return value
    if isinstance(value, int) and -_INTEGER_LIMIT <= value < _INTEGER_LIMIT:
        return value
    if isinstance(value, float) and math.isfinite(value):
        return value
    if isinstance(value, int | float):
        raise ValueError(f"{key} = {value!r} is not a number that a record can hold")
    raise TypeError(f"{key} holds {type(value).__name__}: events are flat, of text, numbers, true and false")


def _seals(data: bytes) -> list[Seal]:
    seals: list[Seal] = []
    start = 0
    for number, covers in enumerate(sound_seals(data), start=1):
        end = covers + _SEAL_LENGTH
        hexadecimal = data[end - _SEAL_END : end - 2].decode()
        seals.append(Seal(number, start, covers, end, hexadecimal))
        start = end
    return seals


def _begins_like_a_record(data: bytes) -> bool:
    return _OPENING.startswith(data[: len(_OPENING)].rstrip(b"\0"))


def _parsed(
    data: bytes, seals: Sequence[Seal]
) -> tuple[Header | None, list[dict[str, Any]], tuple[int, str] | None]:
    """Header and events of the sealed part, and the number and nature of the first fault in it."""
    fault: tuple[int, str] | None = None
    for seal in seals:
        if data.count(_EVENT_LINE, seal.start, seal.covers) != 1 or (
            seal.number > 1 and not data.startswith(_EVENT_LINE, seal.start)
        ):
            fault = (seal.number, f"Event {seal.number} is not one [[event]] table and its seal.")
            break
    if fault:
        seals = seals[: fault[0] - 1]
    if not seals:
        return None, [], fault
    try:
        document = _document(data, seals)
    except (ValueError, RecursionError):
        number = _first_unreadable(data, seals)
        sound_header, sound_events, earlier = _parsed(data, seals[: number - 1])
        return (
            sound_header,
            sound_events,
            earlier or (number, f"Event {number} cannot be read, though its seal matches."),
        )

    header = _header(document)
    if isinstance(header, str):
        return None, [], (1, header)
    events = document.get("event")
    if not isinstance(events, list) or len(events) != len(seals) or len(document) != 3:
        return None, [], (1, "The file holds more than a header and its events.")
    closed = False
    for seal, event in zip(seals, events, strict=True):
        wrong = _wrong_with(event, seal, closed)
        if wrong:
            return header, events[: seal.number - 1], (seal.number, wrong)
        closed = closed or event["kind"] == CLOSING_KIND
    return header, events, fault


def _document(data: bytes, seals: Sequence[Seal]) -> dict[str, Any]:
    """The sealed part as the parser of the standard library gives it; quicker where every table is flat.

    Raises ValueError, RecursionError.
    """
    first = data.find(_EVENT_LINE)
    if data.startswith(_OPENING) and first >= len(_OPENING) - 1:
        header = flat_table(data[len(_OPENING) : first + 1].decode())
        starts = (first, *(seal.end for seal in seals[:-1]))
        events = [
            flat_table(data[start + len(_EVENT_LINE) : seal.end].decode())
            for start, seal in zip(starts, seals, strict=True)
        ]
        if header is not None and None not in events:
            return {"format": FORMAT, "record": header, "event": events}
    return tomllib.loads(data[: seals[-1].end].decode())


def _wrong_with(event: dict[str, Any], seal: Seal, closed: bool) -> str | None:
    """What is wrong with a sealed event, in a sentence. Takes the seal line out of it."""
    if event.pop("chain", None) != f"sha256:{seal.hexadecimal}":
        return f"The seal of event {seal.number} does not stand at its end."
    if event.get("number") != seal.number:
        return f"Event {seal.number} is numbered {event.get('number')!r}."
    if not all(type(event.get(key)) is str for key in ("kind", "at", "by")):
        return f"Event {seal.number} does not say what happened, when, and by whom."
    if closed and event["kind"] != REVIEWER_KIND:
        return f"Event {seal.number} follows the closing event and is not a reviewer's."
    return None


def _first_unreadable(data: bytes, seals: Sequence[Seal]) -> int:
    """Number of the first event that is not TOML when read by itself.

    Each can be, since no string of a record runs over its line.
    """
    for seal in seals:
        try:
            tomllib.loads(data[seal.start : seal.end].decode())
        except (ValueError, RecursionError):
            return seal.number
    return seals[-1].number


def _header(document: Mapping[str, Any]) -> Header | str:
    table = document.get("record")
    if document.get("format") != FORMAT or not isinstance(table, dict):
        return "The file does not begin as a record does."
    values: dict[str, Any] = {}
    for field in dataclasses.fields(Header):
        if field.name == "format":
            continue
        value = table.get(field.name)
        if type(value) is not (bool if field.name == "practice" else str):
            return f"The header does not say its {field.name.replace('_', ' ')}."
        values[field.name] = value
    return Header(**values)
