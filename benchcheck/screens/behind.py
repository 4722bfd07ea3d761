"""Work that takes longer than a hand would wait: in a thread of its own, watched and stopped from the screen.

The work is told where to report how far it is, and whom to ask whether to stop. No Textual.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from contextlib import redirect_stderr
from threading import Thread
from typing import TYPE_CHECKING, Generic, TypeAlias, TypeVar, cast

from benchcheck.screens.layout import Work

if TYPE_CHECKING:  # the index costs more than a first screen may
    from benchcheck.store.disk import StoreFault
    from benchcheck.store.index_taking import Progress

Result = TypeVar("Result")
Tell: TypeAlias = "Callable[[Progress], None]"
Stop: TypeAlias = Callable[[], bool]


class Behind(Generic[Result]):
    """One go at some work, begun by being made. What happened shows at the next look."""

    def __init__(self, work: Callable[[Tell, Stop], Result]) -> None:
        self._work = work
        self._result: Result | None = None
        self._error: BaseException | None = None
        self.progress: Progress | None = None
        self._fault: StoreFault | None = None
        self.is_stopping = False
        """Whether it was told to stop."""
        self._thread = Thread(target=self._run, daemon=True)
        self._thread.start()

    @property
    def is_over(self) -> bool:
        """Whether it has ended, one way or another. A fault of the program in it is raised here."""
        if self._thread.is_alive():
            return False
        if self._error is not None:
            raise self._error
        return True

    @property
    def fault(self) -> str:
        """Why it could not be done, in a sentence."""
        return "" if self._fault is None else str(self._fault)

    @property
    def result(self) -> Result:
        """What came of it, once it is over. Raises StoreFault where it could not be done."""
        if self._fault is not None:
            raise self._fault
        return cast(Result, self._result)

    def wait(self, seconds: float) -> None:
        """For its end, but not longer."""
        self._thread.join(seconds)

    def stop(self) -> None:
        """End it behind the piece that is being worked on."""
        self.is_stopping = True

    def how_far(self) -> str:
        progress = self.progress
        return "beginning" if progress is None else f"{progress.what}: {progress.done} of {progress.of}"

    def _run(self) -> None:
        from multiprocessing import resource_tracker

        from benchcheck.store.disk import StoreFault

        try:
            # Processes are started by one that has to be handed a real file, which Textual's stand-in is not.
            with redirect_stderr(sys.__stderr__):
                resource_tracker.ensure_running()
            self._result = self._work(self._note, lambda: self.is_stopping)
        except StoreFault as fault:
            self._fault = fault
        except BaseException as error:
            self._error = error

    def _note(self, progress: Progress) -> None:
        self.progress = progress


def write_how_far(work: Work, words: str, stopping: bool) -> None:
    """How far some work is, and that it is about to stop."""
    work.labelled("now", words)
    if stopping:
        work.labelled("then", "it stops, when this is done")
