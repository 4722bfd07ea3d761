"""Several processes and one record: one writes, the others are told; a killed one loses nothing confirmed."""

from __future__ import annotations

import random
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from benchcheck.session.record import read
from benchcheck.store.lock import Held, Holder
from tests.session.samples import event, events, record_bytes
from tests.store.making import HOLDER, files_beside, made, opened

REPOSITORY = Path(__file__).parents[2]


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "SN-1.toml"


def writer(path: Path, count: int, limit: int | None = None) -> subprocess.Popen[str]:
    """A process that writes the record."""
    command = [sys.executable, "-m", "tests.store.writer", str(path.parent), path.name, str(count)]
    process = subprocess.Popen(
        command + ([str(limit)] if limit is not None else []),
        cwd=REPOSITORY,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    assert process.stdout is not None
    assert process.stdout.readline() == "ready\n"
    return process


def test_the_second_process_is_told_who_has_the_record_and_may_read(path: Path) -> None:
    process = writer(path, 0)
    with pytest.raises(Held) as raised:
        opened(path)
    assert raised.value.by == Holder(HOLDER.who, HOLDER.since, HOLDER.host, process.pid)
    assert f"Ana Fitter (process {process.pid} on " in str(raised.value)
    assert len(read(path.read_bytes()).events) == 1
    process.communicate()
    with opened(path) as record:
        record.append(event(2))


def test_a_killed_process_holds_nothing(path: Path) -> None:
    process = writer(path, 0)
    process.kill()
    process.wait()
    with opened(path) as record:
        record.append(event(2))
    assert files_beside(path) == {"SN-1.toml", "seen-seals.txt"}


def test_a_limit_on_the_size_of_files_is_a_full_disk(path: Path) -> None:
    made(path, 3).close()
    limit = path.stat().st_size + 1000
    process = writer(path, 10, limit)
    output, _ = process.communicate()
    confirmed = len([line for line in output.splitlines() if line.isdigit()])
    assert process.returncode == 1
    assert "fault Nothing was added to SN-1.toml: the" in output
    assert 0 < confirmed < 10
    assert path.read_bytes() == record_bytes(*events(3 + confirmed))


def test_a_process_killed_while_appending_loses_no_confirmed_event(path: Path) -> None:
    chance = random.Random(20260302)
    confirmed = 1
    for _ in range(5):
        process = writer(path, 100_000)
        assert process.stdout is not None
        for _ in range(chance.randrange(1, 60)):
            confirmed = int(process.stdout.readline())
        process.send_signal(signal.SIGKILL)
        rest = process.stdout.read().split("\n")[:-1]  # `communicate` would lose what was read ahead
        process.wait()
        confirmed = int(rest[-1]) if rest else confirmed
        record = read(path.read_bytes())
        assert record.damage is None
        # One event may be on the disk that the process had no time to speak of.
        assert len(record.events) in (confirmed, confirmed + 1)
        assert path.read_bytes()[: record.kept] == record_bytes(*events(len(record.events)))
