"""The command: text, JSON, a page beside it, and what it says where there is nothing to chart."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

import pytest

from benchcheck.commands import trends
from tests.commands.test_trace import shop


@pytest.fixture
def workspace(tmp_path: Path) -> Path:
    return shop(tmp_path / "shop")


def run(workspace: Path, *words: str) -> int:
    parser = argparse.ArgumentParser(prog="benchcheck trends")
    trends.arguments(parser)
    own = argparse.Namespace(plain=False, workspace=workspace)
    return trends.run(parser.parse_args(words, own))


def test_a_procedure_is_charted(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    page = workspace / "trends.html"
    assert run(workspace, "tiny", "--html", str(page)) == 0
    assert "1 session" in capsys.readouterr().out
    assert page.read_text(encoding="utf-8").startswith("<!DOCTYPE html>")


def test_one_group_for_programs(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(workspace, "tiny-B", "--group", "F2", "--json") == 0
    found = json.loads(capsys.readouterr().out)
    assert [each["group"] for each in found["groups"]] == ["F2"]


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["large"], "was made by large"),
        (["tiny", "--group", "F9"], "there is no group F9; it has F1, F2."),
        (["tiny", "--since", "yesterday"], "such as 2026-11-24"),
    ],
)
def test_what_there_is_nothing_of_is_said(
    words: list[str], sentence: str, workspace: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(workspace, *words) == 2
    assert sentence in capsys.readouterr().err


def test_a_damaged_record_is_named_and_gives_its_status(
    workspace: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    record = workspace / "sessions" / "4471.toml"
    data = bytearray(record.read_bytes())
    data[data.rindex(b"released")] ^= 1
    record.write_bytes(data)
    assert run(workspace, "tiny") == 3
    assert "4471.toml: not read beyond event" in capsys.readouterr().err
