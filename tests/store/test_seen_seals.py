"""The memory of last seals: only ever added to, and never led astray by a line that was cut off."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from benchcheck.session.verification import OutsideSeal
from benchcheck.store.disk import StoreFault
from benchcheck.store.seen_seals import SOURCE, SeenSeals

A, B = "a" * 64, "b" * 64


@pytest.fixture
def seen(tmp_path: Path) -> SeenSeals:
    return SeenSeals(tmp_path / "seen-seals.txt")


def test_what_was_seen_is_remembered_in_order_and_only_added_to(seen: SeenSeals) -> None:
    assert seen.all() == {}
    seen.remember("SN 1.toml", 3, A)
    first = seen.path.read_bytes()
    seen.remember("SN 1.toml", 3, A)
    assert seen.path.read_bytes() == first == f"{A} 3 SN 1.toml\n".encode()
    seen.remember("помпа.toml", 1, A)
    seen.remember("SN 1.toml", 7, B)
    assert seen.path.read_bytes().startswith(first)
    assert seen.of("SN 1.toml") == [OutsideSeal(3, A, SOURCE), OutsideSeal(7, B, SOURCE)]
    assert seen.of("помпа.toml") == [OutsideSeal(1, A, SOURCE)]
    assert seen.of("other.toml") == []


def test_a_line_cut_off_at_any_byte_neither_counts_nor_swallows_the_next(seen: SeenSeals) -> None:
    seen.remember("SN-1.toml", 3, A)
    kept = seen.path.read_bytes()
    torn = f"{B} 12 SN-1.toml\n".encode()
    for cut in range(len(torn)):
        seen.path.write_bytes(kept + torn[:cut])
        assert seen.of("SN-1.toml") == [OutsideSeal(3, A, SOURCE)]
        seen.remember("SN-1.toml", 14, B)
        assert seen.of("SN-1.toml")[-1] == OutsideSeal(14, B, SOURCE)
        assert seen.of("SN-1.toml")[0] == OutsideSeal(3, A, SOURCE)
        assert not any(known.number in (1, 12) and cut < len(torn) - 1 for known in seen.of("SN-1.toml"))


def test_lines_of_another_kind_are_passed_over(seen: SeenSeals) -> None:
    seen.path.write_bytes(b"\x00\x00\xff\n\n# remark\n" + f"{A} 0 x\n{A} 2 x\n{A[1:]} 3 x\n".encode())
    assert seen.all() == {"x": [OutsideSeal(2, A, SOURCE)]}


def test_a_name_with_a_line_break_stays_on_its_line(seen: SeenSeals) -> None:
    seen.remember("odd\nname.toml", 2, A)
    assert seen.path.read_bytes().count(b"\n") == 1
    assert seen.of("odd\nname.toml") == [OutsideSeal(2, A, SOURCE)]


def test_a_disk_that_fails_is_said(seen: SeenSeals, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(descriptor: int, data: bytes) -> int:
        raise OSError(errno.ENOSPC, "made to fail")

    monkeypatch.setattr(os, "write", full)
    with pytest.raises(StoreFault, match=r"was not remembered in seen-seals\.txt: the disk is full"):
        seen.remember("SN-1.toml", 2, A)
    monkeypatch.undo()
    seen.path.unlink()
    seen.path.mkdir()
    with pytest.raises(StoreFault, match=r"seen-seals\.txt cannot be read"):
        seen.all()
