"""Records on disk: what was appended is there, torn tails are set aside, and damage stays as it is."""

from __future__ import annotations

import errno
import hashlib
import os
import tomllib
from pathlib import Path

import pytest

from benchcheck.session.record import flat
from benchcheck.store.disk import StoreFault
from benchcheck.store.records import DamagedRecord, NeverBegun
from tests.session.samples import HEADER, event, events, record_bytes, seals_of
from tests.store.making import files_beside, made, opened, seen_beside


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "SN-1.toml"


def test_a_record_grows_by_exactly_its_events(path: Path) -> None:
    with made(path) as record:
        assert path.read_bytes() == record_bytes(event(1))
        record.append(event(2))
        record.append(event(3), event(4))
        assert path.read_bytes() == record_bytes(*events(4))
        assert record.event_count == 4
        assert record.chain.last_seal == seals_of(path.read_bytes())[-1].hexadecimal
    with opened(path) as again:
        assert list(again.record.events) == [flat(one) for one in events(4)]
        assert again.record.header == HEADER
        assert again.set_aside is None
        again.append(event(5))
    assert path.read_bytes() == record_bytes(*events(5))
    assert files_beside(path) == {"SN-1.toml", "seen-seals.txt"}


def test_what_was_written_can_be_checked_with_nothing_of_ours(path: Path) -> None:
    made(path, 4).close()
    data = path.read_bytes()
    above, checked = b"", 0
    for line in data.splitlines(keepends=True):
        if line.startswith(b"chain ="):
            assert line == b'chain = "sha256:%b"\n' % hashlib.sha256(above).hexdigest().encode()
            checked += 1
        above += line
    assert checked == len(tomllib.loads(data.decode())["event"]) == 4


def test_the_bytes_are_synced_before_append_returns_and_the_folder_when_the_file_is_made(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    calls: list[tuple[str, Path]] = []
    real_write, real_sync = os.write, os.fsync

    def target(descriptor: int) -> Path:
        return Path(os.readlink(f"/proc/self/fd/{descriptor}"))

    def noted_write(descriptor: int, data: bytes) -> int:
        calls.append(("write", target(descriptor)))
        return real_write(descriptor, data)

    def noted_sync(descriptor: int) -> None:
        calls.append(("sync", target(descriptor)))
        real_sync(descriptor)

    monkeypatch.setattr(os, "write", noted_write)
    monkeypatch.setattr(os, "fsync", noted_sync)
    record = made(path)
    assert calls == [("write", path), ("sync", path), ("sync", path.parent)]
    calls.clear()
    record.append(event(2), event(3))
    assert calls == [("write", path), ("sync", path)]
    monkeypatch.undo()
    record.close()


def test_a_record_is_never_made_over_another(path: Path) -> None:
    path.write_text("mine")
    with pytest.raises(FileExistsError):
        made(path)
    assert path.read_text() == "mine"
    assert files_beside(path) == {"SN-1.toml"}


def test_events_out_of_turn_and_events_that_are_not_flat_change_nothing(path: Path) -> None:
    with made(path) as record:
        before = path.read_bytes()
        for wrong in (event(1), event(3), event(2, reading={"value": 1})):
            with pytest.raises((ValueError, TypeError)):
                record.append(wrong)
        with pytest.raises(ValueError, match="event 2 is appended where event 3 is due"):
            record.append(event(2), event(2))
        assert path.read_bytes() == before
        record.append(event(2))


def test_a_closed_record_takes_no_more(path: Path) -> None:
    record = made(path)
    record.close()
    record.close()
    with pytest.raises(StoreFault, match="is closed"):
        record.append(event(2))


# ---------------------------------------------------------------------- torn and damaged


def test_a_torn_tail_is_moved_beside_the_record_at_every_cut(path: Path) -> None:
    made(path, 3).close()
    data = path.read_bytes()
    start = seals_of(data)[1].end
    seen_beside(path).path.unlink()
    for number, cut in enumerate(range(start + 1, len(data), 37), start=1):
        path.write_bytes(data[:cut])
        with opened(path) as record:
            aside = record.set_aside
            assert aside is not None
            assert aside.file == f"SN-1.toml.torn-{number}"
            assert path.with_name(aside.file).read_bytes() == data[start:cut]
            assert (aside.size, aside.sha256) == (cut - start, hashlib.sha256(data[start:cut]).hexdigest())
            assert path.read_bytes() == data[:start]
            record.append(event(3))
        assert path.read_bytes() == data
        seen_beside(path).path.unlink()


def test_the_torn_tail_is_on_the_disk_before_the_record_is_cut(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made(path, 2).close()
    torn = path.read_bytes()[:-5]
    path.write_bytes(torn)
    seen_beside(path).path.unlink()

    def failing(descriptor: int, length: int) -> None:
        raise OSError(errno.EIO, "made to fail")

    monkeypatch.setattr(os, "ftruncate", failing)
    with pytest.raises(StoreFault):
        opened(path)
    monkeypatch.undo()
    assert path.read_bytes() == torn
    assert not path.with_name("SN-1.toml.lock").exists()


def test_a_tail_that_cannot_be_set_aside_stays_where_it_is(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made(path, 2).close()
    torn = path.read_bytes()[:-5]
    path.write_bytes(torn)
    seen_beside(path).path.unlink()
    real_write = os.write

    def full(descriptor: int, data: bytes) -> int:
        return real_write(descriptor, data[:10])

    monkeypatch.setattr(os, "write", full)
    with pytest.raises(StoreFault, match="the disk is full"):
        opened(path)
    monkeypatch.undo()
    assert path.read_bytes() == torn
    assert files_beside(path) == {"SN-1.toml"}


def test_a_record_cut_off_while_it_was_made_is_set_aside_whole(path: Path) -> None:
    whole = record_bytes(event(1))
    for number, content in enumerate((b"", whole[:100], whole[:-1], bytes(50)), start=1):
        path.write_bytes(content)
        with pytest.raises(NeverBegun) as raised:
            opened(path)
        aside = raised.value.set_aside.file
        assert aside == f"SN-1.toml.torn-{number}"
        assert path.with_name(aside).read_bytes() == content
        assert not path.exists()
    assert not path.with_name("SN-1.toml.lock").exists()


def test_a_damaged_record_is_refused_and_left_as_it_is(path: Path) -> None:
    made(path, 4).close()
    spoiled = path.read_bytes().replace(b"number = 3", b"number = 8")
    path.write_bytes(spoiled)
    with pytest.raises(DamagedRecord, match="damaged from event 3 on, and nothing is added to it") as raised:
        opened(path)
    assert len(raised.value.record.events) == 2
    assert path.read_bytes() == spoiled
    assert files_beside(path) == {"SN-1.toml", "seen-seals.txt"}


def test_a_record_that_lost_events_it_was_seen_with_is_refused(path: Path) -> None:
    made(path, 4).close()
    data = path.read_bytes()
    shorter = data[: seals_of(data)[2].end]
    for found in (shorter, data[:-30], record_bytes(*events(3), event(4, by="Someone Else"))):
        path.write_bytes(found)
        with pytest.raises(DamagedRecord, match="The remembered seal knows"):
            opened(path)
        assert path.read_bytes() == found
    assert not [name for name in files_beside(path) if "torn" in name]
