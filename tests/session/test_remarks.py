"""What stands out: on careful sessions nothing, and the heaviest first; each kind has its own tests."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from benchcheck.session.rehearsal import Run, rehearse
from benchcheck.session.remarks import DAMAGED, Remark, Weight, heaviest_first, kind, kinds, remarks
from benchcheck.session.state import Job
from benchcheck.store.library import load_procedure
from tests.pumps import NOW, ROOT, registers

PUMPS = sorted((ROOT / "procedures").glob("xmpl-*.toml"))


@cache
def careful_run(path: Path) -> Run:
    """The careful technician on a demonstration pump, in its first variant."""
    job = Job(load_procedure(path).procedure, registers())
    variants = job.procedure.procedure.variants
    return rehearse(job, variants[0] if variants else None)


@pytest.mark.parametrize("path", PUMPS, ids=lambda path: path.stem)
def test_nothing_stands_out_in_a_careful_session(path: Path) -> None:
    run = careful_run(path)
    assert run.state.outcome == "released"
    assert remarks(run.state, run.events, today=NOW.date()) == ()


def test_damage_comes_first() -> None:
    run = careful_run(PUMPS[0])
    assert remarks(run.state, run.events, damage=(17, "The seal does not match.")) == (
        Remark(DAMAGED, Weight.BROKEN, "The seal does not match.", 17),
    )


def test_the_heaviest_comes_first_then_the_order_of_the_events() -> None:
    odd = Remark("clock odd", Weight.ODD, "odd", 3)
    later = Remark("step redone", Weight.DEPARTS, "later", 9)
    sooner = Remark("step redone", Weight.DEPARTS, "sooner", 4)
    assert heaviest_first([odd, later, sooner]) == (sooner, later, odd)


@pytest.mark.parametrize("name", kinds())
def test_each_kind_says_why_it_matters_and_on_what_ground(name: str) -> None:
    """A published source in brackets, or "common practice"."""
    assert "(" in kind(name).WHY and kind(name).WHY.endswith(").")


@pytest.mark.parametrize("name", kinds())
def test_each_kind_has_its_own_tests(name: str) -> None:
    tests = Path(__file__).parent / "standing_out"
    assert any(f'"{name}"' in path.read_text() for path in tests.glob("test_*.py"))
