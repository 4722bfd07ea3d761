"""The record as bytes: what is written comes back, and what was torn or changed is told apart."""

from __future__ import annotations

import hashlib
import re
import tomllib
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchcheck.session.record import (
    Chain,
    Fields,
    NewerFormat,
    RecordRead,
    check_value,
    clean_text,
    flat,
    has_closing_event,
    header_bytes,
    read,
    sound_seals,
)
from tests.session.samples import HEADER, closed_record, event, events, header_with, record_bytes, seals_of

KEYS = st.from_regex(r"[a-z][a-z0-9_]{0,12}", fullmatch=True).filter(
    lambda key: key not in ("chain", "number", "kind", "at", "by")
)
SCALARS = (
    st.text(st.characters(exclude_categories=()))
    | st.integers(-(2**63), 2**63 - 1)
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.booleans()
)
FIELDS = st.dictionaries(KEYS, SCALARS | st.lists(SCALARS, max_size=3), max_size=5)


def whole(record: RecordRead) -> bool:
    return record.damage is None and not record.torn


# ---------------------------------------------------------------------- writing and reading back


def test_a_record_comes_back_as_it_was_written() -> None:
    written = events(4)
    data = record_bytes(*written)
    record = read(data)
    assert whole(record)
    assert record.header == HEADER
    assert list(record.events) == [flat(fields) for fields in written]
    assert record.kept == len(data)
    assert record.first_bad_event is None


def test_hashlib_and_tomllib_alone_can_check_a_record() -> None:
    data = closed_record()
    lines = data.splitlines(keepends=True)
    above = hashlib.sha256()
    checked = 0
    for line in lines:
        if line.startswith(b"chain = "):
            assert line == f'chain = "sha256:{above.hexdigest()}"\n'.encode()
            checked += 1
        above.update(line)
    document = tomllib.loads(data.decode())
    assert checked == len(document["event"]) == 5
    assert list(document) == ["format", "record", "event"]
    assert document["format"] == 1
    assert document["record"]["serial"] == "SN 0815/a"
    assert [list(one)[-1] for one in document["event"]] == ["chain"] * 5
    assert [one["number"] for one in document["event"]] == [1, 2, 3, 4, 5]


def test_places_of_events_are_those_of_their_bytes() -> None:
    data = record_bytes(*events(3))
    end = 0
    for seal in seals_of(data):
        assert seal.start == end
        assert hashlib.sha256(data[: seal.covers]).hexdigest() == seal.hexadecimal
        assert data[seal.covers : seal.end] == f'chain = "sha256:{seal.hexadecimal}"\n'.encode()
        assert tomllib.loads(data[seal.start : seal.end].decode())["event"][0]["number"] == seal.number
        end = seal.end
    assert end == len(data)


def test_a_record_read_goes_on_where_it_ended() -> None:
    data = record_bytes(*events(2))
    block, chain = read(data).chain.then(event(3))
    assert data + block == record_bytes(*events(3))
    assert chain.length == len(data + block)
    assert chain.last_seal == seals_of(data + block)[-1].hexadecimal


def test_sealing_leaves_the_chain_as_it_was() -> None:
    chain = Chain(header_bytes(HEADER))
    assert chain.then(event(1))[0] == chain.then(event(1))[0]
    assert chain.last_seal == ""


