"""Disks that fail: what could not be written is as if it had not been tried, and is said in a sentence."""

from __future__ import annotations

import errno
import os
import shutil
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from benchcheck.store.disk import StoreFault
from benchcheck.store.records import create
from benchcheck.store.seen_seals import SeenSeals
from tests.session.samples import HEADER, event, events, record_bytes
from tests.store.making import HOLDER, files_beside, made, opened

REAL_WRITE = os.write


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "SN-1.toml"


def short_write(kept: int) -> Callable[[int, bytes], int]:
    """A write that has room for so many bytes."""
    return lambda descriptor, data: REAL_WRITE(descriptor, data[:kept])


def failing_write(number: int, kept: int) -> Callable[[int, bytes], int]:
    """A write that fails, with so many bytes on the disk already."""

    def write(descriptor: int, data: bytes) -> int:
        if kept:
            REAL_WRITE(descriptor, data[:kept])
        raise OSError(number, os.strerror(number))

    return write


@pytest.mark.parametrize("kept", [0, 1, 150])
@pytest.mark.parametrize(
    ("number", "words"),
    [
        (errno.ENOSPC, "the disk is full"),
        (errno.EDQUOT, "this user's share of the disk is used up"),
        (errno.EROFS, "the disk is read-only"),
        (errno.EIO, "the disk reports an error"),
        (errno.EFBIG, "larger than this system allows"),
        (errno.ENETDOWN, os.strerror(errno.ENETDOWN)),
    ],
)
def test_a_failed_write_leaves_file_and_object_as_they_were(
    path: Path, monkeypatch: pytest.MonkeyPatch, number: int, words: str, kept: int
) -> None:
    with made(path, 2) as record:
        before = path.read_bytes()
        monkeypatch.setattr(os, "write", failing_write(number, kept))
        with pytest.raises(StoreFault) as raised:
            record.append(event(3))
        monkeypatch.undo()
        sentence = str(raised.value)
        assert sentence.startswith("Nothing was added to SN-1.toml: ") and words in sentence
        assert sentence.endswith(".") and "\n" not in sentence
        assert path.read_bytes() == before
        assert record.event_count == 2
        record.append(event(3))
    assert path.read_bytes() == record_bytes(*events(3))


