"""Every rehearsal that is shipped comes out as its file says, and shows the fault where it must be caught."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from typing import get_args

import pytest

from benchcheck.assembly.faults import Fault
from benchcheck.procedure.reading import Read, read_model
from benchcheck.procedure.source import read
from benchcheck.session.rehearsal import Stage
from benchcheck.session.rehearsal_file import Deed, Departure, RehearsalFile, RehearsalHead, What
from benchcheck.session.state import Job
from benchcheck.store.library import load_procedure
from tests.pumps import ROOT, registers

FOLDER = ROOT / "procedures" / "rehearsals"
FILES = sorted(FOLDER.glob("*/*.toml"))
MUST_BE_CAUGHT_AT = {
    "lip-reversed": "main-lip-in",
    "cartridge-backwards": "cartridge-in",
    "pockets-swapped": "main-lip-in",
    "both-rings-in-one-groove": "cartridge-in",
    "rings-exchanged": "fit-G4",
    "rear-washer-reversed": "tw-rear-in",
    "cartridge-ring-forgotten": "shaft-in",
    "long-screws": "screws-in",
    "oil-in-blind-holes": "F1-r1",
    "round-from-the-wrong-screw": "F1-r2",
    "nut-off-again": "volute-on",
    "test-before-cure": "cure",
    "ports-swapped": "plate-on",
    "sleeve-left-inside": "spin-1",
}
"""The faults that a bench makes on the main pump, and the step that has to catch each."""


def load(content: bytes, name: str) -> RehearsalFile:
    source = read(content, name)
    assert not isinstance(source, list), source
    model = read_model(source, RehearsalFile)
    assert isinstance(model, Read), model
    return model.model


def procedure_of(file: RehearsalFile) -> Path:
    """The newest revision of the procedure a rehearsal is for."""
    return max((ROOT / "procedures").glob(f"{file.rehearsal.procedure}-*.toml"))


@cache
def job(path: Path) -> Job:
    return Job(load_procedure(path).procedure, registers())


@cache
def stage(path: Path, variant: str | None) -> Stage:
    return Stage(job(path), variant)


@pytest.mark.parametrize("path", FILES, ids=[each.stem for each in FILES])
def test_a_shipped_rehearsal_comes_out_as_its_file_says(path: Path) -> None:
    file = load(path.read_bytes(), str(path))
    assert file.rehearsal.procedure == path.parent.name
    assert file.departure, "a rehearsal without departures shows nothing"
    variants = job(procedure_of(file)).procedure.procedure.variants or (None,)
    for variant in (file.rehearsal.variant,) if file.rehearsal.variant else variants:
        came = stage(procedure_of(file), variant).rehearse(
            file.departure, file.rehearsal.until, file.rehearsal.ends
        )
        assert not came.unexpected, [str(each) for each in came.unexpected]


@pytest.mark.parametrize(("name", "step"), MUST_BE_CAUGHT_AT.items())
def test_each_fault_of_the_bench_is_rehearsed_and_caught_where_it_must_be(name: str, step: str) -> None:
    path = FOLDER / "xmpl-hc40" / f"{name}.toml"
    first = load(path.read_bytes(), str(path)).departure[0]
    assert first.step == step
    assert first.came != "passed"


def test_the_example_of_the_manual_comes_out_as_it_says() -> None:
    manual = (FOLDER / "README.md").read_text(encoding="utf-8")
    examples = re.findall(r"```toml\n(.*?)```", manual, re.DOTALL)
    assert len(examples) == 1
    file = load(examples[0].encode(), "README.md")
    came = stage(procedure_of(file), "-05").rehearse(file.departure)
    assert came.as_expected, [str(each) for each in came.unexpected]


def test_the_manual_names_every_key() -> None:
    manual = (FOLDER / "README.md").read_text(encoding="utf-8")
    for key in (*Departure.fields_by_key(), *RehearsalHead.fields_by_key(), *Deed.fields_by_key()):
        assert f"| `{key}` |" in manual, key


def test_the_manual_names_all_that_can_be_done_and_each_is_rehearsed_or_tried() -> None:
    manual = (FOLDER / "README.md").read_text(encoding="utf-8")
    rehearsed = {
        departure.do.what
        for path in FILES
        for departure in load(path.read_bytes(), str(path)).departure
        if departure.do is not None
    }
    for what in get_args(What):
        assert f"`{what}`" in manual, what
    assert set(get_args(What)) == rehearsed


def test_each_situation_of_a_bad_day_is_rehearsed_on_three_pumps_or_the_manual_says_why_not() -> None:
    rehearsed: dict[str, set[str]] = {}
    for path in FILES:
        for situation in load(path.read_bytes(), str(path)).rehearsal.situation:
            rehearsed.setdefault(situation, set()).add(path.parent.name.removeprefix("xmpl-"))
    manual = (FOLDER / "README.md").read_text(encoding="utf-8")
    table = manual[manual.index("| situation | rehearsed on |") :].partition("\n\n")[0]
    rows = [[cell.strip() for cell in row.strip("|").split("|")] for row in table.split("\n")[2:]]
    assert {situation: set(pumps.split(", ")) for situation, pumps, _ in rows} == rehearsed
    for situation, pumps, why in rows:
        assert (len(pumps.split(", ")) >= 3) != bool(why), situation


def test_the_manual_names_every_kind_of_fault() -> None:
    def below(kind: type[Fault]) -> list[type[Fault]]:
        return [kind, *(each for sub in kind.__subclasses__() for each in below(sub))]

    manual = (FOLDER / "README.md").read_text(encoding="utf-8")
    table = manual[manual.index("| kind |") : manual.index("Beside the state of the record")]
    named = {name for row in table.split("\n")[2:] if row for name in row.split("|")[1].strip().split(", ")}
    assert named == {each.kind for each in below(Fault) if each.kind}
