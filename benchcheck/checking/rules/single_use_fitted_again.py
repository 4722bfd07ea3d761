"""A single-use part, or ring, that is used a second time."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from benchcheck.assembly.acts import Verb
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "A step uses again what may be used once only and has been used: fitted, pressed or tightened before."
WHY = (
    "Its rubber has set, its coating is scraped off, its thread has stretched: the second time it "
    "does not hold."
)
WRONG = """
[[step]]
id = "lip-in"
part = "lip"
ask = [{ what = "case below the edge of the bore", min = "0 mm", max = "0.2 mm" }]

[[step]]
id = "lip-out"
act = "remove"
off = ["lip"]       # and its life is over

[[step]]
id = "lip-in-again"
part = "lip"        # where does the second new one come from?
ask = [{ what = "case below the edge of the bore", min = "0 mm", max = "0.2 mm" }]
"""
RIGHT = """
[[step]]
id = "lip-in"
part = "lip"
ask = [{ what = "case below the edge of the bore", min = "0 mm", max = "0.2 mm" }]
"""


def check(subject: Subject) -> Iterator[Finding]:
    file = subject.file
    on_the_bag = Counter[str]()
    for line in file.kit.holds if file.kit else ():
        if line.part is not None:
            on_the_bag[line.part] += line.count
    at_an_act = {stop.about for stop, _ in subject.acts_stopped_by("single-use-fitted-again")}
    for stop in subject.stopped_by("single-use-fitted-again"):
        if stop.act is None and stop.about in at_an_act:
            continue
        thing, when = stop.about, subject.when(stop.cases)
        if thing in stop.pump.grooves and stop.act is not None:
            yield Finding(
                "single-use-fitted-again",
                SEVERITY,
                subject.place_of(stop),
                f"`{stop.act.step.id}` hides `{thing}` with the old ring in it, which was pressed before"
                f"{when}.",
                f'Write rings = ["{thing}"] in a step before it, and `{thing}` in the `off` of the teardown.',
            )
        elif stop.act is not None and stop.act.verb is Verb.INSTALL:
            step = stop.act.step
            took = [each for each in subject.steps_with(thing, Verb.REMOVE) if subject.before(each, step)]
            if on_the_bag[thing] > len(subject.steps_with(thing, Verb.INSTALL)) - 1:
                continue
            since = f", and {subject.where_is(took[-1])} took it out" if took else ""
            yield Finding(
                "single-use-fitted-again",
                SEVERITY,
                subject.place_of(stop),
                f"`{step.id}` fits `{thing}` again, which is single-use{since}{when}.",
                "Leave one of the two out, or let the kit hold one for each time.",
            )
        else:
            yield Finding(
                "single-use-fitted-again",
                SEVERITY,
                subject.place_of(stop),
                f"`{thing}` is single-use, was loose after it had been tight, and is used again{when}.",
                "Take it off and fit a new one after it was loosened.",
            )
