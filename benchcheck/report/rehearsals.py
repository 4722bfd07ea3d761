"""Rehearsals file by file, as a person reads them and as other programs do; `session.rehearsal` runs each."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime

from benchcheck.procedure.characters import clean
from benchcheck.procedure.finding import Place
from benchcheck.procedure.model import Procedure
from benchcheck.procedure.reading import Read
from benchcheck.session.rehearsal import BEGINS, RehearsalFile, Result, Run, Stage
from benchcheck.session.state import Job


@dataclass(frozen=True)
class Rehearsed:
    """One file of departures (or none: the careful technician), in each variant it is for."""

    file: str
    title: str
    runs: tuple[Run, ...]
    places: tuple[Place, ...] = ()
    """Where each departure stands in its file."""

    @property
    def as_expected(self) -> bool:
        return all(run.as_expected for run in self.runs)


@dataclass
class Stages:
    """A job with a stage for each variant and beginning: what is rehearsed there shares its careful way."""

    job: Job
    _made: dict[tuple[str | None, datetime], Stage] = field(default_factory=dict)

    @property
    def variants(self) -> tuple[str | None, ...]:
        return self.job.procedure.procedure.variants or (None,)

    def rehearsed(self, file: str, read: Read[RehearsalFile]) -> Rehearsed:
        """A file of departures in each variant it is for."""
        head, departures = read.model.rehearsal, read.model.departure
        begins = datetime.fromisoformat(head.begins) if head.begins else BEGINS
        variants = (head.variant,) if head.variant else self.variants
        runs = tuple(
            self._stage(variant, begins).rehearse(departures, head.until, head.ends) for variant in variants
        )
        return Rehearsed(file, head.title, runs, tuple(read.place(each) for each in departures))

    def careful(self) -> Rehearsed:
        """The careful technician in every variant."""
        runs = tuple(self._stage(variant, BEGINS).rehearse() for variant in self.variants)
        return Rehearsed("", "The careful technician", runs)

    def _stage(self, variant: str | None, begins: datetime) -> Stage:
        return self._made.setdefault((variant, begins), Stage(self.job, variant, begins))


def as_text(rehearsed: Sequence[Rehearsed]) -> str:
    """All of them, one below the other; variants in which the same came of it are told together."""
    return clean("\n".join(_block(each) for each in rehearsed))


def summary(rehearsed: Sequence[Rehearsed]) -> str:
    """How many there are and how many did not come out as expected, as a sentence."""
    runs = [run for each in rehearsed for run in each.runs]
    wrong = sum(not run.as_expected for run in runs)
    count = f"{len(runs)} run{'s' * (len(runs) > 1)}"
    return f"{wrong} of {count} did not come out as expected." if wrong else f"{count}, as expected."


def as_json(procedure: Procedure, rehearsed: Sequence[Rehearsed]) -> dict[str, object]:
    """All of them for other programs."""
    return {
        "procedure": procedure.procedure.id,
        "revision": procedure.procedure.revision,
        "outcomes": [
            {
                "file": each.file,
                "line": place.line,
                "variant": run.variant,
                "step": result.step,
                "departure": result.departure,
                "expected": result.expected,
                "came": result.came,
                "rule": result.rule,
                "message": result.message,
                "as_expected": result.as_expected,
            }
            for each in rehearsed
            for run in each.runs
            for result, place in zip(run.results, each.places, strict=False)
        ],
        "runs": [
            {
                "file": each.file,
                "title": each.title,
                "variant": run.variant,
                "answers": run.answers,
                "readings": run.state.readings,
                "ended": run.state.outcome,
                "unexpected": [str(sentence) for sentence in run.unexpected],
            }
            for each in rehearsed
            for run in each.runs
        ],
        "as_expected": all(each.as_expected for each in rehearsed),
    }


def _block(rehearsed: Rehearsed) -> str:
    lines = [rehearsed.file, f"  {rehearsed.title}"] if rehearsed.file else [rehearsed.title]
    alike: dict[tuple[object, ...], list[Run]] = {}
    for run in rehearsed.runs:
        alike.setdefault((run.results, run.unexpected, run.answers, run.state.readings), []).append(run)
    for runs in alike.values():
        one = runs[0]
        variants = ", ".join(run.variant for run in runs if run.variant)
        end = f"{one.answers} answers, {one.state.readings} readings, {one.state.outcome}"
        verdict = "as expected" if one.as_expected else "NOT AS EXPECTED"
        lines.append(f"  {variants + ': ' if variants else ''}{verdict} ({end})")
        for result in one.results:
            lines += _result(result)
        for wrong in one.unexpected:
            where = f"{rehearsed.places[wrong.departure]}: " if wrong.departure is not None else ""
            lines.append(f"  ! {where}{wrong}")
    return "\n".join(lines) + "\n"


def _result(result: Result) -> list[str]:
    rule = f" by {result.rule}" if result.rule else ""
    said = [line for line in result.said.split("\n") if line]
    return [
        f"    {result.step}, {result.departure}: {result.came}{rule}",
        *(f"      {line}" for line in said),
    ]