def test_a_short_write_is_taken_back(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with made(path) as record:
        for kept in range(0, len(record_bytes(*events(2))) - len(record_bytes(event(1))), 23):
            monkeypatch.setattr(os, "write", short_write(kept))
            with pytest.raises(StoreFault, match="the disk is full"):
                record.append(event(2))
            monkeypatch.undo()
            assert path.read_bytes() == record_bytes(event(1))
        record.append(event(2))
    assert path.read_bytes() == record_bytes(*events(2))


def test_nothing_is_written_behind_a_tail_that_could_not_be_taken_back(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    record = made(path)

    def failing(descriptor: int, length: int) -> None:
        raise OSError(errno.EIO, "made to fail")

    monkeypatch.setattr(os, "write", failing_write(errno.EIO, 60))
    monkeypatch.setattr(os, "ftruncate", failing)
    with pytest.raises(StoreFault):
        record.append(event(2))
    monkeypatch.undo()
    torn = path.read_bytes()
    assert len(torn) == len(record_bytes(event(1))) + 60
    with pytest.raises(StoreFault, match="leave it and open it again"):
        record.append(event(2))
    assert path.read_bytes() == torn
    record.close()
    with opened(path) as again:
        assert again.set_aside is not None and again.set_aside.size == 60
        again.append(event(2))
    assert path.read_bytes() == record_bytes(*events(2))


def test_after_a_failed_sync_the_record_has_to_be_opened_again(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    record = made(path)
    failures = iter([OSError(errno.EIO, "made to fail")])

    def failing_once(descriptor: int) -> None:
        for failure in failures:
            raise failure

    monkeypatch.setattr(os, "fsync", failing_once)
    with pytest.raises(StoreFault, match="the disk reports an error"):
        record.append(event(2))
    monkeypatch.undo()
    assert path.read_bytes() == record_bytes(event(1))
    with pytest.raises(StoreFault, match="open it again"):
        record.append(event(2))
    record.close()
    with opened(path) as again:
        again.append(event(2))


def test_a_folder_that_vanishes_is_said_at_once(tmp_path: Path) -> None:
    folder = tmp_path / "sessions"
    folder.mkdir()
    record = create(folder / "SN-1.toml", HEADER, event(1), HOLDER, SeenSeals(tmp_path / "seen-seals.txt"))
    shutil.rmtree(folder)
    with pytest.raises(StoreFault, match="its folder is gone"):
        record.append(event(2))
    assert record.event_count == 1
    record.close()


def test_a_file_put_in_place_of_the_record_gets_nothing(path: Path) -> None:
    record = made(path)
    other = path.with_name("other")
    other.write_bytes(path.read_bytes())
    other.replace(path)
    with pytest.raises(StoreFault, match="replaced by another file"):
        record.append(event(2))
    assert path.read_bytes() == record_bytes(event(1))
    record.close()


def test_a_record_that_another_program_changed_gets_nothing(path: Path) -> None:
    record = made(path)
    with path.open("ab") as file:
        file.write(b"# a remark\n")
    before = path.read_bytes()
    with pytest.raises(StoreFault, match="changed by another program"):
        record.append(event(2))
    assert path.read_bytes() == before
    record.close()


@pytest.mark.parametrize("number", [errno.EROFS, errno.EACCES, errno.ENOSPC])
def test_a_folder_that_takes_no_files_is_said_when_a_record_is_made_or_opened(
    path: Path, monkeypatch: pytest.MonkeyPatch, number: int
) -> None:
    made(path).close()
    real_open = os.open

    def refusing(file: Path, flags: int, mode: int = 0o777) -> int:
        if flags & os.O_CREAT:
            raise OSError(number, os.strerror(number))
        return real_open(file, flags, mode)

    monkeypatch.setattr(os, "open", refusing)
    with pytest.raises(StoreFault, match=r"cannot be opened for writing: .*\.$"):
        opened(path)
    with pytest.raises(StoreFault, match=r"cannot be opened for writing: .*\.$"):
        made(path.with_name("SN-2.toml"))
    monkeypatch.undo()
    assert files_beside(path) == {"SN-1.toml", "seen-seals.txt"}


def test_a_record_that_cannot_be_made_leaves_nothing(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "write", short_write(50))
    with pytest.raises(StoreFault, match=r"SN-1\.toml was not made: the disk is full"):
        made(path)
    monkeypatch.undo()
    assert files_beside(path) == set()


@pytest.mark.parametrize("name", ["missing.toml", "folder.toml"])
def test_what_is_no_file_is_refused_in_a_sentence(path: Path, name: str) -> None:
    (path.parent / "folder.toml").mkdir()
    with pytest.raises(StoreFault, match=r"cannot be read: .*\.$"):
        opened(path.with_name(name))
    assert files_beside(path) == {"folder.toml"}


@pytest.fixture
def tiny_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of 32 KiB, where this user may mount one."""
    disk = tmp_path / "disk"
    disk.mkdir()
    mount = shutil.which("mount")
    if (
        mount is None
        or subprocess.run(
            [mount, "-t", "tmpfs", "-o", "size=32k", "none", str(disk)], capture_output=True, check=False
        ).returncode
    ):
        pytest.skip("mounting a small disk is not allowed here")
    yield disk
    subprocess.run(["umount", str(disk)], check=True)


def test_on_a_real_full_disk_every_confirmed_event_is_kept(tiny_disk: Path) -> None:
    path = tiny_disk / "SN-1.toml"
    record = made(path)
    with pytest.raises(StoreFault, match=r"Nothing was added to SN-1\.toml: the disk is full"):
        while True:
            record.append(event(record.event_count + 1))
    assert record.event_count > 20
    assert path.read_bytes() == record_bytes(*events(record.event_count))
    subprocess.run(["mount", "-o", "remount,size=128k", str(tiny_disk)], check=True)
    record.append(event(record.event_count + 1))
    record.close()


def test_on_a_real_read_only_disk_nothing_is_shown_as_done(tiny_disk: Path) -> None:
    path = tiny_disk / "SN-1.toml"
    made(path).close()
    subprocess.run(["mount", "-o", "remount,ro", str(tiny_disk)], check=True)
    with pytest.raises(StoreFault, match="the disk is read-only"):
        opened(path)
    with pytest.raises(StoreFault, match="the disk is read-only"):
        made(tiny_disk / "SN-2.toml")
    assert path.read_bytes() == record_bytes(event(1))
