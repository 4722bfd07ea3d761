"""Files and answers that are not what they should be: one sentence each, a status, never a traceback.

Through the commands as they are called, and through the line by line program.
"""

from __future__ import annotations

import subprocess
import sys
import tomllib
from pathlib import Path
from typing import Any

import pytest
import tomli_w

from benchcheck.cli import main
from tests.faults.in_process import rebuilt, talked
from tests.faults.prepared import shop

REPOSITORY = Path(__file__).parents[2]
MARKUP = "[/] [OIL] [red] [@click=app.quit]x[/] {0} %s"

BAD_FILES = {
    "not TOML": b"= = =\n",
    "not UTF-8": b'title = "\xff\xfe"\n',
    "UTF-16": "format = 1\n".encode("utf-16"),
    "empty": b"",
    "nothing but zeros": bytes(5000),
    "50 MB in one line": b"# " + b"x" * 50_000_000,
    "50 MB of lines": b"a = 1\n" * 8_400_000,
    "deep arrays": b"a = " + b"[" * 100_000,
    "deep tables": b"a = " + b"{a=" * 20_000,
    "deep names": b"[" + b"a." * 50_000 + b"a]\n",
    "a number without end": b"format = " + b"9" * 100_000,
    "escape characters": b'title = "\x1b[2J\x07"\n',
    "another kind of file": b'milk = "two bottles"\n',
}


