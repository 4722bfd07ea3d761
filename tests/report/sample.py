"""A small pump of its own for the tests of reports, its registers, and sessions rehearsed on it.

Nothing of the demonstration is used, so that the pictures of reports change only when reports do.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from functools import cache
from typing import Any

from benchcheck.procedure.reading import read_model
from benchcheck.procedure.registers import InstrumentRegister, PeopleRegister, Shop
from benchcheck.procedure.source import read as read_source
from benchcheck.procedure.table import Table
from benchcheck.report.journal import Journal, journal_of, proof_of
from benchcheck.session import commands, engine
from benchcheck.session.events import Event, TakenUp
from benchcheck.session.fold import beginning, folded
from benchcheck.session.prompt import Outcome, Prompt
from benchcheck.session.record import Chain, header_bytes, read
from benchcheck.session.rehearsal import Departure, RehearsalFile, careful_answer, header_for, rehearse
from benchcheck.session.state import Job, Registers, State
from benchcheck.session.verification import verify
from benchcheck.store.library import parse_procedure

BEGINS = datetime(2026, 11, 2, 7, 0, tzinfo=UTC)

PROCEDURE = """
format = 1

must_face = [
  { part = "seal", end = "lip", toward = "inside", because = "the lip has to face the oil" },
  { part = "cover", end = "flange", toward = "outside", because = "the other face carries the ring" },
]
must_line_up = [
  { part = "cover", mark = "notch", toward = "pin", because = "the drain hole has to stay lowest" },
]

[procedure]
id = "tiny"
title = "Rebuild of the small test pump"
revision = "B"
status = "released"
author = "D. Template"
models = ["XMPL-T1"]
main = "body"

[[caution]]
signal = "WARNING"
text = "The spring behind the cover jumps."
before = ["cover-on"]

[[caution]]
signal = "NOTICE"
text = "Qualified people overrule this procedure."

[[part]]
id = "body"
ends = ["outside", "inside"]
marks = { "pin" = 0 }

[[part]]
id = "shaft"
ends = ["thread", "root"]
into = "body"
from = "outside"
shows = "thread"

[[part]]
id = "seal"
name = "lip seal"
ends = ["lip", "back"]
into = "body"
from = "outside"
shows = "back"
single_use = "once disturbed"

[[part]]
id = "cover"
ends = ["flange", "spigot"]
marks = { "notch" = 0 }
into = "body"
from = "outside"
shows = "flange"
lines_up = { "notch" = "body: pin" }

[[part]]
id = "nut"
into = "shaft"
from = "thread"
single_use = "once disturbed"

[[groove]]
id = "G1"
in = "cover"
where = "round the spigot"
against = "body"
takes = "-137"
material = "NBR"

[[fasteners]]
id = "F1"
name = "cover screws"
into = "body"
from = "outside"
holds = ["cover"]
layout = { circle = 4, seen_from = "outside", datum = "the pin" }
rounds = ["50 %", "100 %"]
pass = true
torque = { target = "20 N·m", tolerance = "10 %" }
thread = "M8"
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.15 }

[[fasteners]]
id = "F2"
name = "shaft nut"
into = "shaft"
from = "thread"
holds = ["shaft"]
parts = ["nut"]
torque = { target = "30 N·m", tolerance = "3 N·m" }
low_because = "the hub is the limit"
[fasteners.threadlocker]
strength = "medium"
amount = "2 drops"
where = "nut threads"
handling = "20 min"
cure = "6 h"
bars = "test"

[kit]
holds = [{ ring = "-137", material = "NBR" }, { part = "seal" }, { part = "nut" }]

[[step]]
id = "arrive"
phase = "intake"
act = "check"
name = "Read the plate"
ask = [
  { what = "lot on the bag", kind = "lot", keep = "kit-lot" },
  { what = "lines", one_of = ["off", "on"], good = ["off"] },
]

[[step]]
id = "open"
phase = "teardown"
act = "remove"
off = ["F2", "nut", "F1", "cover", "G1", "shaft", "seal"]

