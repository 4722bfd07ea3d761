"""Tightening: every group by position and round, against its limits; what was undone stands apart."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.mechanics import pattern
from benchcheck.procedure.model import Fasteners
from benchcheck.report import words
from benchcheck.report.document import (
    Block,
    Column,
    Fields,
    Mark,
    Paragraph,
    Pattern,
    Points,
    Scale,
    Section,
    Table,
)
from benchcheck.report.journal import Journal
from benchcheck.report.tightened import Tightened, all_tightened, standing_tightened
from benchcheck.session import events as happened

_NOTHING = "-"
_SIGNS = (
    "Limits are those of the procedure, in the unit the wrench was used in. A setting wrench is set and "
    "clicks; a reading is what an indicating wrench showed. Calibration dates are those of the register "
    f"of today. {words.OUTSIDE} outside the limits; {words.UNGUARDED} inside, but the wrench's own error "
    f"may take it out; {words.TAKEN_OVER} decided on by name."
)


def section(journal: Journal) -> Section:
    blocks: list[Block] = [Paragraph(_SIGNS)]
    standing = list(standing_tightened(journal))
    for group in journal.state.pump.groups.values():
        mine = [each for each in standing if each.group.id == group.id]
        if not mine:
            blocks.append(Paragraph(_not_tightened(journal, group)))
        for each in mine:
            blocks += _blocks(each)
    return Section("Tightening", tuple(blocks))


def undone(journal: Journal) -> Iterator[Block]:
    """Tightenings that were loosened again, for the section on what was undone."""
    for each in all_tightened(journal):
        if each.run.loosened and each.run.turned:
            when = f"run in at event {each.run.began}, loosened at event {each.run.loosened}"
            yield _table(each, f"{_called(each.group)}, {when}")


def other_orders(journal: Journal) -> Iterator[str]:
    """Sentences on the standing rounds that were done in another order than the procedure's."""
    for each in standing_tightened(journal):
        yield from _other_orders(each)


def _not_tightened(journal: Journal, group: Fasteners) -> str:
    if group.id in journal.state.assembly.held:
        return f"{_called(group)}: as it came in; it was not loosened."
    return f"{_called(group)}: NOT TIGHTENED."


def _called(group: Fasteners) -> str:
    name = group.called if group.called == group.id else f"{group.called} ({group.id})"
    return words.capital(name)


# ---------------------------------------------------------------------- blocks


def _blocks(done: Tightened) -> Iterator[Block]:
    yield _head(done)
    if done.group.count > 1:
        if done.group.count > 2 and done.group.layout is not None:
            yield _pattern(done)
        yield _table(done, f"{_called(done.group)}, position by position")
        if (scale := _scale(done)) is not None:
            yield scale
    if notes := (*_other_orders(done), *_done_again(done), *_disposed(done)):
        yield Points(notes)


def _head(done: Tightened) -> Fields:
    group, run = done.group, done.run
    rows = [("wanted", _wanted(group))]
    if limits := _limits(done):
        rows.append(("limits", limits))
    if (turn := done.turn_limits()) is not None:
        rows.append(("turned", f"{words.limits(turn.low, turn.high)} ° onward, once"))
    if group.count == 1 and (got := _got(done)):
        rows.append(("got", got))
    wrenches = dict.fromkeys(
        each.wrench for each in run.turned if isinstance(each, happened.PositionTightened) and each.wrench
    )
    if wrenches:
        rows.append(("with", "; ".join(_wrench(done, each) for each in wrenches)))
    if run.running_torque is not None:
        measured = run.running_torque
        rows.append(("running", f"{words.number(measured.value)} {measured.unit}, event {measured.number}"))
    if group.count > 1:
        so = ", and so done" if run.turned and not list(_other_orders(done)) else " was asked"
        rows.append(("order", "-".join(map(str, done.order)) + so))
    if screws := _screws(done):
        rows.append(("screws", screws))
    if group.threadlocker is not None:
        locker = group.threadlocker
        rows.append(("locker", f"{locker.strength} strength, {locker.amount}, on the {locker.where}"))
    rows.append(("when", _when(done)))
    return Fields(tuple(rows), _called(group))