@pytest.fixture(params=list(BAD_FILES.values()), ids=list(BAD_FILES))
def bad_file(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    path = tmp_path / "bad.toml"
    path.write_bytes(request.param)
    return path


def called(capsys: pytest.CaptureFixture[str], *words: object) -> tuple[int, str]:
    """A command's exit status and all that it printed, which is never long and never steers the terminal."""
    status = main([str(word) for word in words])
    printed = "".join(capsys.readouterr())
    assert "Traceback" not in printed
    assert "fault of the program" not in printed
    assert len(printed) < 2000
    assert all(each.isprintable() or each == "\n" for each in printed)
    return status, printed


def test_check_finds_what_is_wrong_with_it(bad_file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, printed = called(capsys, "check", bad_file)
    assert status == 1
    assert printed.startswith(f"{bad_file}:1:")
    assert " error " in printed


def test_rehearse_cannot_use_it(bad_file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, printed = called(capsys, "rehearse", bad_file)
    assert status == 2
    assert f"{bad_file}:1:" in printed


def test_verify_takes_it_for_no_record(bad_file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, printed = called(capsys, "verify", bad_file)
    assert status in (2, 3)
    assert "0 events, not released" in printed


def test_the_line_program_leaves_it_out_and_offers_the_rest(bad_file: Path, tmp_path: Path) -> None:
    workspace = shop(tmp_path / "shop")
    bad_file.rename(workspace.procedures / "bad.toml")
    status, said = talked(workspace.folder, ["1", "?", "2"])
    assert status == 0
    assert "Left out: bad.toml, line 1: " in said
    assert "1 Rebuild of the hydraulically driven centrifugal pump" in said
    assert "Traceback" not in said


@pytest.mark.parametrize("register", ["shop.toml", "instruments.toml", "people.toml"])
def test_the_line_program_cannot_do_without_its_registers(
    bad_file: Path, tmp_path: Path, register: str
) -> None:
    if bad_file.stat().st_size > 1_000_000:
        pytest.skip("once is enough for the large ones")
    workspace = shop(tmp_path / "shop")
    bad_file.replace(workspace.procedures / register)
    status, said = talked(workspace.folder, ["1"])
    assert status == 2
    assert f"{register}:1:" in said


@pytest.mark.parametrize("command", ["check", "rehearse", "verify"])
@pytest.mark.parametrize("path", ["folder.toml", "missing.toml", "missing/folder/pump.toml", ""])
def test_what_is_no_file(command: str, path: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "folder.toml").mkdir()
    status, printed = called(capsys, command, tmp_path / path)
    assert status == 2
    assert printed.startswith(f"benchcheck {command}: {tmp_path / path}")


@pytest.mark.parametrize("path", ["missing", "file"])
def test_no_workspace(path: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "file").touch()
    status, printed = called(capsys, "--lines", "--workspace", tmp_path / path)
    assert status == 2
    assert printed.startswith(f"benchcheck: there is no folder {tmp_path / path}")


def test_no_input_at_all(tmp_path: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "benchcheck", "--lines", "--workspace", str(tmp_path)],
        cwd=REPOSITORY,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
    )
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.endswith("The input ended. All that was confirmed is saved.\n")


# ---------------------------------------------------------------------- texts that look like commands


READ = {
    *(
        "title",
        "author",
        "scope",
        "changes",
        "text",
        "what",
        "because",
        "name",
        "lubricate",
        "where",
        "datum",
    ),
    *("with", "one_of", "good", "amount", "seen"),
}
"""The keys of texts that are only read; the names of ends are texts too, and stand in many places."""


def marked(value: Any, ends: frozenset[str], key: str = "") -> Any:
    """The same procedure with markup behind each text that a person reads."""
    match value:
        case dict():
            # An answer that decides on the way through the steps is named elsewhere, too.
            kept = {"one_of", "good"} if "sets" in value else set()
            return {
                marked(name, ends, "end"): each
                if name in kept
                else marked(each, ends, key if key == "seen" else name)
                for name, each in value.items()
            }
        case list():
            return [marked(each, ends, key) for each in value]
        case str() if key in READ or (value in ends and key not in ("id", "shape")):
            return f"{value} {MARKUP}"
    return value


def test_markup_in_every_text_of_a_procedure_is_only_text(tmp_path: Path) -> None:
    workspace = shop(tmp_path)
    path = workspace.procedures / "xmpl-hc40-c.toml"
    procedure = tomllib.loads(path.read_text())
    ends = frozenset(end for part in procedure["part"] for end in part.get("ends", ()))
    procedure = marked(procedure, ends)
    path.write_text(tomli_w.dumps(procedure))

    serial = "SN [/] [OIL] [red]"
    state, said = rebuilt(tmp_path, ["1", "1", "no", serial, serial, "-05"])

    assert state.outcome == "released"
    assert f"Pump {serial}: RELEASED." in said
    assert all(each.isprintable() for each in said)
    shown = {
        "title": [procedure["procedure"]["title"]],
        "caution": [caution["text"] for caution in procedure["caution"]],
        "step": [step["name"] for step in procedure["step"] if "name" in step and "if" not in step],
        "asked": [
            ask["what"]
            for step in procedure["step"]
            for ask in step.get("ask", ())
            if not ask.get("kind") and "if" not in step
        ],
        "groove": [groove["where"] for groove in procedure["groove"]],
    }
    for kind, texts in shown.items():
        assert texts, kind
        for text in texts:
            assert MARKUP in text
            assert " ".join(text.split()) in said, kind
    for part in (each for each in procedure["part"] if "into" in each):
        for words in part.get("seen", {}).values():
            assert " ".join(words.split()) in said, part["id"]


# ---------------------------------------------------------------------- what a hand types


def test_what_is_typed_never_steers_the_terminal(tmp_path: Path) -> None:
    shop(tmp_path)
    typed = ["1", "1", "no", "SN\x1b[2J\x07 1", "SN 1", "1", "T. Sa\x00mple", "?\x1b[31mnote", "LOT\u202e 1"]
    status, said = talked(tmp_path, typed)
    assert status == 0
    printed = said.replace("\x1b[2J\x07", "").replace("\x00", "").replace("\x1b", "").replace("\u202e", "")
    assert 'The two readings differ: "SN[2J 1" and "SN 1".' in printed


@pytest.mark.parametrize(
    ("line", "says"),
    [
        (b"\xff\xfe", "Some letters of that could not be read. Type it again."),
        (b"x" * 100_000, "That is longer than 1000 letters, so it is not taken. Type it again."),
        (b"", "nothing was answered"),
        (b"?", "?back THING"),
        (b"?ovre it is fine", '"?ovre" is no word to the program; did you mean ?over?'),
        (b"?over it is fine", "Nothing stands refused."),
        (b"?mend", "Nothing stands refused that this would help."),
        (b"?correct", "Say which: ?correct N WHY."),
        (b"?correct 99999999999999999999 x", "Say which: ?correct N WHY."),
        (b"?correct 7 typed wrong", "event 7 is none of the last answers"),
        (b"?back", "Say what is to be reached"),
        (b"?back the flywheel", '"flywheel" is no part, group or groove of this pump'),
        (b"?decide 1 use as is; Q. Example; fine", "there is no deviation 1"),
        (b"?decide x", "Say which: ?decide N WHAT; NAME; WHY."),
        (b"?position F1 9 scrap; Q. Example; stripped", "there is no position 9 of F1 in hand"),
        (b"?position 3", "Say which: ?position GROUP N WHAT; NAME; WHY"),
        (b"?who Nobody Known", '"Nobody Known" is not in the register of people'),
        (b"?note", "an empty remark says nothing"),
        (b"?close thrown away; old", '"thrown away" is none of: scrapped,'),
        (b"?skip", "a departure needs a reason"),
        (b"?last", "There is no answer that can be corrected here."),
        (b"?open", "No departure is waiting for a decision."),
        (b"?where", "T. Sample is signed on."),
    ],
)
def test_words_that_cannot_be_taken_are_answered_in_words(tmp_path: Path, line: bytes, says: str) -> None:
    shop(tmp_path)
    begin = "1 1 no SN-1 SN-1 1 T._Sample".replace(" ", "\n").replace("_", " ").encode()
    status, said = talked(tmp_path, [begin, line])
    assert status == 0
    assert says in said
    assert said.count("READ: serial on the plate") == 2 or "Type it again. >" in said, "it is asked again"