@settings(max_examples=60, deadline=None)
@given(st.lists(FIELDS, min_size=1, max_size=3))
def test_any_flat_event_comes_back_and_never_breaks_a_line(chosen: list[dict[str, Any]]) -> None:
    written = [event(number, **fields) for number, fields in enumerate(chosen, 1)]
    data = record_bytes(*written)
    record = read(data)
    assert whole(record)
    assert list(record.events) == [flat(fields) for fields in written]
    assert b'"""' not in re.sub(rb"\\.", b"", data) and b"'''" not in re.sub(rb'"(\\.|[^"\\])*"', b"", data)
    # Each event can be read alone.
    for seal, fields in zip(record.seals, record.events, strict=True):
        alone = tomllib.loads(data[seal.start : seal.end].decode())["event"][0]
        assert alone.pop("chain") == f"sha256:{seal.hexadecimal}"
        assert alone == fields


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("plain", "plain"),
        ("two\r\nlines\rand\ta tab", "two\nlines\nand\ta tab"),
        ("\x1b[2Jred\x07\x00\x7f\x9b", "[2Jred"),
        ("lone \ud800 half", "lone  half"),
        ("abc\u202edcba\u2066", "abcdcba"),
        ("مضخة می\u200cخواهم", "مضخة می\u200cخواهم"),
    ],
)
def test_text_is_cleaned_of_what_a_record_cannot_show(typed: str, kept: str) -> None:
    assert clean_text(typed) == kept
    record = read(record_bytes(event(1, note=typed, notes=[typed])))
    assert (record.events[0]["note"], record.events[0]["notes"]) == (kept, [kept])


@pytest.mark.parametrize(
    "value",
    [None, {"a": 1}, [{"a": 1}], [[1]], float("nan"), float("inf"), 2**63, b"bytes", {1, 2}],
)
def test_what_is_not_flat_is_refused(value: object) -> None:
    with pytest.raises((TypeError, ValueError), match="reading"):
        Chain().then(event(1, reading=value))


@pytest.mark.parametrize("key", ["chain", "", "Bolt", "a b", "größe", "a.b", "a\nb"])
def test_keys_that_would_mislead_are_refused(key: str) -> None:
    with pytest.raises(ValueError, match="key"):
        Chain().then({**event(1), key: 1})


def test_check_value_is_twelve_digits_in_groups() -> None:
    # The first digits of SHA-256 of no bytes at all, as FIPS 180-4's example value has them.
    assert check_value(hashlib.sha256(b"").hexdigest()) == "e3b0 c442 98fc"


# ---------------------------------------------------------------------- torn


def test_a_cut_at_any_byte_of_the_last_two_events_costs_no_more_than_the_event_cut() -> None:
    data = record_bytes(*events(4))
    ends = [seal.end for seal in seals_of(data)]
    for cut in range(ends[1], len(data)):
        record = read(data[:cut])
        kept = max(end for end in ends if end <= cut)
        assert record.damage is None, cut
        assert (record.kept, len(record.events)) == (kept, ends.index(kept) + 1)
        assert record.torn == data[kept:cut]


def test_zeros_from_any_byte_of_the_last_two_events_on_cost_no_more_than_the_events_with_zeros() -> None:
    data = record_bytes(*events(4))
    ends = [seal.end for seal in seals_of(data)]
    for cut in range(ends[1], len(data)):
        zeroed = data[:cut] + bytes(len(data) - cut)
        record = read(zeroed)
        kept = max(end for end in ends if end <= cut)
        assert record.damage is None, cut
        assert record.kept == kept
        assert record.torn == zeroed[kept:]


def test_a_block_of_zeros_inside_the_last_event_is_torn_though_its_seal_line_is_whole() -> None:
    data = record_bytes(*events(3))
    last = seals_of(data)[-1]
    for at in range(last.start, last.covers - 8):
        record = read(data[:at] + bytes(8) + data[at + 8 :])
        assert record.damage is None
        assert (record.kept, len(record.torn)) == (last.start, len(data) - last.start)


def test_zeros_before_the_last_event_are_damage() -> None:
    data = record_bytes(*events(4))
    third = seals_of(data)[2]
    record = read(data[: third.start + 30] + bytes(4) + data[third.start + 34 :])
    assert record.first_bad_event == 3
    assert record.torn == b""


def test_the_first_write_cut_at_any_byte_leaves_nothing_and_is_torn() -> None:
    data = record_bytes(event(1))
    for cut in range(len(data)):
        for found in (data[:cut], data[:cut] + bytes(len(data) - cut)):
            record = read(found)
            assert record.damage is None, cut
            assert (record.kept, record.header, record.events) == (0, None, ())
            assert record.torn == found