[[step]]
id = "measure"
phase = "inspection"
act = "measure"
name = "Shaft runout"
of = ["shaft"]
between = false
ask = [{ what = "runout", max = "0.05 mm", with = "dial indicator", of = ["shaft"] }]
outside = "again"

[[step]]
id = "seal-in"
part = "seal"

[[step]]
id = "look"
act = "check"
name = "Which way the lip faces"
of = ["seal"]
witness = true

[[step]]
id = "shaft-in"
part = "shaft"

[[step]]
id = "cover-on"
rings = ["G1"]
part = "cover"

[[step]]
id = "tighten"
group = "F1"

[[step]]
id = "nut-on"
part = "nut"
group = "F2"

[[step]]
id = "cure"
phase = "test"
act = "wait"
clock = "F2 cure"

[[step]]
id = "test"
phase = "test"
act = "test"
name = "Pressure"
ask = [{ what = "pressure", min = "9 bar", max = "10 bar", hold = "5 min" }]

[[step]]
id = "release"
phase = "release"
act = "sign"
ask = [{ what = "parts left on the mat", kind = "mat" }]
"""

INSTRUMENTS = """
format = 1

[[wrench]]
id = "W-1"
kind = "dial"
range = ["5 N·m", "50 N·m"]
graduation = "0.5 N·m"
accuracy = "3 %"
length = "300 mm"
calibration_due = 2027-01-31

[[wrench]]
id = "W-2"
kind = "setting"
range = ["20 N·m", "100 N·m"]
graduation = "1 N·m"
accuracy = "4 %"
length = "400 mm"
calibration_due = 2027-03-31
"""

PEOPLE = """
format = 1

[[person]]
name = "T. Sample"
may = ["work"]

[[person]]
name = "W. Specimen"
may = ["work", "witness"]

[[person]]
name = "Q. Example"
may = ["witness", "dispose", "release", "review"]

