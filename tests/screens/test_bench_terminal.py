"""The bench in a real terminal: ended by signals and by a terminal that goes away, the record is unharmed."""

from __future__ import annotations

import os
import re
import signal
import sys
import time
from pathlib import Path

import pexpect
import pytest

from benchcheck.store.library import load_registers
from benchcheck.store.sitting import state_of, take_up
from benchcheck.store.workspace import Workspace
from tests.screens.prepared import moment_of, sitting_at

ENTER = "\r"
F8 = "\x1b[19~"


@pytest.fixture
def left_in_a_round(tmp_path: Path) -> Path:
    """A workspace with one record, cut off inside a round."""
    moment = moment_of(lambda prompt: prompt.question == "round 2 position 2")
    sitting = sitting_at(tmp_path, moment)
    sitting.record.close()
    return tmp_path


def on_the_bench(folder: Path) -> pexpect.spawn[str]:
    """The real program, with the pump taken up and its first question on the screen."""
    environment = {name: value for name, value in os.environ.items() if name != "NO_COLOR"}
    child = pexpect.spawn(
        sys.executable,
        ["-m", "benchcheck", "--workspace", str(folder)],
        env={**environment, "TERM": "xterm-256color", "XDG_STATE_HOME": str(folder)},
        dimensions=(24, 80),
        encoding="utf-8",
        timeout=30,
    )
    child.expect("something else")
    press_until(child, ("1", ENTER), "register of people")
    return child


def press_until(child: pexpect.spawn[str], keys: tuple[str, ...], words: str) -> None:
    """Press these keys, as often as it takes until they were not too early, and see these words."""
    for _ in range(20):
        for key in keys:
            child.send(key)
            time.sleep(0.3)
        if child.expect([re.escape(words), pexpect.TIMEOUT], timeout=2) == 0:
            return
    raise AssertionError(f"never seen: {words}")


def status_of(child: pexpect.spawn[str]) -> int | None:
    child.expect(pexpect.EOF)
    child.close()
    return child.exitstatus


def last_event(folder: Path) -> dict[str, object]:
    workspace = Workspace(folder)
    (path,) = workspace.record_paths()
    return dict(workspace.read_record(path).events[-1])


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGHUP, signal.SIGINT])
def test_a_signal_ends_it_the_record_says_so_and_is_free(
    left_in_a_round: Path, number: signal.Signals
) -> None:
    child = on_the_bench(left_in_a_round)
    child.kill(number)
    assert status_of(child) == 128 + number
    assert last_event(left_in_a_round)["kind"] == "stopped"
    workspace = Workspace(left_in_a_round)
    (path,) = workspace.record_paths()
    moment = moment_of(lambda prompt: prompt.question == "round 2 position 2")
    take_up(workspace, load_registers(workspace), path, "", moment.now).record.close()


def test_killed_outright_the_next_start_says_how_it_was_left(left_in_a_round: Path) -> None:
    child = on_the_bench(left_in_a_round)
    time.sleep(1.5)  # what is typed before the question could be read is dropped
    child.send("T. Sample")
    press_until(child, (ENTER,), "read it on the pump")
    child.kill(signal.SIGKILL)
    child.expect(pexpect.EOF)
    child.close()
    assert last_event(left_in_a_round)["kind"] == "signed on"
    again = on_the_bench(left_in_a_round)
    again.expect("not left in order")
    press_until(again, (F8,), "Why is it left")
    press_until(again, (ENTER,), "all that was confirmed is saved")
    again.kill(signal.SIGTERM)
    status_of(again)
    workspace = Workspace(left_in_a_round)
    (path,) = workspace.record_paths()
    state = state_of(workspace, load_registers(workspace), workspace.read_record(path))
    assert state.stopped


def test_a_second_program_is_told_who_has_the_record(left_in_a_round: Path) -> None:
    first = on_the_bench(left_in_a_round)
    environment = {**os.environ, "TERM": "xterm-256color", "XDG_STATE_HOME": str(left_in_a_round)}
    second = pexpect.spawn(
        sys.executable,
        ["-m", "benchcheck", "--workspace", str(left_in_a_round)],
        env=environment,
        dimensions=(24, 80),
        encoding="utf-8",
        timeout=30,
    )
    second.expect("something else")
    press_until(second, ("1", ENTER), "not added to from here")
    second.kill(signal.SIGTERM)
    status_of(second)
    first.kill(signal.SIGTERM)
    status_of(first)
