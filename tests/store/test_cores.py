"""Work over all cores: each piece is done once, whatever becomes of the processes, until it is stopped."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import Future
from concurrent.futures.process import BrokenProcessPool

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
