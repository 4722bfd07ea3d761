"""What departs from the procedure, each thing in a sentence, worst first; and each deviation in full."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.report import words
from benchcheck.report.document import Block, Fields, Paragraph, Points, Section
from benchcheck.report.journal import Journal
from benchcheck.report.sections import facing, grooves, tightening, undone
from benchcheck.report.tightened import Tightened, standing_tightened
from benchcheck.session import events as happened
from benchcheck.session.closing import agrees


def section(journal: Journal) -> Section:
    sentences = tuple(departing(journal))
    blocks: list[Block] = [
        Points(sentences) if sentences else Paragraph("Nothing departs from the procedure.")
    ]
    blocks += (_deviation(journal, each) for each in journal.state.deviations)
    return Section("What departs", tuple(blocks))


def departing(journal: Journal) -> Iterator[str]:
    """Every departure, in a sentence."""
    state = journal.state
    if journal.proof.bad_from is not None:
        yield f"The record is damaged from event {journal.proof.bad_from} on."
    yield from (f"The closing summary is not what the events add up to: {each}." for each in agrees(state))
    yield from facing.wrong_as_built(journal)
    yield from grooves.wrong_rings(journal)
    yield from (_in_short(journal, each) for each in state.deviations)
    yield from _positions(journal)
    for done in standing_tightened(journal):
        yield from (_signed(done, sign, event) for sign, event in done.signs())
        yield from _moved(done)
    yield from tightening.other_orders(journal)
    yield from _out_of_date(journal)
    yield from _miscounted(journal)
    yield from _changed(journal)
    if wrong := facing.wrong_as_found(journal):
        yield f"As it came in, {words.count(len(wrong), 'thing')} faced the wrong way: see As found."
    yield from _surprises(journal)


def _in_short(journal: Journal, deviation: happened.Deviation) -> str:
    decided = journal.state.dispositions.get(deviation.deviation)
    how = f"Decided: {decided.disposition}." if decided is not None else "NOT DECIDED."
    again = f" It repeats deviation {', '.join(map(str, deviation.again))}." if deviation.again else ""
    return f"Deviation {deviation.deviation}: {deviation.wrong}.{again} {how}"


def _positions(journal: Journal) -> Iterator[str]:
    for each in journal.of(happened.PositionDisposed):
        where = f"{words.capital(journal.state.pump.called(each.group))}, position {each.position}"
        holds = [each.limit, f"until {each.expires}" if each.expires else ""]
        held = "".join(f", {each}" for each in holds if each)
        yield f"{where}: decided on by name, {each.disposition}{held} (event {each.number})."


def _moved(done: Tightened) -> Iterator[str]:
    moved = [str(each.position) for each in done.run.checked if each.moved]
    if moved:
        yield (
            f"{words.capital(done.group.called)}: moved in the check pass, which was then begun again: "
            f"position {words.listed(moved)}."
        )


def _changed(journal: Journal) -> Iterator[str]:
    """What was done or answered otherwise at first."""
    for moved in journal.of(happened.MovedOn):
        yield (
            f"Moved on to revision {moved.revision} of the procedure (event {moved.number}): {moved.kept} "
            f"confirmations were kept, {len(moved.void)} became void."
        )
    for each in journal.of(happened.WentBack):
        targets = words.listed(journal.state.pump.the(target) for target in each.targets)
        yield f"Gone back to {targets}, because {each.reason} (event {each.number})."
    if number := sum(1 for _ in undone.outside(journal)):
        yield f"{words.count(number, 'answer')} stood outside the limits at first."
    if number := len(journal.corrected):
        yield f"{words.count(number, 'answer')} {'was' if number == 1 else 'were'} corrected."
    if journal.voidings:
        left = sum(not each.again for each in journal.voidings)
        again = f"{left} not done again" if left else "all of it was done again"
        yield f"{words.count(len(journal.voidings), 'fact')} became void; {again}."


def _surprises(journal: Journal) -> Iterator[str]:
    for event in journal.events:
        match event:
            case happened.ClockWentBack():
                yield f"The clock of the bench went back before event {event.number}."
            case happened.GrooveFound():
                yield f"{event.groove} was found {words.found_words(event.found)} (event {event.number})."
            case happened.InstrumentDoubted():
                did = f"it did {words.listed(event.readings)}" if event.readings else "not used before"
                yield f"{event.instrument} is in doubt, {event.reason}: {did} (event {event.number})."
            case happened.WrenchChanged():
                yield f"{event.wrench} was laid down, {event.reason} (event {event.number})."
            case happened.GaugeChanged():
                yield f"{event.gauge} was laid down, {event.reason} (event {event.number})."
            case happened.TighteningTrouble():
                group = journal.state.pump.groups[event.group].called
                yield (
                    f"{words.capital(group)}, position {event.position}, went wrong: {event.what}, "
                    f"{event.reason} (event {event.number})."
                )
            case happened.PositionRepaired():
                group = journal.state.pump.groups[event.group].called
                yield (
                    f"{words.capital(group)}, position {event.position}, was repaired: {event.target} ± "
                    f"{event.tolerance}, says {event.name}, because {event.reason} (event {event.number})."
                )
            case happened.CardLeft(signed=False):
                yield (
                    f"{event.name} had not signed the handover card as {event.by} took over: {event.words} "
                    f"(event {event.number})."
                )
            case happened.WorkHalted():
                yield f"The work was stopped: {event.why} (event {event.number})."
            case happened.StayedOn():
                yield (
                    f"{event.by} stayed on revision {event.revision}, though another text of it was there "
                    f"(event {event.number})."
                )
            case happened.Remark():
                yield f"{event.by} remarked: {event.text} (event {event.number})."


def _signed(done: Tightened, sign: str, event: happened.PositionTightened | happened.PositionTurned) -> str:
    if isinstance(event, happened.PositionTightened):
        got = f"round {event.round}, {words.number(event.value)} {event.unit}"
    else:
        got = f"turned {words.number(event.degree)} °"
    said = (
        "inside, but not by more than the wrench's own error"
        if sign == words.UNGUARDED
        else "OUTSIDE its limits"
    )
    where = f"{words.capital(done.group.called)}, position {event.position}"
    return f"{where}, {got}: {said} (event {event.number})."


def _out_of_date(journal: Journal) -> Iterator[str]:
    """Instruments used after the last day of their calibration, by the register of today."""
    ends = journal.state.job.registers.due
    said: set[str] = set()
    for event in journal.events:
        match event:
            case happened.PositionTightened(wrench=name) | happened.Measured(instrument=name):
                due = ends.get(name)
            case _:
                continue
        day = journal.time(event.at).date()
        if due is not None and day > due and name not in said:
            said.add(name)
            yield (
                f"{name} was used on {day.day} {day:%B %Y}; by the register of today its calibration "
                f"ended on {due.day} {due:%B %Y}."
            )


def _miscounted(journal: Journal) -> Iterator[str]:
    last: dict[tuple[str, str], happened.Counted] = {}
    for each in journal.of(happened.Counted):
        last[each.act.partition("/")[0], each.what] = each
    for each in last.values():
        if each.count != each.expected:
            yield f"{each.what}: {each.count} counted where {each.expected} are due (event {each.number})."


def _deviation(journal: Journal, deviation: happened.Deviation) -> Fields:
    decided = journal.state.dispositions.get(deviation.deviation)
    rows = [
        ("wrong", deviation.wrong),
        ("where", journal.thing(deviation.act) if deviation.act else "the whole pump"),
        ("why", deviation.reason),
        ("who", f"{deviation.by}, {journal.day(deviation.at)}, event {deviation.number}"),
        ("rule", ", ".join(deviation.rules)),
    ]
    if deviation.again:
        rows.append(("again", f"repeats deviation {', '.join(map(str, deviation.again))}"))
    if decided is None:
        rows.append(("decided", "NOT YET: another, entitled person has to decide on it"))
    else:
        rows.append(("decided", f"{decided.disposition}, because {decided.reason}"))
        if decided.limit or decided.expires:
            until = f"until {decided.expires}" if decided.expires else ""
            rows.append(("holds", ", ".join(each for each in (decided.limit, until) if each)))
        rows.append(("by", f"{decided.name}, {journal.day(decided.at)}, event {decided.number}"))
    return Fields(tuple(rows), f"Deviation {deviation.deviation}")
