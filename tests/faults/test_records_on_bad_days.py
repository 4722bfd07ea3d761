"""Torn, damaged, held and unwritable records through the program: what is said, and that nothing is lost."""

from __future__ import annotations

import os
import random
import tomllib
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from benchcheck.session.record import read
from benchcheck.session.rehearsal import BEGINS
from tests.end_to_end.bench import Piped, real_program, take_up, with_clock
from tests.faults.in_process import talked, ticking
from tests.faults.prepared import at_act, record_at, shop
from tests.faults.torn_tails import TornTails

AN_HOUR_LATER = BEGINS + timedelta(hours=1)
BACK_AT_WORK = ("1", "T. Sample", "SN-1")


@pytest.fixture
def record(tmp_path: Path) -> Path:
    """A record whose kit is about to be counted."""
    return record_at(tmp_path, at_act("kit/ask:0"))


def events(record: Path) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = tomllib.loads(record.read_text())["event"]
    return found


# ---------------------------------------------------------------------- torn


def test_torn_inside_the_last_event(tmp_path: Path) -> None:
    """A sample of the cuts; `python -m tests.campaigns.torn_tails` makes them all."""
    torn = TornTails(tmp_path)
    cuts = random.Random(1).sample(torn.cuts, 6)
    for cut in (torn.cuts[0], torn.cuts[-1], *cuts):
        torn.cut_and_take_up(cut)


@pytest.mark.parametrize("zeros", [1, 4096])
def test_torn_through_the_real_program(record: Path, zeros: int) -> None:
    whole = record.read_bytes()
    record.write_bytes(whole[: len(whole) - 20] + bytes(zeros))
    (record.parent / "seen-seals.txt").unlink()
    bench = Piped(with_clock(record.parents[1], AN_HOUR_LATER))
    assert "The last write was torn." in take_up(bench)
    for line in ("T. Sample", "SN-1", "LOT-1"):
        bench.say(line)
        bench.question()
    assert bench.end() == (0, "")
    assert read(record.read_bytes()).damage is None


# ---------------------------------------------------------------------- two programs


def test_the_second_program_is_told_who_has_the_record(record: Path) -> None:
    folder = record.parents[1]
    first, second = (Piped(with_clock(folder, AN_HOUR_LATER)) for _ in range(2))
    take_up(first)
    assert f"is being written by someone (process {first.pid} on " in " ".join(take_up(second).split())
    for line in ("T. Sample", "SN-1"):
        first.say(line)
        first.question()
    second.say("1")
    said = " ".join(second.question().split())
    assert f"{record.name} is being written by T. Sample (process {first.pid} on " in said
    assert "until that ends it can only be read." in said
    before = record.read_bytes()
    assert second.end() == (0, "")
    assert record.read_bytes() == before
    first.say("LOT-1")
    first.question()
    assert first.end() == (0, "")
    # Now it is free.
    assert "events were kept" in talked(folder, ["1"], ticking(AN_HOUR_LATER))[1]


# ---------------------------------------------------------------------- disks


