"""A shop with one small procedure: for tests of a whole workspace in which the pump does not matter."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from benchcheck.session.prompt import Outcome
from benchcheck.session.rehearsal import careful_answer
from benchcheck.store.library import load_procedure, load_registers
from benchcheck.store.sitting import Sitting, start, take_up
from benchcheck.store.workspace import Workspace
from tests.pumps import CAN, NOW, ROOT

HEAD = (
    'format = 1\nprocedure = { id = "tiny", title = "Tiny pump", revision = "REV", status = "STATUS", '
    'issued = 2026-01-02, author = "A. Template", models = ["XMPL-T"], main = "body" }\n'
)
STOP = '\n[[stop]]\nprocedure = "tiny"\nrevision = "A"\nbecause = "the cover cracks; ask Q. Example"\n'


def text(revision: str = "A", status: str = "released", change: tuple[str, str] = ("", "")) -> str:
    """The can as a procedure file of its own, with one piece of its text changed."""
    return HEAD.replace("REV", revision).replace("STATUS", status) + CAN.replace(*change)


class SmallShop:
    """A workspace with the registers of the demonstration and the can's procedure, revision A."""

    def __init__(self, folder: Path) -> None:
        self.workspace = Workspace(folder)
        self.workspace.procedures.mkdir(parents=True)
        for name in ("shop.toml", "instruments.toml", "people.toml"):
            shutil.copy(ROOT / "procedures" / name, self.workspace.procedures)
        self.write("tiny-a.toml", text())

    def write(self, name: str, content: str) -> None:
        """Put a procedure into the workspace."""
        (self.workspace.procedures / name).write_text(content, "utf-8")

    def notice(self, words: str = STOP) -> None:
        """Put a stop notice into the shop's register."""
        with (self.workspace.procedures / "shop.toml").open("a", encoding="utf-8") as file:
            file.write(words)

    def begun(self, *, practice: bool = False) -> Sitting:
        """A session just opened."""
        return start(
            self.workspace,
            load_registers(self.workspace),
            load_procedure(self.workspace.procedures / "tiny-a.toml"),
            serial="SN-1",
            serial_again="SN-1",
            variant="",
            practice=practice,
            who="",
            now=NOW,
        )

    def taken_up(self, path: Path, now: datetime) -> Sitting:
        """The record opened again."""
        return take_up(self.workspace, load_registers(self.workspace), path, "", now)

    def left_at(self, where: str, *, practice: bool = False) -> Path:
        """The record of a session that came to an act and was left in an orderly way."""
        sitting = self.begun(practice=practice)
        go_on(sitting, lambda sitting: asked(sitting).startswith(where))
        sitting.stop("end of the shift", NOW)
        return sitting.path


def asked(sitting: Sitting) -> str:
    """Act and question of what is asked, as "cover-on/install:cover face"."""
    prompt = sitting.ask(NOW)
    assert prompt is not None
    return f"{prompt.act} {prompt.question}".strip()


def go_on(sitting: Sitting, there: Callable[[Sitting], bool]) -> None:
    """Careful answers until there."""
    while not there(sitting):
        prompt = sitting.ask(NOW)
        assert prompt is not None
        outcome = sitting.answer(prompt.id, careful_answer(sitting.state, prompt, NOW), NOW)
        assert not isinstance(outcome, Outcome), outcome
