"""A technician at the real program: reads what it prints up to the next question, and types.

The careful answers are worked out beside the program, from nothing but the record's bytes as they grow: so
each run also shows that the bytes are the state.
"""

from __future__ import annotations

import os
import re
import select
import signal
import subprocess
import sys
import time
import tomllib
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pexpect

from benchcheck.session import engine
from benchcheck.session.events import from_table
from benchcheck.session.fold import beginning, fold
from benchcheck.session.prompt import Prompt
from benchcheck.session.record import read
from benchcheck.session.rehearsal import BEGINS, careful_answer
from benchcheck.session.state import Job, State
from benchcheck.store.library import load_registers, parse_procedure
from benchcheck.store.workspace import Workspace

REPOSITORY = Path(__file__).parents[2]
PATIENCE = 120.0
"""How long a question may take [s] before the program is given up for hung."""
_QUESTION = re.compile(r"(?:^|\n)[^\n]*[>?:] \Z")
_SIZES = ("COLUMNS", "LINES")
"""Who runs the tests may have set these; a terminal of its own has a size of its own."""
_ENVIRONMENT = {
    **{name: value for name, value in os.environ.items() if name not in _SIZES},
    "PYTHONDONTWRITEBYTECODE": "1",
    "TERM": "dumb",
}


def real_program(folder: Path) -> list[str]:
    return [sys.executable, "-m", "benchcheck", "--lines", "--workspace", str(folder)]


def with_clock(folder: Path, begins: datetime = BEGINS) -> list[str]:
    """The same program with a clock that jumps over the times that have to pass."""
    return [sys.executable, "-m", "tests.end_to_end.program_with_clock", str(folder), begins.isoformat()]


class Ended(Exception):
    """The program ended instead of asking."""


class Piped:
    """The program with pipes at both ends."""

    def __init__(self, command: list[str]) -> None:
        self.process = subprocess.Popen(
            command,
            cwd=REPOSITORY,
            env=_ENVIRONMENT,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
        )
        self.printed = ""
        """All that was printed so far."""

    @property
    def pid(self) -> int:
        return self.process.pid

    def question(self) -> str:
        """What it prints up to its next question. Raises Ended."""
        assert self.process.stdout is not None
        descriptor, data = self.process.stdout.fileno(), b""
        while True:
            if not select.select([descriptor], [], [], PATIENCE)[0]:
                raise AssertionError(f"it hangs after: {data.decode()[-500:]}")
            piece = os.read(descriptor, 65536)
            data += piece
            text = data.decode("utf-8", "replace")
            if not piece:
                self.printed += text
                raise Ended(text + self.end()[1])
            if _QUESTION.search(text):
                self.printed += text
                return text

    def say(self, line: str) -> None:
        assert self.process.stdin is not None
        self.process.stdin.write(line.encode() + b"\n")
        self.process.stdin.flush()

    def send(self, number: signal.Signals) -> None:
        self.process.send_signal(number)

    def end(self) -> tuple[int, str]:
        """Close its input and wait; the exit status as a shell counts it, and what is on standard error."""
        out, errors = self.process.communicate(timeout=PATIENCE)
        self.printed += out.decode("utf-8", "replace")
        status = self.process.returncode
        return (status if status >= 0 else 128 - status), errors.decode()


