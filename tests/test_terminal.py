"""What a terminal can show: told by what the program was started with; never a fault or a question mark."""

from __future__ import annotations

import io
import os
import pty
import subprocess
import sys

import pytest

from benchcheck.terminal import spell_out_what_cannot_be_shown, why_ascii

UTF8 = {"LANG": "en_US.UTF-8", "TERM": "xterm-256color"}


@pytest.mark.parametrize(
    ("changes", "why"),
    [
        ({}, ""),
        ({"LANG": "C.utf8"}, ""),
        ({"LANG": "C", "LC_CTYPE": "C.UTF-8"}, ""),
        ({"TERM": "xterm"}, ""),
        ({"TERM": "screen"}, ""),
        ({"TERM": "tmux-256color"}, ""),
        ({"LANG": "C"}, "LANG=C names no UTF-8"),
        ({"LC_ALL": "C"}, "LC_ALL=C names no UTF-8"),
        ({"LC_ALL": "", "LC_CTYPE": "POSIX"}, "LC_CTYPE=POSIX names no UTF-8"),
        ({"LANG": "de_DE.ISO-8859-1"}, "LANG=de_DE.ISO-8859-1 names no UTF-8"),
        ({"LANG": ""}, "LANG is not set"),
        ({"TERM": "linux"}, "TERM=linux has few letters"),
        ({"TERM": "vt100"}, "TERM=vt100 has few letters"),
    ],
)
def test_ascii_where_the_locale_or_the_kind_of_terminal_asks_for_it(
    changes: dict[str, str], why: str
) -> None:
    assert why_ascii({**UTF8, **changes}) == why


def test_ascii_where_what_is_written_is_no_utf8() -> None:
    assert why_ascii(UTF8, "iso8859-1") == "what is written to it is iso8859-1"
    assert why_ascii(UTF8, "UTF-8") == ""


def test_what_the_program_was_started_with_is_not_what_python_made_of_it() -> None:
    program = (
        "from benchcheck.terminal import started_with; import os; print(started_with() == {'LANG': 'C'})"
    )
    ended = subprocess.run(
        [sys.executable, "-c", program], env={"LANG": "C"}, capture_output=True, text=True, check=True
    )
    assert ended.stdout == "True\n"


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("18 N·m ± 5 %", "18 N.m +/- 5 %"),
        ("at 22 °C", "at 22 deg C"),
        ("45° on", "45 deg on"),
        ("45°", "45 deg"),
        ("Prüfung … “x”", 'Prufung ... "x"'),
        ("密", "?"),
        ("\udc80", "?"),
    ],
)
def test_what_an_encoding_has_not_is_spelled_out(text: str, written: str) -> None:
    raw = io.BytesIO()
    stream = io.TextIOWrapper(raw, encoding="ascii")
    spell_out_what_cannot_be_shown([None, stream])
    stream.write(text)
    stream.flush()
    assert raw.getvalue().decode("ascii") == written


@pytest.mark.parametrize("locale", [{"LANG": "C"}, {"LC_ALL": "C"}, {"LANG": "C.UTF-8", "TERM": "linux"}])
def test_a_command_writes_ascii_to_such_a_terminal(locale: dict[str, str]) -> None:
    ours, theirs = pty.openpty()
    command = [sys.executable, "-m", "benchcheck", "oring", "151"]
    subprocess.run(command, env=locale, stdout=theirs, check=True)
    os.close(theirs)
    written = b""
    while chunk := _read(ours):
        written += chunk
    os.close(ours)
    assert b"2.987 +/-0.024 in" in written and written.isascii() and b"?" not in written


def test_a_file_is_written_as_ever_whatever_the_terminal_shows() -> None:
    command = [sys.executable, "-m", "benchcheck", "oring", "151"]
    ended = subprocess.run(command, env={"LANG": "C"}, capture_output=True, check=True)
    assert "2.987 ±0.024 in" in ended.stdout.decode("utf-8")


def _read(terminal: int) -> bytes:
    try:
        return os.read(terminal, 4096)
    except OSError:  # how a pseudo-terminal says that its other end is closed
        return b""
