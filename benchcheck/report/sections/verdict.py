"""The verdict: the one word, what it means, and the ten lines that a reviewer reads first."""

from __future__ import annotations

from dataclasses import dataclass

from benchcheck.assembly.acts import Act
from benchcheck.procedure.model import Phase, Step
from benchcheck.report import words
from benchcheck.report.document import Fields, Section
from benchcheck.report.journal import Journal
from benchcheck.report.sections import departures, people, readings, undone
from benchcheck.report.tightened import standing_tightened
from benchcheck.session import events as happened
from benchcheck.session.acts import tray
from benchcheck.session.closing import put_in_here
from benchcheck.session.engine import applies, is_done, steps_done

RELEASED = "RELEASED"
NOT_TO_RUN = "INCOMPLETE, DO NOT RUN"


@dataclass(frozen=True, slots=True)
class Standing:
    """Where the pump stands, in one word and one sentence."""

    word: str
    sentence: str


def standing(journal: Journal) -> Standing:
    """The verdict of the record. A damaged one is never a release, whatever it says."""
    state, proof = journal.state, journal.proof
    closed, judged = state.closed, state.judged
    if proof.bad_from is not None:
        return Standing(
            "DAMAGED RECORD",
            f"From event {proof.bad_from} on, the record does not agree with its seals, or with what "
            f"is known of them. This report holds what could be read, to event "
            f"{proof.number}. It is no release.",
        )
    if state.header.practice:
        return Standing("PRACTICE", "This was practice. No pump was released by it.")
    if closed is None:
        return Standing(
            NOT_TO_RUN, f"The work on this pump is not over. The last event was {_last(journal)}."
        )
    ended = f"{journal.day(closed.at)}, by {closed.by}" + (f" and {closed.second}" if closed.second else "")
    reason = f", because {closed.reason}" if closed.reason else ""
    word = RELEASED if closed.outcome == "released" else f"NOT RELEASED: {closed.outcome.upper()}"
    sentence = f"{words.capital(closed.outcome)} at the bench on {ended}{reason}."
    if judged is not None:
        word = judged.outcome.upper()
        limit = f" Limit: {judged.limit}." if judged.limit else ""
        limit += f" Expires: {judged.expires}." if judged.expires else ""
        sentence += (
            f" {words.capital(judged.outcome)} by {judged.name} on {journal.day(judged.at)}, because "
            f"{judged.reason}.{limit}"
        )
    return Standing(word, sentence)


def _last(journal: Journal) -> str:
    return f"on {journal.day(journal.state.at)}" if journal.state.at is not None else "its opening"


def section(journal: Journal) -> Section:
    """The first lines, and for whoever has only paper: under what limit it may run, and what is proved."""
    pump, procedure, complete, *rest = fields(journal)
    first = (pump, procedure, *(("limit", each.sentence) for each in limits(journal)), complete)
    return Section("Verdict", (Fields((*first, ("true", _proved(journal)), *rest)),))


@dataclass(frozen=True, slots=True)
class Limit:
    """Under what the pump may run, by a decision that stands."""

    holds: str
    expires: str
    """Its last day; empty: for good."""
    by: str

    @property
    def sentence(self) -> str:
        until = f"until {self.expires}" if self.expires else ""
        return f"{', '.join(each for each in (self.holds, until) if each)} ({self.by})"


def limits(journal: Journal) -> tuple[Limit, ...]:
    """The concessions under which the pump stands: a reviewer's, and those on deviations and positions."""
    state = journal.state
    found = [
        Limit(each.limit, each.expires, f"{each.name} on deviation {number}")
        for number, each in state.dispositions.items()
    ]
    found += [
        Limit(each.limit, each.expires, f"{each.name} on {state.pump.called(group)}, position {position}")
        for (group, position), each in state.positions_disposed.items()
    ]
    if state.judged is not None:
        found.insert(0, Limit(state.judged.limit, state.judged.expires, f"{state.judged.name}, as reviewer"))
    return tuple(each for each in found if each.holds or each.expires)


def _proved(journal: Journal) -> str:
    """What speaks for the record and up to which event; what does not is named where it rests on it."""
    proof = journal.proof
    if proof.bad_from is not None:
        return f"NOT from event {proof.bad_from} on"
    said = [f"the seals fit up to event {proof.number}"]
    for each in proof.proved_by:
        if " is that of event " in each:
            said.append(each[:1].lower() + each.partition(":")[0][1:])
    if proof.not_proved:
        things = words.count(len(proof.not_proved), "thing")
        said.append(f"{things} not proved, named under what this rests on")
    return "; ".join(said)


def fields(journal: Journal) -> tuple[tuple[str, str], ...]:
    """The first lines of the report, also for the screen that ends a session."""
    header = journal.state.header
    return (
        ("pump", f"{header.serial}, {journal.model}"),
        ("procedure", f"{header.procedure}, revision {journal.revisions}: {journal.head.title}"),
        ("complete", _complete(journal)),
        ("screws", _screws(journal)),
        ("departs", _departs(journal)),
        ("who", _who(journal)),
        ("with", _with(journal)),
        ("numbers", _numbers(journal)),
        ("left", _left(journal)),
        ("check", journal.proof.check),
    )