def _wanted(group: Fasteners) -> str:
    said = words.count(group.count, "position")
    if group.torque is None:
        return f"{said}, tight; no torque is asked"
    condition = group.friction.condition if group.friction else None
    thread = ", ".join(each for each in (group.thread, group.strength, condition) if each)
    return f"{said}, {group.torque.target} ± {group.torque.tolerance}" + (f"; {thread}" if thread else "")


def _limits(done: Tightened) -> str:
    found = []
    for number in range(1, done.rounds + 1):
        at = f"at {done.share(number)} " if done.rounds > 1 else ""
        if number in done.group.without_wrench:
            found.append(f"{at}by hand, until its head touches")
        elif (limits := done.limits(number)) is not None:
            found.append(f"{at}{words.limits(limits.low, limits.high)} {limits.unit}")
    if found and (foot := done.group.crowfoot) is not None:
        positions = words.listed(map(str, foot.at))
        found.append(
            f"at the screw; with the crow-foot, at position {positions}, the wrench shows another figure"
        )
    return "; ".join(found)


def _got(done: Tightened) -> str:
    found = []
    for event in done.standing():
        if isinstance(event, happened.PositionTurned):
            said = f"{done.turn_sign(event)} turned {words.number(event.degree)} °"
        else:
            showed = "showed " if event.how == "showed" else ""
            said = f"{showed}{_cell(done, event)} {event.unit}"
        found.append(f"{said.strip()}, event {event.number}")
    return "; ".join(found)


def _wrench(done: Tightened, name: str) -> str:
    wrench = done.journal.state.job.registers.wrench(name)
    if wrench is None:
        return f"{name} (not in the register of today)"
    due = wrench.calibration_due
    return f"{name} ({wrench.kind}, calibrated to {due.day} {due:%B %Y})"


def _screws(done: Tightened) -> str:
    journal, began = done.journal, done.run.began
    act = next((each.act for each in journal.of(happened.GroupStarted) if each.number == began), "")
    read = [
        f"{each.value}, read at event {each.number}"
        for each in journal.of(happened.Answered)
        if each.act == act and each.question.startswith("screws") and each.number < began
    ]
    if read:
        return "; ".join(dict.fromkeys(read))
    variant = journal.state.variant
    return "; ".join(each.item for each in done.group.screws if not each.for_ or variant in each.for_)


def _when(done: Tightened) -> str:
    events = (*done.run.turned, *done.run.checked)
    if not events:
        return f"run in at event {done.run.began}; NOTHING TIGHTENED YET"
    by = words.listed(dict.fromkeys(each.by for each in events))
    first, last = done.journal.when(events[0].at).words, done.journal.when(events[-1].at).words
    return f"{first}, by {by}" if first == last else f"{first} to {last}, by {by}"


def _table(done: Tightened, caption: str) -> Table:
    columns = [Column("position")]
    columns += (Column(f"at {done.share(number)}", right=True) for number in range(1, done.rounds + 1))
    if done.group.angle is not None:
        columns.append(Column("turned", right=True))
    elif done.group.has_pass:
        columns.append(Column("pass"))
    columns.append(Column("events"))
    rows = tuple(tuple(_row(done, position)) for position in done.positions)
    unit = done.unit()
    return Table(f"{caption}, in {unit}" if unit else caption, tuple(columns), rows)


def _row(done: Tightened, position: int) -> Iterator[str]:
    yield str(position)
    numbers = []
    for number in range(1, done.rounds + 1):
        event = done.reading(position, number)
        yield _cell(done, event) if event is not None else _NOTHING
        numbers += [event.number] if event is not None else []
    if done.group.angle is not None:
        turn = done.turn(position)
        yield f"{done.turn_sign(turn)} {words.number(turn.degree)} °".strip() if turn else _NOTHING
        numbers += [turn.number] if turn is not None else []
    elif done.group.has_pass:
        yield ", ".join(_look(done, each) for each in done.looks(position)) or _NOTHING
        numbers += [each.number for each in done.run.checked if each.position == position][-1:]
    yield ", ".join(map(str, numbers)) or _NOTHING


