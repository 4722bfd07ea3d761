"""It goes wrong under the hand: what was felt, another instrument, one that fell, a repaired thread."""

from __future__ import annotations

from collections.abc import Generator

from benchcheck.screens.bench.work import BenchFlow, Work, said
from benchcheck.screens.inquiry import Item, Reply
from benchcheck.session import troubles


def _position(work: Work, ask: str, enter: str) -> Generator[Item, Reply, int]:
    """Which position of the group in hand; of a single fastener nothing is asked."""
    group = work.state.pump.groups[troubles.group_in_hand(work.state)]
    message, text = "", ""
    while group.count > 1:
        position = yield Item("trouble", ask, enter, field="position", said=message, text=text)
        text = position.text.strip()
        if text.isdecimal() and 1 <= int(text) <= group.count:
            return int(text)
        message = f'"{text}" is no position of the {group.called}: type 1 to {group.count}.'
    return 1


def gone_wrong(work: Work) -> BenchFlow:
    """What was felt, at which position, and then the group comes loose."""
    known = tuple(troubles.may_be_felt(work.state).items())
    chosen = yield Item(
        "trouble",
        "What did you feel under the wrench?",
        "asks at which position",
        choices=tuple(told for _, told in known),
    )
    position = yield from _position(work, "At which position?", "asks what you saw")
    why = yield Item(
        "trouble",
        "What did you see or feel? One line.",
        "records it; the group comes loose and is begun again",
        field="why",
    )
    outcome = work.command(troubles.trouble, position, known[chosen.index][0], why.text)
    return said(outcome) if outcome is not None else "It is in the record; the group comes loose."


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


def another_gauge(work: Work) -> BenchFlow:
    """The gauge in hand is laid down."""
    why = yield Item(
        "trouble",
        f"{troubles.gauge_in_hand(work.state)} is laid down. Why? One line.",
        "records it, and asks for another gauge",
        field="why",
    )
    outcome = work.command(troubles.change_gauge, why.text)
    return said(outcome) if outcome is not None else "Another gauge is asked for."


def fell(work: Work) -> BenchFlow:
    """A wrench or a gauge was dropped or damaged."""
    state = work.state
    in_hand = troubles.wrench_in_hand(state) or troubles.gauge_in_hand(state)
    known = (each.id for each in state.job.registers.instruments if each.id not in state.doubted)
    # The one in hand first, then those that did something here.
    ids = sorted(known, key=lambda each: (each != in_hand, each not in state.done_with))
    chosen = yield Item(
        "trouble", "Which instrument fell, or is damaged?", "asks what happened", choices=tuple(ids)
    )
    why = yield Item(
        "trouble",
        f"What happened to {ids[chosen.index]}? One line.",
        "records it; it rests, and what it did here waits for a decision",
        field="why",
    )
    outcome = work.command(troubles.doubt_instrument, ids[chosen.index], why.text)
    if outcome is not None:
        return said(outcome)
    waiting = [each for each in work.state.open_deviations if each.rules == (troubles.IN_DOUBT,)]
    return f"{waiting[-1].wrong}." if waiting else f"{ids[chosen.index]} rests from now on."


def thread_repaired(work: Work) -> BenchFlow:
    """An entitled person gives the limits of a thread with an insert; what was typed stays to be mended."""
    group = troubles.group_in_hand(work.state)
    position = yield from _position(work, "Which position has an insert?", "goes on")
    asked = {
        "torque": ("Which torque holds there? As 14 N·m.", "goes on"),
        "tolerance": ("With which tolerance? As 10 %.", "goes on"),
        "name": ("Who says so? An entitled person, not the one who works here.", "goes on"),
        "why": ("Why? One line.", "records the limits of that position"),
    }
    typed = dict.fromkeys(asked, "")
    message = ""
    while True:
        for field, (ask, enter) in asked.items():
            reply = yield Item("trouble", ask, enter, field=field, text=typed[field], said=message)
            typed[field], message = reply.text, ""
        outcome = work.command(troubles.repair_position, group, position, *typed.values())
        if outcome is None:
            return f"Position {position} has limits of its own from now on."
        message = said(outcome)
