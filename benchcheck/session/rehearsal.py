"""A procedure run without a pump: the careful technician, and the departures of a file of answers.

Only departures are written down; every other answer is worked out from the procedure. No record is made: the
engine is driven as at the bench, with a clock that is set on by hand.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta

from benchcheck.assembly.way_back import died
from benchcheck.procedure.wording import nearest
from benchcheck.session import commands, deeds, engine
from benchcheck.session.careful import ONE_ANSWER as ONE_ANSWER
from benchcheck.session.careful import asked_at, careful_step
from benchcheck.session.careful import careful_answer as careful_answer
from benchcheck.session.events import Deviation, Event, GroupLoosened, PartRemoved, RingLifted
from benchcheck.session.fold import beginning, folded
from benchcheck.session.going_back import BACK
from benchcheck.session.leaning import step_of
from benchcheck.session.prompt import Outcome, Prompt
from benchcheck.session.record import Header
from benchcheck.session.rehearsal_file import IN_NO_STEP, ON_ARRIVAL, OPEN, RELEASED, Came, Deed
from benchcheck.session.rehearsal_file import Departure as Departure
from benchcheck.session.rehearsal_file import RehearsalFile as RehearsalFile
from benchcheck.session.state import Job, State

BEGINS = datetime(2026, 11, 2, 7, 0, tzinfo=UTC)
"""When a rehearsal begins, unless the file says otherwise; due dates of the registers count from it."""
OUTSIDE = "reading-outside-its-limits"
MOST_ANSWERS = 3_000
"""More than any procedure asks: past it, the engine goes round in circles."""


@dataclass(frozen=True, slots=True)
class Result:
    """What came of one departure."""

    step: str
    departure: str
    expected: str
    came: str
    rule: str
    message: str
    """What is wrong, in a sentence; for going back, what came off and what that cost."""
    said: str = ""
    """All that was said: what is wrong, the reasons, where, and what mends it."""
    wanted: str = ""
    """What was expected, in words, where that is not what came; else empty."""

    @property
    def as_expected(self) -> bool:
        return not self.wanted


@dataclass(frozen=True, slots=True)
class Unexpected:
    """Something that did not come out as expected."""

    sentence: str
    departure: int | None = None
    """Which of the departures it is about, from 0; None: the careful technician."""

    def __str__(self) -> str:
        return self.sentence


@dataclass(frozen=True)
class Run:
    """A whole rehearsal."""

    variant: str | None
    results: tuple[Result, ...]
    """One for each departure that was due, in order."""
    unexpected: tuple[Unexpected, ...]
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
    unexpected: list[Unexpected] = field(default_factory=list)
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


@dataclass(frozen=True)
class Stage:
    """One variant of a procedure, ready for rehearsals: all that are run on it share the careful way."""

    job: Job
    variant: str | None
    begins: datetime = BEGINS
    start: State = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        header = header_for(self.job, self.variant, self.begins)
        object.__setattr__(self, "start", beginning(self.job, header))

    def rehearse(
        self, departures: tuple[Departure, ...] = (), until: str | None = None, ends: str | None = None
    ) -> Run:
        """The careful technician through the variant, with the departures where they are due.

        Parameters:
            until: the step at which the pump is left, once all departures were due; None: it goes on.
            ends: how it has to end; None: released, or open at `until`. A pump that is to be open, with no
                step said, is left after the last departure.
        """
        ends = ends or (OPEN if until else RELEASED)
        bench = _Bench(self.start, self.begins, list(departures))
        while (prompt := asked_at(bench.state, bench.now)) is not None and bench.answers < MOST_ANSWERS:
            departure = _due(bench, prompt)
            if departure is not None:
                bench.answers += 1
                bench.waiting.remove(departure)
                _depart(bench, departure)
            elif (not bench.waiting and ends == OPEN and until in (None, prompt.step)) or not _careful(bench):
                break
        for place, left in enumerate(bench.waiting, len(bench.results)):
            bench.unexpected.append(Unexpected(_never_due(bench.state, left), place))
        if bench.state.outcome != ends and not bench.unexpected:
            why = "the questions do not end" if bench.answers >= MOST_ANSWERS else bench.state.outcome
            wanted = f"left open at {until}" if until else "left open" if ends == OPEN else ends
            bench.unexpected.append(Unexpected(f"the pump was not {wanted}: {why}"))
        return Run(
            self.variant,
            tuple(bench.results),
            tuple(bench.unexpected),
            bench.state,
            tuple(bench.events),
            bench.answers,
        )


def rehearse(
    job: Job, variant: str | None, departures: tuple[Departure, ...] = (), begins: datetime = BEGINS
) -> Run:
    """One rehearsal of one variant. For several, make one `Stage`."""
    return Stage(job, variant, begins).rehearse(departures)


def _never_due(state: State, departure: Departure) -> str:
    steps = [*(step.id for step in state.pump.steps), *IN_NO_STEP]
    if departure.step not in steps:
        like = nearest(departure.step, steps)
        return f"there is no step {departure.step}" + (f"; did you mean {like}?" if like else "")
    return f"{departure.step}: the departure was never due; is its question, its target, its place right?"


def _careful(bench: _Bench) -> bool:
    """One prompt answered with care; False if nothing is asked, or if that was refused.

    After a departure, a refusal may offer a way that mends it; before any, the procedure itself is at fault.
    """
    step = careful_step(bench.state, bench.now)
    if step is None:
        return False
    bench.answers += 1
    bench.state, bench.now = step.state, step.now
    bench.events += step.events
    if step.refused and not (step.mended and bench.results):
        bench.unexpected.append(Unexpected(step.refused))
        return False
    return True


def _due(bench: _Bench, prompt: Prompt) -> Departure | None:
    """The next departure, if this prompt is the one it is for."""
    for departure in bench.waiting[:1]:
        if departure.step != (prompt.step or ON_ARRIVAL):
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


def _depart(bench: _Bench, departure: Departure) -> None:
    before, now, so_far = bench.state, bench.now, len(bench.events)
    prompt = asked_at(before, now)
    assert prompt is not None
    if prompt.until is not None and (departure.do is None or departure.early is not None):
        early = timedelta(seconds=departure.early.si) if departure.early is not None else timedelta()
        bench.now = max(now, prompt.until - early)
        prompt = asked_at(before, bench.now) or prompt
    if departure.go_back is not None:
        done, came, rule, said = _go_back(bench, departure)
    elif departure.leave_out is not None:
        outcome = engine.leave_out(bench.state, departure.leave_out, bench.now)
        done = "left out"
        came, rule, said = _came(bench, prompt, departure, outcome)
    elif departure.do is not None:
        done, came, rule, said = _do(bench, prompt, departure, departure.do)
    else:
        answer = departure.answer or ""
        over = engine.Takeover(departure.reason) if departure.reason is not None else None
        outcome = engine.answer(bench.state, prompt.id, answer, bench.now, over=over)
        done = f"{prompt.question}: {answer}"
        came, rule, said = _came(bench, prompt, departure, outcome)
    wanted: list[str] = [departure.came] if came != departure.came else []
    wanted += [f"by {departure.rule}"] if departure.rule not in (None, rule) else []
    wanted += [f'with the words "{departure.says}"'] if (departure.says or "") not in said else []
    kinds = [event.kind for event in bench.events[so_far:]]
    wanted += [f'with the event "{each}"' for each in departure.events if each not in kinds]
    voided = _voided(before, bench.state)
    wanted += [f"with {each} void" for each in departure.void if each not in voided]
    result = Result(
        prompt.step or ON_ARRIVAL,
        done,
        departure.came,
        came,
        rule,
        said.partition("\n")[0].removeprefix("wrong: "),
        said,
        " ".join(wanted),
    )
    bench.results.append(result)
    if bench.state is before and came == "refused":
        bench.now = now  # what is refused changes nothing, and takes no time
    if not result.as_expected:
        came_by = f"{came} by {rule}: {result.message}" if rule else came
        sentence = f"{result.step}: {done}: expected {result.wanted}, came {came_by}"
        bench.unexpected.append(Unexpected(sentence, len(bench.results) - 1))


def _voided(before: State, after: State) -> set[str]:
    """The steps of which something stood, and stands no more."""
    return {step_of(act) for act in before.facts if before.fact(act) and not after.fact(act)}


def _came(
    bench: _Bench, prompt: Prompt, departure: Departure, outcome: tuple[Event, ...] | Outcome
) -> tuple[Came, str, str]:
    """What came of an answer, the rule behind it, and what was said."""
    if isinstance(outcome, Outcome):
        if departure.mend and outcome.mend:
            bench.write(engine.written(bench.state, outcome.mend, bench.now))
            _come_off(bench)
        said = "\n".join(refusal.as_text() for refusal in outcome.refusals)
        return "refused", outcome.refusals[0].rule, said
    voided = bench.state.voided
    bench.write(outcome)
    _come_off(bench)
    deviated = next((event for event in outcome if isinstance(event, Deviation)), None)
    if deviated is not None:
        again = f"\nagain: departures {', '.join(map(str, deviated.again))}" if deviated.again else ""
        return "recorded", deviated.rules[0], deviated.wrong + again
    after = asked_at(bench.state, bench.now)
    if bench.state.outside:
        standing = after.standing if after is not None else None
        return "recorded", OUTSIDE, standing.as_text() if standing is not None else bench.state.outside
    if bench.state.voided > voided:
        return "voided", "", ""
    if after is not None and after.act == prompt.act and prompt.question in (after.question, "outside"):
        return "asked again", "", ""
    return "passed", "", ""


def _go_back(bench: _Bench, departure: Departure) -> tuple[str, Came, str, str]:
    """Everything down to the target comes off, with care; what is said last is what that cost."""
    assert departure.go_back is not None
    done = f"back to {departure.go_back}"
    outcome = commands.go_back(bench.state, departure.go_back, departure.reason or "", bench.now)
    if isinstance(outcome, Outcome):
        return done, "refused", outcome.refusals[0].rule, outcome.refusals[0].as_text()
    before, so_far = bench.state, len(bench.events)
    bench.write(outcome)
    _come_off(bench)
    off = [
        event.part
        if isinstance(event, PartRemoved)
        else event.group
        if isinstance(event, GroupLoosened)
        else event.groove
        for event in bench.events[so_far:]
        if isinstance(event, PartRemoved | GroupLoosened | RingLifted)
    ]
    used_up = died(before.assembly, bench.state.assembly)
    restarts = [group for group in before.assembly.held if group not in bench.state.assembly.held]
    cost = f"off: {', '.join(off)}; used up: {', '.join(used_up) or 'nothing'}"
    cost += f"; begun again: {', '.join(restarts)}" if restarts else ""
    return done, "voided" if bench.state.voided > before.voided else "recorded", "", cost


def _do(bench: _Bench, prompt: Prompt, departure: Departure, deed: Deed) -> tuple[str, Came, str, str]:
    """One of the commands is carried out; of its events, the departure names the rule."""
    done = deeds.done(bench.state, deed, departure.reason or "", bench.now)
    bench.now = done.now
    if not isinstance(done.came, Outcome):
        bench.state = done.state
    if not done.came:
        return deed.what, "passed", "", done.told
    came, rule, said = _came(bench, prompt, departure, done.came)
    return deed.what, "recorded" if came in ("passed", "asked again") else came, rule, done.told or said


def _come_off(bench: _Bench) -> None:
    """All that has to come off, if the work goes back, does; up to a departure on the way."""
    while (prompt := asked_at(bench.state, bench.now)) is not None and prompt.step == BACK:
        if _due(bench, prompt) is not None or not _careful(bench):
            break
