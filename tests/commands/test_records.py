"""`benchcheck records`: the list as people and as programs get it, and the status it ends with."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from benchcheck.cli import main
from benchcheck.exit_status import ExitStatus
from benchcheck.session.events import Closed
from benchcheck.store.workspace import Workspace
from tests.report.sample import released
from tests.report.test_traces import keys_in, keys_told
from tests.store.shelf import bytes_of, put, put_departed, put_released, shelf


@pytest.fixture
def workspace(tmp_path: Path) -> Workspace:
    """A clean record, and one in which much went otherwise."""
    made = shelf(tmp_path / "workspace")
    put_released(made, "4471")
    put_departed(made, "4472", 1)
    return made


@pytest.fixture
def say(workspace: Workspace, capsys: pytest.CaptureFixture[str]) -> Any:
    def say(status: ExitStatus, *words: str) -> Any:
        assert main(["--workspace", str(workspace.folder), "records", *words]) == status
        said = capsys.readouterr()
        return json.loads(said.out) if "--json" in words else said.out + said.err

    return say


def test_what_stands_out_comes_first_with_the_reasons(say: Any) -> None:
    text = say(ExitStatus.GOOD)
    assert "1 OF 2 RECORDS TO LOOK AT" in text
    assert text.index("DEPART FROM THEIR PROCEDURE") < text.index("Pump 4472, released, tiny B, 3 Nov 2026")
    assert text.index("Pump 4472") < text.index("The work went back to the nut: the wrong locker was used.")
    assert text.index("the wrong locker") < text.index("NOTHING STANDS OUT") < text.index("4471-000.toml")


def test_found_by_what_is_typed(say: Any) -> None:
    assert "4471-000" not in say(ExitStatus.GOOD, "--find", "4472 sample")
    assert "0 OF 0 RECORDS" in say(ExitStatus.GOOD, "--find", "nowhere")
    assert len(say(ExitStatus.GOOD, "--state", "released", "--most", "1", "--json")["records"]) == 1
    assert say(ExitStatus.GOOD, "--state", "open", "--json")["records"] == []


def test_a_state_that_only_a_record_knows_can_be_asked_for(say: Any, workspace: Workspace) -> None:
    events = [
        replace(each, outcome="lent") if isinstance(each, Closed) else each for each in released().events
    ]
    put(workspace, bytes_of(events, "4473", 2), "4473-002.toml")
    (record,) = say(ExitStatus.GOOD, "--state", "lent", "--json")["records"]
    assert record["serial"] == "4473"


def test_for_programs(say: Any) -> None:
    told = say(ExitStatus.GOOD, "--json", "--latest")
    assert told["states"] == {"released": 2}
    first, second = told["records"]
    assert (first["serial"], first["state"], first["read"], first["practice"]) == (
        "4472",
        "released",
        True,
        False,
    )
    assert {each["weight"] for each in first["remarks"]} == {"departs", "odd"}
    assert all(each["event"] for each in first["remarks"])
    assert second["remarks"] == [] and second["check_value"].count(" ") == 2


def test_a_damaged_record_is_a_status_of_its_own_and_hides_no_other(say: Any, workspace: Workspace) -> None:
    data = bytearray((workspace.sessions / "4471-000.toml").read_bytes())
    data[3000] ^= 1
    put(workspace, bytes(data), "4471-000.toml")
    text = say(ExitStatus.DAMAGED)
    assert text.index("DO NOT HOLD") < text.index("Damaged from event") < text.index("Pump 4472")
    assert "Pump 4472" in say(ExitStatus.GOOD, "--find", "4472")


def test_texts_of_records_do_not_steer_the_terminal(say: Any, workspace: Workspace) -> None:
    put(workspace, b"no record\n", "44\x1b[2J73.toml")
    text = say(ExitStatus.DAMAGED)
    assert "\x1b" not in text and "[2J73.toml" in text


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("--state", "shiny"), "no record is 'shiny'; it is one of: open, released"),
        (("--most", "0"), "such as 20"),
    ],
)
def test_what_cannot_be_asked_is_said(say: Any, words: tuple[str, ...], sentence: str) -> None:
    assert sentence in say(ExitStatus.UNUSABLE, *words)


def test_without_a_workspace(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--workspace", str(tmp_path / "none"), "records"]) == ExitStatus.UNUSABLE
    assert "--workspace FOLDER records" in capsys.readouterr().err


def test_the_readme_tells_every_key_and_no_other(say: Any) -> None:
    told = say(ExitStatus.GOOD, "--json")
    assert keys_in({**told, "states": 0}) == keys_told("records")
