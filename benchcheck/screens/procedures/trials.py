"""What can be tried on a procedure without a pump: its rehearsals, and every single fault. No Textual.

A trial works step by step and says before each how far it is, so that it can be shown, and stopped between
any two; what came of it so far can be had at any time after that.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from benchcheck.report import faults as fault_report
from benchcheck.report import rehearsals as rehearsal_report
from benchcheck.session.fault_run import Found, faults_of, run_faults
from benchcheck.session.fault_walk import NotReleased, walks
from benchcheck.session.rehearsal import Stage
from benchcheck.session.state import Job
from benchcheck.store.disk import StoreFault
from benchcheck.store.library import NotARehearsal, Unreadable, load_rehearsal


@dataclass(frozen=True)
class Progress:
    """How far a trial is: `done` of `of`, and what it does now."""

    done: int
    of: int
    words: str


@dataclass(frozen=True)
class Came:
    """What came of a trial: the large word, one sentence, and the whole text."""

    verb: str
    sentence: str
    text: str


class Rehearsals:
    """The careful technician in every variant, then each file of departures."""

    def __init__(self, job: Job, files: list[Path]) -> None:
        self._job = job
        self._files = files
        self._rehearsed: list[rehearsal_report.Rehearsed] = []
        self._not: list[str] = []

    def steps(self) -> Iterator[Progress]:
        """Do it, one file after the other."""
        stages = rehearsal_report.Stages(self._job)
        of = len(self._files) + 1
        yield Progress(0, of, "the careful technician")
        self._rehearsed.append(stages.careful())
        for number, path in enumerate(self._files, 1):
            yield Progress(number, of, path.stem)
            try:
                self._rehearsed.append(stages.rehearsed(path.name, load_rehearsal(path, self._job)))
            except (Unreadable, StoreFault, NotARehearsal) as why:
                self._not.append(str(why))

    def so_far(self) -> Came:
        wrong = [each for each in self._rehearsed if not each.as_expected]
        right = [each for each in self._rehearsed if each.as_expected]
        summary = rehearsal_report.summary(self._rehearsed) if self._rehearsed else "Nothing was run."
        if self._not:
            summary += f" {len(self._not)} could not be read."
        text = "\n".join([*self._not, rehearsal_report.as_text([*wrong, *right])])
        return Came("unexpected" if wrong or self._not else "as expected", summary, text)


class Faults:
    """Every single fault that the model can express, in every variant."""

    def __init__(self, job: Job) -> None:
        self._job = job
        self._found: list[Found] = []
        self._not = ""

    def steps(self) -> Iterator[Progress]:
        """Do it, one fault after the other."""
        head = self._job.procedure.procedure
        try:
            for variant in head.variants or (None,):
                name = variant or head.id
                yield Progress(0, 1, f"{name}: the careful technician")
                ways = walks(Stage(self._job, variant))
                all_faults = faults_of(self._job, ways[0])
                for number, each in enumerate(run_faults(ways, all_faults), 1):
                    self._found += [each] if each is not None else []
                    yield Progress(number, len(all_faults), f"{name}: {number} of {len(all_faults)} faults")
        except NotReleased as why:
            self._not = str(why)

    def so_far(self) -> Came:
        if self._not:
            return Came("not yet", self._not, "")
        through = sum(each.let_through for each in self._found)
        thin = sum(each.thin for each in self._found)
        verb = "let through" if through else "thin" if thin else "all caught"
        text = fault_report.as_text(self._job.procedure, self._found, worst_first=True)
        return Came(verb if self._found else "nothing yet", fault_report.summary(self._found), text)


Trial = Rehearsals | Faults
