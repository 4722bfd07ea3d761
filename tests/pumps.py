"""Pumps for the tests of the core: the main one, read once, and tiny ones written out in the test that needs them."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime
from functools import cache
from pathlib import Path

from benchcheck.assembly.planned import planned_install
from benchcheck.assembly.pump import Pump
from benchcheck.assembly.refusal import Refusal
from benchcheck.assembly.state import Assembly
from benchcheck.procedure.model import Procedure
from benchcheck.session.fold import beginning
from benchcheck.session.rehearsal import header_for
from benchcheck.session.state import Job, Registers, State
from benchcheck.store.library import load_procedure, load_registers, parse_procedure
from benchcheck.store.workspace import Workspace

ROOT = Path(__file__).parents[1]
MAIN_PUMP = ROOT / "procedures" / "xmpl-hc40-c.toml"
NOW = datetime(2026, 11, 2, 7, 0, tzinfo=UTC)
"""When the tests work: all instruments and people of the registers are in date then, but for one wrench."""

TECHNICIAN, SECOND, THIRD, REVIEWER = "T. Sample", "W. Specimen", "Q. Example", "R. Outline"
"""May work; may work and witness; may witness, dispose, release and review; may dispose and review."""


@cache
def registers() -> Registers:
    """The registers of the demonstration shop."""
    return load_registers(Workspace(ROOT))


@cache
def main_job() -> Job:
    """The main pump, XMPL-HC40, with the demonstration registers."""
    return Job(load_procedure(MAIN_PUMP).procedure, registers())


def procedure_of(text: str, *, main: str = "body", variants: Sequence[str] = ()) -> Procedure:
    """A procedure out of the tables that matter to a test; the head is put on."""
    names = ", ".join(f'"{each}"' for each in variants)
    head = (
        'format = 1\nprocedure = { id = "tiny", title = "Tiny pump", revision = "A", status = "released", '
        f'author = "A. Template", models = ["XMPL-T"], main = "{main}", variants = [{names}] }}\n'
    )
    return parse_procedure((head + text).encode(), "tiny.toml").model


def tiny_pump(text: str, variant: str | None = None, *, variants: Sequence[str] = ()) -> Pump:
    return Pump(procedure_of(text, variants=variants), variant)


def tiny_job(text: str, *, variants: Sequence[str] = ()) -> Job:
    return Job(procedure_of(text, variants=variants), registers())


def opened(job: Job, variant: str | None = None) -> State:
    """The state before the first event."""
    return beginning(job, header_for(job, variant, NOW))


def built(pump: Pump, *things: str) -> Assembly:
    """An assembly with these put in, in this order, each as planned: parts, grooves (their rings), groups run in."""
    now = Assembly(pump)
    for thing in things:
        if thing in pump.grooves:
            groove = pump.grooves[thing]
            now = now.fitted(thing, pump.value(groove.takes) or "", groove.material)
        elif thing in pump.groups:
            now = now.started(thing)
        else:
            now = planned_install(now, thing)
    return now


def rules(refusals: Sequence[Refusal]) -> list[str]:
    """The rules that refuse, in order."""
    return [refusal.rule for refusal in refusals]
