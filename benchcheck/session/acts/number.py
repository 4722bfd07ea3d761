"""A number with its limits: read at one place or several, held for a time, kept, or the proof of a variant.

One of the questions of `ask.py`. What stands outside its limits is recorded as it is.
"""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any

from benchcheck.assembly.acts import Act
from benchcheck.assembly.refusal import Refusal
from benchcheck.mechanics.units import Quantity, QuantityError, parse, parse_number
from benchcheck.procedure.model import Ask
from benchcheck.session.acts import gauge_choice, outside
from benchcheck.session.acts import questions as asked
from benchcheck.session.events import Answered, Measured
from benchcheck.session.fold import HOLD_SINCE, HOLD_STARTED
from benchcheck.session.prompt import ClockPicture, Form, GaugePicture, Outcome, Prompt, refused
from benchcheck.session.state import State, local, local_end, moment


def is_asked(question: Ask) -> bool:
    return bool(question.read_in) and not question.one_of


def ask(state: State, act: Act, common: dict[str, Any]) -> Prompt:
    question = act.question
    unit = question.read_in
    place = _place(state, question)
    what = question.what if question.places == 1 else f"{question.what}, place {place} of {question.places}"
    notes = [
        f"of the new {state.pump.called(part)}"
        for part in question.of or act.step.of
        if part in state.pump.parts and state.assembly.instance(part) > 0
    ]
    if question.hold is not None:
        what += " at the end of its time" if HOLD_SINCE in state.hand else " at the start of its time"
    if question.as_new is not None:
        notes.append(f"as new: {question.as_new[0]} to {question.as_new[1]}")
    gauge = gauge_choice.taken(state, question)
    if gauge is not None:
        common = {**common, "do": (asked.sentence(f"with {question.tool} {gauge.id}"),)}
    if gauge is not None and question.guarded:
        notes.append(f"inside by less than {gauge.off_by} is marked for QA: {gauge.id} may be off by that")
    hold = _holding(state, question)
    if hold is not None:
        notes.append(f"it stands since {local(state, hold[0])}; not before {local_end(state, hold[1])}")
    elif question.hold is not None:
        notes.append(f"this starts its time of {question.hold}; an interruption starts it again")
    if question.as_ is not None and question.as_ in state.kept:
        notes.append(f"as it was found: {state.kept[question.as_]}")
    notes += [f"{low} to {high} proves {variant}" for variant, (low, high) in question.proves.items()]
    return Prompt(
        **{**common, "verb": "HOLD" if question.hold else "MEASURE", "question": f"place {place}"},
        form=Form.NUMBER,
        ask=what,
        unit=unit,
        good=outside.limits_words(act) if question.min or question.max else "",
        enter=f"records {question.what}",
        notes=tuple(notes),
        until=hold[1] if hold else None,
        picture=ClockPicture(hold[0], hold[1], question.what)
        if hold
        else GaugePicture(
            question.min.to(unit) if question.min else None,
            question.max.to(unit) if question.max else None,
            (question.as_new[0].to(unit), question.as_new[1].to(unit)) if question.as_new else None,
            unit,
        ),
    )


def take(state: State, act: Act, answer: str, now: datetime) -> Outcome:
    question = act.question
    unit = question.read_in
    read = _read(answer, unit)
    if isinstance(read, Outcome):
        return read
    place = _place(state, question)
    verdict = _verdict(state, question, read)
    last = place >= question.places
    if last and verdict == "inside" and question.equal_within is not None:
        values = [float(state.hand[f"place {each}"]) for each in range(1, question.places)] + [
            float(read.value)
        ]
        if max(values) - min(values) > question.equal_within.to(unit) + 1e-12:
            verdict = "outside"
    hold = _holding(state, question)
    if question.hold is not None and hold is None and verdict == "inside":
        return Outcome((Answered(act=act.id, question=HOLD_STARTED, value=f"{read}"),))
    if hold is not None and now < hold[1] and verdict == "inside":
        left = int((hold[1] - now).total_seconds())
        return Outcome(
            refusals=(
                Refusal(
                    "hold-cut-short",
                    f"{left // 60} min {left % 60:02d} s are left of {question.hold}",
                    mend=f"read it again at {local_end(state, hold[1])}",
                    passable=False,
                ),
            )
        )
    gauge = gauge_choice.taken(state, question)
    if question.proves:
        return _proved(state, act, read, gauge.id if gauge is not None else "")
    event = Measured(
        act=act.id,
        done=last and verdict == "inside",
        what=question.what,
        place=place,
        value=float(read.value),
        unit=read.unit,
        si=read.si,
        verdict=verdict,
        instrument=gauge.id if gauge is not None else "",
        marked=gauge_choice.marked(gauge, question, read) if verdict == "inside" else "",
    )
    return Outcome((event,))


