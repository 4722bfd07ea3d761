"""The pictures in the README are screens as they are; what it tells an author to run does what it says."""

from __future__ import annotations

import re
import shlex
import shutil
from pathlib import Path

import pytest

from benchcheck import cli

PICTURES = re.compile(r"<!-- screen: ([a-z-]+) -->\n```text\n(.*?)\n```", re.DOTALL)


def test_the_pictures_of_the_readme_are_the_screens_that_the_tests_keep() -> None:
    pictures = PICTURES.findall(Path("README.md").read_text("utf-8"))
    assert [name for name, _ in pictures] == ["facing-cartridge", "tighten"]
    for name, picture in pictures:
        assert picture in Path(f"tests/snapshots/{name}.txt").read_text("utf-8"), name


def test_what_an_author_is_told_to_run_does_what_it_says(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    page = Path("README.md").read_text("utf-8").partition("## For the author")[2].partition("\n## ")[0]
    told = re.findall(r"^\.venv/bin/benchcheck (.*)$", page, re.MULTILINE)
    assert len(told) == 5
    one_pump = shutil.ignore_patterns("rehearsals", "xmpl-[!h]*")
    shutil.copytree("procedures", tmp_path / "procedures", ignore=one_pump)
    monkeypatch.chdir(tmp_path)
    for command in told:
        if not command.endswith("--faults"):  # that takes long, and is run where faults are tested
            assert cli.main(shlex.split(command)) == 0, capsys.readouterr().err
    said = capsys.readouterr().out
    assert "The careful technician" in said
    assert "still to be confirmed for this pump" in said and "revision C -> D, raised" in said


def test_what_a_reviewer_is_told_to_run_does_what_it_says(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    page = Path("README.md").read_text("utf-8").partition("## For the reviewer")[2].partition("\n## ")[0]
    told = re.findall(r"^\.venv/bin/benchcheck (.*)$", page, re.MULTILINE)
    assert [command.split()[0] for command in told] == ["verify", "records", "report", "trace", "trends"]
    shutil.copytree("procedures", tmp_path / "procedures", ignore=shutil.ignore_patterns("rehearsals"))
    shutil.copytree("sessions/procedures", tmp_path / "sessions" / "procedures")
    shutil.copy("sessions/2263-20261124T130000Z.toml", tmp_path / "sessions")
    monkeypatch.chdir(tmp_path)
    for command in told:
        assert cli.main(shlex.split(command)) == 0, (command, capsys.readouterr().err)
    assert "2263-20261124T130000Z.toml" in capsys.readouterr().out
    assert (tmp_path / "report.html").read_text("utf-8").startswith("<!DOCTYPE html>")
    assert "end plate screws" in (tmp_path / "touched.csv").read_text("utf-8")
