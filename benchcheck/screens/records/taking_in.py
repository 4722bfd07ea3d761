"""Bringing the index up to date behind the screen: in a thread of its own, watched and stopped from here."""

from __future__ import annotations

import sys
from contextlib import redirect_stderr
from multiprocessing import resource_tracker
from threading import Thread

from benchcheck.store.disk import StoreFault
from benchcheck.store.index import Index
from benchcheck.store.index_taking import Progress
from benchcheck.store.workspace import Workspace


class TakingIn:
    """One go at it, begun by being made. What happened shows at the next look."""

    def __init__(self, workspace: Workspace, *, events: bool = True) -> None:
        """`events`: whether their events are read too; without, what was stopped before counts as stopped."""
        self._workspace = workspace
        self._events = events
        self._stop = False
        self._error: BaseException | None = None
        self.progress: Progress | None = None
        self.fault = ""
        """Why the records could not be taken in, in a sentence."""
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
    def was_stopped(self) -> bool:
        return self._stop or not self._events

    def stop(self) -> None:
        """End it behind the piece that is being worked on; the next go carries on from there."""
        self._stop = True

    def _run(self) -> None:
        try:
            # Processes are started by one that has to be handed a real file, which Textual's stand-in is not.
            with redirect_stderr(sys.__stderr__):
                resource_tracker.ensure_running()
            # An index belongs to the thread that opens it.
            with Index(self._workspace) as index:
                index.refresh(self._note, lambda: self._stop, events=self._events)
        except StoreFault as fault:
            self.fault = str(fault)
        except BaseException as error:
            self._error = error

    def _note(self, progress: Progress) -> None:
        self.progress = progress
