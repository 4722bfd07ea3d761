"""The calculator commands torque, pattern and wrench: results on standard output, refusals on standard
error."""

from __future__ import annotations

import argparse
import io
import json
import subprocess
import sys
from pathlib import Path
from types import ModuleType

import pytest

from benchcheck.commands import pattern, torque, wrench

REGISTER = """
format = 1
[[wrench]]
id = "TW-01"
kind = "setting"
range = ["10 lbf·ft", "50 lbf·ft"]
graduation = "0.5 lbf·ft"
accuracy = "4 %"
calibration_due = 2027-03-31
"""
SCREW = ["--thread", "M8", "--strength", "8.8"]


def run(command: ModuleType, *words: str, workspace: str | None = None) -> int:
    parser = argparse.ArgumentParser(prog=f"benchcheck {command.NAME}")
    command.arguments(parser)
    return int(command.run(parser.parse_args(words, argparse.Namespace(workspace=workspace))))


@pytest.fixture
def workspace(tmp_path: Path) -> str:
    (tmp_path / "procedures").mkdir()
    (tmp_path / "procedures" / "instruments.toml").write_text(REGISTER, encoding="utf-8")
    return str(tmp_path)


def test_torque(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(torque, *SCREW, "--torque", "18 N·m", "--nut-factor", "0.15") == 0
    assert "70.6 % of proof load" in capsys.readouterr().out
    assert run(torque, *SCREW, "--torque", "18 N·m", "--nut-factor", "0,15") == 0
    assert "70.6 % of proof load" in capsys.readouterr().out
    assert run(torque, *SCREW, "--torque", "18 N·m", "--nut-factor", "0.15", "--json") == 0
    assert json.loads(capsys.readouterr().out)["share_of_proof"] == 0.7064


def test_pattern(capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert run(pattern, "--circle", "5") == 0
    assert "  1-3-5-2-4\n" in capsys.readouterr().out
    file = tmp_path / "points.txt"
    file.write_text("# x, y\n0 0\n0, 10\n10 10\n\n10 0\n", encoding="utf-8")
    assert run(pattern, "--points", str(file), "--json") == 0
    assert json.loads(capsys.readouterr().out)["order"] == [1, 3, 2, 4]
    monkeypatch.setattr(sys, "stdin", io.StringIO("0 0\n5 5\n"))
    assert run(pattern, "--points", "-", "--json") == 0
    assert json.loads(capsys.readouterr().out)["order"] == [1, 2]


def test_wrench(capsys: pytest.CaptureFixture[str], workspace: str) -> None:
    words = ["--target", "16 lbf·ft", "--tolerance", "10 %", "--on", "2026-11-24"]
    assert run(wrench, *words, workspace=workspace) == 0
    assert "16.0 lbf·ft" in capsys.readouterr().out
    assert run(wrench, *words, "--json", workspace=workspace) == 0
    assert json.loads(capsys.readouterr().out)["wrench"] == "TW-01"
    late = [*words[:-1], "2027-04-01"]
    assert run(wrench, *late, workspace=workspace) == 1
    assert "calibration ended 31 Mar 2027, 1 day ago" in capsys.readouterr().out


def test_the_crow_foot_alone_needs_no_register(capsys: pytest.CaptureFixture[str]) -> None:
    words = ["--target", "60 N·m", "--extension", "50 mm", "--length", "450 mm"]
    assert run(wrench, *words) == 0
    assert capsys.readouterr().out == "60 N·m at the screw: the wrench shows 54 N·m\n"
    assert run(wrench, *words, "--angle", "180°", "--json") == 0
    assert json.loads(capsys.readouterr().out)["setting"] == {"value": 67.5, "unit": "N·m"}


@pytest.mark.parametrize(
    ("command", "words"),
    [
        (torque, [*SCREW, "--torque", "18", "--nut-factor", "0.15"]),
        (torque, [*SCREW, "--torque", "18 N·m"]),
        (torque, ["--thread", "M8x1.3", "--strength", "8.8", "--torque", "18 N·m", "--nut-factor", "0.15"]),
        (torque, ["--thread", "M8", "--strength", "8.9", "--torque", "18 N·m", "--nut-factor", "0.15"]),
        (torque, [*SCREW, "--torque", "18 N·m", "--nut-factor", "a lot"]),
        (pattern, ["--circle", "201"]),
        (pattern, ["--circle", "six"]),
        (pattern, ["--circle", "6", "--groups", "-2"]),
        (pattern, ["--rectangle", "2"]),
        (pattern, ["--points", "/nowhere/points.txt"]),
        (pattern, ["--circle", "6", "--rounds", "30"]),
        (wrench, ["--target", "16 lbf·ft"]),
        (wrench, ["--target", "16 lbf·ft", "--tolerance", "10 %", "--on", "today"]),
        (wrench, ["--target", "16", "--tolerance", "10 %"]),
        (wrench, ["--target", "16 lbf·ft", "--tolerance", "10 %", "--wrench", "TW-99"]),
    ],
)
def test_nonsense_is_refused_in_one_sentence(
    command: ModuleType, words: list[str], workspace: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(command, *words, workspace=workspace) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.startswith(f"benchcheck {command.NAME}: ")
    assert said.err.count("\n") == 1


@pytest.mark.parametrize("content", ["1 2 3\n", "1;2\n", "a b\n", "1 inf\n", "0 0\n" * 300])
def test_points_that_cannot_be(content: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "points.txt"
    file.write_text(content, encoding="utf-8")
    assert run(pattern, "--points", str(file)) == 2
    assert capsys.readouterr().err.count("\n") == 1


def test_a_register_that_is_missing_or_broken(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    words = ["--target", "16 lbf·ft", "--tolerance", "10 %"]
    assert run(wrench, *words, workspace=str(tmp_path)) == 2
    assert "instruments.toml cannot be read" in capsys.readouterr().err
    (tmp_path / "procedures").mkdir()
    (tmp_path / "procedures" / "instruments.toml").write_text(
        "format = 1\n[[wrench]]\nid = 3\n", encoding="utf-8"
    )
    assert run(wrench, *words, workspace=str(tmp_path)) == 2
    assert "instruments.toml:2:3: error key-missing" in capsys.readouterr().err


def test_nothing_heavy_is_loaded() -> None:
    program = (
        "import argparse, sys\n"
        "from benchcheck.commands import pattern, torque, wrench\n"
        "parser = argparse.ArgumentParser()\n"
        "for command in (pattern, torque, wrench):\n"
        "    command.arguments(argparse.ArgumentParser())\n"
        "assert not any(name.startswith('benchcheck.mechanics') for name in sys.modules)\n"
        "pattern.arguments(parser)\n"
        "pattern.run(parser.parse_args(['--circle', '6', '--interaction']))\n"
        "assert not {'textual', 'rich', 'pint', 'pydantic'} & set(sys.modules)\n"
    )
    subprocess.run([sys.executable, "-c", program], check=True, capture_output=True)
