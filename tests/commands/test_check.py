"""`benchcheck check` on files and folders as they come."""

from __future__ import annotations

import json
import os
import pty
import subprocess
import sys
from pathlib import Path

import pytest

from benchcheck.cli import main
from benchcheck.exit_status import ExitStatus
from tests.manual import WHOLE

ROOT = Path(__file__).parents[2]
SHOP = 'format = 1\n[shop]\nname = "A"\nbench = "B"\ntime_zone = "UTC"\n'
WRONG = SHOP.replace("UTC", "Nowhere/Town")


@pytest.fixture(autouse=True)
def in_a_folder_of_its_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def put(path: str, content: str | bytes) -> str:
    Path(path).parent.mkdir(parents=True, exist_ok=True)
    Path(path).write_bytes(content.encode() if isinstance(content, str) else content)
    return path


def said(capsys: pytest.CaptureFixture[str], status: ExitStatus, *words: str) -> tuple[str, str]:
    assert main(["check", *words]) == status
    captured = capsys.readouterr()
    return captured.out, captured.err


def test_what_is_right_says_so_on_standard_error(capsys: pytest.CaptureFixture[str]) -> None:
    assert said(capsys, ExitStatus.GOOD, put("shop.toml", SHOP)) == ("", "Nothing found in 1 file.\n")
    assert said(capsys, ExitStatus.GOOD, str(ROOT / "procedures"))[0] == ""


def test_a_finding_has_its_place_its_line_and_its_remedy(capsys: pytest.CaptureFixture[str]) -> None:
    out, err = said(capsys, ExitStatus.FINDINGS, put("shop.toml", WRONG))
    head, line, mark, remedy = out.splitlines()
    assert head.startswith("shop.toml:5:13: error ")
    assert line == '    5 | time_zone = "Nowhere/Town"' and mark == "      |             ^"
    assert remedy.startswith("    ")
    assert err == "1 error in 1 file.\n"


def test_a_warning_alone_fails_too(capsys: pytest.CaptureFixture[str]) -> None:
    out, err = said(capsys, ExitStatus.FINDINGS, put("shop.toml", SHOP.replace('"A"', '"A\x1b"')))
    assert " warning control-character: " in out and err == "1 warning in 1 file.\n"


def test_findings_of_several_files_are_sorted_by_place(capsys: pytest.CaptureFixture[str]) -> None:
    names = [put(name, WRONG.replace('"B"', "1")) for name in ("b.toml", "a.toml")]
    table = json.loads(said(capsys, ExitStatus.FINDINGS, "--json", *names)[0])
    assert table["files"] == 2
    places = [(each["file"], each["line"]) for each in table["findings"]]
    assert places == [("a.toml", 4), ("a.toml", 5), ("b.toml", 4), ("b.toml", 5)]


def test_a_folder_is_all_the_toml_below_it(capsys: pytest.CaptureFixture[str]) -> None:
    for path in ("in/shop.toml", "in/deep/er/shop.toml", "in/.hidden/shop.toml", "in/.shop.toml", "in/a.md"):
        put(path, WRONG)
    table = json.loads(said(capsys, ExitStatus.FINDINGS, "--json", "in")[0])
    assert {each["file"] for each in table["findings"]} == {"in/shop.toml", "in/deep/er/shop.toml"}


def test_of_a_workspace_only_the_procedures_are_taken(capsys: pytest.CaptureFixture[str]) -> None:
    put("procedures/shop.toml", SHOP)
    put("sessions/4471-20260302T080000Z.toml", "format = 1\n[record]\n")
    assert said(capsys, ExitStatus.GOOD, ".")[1] == "Nothing found in 1 file.\n"


def test_what_cannot_be_read_is_refused_and_the_rest_is_checked(capsys: pytest.CaptureFixture[str]) -> None:
    Path("empty").mkdir()
    out, err = said(capsys, ExitStatus.UNUSABLE, "nowhere.toml", "empty", put("shop.toml", WRONG))
    assert out.startswith("shop.toml:5:13: error ")
    assert err.splitlines()[:2] == [
        "benchcheck check: nowhere.toml cannot be read: it is not there, or its folder is gone.",
        "benchcheck check: empty holds no TOML file.",
    ]


