"""The command: a draft out of options, out of answers, out of an older procedure; never over a file."""

from __future__ import annotations

import argparse
import io
from pathlib import Path

import pytest

from benchcheck.commands import new
from benchcheck.store.library import load_procedure
from tests.pumps import MAIN_PUMP

HEAD = ("--id", "xmpl-q1", "--model", "XMPL-Q1", "--author", "A. Template")
BODY = ("--part", "body: drive end, water end")
COVER = ("--part", "cover: outer face, inner face; body: drive end")


def run(folder: Path, *words: str) -> int:
    (folder / "procedures").mkdir(exist_ok=True)
    parser = argparse.ArgumentParser(prog="benchcheck new")
    new.arguments(parser)
    return new.run(parser.parse_args(words, argparse.Namespace(workspace=folder)))


def test_out_of_options(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(tmp_path, *HEAD, *BODY, *COVER, "--fasteners", "F1: cover, 4, M6, 8.8") == 0
    path = tmp_path / "procedures" / "xmpl-q1-a.toml"
    assert capsys.readouterr().out == f"{path}\n"
    assert load_procedure(path).procedure.fasteners[0].holds == ("cover",)


def test_out_of_answers_and_a_wrong_one_is_asked_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    answers = [
        *("", "xmpl-q2", "XMPL-Q2", "A. Template", BODY[1], "cover", COVER[1], ""),
        *("G1: cover, body, -137, NBR, round the spigot", "", "F1: cover, 4, M6, 8.8", ""),
    ]
    monkeypatch.setattr("sys.stdin", io.StringIO("\n".join(answers) + "\n"))
    assert run(tmp_path) == 0
    assert '"cover" is not of the form' in capsys.readouterr().err
    procedure = load_procedure(tmp_path / "procedures" / "xmpl-q2-a.toml").procedure
    assert [each.id for each in procedure.part] == ["body", "cover"]
    assert [each.id for each in procedure.groove] == ["G1"]
    assert [each.id for each in procedure.fasteners] == ["F1"]


def test_out_of_an_older_procedure(tmp_path: Path) -> None:
    assert run(tmp_path, "--from", str(MAIN_PUMP)) == 0
    raised = load_procedure(tmp_path / "procedures" / "xmpl-hc40-d.toml").procedure.procedure
    assert raised.unconfirmed and raised.practice_only == "draft"
    assert run(tmp_path, "--from", str(MAIN_PUMP), "--id", "xmpl-hc41", "--model", "XMPL-HC41") == 0
    assert (tmp_path / "procedures" / "xmpl-hc41-a.toml").exists()


@pytest.mark.parametrize(
    ("words", "why"),
    [
        ((*HEAD, *BODY, "--part", "cover"), "is not of the form"),
        ((*HEAD, *BODY, "--revision", "B"), "--from"),
        ((*HEAD, "--model", "XMPL-Q2", *BODY), "one model"),
        (("--from", str(MAIN_PUMP), *BODY), "those of the old procedure"),
        (("--from", "nowhere.toml"), "nowhere.toml"),
        ((*HEAD, *BODY, "-o", "nowhere/at-all.toml"), "cannot be written"),
        (HEAD[:2], "nothing is written"),
    ],
)
def test_what_cannot_be_done_is_refused(
    words: tuple[str, ...],
    why: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO(""))
    assert run(tmp_path, *words) == 2
    said = capsys.readouterr()
    assert why in said.err and said.out == ""
    assert list((tmp_path / "procedures").iterdir()) == []


def test_a_draft_that_cannot_be_read_is_not_written(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(tmp_path, "--id", "no id", *HEAD[2:], *BODY) == 2
    assert "nothing is written" in capsys.readouterr().err
    assert list((tmp_path / "procedures").iterdir()) == []


def test_a_file_is_never_written_over(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(tmp_path, *HEAD, *BODY) == 0
    before = (tmp_path / "procedures" / "xmpl-q1-a.toml").read_bytes()
    assert run(tmp_path, *HEAD, *BODY, *COVER) == 2
    assert "is there already" in capsys.readouterr().err
    assert (tmp_path / "procedures" / "xmpl-q1-a.toml").read_bytes() == before