def test_an_event_whole_but_for_its_line_feed_is_torn() -> None:
    data = record_bytes(*events(2))
    record = read(data[:-1])
    assert record.damage is None
    assert len(record.events) == 1


# ---------------------------------------------------------------------- damaged


@pytest.mark.parametrize("mask", [0x01, 0x20, 0x80, 0xFF])
def test_every_changed_byte_is_found(mask: int) -> None:
    data = closed_record()
    seals = seals_of(data)
    for at in range(len(data)):
        changed = bytearray(data)
        changed[at] ^= mask
        try:
            record = read(bytes(changed))
        except NewerFormat:
            assert at < len("format = 1\n")
            continue
        where = next(seal for seal in seals if at < seal.end)
        assert not whole(record), at
        assert len(record.events) == where.number - 1
        assert (record.first_bad_event or len(record.events) + 1) == where.number
        # A seal line that is no longer one is no proof of anything at the very end; before that it is damage.
        assert record.damage or at >= seals[-1].start


def test_events_taken_out_put_in_and_exchanged_are_found() -> None:
    data = record_bytes(*events(5))
    blocks = [data[seal.start : seal.end] for seal in seals_of(data)]
    first, second, third, fourth, fifth = blocks
    foreign = record_bytes(*events(5), header=header_with(serial="another"))
    other = [foreign[seal.start : seal.end] for seal in seals_of(foreign)]
    for arrangement, bad in (
        ([first, third, fourth, fifth], 2),
        ([first, second, third, fifth], 4),
        ([first, third, second, fourth, fifth], 2),
        ([first, second, third, fifth, fourth], 4),
        ([first, second, second, third, fourth, fifth], 3),
        ([first, second, third, fourth, fifth, fifth], 6),
        ([first, second, other[2], fourth, fifth], 3),
        ([first, second, third, fourth, other[4]], 5),
        ([other[0], second, third, fourth, fifth], 2),
    ):
        record = read(b"".join(arrangement))
        assert record.first_bad_event == bad
        assert len(record.events) == bad - 1


def test_a_whole_seal_line_that_does_not_match_is_damage_even_as_the_last() -> None:
    data = record_bytes(*events(3))
    last = seals_of(data)[-1]
    record = read(data.replace(last.hexadecimal.encode(), b"0" * 64))
    assert record.first_bad_event == 3
    assert record.damage == "The seal of event 3 does not match the bytes above it."
    assert record.kept == last.start


def test_line_endings_changed_by_an_editor_are_damage_not_a_tear() -> None:
    data = record_bytes(*events(3))
    record = read(data.replace(b"\n", b"\r\n"))
    assert record.first_bad_event == 1
    end_of_first = seals_of(data)[0].end
    record = read(data[:end_of_first] + data[end_of_first:].replace(b"\n", b"\r\n"))
    assert (record.first_bad_event, len(record.events)) == (2, 1)


@pytest.mark.parametrize(
    "content", [b"hello\n", b'format = 1\n\n[procedure]\nid = "x"\n', b"\xff\xfe\x00", b"%PDF-1.7\n"]
)
def test_a_file_that_is_no_record_is_not_taken_for_a_torn_one(content: bytes) -> None:
    record = read(content)
    assert record.damage == "The file does not begin as a record does."
    assert record.first_bad_event == 1
    assert record.torn == b""


def test_after_the_closing_event_only_a_reviewer_may_write() -> None:
    closed = [*events(2), event(3, "closed", outcome="released")]
    assert whole(read(record_bytes(*closed, event(4, "judged"), event(5, "judged"))))
    record = read(record_bytes(*closed, event(4, "judged"), event(5, "told")))
    assert record.first_bad_event == 5
    assert len(record.events) == 4
    assert record.closed
    record = read(record_bytes(*closed, event(4, "closed")))
    assert record.first_bad_event == 4


def test_a_tear_after_the_closing_event_is_a_tear() -> None:
    data = closed_record()
    record = read(data[:-20])
    assert record.damage is None
    assert record.closed and len(record.events) == 4