def with_room_for(size: int, folder: Path) -> Piped:
    """The program where no file may become larger than this [bytes]."""
    limit = [
        "/bin/sh",
        "-c",
        'ulimit -f "$0"; exec "$@"',  # the shell counts in blocks of 512 bytes
        str(size // 512),
        *with_clock(folder, AN_HOUR_LATER),
    ]
    return Piped(limit)


def test_a_full_disk_is_said_at_once_and_nothing_is_shown_as_done(record: Path) -> None:
    folder, before = record.parents[1], len(events(record))
    bench = with_room_for((record.stat().st_size // 512 + 3) * 512, folder)
    said = take_up(bench)
    for line in ("T. Sample", "SN-1", *(["?note " + "a long remark " * 20] * 9)):
        if "Nothing was added" in said:
            break
        bench.say(line)
        said = bench.question()
    told = " ".join(said.split())
    assert f"Nothing was added to {record.name}: the" in told
    assert "That answer does not count. What was confirmed before is saved." in told
    assert "Noted." not in told
    assert "Which?" in told
    assert bench.end() == (0, "")
    kept = read(record.read_bytes())
    assert kept.damage is None and not kept.torn
    assert len(kept.events) >= before
    # With room again, the work goes on from there.
    status, said = talked(folder, [*BACK_AT_WORK, "LOT-1"], ticking(AN_HOUR_LATER))
    assert status == 0
    assert f"{len(kept.events)} events were kept" in said


def test_a_full_disk_at_the_very_beginning(tmp_path: Path) -> None:
    bench = with_room_for(0, tmp_path)
    bench.question()
    bench.say("yes")
    status, errors = bench.end()
    assert (status, errors) == (2, "")
    assert "was not written: the" in " ".join(bench.printed.split())
    # Nothing half written is left that would have to be cleared away by hand.
    status, said = talked(tmp_path, ["yes", "2"])
    assert status == 0
    assert "They are invented: not for use on a real pump." in said


def held_to_permissions(folder: Path) -> Piped:
    """The program for a user whom permissions bind: root is one only without that capability."""
    command = with_clock(folder, AN_HOUR_LATER)
    if os.geteuid() == 0:
        command = ["setpriv", "--bounding-set=-dac_override,-dac_read_search", *command]
    return Piped(command)


def test_a_folder_that_cannot_be_written_is_said_at_once(tmp_path: Path) -> None:
    tmp_path.chmod(0o555)
    bench = held_to_permissions(tmp_path)
    bench.question()
    bench.say("yes")
    assert bench.end() == (2, "")
    assert "cannot be made: this user has no right to do that there." in " ".join(bench.printed.split())


def test_a_record_that_cannot_be_written_is_said_at_once(record: Path) -> None:
    before = record.read_bytes()
    record.chmod(0o444)
    record.parent.chmod(0o555)
    bench = held_to_permissions(record.parents[1])
    said = " ".join(take_up(bench).split())
    assert "cannot be opened for writing: this user has no right to do that there." in said
    assert "events were kept" not in said
    assert "Which?" in said
    assert bench.end() == (0, "")
    assert record.read_bytes() == before


def test_the_folder_goes_away_under_the_work(record: Path, tmp_path: Path) -> None:
    bench = Piped(with_clock(tmp_path, AN_HOUR_LATER))
    take_up(bench)
    for line in ("T. Sample", "SN-1"):
        bench.say(line)
        bench.question()
    away = tmp_path / "away"
    record.parent.rename(away)
    bench.say("LOT-1")
    said = " ".join(bench.question().split())
    assert "it is not there, or its folder is gone" in said
    assert "That answer does not count." in said
    assert read((away / record.name).read_bytes()).events[-1]["kind"] == "read again"
    bench.end()


# ---------------------------------------------------------------------- clocks


def test_a_clock_that_goes_back_is_an_event(record: Path) -> None:
    folder = record.parents[1]
    last = events(record)[-1]["at"]
    status, said = talked(folder, [*BACK_AT_WORK, "LOT-1"], ticking(BEGINS - timedelta(hours=1)))
    assert status == 0
    assert "minutes less than before. The record says so." in said
    back = next(event for event in events(record) if event["kind"] == "clock went back")
    assert back["at"] < last
    assert 3600 <= back["seconds"] < 3600 + 15 * 60
    assert back["number"] == next(e["number"] for e in events(record) if e["kind"] == "taken up") - 1


def test_a_clock_that_goes_back_during_the_work_is_said(record: Path) -> None:
    tick = ticking(AN_HOUR_LATER)
    set_back = timedelta()

    def clock() -> Any:
        nonlocal set_back
        if events(record)[-1]["kind"] == "read again":
            set_back = timedelta(hours=1)
        return tick() - set_back

    _, said = talked(record.parents[1], [*BACK_AT_WORK, "LOT-1", "-259 FKM"], clock)
    assert "> LOT-1 The clock of this machine shows 60 minutes less than before." in said
    assert "clock went back" in [event["kind"] for event in events(record)]


# ---------------------------------------------------------------------- damage


def test_a_damaged_record_is_refused_in_words_and_others_are_not(record: Path) -> None:
    folder = record.parents[1]
    other = record_at(folder, at_act("kit/ask:0"), serial="SN-2")
    data = bytearray(record.read_bytes())
    at = data.index(b'value = "none"')
    data[at + 9] ^= 1
    record.write_bytes(data)
    status, said = talked(folder, ["1", "2", "T. Sample", "SN-2", "LOT-2"], ticking(AN_HOUR_LATER))
    assert status == 0
    number = next(event["number"] for event in events(other) if event.get("value") == "none")
    assert f"{record.name} is damaged from event {number} on, and nothing is added to it." in said
    assert "go on with pump SN-2" in said
    assert events(other)[-2]["value"] == "LOT-2"
    assert record.read_bytes() == data


def test_a_record_that_is_no_record(tmp_path: Path) -> None:
    shop(tmp_path)
    sessions = tmp_path / "sessions"
    sessions.mkdir()
    (sessions / "notes.toml").write_text('remember = "the milk"\n')
    _, said = talked(tmp_path, ["1", "3"])
    assert "notes.toml" in said
    assert "Traceback" not in said


def test_the_real_program_says_it_too(record: Path) -> None:
    data = record.read_bytes()
    record.write_bytes(data.replace(b'"none"', b'"nine"'))
    bench = Piped(real_program(record.parents[1]))
    assert "is damaged from event" in take_up(bench)
    assert bench.end() == (0, "")
