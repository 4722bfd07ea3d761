"""A fastener group that is not taken to its full torque."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.acts import Verb
from benchcheck.assembly.planned import rounds_of
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "A group is run in and never tightened, not to its last round, or never touched at all."
WHY = "It looks like the others and comes loose in service."
WRONG = """
[[step]]
id = "screws"
act = "start"       # and then?
group = "F1"
"""
RIGHT = """
[[step]]
id = "screws"
act = "tighten"
group = "F1"
"""


def check(subject: Subject) -> Iterator[Finding]:
    told = {stop.about for stop in subject.stopped_by("round-out-of-order")}
    told |= {stop.about for stop in subject.stopped_by("not-run-in")}
    for group, cases in subject.never_put_in().items():
        if table := subject.group(group):
            yield subject.finding(
                "fastener-not-tight",
                SEVERITY,
                table,
                ("id",),
                f"No step tightens `{group}`{subject.when(cases)}.",
                f'Write a step with act = "tighten" and group = "{group}".',
            )
    for stop in subject.stopped_by("fastener-not-tight"):
        group, table = stop.about, subject.group(stop.about)
        if group in told or table is None:
            continue
        hold = stop.before.held.get(group)
        last = subject.steps_with(group, Verb.START, Verb.TIGHTEN)
        rounds = rounds_of(stop.pump, group)
        if hold is None:
            what = f"`{group}` is loose at the end"
        elif hold.rounds >= rounds and table.angle is not None:
            what = f"`{group}` is snug at the end, and no step turns it on by its {table.angle.add}"
        else:
            what = f"Of `{group}`, {hold.rounds} of {rounds} rounds are done at the end"
        yield subject.finding(
            "fastener-not-tight",
            SEVERITY,
            last[-1] if last else table,
            ("group",) if last else ("id",),
            f"{what}{subject.when(stop.cases)}.",
            f'Write a step with act = "tighten" and group = "{group}" for what is missing.',
        )
