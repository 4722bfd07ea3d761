"""Random work on a pump: careful and wrong answers, garbage, taken over, left out, corrected, gone back, cut.

A walk is made of a seed alone, so a walk that fails can be walked again. It starts anywhere along the careful
way; after each of its moves a caller looks at the bench, and at the end the careful technician finishes.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from datetime import timedelta
from functools import cache

from benchcheck.session import commands, engine
from benchcheck.session.engine import Takeover
from benchcheck.session.events import Event, TakenUp
from benchcheck.session.prompt import Outcome
from benchcheck.session.state import Job
from tests.session.bench import Bench

GARBAGE = (
    "", "x", "[/", "[red]x[/red]", "neither", "none", "1", "2", "3", "-1", "0", "1:", "99: 5", ":", "1:2:3",
    "--", "1e9", "1e400", "nan", "inf", "½", "٣", "0x10", "1_000", "0.0015", "99999999999999999999", "12 N·m",
    "5 mm", "-137 NBR", "-137", "done", "elsewhere", "another one", "replace", "back", "accept", "again",
    "moved", "T. Sample", "nobody", "more than one", "empty", "\x1b[2J", "e\u0301", 'chain = "sha256:0"',
)  # fmt: skip
PEOPLE = ("T. Sample", "K. Sketch", "W. Specimen", "Q. Example", "R. Outline", "nobody")
Look = Callable[[Bench], None]


@cache
def careful_way(job_of: Callable[[], Job], variant: str | None) -> tuple[Bench, ...]:
    """The bench before every answer of the careful technician."""
    bench = Bench(job_of(), variant)
    found = []
    while engine.ask(bench.state, bench.now) is not None:
        found.append(bench.copied())
        bench.go_on()
    assert bench.state.outcome == "released"
    return tuple(found)


class Walk:
    """One random walk from somewhere along the careful way."""

    OTHERS = (
        "leave out", "correct", "go back", "cut", "dispose", "dispose of a position", "sign on", "remark",
        "close",
    )  # fmt: skip

    def __init__(self, seed: int, way: tuple[Bench, ...]) -> None:
        self.random = random.Random(seed)
        self.bench = self.random.choice(way).copied()
        self.care = self.random.choice((0.5, 0.8, 0.9, 0.97))

    def moves(self, count: int, look: Look) -> None:
        """So many moves, each looked at; fewer if the session ends."""
        for _ in range(count):
            if engine.ask(self.bench.state, self.bench.now) is None:
                return
            self._time_passes()
            self._carry_out(self._careful() if self.random.random() < self.care else self._careless())
            look(self.bench)

    def _time_passes(self) -> None:
        bench = self.bench
        usual = self.random.random() < 0.9
        bench.now += timedelta(seconds=self.random.choice((1, 15, 60, 3600) if usual else (-5, -3600, 86400)))
        if self.random.random() < 0.7:
            bench.wait()

    def _carry_out(self, result: tuple[Event, ...] | Outcome | None) -> None:
        if isinstance(result, Outcome) and result.mend and self.random.random() < 0.7:
            result = engine.written(self.bench.state, result.mend, self.bench.now)
        if result is not None:
            self.bench.carry_out(result)

    def _answer(self, text: str, taken_over: bool) -> tuple[Event, ...] | Outcome:
        bench = self.bench
        over = Takeover("it has to do") if taken_over else None
        return engine.answer(bench.state, bench.prompt.id, text, bench.now, over=over)

    def _careful(self) -> tuple[Event, ...] | Outcome:
        return self._answer(self.bench.careful(), self.random.random() < 0.3)

    def _careless(self) -> tuple[Event, ...] | Outcome | None:
        """Anything that can be done at a bench, however; None if there is nothing to do it to."""
        bench, pick = self.bench, self.random
        state, now, pump = bench.state, bench.now, bench.state.pump
        match pick.choice(("choice",) * 3 + ("garbage",) * 2 + self.OTHERS):
            case "choice":
                values = [each.value for each in bench.prompt.choices] or list(GARBAGE)
                return self._answer(pick.choice(values), pick.random() < 0.5)
            case "garbage":
                return self._answer(pick.choice(GARBAGE), pick.random() < 0.5)
            case "leave out":
                return engine.leave_out(state, "none at hand", now)
            case "correct":
                last = tuple(commands.correctable(state))
                return commands.correct(state, pick.choice(last).number, "misread", now) if last else None
            case "go back":
                target = pick.choice((*pump.parts, *pump.groups, *pump.grooves))
                return commands.go_back(state, target, "it sounded wrong", now)
            case "cut":
                return engine.written(state, (TakenUp(stopped=pick.random() < 0.3),), now)
            case "dispose":
                number = pick.randint(1, len(state.deviations) + 1)
                return commands.dispose(state, number, "use as is", pick.choice(PEOPLE), "it will do", now)
            case "dispose of a position":
                group = pick.choice(tuple(pump.groups))
                position = pick.randint(0, pump.groups[group].count + 1)
                return commands.dispose_position(
                    state, group, position, "use as is", pick.choice(PEOPLE), "it is short", now
                )
            case "sign on":
                return commands.sign_on(state, pick.choice(PEOPLE), now)
            case "remark":
                return commands.remark(state, pick.choice(GARBAGE), now)
            case "close" if pick.random() < 0.1:
                return commands.close(state, "scrapped", "the body is cracked", now)
        return None


def finished_with_care(bench: Bench, look: Look, answers: int = 900) -> str:
    """The careful technician goes on to the end, mends what is refused, and has departures decided on.

    How the session stands then; or the refusal that no care gets past.
    """
    for _ in range(answers):
        if engine.ask(bench.state, bench.now) is None:
            return bench.state.outcome
        bench.wait()
        for deviation in bench.state.open_deviations:
            who = next(name for name in ("Q. Example", "R. Outline") if name != deviation.by)
            assert bench.carry_out(
                commands.dispose(bench.state, deviation.deviation, "use as is", who, "it will do", bench.now)
            ) is None  # fmt: skip
        outcome = bench.answer(bench.careful())
        bench.now += timedelta(seconds=15)
        if outcome is not None:
            if not outcome.mend:
                return f"{bench.asked}: {outcome.refusals[0].wrong}"
            bench.mend(outcome)
        look(bench)
    return "it never ends"
