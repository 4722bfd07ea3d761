"""Ask: one fact of a step. A number with its limits, one of a few answers, words, or a count.

What stands outside its limits is recorded as it is; what becomes of it is asked next (`outside.py`).
"""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any

from benchcheck.assembly.acts import Act
from benchcheck.assembly.refusal import Refusal
from benchcheck.mechanics.units import Quantity, QuantityError, parse, parse_number
from benchcheck.procedure.model import Ask
from benchcheck.session.acts import fit, outside, tray, wrench_choice, wrenches
from benchcheck.session.acts import questions as asked
from benchcheck.session.arrival import another_pump, same_serial
from benchcheck.session.events import Answered, Counted, Measured, Told
from benchcheck.session.fold import HOLD_SINCE, HOLD_STARTED
from benchcheck.session.prompt import Choice, ClockPicture, Form, GaugePicture, Outcome, Prompt, refused
from benchcheck.session.state import State, local, local_end, moment

KIT_DONE = "done"


def unit_of(question: Ask) -> str:
    """The unit an answer is in; empty for a question that has no number."""
    for quantity in (question.min, question.max):
        if quantity is not None:
            return quantity.unit
    for low, _ in question.proves.values():
        return low.unit
    return question.unit or ""


def _is_number(question: Ask) -> bool:
    return bool(unit_of(question)) and not question.one_of


def ask(state: State, act: Act, now: datetime) -> Prompt:
    question = act.question
    match question.kind:
        case "kit":
            return _kit_prompt(state, question)
        case "instruments":
            return _instruments_prompt(state, act, now)
        case "mat":
            return tray.mat_prompt(state, _common(act))
        case "tools":
            return tray.tools_prompt(state, _common(act))
        case "scrap":
            return Prompt(
                **{**_common(act), "verb": "COUNT"},
                form=Form.NUMBER,
                ask=question.what,
                enter="records the count",
            )
        case "serial" | "lot" | "words":
            return Prompt(
                **{**_common(act), "verb": "READ"}, form=Form.WORDS, ask=question.what, enter="records it"
            )
        case "count":
            return Prompt(
                **{**_common(act), "verb": "COUNT"},
                form=Form.NUMBER,
                ask=question.what,
                enter="records the count",
            )
    if question.one_of:
        choices = tuple(Choice(each, each) for each in question.one_of)
        return Prompt(
            **{**_common(act), "verb": "CHECK"},
            form=Form.CHOICE,
            ask=question.what,
            choices=choices,
            enter="records what you say",
        )
    if not _is_number(question):
        return Prompt(
            **{**_common(act), "verb": "READ"}, form=Form.WORDS, ask=question.what, enter="records it"
        )
    return _number_prompt(state, act, question)


def _common(act: Act) -> dict[str, Any]:
    with_ = act.question.with_
    return {
        "question": "ask",
        "target": (act.question.of or act.step.of or ("",))[0],
        "do": (asked.sentence(f"with {with_}"),) if with_ else (),
    }


