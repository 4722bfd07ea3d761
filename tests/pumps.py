"""Pumps for the tests of the core: the main one, read once, and tiny ones written out in the tests."""

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
    """Parts put in, grooves filled and groups run in, in this order, each as planned."""
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


CAN = """
must_face = [
  { part = "lip", end = "mouth", toward = "top", because = "the mouth has to face the oil" },
  { part = "cover", end = "face", toward = "bottom", because = "the groove presses on the ground face" },
]
must_line_up = [{ part = "cover", mark = "dot", toward = "notch", because = "the ports have to meet" }]
stack = [{ on = "body", from = "top", order = ["cover", "lip"] }]

[[part]]
id = "body"
ends = ["top", "bottom"]
marks = { notch = 0 }

[[part]]
id = "lip"
ends = ["mouth", "back"]
into = "body"
from = "top"
shows = "mouth"
fit = "press"
single_use = "once disturbed"

[[part]]
id = "cover"
ends = ["face", "rear"]
marks = { dot = 0, arrow = 180 }
into = "body"
from = "top"
shows = "rear"
lines_up = { dot = "body: notch" }
ways = 2

[[groove]]
id = "G"
in = "body"
where = "round the mouth of the can"
against = "cover"
takes = "-110"
material = "NBR"

[[fasteners]]
id = "F"
name = "cover screws"
into = "body"
from = "top"
holds = ["cover"]
layout = { circle = 4, seen_from = "top" }
rounds = ["50 %", "100 %"]
torque = { target = "20 N·m", tolerance = "10 %" }

[[step]]
id = "open"
phase = "teardown"
act = "remove"
off = ["F", "cover", "G", "lip"]

[[step]]
id = "bore"
phase = "inspection"
act = "measure"
of = ["body"]
ask = [{ what = "bore of the seat", min = "30.00 mm", max = "30.05 mm" }]

[[step]]
id = "lip-in"
part = "lip"
ask = [{ what = "depth of the lip", min = "0 mm", max = "0.2 mm" }]
outside = "again"

[[step]]
id = "cover-on"
rings = ["G"]
part = "cover"

[[step]]
id = "F-tight"
group = "F"

[[step]]
id = "gap"
act = "measure"
of = ["cover"]
ask = [{ what = "gap under the cover", max = "0.05 mm" }]
outside = "back to cover"

[[step]]
id = "release"
phase = "release"
act = "sign"
"""
"""A can with a lip, a ring, and a cover with four screws: the smallest pump that has a bit of everything."""


def can_with(*changes: tuple[str, str]) -> str:
    """The can, with pieces of its text changed; each must be there."""
    text = CAN
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    return text


LOOSE = can_with(
    ('fit = "press"\n', "never_loose = true\n"),
    (
        "[[groove]]",
        """[[part]]
id = "clip"
into = "lip"
from = "side"
holds = ["lip"]
temporary = true

[[groove]]""",
    ),
    (
        "[[fasteners]]",
        """[[fasteners]]
id = "S"
name = "set screws"
into = "body"
from = "side"
holds = ["lip"]

[[fasteners]]""",
    ),
    (
        '[[step]]\nid = "lip-in"',
        """[[step]]
id = "clip-on"
part = "clip"

[[step]]
id = "lip-in\"""",
    ),
    (
        '[[step]]\nid = "cover-on"',
        """[[step]]
id = "S-tight"
group = "S"

[[step]]
id = "clip-off"
act = "remove"
off = ["clip"]
after = ["S-tight"]

[[step]]
id = "cover-on\"""",
    ),
    (
        'off = ["F", "cover", "G", "lip"]\n',
        """off = ["F", "cover", "G"]

[[step]]
id = "clip-back"
phase = "teardown"
part = "clip"

[[step]]
id = "open-seal"
phase = "teardown"
act = "remove"
off = ["S", "lip", "clip"]
""",
    ),
)
"""The can with a lip that may never be loose: a clip holds it until its set screws do."""