def _look(done: Tightened, event: happened.PositionChecked) -> str:
    """Whether it moved in the pass, and what was shown where the wrench shows it."""
    said = "moved" if event.moved else "stood"
    if not event.unit:
        return said
    unit = f" {event.unit}" if event.unit != done.unit() else ""
    return f"{said} {done.sign(event)} {words.number(event.value)}{unit}".replace("  ", " ")


def _cell(done: Tightened, event: happened.PositionTightened) -> str:
    if not event.unit:
        return "tight"
    how = "set " if event.how == "set" else ""
    unit = f" {event.unit}" if done.group.count > 1 and event.unit != done.unit() else ""
    return f"{done.sign(event)} {how}{words.number(event.value)}{unit}".strip()


def _pattern(done: Tightened) -> Pattern:
    layout = done.group.layout
    assert layout is not None
    if layout.circle is not None:
        places = pattern.circle_places(layout.circle, 0.0 if layout.at_datum else 0.5)
    elif layout.rectangle is not None:
        places = pattern.rectangle_places(*layout.rectangle)
    else:
        places = layout.points or ()
    turns = pattern.labels_clockwise(done.order)
    disposed = {each.position for each in done.disposals()}
    marks = []
    for position, ((x, y), turn) in enumerate(zip(places, turns, strict=True), 1):
        event = done.reading(position, done.rounds)
        sign = words.TAKEN_OVER if position in disposed else done.sign(event) if event is not None else ""
        reading = words.number(event.value) if event is not None and event.unit else ""
        marks.append(Mark(position, x, y, turn, reading, sign))
    seen = f"seen from the {layout.seen_from}, " if layout.seen_from else ""
    return Pattern(
        _called(done.group), f"{seen}numbered clockwise", tuple(marks), done.unit(), layout.datum or ""
    )


def _scale(done: Tightened) -> Scale | None:
    """The last round, where an indicating wrench showed it and every position has the same limits."""
    last = [done.reading(position, done.rounds) for position in done.positions]
    shown = [each for each in last if each is not None and each.how == "showed" and each.unit]
    limits = done.limits(done.rounds)
    if not shown or limits is None or done.group.crowfoot is not None:
        return None
    if any(each.unit != limits.unit for each in shown):
        return None
    return Scale(
        f"{_called(done.group)} at {done.share(done.rounds)}, as shown",
        limits.low,
        limits.target,
        limits.high,
        limits.unit,
        tuple((f"position {each.position}", each.value) for each in shown),
    )


# ---------------------------------------------------------------------- sentences


def _other_orders(done: Tightened) -> Iterator[str]:
    for number in range(1, done.rounds + 1):
        if done.other_order(number):
            yield (
                f"{_called(done.group)}, round {number}: done in the order "
                f"{'-'.join(map(str, done.done_order(number)))}; {'-'.join(map(str, done.order))} was asked."
            )


def _done_again(done: Tightened) -> Iterator[str]:
    lost = done.done_again()
    for number in sorted({each.round for each in lost}):
        read = "; ".join(_before(each) for each in lost if each.round == number)
        yield f"Round {number} was begun again, or part of it. Before that: {read}."


def _before(event: happened.PositionTightened) -> str:
    how = "set " if event.how == "set" else ""
    return f"position {event.position}, {how}{words.number(event.value)} {event.unit} (event {event.number})"


def _disposed(done: Tightened) -> Iterator[str]:
    for each in done.disposals():
        yield (
            f"Position {each.position}: {each.disposition}, decided by {each.name}, because {each.reason} "
            f"(event {each.number})."
        )
