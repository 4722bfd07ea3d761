"""The vane pump as shipped: its numbers by hand, its faults caught at the steps that must catch them."""

from __future__ import annotations

from functools import cache

import pytest

from benchcheck.assembly.tightening import shares_of_proof
from benchcheck.checking.catalogue import check
from benchcheck.checking.rings import gland_of
from benchcheck.checking.subject import Subject
from benchcheck.mechanics.gland import fit
from benchcheck.mechanics.o_ring import size
from benchcheck.procedure.model import Fasteners, Procedure
from benchcheck.procedure.reading import Read
from benchcheck.session.fault_run import faults_of, run_faults
from benchcheck.session.fault_walk import walks
from benchcheck.session.rehearsal import Stage
from benchcheck.session.state import Job
from benchcheck.store.library import parse_procedure
from tests.pumps import ROOT, registers
from tests.test_rehearsals import FOLDER, load

VANE = ROOT / "procedures" / "xmpl-vv07-a.toml"


@cache
def read() -> Read[Procedure]:
    return parse_procedure(VANE.read_bytes(), VANE.name)


def group(name: str) -> Fasteners:
    return next(each for each in read().model.fasteners if each.id == name)


def test_it_checks_clean_and_silences_nothing() -> None:
    found = check(Subject(read(), registers().wrenches, registers().gauges))
    assert [each.as_text() for each in found.findings] == [] and found.silenced == ()


# Preload by T / (K · d). Proof loads: M10 10.9 48.1 kN and M5 8.8 8.23 kN (ISO 898-1). M16 x 1.5, 8.8:
# 580 MPa up to 16 mm (ISO 898-1, from memory) on π/4 · (16 − 0.9382 · 1.5)² = 167.3 mm².
@pytest.mark.parametrize(
    ("name", "newton", "proof_newton"),
    [
        ("F1", 20 / (0.15 * 0.010), 48_100),
        ("F2", 90 / (0.15 * 0.016), 580 * 167.3),
        ("F5", 4 / (0.15 * 0.005), 8_230),
    ],
)
def test_how_much_of_their_proof_load_the_screws_take(name: str, newton: float, proof_newton: float) -> None:
    shares = shares_of_proof(group(name))
    assert shares is not None
    assert shares[1] == pytest.approx(newton / proof_newton, rel=0.003)


# Stretch: (bore − 2 · depth) / inside diameter. Sizes: AS568.
@pytest.mark.parametrize(("name", "stretch"), [("G1", 0.0193), ("G2", 0.0193), ("G4", 0.0220)])
def test_how_far_the_rings_are_stretched(name: str, stretch: float) -> None:
    told = next(each for each in read().model.groove if each.id == name)
    assert told.gland is not None and isinstance(told.takes, str)
    found = fit(size(told.takes), gland_of(told.gland))
    assert not found.misfits and found.stretch is not None
    assert found.stretch.nominal == pytest.approx(stretch, abs=0.0002)


MUST_BE_CAUGHT_AT = {
    "lip-the-habitual-way": "lip-in",
    "angle-given-twice": "F1",
    "angle-for-six-of-seven": "F1",
    "running-torque-forgotten": "nut-on",
    "running-torque-read-on-the-seat": "nut-on",
    "old-screws-from-the-tray": "screws-in",
}
"""The faults that a bench makes on this pump, and the step that has to catch each first."""


@pytest.mark.parametrize(("name", "step"), MUST_BE_CAUGHT_AT.items())
def test_each_fault_of_the_bench_is_rehearsed_and_caught_where_it_must_be(name: str, step: str) -> None:
    path = FOLDER / "xmpl-vv07" / f"{name}.toml"
    first = load(path.read_bytes(), str(path)).departure[0]
    assert first.step == step
    assert first.came != "passed"


def test_no_single_fault_is_let_through_or_left_to_one_look() -> None:
    job = Job(read().model, registers())
    ways = walks(Stage(job, None))
    found = [each for each in run_faults(ways, faults_of(job, ways[0])) if each is not None]
    assert len(found) > 200
    assert [each.words for each in found if each.let_through or each.thin] == []
