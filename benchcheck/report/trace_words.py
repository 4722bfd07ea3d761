"""What a trace says of a session and of a use in it, in a few words: for tables, and for other programs."""

from __future__ import annotations

from benchcheck.report import words
from benchcheck.session import events as happened
from benchcheck.session.events import Event
from benchcheck.session.leaning import step_of
from benchcheck.session.trace.past import Past
from benchcheck.session.trace.search import Touched, is_in_the_pump
from benchcheck.session.trace.uses import Undone, Use

RIGHTS = {
    "work": "worked",
    "witness": "was witness",
    "dispose": "decided on a departure",
    "release": "released",
    "review": "judged",
}
_TAKEN_BACK = {
    happened.GroupLoosened: "loosened",
    happened.RingLifted: "lifted",
    happened.GrooveFound: "found otherwise",
    happened.RingFitted: "replaced",
    happened.PartRemoved: "taken out",
    happened.PartInstalled: "fitted again",
    happened.Corrected: "corrected",
    happened.TakenUp: "round begun again",
    happened.SignedOn: "round begun again",
}


def session_words(past: Past) -> str:
    """How a session ended, and when it was last written in: "released, 2 Nov 2026"."""
    practice = "practice, " if past.header.practice else ""
    last = past.last_word or (past.events[-1] if past.events else None)
    when = past.local(last.at if last is not None else past.header.opened)
    return f"{practice}{past.outcome}, {when:%-d %b %Y}"


def as_what(use: Use) -> str:
    said = RIGHTS[use.right or "work"]
    return f"{said}, {words.count(use.times, 'event')}" if use.right == "work" else said


def entitled_words(use: Use) -> str:
    """Whether the person had the right then, and where the register of today says otherwise."""
    known = use.entitlement
    if known is None or known.then is None:
        return "not in the register"
    said = "yes" if known.then else "NO"
    if known.at_sign_on is None:
        return f"{said}, by today's register"
    if known.by_register is None:
        return f"{said}; not in today's register"
    if known.by_register != known.then:
        return f"{said}; {'yes' if known.by_register else 'NO'} by today's register"
    return said


def now_words(use: Use) -> str:
    """What became of a use."""
    if use.undone is not None:
        return undone_words(use.undone)
    if use.tightening is not None and use.tightening.moved_nothing:
        return "not moved"
    if use.tightening is not None and use.tightening.followed is not None:
        return "superseded"
    return "in the pump" if is_in_the_pump(use) and _goes_in(use.event) else "stands"


def _goes_in(event: Event) -> bool:
    return isinstance(
        event,
        happened.PositionTightened | happened.PositionChecked | happened.RingFitted | happened.PartInstalled,
    )


def undone_words(undone: Undone) -> str:
    said = _TAKEN_BACK.get(type(undone.by), "done again")
    where = f" of {undone.file}" if undone.file else ""
    return f"{said}, event {undone.by.number}{where}"


def _position_words(past: Past, group: str, which: str, position: int) -> str:
    """The place of a tightening: "cover screws, round 2, position 3"."""
    told = past.pump.groups.get(group)
    place = "" if told is not None and told.count == 1 else f"position {position}"
    return ", ".join(each for each in (past.pump.called(group), which, place) if each)


def what_words(past: Past, event: Event) -> str:
    """What an event of a trace was."""
    match event:
        case happened.Deviation(deviation=number, wrong=wrong):
            return f"deviation {number}: {wrong}"
        case happened.LeftOut():
            return f"left out: {_act_words(past, event)}"
        case happened.Done() | happened.WorkTurned():
            return f"done: {_act_words(past, event)}"
        case happened.PositionTightened(group=group, round=number):
            which = past.pump.groups.get(group)
            told = f"round {number}" if which is None or len(which.rounds) > 1 else ""
            return _position_words(past, group, told, event.position)
        case happened.PositionChecked(group=group) if event.unit:
            return _position_words(past, group, "check pass", event.position)
    return words.event_words(past.pump, event)


def _act_words(past: Past, event: happened.ActEvent) -> str:
    step = step_of(event.act)
    known = next((each for each in past.pump.steps if each.id == step), None)
    return words.step_words(past.pump, known) if known is not None else event.act


def heading(touched: Touched) -> str:
    """The words over what was found in one session."""
    return f"{touched.past.header.serial}, record {touched.past.file}: {touched.standing}"
