"""What a table needs beside right names: an act its object, a question its form, a part its place.

Each is a fault of one table alone, which the types of its keys cannot tell: keys that need each other, keys
that exclude each other, and keys that an act makes nothing of.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import SIDE, Ask, Part, Procedure, Step, StepAct
from benchcheck.procedure.reading import Read
from benchcheck.procedure.table import Table
from benchcheck.procedure.wording import listed

_OBJECTS: dict[StepAct, tuple[str, ...]] = {
    StepAct.INSTALL: ("part", "parts", "rings", "group"),
    StepAct.REMOVE: ("off",),
    StepAct.START: ("group",),
    StepAct.TIGHTEN: ("group",),
    StepAct.MEASURE: ("ask",),
    StepAct.CHECK: ("of", "ask"),
    StepAct.DO: ("text",),
    StepAct.WAIT: ("clock",),
    StepAct.TEST: ("ask",),
    StepAct.SIGN: (),
}
"""For each act, the keys of which it needs at least one."""

_ACTS_WITH: dict[str, tuple[StepAct, ...]] = {
    "part": (StepAct.INSTALL,),
    "parts": (StepAct.INSTALL,),
    "rings": (StepAct.INSTALL,),
    "off": (StepAct.REMOVE,),
    "group": (StepAct.INSTALL, StepAct.START, StepAct.TIGHTEN),
    "round": (StepAct.INSTALL, StepAct.TIGHTEN),
    "clock": (StepAct.WAIT,),
}
"""For each key that only some acts heed, these acts."""


def needs(read: Read[Procedure]) -> Iterator[Finding]:
    """What tables of a procedure lack, or have to no effect."""

    def finding(rule: str, table: Table, keys: tuple[str | int, ...], message: str, remedy: str) -> Finding:
        return Finding(rule, Severity.ERROR, read.place(table, *keys), message, remedy)

    file = read.model
    for part in file.part:
        for rule, key, message, remedy in _of_part(part, file):
            yield finding(rule, part, (key,) if key else (), message, remedy)
    for step in file.step:
        for rule, key, message, remedy in _of_step(step, file):
            yield finding(rule, step, (key,) if key else (), message, remedy)
        for ask in step.ask:
            for rule, key, message, remedy in _of_ask(ask):
                yield finding(rule, ask, (key,) if key else (), message, remedy)
    for clock in file.clock:
        if clock.least is None and clock.most is None:
            message = f"The clock `{clock.id}` has neither `least` nor `most`, so it tells no time."
            yield finding("clock-without-time", clock, (), message, "Write `least`, `most` or both.")
    for line in file.kit.holds if file.kit else ():
        if (line.ring is None) == (line.part is None):
            message = "A line of the kit is either a ring or a part."
            yield finding("kit-line-unclear", line, (), message, "Write one of `ring` and `part`.")
    for groove in file.groove:
        gland = groove.gland
        if gland and len(gland.seals_on) != 1:
            message = (
                f"The gland of `{groove.id}` tells {len(gland.seals_on)} of bore, shaft, outside, "
                "centre_line and boss, not one."
            )
            yield finding(
                "gland-unclear", groove, ("gland",), message, "Write the one that the ring seals on."
            )


Lack = tuple[str, str, str, str]
"""Rule, key (or "" for the table), message, remedy."""


def _of_part(part: Part, file: Procedure) -> Iterator[Lack]:
    main = file.procedure.main
    main_is_known = any(each.id == main for each in file.part)
    if part.into is None and part.id != main and main_is_known:
        message = f"`{part.id}` has no `into`; only the main part, `{main}`, goes into nothing."
        yield "part-without-place", "", message, "Write `into`: the part it goes in or on."
    if part.into is not None and part.from_ is None:
        message = f"`{part.id}` does not say from which end of `{part.into}` it goes in."
        yield "part-without-place", "", message, f'Write `from`: an end of `{part.into}`, or "{SIDE}".'
    if part.into is None and part.from_ is not None:
        yield "key-without-effect", "from", "`from` says nothing without `into`.", "Write `into` as well."
    faced = any(must.part == part.id for must in file.must_face)
    along_axis = part.into is not None and part.id != main and SIDE not in part.ends_it_goes_in_from
    if part.ends is not None and along_axis and part.shows is None and not faced:
        message = f"`{part.id}` has two ends, and nothing says which of them the fitter sees."
        yield "facing-not-said", "", message, "Write `shows`, or a `must_face` for it."
    if part.ends is not None and part.ends[0] == part.ends[1]:
        yield "ends-alike", "ends", f"Both ends of `{part.id}` have one name.", "Give each end its own name."


def _of_step(step: Step, file: Procedure) -> Iterator[Lack]:
    objects = _OBJECTS[step.act]
    if objects and not any(getattr(step, key) for key in objects):
        message = f"A step that is to {step.act.value} needs {listed(f'`{key}`' for key in objects)}."
        yield (
            "act-without-object",
            "",
            message,
            f"Write {listed(f'`{key}`' for key in objects)}, or another `act`.",
        )
    for key, acts in _ACTS_WITH.items():
        if getattr(step, key) and step.act not in acts:
            message = f"`{key}` says nothing in a step that is to {step.act.value}."
            remedy = f"Leave it out, or let the act be {listed(act.value for act in acts)}."
            yield "key-without-effect", key, message, remedy
    if step.round is not None and step.group is None:
        yield "key-without-effect", "round", "`round` says nothing without `group`.", "Write `group` as well."
    if file.procedure.main in step.all_parts and step.act is StepAct.INSTALL:
        message = (
            f"`{file.procedure.main}` is the main part: everything goes into it, and it goes into nothing."
        )
        yield "main-installed", "part" if step.part else "parts", message, "Leave it out."


_NUMBER = ("unit", "min", "max", "as_new", "equal_within", "proves", "as_", "hold")
"""Any of these makes a question one for a number."""


def _of_ask(ask: Ask) -> Iterator[Lack]:
    forms = {
        "a number (`unit`, `min`, `max`)": any(getattr(ask, key) for key in _NUMBER),
        "a choice (`one_of`)": bool(ask.one_of),
        "a form of its own (`kind`)": ask.kind is not None,
    }
    told = [form for form, is_told in forms.items() if is_told]
    if not told:
        message = f"Nothing says how `{ask.what}` is answered: by {listed(forms)}."
        yield "question-without-form", "", message, "Write one of these keys."
    elif len(told) > 1:
        message = f"`{ask.what}` is answered in more than one way: by {listed(told, 'and')}."
        yield "question-of-two-forms", "", message, "Leave out all but one, or ask two questions."
    for answer in ask.good:
        if answer not in ask.one_of:
            message = f"`{answer}` is good, but is not among the answers."
            yield (
                "answer-unknown",
                "good",
                message,
                f"Write answers from `one_of`: {', '.join(ask.one_of) or 'none yet'}.",
            )
