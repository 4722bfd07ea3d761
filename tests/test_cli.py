"""The command line as a shell sees it: what it says, where it says it, and with which status it ends."""

from __future__ import annotations

import argparse
import importlib
import os
import pty
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from benchcheck import __version__, commands
from benchcheck.cli import main
from benchcheck.exit_status import ExitStatus
from benchcheck.store.fault_log import log_path
from benchcheck.store.workspace import Workspace

PROGRAM = [sys.executable, "-m", "benchcheck"]


def called(*words: str, **environment: str) -> subprocess.CompletedProcess[str]:
    """The program in a process of its own, without a terminal."""
    return subprocess.run(
        [*PROGRAM, *words],
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        env={**os.environ, **environment},
        check=False,
    )


@pytest.fixture
def state_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    return tmp_path / "state"


@pytest.fixture
def failing(monkeypatch: pytest.MonkeyPatch) -> Callable[[BaseException], None]:
    """Make `benchcheck verify` fail."""

    def make_fail(error: BaseException) -> None:
        def run(args: object) -> int:
            raise error

        monkeypatch.setattr("benchcheck.commands.verify.run", run)

    return make_fail


def test_version(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--version"]) == ExitStatus.GOOD
    assert capsys.readouterr() == (f"benchcheck {__version__}\n", "")


def test_help_shows_every_command(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--help"]) == ExitStatus.GOOD
    said = capsys.readouterr()
    lines = [line.split(maxsplit=1) for line in said.out.partition("\ncommands:\n")[2].splitlines()]
    assert lines == [[name, commands.help_of(name)] for name in commands.names()]
    assert said.err == ""


@pytest.mark.parametrize("name", commands.names())
def test_a_commands_module_says_what_the_help_says(name: str) -> None:
    module = importlib.import_module(f"benchcheck.commands.{name}")
    assert (name, commands.help_of(name)) == (module.NAME, module.HELP)


@pytest.mark.parametrize("name", commands.names())
def test_every_command_explains_itself(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main([name, "--help"]) == ExitStatus.GOOD
    assert capsys.readouterr().out.startswith(f"usage: benchcheck {name} ")
    assert main([name, "--no-such-option"]) == ExitStatus.UNUSABLE
    assert f"benchcheck {name}: error: " in capsys.readouterr().err


def test_a_command_that_is_not_there_is_refused_with_the_one_like_it(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["chekc", "--json"]) == ExitStatus.UNUSABLE
    assert capsys.readouterr() == ("", "benchcheck: there is no command 'chekc'; did you mean check?\n")
    assert main(["frobnicate"]) == ExitStatus.UNUSABLE
    said = capsys.readouterr().err
    assert all(name in said for name in commands.names()) and said.count("\n") == 1


@pytest.mark.parametrize("words", [["--workspace"], ["--liness"], ["--work", "."]])
def test_wrong_options_are_refused(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(words) == ExitStatus.UNUSABLE
    said = capsys.readouterr()
    assert said.out == "" and "benchcheck: error: " in said.err


def test_a_workspace_that_is_not_there_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    for options in ([], ["--lines"]):
        assert main(["--workspace", "no such folder", *options]) == ExitStatus.UNUSABLE
        said = capsys.readouterr()
        assert said.out == ""
        assert said.err.startswith(f"benchcheck: there is no folder {Path.cwd() / 'no such folder'};")
        assert said.err.count("\n") == 1


def test_the_workspace_of_the_program_reaches_the_command(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    seen: list[Path | None] = []

    def run(args: argparse.Namespace) -> int:
        seen.append(args.workspace)
        return 0

    monkeypatch.setattr("benchcheck.commands.verify.run", run)
    assert main(["--workspace", str(tmp_path), "verify", "--json", "a.toml"]) == ExitStatus.GOOD
    assert main(["verify", "a.toml"]) == ExitStatus.GOOD
    assert seen == [tmp_path, None]


# --- the application ------------------------------------------------------------------------------------


def test_without_a_terminal_it_says_so_in_one_sentence() -> None:
    ended = called()
    assert ended.returncode == ExitStatus.UNUSABLE
    assert ended.stdout == ""
    assert ended.stderr.startswith("benchcheck: standard input is no terminal")
    assert "--lines" in ended.stderr and ended.stderr.count("\n") == 1


@pytest.mark.parametrize("terminal", ["dumb", None])
def test_a_terminal_that_cannot_draw_is_refused(terminal: str | None) -> None:
    ours, theirs = pty.openpty()
    environment = {key: value for key, value in os.environ.items() if key != "TERM"}
    if terminal is not None:
        environment["TERM"] = terminal
    ended = subprocess.run(PROGRAM, stdin=theirs, stdout=theirs, stderr=theirs, env=environment, check=False)
    said = os.read(ours, 10_000).decode()
    os.close(ours)
    os.close(theirs)
    assert ended.returncode == ExitStatus.UNUSABLE
    assert said.startswith("benchcheck: this terminal cannot move its cursor") and "--lines" in said
    assert said.count("\n") == 1


def test_on_a_terminal_the_application_is_opened(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    opened: list[tuple[Path, bool, bool]] = []

    def run(workspace: Workspace, *, plain: bool, light: bool) -> int:
        opened.append((workspace.folder, plain, light))
        return 143

    ours, theirs = pty.openpty()
    monkeypatch.setattr("benchcheck.screens.app.run", run)
    monkeypatch.setenv("TERM", "xterm")
    with open(theirs, "r+b", buffering=0) as terminal:
        monkeypatch.setattr(sys, "__stdin__", terminal)
        monkeypatch.setattr(sys, "__stderr__", terminal)
        monkeypatch.chdir(tmp_path)
        assert main([]) == 143
        assert main(["--plain", "--workspace", str(tmp_path), "--light"]) == 143
    os.close(ours)
    assert opened == [(tmp_path, False, False), (tmp_path, True, True)]


def test_line_by_line_needs_no_terminal(tmp_path: Path) -> None:
    ended = called("--lines", "--workspace", str(tmp_path))
    assert ended.returncode == ExitStatus.GOOD
    assert ended.stderr == "" and "The input ended." in ended.stdout


def test_line_by_line_needs_an_input(tmp_path: Path) -> None:
    ended = subprocess.run(
        ["sh", "-c", 'exec "$@" <&-', "sh", *PROGRAM, "--lines", "--workspace", str(tmp_path)],
        capture_output=True,
        text=True,
        check=False,
    )
    assert ended.returncode == ExitStatus.UNUSABLE
    assert ended.stderr == "benchcheck: standard input is closed, so nothing can be answered.\n"


# --- how it ends ----------------------------------------------------------------------------------------


def test_a_reader_who_has_seen_enough_is_no_fault() -> None:
    with subprocess.Popen(
        [*PROGRAM, "oring", "151"], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    ) as running:
        assert running.stdout is not None and running.stderr is not None
        running.stdout.close()
        assert running.stderr.read() == ""
    assert running.returncode == 128 + 13


def test_a_letter_that_the_terminal_lacks_is_no_fault() -> None:
    ended = called("oring", "151", PYTHONIOENCODING="ascii")
    assert ended.returncode == ExitStatus.GOOD
    assert "2.987 +/-0.024 in" in ended.stdout
    assert "?" not in ended.stdout


def test_interrupted(failing: Callable[[BaseException], None]) -> None:
    failing(KeyboardInterrupt())
    assert main(["verify", "a.toml"]) == 128 + 2


def test_a_fault_of_the_program_is_one_sentence_and_a_log(
    failing: Callable[[BaseException], None], state_home: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    failing(ZeroDivisionError("a secret"))
    assert main(["verify", "a.toml"]) == ExitStatus.UNEXPECTED
    said = capsys.readouterr()
    assert said.out == "" and said.err.count("\n") == 1
    assert "a fault of the program ended it (ZeroDivisionError)" in said.err
    assert str(log_path()) in said.err and "secret" not in said.err and "Traceback" not in said.err
    assert log_path().is_relative_to(state_home)
    log = log_path().read_text()
    assert "Traceback (most recent call last):" in log and "ZeroDivisionError: a secret" in log


def test_a_fault_that_cannot_be_written_down_is_said_all_the_same(
    failing: Callable[[BaseException], None], state_home: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    state_home.write_text("not a folder")
    failing(ZeroDivisionError())
    assert main(["verify", "a.toml"]) == ExitStatus.UNEXPECTED
    assert "it could not be written down (" in capsys.readouterr().err


def test_a_module_that_is_missing_is_a_fault_like_any_other(state_home: Path) -> None:
    program = (
        "import sys; sys.modules['benchcheck.commands.check'] = None\n"
        "from benchcheck.cli import main; sys.exit(main(['check', '.']))"
    )
    ended = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=False)
    assert ended.returncode == ExitStatus.UNEXPECTED
    assert ended.stderr.count("\n") == 1 and "(ModuleNotFoundError)" in ended.stderr


@pytest.mark.skipif(not Path("/dev/full").is_char_device(), reason="this system has no /dev/full")
def test_an_output_that_is_full_is_said_once(state_home: Path) -> None:
    with open("/dev/full", "w") as full:
        ended = subprocess.run(
            [*PROGRAM, "oring", "151"], stdout=full, stderr=subprocess.PIPE, text=True, check=False
        )
    assert ended.returncode == ExitStatus.UNEXPECTED
    assert "(No space left on device)" in ended.stderr and ended.stderr.count("\n") == 1
