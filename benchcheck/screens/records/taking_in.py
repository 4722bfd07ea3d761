"""Bringing the index up to date behind the screen."""

from __future__ import annotations

from benchcheck.screens.behind import Behind, Stop, Tell
from benchcheck.store.index import Index
from benchcheck.store.index_taking import Refreshed
from benchcheck.store.workspace import Workspace


class TakingIn(Behind[Refreshed]):
    """One go at it; the next one carries on from where it was stopped."""

    def __init__(self, workspace: Workspace, *, events: bool = True) -> None:
        """`events`: whether their events are read too; without, what was stopped before counts as stopped."""
        self._events = events

        def refreshed(tell: Tell, stop: Stop) -> Refreshed:
            # An index belongs to the thread that opens it.
            with Index(workspace) as index:
                return index.refresh(tell, stop, events=events)

        super().__init__(refreshed)

    @property
    def was_stopped(self) -> bool:
        return self.is_stopping or not self._events
