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
from tests.session.fault_pump import PUMP

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


HEAD = 'format = 1\n[rehearsal]\nprocedure = "xmpl-hc40"\ntitle = "x"\n'


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
        (
            'format = 1\n[rehearsal]\nprocedure = "xmpl-hc40"\ntitle = "x"\nbegins = "2026-11-02 7:00"\n',
            'write one as in "2026-11-02T07:00:00Z"',
        ),
        (HEAD + 'until = "ring"\n', ":5:9: error no-such-step: There is no step ring"),
        (HEAD + 'until = "kit"\nends = "released"\n', "a pump that is left at kit is open then"),
        (HEAD + 'ends = "done"\n', ":5:8: error value-not-understood"),
        (HEAD + '[[departure]]\nstep = "the kit"\n', ":6:8: error value-not-understood"),
        (
            HEAD + '[[departure]]\nstep = "kit"\ncame = "passed"\nevents = ["clock went bak"]\n',
            'the nearest is "clock went back"',
        ),
        (
            HEAD + '[[departure]]\nstep = "kit"\ncame = "passed"\ndo = { what = "sign" }\n',
            ":8:15:",
        ),
    ],
    ids=[
        "empty",
        "another procedure",
        "another variant",
        "key missing",
        "no TOML",
        "no time",
        "no step to be left at",
        "left and released",
        "no end",
        "no id of a step",
        "no kind of event",
        "nothing that is done",
    ],
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


@pytest.fixture
def small(tmp_path: Path) -> Path:
    """The small pump of the tests of faults, in a workspace of its own."""
    procedures = tmp_path / "procedures"
    procedures.mkdir()
    for name in ("shop.toml", "people.toml", "instruments.toml"):
        shutil.copy(ROOT / "procedures" / name, procedures)
    head = (
        'format = 1\nprocedure = { id = "tiny", title = "Tiny pump", revision = "A", status = "released", '
        'author = "A. Template", models = ["XMPL-T"], main = "body" }\n'
    )
    path = procedures / "tiny-a.toml"
    path.write_text(head + PUMP, encoding="utf-8")
    return path


def only(monkeypatch: pytest.MonkeyPatch, *kinds: str) -> None:
    """Only faults of some kinds are made."""
    every = fault_run.faults_of
    monkeypatch.setattr(
        fault_run, "faults_of", lambda *args: tuple(each for each in every(*args) if each.kind in kinds)
    )


def test_faults_as_a_table(
    small: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    only(monkeypatch, "not home", "left over", "position skipped")
    assert run(small, "--faults") == 0
    said = capsys.readouterr()
    assert (
        "left over\n  the washer recorded as in, and not there\n"
        "      caught at peg-in; seen at 3 steps: peg-in, F1, release" in said.out
    )
    assert "position 1 skipped in round 1 (and 3 like it)\n      harmless" in said.out
    assert said.out.splitlines()[-1].split() == ["all", "12", "8", "0", "0", "4"]
    assert said.err == "12 faults, 8 caught, 0 let through, 0 thin, 4 harmless.\n"


def test_what_is_let_through_or_thin_stands_at_the_end_and_is_not_good(
    small: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    only(monkeypatch, "old for new", "turned")
    assert run(small, "--faults") == 1
    said = capsys.readouterr()
    through, thin = said.out.split("LET THROUGH\n")[1].split("THIN: one step, one look\n")
    assert through.startswith(
        "  the wheel: the old one goes in again, made in open/remove:wheel: LET THROUGH"
    )
    assert "the lid turned by 90°" in thin and "caught at lid-on" in thin
    assert "1 let through, 3 thin" in said.err


def test_faults_as_json(
    small: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    only(monkeypatch, "not home", "unfit wrench")
    assert run(small, "--faults", "--json") == 0
    told = json.loads(capsys.readouterr().out)
    assert {"procedure", "faults", "caught", "let_through", "seen_once"} <= told.keys()
    assert told["complete"] is True and told["let_through"] == 0
    for fault in told["faults"]:
        assert {"kind", "at", "variant", "caught", "caught_at", "seen_at", "message"} <= fault.keys()
    washer = told["faults"][0]
    assert (washer["kind"], washer["caught_at"], washer["variant"]) == ("not home", "washer-in", None)
    assert washer["message"] == "depth: 2.4" and washer["seen_by"] == ["a number"]


def test_stopped_it_says_what_it_has_so_far(
    small: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    runs = fault_run.run_faults

    def stopping(ways: tuple[Walk, ...], made: tuple[Fault, ...]) -> Iterator[Found | None]:
        for number, each in enumerate(runs(ways, made)):
            if number == 3:
                raise KeyboardInterrupt
            yield each

    monkeypatch.setattr(fault_run, "run_faults", stopping)
    assert run(small, "--faults", "--json") == 130
    said = capsys.readouterr()
    told = json.loads(said.out)
    assert told["complete"] is False and len(told["faults"]) == 3
    assert said.err.startswith("Stopped. So far: 3 faults")


def test_a_procedure_that_cannot_be_carried_out_has_no_faults_to_tell(
    small: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    small.write_text(
        small.read_text(encoding="utf-8").replace('"lid", "wheel", "peg"', '"lid", "peg", "wheel"')
    )
    assert run(small, "--faults") == 1
    said = capsys.readouterr()
    assert not said.out and "does not reach release: wheel-in: a careful answer" in said.err


def test_control_characters_of_a_file_do_not_reach_the_terminal(
    small: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    only(monkeypatch, "not home")
    text = small.read_text(encoding="utf-8")
    small.write_text(text.replace('id = "washer"\n', 'id = "washer"\nname = "wa\\u001b[31msher [/red]"\n'))
    assert run(small, "--faults") == 0
    said = capsys.readouterr().out
    assert "\x1b" not in said and "sher [/red]" in said