[[person]]
name = "R. Outline"
may = ["dispose", "review"]
"""


def _model(text: str, kind: type[Table]) -> Table:
    source = read_source(text.encode(), "sample.toml")
    assert not isinstance(source, list), source
    found = read_model(source, kind)
    assert not isinstance(found, list), found
    return found.model


@cache
def registers(time_zone: str = "UTC") -> Registers:
    instruments, people = _model(INSTRUMENTS, InstrumentRegister), _model(PEOPLE, PeopleRegister)
    assert isinstance(instruments, InstrumentRegister) and isinstance(people, PeopleRegister)
    shop = Shop(name="Sample Shop", bench="bench 2", time_zone=time_zone)
    return Registers(shop, instruments.wrenches(), (), people)


def job(procedure: str = PROCEDURE) -> Job:
    return Job(parse_procedure(procedure.encode(), "tiny.toml").model, registers())


def departures(text: str) -> tuple[Departure, ...]:
    """The `[[departure]]` tables of a rehearsal file."""
    head = 'format = 1\n[rehearsal]\nprocedure = "tiny"\ntitle = "a test"\n'
    found = _model(head + text, RehearsalFile)
    assert isinstance(found, RehearsalFile)
    return found.departure


def rehearsed(text: str = "", procedure: str = PROCEDURE) -> tuple[State, tuple[Event, ...]]:
    """A whole session of the careful technician with these departures, as state and events."""
    run = rehearse(job(procedure), None, departures(text), BEGINS)
    assert run.as_expected, run.unexpected
    return run.state, run.events


class Bench:
    """A session driven by hand: careful answers up to a question, then whatever the test wants."""

    def __init__(
        self,
        procedure: str = PROCEDURE,
        *,
        of: Job | None = None,
        variant: str | None = None,
        **header: object,
    ) -> None:
        made = of or job(procedure)
        told: dict[str, Any] = {"serial": "4471", "time_zone": "Europe/Sofia", **header}
        self.state = beginning(made, replace(header_for(made, variant, BEGINS), **told))
        self.events: tuple[Event, ...] = ()
        self.now = BEGINS

    def write(self, result: tuple[Event, ...] | Outcome) -> None:
        assert not isinstance(result, Outcome), result.refusals
        self.state = folded(self.state, result)
        self.events += result

    def prompt(self) -> Prompt:
        prompt = engine.ask(self.state, self.now)
        assert prompt is not None
        return prompt

    def answer(self, text: str | None = None, why: str = "") -> None:
        """Answer what is asked: with care if nothing is given, over a refusal if there is a reason."""
        self.now += timedelta(seconds=15)
        if (until := self.prompt().until) is not None:
            self.now = max(self.now, until)
        prompt = self.prompt()
        text = careful_answer(self.state, prompt, self.now) if text is None else text
        over = engine.Takeover(why) if why else None
        self.write(engine.answer(self.state, prompt.id, text, self.now, over=over))

    def until(self, act: str, question: str = "") -> None:
        """Careful answers, until a question of an act is asked."""
        while not (self.prompt().act.startswith(act) and self.prompt().question.startswith(question)):
            self.answer()

    def command(self, do: Callable[..., tuple[Event, ...] | Outcome], *arguments: object) -> None:
        """One of `session.commands`."""
        self.now += timedelta(seconds=15)
        self.write(do(self.state, *arguments, self.now))

    def happen(self, event: Event) -> None:
        """An event that no answer brings about."""
        self.now += timedelta(seconds=15)
        self.write(engine.written(self.state, (event,), self.now))

    def finish(self) -> None:
        while engine.ask(self.state, self.now) is not None:
            self.answer()

    def journal(self) -> Journal:
        return journal(self.state, self.events)


def record_of(state: State, events: tuple[Event, ...]) -> bytes:
    """The bytes of the record of a session."""
    data = header_bytes(state.header)
    chain = Chain(data)
    for event in events:
        block, chain = chain.then(event.as_table())
        data += block
    return data


SEAL = hashlib.sha256(b"a sample").hexdigest()


"""Stands in for the seal of the last event, so that reports stay as they are when an event gets a field."""


def journal(state: State, events: tuple[Event, ...]) -> Journal:
    """The session read for a report."""
    record = read(record_of(state, events))
    proof = proof_of("4471-20261102T070000Z.toml", record, verify(record, (), None))
    return journal_of(state, events, replace(proof, seal=SEAL))


@cache
def released() -> Journal:
    """The careful technician's session."""
    bench = Bench()
    bench.finish()
    return bench.journal()


@cache
def departed() -> Journal:
    """A session in which much went otherwise, and all of it was mended or decided on."""
    bench = Bench()
    bench.until("open/remove:cover", "face")
    bench.answer("flange")
    bench.until("open/remove:seal", "face")
    bench.answer("lip")  # it came in the wrong way round
    bench.until("measure/ask")
    bench.answer("0.08")
    bench.answer("again")
    bench.answer("0.03")
    bench.command(commands.correct, bench.events[-1].number, "read the wrong line")
    bench.answer("0.02")
    bench.until("cover-on/fit:G1")
    bench.answer("-138 NBR", why="the kit holds no other one")
    bench.until("tighten/tighten:F1", "round 2 position 2")
    bench.command(commands.stop, "end of shift")
    bench.now += timedelta(hours=14)
    bench.happen(TakenUp(stopped=True, pause_seconds=14 * 3600))
    bench.until("tighten/tighten:F1", "round 2 position 3")
    bench.answer("18.5")
    bench.until("tighten/tighten:F1", "pass 2")
    bench.answer("moved")
    bench.until("cure/wait")
    bench.command(commands.go_back, "nut", "the wrong locker was used")
    bench.until("release/ask")
    bench.command(commands.remark, "the cover is scratched <outside>")
    bench.until("release/sign")
    bench.command(commands.dispose, 1, "use as is", "Q. Example", "the sizes differ by 0.1 mm only")
    bench.finish()
    return bench.journal()


@cache
def left(act: str, question: str = "", minutes: int = 1) -> tuple[Journal, datetime]:
    """The careful session, left at a question; and the time some minutes later."""
    bench = Bench()
    bench.until(act, question)
    bench.command(commands.stop, "end of shift")
    return bench.journal(), bench.now + timedelta(minutes=minutes)