def _number_prompt(state: State, act: Act, question: Ask) -> Prompt:
    unit = unit_of(question)
    place = _place(state, question)
    what = question.what if question.places == 1 else f"{question.what}, place {place} of {question.places}"
    notes = []
    if question.hold is not None:
        what += " at the end of its time" if HOLD_SINCE in state.hand else " at the start of its time"
    if question.as_new is not None:
        notes.append(f"as new: {question.as_new[0]} to {question.as_new[1]}")
    hold = _holding(state, question)
    if hold is not None:
        notes.append(f"it stands since {local(state, hold[0])}; not before {local_end(state, hold[1])}")
    elif question.hold is not None:
        notes.append(f"this starts its time of {question.hold}; an interruption starts it again")
    if question.as_ is not None and question.as_ in state.kept:
        notes.append(f"as it was found: {state.kept[question.as_]}")
    notes += [f"{low} to {high} proves {variant}" for variant, (low, high) in question.proves.items()]
    return Prompt(
        **{**_common(act), "verb": "HOLD" if question.hold else "MEASURE", "question": f"place {place}"},
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


def take(state: State, act: Act, prompt: Prompt, answer: str, now: datetime) -> Outcome:
    question = act.question
    match question.kind:
        case "kit":
            return _take_kit(state, act, answer)
        case "instruments":
            return _take_instruments(state, act, prompt, answer, now)
        case "mat" | "tools" | "scrap":
            counted = tray.take(state, act, question.kind, answer)
            if isinstance(counted, Outcome):
                return counted
            from dataclasses import replace

            return Outcome((replace(counted[0], done=True),), counted[1])
        case "count":
            return _take_count(act, answer)
        case "serial" if not same_serial(answer, state.header.serial):
            return another_pump(answer)
    if question.one_of or not _is_number(question):
        return _take_words(state, act, answer)
    return _take_number(state, act, answer, now)


def _take_count(act: Act, answer: str) -> Outcome:
    if not (answer.isascii() and answer.isdigit() and len(answer) < 7):
        return refused("not-a-count", f'"{answer}" is not a count; type a whole number')
    return Outcome((Told(act=act.id, done=True, what=act.question.what, value=answer),))


def _take_words(state: State, act: Act, answer: str) -> Outcome:
    question = act.question
    good = not question.good or answer in question.good
    if question.sets == "variant" and answer not in state.pump.procedure.procedure.variants:
        return refused("no-such-variant", f"{answer} is no variant of this procedure")
    if question.sets == "variant" and state.variant is not None and answer != state.variant:
        refusal = _other_variant(state, answer, answer)
        return Outcome((Told(act=act.id, done=True, what=question.what, value=answer),), (refusal,))
    if not good and act.step.cannot_pass:
        refusal = Refusal(
            "may-not-go-on",
            f"{question.what}: {answer}",
            mend=f"go on only with: {', '.join(question.good)}",
            passable=False,
        )
        return Outcome((), (refusal,))
    return Outcome(
        (
            Told(
                act=act.id,
                done=good,
                what=question.what,
                value=answer,
                verdict="inside" if good else "outside",
            ),
        )
    )


def _take_number(state: State, act: Act, answer: str, now: datetime) -> Outcome:
    question = act.question
    unit = unit_of(question)
    read = _number(answer, unit)
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
    if question.proves:
        return _proved(state, act, read)
    event = Measured(
        act=act.id,
        done=last and verdict == "inside",
        what=question.what,
        place=place,
        value=float(read.value),
        unit=read.unit,
        si=read.si,
        verdict=verdict,
    )
    return Outcome((event,))


def _number(text: str, unit: str) -> Quantity | Outcome:
    """A number as typed, the unit standing beside it, or a whole quantity of the same unit."""
    try:
        if any(letter.isalpha() for letter in text):
            quantity = parse(text, decimal_comma=True, signed=True)
            if quantity.unit != unit:
                return refused(
                    "reading-in-another-unit", f"this is asked in {unit}; you typed {quantity.unit}"
                )
            return quantity
        return Quantity(parse_number(text, signed=True), unit)
    except QuantityError as fault:
        return refused("not-a-reading", str(fault))


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


def _proved(state: State, act: Act, read: Quantity) -> Outcome:
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
    )
    if proved is not None and state.variant is not None and proved != state.variant:
        return Outcome((event,), (_other_variant(state, f"{read} proves", proved),))
    return Outcome((event,))


def _other_variant(state: State, seen: str, variant: str) -> Refusal:
    return Refusal(
        "variant-differs",
        f"{seen} {variant}; the pump was opened as {state.variant}"
        if seen != variant
        else f"you read {variant}; the pump was opened as {state.variant}",
        mend="look again; if it is so, this is another variant than the one on the paper",
    )


# ---------------------------------------------------------------------- kit and instruments


def kit_needs(state: State) -> dict[str, int]:
    """The rings the kit must hold, as "size rubber", with how many."""
    needs: dict[str, int] = {}
    for groove in state.pump.grooves.values():
        name = f"{state.pump.value(groove.takes)} {groove.material}"
        needs[name] = needs.get(name, 0) + 1
    return needs


def _kit_prompt(state: State, question: Ask) -> Prompt:
    needs = kit_needs(state)
    counted = sum(min(state.kit.get(name, 0), count) for name, count in needs.items())
    lines = tuple(f"{name}: {state.kit.get(name, 0)} of {count}" for name, count in needs.items())
    return Prompt(
        question=f"bag {sum(state.kit.get(name, 0) for name in needs)}",
        form=Form.WORDS,
        verb="READ SIZE",
        do=(asked.sentence(f"{question.what}: read each bag, size and rubber"),),
        ask=f"size and rubber on the next bag ({counted} of {sum(needs.values())} rings are counted)",
        enter="counts the ring you typed",
        notes=(*lines, f'type "{KIT_DONE}" when there are no more bags'),
    )


