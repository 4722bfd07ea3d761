"""The first minute of a stranger: from an empty folder by keys alone, and on terminals that show little."""

from __future__ import annotations

import os
import sys
import time
from pathlib import Path

import pexpect
import pytest

from tests.screens.hands import at_the_bench


async def test_from_an_empty_folder_through_practice_to_the_records(tmp_path: Path) -> None:
    async with at_the_bench(tmp_path, plain=True) as hands:
        await hands.choose("write the demonstration pumps")
        assert "New here? Start on a pump, for practice" in " ".join(hands.window.split())
        await hands.choose("start on a pump")
        await hands.choose("XMPL-VV07")
        await hands.choose("practice")
        assert "any number will do" in hands.window
        for reading in ("P-1", "P-1"):
            await hands.enter(reading)
        if "Which variant" in hands.window:
            await hands.enter("1")
        number = hands.record.state.number
        for _ in range(6):
            prompt = hands.prompt()
            assert prompt is not None
            await hands.answer(prompt, hands.careful())
            assert hands.window.isascii()
        assert hands.record.state.number > number and hands.record.state.header.practice
        await hands.press("f8")
        await hands.enter("1")
        await hands.wait_while("Looking at what lies")
        assert "P-1" in hands.window and "goes there" not in hands.window.splitlines()[-2]
        await hands.choose("records")
        await hands.wait_while("Looking for new", "Taking in", "LOOKING FOR", "TAKING IN")
        assert "P-1" in hands.window and "practice" in hands.window
        await hands.press("enter")
        assert "Record of" in hands.window
        await hands.press("f8")
        await hands.choose("procedures")
        await hands.wait_while("Reading the procedures")
        assert "XMPL-VV07" in hands.window
        await hands.press("f8", "f8")
        assert not hands.app.is_running


@pytest.mark.parametrize(
    ("environment", "why"),
    [
        ({"LANG": "C", "TERM": "xterm"}, "LANG=C names no UTF-8"),
        ({"LANG": "en_US.UTF-8", "TERM": "linux"}, "TERM=linux has few letters"),
        ({"TERM": "xterm-256color", "SSH_CONNECTION": "192.0.2.1 1 192.0.2.2 22"}, "LANG is not set"),
    ],
)
def test_a_terminal_that_shows_little_gets_ascii_and_help_says_why(
    tmp_path: Path, environment: dict[str, str], why: str
) -> None:
    child = pexpect.spawn(
        sys.executable,
        ["-m", "benchcheck", "--workspace", str(tmp_path)],
        env={"PATH": os.environ["PATH"], "XDG_STATE_HOME": str(tmp_path), **environment},
        dimensions=(24, 80),
        encoding="utf-8",
        timeout=30,
    )
    written = _until(child, "write the demonstration")
    time.sleep(0.5)  # until its keys are listened to
    child.send("\x1bOQ")
    written += _until(child, f"Drawn in ASCII: {why}")
    child.send("\x1b[19~")
    time.sleep(0.5)
    child.send("\x1b[19~")
    written += _until(child, pexpect.EOF)
    child.close()
    assert child.exitstatus == 0
    assert written.isascii()


def _until(child: pexpect.spawn[str], what: str | type[pexpect.EOF]) -> str:
    """What is written up to there, and that."""
    child.expect(what)
    return f"{child.before or ''}{child.after if isinstance(child.after, str) else ''}"
