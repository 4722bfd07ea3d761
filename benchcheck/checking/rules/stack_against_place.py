"""A stack that meets a part where it cannot be."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.bars import reached_from
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = (
    "A `stack` names a part that is not in or on the part whose end it starts from, or that goes "
    "in from the other end."
)
WHY = "The stack is the second statement of the order; one that contradicts the parts proves nothing."
WRONG = """

[[stack]]
on = "body"
from = "water end"      # they go in from the drive end
order = ["cover", "shaft"]
"""
RIGHT = """

[[stack]]
on = "body"
from = "drive end"
order = ["cover", "shaft"]
"""


def check(subject: Subject) -> Iterator[Finding]:
    told: set[tuple[object, ...]] = set()
    for walk in subject.walks:
        for stack in walk.pump.stacks:
            for number, part in enumerate(stack.order):
                if part not in walk.end.seated or (*stack.path, number) in told:
                    continue
                if stack.on not in walk.end.chain(part) or stack.on == part:
                    lies = f"is not in or on `{stack.on}`"
                else:
                    end = reached_from(walk.end, part, stack.on)
                    if end == stack.from_:
                        continue
                    lies = f"is reached from the {end} of `{stack.on}`, not from the {stack.from_}"
                told.add((*stack.path, number))
                yield subject.finding(
                    "stack-against-place",
                    SEVERITY,
                    stack,
                    ("order", number),
                    f"`{part}` {lies}, by its `into` and `from` "
                    f"({subject.line(walk.pump.parts[part], 'into')}).",
                    "Correct the stack, or the `into` and `from` of the part, from the drawing.",
                )
