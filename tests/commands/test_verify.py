"""`benchcheck verify` on records where they lie: in a workspace, or copied out of one."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from typing import Any

import pytest

from benchcheck.cli import main
from benchcheck.exit_status import ExitStatus
from benchcheck.session.record import check_value
from benchcheck.store.workspace import Workspace
from tests.report.test_traces import keys_in, keys_told
from tests.session.samples import HEADER, PROCEDURE, event, record_bytes, seals_of


@pytest.fixture
def record(tmp_path: Path) -> Path:
    """A released pump's record, as the program leaves it."""
    with Workspace(tmp_path).create_record(HEADER, event(1), PROCEDURE, "Ana Fitter") as made:
        made.append(event(2), event(3, "closed", outcome="released"))
        return made.path


@pytest.fixture
def say(capsys: pytest.CaptureFixture[str]) -> Any:
    def say(status: ExitStatus, *words: str | Path) -> Any:
        assert main(["verify", *map(str, words)]) == status
        said = capsys.readouterr()
        return json.loads(said.out) if "--json" in words else said.out + said.err

    return say


def test_an_intact_record(record: Path, say: Any) -> None:
    value = check_value(seals_of(record.read_bytes())[-1].hexadecimal)
    text = say(ExitStatus.GOOD, record)
    assert text.startswith(f"{record}: intact, 3 events, released\n  check value of event 3: {value}\n")
    assert "The remembered seal is that of event 3" in text
    assert "is that of the procedure kept beside the records" in text
    [table] = say(ExitStatus.GOOD, record, "--json")["records"]
    assert (table["file"], table["events"], table["intact"]) == (str(record), 3, True)
    assert (table["first_bad_event"], table["released"], table["check_value"]) == (None, True, value)
    assert all(sentence in text for sentence in [*table["proved_by"], *table["not_proved"]])


def test_damage_is_a_status_of_its_own(record: Path, say: Any) -> None:
    record.write_bytes(record.read_bytes().replace(b"number = 2", b"number = 7"))
    [table] = say(ExitStatus.DAMAGED, "--json", record)["records"]
    assert (table["intact"], table["first_bad_event"], table["released"]) == (False, 2, False)


def test_a_record_cut_back_is_found_where_its_seal_is_remembered(record: Path, say: Any) -> None:
    data = record.read_bytes()
    record.write_bytes(data[: seals_of(data)[1].end])
    assert "DAMAGED from event 3 on" in say(ExitStatus.DAMAGED, record)
    alone = record.parent.parent / record.name
    shutil.copy(record, alone)
    assert "Which procedure was followed" in say(ExitStatus.GOOD, alone)


def test_a_copy_of_the_folder_is_weighed_by_its_own_memory(record: Path, tmp_path: Path, say: Any) -> None:
    copy = shutil.copytree(record.parent, tmp_path / "backup")
    text = say(ExitStatus.GOOD, copy)
    assert text.startswith(f"{copy / record.name}: intact") and "The remembered seal" in text


def test_a_record_that_is_remembered_and_gone_is_told(record: Path, say: Any) -> None:
    record.unlink()
    assert say(ExitStatus.DAMAGED, record.parent).startswith(f"{record}: MISSING;")
    assert say(ExitStatus.DAMAGED, record.parent, "--json") == {"records": [], "missing": [str(record)]}


def test_a_printed_check_value_is_weighed(record: Path, say: Any) -> None:
    digits = seals_of(record.read_bytes())[1].hexadecimal
    for written in (f"2: {check_value(digits)}", f"2 {digits.upper()}"):
        assert "The printed check value is that of event 2" in say(
            ExitStatus.GOOD, record, "--check-value", written
        )
    # The record written anew, with seals that fit; the memory of it is gone.
    record.write_bytes(record_bytes(event(1), event(2, by="Someone Else")))
    (record.parent / "seen-seals.txt").unlink()
    assert "intact" in say(ExitStatus.GOOD, record)
    text = say(ExitStatus.DAMAGED, record, "--check-value", f"2: {check_value(digits)}")
    assert "The printed check value knows another seal of event 2" in text


@pytest.mark.parametrize("value", ["", "2", "210d aefe f49a", "2: 210d aefe", "0: 210d aefe f49a", "2: xyz"])
def test_a_check_value_that_is_none_is_refused(value: str, record: Path, say: Any) -> None:
    said = say(ExitStatus.UNUSABLE, record, "--check-value", value)
    assert said == 'benchcheck verify: a check value is written as printed: "58: 210d aefe f49a".\n'


def test_a_check_value_is_of_one_record(record: Path, say: Any) -> None:
    for records in ([record, record], [record.parent]):
        said = say(ExitStatus.UNUSABLE, *records, "--check-value", "2: 210d aefe f49a")
        assert said == "benchcheck verify: a check value is that of one record: name only that one.\n"


def test_what_cannot_be_read_is_refused_and_the_rest_is_weighed(
    record: Path, tmp_path: Path, say: Any
) -> None:
    newer = tmp_path / "newer.toml"
    newer.write_bytes(record.read_bytes().replace(b"format = 1", b"format = 9"))
    (tmp_path / "empty").mkdir()
    text = say(ExitStatus.UNUSABLE, tmp_path / "none.toml", newer, tmp_path / "empty", record)
    assert f"{record}: intact" in text
    assert f"benchcheck verify: {tmp_path / 'none.toml'} cannot be read: it is not there" in text
    assert f"benchcheck verify: {newer}: The record is in format 9" in text
    assert f"benchcheck verify: {tmp_path / 'empty'} holds no record.\n" in text


@pytest.mark.parametrize("content", [b"", b"hello", b"\0" * 5000, b"\xff\xfe", b"format = 1\n[shop]\n"])
def test_what_is_no_record_proves_nothing(content: bytes, tmp_path: Path, say: Any) -> None:
    path = tmp_path / "a.toml"
    path.write_bytes(content)
    status = ExitStatus.DAMAGED if content.strip(b"\0") else ExitStatus.UNUSABLE
    [table] = say(status, path, "--json")["records"]
    assert (table["events"], table["proved_by"], table["check_value"]) == (0, [], None)
    assert not table["intact"]
    if status is ExitStatus.UNUSABLE:
        text = say(status, path)
        assert f"{path}: NO RECORD, 0 events, not released" in text
        assert "not proved: Anything: no event is whole in this file" in text


def test_nothing_is_changed(record: Path, say: Any) -> None:
    before = {path: path.read_bytes() for path in record.parent.rglob("*") if path.is_file()}
    say(ExitStatus.GOOD, record.parent)
    assert {path: path.read_bytes() for path in record.parent.rglob("*") if path.is_file()} == before


def test_text_from_a_record_or_a_name_does_not_steer_the_terminal(tmp_path: Path, say: Any) -> None:
    path = tmp_path / "\x1b[2J.toml"
    path.write_bytes(record_bytes(event(1)))
    assert "\x1b" not in say(ExitStatus.GOOD, path)


def test_the_readme_tells_every_key_and_no_other(say: Any, record: Path) -> None:
    assert keys_in(say(ExitStatus.GOOD, record, "--json")) == keys_told("verify")
