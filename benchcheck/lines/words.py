"""The words that begin with "?": what a person may do at a question besides answering it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from difflib import get_close_matches

from benchcheck.assembly.pump import Pump
from benchcheck.lines import telling
from benchcheck.lines.talk import Talk
from benchcheck.session import commands, kit, revisions, troubles
from benchcheck.session.closing import WITHOUT_RELEASE
from benchcheck.session.engine import Takeover
from benchcheck.session.prompt import Outcome, Prompt
from benchcheck.session.state import State
from benchcheck.store.sitting import Sitting

HELP = f"""\
Answer a question by the number of a choice, a reading by its figure; Enter alone where it says so.
A torque may name its position: "3: 134" is 134 at position 3.
?            this list
?say         the question again, with all that belongs to it
?where       where the work stands
?mend        take the way that the refusal offers
?over WHY    take the refusal over, with a reason: a departure, which another person decides on
?skip WHY    leave out the act in hand, with a reason: a departure too
?depart WHAT something is not as written, such as a screw that seized: a departure too; the question stays
?last        the last answers that can be corrected, with their numbers
?correct N WHY     answer N was wrong: it is asked again
?back THING        what has to come off to reach a part, group or groove; ?back THING WHY does it
?open        departures that nobody has decided on
?decide N WHAT; NAME; WHY   an entitled person decides on departure N: {", ".join(commands.DISPOSITIONS)}
?decide N WHAT; NAME; WHY; LIMIT; DAY   the same as a concession: for what it holds, and its last day
?position GROUP N WHAT; NAME; WHY   the same for one position of a fastener group, with LIMIT; DAY too
?trouble N WHAT; WHY   position N goes wrong under the wrench: {", ".join(troubles.TROUBLES)}
?wrench WHY  another wrench for what is left of the group in hand
?gauge WHY   another gauge for what is still to be read
?dropped INSTRUMENT WHY   a wrench or gauge fell or is damaged: it rests, and what it did here is in doubt
?insert GROUP N TARGET; TOLERANCE; NAME; WHY   an entitled person gives the limits of a repaired thread
?kit         what the kit held, what was used, and how far the rest will do
?card        the handover card: what is half done, what must not be touched, what comes next
?handover WORDS    you sign the card with a word for whoever goes on, and leave the pump
?who NAME    another technician goes on
?revision    how the text of the procedure differs that is in the workspace now, and what moving on costs
?revision move on   the work follows that text from here
?note TEXT   a remark into the record
?stop WHY    leave the pump as it is, for now
?close HOW; WHY    end without release: {", ".join(WITHOUT_RELEASE)}"""


class Leave(Exception):
    """The person goes back to the first list."""


@dataclass(frozen=True, slots=True)
class Refused:
    """An answer that was refused, as long as nothing else was said since."""

    asked: tuple[str, str]
    """Act and question."""
    answer: str
    outcome: Outcome


@dataclass(frozen=True, slots=True)
class At:
    """What a word is said about."""

    talk: Talk
    sitting: Sitting
    prompt: Prompt
    refused: Refused | None
    now: datetime

    @property
    def state(self) -> State:
        return self.sitting.state


def carry_out(text: str, at: At) -> Refused | None:
    """Do what a "?" word says; returns the refusal that stands after it. Raises Leave, StoreFault."""
    word, _, rest = text.removeprefix("?").strip().partition(" ")
    word = word.casefold()
    if word not in _WORDS:
        near = get_close_matches(word, [each for each in _WORDS if each], n=1)
        at.talk.say(f'"?{word}" is no word to the program' + (f"; did you mean ?{near[0]}?" if near else "."))
        at.talk.say("? lists the words.")
        return at.refused
    return _WORDS[word](at, rest.strip())


def _came(at: At, outcome: Outcome | None, done: str = "") -> None:
    """Say what came of a command."""
    if outcome is not None:
        at.talk.say(*telling.refusal_told(outcome))
    elif done:
        at.talk.say(done)


def _help(at: At, rest: str) -> Refused | None:
    at.talk.say(HELP)
    return at.refused


def _say(at: At, rest: str) -> Refused | None:
    told = telling.prompt_told(at.state, at.prompt)
    at.talk.say("", told.where, *told.lies, *told.around)  # the question follows anyway
    return at.refused


def _where(at: At, rest: str) -> Refused | None:
    at.talk.say(*telling.standing_told(at.state, at.now))
    return at.refused


def _mend(at: At, rest: str) -> Refused | None:
    if at.refused is None or not at.refused.outcome.mend:
        at.talk.say("Nothing stands refused that this would help.")
        return at.refused
    at.sitting.take_mend(at.refused.outcome, at.now)
    mend = at.refused.outcome.refusals[0].mend
    at.talk.say("The record says so." + (f" Now: {mend}." if mend else ""))
    return None


def _over(at: At, rest: str) -> Refused | None:
    refused = at.refused
    if refused is None:
        at.talk.say("Nothing stands refused.")
    elif not (refused.outcome.passable and refused.outcome.events):
        at.talk.say("Nobody may take this over.")
    elif not rest:
        at.talk.say("A departure needs a reason: ?over WHY")
    else:
        outcome = at.sitting.answer(at.prompt.id, refused.answer, at.now, Takeover(rest))
        _came(
            at, outcome, f"Departure {len(at.state.deviations)}. Another person decides on it before release."
        )
        _say_again(at)
        return None
    return refused


def _skip(at: At, rest: str) -> Refused | None:
    outcome = at.sitting.leave_out(rest, at.now)
    _came(at, outcome, f"Left out. Departure {len(at.state.deviations)}; another person decides on it.")
    _say_again(at)
    return None


def _depart(at: At, rest: str) -> Refused | None:
    outcome = at.sitting.command(commands.depart, "", rest, now=at.now)
    _came(at, outcome, f"Departure {len(at.state.deviations)}. Another person decides on it before release.")
    _say_again(at)
    return None


def _say_again(at: At) -> None:
    """Say of the last departure which earlier ones it repeats."""
    if at.state.deviations and at.state.deviations[-1].again:
        at.talk.say(f"It repeats {telling.repeated(at.state.deviations[-1])}.")


def _last(at: At, rest: str) -> Refused | None:
    lines = [telling.event_told(event) for event in commands.correctable(at.state)]
    at.talk.say(*(lines or ["There is no answer that can be corrected here."]))
    return at.refused


def _correct(at: At, rest: str) -> Refused | None:
    number, _, why = rest.partition(" ")
    if not _is_number(number):
        at.talk.say("Say which: ?correct N WHY. ?last lists them.")
        return at.refused
    outcome = at.sitting.command(commands.correct, int(number), why, now=at.now)
    _came(at, outcome, f"Answer {number} does not count. It is asked again.")
    return None


def _back(at: At, rest: str) -> Refused | None:
    thing, why = thing_named(at.state.pump, rest)
    if not thing:
        at.talk.say("Say what is to be reached: ?back THING")
        return at.refused
    if why:
        _came(at, at.sitting.command(commands.go_back, thing, why, now=at.now))
        return None
    plan = commands.plan_back(at.state, thing)
    if isinstance(plan, Outcome):
        _came(at, plan)
        return at.refused
    at.talk.say(*telling.way_told(at.state, plan))
    at.talk.say(f"Nothing is undone yet. ?back {thing} WHY does it.")
    return at.refused


def _open(at: At, rest: str) -> Refused | None:
    at.talk.say(*telling.departures_told(at.state))
    return at.refused


def _decide(at: At, rest: str) -> Refused | None:
    number, _, words = rest.partition(" ")
    if not _is_number(number):
        at.talk.say("Say which: ?decide N WHAT; NAME; WHY. ?open lists them.")
        return at.refused
    what, name, words = _three(words)
    why, limit, expires = _three(words)
    outcome = at.sitting.command(
        commands.dispose, int(number), what, name, why, now=at.now, limit=limit, expires=expires
    )
    _came(at, outcome, f"Decided on departure {number}: {what}.")
    return at.refused


def _position(at: At, rest: str) -> Refused | None:
    thing, words = thing_named(at.state.pump, rest)
    number, _, words = words.partition(" ")
    if thing not in at.state.pump.groups or not _is_number(number):
        at.talk.say("Say which: ?position GROUP N WHAT; NAME; WHY")
        return at.refused
    what, name, words = _three(words)
    why, limit, expires = _three(words)
    outcome = at.sitting.command(
        commands.dispose_position,
        thing,
        int(number),
        what,
        name,
        why,
        now=at.now,
        limit=limit,
        expires=expires,
    )
    _came(at, outcome, f"Decided on position {number} of {at.state.pump.the(thing)}: {what}.")
    return None


def _trouble(at: At, rest: str) -> Refused | None:
    number, _, words = rest.partition(" ")
    felt, _, why = words.partition(";")
    if not _is_number(number):
        at.talk.say("Say where: ?trouble N WHAT; WHY")
        at.talk.say(*(f"{what}: {told}" for what, told in troubles.may_be_felt(at.state).items()))
        return at.refused
    outcome = at.sitting.command(troubles.trouble, int(number), felt.strip(), why.strip(), now=at.now)
    _came(at, outcome, "It is in the record. The group comes loose, and is begun again.")
    return at.refused if outcome is not None else None


def _wrench(at: At, rest: str) -> Refused | None:
    outcome = at.sitting.command(troubles.change_wrench, rest, now=at.now)
    _came(at, outcome, "It is in the record. Another wrench is asked for.")
    return at.refused if outcome is not None else None


def _gauge(at: At, rest: str) -> Refused | None:
    outcome = at.sitting.command(troubles.change_gauge, rest, now=at.now)
    _came(at, outcome, "It is in the record. Another gauge is asked for.")
    return at.refused if outcome is not None else None


def _dropped(at: At, rest: str) -> Refused | None:
    name, _, why = rest.partition(" ")
    open_before = len(at.state.deviations)
    outcome = at.sitting.command(troubles.doubt_instrument, name, why, now=at.now)
    doubted = [each.wrong for each in at.state.deviations[open_before:]]
    _came(at, outcome, "; ".join(doubted) or f"{name} rests. It did nothing on this pump yet.")
    return at.refused if outcome is not None else None


def _insert(at: At, rest: str) -> Refused | None:
    group, words = thing_named(at.state.pump, rest)
    number, _, words = words.partition(" ")
    target, _, words = words.partition(";")
    if group not in at.state.pump.groups or not _is_number(number):
        at.talk.say("Say which: ?insert GROUP N TARGET; TOLERANCE; NAME; WHY")
        return at.refused
    tolerance, name, why = _three(words)
    outcome = at.sitting.command(
        troubles.repair_position, group, int(number), target.strip(), tolerance, name, why, now=at.now
    )
    _came(at, outcome, f"Position {number} of {at.state.pump.the(group)} has limits of its own now.")
    return at.refused if outcome is not None else None


def _kit(at: At, rest: str) -> Refused | None:
    at.talk.say(*kit.told(at.state))
    return at.refused


def _card(at: At, rest: str) -> Refused | None:
    at.talk.say(telling.card_told(at.sitting, at.now))
    return at.refused


def _handover(at: At, rest: str) -> Refused | None:
    outcome = at.sitting.command(commands.sign_card, rest, now=at.now)
    if outcome is not None:
        _came(at, outcome)
        return at.refused
    card = telling.card_told(at.sitting, at.now)
    path = at.sitting.workspace.print_text(f"{at.state.header.serial}-handover", card)
    at.sitting.stop("handed over", at.now)
    at.talk.say(card, f"You have signed the card. It is in {path.parent.name}/{path.name}.")
    raise Leave


def _who(at: At, rest: str) -> Refused | None:
    outcome = at.sitting.command(commands.sign_on, rest, now=at.now)
    _came(at, outcome, f"{at.state.technician} is signed on.")
    return None


def _revision(at: At, rest: str) -> Refused | None:
    offer = revisions.offered(at.state)
    if rest and rest.casefold() != revisions.MOVE:
        at.talk.say("?revision tells what differs; ?revision move on does it.")
        return at.refused
    if rest:
        outcome = at.sitting.command(commands.move_on, now=at.now)
        followed = at.state.job.procedure.procedure.revision
        _came(at, outcome, f"The work follows revision {followed} from here.")
        return at.refused if outcome is not None else None
    if offer is None:
        at.talk.say("There is no other text of this procedure to move on to.")
    else:
        at.talk.say(*telling.other_text_told(at.state, offer))
    return at.refused


def _note(at: At, rest: str) -> Refused | None:
    _came(at, at.sitting.command(commands.remark, rest, now=at.now), "Noted.")
    return None


def _stop(at: At, rest: str) -> Refused | None:
    at.sitting.stop(rest, at.now)
    at.talk.say("Left as it is. All that was confirmed is saved.")
    raise Leave


def _close(at: At, rest: str) -> Refused | None:
    how, _, why = rest.partition(";")
    _came(at, at.sitting.command(commands.close, how.strip(), why.strip(), now=at.now))
    return None


def _three(words: str) -> tuple[str, str, str]:
    what, _, rest = words.partition(";")
    name, _, why = rest.partition(";")
    return what.strip(), name.strip(), why.strip()


def _is_number(text: str) -> bool:
    return text.isascii() and text.isdigit() and len(text) < 10


def thing_named(pump: Pump, text: str) -> tuple[str, str]:
    """The part, group or groove that a text begins with, by its id or by what it is called; and the rest.

    Where it begins with none, its first word stands for the thing.
    """
    low = text.casefold().removeprefix("the ")
    text = text[len(text) - len(low) :]
    names: dict[str, str] = {}
    for thing in (*pump.parts, *pump.groups, *pump.grooves):
        names.setdefault(pump.called(thing).casefold(), thing)
        names[thing.casefold()] = thing
    for name in sorted(names, key=len, reverse=True):
        if low == name or low.startswith(f"{name} "):
            return names[name], text[len(name) :].strip()
    first, _, rest = text.partition(" ")
    return first, rest.strip()


_WORDS: dict[str, Callable[[At, str], Refused | None]] = {
    "": _help,
    "say": _say,
    "where": _where,
    "mend": _mend,
    "over": _over,
    "skip": _skip,
    "depart": _depart,
    "last": _last,
    "correct": _correct,
    "back": _back,
    "open": _open,
    "decide": _decide,
    "position": _position,
    "trouble": _trouble,
    "wrench": _wrench,
    "gauge": _gauge,
    "dropped": _dropped,
    "insert": _insert,
    "kit": _kit,
    "card": _card,
    "handover": _handover,
    "who": _who,
    "revision": _revision,
    "note": _note,
    "stop": _stop,
    "close": _close,
}
