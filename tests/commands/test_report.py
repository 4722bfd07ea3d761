"""The command: every form, where it goes, and what becomes of a record that is damaged."""

from __future__ import annotations

import argparse
import csv
import io
import os
import subprocess
import sys
from pathlib import Path

import pytest

from benchcheck.commands import report
from tests.report import sample
from tests.store.test_recorded import kept

ROOT = Path(__file__).parents[2]


@pytest.fixture
def record(tmp_path: Path) -> Path:
    return kept(tmp_path / "sessions")


def run(*words: str | Path, plain: bool = False, workspace: Path | None = None) -> int:
    parser = argparse.ArgumentParser(prog="benchcheck report")
    report.arguments(parser)
    own = argparse.Namespace(plain=plain, workspace=workspace)
    return report.run(parser.parse_args([str(word) for word in words], own))


def damage(record: Path) -> None:
    data = bytearray(record.read_bytes())
    data[data.rindex(b"released")] ^= 1
    record.write_bytes(data)


def test_text(record: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(record, workspace=ROOT) == 0
    said = capsys.readouterr()
    assert "Pump 4471\nRELEASED\n" in said.out and said.err == ""
    assert "The SHA-256 in the header is that of the procedure kept beside" in " ".join(said.out.split())


def test_text_in_ascii(record: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(record, plain=True, workspace=ROOT) == 0
    assert capsys.readouterr().out.isascii()


def test_label(record: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(record, "--as", "label", workspace=ROOT) == 0
    assert capsys.readouterr().out.startswith("RELEASED\n4471, XMPL-T1\ntiny revision B\n")


@pytest.mark.parametrize("form", ["events-csv", "readings-csv"])
def test_tables(form: str, record: Path, capsysbinary: pytest.CaptureFixture[bytes]) -> None:
    assert run(record, "--as", form, workspace=ROOT) == 0
    rows = list(csv.DictReader(io.StringIO(capsysbinary.readouterr().out.decode(), newline="")))
    assert rows and {row["record"] for row in rows} == {"4471.toml"}


def test_page_into_a_file(record: Path, capsys: pytest.CaptureFixture[str]) -> None:
    page = record.parent.parent / "report.html"
    assert run(record, "--as", "html", "-o", page, workspace=ROOT) == 0
    assert capsys.readouterr() == ("", "")
    assert page.read_text(encoding="utf-8").startswith("<!DOCTYPE html>")
    assert run(record, "--as", "html", "-o", page, workspace=ROOT) == 0  # written over


def test_a_folder_is_all_of_its_records(record: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (record.parent / "4472.toml").write_bytes(record.read_bytes())
    assert run(record.parent, "--as", "label", workspace=ROOT) == 0
    assert capsys.readouterr().out.count("RELEASED\n") == 2


def test_a_damaged_record_is_reported_as_far_as_it_is_good(
    record: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    damage(record)
    assert run(record, workspace=ROOT) == 3
    said = capsys.readouterr()
    assert "Pump 4471\nDAMAGED RECORD\n" in said.out and "\nRELEASED\n" not in said.out
    assert "is DAMAGED from event" in said.err


def test_a_damaged_record_never_hides_a_good_one(record: Path, capsys: pytest.CaptureFixture[str]) -> None:
    good = record.parent / "9.toml"
    good.write_bytes(record.read_bytes())
    damage(record)
    assert run(record, good, "--as", "label", workspace=ROOT) == 3
    assert capsys.readouterr().out.splitlines()[0::7] == ["DAMAGED RECORD", "RELEASED"]


def test_a_record_that_was_cut_back_is_said(record: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (record.parent / "seen-seals.txt").write_text(f"{'1' * 64} 99 4471.toml\n")
    assert run(record, "--as", "label", workspace=ROOT) == 3
    assert capsys.readouterr().out.startswith("DAMAGED RECORD\n")


def test_a_record_that_is_gone_is_said(record: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (record.parent / "seen-seals.txt").write_text(f"{'1' * 64} 9 gone.toml\n")
    assert run(record.parent, "--as", "label", workspace=ROOT) == 3
    said = capsys.readouterr()
    assert said.out.startswith("RELEASED\n") and "gone.toml is MISSING" in said.err


def test_without_registers_that_is_said_and_the_rest_is_reported(
    record: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(record) == 0
    said = capsys.readouterr()
    assert "registers of its workspace cannot be read" in said.err
    assert "W-1 (not in the register of today)" in said.out


def test_without_the_procedure_the_events_can_still_be_had(
    record: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (pinned,) = (record.parent / "procedures").iterdir()
    pinned.unlink()
    assert run(record, workspace=ROOT) == 2
    assert capsys.readouterr().out == ""
    assert run(record, "--as", "events-csv") == 0
    assert capsys.readouterr().out.count("\n") > 40


@pytest.mark.parametrize("content", [b"hello\n", b"", b"format = 9\n"])
def test_what_is_no_record_is_refused(
    content: bytes, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "x.toml"
    path.write_bytes(content)
    assert run(path) in (2, 3)
    said = capsys.readouterr()
    assert said.out == "" and said.err.startswith("benchcheck report: ") and said.err.count("\n") == 1


def test_a_file_that_is_not_there_and_a_folder_without_records(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(tmp_path / "x.toml") == 2
    assert run(tmp_path) == 2
    assert capsys.readouterr().err.count("benchcheck report: ") == 2


def test_a_record_is_never_written_over(record: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = record.read_bytes()
    assert run(record, "-o", record) == 2
    assert run(record, "-o", record.parent) == 2
    assert record.read_bytes() == before and "name another file" in capsys.readouterr().err


def test_a_file_that_cannot_be_written_is_said(record: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(record, "-o", record.parent / "no" / "such" / "folder.txt", workspace=ROOT) == 2
    assert "was not written" in capsys.readouterr().err


def test_a_page_is_utf_8_whatever_the_terminal_speaks(record: Path) -> None:
    ended = subprocess.run(
        [sys.executable, "-m", "benchcheck", "--workspace", str(ROOT), "report", str(record), "--as", "html"],
        capture_output=True,
        env={**os.environ, "PYTHONIOENCODING": "latin-1"},
        check=False,
    )
    assert ended.returncode == 0, ended.stderr
    assert "N·m" in ended.stdout.decode("utf-8")


def test_no_screen_is_loaded(record: Path) -> None:
    program = (
        "import sys\n"
        "from benchcheck.cli import main\n"
        f"main(['--workspace', {str(ROOT)!r}, 'report', {str(record)!r}])\n"
        "assert not {'textual', 'rich'} & set(sys.modules)\n"
    )
    subprocess.run([sys.executable, "-c", program], check=True, capture_output=True, cwd=ROOT)


def test_a_session_left_in_the_middle(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    import hashlib

    bench = sample.Bench(procedure_sha256=hashlib.sha256(sample.PROCEDURE.encode()).hexdigest())
    bench.until("tighten/tighten:F1", "round 2 position 2")
    record = kept(tmp_path / "sessions", sample.record_of(bench.state, bench.events))
    assert run(record, workspace=ROOT) == 0
    said = capsys.readouterr().out
    assert "INCOMPLETE, DO NOT RUN" in said and "NOT TIGHT: cover screws, shaft nut" in " ".join(said.split())
