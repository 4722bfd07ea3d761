"""What a person who made a fault and does not know it would truly answer, prompt by prompt.

Questions of fact are answered from the true state of the pump, questions that can only be answered with
yes with yes. A question tells of a fault only by what the procedure says it is about: its `of`, the end
or the mark that an answer names, its limits. Nothing is guessed from its words besides.
"""

from __future__ import annotations

from dataclasses import replace

from benchcheck.assembly import faults
from benchcheck.assembly.acts import Act, Verb
from benchcheck.assembly.every_fault import outside_answers
from benchcheck.assembly.facing import end_up
from benchcheck.assembly.faults import Fault
from benchcheck.assembly.state import Assembly
from benchcheck.assembly.tightening import figure
from benchcheck.mechanics.wrench import Setting
from benchcheck.procedure.model import Ask, Phase, StepAct
from benchcheck.session.acts import place, tray, wrenches
from benchcheck.session.acts import questions as asked
from benchcheck.session.acts.install import ELSEWHERE
from benchcheck.session.acts.last_pass import MOVED
from benchcheck.session.arrival import LEFT_EMPTY, ONE_RING, TWO_RINGS
from benchcheck.session.fault_walk import Moment
from benchcheck.session.prompt import Form

NOTHING = "none"
"""What is read off a bag that nobody took in hand, or off a wrench that found nothing to turn."""


def true_answer(fault: Fault, moment: Moment, act: Act, true: Assembly) -> str | None:
    """The true answer to a prompt, from the step of the fault on; None where it is the careful one.

    `true`: the assembly as it really is, where the record has that of the moment.
    """
    kind = moment.prompt.question.split(" ")[0]
    match act.verb:
        case Verb.FIT if kind == "size":
            return _size(fault, act)
        case Verb.INSTALL:
            return _install(fault, moment, act, kind, true)
        case Verb.START if kind == "screws":
            return _screws(fault, moment, act)
        case Verb.START if kind in ("mat", "tools"):
            return _count(fault, moment, act, kind, true)
        case Verb.TIGHTEN:
            return _tighten(fault, moment, act, kind)
        case Verb.LOOK if kind != "pose":
            return _look(act.target, true)
        case Verb.WITNESS if kind == "saw":
            thing = moment.prompt.question.partition(" ")[2]
            return None if thing.isdigit() else _look(thing, true)
        case Verb.ASK if act.question.kind is not None:
            return _count(fault, moment, act, act.question.kind, true)
        case Verb.ASK:
            return _fact(fault, moment, act, true)
    return None


def _size(fault: Fault, act: Act) -> str | None:
    if act.target != fault.thing:
        return None
    if isinstance(fault, faults.AnotherRing):
        return f"{fault.size} {fault.material}"
    # The old one lies in no bag.
    return NOTHING if isinstance(fault, faults.LeftOut | faults.OldForNew) else None


def _install(fault: Fault, moment: Moment, act: Act, kind: str, true: Assembly) -> str | None:
    pump, part, question = true.pump, act.target, moment.prompt.question
    body = pump.parts[part].into or ""
    is_face = kind == "face" or question == "witness face"
    if kind == "place":
        return place.seen(replace(moment.state, assembly=true), act, moment.prompt)
    if kind == "groove":
        return _rings_in(true, question.partition(" ")[2])
    if is_face and body in moment.state.assembly.seated and body not in true.seated:
        return asked.NEITHER  # there is no place for it to lie over
    if part not in (fault.thing, getattr(fault, "carrier", "")):
        return None
    match fault:
        case faults.LeftOut() if is_face:
            return asked.NEITHER
        case faults.LeftOut() if kind == "mark":
            return ELSEWHERE
        case faults.Reversed() if is_face:
            return next(end for end in pump.ends(part) if end != pump.planned_seen[part])
        case faults.Turned() if kind == "mark":
            return fault.mark or ELSEWHERE
        case faults.OtherEnd() if kind == "pose":
            return next(end for end in pump.ends(moment.prompt.target) if end != moment.answer)
    return None


def _rings_in(true: Assembly, groove: str) -> str:
    count = len(true.sealed.get(groove, ()))
    return ONE_RING if count == 1 else TWO_RINGS if count else LEFT_EMPTY


def _look(thing: str, true: Assembly) -> str:
    if thing in true.pump.grooves:
        return _rings_in(true, thing)
    return (end_up(true, thing) if thing in true.seated else None) or asked.NEITHER


def _screws(fault: Fault, moment: Moment, act: Act) -> str | None:
    if act.target != fault.thing:
        return None
    if isinstance(fault, faults.AnotherScrew):
        return fault.item if moment.prompt.question == f"screws {fault.number}" else None
    return asked.NEITHER if isinstance(fault, faults.LeftOut) else None


def _count(fault: Fault, moment: Moment, act: Act, counted: str, true: Assembly) -> str | None:
    """Mat, tools and scrap as they really lie there."""
    state = replace(moment.state, assembly=true)
    match counted:
        case "mat":
            spare = isinstance(fault, faults.OldForNew)
            if fault.thing in true.pump.grooves:  # rings are counted when none should be left
                unfitted = spare or isinstance(fault, faults.LeftOut | faults.LeftOver)
                spare = unfitted and act.phase is Phase.RELEASE
            return str(tray.on_the_mat(state) + spare)
        case "tools":
            return str(tray.tools_on_hooks(state))
        case "scrap":
            return str(tray.scrap(moment.state) - isinstance(fault, faults.OldForNew))
    return None


