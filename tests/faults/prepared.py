"""Workspaces and records for the tests of faults, brought to a wanted moment without the program between."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from benchcheck.session.prompt import Outcome, Prompt
from benchcheck.session.rehearsal import BEGINS, ONE_ANSWER, careful_answer
from benchcheck.session.state import State
from benchcheck.store.library import load_procedure, load_registers
from benchcheck.store.sitting import Sitting, start
from benchcheck.store.workspace import Workspace

Moment = Callable[[State, Prompt], bool]


def shop(folder: Path) -> Workspace:
    """A workspace with the registers of the demonstration, and of its pumps only the main one."""
    workspace = Workspace(folder)
    workspace.write_demonstration()
    for path in workspace.procedure_paths():
        if not path.name.startswith("xmpl-hc40"):
            path.unlink()
    return workspace


def sitting_at(folder: Path, moment: Moment, *, variant: str = "-05", serial: str = "SN-1") -> Sitting:
    """A session, held open, that has come to the first question of which `moment` is true."""
    workspace = shop(folder)
    now = BEGINS
    sitting = start(
        workspace,
        load_registers(workspace),
        load_procedure(workspace.procedures / "xmpl-hc40-c.toml"),
        serial=serial,
        serial_again=serial,
        variant=variant,
        practice=False,
        who="",
        now=now,
    )
    while True:
        prompt = sitting.ask(now)
        assert prompt is not None, "that moment never comes"
        if moment(sitting.state, prompt):
            return sitting
        now = max(now + ONE_ANSWER, prompt.until or now)
        outcome = sitting.answer(prompt.id, careful_answer(sitting.state, prompt, now), now)
        if isinstance(outcome, Outcome):
            sitting.take_mend(outcome, now)


def record_at(folder: Path, moment: Moment, *, variant: str = "-05", serial: str = "SN-1") -> Path:
    """The record of such a session, given free without a word, as after a power cut."""
    sitting = sitting_at(folder, moment, variant=variant, serial=serial)
    sitting.record.close()
    return sitting.path


def at_act(name: str, question: str = "") -> Moment:
    """The first question of an act, or the one of that name in it."""
    return lambda state, prompt: prompt.act == name and question in ("", prompt.question)
