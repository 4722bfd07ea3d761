"""How the text that a session follows stands in the workspace now: stopped, replaced, or as it was.

Only files that name the same procedure are read, and not the one that is followed. What comes of it for the
work is for `session.revisions`.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from pathlib import Path
from typing import Any

from benchcheck.procedure.model import Head, Procedure, Status
from benchcheck.session import revisions
from benchcheck.session.events import Event, HaltLifted, MovedOn, ProcedureDiffers, WorkHalted
from benchcheck.session.state import Registers, State
from benchcheck.store.disk import StoreFault, read_file
from benchcheck.store.library import Loaded, Unreadable, load_procedure, parse_procedure
from benchcheck.store.workspace import Workspace, safe_name


@dataclass(frozen=True)
class Standing:
    """What was found."""

    halted: str
    """Why no work may go on by the text that is followed; empty if it may."""
    other: Loaded | None
    """The text that it could go on by."""


def standing(workspace: Workspace, registers: Registers, state: State, now: datetime) -> Standing:
    """How the text of a session stands. Raises StoreFault."""
    head = state.job.procedure.procedure
    today = now.date()
    others = _others(workspace, head.id, state.procedure_sha256)
    if state.header.practice:
        return Standing("", _newest(head, others, practice=True))
    halted = ""
    notice = registers.stop(head.id, head.revision, today)
    withdrawn = [
        each.procedure.procedure
        for each in others
        if each.procedure.procedure.revision == head.revision
        and each.procedure.procedure.status is Status.WITHDRAWN
    ]
    if notice is not None:
        halted = revisions.under_notice(head, notice.because)
    elif withdrawn:
        halted = revisions.withdrawn(head)
    free = [
        each for each in others if registers.stop(head.id, each.procedure.procedure.revision, today) is None
    ]
    return Standing(halted, _newest(head, free, practice=False))


def what_happened(state: State, found: Standing) -> tuple[Event, ...]:
    """What is new in it to the record."""
    events: list[Event] = []
    if found.halted and found.halted != state.halted:
        events.append(WorkHalted(why=found.halted))
    elif state.halted and not found.halted:
        events.append(HaltLifted(why=state.halted))
    other = found.other
    if other is not None and (state.offer is None or state.offer.procedure_sha256 != _sha256(other)):
        events.append(revisions.differs(state.job.procedure, other.procedure, _sha256(other)))
    return tuple(events)


def knowing(workspace: Workspace, state: State, other: Loaded | None) -> State:
    """The state with another text at hand, a copy of it kept beside the records first.

    One that was offered before and is gone from the workspace is offered no more. Raises StoreFault.
    """
    offered = state.offer.procedure_sha256 if state.offer is not None else ""
    later = {sha256: text for sha256, text in state.job.later.items() if sha256 != offered}
    if other is not None:
        later[workspace.pin(other.content)] = other.procedure
    return replace(state, job=replace(state.job, later=later))


def texts_met(sessions: Path, events: Iterable[Mapping[str, Any]]) -> dict[str, Procedure]:
    """The other texts that the events of a record name, by SHA-256, out of the copies beside the records.

    Raises StoreFault, Unreadable for one that the work has moved on to; one that was only met may be missing.
    """
    found: dict[str, Procedure] = {}
    for event in events:
        if event["kind"] not in (ProcedureDiffers.kind, MovedOn.kind):
            continue
        sha256 = str(event["procedure_sha256"])
        try:
            found[sha256] = _kept(sessions, sha256)
        except (StoreFault, Unreadable):
            if event["kind"] == MovedOn.kind:
                raise
    return found


def _kept(sessions: Path, sha256: str) -> Procedure:
    """A text out of its copy. Raises StoreFault, Unreadable."""
    path = sessions / "procedures" / f"{safe_name(sha256)}.toml"
    content = read_file(path)
    if hashlib.sha256(content).hexdigest() != sha256:
        raise StoreFault(f"{path} is not the procedure that was pinned: its SHA-256 is another one.")
    return parse_procedure(content, str(path)).model


def _others(workspace: Workspace, name: str, followed: str) -> list[Loaded]:
    """The other texts of a procedure than the one with this SHA-256; a file that cannot be read is none."""
    found = []
    mentions = re.compile(rb"""\bid\s*=\s*["']%b["']""" % re.escape(name).encode())
    for path in workspace.procedure_paths():
        try:
            content = read_file(path)
            if mentions.search(content) and hashlib.sha256(content).hexdigest() != followed:
                found.append(load_procedure(path))
        except (StoreFault, Unreadable):
            continue
    return [each for each in found if each.procedure.procedure.id == name]


def _newest(head: Head, others: list[Loaded], *, practice: bool) -> Loaded | None:
    """The text to go on by: the same revision that reads otherwise now, or a later one that is released."""

    def serves(other: Head) -> bool:
        if other.practice_only and not (practice and other.revision == head.revision):
            return False
        return other.revision == head.revision or _age(other) > _age(head)

    found = [each for each in others if serves(each.procedure.procedure)]
    return max(found, key=lambda each: _age(each.procedure.procedure), default=None)


def _age(head: Head) -> tuple[date, int, str]:
    """Orders revisions: by the day of release, then as they count: 9 before 10, B before AA."""
    return (head.issued or date.min, len(head.revision), head.revision)


def _sha256(loaded: Loaded) -> str:
    return hashlib.sha256(loaded.content).hexdigest()
