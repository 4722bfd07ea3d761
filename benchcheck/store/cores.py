"""Work on many files over all cores: pieces are handed to processes, and come back as they are done.

Processes, since threads take turns at reading small files; started fresh, since a screen may be running in
this one. Few files are done here and now: a process takes longer to start.
"""

from __future__ import annotations

import os
import signal
from collections import deque
from collections.abc import Callable, Generator, Iterator, Sequence
from concurrent.futures import FIRST_COMPLETED, Future, ProcessPoolExecutor, wait
from concurrent.futures.process import BrokenProcessPool
from multiprocessing import get_context, parent_process
from multiprocessing.connection import wait as wait_for_end
from threading import Thread
from typing import TypeVar

T = TypeVar("T")
R = TypeVar("R")
IN_HAND = 2
"""Pieces handed out for each process: one being worked on, one waiting."""


def in_pieces(
    work: Callable[[Sequence[T]], list[R]],
    items: Sequence[T],
    *,
    piece: int,
    few: int,
    stop: Callable[[], bool],
    with_this_process: bool = False,
) -> Iterator[list[R]]:
    """What `work` makes of the items, piece by piece, in any order, until it is done or to be stopped.

    Parameters: a function of a module, which can be handed to a process; how many items are a piece; up to
    how many items it is not worth starting processes; whether to stop, asked between pieces; whether this
    process works too, instead of only waiting: then it begins at once, and whoever looks at a screen waits.
    """
    pieces = [items[start : start + piece] for start in range(0, len(items), piece)]
    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
    if len(items) > few and cores > 1:
        others = min(cores - with_this_process, len(pieces))
        left = yield from _over_processes(work, pieces, others, stop, with_this_process)
    else:
        left = pieces
    for each in left:
        if stop():
            return
        yield work(each)


def _over_processes(
    work: Callable[[Sequence[T]], list[R]],
    pieces: list[Sequence[T]],
    processes: int,
    stop: Callable[[], bool],
    with_this_process: bool,
) -> Generator[list[R], None, list[Sequence[T]]]:
    """Yields what is done; returns the pieces that no process did, because none can be had."""
    waiting = deque(pieces)
    under_way: dict[Future[list[R]], Sequence[T]] = {}
    pool = ProcessPoolExecutor(processes, get_context("spawn"), initializer=_as_a_helper)
    try:
        while not stop():
            while waiting and len(under_way) < IN_HAND * processes:
                under_way[pool.submit(work, waiting[0])] = waiting[0]
                waiting.popleft()
            if not under_way:
                break
            works = with_this_process and bool(waiting)
            if works:
                yield work(waiting.popleft())
            done, _ = wait(under_way, timeout=0 if works else None, return_when=FIRST_COMPLETED)
            for future in done:
                result = future.result()
                del under_way[future]
                yield result
        return []
    except (BrokenProcessPool, OSError):
        return [*under_way.values(), *waiting]
    finally:
        pool.shutdown(cancel_futures=True)


def _as_a_helper() -> None:
    """Leave Ctrl+C, which goes to every process of a terminal, to the first one; and end when that one does.

    One that was killed tells its helpers nothing, and they would wait for work for ever.
    """
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    first = parent_process()
    if first is not None:
        Thread(target=_end_after, args=(first.sentinel,), daemon=True).start()


def _end_after(sentinel: int) -> None:
    wait_for_end([sentinel])
    os._exit(1)