def careful(state: State, question: Ask) -> str:
    """A value well inside the limits."""
    unit = question.read_in
    if question.as_ is not None and question.as_ in state.kept:
        return state.kept[question.as_].split(" ")[0]
    low = question.min.to(unit) if question.min is not None else None
    high = question.max.to(unit) if question.max is not None else None
    if low is not None and high is not None:
        return f"{(low + high) / 2:g}"
    if question.as_new is not None:
        return f"{(question.as_new[0].to(unit) + question.as_new[1].to(unit)) / 2:g}"
    if high is not None:
        return f"{high / 2:g}"
    return f"{low:g}" if low is not None else "1"


def _holding(state: State, question: Ask) -> tuple[datetime, datetime] | None:
    """Since when a value stands, and until when it has to; None while it is not started."""
    since = state.hand.get(HOLD_SINCE)
    if since is None or question.hold is None:
        return None
    return moment(since), moment(since) + timedelta(seconds=question.hold.si)


def _place(state: State, question: Ask) -> int:
    return next(
        (place for place in range(1, question.places + 1) if f"place {place}" not in state.hand),
        question.places,
    )


def _read(text: str, unit: str) -> Quantity | Outcome:
    """A number as typed, the unit standing beside it, or a whole quantity of the same unit."""
    try:
        if any(letter.isalpha() for letter in text):
            quantity = parse(text, decimal_comma=True, signed=True)
            if quantity.unit != unit:
                return refused(
                    "reading-in-another-unit",
                    f'this is asked in "{unit}"; you typed "{quantity.unit}"',
                    mend=f'read it in "{unit}"{_in_words(quantity, unit)}',
                )
            return quantity
        return Quantity(parse_number(text, signed=True), unit)
    except QuantityError as fault:
        return refused("not-a-reading", str(fault))


def _in_words(quantity: Quantity, unit: str) -> str:
    """What a reading in another unit comes to, where the units are of one kind."""
    try:
        return f"; {quantity} is {quantity.to(unit):.4g} {unit}"
    except QuantityError:
        return ""


def _verdict(state: State, question: Ask, read: Quantity) -> str:
    slack = 1e-9 * max(1.0, abs(read.si))
    if question.min is not None and read.si < question.min.si - slack:
        return "outside"
    if question.max is not None and read.si > question.max.si + slack:
        return "outside"
    if question.as_ is not None and question.as_ in state.kept:
        kept = parse(state.kept[question.as_], signed=True)
        room = question.equal_within.si if question.equal_within is not None else 0.0
        if abs(read.si - kept.si) > room + slack:
            return "outside"
    return "inside"


def _proved(state: State, act: Act, read: Quantity, gauge: str) -> Outcome:
    """A measurement that tells which variant this is."""
    question = act.question
    proved = next(
        (name for name, (low, high) in question.proves.items() if low.si <= read.si <= high.si), None
    )
    event = Measured(
        act=act.id,
        done=proved is not None,
        what=question.what,
        value=float(read.value),
        unit=read.unit,
        si=read.si,
        verdict=proved or "outside",
        instrument=gauge,
    )
    if proved is not None and state.variant is not None and proved != state.variant:
        return Outcome((event,), (variant_differs(state, f"{read} proves", proved),))
    return Outcome((event,))


def variant_differs(state: State, seen: str, variant: str) -> Refusal:
    return Refusal(
        "variant-differs",
        f"{seen} {variant}; the pump was opened as {state.variant}"
        if seen != variant
        else f"you read {variant}; the pump was opened as {state.variant}",
        mend="look again; if it is so, this is another variant than the one on the paper",
    )
