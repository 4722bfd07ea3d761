"""Tightening goes wrong: what was felt, another wrench, one that fell, a repaired thread."""

from __future__ import annotations

from functools import partial

from benchcheck.screens.bench.work import BenchFlow, Work, said
from benchcheck.screens.inquiry import Item
from benchcheck.session import troubles


def gone_wrong(work: Work) -> BenchFlow:
    """What was felt, at which position, and then the group comes loose."""
    known = tuple(troubles.TROUBLES.items())
    chosen = yield Item(
        "trouble",
        "What did you feel under the wrench?",
        "asks at which position",
        choices=tuple(told for _, told in known),
    )
    what, message = known[chosen.index][0], ""
    while True:
        position = yield Item("trouble", "At which position?", "asks why", field="position", said=message)
        why = yield Item(
            "trouble",
            "What did you see or feel? One line.",
            "records it; the group comes loose and is begun again",
            field="why",
        )
        if not position.text.strip().isdecimal():
            message = f'"{position.text}" is no position; type its number.'
            continue
        outcome = work.command(troubles.trouble, int(position.text), what, why.text)
        if outcome is None:
            return "It is in the record; the group comes loose and is begun again."
        message = said(outcome)


def another_wrench(work: Work) -> BenchFlow:
    """The wrench in hand is laid down."""
    why = yield Item(
        "trouble",
        f"{troubles.wrench_in_hand(work.state)} is laid down. Why? One line.",
        "records it, and asks for another wrench",
        field="why",
    )
    outcome = work.command(troubles.change_wrench, why.text)
    return said(outcome) if outcome is not None else "Another wrench is asked for."


def fell(work: Work) -> BenchFlow:
    """A wrench was dropped or damaged."""
    ids = tuple(each.id for each in work.state.job.registers.wrenches if each.id not in work.state.doubted)
    chosen = yield Item("trouble", "Which wrench fell, or is damaged?", "asks what happened", choices=ids)
    why = yield Item(
        "trouble",
        f"What happened to {ids[chosen.index]}? One line.",
        "records it; the wrench rests, and what it did here waits for a decision",
        field="why",
    )
    outcome = work.command(troubles.doubt_instrument, ids[chosen.index], why.text)
    return said(outcome) if outcome is not None else f"{ids[chosen.index]} rests from now on."


def thread_repaired(work: Work) -> BenchFlow:
    """An entitled person gives the limits of a thread with an insert."""
    group, message = troubles.group_in_hand(work.state), ""
    ask = partial(Item, "trouble")
    while True:
        position = yield ask("Which position has an insert?", "goes on", field="position", said=message)
        target = yield ask("Which torque holds there? As 14 N·m.", "goes on", field="torque")
        tolerance = yield ask("With which tolerance? As 10 %.", "goes on", field="tolerance")
        name = yield ask(
            "Who says so? An entitled person, not the one who works here.", "goes on", field="name"
        )
        why = yield ask("Why? One line.", "records the limits of that position", field="why")
        if not position.text.strip().isdecimal():
            message = f'"{position.text}" is no position; type its number.'
            continue
        outcome = work.command(
            troubles.repair_position,
            group,
            int(position.text),
            target.text,
            tolerance.text,
            name.text,
            why.text,
        )
        if outcome is None:
            return f"Position {position.text} has limits of its own from now on."
        message = said(outcome)
