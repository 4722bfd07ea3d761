"""The command: results on standard output, talk on standard error, a status that tells how it came out."""

from __future__ import annotations

import argparse
import json
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from benchcheck.assembly.faults import Fault
from benchcheck.commands import rehearse
from benchcheck.session import fault_run
from benchcheck.session.fault_run import Found
from benchcheck.session.fault_walk import Walk
from tests.pumps import MAIN_PUMP, ROOT

KEPT = ROOT / "procedures" / "rehearsals" / "xmpl-hc40"


def run(*words: str | Path, workspace: Path | None = None) -> int:
    parser = argparse.ArgumentParser(prog="benchcheck rehearse")
    rehearse.arguments(parser)
    args = parser.parse_args([str(word) for word in words])
    args.workspace = None if workspace is None else str(workspace)
    return rehearse.run(args)


def test_without_answers_the_careful_technician_goes_through_every_variant(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert run(MAIN_PUMP) == 0
    said = capsys.readouterr()
    assert "The careful technician\n  -05, -07: as expected" in said.out
    assert said.err == "2 runs, as expected.\n"


def test_a_file_is_told_departure_by_departure(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(MAIN_PUMP, KEPT / "cartridge-backwards.toml") == 0
    said = capsys.readouterr().out
    assert "cartridge-in, face: shallow pocket end: refused by part-faces-the-wrong-way" in said
    assert said.count("mend: turn the seal cartridge over") == 3
    assert "nobody may pass this" in said


def test_json_has_the_documented_keys(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(MAIN_PUMP, KEPT / "lip-reversed.toml", "--json") == 0
    told = json.loads(capsys.readouterr().out)
    assert told["procedure"] == "xmpl-hc40" and told["as_expected"] is True
    outcome = told["outcomes"][0]
    assert {"step", "departure", "expected", "came", "rule", "message"} <= outcome.keys()
    assert (outcome["variant"], outcome["came"]) == ("-05", "refused")
    assert [each["ended"] for each in told["runs"]] == ["released", "released"]


@pytest.fixture
def workspace(tmp_path: Path) -> Path:
    """A workspace with the demonstration pump and two rehearsals, one of which expects too much."""
    procedures = tmp_path / "procedures"
    kept = procedures / "rehearsals" / "xmpl-hc40"
    kept.mkdir(parents=True)
    for name in ("xmpl-hc40-c.toml", "shop.toml", "people.toml", "instruments.toml"):
        shutil.copy(ROOT / "procedures" / name, procedures)
    good = (
        (KEPT / "lip-reversed.toml")
        .read_text(encoding="utf-8")
        .replace("[rehearsal]", '[rehearsal]\nvariant = "-05"')
    )
    (kept / "good.toml").write_text(good, encoding="utf-8")
    (kept / "wrong.toml").write_text(good.replace('"refused"', '"passed"'), encoding="utf-8")
    return tmp_path


@pytest.mark.parametrize("answers", ["xmpl-hc40", "folder"])
def test_an_id_or_a_folder_stands_for_all_in_it(
    workspace: Path, answers: str, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = workspace / "procedures" / "rehearsals"
    word = answers if answers == "xmpl-hc40" else folder
    assert run(workspace / "procedures" / "xmpl-hc40-c.toml", word) == 1
    said = capsys.readouterr()
    assert "good.toml" in said.out and "wrong.toml" in said.out
    assert said.err == "1 of 2 runs did not come out as expected.\n"


def test_what_is_not_as_expected_is_told_with_its_line(
    workspace: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    wrong = workspace / "procedures" / "rehearsals" / "xmpl-hc40" / "wrong.toml"
    line = wrong.read_text(encoding="utf-8").split("\n").index("[[departure]]") + 1
    assert run(workspace / "procedures" / "xmpl-hc40-c.toml", wrong) == 1
    said = capsys.readouterr().out
    assert "NOT AS EXPECTED" in said
    assert f"! {wrong}:{line}:" in said and "expected passed, came refused" in said


@pytest.mark.parametrize(
    ("content", "said"),
    [
        ("", "rehearsal"),
        ('format = 1\n[rehearsal]\nprocedure = "another"\ntitle = "x"\n', "is a rehearsal of another"),
        ('format = 1\n[rehearsal]\nprocedure = "xmpl-hc40"\ntitle = "x"\nvariant = "-09"\n', "variant -09"),
        (
            'format = 1\n[rehearsal]\nprocedure = "xmpl-hc40"\ntitle = "x"\n[[departure]]\nstep = "kit"\n',
            "came",
        ),
        ("format = 1\n[rehearsal\n", ":2:"),
    ],
    ids=["empty", "another procedure", "another variant", "key missing", "no TOML"],
)
def test_what_is_no_rehearsal_of_it_is_refused(
    tmp_path: Path, content: str, said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "answers.toml"
    path.write_text(content, encoding="utf-8")
    assert run(MAIN_PUMP, path) == 2
    told = capsys.readouterr()
    assert said in told.err and not told.out


@pytest.mark.parametrize("word", ["nowhere.toml", "nothing-kept-under-this"])
def test_answers_that_are_not_there_are_refused(word: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(MAIN_PUMP, word) == 2
    assert word in capsys.readouterr().err


def test_a_folder_without_rehearsals_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(MAIN_PUMP, tmp_path) == 2
    assert "no TOML file" in capsys.readouterr().err


def test_faults_take_no_answers(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(MAIN_PUMP, KEPT, "--faults") == 2
    assert "--faults" in capsys.readouterr().err


# ---------------------------------------------------------------------- faults


def few(monkeypatch: pytest.MonkeyPatch, step: int, kinds: tuple[str, ...] = ()) -> None:
    """Only every so-manieth fault is made, of some kinds if any are named."""
    every = fault_run.faults_of

    def sample(*args: object) -> tuple[Fault, ...]:
        made = every(*args)  # type: ignore[arg-type]
        return tuple(each for each in made if not kinds or each.kind in kinds)[::step]

    monkeypatch.setattr(fault_run, "faults_of", sample)


def test_faults_as_a_table(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    few(monkeypatch, 1, ("two rings in one groove", "other end", "like parts exchanged"))
    assert run(MAIN_PUMP, "--faults") == 0
    said = capsys.readouterr()
    assert (
        "two rings in G2, none in G3\n      caught at lip-check; seen at 2 steps: lip-check, cartridge-in"
        in said.out
    )
    assert "harmless" in said.out and "LET THROUGH" not in said.out
    assert said.out.splitlines()[-1].split() == ["-07", "6", "4", "0", "0", "2"]
    assert said.err == "12 faults, 8 caught, 0 let through, 0 thin, 4 harmless.\n"


def test_faults_as_json(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    few(monkeypatch, 1, ("other end", "unfit wrench"))
    assert run(MAIN_PUMP, "--faults", "--json") == 0
    told = json.loads(capsys.readouterr().out)
    assert {"procedure", "faults", "caught", "let_through", "seen_once"} <= told.keys()
    assert told["complete"] is True and told["let_through"] == 0
    for fault in told["faults"]:
        assert {"kind", "at", "variant", "caught", "caught_at", "seen_at", "message"} <= fault.keys()
    lip = told["faults"][0]
    assert (lip["kind"], lip["caught_at"]) == ("other end", "main-lip-in")


def test_stopped_it_says_what_it_has_so_far(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    runs = fault_run.run_faults

    def stopping(ways: tuple[Walk, ...], made: tuple[Fault, ...]) -> Iterator[Found | None]:
        for number, each in enumerate(runs(ways, made)):
            if number == 3:
                raise KeyboardInterrupt
            yield each

    monkeypatch.setattr(fault_run, "run_faults", stopping)
    assert run(MAIN_PUMP, "--faults", "--json") == 130
    said = capsys.readouterr()
    told = json.loads(said.out)
    assert told["complete"] is False and len(told["faults"]) == 3
    assert said.err.startswith("Stopped. So far: 3 faults")


def test_a_procedure_that_lets_a_fault_through_is_not_good(
    workspace: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    few(monkeypatch, 1, ("position skipped",))
    path = workspace / "procedures" / "xmpl-hc40-c.toml"
    text = path.read_text(encoding="utf-8")
    blind = text.replace('pass = true\ntorque = { target = "30 lbf·ft"', 'torque = { target = "30 lbf·ft"')
    assert blind != text
    path.write_text(blind, encoding="utf-8")
    assert run(path, "--faults") == 1
    said = capsys.readouterr()
    assert "LET THROUGH\n  the impeller nut: position 1 skipped in round 1" in said.out
    assert "2 let through" in said.err
