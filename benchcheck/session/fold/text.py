"""The text that the work follows, where another one is found; what that means is told in `revisions`."""

from __future__ import annotations

from benchcheck.session import events as happened
from benchcheck.session import revisions
from benchcheck.session.fold.case import case
from benchcheck.session.state import State


@case.register
def _(event: happened.WorkHalted | happened.HaltLifted, state: State) -> State:
    return revisions.halted(state, event)


@case.register
def _(event: happened.ProcedureDiffers | happened.StayedOn, state: State) -> State:
    return revisions.told(state, event)


@case.register
def _(event: happened.MovedOn, state: State) -> State:
    return revisions.moved(state, event)
