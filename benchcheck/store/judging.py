"""A reviewer's word behind the closing event of a record, and a decision on a deviation of one not over.

Whether it may be said is for `session.commands`; here it comes into the record as any event does: under the
lock, sealed, on the disk before it counts, its seal remembered. An earlier word stays where it is.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from benchcheck.session import commands
from benchcheck.session.prompt import Outcome
from benchcheck.session.record import flat
from benchcheck.session.state import Registers, State
from benchcheck.store import signature
from benchcheck.store.records import SetAside
from benchcheck.store.sitting import CannotOpen, state_of
from benchcheck.store.workspace import Workspace


def judge(
    workspace: Workspace,
    registers: Registers,
    path: Path,
    outcome: str,
    name: str,
    reason: str,
    now: datetime,
    *,
    limit: str = "",
    expires: str = "",
    tell: Callable[[str], object] = lambda sentence: None,
) -> Outcome | None:
    """The outcome that refuses the word, and leaves every byte as it was; None once the word is on disk.

    `tell` is told in a sentence what came of the reviewer's signature.

    Raises CannotOpen, DamagedRecord, Held, NeverBegun, NewerFormat, StoreFault, Unreadable.
    """

    def say(state: State, torn: SetAside | None) -> commands.Result:
        return commands.judge(
            state,
            outcome,
            name,
            reason,
            now,
            limit=limit,
            expires=expires,
            torn_bytes=torn.size if torn is not None else 0,
            torn_file=torn.file if torn is not None else "",
        )

    return _written(workspace, registers, path, name, now, say, tell)


def decide(
    workspace: Workspace,
    registers: Registers,
    path: Path,
    deviation: int,
    disposition: str,
    name: str,
    reason: str,
    now: datetime,
    *,
    limit: str = "",
    expires: str = "",
    tell: Callable[[str], object] = lambda sentence: None,
) -> Outcome | None:
    """The same for a decision on a deviation, in a session that is not over and that nobody has open.

    It is the event that the bench writes, and nothing else happens: the pump is taken up as it was left.

    Raises CannotOpen also where the record's end is torn off, for that is told when the pump is taken up.
    """
    if workspace.read_record(path).torn:
        raise CannotOpen(f"{path.name}: its end is torn off; the pump is taken up at the bench first")

    def say(state: State, torn: SetAside | None) -> commands.Result:
        return commands.dispose(
            state, deviation, disposition, name, reason, now, limit=limit, expires=expires
        )

    return _written(workspace, registers, path, name, now, say, tell)


def _written(
    workspace: Workspace,
    registers: Registers,
    path: Path,
    name: str,
    now: datetime,
    say: Callable[[State, SetAside | None], commands.Result],
    tell: Callable[[str], object],
) -> Outcome | None:
    """Ask whether it may be said, then write and sign it."""
    read, state = workspace.read_record(path), None
    if read.damage is None:
        # Asked first: opening sets a torn tail aside, which only a word that follows can say.
        state = state_of(workspace, registers, read)
        said = say(state, None)
        if isinstance(said, Outcome):
            return said
    with workspace.open_record(path, name, now.isoformat(timespec="seconds")) as file:
        if state is None or file.chain.last_seal != read.chain.last_seal:  # written to since it was read
            state = state_of(workspace, registers, file.record)
        said = say(state, file.set_aside)
        if isinstance(said, Outcome):
            return said
        file.append(*(flat(event.as_table()) for event in said))
        number, seal = file.event_count, file.chain.last_seal
    for sentence in signature.sign(path, number, seal, registers.people, (name,)):
        tell(sentence)
    return None