# ---------------------------------------------------------------------- facts


def _fact(fault: Fault, moment: Moment, act: Act, true: Assembly) -> str | None:
    question, recorded, own = act.question, moment.state.assembly, act.id == fault.act
    bad = outside_answers(question)
    about = question.of or (act.step.of if act.step.act is not StepAct.INSTALL else ())
    match fault:
        case faults.FactOutside():
            return fault.answer if own else None
        case faults.AnotherVariant() if question.proves:
            return _middle(question, fault.variant)
        case faults.AnotherScrew() if fault.thing in about and question.proves:
            return _variant_of(fault, true, question)
    if not bad:
        return None
    if any(part in recorded.seated and part not in true.seated for part in about):
        return _naming(bad, ("no ", "not ")) or bad[-1]
    if any(true.sealed.get(groove, ()) != recorded.sealed.get(groove, ()) for groove in about):
        return bad[-1]
    match fault:
        case faults.NotHome() | faults.OtherEnd() if not question.one_of and question.as_ is None:
            told = fault.thing in about or (not about and fault.thing in act.step.all_parts)
            return bad[-1] if told else None
        case faults.TurnSkipped() | faults.LeftOut() | faults.LeftOver() if fault.thing in about:
            return bad[-1]
        case faults.InRound() | faults.AnotherScrew() if fault.thing in about:
            return bad[-1] if fault.harms(true.pump) else None
        case faults.Reversed():
            return _facing(fault, about, bad, true)
        case faults.Turned() if fault.thing in about:
            names = (fault.mark,) if fault.mark else ()
            return _naming(bad, (*names, true.pump.called(fault.thing), fault.own))
    return None


def _facing(
    fault: faults.Reversed, about: tuple[str, ...], bad: tuple[str, ...], true: Assembly
) -> str | None:
    """An answer that names an end tells which way a part lies; of several parts, the one named with it."""
    for part in fault.parts:
        # Turned together with what carries it, a part points as it should.
        if part not in about or (fault.carrier and part == fault.thing):
            continue
        pump = true.pump
        wrong = next(end for end in pump.ends(part) if end != pump.planned_seen[part])
        answers = [each for each in bad if wrong in each]
        return _naming(tuple(answers), (pump.called(part),)) or next(iter(answers), None)
    return None


def _naming(answers: tuple[str, ...], names: tuple[str, ...]) -> str | None:
    """The first answer that holds one of the names; earlier names first."""
    return next((each for name in names for each in answers if name in each), None)


def _middle(question: Ask, variant: str) -> str:
    low, high = question.proves[variant]
    return f"{(low.value + high.value) / 2:f}"


def _variant_of(fault: faults.AnotherScrew, true: Assembly, question: Ask) -> str | None:
    """What a measurement that proves the variant gives on the screws of another one."""
    for screws in true.pump.groups[fault.thing].screws:
        if screws.item == fault.item:
            return next((_middle(question, each) for each in screws.for_ if each in question.proves), None)
    return None


# ---------------------------------------------------------------------- tightening


def _tighten(fault: Fault, moment: Moment, act: Act, kind: str) -> str | None:
    """In the round itself only a reading tells; in the pass after it, the screw moves first."""
    pump, words = moment.state.pump, moment.prompt.question.split(" ")
    group = pump.groups[act.target]
    missing = isinstance(fault, faults.LeftOut | faults.LeftOver) and (
        fault.thing == group.id or fault.thing in group.parts
    )
    if kind in ("turn", "running") and missing:
        return NOTHING
    if kind == "turn" and isinstance(fault, faults.TurnSkipped) and fault.thing == group.id:
        return NOTHING if group.count == 1 else None
    if kind == "pass":
        mine = (
            isinstance(fault, faults.InRound)
            and fault.thing == group.id
            and fault.is_last(pump)
            and (not isinstance(fault, faults.PositionSkipped) or words[1] == str(fault.position))
        )
        return MOVED if mine or missing else None
    if kind != "round" or moment.prompt.form is not Form.NUMBER:
        return None
    if missing:
        return NOTHING
    if not isinstance(fault, faults.InRound) or fault.thing != group.id or words[1] != str(fault.round):
        return None
    if isinstance(fault, faults.RoundLeftOut):
        return _figure(moment, group.id, fault.round, fault.instead)
    return NOTHING if group.count == 1 else None  # of several, another one was pulled


def _figure(moment: Moment, group: str, round_number: int, instead: int) -> str | None:
    chosen = wrenches.taken(moment.state, group, round_number)
    wrench = moment.state.job.registers.wrench(chosen[0]) if chosen is not None else None
    if wrench is None:
        return None
    told = figure(
        moment.state.pump.groups[group], wrench, instead, 1, wrenches.today(moment.state, moment.now)
    )
    return f"{told.value:f}" if isinstance(told, Setting) else None
