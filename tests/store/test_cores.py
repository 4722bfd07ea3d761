"""Work over all cores: each piece is done once, whatever becomes of the processes, until it is stopped."""

from __future__ import annotations

import subprocess
import sys
import time
from collections.abc import Callable
from concurrent.futures import Future
from concurrent.futures.process import BrokenProcessPool
from pathlib import Path

import pytest

from benchcheck.store import cores
from benchcheck.store.cores import in_pieces

ITEMS = list(range(23))


def never() -> bool:
    return False


def done(few: int, stop: Callable[[], bool] = never, *, with_this_process: bool = False) -> list[list[int]]:
    return list(in_pieces(sorted, ITEMS, piece=5, few=few, stop=stop, with_this_process=with_this_process))


def test_few_items_are_done_here_in_their_order() -> None:
    assert done(few=23) == [[*range(5)], [*range(5, 10)], [*range(10, 15)], [*range(15, 20)], [20, 21, 22]]


@pytest.mark.parametrize("with_this_process", [False, True])
def test_many_are_done_by_processes_each_once(with_this_process: bool) -> None:
    pieces = done(few=0, with_this_process=with_this_process)
    assert sorted(item for piece in pieces for item in piece) == ITEMS


def test_it_stops_between_pieces() -> None:
    assert done(few=23, stop=lambda: True) == []
    assert done(few=0, stop=lambda: True) == []


class BrokenPool:
    """A pool whose processes die with the first piece they get."""

    def __init__(self, *arguments: object, **named: object) -> None:
        pass

    def submit(self, *arguments: object) -> Future[list[int]]:
        future: Future[list[int]] = Future()
        future.set_exception(BrokenProcessPool("killed"))
        return future

    def shutdown(self, *, cancel_futures: bool) -> None:
        pass


class NoPool(BrokenPool):
    """Not one more process may be started."""

    def submit(self, *arguments: object) -> Future[list[int]]:
        raise OSError("too many processes")


@pytest.mark.parametrize("pool", [BrokenPool, NoPool])
@pytest.mark.parametrize("with_this_process", [False, True])
def test_what_no_process_does_is_done_here(
    monkeypatch: pytest.MonkeyPatch, pool: type[BrokenPool], with_this_process: bool
) -> None:
    monkeypatch.setattr(cores, "ProcessPoolExecutor", pool)
    pieces = done(few=0, with_this_process=with_this_process)
    assert sorted(item for piece in pieces for item in piece) == ITEMS


KILLED = """
import os, sys
from benchcheck.store.cores import in_pieces
if __name__ == "__main__":
    for piece in in_pieces(sorted, [1, 2, 3], piece=1, few=0, stop=lambda: False):
        print(*(child.pid for child in __import__("multiprocessing").active_children()), flush=True)
        os.kill(os.getpid(), 9)
"""


def test_helpers_end_when_the_program_is_killed(tmp_path: Path) -> None:
    script = tmp_path / "killed.py"
    script.write_text(KILLED)
    ended = subprocess.run([sys.executable, str(script)], capture_output=True, text=True, check=False)
    helpers = [int(number) for number in ended.stdout.split()]
    assert helpers and ended.returncode == -9
    until = time.monotonic() + 60
    while any(map(_runs, helpers)) and time.monotonic() < until:
        time.sleep(0.02)
    assert not any(map(_runs, helpers))


def _runs(number: int) -> bool:
    """Whether a process still runs; one that ended and that nobody asked after does not."""
    try:
        stat = Path(f"/proc/{number}/stat").read_text()
    except OSError:
        return False
    return stat.rpartition(")")[2].split()[0] not in "ZX"
