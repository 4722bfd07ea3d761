"""The end of the work, and the word of a reviewer on it."""

from __future__ import annotations

from benchcheck.assembly.changed import changed
from benchcheck.session import events as happened
from benchcheck.session.fold.case import case, with_person
from benchcheck.session.state import State


@case.register
def _(event: happened.Closed, state: State) -> State:
    return with_person(changed(state, closed=event), event.second)


@case.register
def _(event: happened.Judged, state: State) -> State:
    # Who judges took no part in the work.
    return changed(state, judged=event)