def _complete(journal: Journal) -> str:
    state = journal.state
    due = [step for step in state.pump.steps if applies(state, step)]
    before = state.pump.steps[: steps_done(state)]
    done = sum(_step_done(journal, step) for step in due if step in before or _is_begun(journal, step))
    skipped = len(state.pump.steps) - len(due)
    said = f"{done} of {words.count(len(due), 'step')}"
    if skipped:
        said += f" ({skipped} more {'was' if skipped == 1 else 'were'} not called for)"
    left_out = sum(fact.left_out for fact in state.facts.values() if not fact.void)
    if left_out:
        said += f", {words.count(left_out, 'act')} left out"
    rings = len(state.pump.grooves)
    if rings:
        good = sum(len(state.assembly.living_rings(groove)) == 1 for groove in state.pump.grooves)
        said += f"; {good} of {words.count(rings, 'ring')} in"
        here = put_in_here(state)
        if came := sum(
            bool(state.assembly.living_rings(each)) and each not in here for each in state.pump.grooves
        ):
            said += f", {came} as {'it' if came == 1 else 'they'} came in"
    return said


def _is_begun(journal: Journal, step: Step) -> bool:
    """Whether anything of it was done: what stands as it came in is no work."""
    return any(journal.state.fact(act.id) is not None for act in _acts(journal, step))


def _step_done(journal: Journal, step: Step) -> bool:
    return all(
        is_done(journal.state, act) or _signed_by_closing(journal, act) for act in _acts(journal, step)
    )


def _acts(journal: Journal, step: Step) -> list[Act]:
    return [act for act in journal.state.acts if act.step.id == step.id]


def _signed_by_closing(journal: Journal, act: Act) -> bool:
    """The last signature and the closing event are one answer."""
    closed = journal.state.closed
    return act.phase is Phase.RELEASE and closed is not None and bool(closed.second)


def _screws(journal: Journal) -> str:
    groups, held = journal.state.pump.groups, journal.state.assembly.held
    here = put_in_here(journal.state)
    tight = [group for name, group in groups.items() if name in here and name in held and held[name].passed]
    came = [group for name, group in groups.items() if name in held and name not in here]
    missing = [group for group in groups.values() if group not in tight and group not in came]
    said = [", ".join(f"{group.called} {group.count}" for group in tight) or "none"]
    if came:
        said.append(f"as they came in: {', '.join(group.called for group in came)}")
    if missing:
        said.append(f"NOT TIGHT: {', '.join(group.called for group in missing)}")
    return "; ".join(said) + ("" if came or missing or not tight else ": all through their last round")


def _departs(journal: Journal) -> str:
    state, found = journal.state, []
    if state.deviations:
        open_ones = len(state.open_deviations)
        found.append(
            words.count(len(state.deviations), "deviation")
            + (f", {open_ones} NOT DECIDED" if open_ones else ", decided")
        )
    if journal.voidings:
        found.append(f"{words.count(len(journal.voidings), 'fact')} voided")
    total = sum(1 for _ in departures.departing(journal))
    if not total:
        return "nothing"
    return f"{words.count(total, 'thing')} to read below" + (f"; {'; '.join(found)}" if found else "")


def _who(journal: Journal) -> str:
    said = [f"{words.listed(people.workers(journal))} did the work"]
    if seen := people.witnesses(journal):
        said.append(f"{words.listed(seen)} witnessed")
    closed = journal.state.closed
    if closed is not None and closed.second:
        said.append(
            f"{closed.second} released it" if closed.outcome == "released" else f"{closed.second} signed"
        )
    return "; ".join(said)


def _with(journal: Journal) -> str:
    state = journal.state
    wrenches = words.listed(state.wrenches_used) if state.wrenches_used else "no torque wrench"
    gauges = f"; {words.listed(state.gauges_used)}" if state.gauges_used else ""
    return f"{wrenches}{gauges}; {'lot ' + words.listed(state.lots) if state.lots else 'no lot read'}"


def _numbers(journal: Journal) -> str:
    done = list(standing_tightened(journal))
    signs = [sign for each in done for sign, _ in each.signs()]
    torques = sum(1 for each in done for _ in each.standing())
    facts = [each for each in readings.standing(journal) if isinstance(each, happened.Measured)]
    taken_over = sum(each.verdict == "taken over" for each in readings.standing(journal))
    bad = signs.count(words.OUTSIDE)
    said = f"{words.count(torques, 'tightening')} and {words.count(len(facts), 'reading')} stand"
    notes = []
    if bad:
        notes.append(f"{bad} OUTSIDE the limits")
    if signs.count(words.UNGUARDED):
        notes.append(f"{signs.count(words.UNGUARDED)} within the wrench's error of a limit")
    if taken_over:
        notes.append(f"{taken_over} taken over outside the limits")
    undone_ones = sum(1 for _ in undone.outside(journal))
    if undone_ones:
        notes.append(f"{undone_ones} outside at first")
    return f"{said}; {', '.join(notes) if notes else 'all inside their limits'}"


def _left(journal: Journal) -> str:
    state = journal.state
    inside = [
        part.called
        for part in state.pump.parts.values()
        if part.temporary and part.id in state.assembly.seated
    ]
    mat = tray.on_the_mat(state)
    return f"{words.count(mat, 'part')} to go in yet; " + (
        f"TOOLS INSIDE: {', '.join(inside)}" if inside else "no tool inside"
    )
