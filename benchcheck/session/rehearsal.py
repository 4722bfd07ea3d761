"""A procedure run without a pump: the careful technician, and the departures of a file of answers.

Only departures are written down; every other answer is worked out from the procedure. No record is made: the
engine is driven as at the bench, with a clock that is set on by hand.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from typing import Annotated, Literal

from pydantic import Field

from benchcheck.procedure.model import Duration, Identifier, Text
from benchcheck.procedure.table import Table
from benchcheck.session import arrival, commands, engine
from benchcheck.session.acts import questions as asked
from benchcheck.session.events import Event
from benchcheck.session.fold import beginning, folded
from benchcheck.session.prompt import Outcome, Prompt
from benchcheck.session.record import Header
from benchcheck.session.state import Job, State

Came = Literal["refused", "recorded", "voided", "asked again", "passed"]

BEGINS = datetime(2026, 11, 2, 7, 0, tzinfo=UTC)
"""When a rehearsal begins, unless the file says otherwise; due dates of the registers count from it."""
ONE_ANSWER = timedelta(seconds=15)
MOST_ANSWERS = 20_000
"""More than any procedure asks: past it, the engine goes round in circles."""


class RehearsalHead(Table):
    """`[rehearsal]`: which procedure, and what it is to show."""

    procedure: Identifier = Field(description="id of the procedure")
    title: Text = Field(description="what it shows")
    variant: Text | None = Field(default=None, description="variant it is for; none: each")
    begins: Annotated[str | None, Field(description="RFC 3339 time it begins at")] = None


class Departure(Table):
    """`[[departure]]`: one answer that is not the careful one, and what must come of it."""

    step: Identifier = Field(description="the step it is given in")
    question: Text | None = Field(
        default=None, description="the question, by name; the step's first if left out"
    )
    target: Text | None = Field(default=None, description="part, groove or group it is about")
    answer: str | None = Field(default=None, description="what is answered")
    leave_out: Text | None = Field(default=None, description="reason for which the act is left out instead")
    early: Duration | None = Field(
        default=None, description="how long before its clock is over it is answered"
    )
    reason: Text | None = Field(default=None, description="reason with which the refusal is taken over")
    mend: bool = Field(default=False, description="the way the refusal offers is taken")
    came: Came = Field(description="refused, recorded, voided, asked again or passed")
    rule: Text | None = Field(default=None, description="the rule that refuses it")


class RehearsalFile(Table):
    """A whole rehearsal file."""

    format: Literal[1] = Field(description="version of this format")
    rehearsal: RehearsalHead
    departure: tuple[Departure, ...] = ()


@dataclass(frozen=True, slots=True)
class Result:
    """What came of one departure."""

    step: str
    departure: str
    expected: str
    came: str
    rule: str
    message: str

    def as_expected(self, wanted_rule: str | None) -> bool:
        return self.came == self.expected and (wanted_rule is None or wanted_rule == self.rule)


@dataclass(frozen=True)
class Run:
    """A whole rehearsal."""

    variant: str | None
    results: tuple[Result, ...]
    unexpected: tuple[str, ...]
    """What did not come out as expected, in sentences."""
    state: State
    events: tuple[Event, ...]
    answers: int = 0

    @property
    def as_expected(self) -> bool:
        return not self.unexpected


@dataclass
class _Bench:
    """The state under way; the only thing here that changes."""

    state: State
    now: datetime
    waiting: list[Departure]
    results: list[Result] = field(default_factory=list)
    unexpected: list[str] = field(default_factory=list)
    events: list[Event] = field(default_factory=list)
    answers: int = 0

    def write(self, events: tuple[Event, ...]) -> None:
        self.state = folded(self.state, events)
        self.events += events


def header_for(job: Job, variant: str | None, begins: datetime) -> Header:
    head = job.procedure.procedure
    return Header(
        serial="REHEARSAL",
        procedure=head.id,
        revision=head.revision,
        procedure_sha256="",
        variant=variant or "",
        practice=False,
        program_version="",
        host="",
        bench=job.registers.shop.bench,
        time_zone=job.registers.shop.time_zone,
        opened=begins.isoformat(),
    )


def rehearse(
    job: Job, variant: str | None, departures: tuple[Departure, ...] = (), begins: datetime = BEGINS
) -> Run:
    """Run the careful technician through one variant, with the departures where they are due."""
    bench = _Bench(beginning(job, header_for(job, variant, begins)), begins, list(departures))
    while (prompt := engine.ask(bench.state, bench.now)) is not None and bench.answers < MOST_ANSWERS:
        bench.answers += 1
        departure = _due(bench, prompt)
        before = bench.state.number
        if departure is not None:
            bench.waiting.remove(departure)
            _depart(bench, prompt, departure)
        elif not _careful(bench, prompt):
            break
        if bench.state.number == before and departure is None:
            break
    for left in bench.waiting:
        bench.unexpected.append(
            f"{left.step}: the departure was never due; is the step, question or target right?"
        )
    if bench.state.outcome != "released" and not bench.unexpected:
        bench.unexpected.append(f"the pump was not released: {bench.state.outcome}")
    return Run(
        variant,
        tuple(bench.results),
        tuple(bench.unexpected),
        bench.state,
        tuple(bench.events),
        bench.answers,
    )


def careful_answer(state: State, prompt: Prompt, now: datetime) -> str:
    """What a careful technician answers."""
    if not prompt.act:
        return arrival.careful(state, prompt)
    act = engine.next_act(state)
    assert act is not None
    if prompt.question in ("outside", "clock"):
        return prompt.choices[0].value if prompt.choices else ""
    return engine.module_of(act).careful(state, act, prompt, now)


def _careful(bench: _Bench, prompt: Prompt) -> bool:
    """Answer with care; False if that was refused."""
    if prompt.until is not None and prompt.until > bench.now:
        bench.now = prompt.until
        prompt = engine.ask(bench.state, bench.now) or prompt
        if prompt.question == "clock":
            return True
    if prompt.question == "second":
        _dispose_of_all(bench)
        prompt = engine.ask(bench.state, bench.now) or prompt
    answer = careful_answer(bench.state, prompt, bench.now)
    bench.now += ONE_ANSWER
    outcome = engine.answer(bench.state, prompt.id, answer, bench.now)
    if isinstance(outcome, Outcome):
        refusal = outcome.refusals[0]
        if outcome.mend:
            bench.write(engine.written(bench.state, outcome.mend, bench.now))
            return True
        bench.unexpected.append(
            f"{prompt.step or 'arrival'}: a careful answer ({answer!r} to {prompt.question}) was refused by "
            f"{refusal.rule}: {refusal.wrong}"
        )
        return False
    bench.write(outcome)
    return True


def _dispose_of_all(bench: _Bench) -> None:
    for open_one in bench.state.open_deviations:
        name = asked.careful_second(bench.state, "dispose", bench.now)
        result = commands.dispose(bench.state, open_one.deviation, "use as is", name, "rehearsed", bench.now)
        if not isinstance(result, Outcome):
            bench.write(result)


def _due(bench: _Bench, prompt: Prompt) -> Departure | None:
    """The next departure, if this prompt is the one it is for."""
    for departure in bench.waiting[:1]:
        if departure.step != prompt.step:
            return None
        if departure.question is not None and departure.question != prompt.question:
            return None
        if departure.target is not None and departure.target not in (
            prompt.target,
            prompt.act.rpartition(":")[2],
        ):
            return None
        return departure
    return None


def _depart(bench: _Bench, prompt: Prompt, departure: Departure) -> None:
    voided, facts = bench.state.voided, bench.state.number
    said = departure.answer if departure.answer is not None else ""
    if prompt.until is not None:
        early = timedelta(seconds=departure.early.si) if departure.early is not None else timedelta()
        bench.now = max(bench.now, prompt.until - early)
    bench.now += timedelta(seconds=1) if departure.early is None else timedelta()
    prompt = engine.ask(bench.state, bench.now) or prompt
    over = engine.Takeover(departure.reason) if departure.reason is not None else None
    if departure.leave_out is not None:
        outcome: tuple[Event, ...] | Outcome = engine.leave_out(bench.state, departure.leave_out, bench.now)
        said = "left out"
    else:
        outcome = engine.answer(bench.state, prompt.id, said, bench.now, over=over)
    rule = message = ""
    if isinstance(outcome, Outcome):
        came = "refused"
        rule, message = outcome.refusals[0].rule, outcome.refusals[0].wrong
        if departure.mend and outcome.mend:
            bench.write(engine.written(bench.state, outcome.mend, bench.now))
    else:
        bench.write(outcome)
        after = engine.ask(bench.state, bench.now)
        deviated = [event for event in outcome if event.kind == "deviation"]
        if deviated:
            came, rule, message = "recorded", deviated[0].rules[0], deviated[0].wrong  # type: ignore[attr-defined]
        elif bench.state.outside:
            came, rule, message = "recorded", "reading-outside-its-limits", bench.state.outside
        elif bench.state.voided > voided:
            came = "voided"
        elif after is not None and after.act == prompt.act and after.question == prompt.question and facts:
            came = "asked again"
        else:
            came = "passed"
    result = Result(prompt.step, f"{prompt.question}: {said}", departure.came, came, rule, message)
    bench.results.append(result)
    if not result.as_expected(departure.rule):
        wanted = departure.came + (f" by {departure.rule}" if departure.rule else "")
        bench.unexpected.append(
            f"{prompt.step}: {prompt.question} answered {said!r}: expected {wanted}, came {came}"
            + (f" by {rule}: {message}" if rule else "")
        )