class Terminal:
    """The program on a pseudo-terminal of its own."""

    def __init__(self, command: list[str], columns: int = 80) -> None:
        self.child = pexpect.spawn(
            command[0],
            command[1:],
            cwd=str(REPOSITORY),
            env=_ENVIRONMENT,
            encoding="utf-8",
            dimensions=(24, columns),
            timeout=PATIENCE,
            echo=True,
        )
        self.child.delaybeforesend = None
        self.printed = ""

    @property
    def pid(self) -> int:
        return int(self.child.pid or 0)

    def question(self) -> str:
        if self.child.expect([r"(?:^|\r\n)[^\r\n]*[>?:] $", pexpect.EOF]) == 1:
            self.printed += str(self.child.before)
            raise Ended(str(self.child.before))
        text = f"{self.child.before}{self.child.after}".replace("\r\n", "\n")
        self.printed += text
        return text

    def say(self, line: str) -> None:
        self.child.send(line + "\n")

    def send(self, number: signal.Signals) -> None:
        self.child.kill(number)

    def end(self) -> tuple[int, str]:
        self.child.expect(pexpect.EOF)
        self.printed += str(self.child.before).replace("\r\n", "\n")
        self.child.close()
        if self.child.exitstatus is not None:
            return int(self.child.exitstatus), ""
        return 128 + int(self.child.signalstatus or 0), ""


class Onlooker:
    """Reads a record as it grows, and knows what a careful technician answers next."""

    def __init__(self, folder: Path, path: Path | None = None) -> None:
        self.path = path or next((folder / "sessions").glob("*.toml"))
        workspace = Workspace(folder)
        record = read(self.path.read_bytes())
        assert record.header is not None
        content = workspace.pinned(record.header.procedure_sha256)
        job = Job(parse_procedure(content, "pinned").model, load_registers(workspace))
        self.state: State = beginning(job, record.header)
        self._poses: dict[str, str] = {}
        self._wrenches: dict[str, str] = {}
        self.confirmed = b""
        """The record's bytes, as far as they are folded."""
        self.events: list[dict[str, Any]] = []

    def catch_up(self) -> State:
        """Fold what was appended since."""
        data = self.path.read_bytes()
        added = data[len(self.confirmed) :].decode()
        if added:
            tables = tomllib.loads(added).get("event", [])
            for table in tables:
                del table["chain"]
            self.events += tables
            for event in map(from_table, tables):
                self.state = fold(self.state, event)
                self._poses.update(self.state.assembly.poses)
                self._wrenches.update({group: name for (group, _), (name, _) in self.state.wrenches.items()})
            self.confirmed = data
        return self.state

    @property
    def now(self) -> datetime:
        assert self.state.at is not None
        return self.state.at + timedelta(seconds=1)

    def prompt(self) -> Prompt | None:
        self.catch_up()
        return engine.ask(self.state, self.now)

    def careful(self) -> str:
        prompt = self.prompt()
        assert prompt is not None
        kind, _, work = prompt.question.partition(" ")
        if kind == "pose" and work in self._poses:  # read anew after a pause: nobody has turned it
            return self._poses[work]
        before = self._wrenches.get(prompt.target) if kind == "wrench" else None
        if any(each.value == before and each.serves for each in prompt.choices):
            return str(before)  # the same wrench is taken up again
        return careful_answer(self.state, prompt, self.now)


def begin(bench: Piped | Terminal, serial: str = "SN-1", variant: str = "-05", *, empty: bool = True) -> None:
    """From the first list to the first question of the work on a new pump."""
    first = ["yes"] if empty else []
    for line in (*first, "begin with", "xmpl-hc40", "no", serial, serial.lower(), variant):
        bench.question()
        bench.say(line)
    bench.question()


def take_up(bench: Piped | Terminal) -> str:
    """Take the first open record up again; what is printed up to its first question."""
    bench.question()
    bench.say("1")
    return bench.question()


def work_on(bench: Piped | Terminal, onlooker: Onlooker, most: int = 2000) -> int:
    """Answer with care until the work is over, or `most` questions are answered; returns how many were.

    A question has to stand there already. When the work is over, the first list does.
    """
    for answered in range(most):
        if onlooker.prompt() is None:
            return answered
        bench.say(onlooker.careful())
        bench.question()
    return most


def wait_until(true: Any, patience: float = PATIENCE) -> None:
    """Wait until something is so."""
    end = time.monotonic() + patience
    while not true():
        if time.monotonic() > end:
            raise AssertionError("it never came true")
        time.sleep(0.01)
