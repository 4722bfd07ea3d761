"""The end-suction pump as shipped: its numbers by hand, its faults caught where they must be."""

from __future__ import annotations

from datetime import date
from functools import cache

import pytest

from benchcheck.assembly.tightening import figure, share_shown, shares_of_proof
from benchcheck.checking.catalogue import check
from benchcheck.checking.rings import gland_of
from benchcheck.checking.subject import Subject
from benchcheck.mechanics.gland import fit
from benchcheck.mechanics.o_ring import size
from benchcheck.mechanics.wrench import Setting
from benchcheck.procedure.model import Fasteners, Procedure
from benchcheck.procedure.reading import Read
from benchcheck.session.fault_run import faults_of, run_faults
from benchcheck.session.fault_walk import walks
from benchcheck.session.rehearsal import Stage
from benchcheck.session.state import Job
from benchcheck.store.library import parse_procedure
from tests.pumps import NOW, ROOT, registers
from tests.test_rehearsals import FOLDER, load

END_SUCTION = ROOT / "procedures" / "xmpl-ef150-a.toml"
TODAY: date = NOW.date()


@cache
def read() -> Read[Procedure]:
    return parse_procedure(END_SUCTION.read_bytes(), END_SUCTION.name)


def group(name: str) -> Fasteners:
    return next(each for each in read().model.fasteners if each.id == name)


def test_it_checks_clean_and_silences_nothing() -> None:
    found = check(Subject(read(), registers().wrenches, registers().gauges))
    assert [each.as_text() for each in found.findings] == [] and found.silenced == ()


# Preload by T / (K · d). Proof loads of class 8.8: M12 48.9 kN, M8 21.2 kN, M10 33.7 kN (ISO 898-1). A4-70:
# 0.2 % proof strength of 450 MPa (from memory of ISO 3506-1) on 58.0 mm² (ISO 898-1).
@pytest.mark.parametrize(
    ("name", "newton", "proof_newton"),
    [
        ("F1", 60 / (0.15 * 0.012), 48_900),
        ("F2", 17 / (0.15 * 0.008), 21_200),
        ("F3", 24 / (0.15 * 0.010), 450 * 58.0),
        ("F7", 30 / (0.15 * 0.010), 33_700),
    ],
)
def test_how_much_of_their_proof_load_the_screws_take(name: str, newton: float, proof_newton: float) -> None:
    shares = shares_of_proof(group(name))
    assert shares is not None
    assert shares[1] == pytest.approx(newton / proof_newton, rel=0.003)


# Stretch of a ring on a shaft: shaft / inside diameter, of one in a bore: (bore − 2 · depth) / inside
# diameter. Inside diameters: AS568, -224 1.734 in, -242 3.984 in.
@pytest.mark.parametrize(
    ("name", "stretch"), [("G1", 1.772 / 1.734 - 1), ("G2", (4.331 - 2 * 0.111) / 3.984 - 1)]
)
def test_how_far_the_rings_are_stretched(name: str, stretch: float) -> None:
    told = next(each for each in read().model.groove if each.id == name)
    assert told.gland is not None and isinstance(told.takes, str)
    found = fit(size(told.takes), gland_of(told.gland))
    assert not found.misfits and found.stretch is not None
    assert found.stretch.nominal == pytest.approx(stretch, abs=0.0002)


# A crow-foot of 50 mm in line on a wrench of 450 mm: 60 · 450 / 500 = 54 N·m (FAA and military manuals).
def test_two_of_the_casing_screws_are_reached_with_a_crow_foot_and_less_on_the_scale() -> None:
    wrench = registers().wrench("TW-05")
    assert wrench is not None
    settings = [figure(group("F1"), wrench, 3, position, TODAY) for position in range(1, 13)]
    shown = [str(each.value) for each in settings if isinstance(each, Setting)]
    assert shown == ["60"] * 5 + ["54"] * 2 + ["60"] * 5
    assert share_shown(group("F1"), 6, wrench) == pytest.approx(0.9)


MUST_BE_CAUGHT_AT = {
    "clips-out-too-early": "set-screws",
    "gland-before-the-gap": "gap",
    "crow-foot-without-its-correction": "F1-r3",
    "second-round-resumed-by-memory": "F1-r2",
    "second-pass-after-forty-minutes": "wait",
    "old-gasket-under-the-new-one": "casing-on",
    "tab-not-bent": "locknut-on",
    "bearings-face-to-face": "pair-on",
}
"""The faults that a bench makes on this pump, and the step that has to catch each first."""


@pytest.mark.parametrize(("name", "step"), MUST_BE_CAUGHT_AT.items())
def test_each_fault_of_the_bench_is_rehearsed_and_caught_where_it_must_be(name: str, step: str) -> None:
    path = FOLDER / "xmpl-ef150" / f"{name}.toml"
    first = load(path.read_bytes(), str(path)).departure[0]
    assert first.step == step
    assert first.came != "passed"


def test_no_single_fault_is_let_through_or_left_to_one_look() -> None:
    job = Job(read().model, registers())
    ways = walks(Stage(job, None))
    found = [each for each in run_faults(ways, faults_of(job, ways[0])) if each is not None]
    assert len(found) > 200
    assert [each.words for each in found if each.let_through or each.thin] == []