def _take_kit(state: State, act: Act, answer: str) -> Outcome:
    needs = kit_needs(state)
    if answer.casefold() == KIT_DONE:
        short = [
            f"{name}: {state.kit.get(name, 0)} of {count}"
            for name, count in needs.items()
            if state.kit.get(name, 0) < count
        ]
        done = Told(act=act.id, done=True, what="kit", value="short" if short else "complete")
        if short:
            return Outcome(
                (done,), (Refusal("kit-short", "; ".join(short), "the kit", "find what is missing"),)
            )
        return Outcome((done,))
    read = fit.read_bag(answer)
    if read is None:
        return refused("bag-not-read", f'"{answer}" is not size and rubber; type both, such as "-137 NBR"')
    name = f"{read[0]} {read[1]}"
    known = next((each for each in needs if each.casefold() == name.casefold()), None)
    if known is None:
        return refused(
            "ring-not-for-this-pump",
            f"no groove of this pump takes a {name}",
            mend="put it aside; read the bag again",
        )
    if state.kit.get(known, 0) >= needs[known]:
        return refused(
            "ring-too-many",
            f"this pump takes {needs[known]} of {known}, and so many are counted",
            mend="put it aside",
        )
    counted = Counted(act=act.id, what=known, count=state.kit.get(known, 0) + 1, expected=needs[known])
    total = sum(state.kit.get(each, 0) for each in needs) + 1
    if total < sum(needs.values()):
        return Outcome((counted,))
    return Outcome((counted, Told(act=act.id, done=True, what="kit", value="complete")))


def _instruments_open(state: State, now: datetime) -> tuple[tuple[str, int], ...]:
    """Groups and rounds that still want a wrench, in order."""
    return tuple(
        (group.id, round_number)
        for group in state.pump.groups.values()
        if group.torque is not None
        for round_number in wrenches.rounds_to_choose(state, group, now)
    )


def _instruments_prompt(state: State, act: Act, now: datetime) -> Prompt:
    waiting = _instruments_open(state, now)
    if not waiting:
        return Prompt(
            question="done",
            form=Form.CONFIRM,
            verb="LAY OUT",
            ask="the wrenches lie ready, none was dropped since its calibration",
            enter="records that the instruments lie ready",
            empty="",
        )
    group, round_number = waiting[0]
    return wrench_choice.ask(state, state.pump.groups[group], now, round_number)


def _take_instruments(state: State, act: Act, prompt: Prompt, answer: str, now: datetime) -> Outcome:
    if prompt.question == "done":
        return Outcome(
            (Told(act=act.id, done=True, what=act.question.what, value=", ".join(state.wrenches_used)),)
        )
    group, round_number = _instruments_open(state, now)[0]
    chosen_for = state.pump.groups[group]
    return wrench_choice.take(state, act, chosen_for, prompt.question, answer, now, round_number)


# ---------------------------------------------------------------------- the careful technician


def careful(state: State, act: Act, prompt: Prompt, now: datetime) -> str:
    question = act.question
    match question.kind:
        case "kit":
            needs = kit_needs(state)
            return next((name for name, count in needs.items() if state.kit.get(name, 0) < count), KIT_DONE)
        case "instruments":
            return "" if prompt.question == "done" else wrench_choice.careful(state, prompt)
        case "mat":
            return str(tray.on_the_mat(state))
        case "tools":
            return str(tray.tools_on_hooks(state))
        case "scrap":
            return str(tray.scrap(state))
        case "count":
            return "0"
        case "serial":
            return state.header.serial
        case "lot":
            return "LOT-1"
        case "words":
            return "none"
    if question.sets == "variant" and question.one_of:
        return state.variant or question.one_of[0]
    if question.one_of:
        return (question.good or question.one_of)[0]
    if question.proves:
        low, high = question.proves[state.variant or next(iter(question.proves))]
        return f"{(low.value + high.value) / 2:f}"
    if not _is_number(question):
        return "none"
    return _middle(state, question)


def _middle(state: State, question: Ask) -> str:
    """A value well inside the limits."""
    unit = unit_of(question)
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
