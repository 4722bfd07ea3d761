"""A reviewer's word, written behind the closing event of a record.

Whether it may be said is for `session.commands`; here it comes into the record as any event does: under the
lock, sealed, on the disk before it counts, its seal remembered. An earlier word stays where it is.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any

from benchcheck.session import commands
from benchcheck.session.prompt import Outcome
from benchcheck.session.record import flat
from benchcheck.session.state import Registers
from benchcheck.store import signature
from benchcheck.store.sitting import state_of
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
    moment = now.isoformat(timespec="seconds")
    named: dict[str, Any] = {"limit": limit, "expires": expires}
    read = workspace.read_record(path)
    if read.damage is None:
        # Asked first: opening sets a torn tail aside, which only a word that follows can say.
        said = commands.judge(state_of(workspace, registers, read), outcome, name, reason, now, **named)
        if isinstance(said, Outcome):
            return said
    with workspace.open_record(path, name, moment) as file:
        if file.set_aside is not None:
            named |= {"torn_bytes": file.set_aside.size, "torn_file": file.set_aside.file}
        state = state_of(workspace, registers, file.record)
        said = commands.judge(state, outcome, name, reason, now, **named)
        if isinstance(said, Outcome):
            return said
        file.append(*(flat(event.as_table()) for event in said))
        number, seal = file.event_count, file.chain.last_seal
    for sentence in signature.sign(path, number, seal, registers.people, (name,)):
        tell(sentence)
    return None
