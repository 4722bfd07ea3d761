"""Work on the main pump brought to a wanted moment: one careful run, cut off where a test begins."""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from functools import cache
from pathlib import Path

from benchcheck.session.prompt import Outcome, Prompt
from benchcheck.session.rehearsal import BEGINS, ONE_ANSWER, careful_answer
from benchcheck.session.state import State
from benchcheck.store.library import load_procedure, load_registers
from benchcheck.store.sitting import Sitting, start
from benchcheck.store.workspace import Workspace

MAIN_PUMP = "xmpl-hc40-c.toml"


def save(path: Path, text: str) -> None:
    """Put a text in the place of a file's, as an editor does: nobody ever sees half of it."""
    beside = path.with_name(f"{path.name}~")
    beside.write_text(text, "utf-8")
    beside.replace(path)


@dataclass(frozen=True)
class Moment:
    """One question of the careful run: the state, when it is asked, and how long the record is by then."""

    state: State
    prompt: Prompt | None
    now: datetime
    size: int


@dataclass(frozen=True)
class Run:
    """The careful run: its questions, and the bytes of its record."""

    moments: tuple[Moment, ...]
    name: str
    record: bytes


@cache
def careful_run(variant: str = "-05", procedure: str = MAIN_PUMP, content: bytes | None = None) -> Run:
    """A careful technician from intake to release; `content` stands in the place of the procedure's own."""
    with tempfile.TemporaryDirectory() as folder:
        sitting = opened(Path(folder), variant, procedure, content=content)
        now, moments = BEGINS, []
        while True:
            prompt = sitting.ask(now)
            moments.append(Moment(sitting.state, prompt, now, sitting.path.stat().st_size))
            if prompt is None:
                break
            now = max(now + ONE_ANSWER, prompt.until or now)
            answer = careful_answer(sitting.state, prompt, now)
            outcome = sitting.answer(prompt.id, answer, now)
            if isinstance(outcome, Outcome):
                sitting.take_mend(outcome, now)
        sitting.record.close()
        return Run(tuple(moments), sitting.path.name, sitting.path.read_bytes())


def opened(
    folder: Path,
    variant: str = "-05",
    procedure: str = MAIN_PUMP,
    serial: str = "SN-1",
    content: bytes | None = None,
) -> Sitting:
    """A session just opened, in a workspace with the demonstration."""
    workspace = Workspace(folder)
    workspace.write_demonstration()
    if content is not None:
        (workspace.procedures / procedure).write_bytes(content)
    return start(
        workspace,
        load_registers(workspace),
        load_procedure(workspace.procedures / procedure),
        serial=serial,
        serial_again=serial,
        variant=variant,
        practice=False,
        who="",
        now=BEGINS,
    )


def moment_of(is_it: Callable[[Prompt], bool], variant: str = "-05", procedure: str = MAIN_PUMP) -> Moment:
    """The first question of the careful run of which `is_it` is true."""
    return next(
        moment
        for moment in careful_run(variant, procedure).moments
        if moment.prompt is not None and is_it(moment.prompt)
    )


def sitting_at(folder: Path, moment: Moment, variant: str = "-05", procedure: str = MAIN_PUMP) -> Sitting:
    """A session of this moment, held open, with its record in the folder."""
    run = careful_run(variant, procedure)
    workspace = Workspace(folder)
    workspace.write_demonstration()
    workspace.pin((workspace.procedures / procedure).read_bytes())
    path = workspace.sessions / run.name
    path.write_bytes(run.record[: moment.size])
    record = workspace.open_record(path, "", moment.now.isoformat(timespec="seconds"))
    return Sitting(workspace, record, moment.state)
