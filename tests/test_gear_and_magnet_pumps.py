"""Two of the shipped pumps: their numbers by hand, their faults caught at the steps that must catch them."""

from __future__ import annotations

from datetime import date
from functools import cache
from pathlib import Path

import pytest

from benchcheck.assembly.tightening import figure, shares_of_proof
from benchcheck.checking.catalogue import check
from benchcheck.checking.rings import gland_of
from benchcheck.checking.subject import Subject
from benchcheck.mechanics.gland import fit
from benchcheck.mechanics.o_ring import size
from benchcheck.mechanics.units import parse
from benchcheck.mechanics.wrench import Refused, Setting
from benchcheck.procedure.model import Fasteners, Groove, Procedure
from benchcheck.procedure.reading import Read
from benchcheck.session.fault_run import faults_of, run_faults
from benchcheck.session.fault_walk import walks
from benchcheck.session.rehearsal import Stage
from benchcheck.session.state import Job
from benchcheck.store.library import parse_procedure
from tests.pumps import NOW, ROOT, registers
from tests.test_rehearsals import FOLDER, load

GEAR, MAGNET = ROOT / "procedures" / "xmpl-gx18-b.toml", ROOT / "procedures" / "xmpl-mc05-a.toml"
TODAY: date = NOW.date()


@cache
def read(path: Path) -> Read[Procedure]:
    return parse_procedure(path.read_bytes(), path.name)


def group(path: Path, name: str) -> Fasteners:
    return next(each for each in read(path).model.fasteners if each.id == name)


def groove(path: Path, name: str) -> Groove:
    return next(each for each in read(path).model.groove if each.id == name)


@pytest.mark.parametrize("path", [GEAR, MAGNET], ids=lambda path: path.stem)
def test_it_checks_clean_and_silences_nothing(path: Path) -> None:
    found = check(Subject(read(path), registers().wrenches, registers().gauges))
    assert [each.as_text() for each in found.findings] == [] and found.silenced == ()


# Preload by T / (K · d). Proof load of M8 8.8: ISO 898-1, 21.2 kN. Of M6 A4-70: 0.2 % proof strength of
# 450 MPa (from memory of ISO 3506-1) on 20.1 mm² (ISO 898-1).
@pytest.mark.parametrize(
    ("path", "name", "newton", "proof_newton"),
    [
        (GEAR, "F1", 18 / (0.15 * 0.008), 21_200),
        (MAGNET, "F1", 5 / (0.15 * 0.006), 450 * 20.1),
        (MAGNET, "F2", 12 / (0.15 * 0.008), 21_200),
        (MAGNET, "F3", 17 / (0.15 * 0.008), 21_200),
    ],
)
def test_how_much_of_their_proof_load_the_screws_take(
    path: Path, name: str, newton: float, proof_newton: float
) -> None:
    shares = shares_of_proof(group(path, name))
    assert shares is not None
    assert shares[1] == pytest.approx(newton / proof_newton, rel=0.003)


# Stretch by the centre lines: 350 mm round the groove over π · (4.237 + 0.103) in of the ring; the others by
# (bore − 2 · depth) / inside diameter. Sizes: AS568.
@pytest.mark.parametrize(
    ("path", "name", "stretch"), [(GEAR, "G1", 0.0107), (GEAR, "G2", 0.0107), (MAGNET, "G2", 0.0252)]
)
def test_how_far_the_rings_are_stretched(path: Path, name: str, stretch: float) -> None:
    told = groove(path, name)
    assert told.gland is not None and isinstance(told.takes, str)
    found = fit(size(told.takes), gland_of(told.gland))
    assert not found.misfits and found.stretch is not None
    assert found.stretch.nominal == pytest.approx(stretch, abs=0.0002)


def test_the_coated_ring_is_not_stretched_and_leans_on_its_wall() -> None:
    told = groove(MAGNET, "G1")
    assert told.gland is not None and isinstance(told.takes, str) and told.single_use == "once fitted"
    found = fit(size(told.takes), gland_of(told.gland), stretch_limit=0.0)
    assert found.stretch is None and not found.misfits
    # OD of a -245: 4.359 + 2 · 0.139 in (AS568)
    assert found.clearance_inch is not None and found.clearance_inch.nominal == pytest.approx(0.003, abs=1e-6)


# Between 4.6 · 1.06 and 5.4 · 0.94 N·m the truth stays inside whatever the wrench shows.
def test_the_small_wrench_holds_eight_per_cent_and_not_five() -> None:
    wrench = registers().wrench("TW-03")
    shell = group(MAGNET, "F1")
    assert wrench is not None and shell.torque is not None
    setting = figure(shell, wrench, 3, 1, TODAY)
    assert isinstance(setting, Setting)
    assert (str(setting.low_mark), str(setting.high_mark)) == ("4.9", "5.0")
    tighter = shell.torque.model_copy(update={"tolerance": parse("5 %", "share")})
    refused = figure(shell.model_copy(update={"torque": tighter}), wrench, 3, 1, TODAY)
    assert isinstance(refused, Refused) and refused.hurdle == "accuracy"


def test_only_one_wrench_of_the_shop_turns_the_hub_screw_its_way() -> None:
    outcomes = [(each.id, figure(group(MAGNET, "F2"), each, 1, 1, TODAY)) for each in registers().wrenches]
    assert [name for name, outcome in outcomes if isinstance(outcome, Setting)] == ["TW-08"]


MUST_BE_CAUGHT_AT = {
    "xmpl-gx18/front-plate-turned": "plate-front-in",
    "xmpl-gx18/rear-plate-turned": "plate-rear-in",
    "xmpl-gx18/open-side-to-the-outlet": "plate-front-in",
    "xmpl-gx18/back-up-ring-first": "front-seals-in",
    "xmpl-gx18/lengths-exchanged": "screws-in",
    "xmpl-gx18/body-end-for-end-r": "body-on",
    "xmpl-gx18/body-end-for-end-l": "body-on",
    "xmpl-gx18/dowel-left-over": "dowels-front-in",
    "xmpl-gx18/lips-back-to-back": "main-lip-in",
    "xmpl-mc05/hub-screw-clockwise": "lay-out",
    "xmpl-mc05/coated-ring-rolled-over": "fit-G1",
    "xmpl-mc05/three-at-full-torque": "F1",
    "xmpl-mc05/mineral-grease-on-epdm": "insert-in",
}
"""The faults that a bench makes on these pumps, and the step that has to catch each first."""


@pytest.mark.parametrize(("name", "step"), MUST_BE_CAUGHT_AT.items())
def test_each_fault_of_the_bench_is_rehearsed_and_caught_where_it_must_be(name: str, step: str) -> None:
    path = FOLDER / f"{name}.toml"
    first = load(path.read_bytes(), str(path)).departure[0]
    assert first.step == step
    assert first.came != "passed"


@pytest.mark.parametrize(("path", "variant"), [(GEAR, "R"), (GEAR, "L"), (MAGNET, None)])
def test_no_single_fault_is_let_through_or_left_to_one_look(path: Path, variant: str | None) -> None:
    job = Job(read(path).model, registers())
    ways = walks(Stage(job, variant))
    found = [each for each in run_faults(ways, faults_of(job, ways[0])) if each is not None]
    assert len(found) > 200
    assert [each.words for each in found if each.let_through or each.thin] == []
