"""The command: what it prints, where the list goes, how it ends, and which questions make no sense."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

import pytest

from benchcheck.commands import trace
from benchcheck.store.workspace import Workspace
from tests.report import sample
from tests.store.test_searching import record_bytes


def shop(folder: Path) -> Path:
    """A workspace with its registers and one session."""
    made = Workspace(folder)
    made.procedures.mkdir(parents=True)
    made.instruments.write_text(sample.INSTRUMENTS)
    made.people.write_text(sample.PEOPLE)
    made.shop.write_text('format = 1\n[shop]\nname = "Shop"\nbench = "bench 2"\ntime_zone = "UTC"\n')
    made.pin(sample.PROCEDURE.encode())
    (made.sessions / "4471.toml").write_bytes(record_bytes("4471"))
    return made.folder


@pytest.fixture
def workspace(tmp_path: Path) -> Path:
    return shop(tmp_path / "shop")


def run(workspace: Path, *words: str) -> int:
    parser = argparse.ArgumentParser(prog="benchcheck trace")
    trace.arguments(parser)
    own = argparse.Namespace(plain=False, workspace=workspace)
    return trace.run(parser.parse_args(words, own))


def test_a_wrench_is_traced(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(workspace, "--wrench", "W-1", "--error", "+9 %", "--since", "2026-11-01") == 0
    said = capsys.readouterr()
    assert "1 PUMP TOUCHED" in said.out and said.err == ""


def test_for_programs_as_a_table_and_as_a_page(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    table, page = workspace / "touched.csv", workspace / "touched.html"
    assert run(workspace, "--lot", "LOT-1", "--json", "-o", str(table), "--html", str(page)) == 0
    assert [each["serial"] for each in json.loads(capsys.readouterr().out)["pumps"]] == ["4471"]
    assert table.read_text().startswith("searched_on,found,serial,")
    assert "<h1>Trace of lot LOT-1</h1>" in page.read_text(encoding="utf-8")


def test_a_damaged_record_is_searched_named_and_gives_its_status(
    workspace: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    record = workspace / "sessions" / "4471.toml"
    data = bytearray(record.read_bytes())
    data[data.rindex(b"released")] ^= 1
    record.write_bytes(data)
    assert run(workspace, "--wrench", "W-1") == 3
    said = capsys.readouterr()
    assert "1 PUMP TOUCHED" in said.out and "NOT SEARCHED" in said.out
    assert "4471.toml: not searched beyond event" in said.err


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["--lot", "LOT-1", "--error", "+9 %"], "an error is that of an instrument"),
        (["--wrench", "W-1", "--step", "cover-on"], "a step belongs to a procedure"),
        (["--wrench", " "], "--instrument names nothing"),
        (["--wrench", "W-1", "--error", "9"], "9"),
        (["--wrench", "W-1", "--since", "1.11.2026"], "such as 2026-11-24"),
    ],
)
def test_a_question_that_makes_no_sense_is_refused_in_a_sentence(
    words: list[str], sentence: str, workspace: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(workspace, *words) == 2
    said = capsys.readouterr()
    assert sentence in said.err and said.out == ""


def test_a_record_is_never_written_over(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    record = workspace / "sessions" / "4471.toml"
    before = record.read_bytes()
    assert run(workspace, "--lot", "LOT-1", "-o", str(record)) == 2
    assert record.read_bytes() == before and "holds a record" in capsys.readouterr().err


def test_without_sessions_it_says_how_to_name_the_workspace(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(tmp_path, "--lot", "LOT-1") == 2
    assert "--workspace FOLDER" in capsys.readouterr().err


def test_without_registers_it_says_what_is_missing(
    workspace: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (workspace / "procedures" / "people.toml").unlink()
    assert run(workspace, "--lot", "LOT-1") == 2
    assert "people.toml" in capsys.readouterr().err