@pytest.mark.parametrize(
    ("content", "rule"),
    [
        (b"", "empty-file"),
        (b"not toml", "not-toml"),
        (b"\xff\xfef\0o\0", "not-utf-8"),
        ("name = 'größe'".encode("latin-1"), "not-utf-8"),
        (b"x" * 50_000_000, "file-too-long"),
        (b"a = " + b"[" * 5000 + b"]" * 5000, "nested-too-deep"),
        (b"\0" * 4096, "not-text"),
    ],
)
def test_bad_input_is_one_finding(content: bytes, rule: str, capsys: pytest.CaptureFixture[str]) -> None:
    out, err = said(capsys, ExitStatus.FINDINGS, put("a.toml", content))
    assert f" error {rule}: " in out and out.count(" error ") == 1
    assert len(out) < 1000 and err == "1 error in 1 file.\n"


def test_a_file_that_never_ends_is_given_up(capsys: pytest.CaptureFixture[str]) -> None:
    assert " error file-too-long: " in said(capsys, ExitStatus.FINDINGS, "/dev/zero")[0]


def test_a_name_that_steers_the_terminal_does_not(capsys: pytest.CaptureFixture[str]) -> None:
    out, err = said(capsys, ExitStatus.UNUSABLE, put("\x1b[2J.toml", WRONG), "\x1b[2Jnowhere")
    assert "\x1b" not in out + err


def on_a_terminal(**environment: str) -> str:
    ours, theirs = pty.openpty()
    words = [sys.executable, "-m", "benchcheck", "check", put("shop.toml", WRONG)]
    without = {key: value for key, value in os.environ.items() if key != "NO_COLOR"}
    subprocess.run(words, stdout=theirs, check=False, env={**without, "TERM": "xterm", **environment})
    os.close(theirs)
    text = os.read(ours, 10_000).decode()
    os.close(ours)
    return text


def test_colour_is_for_terminals_that_want_it(capsys: pytest.CaptureFixture[str]) -> None:
    assert "\x1b[1;31merror " in on_a_terminal()
    assert "\x1b" not in on_a_terminal(NO_COLOR="1")
    assert "\x1b" not in on_a_terminal(TERM="dumb")
    assert "\x1b" not in said(capsys, ExitStatus.FINDINGS, "shop.toml")[0]


def test_what_a_file_silences_is_shown_with_its_reason(capsys: pytest.CaptureFixture[str]) -> None:
    text = WHOLE + '[[silence]]\nrule = "question-without-a-no"\nreason = "It hangs there."\n'
    text = text.replace(
        '{ what = "serial on the plate", kind = "serial" }', '{ what = "plate", one_of = ["there"] }'
    )
    put("procedures/xmpl-s1-a.toml", text)
    out, err = said(capsys, ExitStatus.GOOD, "procedures")
    head, reason = out.splitlines()
    assert ": silenced question-without-a-no: " in head and reason == "    It hangs there."
    assert err == "Nothing found in 1 file; 1 finding silenced.\n"
    table = json.loads(said(capsys, ExitStatus.GOOD, "--json", "procedures")[0])
    assert table["findings"] == [] and table["silenced"][0]["reason"] == "It hangs there."


def test_a_procedure_is_compared_with_its_workspace(capsys: pytest.CaptureFixture[str]) -> None:
    released = 'status = "released"\nissued = 2026-03-02\napprover = "Q. Example"'
    text = WHOLE.replace('status = "draft"', released)
    first = put("procedures/xmpl-s1-0.toml", text.replace('revision = "A"', 'revision = "0"'))
    second = put("procedures/xmpl-s1-a.toml", text)
    for words in ([second], [first, second]):
        out = said(capsys, ExitStatus.FINDINGS, *words)[0]
        assert out.count(" error two-released-revisions: ") == len(words)
    put("instruments.toml", "not read")
    put("elsewhere/xmpl-s1-a.toml", text)
    assert said(capsys, ExitStatus.GOOD, "elsewhere/xmpl-s1-a.toml")[0] == ""


def test_the_wrenches_are_those_of_the_workspace(capsys: pytest.CaptureFixture[str]) -> None:
    put("procedures/xmpl-s1-a.toml", WHOLE)
    assert said(capsys, ExitStatus.GOOD, "procedures")[0] == ""
    wrench = """format = 1
[[wrench]]
id = "TW-9"
kind = "dial"
range = ["100 N·m", "500 N·m"]
graduation = "5 N·m"
accuracy = "4 %"
"""
    put("procedures/instruments.toml", wrench + "calibration_due = 2027-06-30\n")
    assert "round-below-every-wrench" in said(capsys, ExitStatus.FINDINGS, "procedures")[0]
    put("other/procedures/instruments.toml", wrench + "calibration_due = 2027-06-30\n")
    Path("procedures/instruments.toml").unlink()
    assert main(["--workspace", "other", "check", "procedures"]) == ExitStatus.FINDINGS