def forged(*bodies: bytes, head: bytes | None = None) -> bytes:
    """Bytes that are no events of ours, with seals that match."""
    data = header_bytes(HEADER) if head is None else head
    for body in bodies:
        data += body
        data += f'chain = "sha256:{hashlib.sha256(data).hexdigest()}"\n'.encode()
    return data


GOOD = b'\n[[event]]\nnumber = 1\nkind = "told"\nat = "now"\nby = ""\n'


@pytest.mark.parametrize(
    ("data", "bad", "words"),
    [
        (forged(GOOD, GOOD), 2, "numbered 1"),
        (forged(GOOD, GOOD.replace(b"1", b"2") + b"[event.more]\n"), 2, "does not stand at its end"),
        (forged(GOOD, GOOD.replace(b"1", b"2").replace(b"by", b"who")), 2, "by whom"),
        (forged(GOOD, GOOD.replace(b"1", b"2") + b"not toml\n"), 2, "cannot be read"),
        (forged(GOOD, GOOD.replace(b"1", b"2") + b'x = "\xff"\n'), 2, "cannot be read"),
        (forged(GOOD, GOOD.replace(b"1", b"2") + b"x = " + b"[" * 5000 + b"\n"), 2, "cannot be read"),
        (forged(GOOD, b"# nothing\n"), 2, "not one [[event]] table"),
        (forged(GOOD, b"# a remark\n" + GOOD.replace(b"1", b"2")), 2, "not one [[event]] table"),
        (forged(GOOD, GOOD.replace(b"1", b"2") + GOOD.replace(b"1", b"3")), 2, "not one [[event]] table"),
        (forged(GOOD + b"[[ event ]]\n"), 1, "more than a header and its events"),
        (forged(GOOD, head=b"format = 1\n\n[record]\nserial = 5\n"), 1, "does not say its serial"),
        (forged(GOOD, head=b"format = 1\n\n[session]\n"), 1, "does not begin"),
        (forged(GOOD + b"[other]\n"), 1, "more than a header and its events"),
        (forged(GOOD + b"x = '''\n[[event]]\n'''\n"), 1, "not one [[event]] table"),
        (forged(b"\nx = '''\n[[event]]\n'''\n"), 1, "more than a header and its events"),
    ],
)
def test_bytes_with_matching_seals_that_are_no_events_are_damage(data: bytes, bad: int, words: str) -> None:
    record = read(data)
    assert record.first_bad_event == bad
    assert record.damage is not None and words in record.damage
    assert len(record.events) == bad - 1
    assert record.torn == b""


def test_a_newer_format_is_refused_in_one_sentence() -> None:
    data = record_bytes(event(1), header=header_with(format=2))
    with pytest.raises(NewerFormat, match=r"^The record is in format 2, .*newer Benchcheck\.$"):
        read(data)


@settings(max_examples=100, deadline=None)
@given(st.binary(max_size=300) | st.binary(max_size=80).map(lambda tail: record_bytes(*events(2)) + tail))
def test_any_bytes_are_read_without_a_fault(data: bytes) -> None:
    record = read(data)
    assert data.startswith(data[: record.kept])
    assert record.damage or data[record.kept :] == record.torn


# ---------------------------------------------------------------------- quick looks


def test_seals_are_checked_without_reading_the_events() -> None:
    data = record_bytes(*events(5))
    seals = seals_of(data)
    assert sound_seals(data) == [seal.covers for seal in seals]
    spoiled = data.replace(b"number = 4", b"number = 9")
    assert sound_seals(spoiled) == [seal.covers for seal in seals[:3]]


def test_a_closing_event_is_seen_from_the_end_of_the_file_once_it_is_sealed() -> None:
    told: Fields = event(2, note='kind = "closed"\n')
    assert not has_closing_event(record_bytes(event(1), told))
    data = record_bytes(event(1), event(2, "closed"))
    assert has_closing_event(data)
    assert has_closing_event(data[-300:])
    assert not has_closing_event(data[:-1])
    assert has_closing_event(closed_record())
