"""The line by line face: the same questions as on the screens, asked and answered as plain text.

For a screen reader, a dumb terminal, a pipe, or a test. One prompt at a time; a line beginning with "?" is a word to
the program, everything else is an answer. What is confirmed is on disk before the next prompt is printed.
"""

from __future__ import annotations

import signal
import sys
import textwrap
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from types import FrameType
from typing import TextIO

from benchcheck.session import commands
from benchcheck.session.engine import Takeover, steps_done
from benchcheck.session.prompt import Form, Outcome, Prompt
from benchcheck.session.record import NewerFormat, check_value
from benchcheck.session.state import Registers, local
from benchcheck.store.disk import StoreFault
from benchcheck.store.library import Loaded, Unreadable, load_procedure, load_registers
from benchcheck.store.lock import Held
from benchcheck.store.records import DamagedRecord, NeverBegun
from benchcheck.store.sitting import CannotOpen, Sitting, start, take_up
from benchcheck.store.workspace import Workspace

WIDTH = 78
Clock = Callable[[], datetime]

HELP = """\
answer a question by its number or its word; a reading by its figure; Enter where it says so
?            this list
?mend        take the way that the refusal offers
?over WHY    take the refusal over, with a reason: a departure, which another person decides on
?leave WHY   leave the act in hand out, with a reason
?last        the last answers that can be corrected
?correct N WHY     answer N was wrong: it is asked again
?back THING  what comes off to reach a part, group or groove; then ?back THING WHY does it
?open        departures that nobody has decided on
?decide N WHAT; NAME; WHY   an entitled person decides: use as is, rework, repair, replace, scrap, return
?position GROUP N WHAT; NAME; WHY   the same for one position of a group
?who NAME    another technician goes on
?note TEXT   a remark into the record
?stop WHY    leave the pump as it is
?close HOW; WHY    end without release: scrapped, returned unrepaired, opened by mistake, wrong serial"""


class EndOfInput(Exception):
    """There is no more to read."""


class Signalled(Exception):
    """The system asks the program to end."""

    def __init__(self, number: int) -> None:
        super().__init__(f"signal {number}")
        self.number = number


class Leave(Exception):
    """The person goes back to the first list."""


class Talk:
    """Printing, and reading lines, with signals held back while something is being written to disk."""

    def __init__(self, source: TextIO, sink: TextIO) -> None:
        self.source, self.sink = source, sink
        self._reading = False
        self._pending: int | None = None

    def say(self, text: str = "", indent: str = "") -> None:
        for line in text.splitlines() or [""]:
            wrapped = textwrap.wrap(line, WIDTH, initial_indent=indent, subsequent_indent=indent + "  ")
            for each in wrapped or [""]:
                print(plain(each), file=self.sink)

    def ask(self, text: str) -> str:
        print(f"{plain(text)} ", end="", file=self.sink, flush=True)
        if self._pending is not None:
            raise Signalled(self._pending)
        self._reading = True
        try:
            line = self.source.readline()
        except UnicodeDecodeError:
            line = "\ufffd\n"
        finally:
            self._reading = False
        if not line:
            raise EndOfInput
        return clean(line.rstrip("\r\n"))

    @contextmanager
    def signals(self) -> Iterator[None]:
        """SIGTERM, SIGHUP and SIGINT end the program at the next question, never in the middle of a write."""

        def arrived(number: int, frame: FrameType | None) -> None:
            if self._reading:
                self._reading = False
                raise Signalled(number)
            self._pending = number

        numbers = (signal.SIGTERM, signal.SIGHUP, signal.SIGINT)
        before = [signal.signal(number, arrived) for number in numbers]
        try:
            yield
        finally:
            for number, handler in zip(numbers, before, strict=True):
                signal.signal(number, handler)


def clean(text: str) -> str:
    """Typed text without control characters and halves of characters."""
    return "".join(each if each.isprintable() else "" for each in text.encode("utf-8", "replace").decode())


def plain(text: str) -> str:
    """Text from files as it may go to a terminal: nothing in it steers the terminal."""
    return "".join(each if each.isprintable() else "\ufffd" for each in text)


def now_utc() -> datetime:
    return datetime.now(UTC)


def run(folder: Path, source: TextIO = sys.stdin, sink: TextIO = sys.stdout, clock: Clock = now_utc) -> int:
    """The whole program, line by line, on a workspace; returns the exit status."""
    talk = Talk(source, sink)
    try:
        with talk.signals():
            return _first_list(talk, Workspace(folder), clock)
    except EndOfInput:
        talk.say()
        talk.say("The input ended. All that was confirmed is saved.")
        return 0
    except Signalled as signalled:
        talk.say()
        talk.say("Ended from outside. All that was confirmed is saved.")
        return 128 + signalled.number


# ---------------------------------------------------------------------- the first list


def _first_list(talk: Talk, workspace: Workspace, clock: Clock) -> int:
    talk.say(f"Benchcheck, in {workspace.folder}. Type ? for help.")
    try:
        while True:
            if not workspace.procedure_paths() and not _offer_demonstration(talk, workspace):
                return 0
            try:
                registers = load_registers(workspace)
            except Unreadable as fault:
                talk.say(str(fault))
                return 2
            waiting = workspace.open_record_paths()
            talk.say()
            for number, path in enumerate(waiting, 1):
                talk.say(f"{number}  take up {path.stem} again")
            new = len(waiting) + 1
            talk.say(f"{new}  start on another pump")
            talk.say(f"{new + 1}  leave")
            chosen = talk.ask("Which?").strip()
            if chosen == "?":
                talk.say(HELP)
            elif chosen == str(new + 1) or chosen.casefold() == "leave":
                return 0
            elif chosen == str(new):
                _guarded(talk, partial(_new, talk, workspace, registers, clock))
            elif chosen.isascii() and chosen.isdigit() and 1 <= int(chosen) <= len(waiting):
                path = waiting[int(chosen) - 1]
                _guarded(
                    talk,
                    lambda path=path, registers=registers: _again(talk, workspace, registers, path, clock),
                )  # type: ignore[misc]
            else:
                talk.say(f'"{chosen}" is none of these.')
    except StoreFault as fault:
        talk.say(str(fault))
        return 2


def _guarded(talk: Talk, work: Callable[[], None]) -> None:
    """Do one thing of the list; a fault that a person can act on is said, and the list comes again."""
    try:
        work()
    except Leave:
        pass
    except (CannotOpen, DamagedRecord, NeverBegun, NewerFormat, Unreadable, StoreFault) as fault:
        talk.say(str(fault))
    except Held as held:
        talk.say(f"{held} It can be read, and not added to from here.")


def _offer_demonstration(talk: Talk, workspace: Workspace) -> bool:
    talk.say("There is no procedure here yet.")
    answer = talk.ask("Write the demonstration pumps here, to look and to practise with? yes or no:")
    if answer.strip().casefold() not in ("yes", "y"):
        return False
    written = workspace.write_demonstration()
    talk.say(
        f"{len(written)} files are in {workspace.procedures}. They are invented: not for use on a real pump."
    )
    return True


def _choose_procedure(talk: Talk, workspace: Workspace) -> Loaded:
    loaded: list[Loaded] = []
    for path in workspace.procedure_paths():
        try:
            loaded.append(load_procedure(path))
        except Unreadable as fault:
            talk.say(f"{path.name} does not read well and is left out:")
            talk.say(str(fault), "  ")
    if not loaded:
        raise CannotOpen("no procedure reads well")
    for number, each in enumerate(loaded, 1):
        head = each.procedure.procedure
        talk.say(f"{number}  {head.title}: {head.id}, revision {head.revision}, {head.status}")
    while True:
        chosen = talk.ask("Which procedure?").strip()
        if chosen.isascii() and chosen.isdigit() and 1 <= int(chosen) <= len(loaded):
            return loaded[int(chosen) - 1]
        if chosen.startswith("?"):
            raise Leave
        talk.say(f'"{chosen}" is none of these; ? goes back.')


def _new(talk: Talk, workspace: Workspace, registers: Registers, clock: Clock) -> None:
    loaded = _choose_procedure(talk, workspace)
    head = loaded.procedure.procedure
    practice = head.status != "released"
    if practice:
        talk.say(f"{head.id} revision {head.revision} is {head.status}: this is practice.")
    else:
        practice = talk.ask("For practice, on no real pump? yes or no:").strip().casefold() in ("yes", "y")
    serial = talk.ask("Serial number, read on the plate:")
    again = talk.ask("Serial number again, read on the body:")
    variant = ""
    if head.variants:
        variant = talk.ask(f"Variant as stamped ({', '.join(head.variants)}):").strip()
    sitting = start(
        workspace,
        registers,
        loaded,
        serial=serial,
        serial_again=again,
        variant=variant,
        practice=practice,
        who="",
        now=clock(),
    )
    _work(talk, sitting, clock)


def _again(talk: Talk, workspace: Workspace, registers: Registers, path: Path, clock: Clock) -> None:
    sitting = take_up(workspace, registers, path, "", clock())
    torn = sitting.record.set_aside
    talk.say(
        f"{path.name}: {len(sitting.record.record.events)} events were kept, all agree with their seals."
    )
    if torn is not None:
        talk.say(f"The last write was torn; its {torn.size} bytes lie beside the record as {torn.file}.")
    _work(talk, sitting, clock)


# ---------------------------------------------------------------------- the work


def _work(talk: Talk, sitting: Sitting, clock: Clock) -> None:
    refused: Outcome | None = None
    answered = ""
    try:
        while True:
            prompt = sitting.ask(clock())
            if prompt is None:
                _end(talk, sitting)
                return
            show(talk, sitting, prompt)
            text = talk.ask(">")
            if text.startswith("?"):
                refused = _word(talk, sitting, prompt, text[1:].strip(), refused, answered, clock)
                continue
            refused = sitting.answer(prompt.id, text, clock())
            answered = text
            if refused is not None:
                _say_refusal(talk, refused)
    except Leave:
        pass
    except (EndOfInput, Signalled) as ended:
        _stop_quietly(sitting, "the input ended" if isinstance(ended, EndOfInput) else str(ended), clock())
        raise
    except StoreFault as fault:
        talk.say(str(fault))
        talk.say("Nothing of the last answer counts. What was confirmed before is saved.")
    finally:
        sitting.record.close()


def _stop_quietly(sitting: Sitting, reason: str, now: datetime) -> None:
    """Say in the record that it was left; where that cannot be written, the next opening says it."""
    try:
        sitting.stop(reason, now)
    except StoreFault:
        return


def _end(talk: Talk, sitting: Sitting) -> None:
    state = sitting.state
    closed = state.closed
    if closed is None:
        talk.say("Nothing more is asked, and the session is not closed; the procedure has no release.")
        sitting.record.close()
        raise Leave
    talk.say()
    talk.say(f"{state.header.serial}: {closed.outcome.upper()}.")
    talk.say(
        f"{state.number} events, {closed.readings} readings, {closed.deviations} departures, {closed.voided} voided."
    )
    talk.say(f"people: {', '.join(closed.people)}; wrenches: {', '.join(closed.wrenches) or 'none'}")
    talk.say(
        f"record: {sitting.path.name}; check value {check_value(sitting.record.chain.last_seal)} (event {state.number})"
    )


def show(talk: Talk, sitting: Sitting, prompt: Prompt) -> None:
    """One prompt, in words."""
    state = sitting.state
    talk.say()
    practice = "PRACTICE. " if state.header.practice else ""
    lies = "".join(f" {state.pump.the(work)}: {end} up." for work, end in state.assembly.poses.items() if end)
    done = steps_done(state)
    talk.say(
        f"{practice}Pump {state.header.serial}, {prompt.step or 'arrival'}, {done} of {len(state.pump.steps)} steps done.{lies}"
    )
    for caution in prompt.cautions:
        talk.say(f"! {caution.signal.value} !  {caution.text}")
    for note in prompt.notes:
        talk.say(f"({note})")
    for line in prompt.do:
        talk.say(line, "  ")
    if prompt.figure is not None:
        talk.say(f"{prompt.figure.text} {prompt.figure.unit}: {prompt.figure.how}", "  ")
        if prompt.figure.why:
            talk.say(f"({prompt.figure.why})", "  ")
    if prompt.standing is not None:
        talk.say(prompt.standing.as_text())
    unit = f" [{prompt.unit}]" if prompt.unit else ""
    talk.say(f"{prompt.verb}: {prompt.ask}{unit}")
    if prompt.good:
        talk.say(f"good: {prompt.good}", "  ")
    for number, choice in enumerate(prompt.choices, 1):
        same = choice.words == choice.value
        talk.say(f"{number}  {choice.words}" + ("" if same else f"  [{choice.value}]"), "  ")
    if prompt.until is not None:
        talk.say(f"not before {local(state, prompt.until)}", "  ")
    if prompt.form in (Form.CONFIRM, Form.WAIT):
        talk.say(f"Enter {prompt.enter}.", "  ")


def _say_refusal(talk: Talk, outcome: Outcome) -> None:
    talk.say("NOT YET")
    for refusal in outcome.refusals:
        talk.say(refusal.as_text(), "  ")
    ways = []
    if outcome.mend:
        ways.append("?mend takes the way that mends it")
    if outcome.passable and outcome.events:
        ways.append("?over WHY takes it over with a reason")
    if ways:
        talk.say("; ".join(ways), "  ")


# ---------------------------------------------------------------------- words to the program


def _word(
    talk: Talk,
    sitting: Sitting,
    prompt: Prompt,
    text: str,
    refused: Outcome | None,
    answered: str,
    clock: Clock,
) -> Outcome | None:
    """One of the words of the help; returns the refusal that stands after it."""
    word, _, rest = text.partition(" ")
    rest = rest.strip()
    now = clock()
    state = sitting.state
    match word.casefold():
        case "mend" if refused is not None and refused.mend:
            sitting.take_mend(refused, now)
            return None
        case "over" if refused is not None and refused.passable and refused.events:
            if not rest:
                talk.say("A departure needs a reason: ?over WHY")
                return refused
            return _said(talk, sitting.answer(prompt.id, answered, now, Takeover(rest)))
        case "mend" | "over":
            talk.say("Nothing stands refused that this would help.")
        case "leave":
            return _said(talk, sitting.leave_out(rest, now))
        case "last":
            for event in commands.correctable(state):
                table = event.as_table()
                told = ", ".join(
                    f"{key} {table[key]}" for key in ("what", "question", "value", "size") if key in table
                )
                talk.say(f"{event.number}  {event.act}: {told}")
        case "correct":
            number, _, why = rest.partition(" ")
            if number.isascii() and number.isdigit():
                return _said(talk, sitting.command(commands.correct, int(number), why, now=now))
            talk.say("Say which: ?correct N WHY; ?last lists them.")
        case "back":
            return _back(talk, sitting, rest, now)
        case "open":
            for each in state.open_deviations:
                talk.say(f"{each.deviation}  {each.wrong} ({each.by}: {each.reason})")
        case "decide":
            number, _, words = rest.partition(" ")
            what, name, why = _three(words)
            if number.isascii() and number.isdigit():
                return _said(talk, sitting.command(commands.dispose, int(number), what, name, why, now=now))
            talk.say("Say which: ?decide N WHAT; NAME; WHY")
        case "position":
            group, _, words = rest.partition(" ")
            number, _, words = words.partition(" ")
            what, name, why = _three(words)
            if number.isascii() and number.isdigit():
                done = sitting.command(
                    commands.dispose_position, group, int(number), what, name, why, now=now
                )
                return _said(talk, done)
            talk.say("Say which: ?position GROUP N WHAT; NAME; WHY")
        case "who":
            return _said(talk, sitting.command(commands.sign_on, rest, now=now))
        case "note":
            return _said(talk, sitting.command(commands.remark, rest, now=now))
        case "stop":
            sitting.stop(rest, now)
            talk.say("Left as it is. All that was confirmed is saved.")
            raise Leave
        case "close":
            how, _, why = rest.partition(";")
            return _said(talk, sitting.command(commands.close, how.strip(), why, now=now))
        case _:
            talk.say(HELP)
    return None


def _said(talk: Talk, outcome: Outcome | None) -> Outcome | None:
    if outcome is not None:
        _say_refusal(talk, outcome)
    return outcome


def _three(words: str) -> tuple[str, str, str]:
    what, _, rest = words.partition(";")
    name, _, why = rest.partition(";")
    return what.strip(), name.strip(), why.strip()


def _back(talk: Talk, sitting: Sitting, rest: str, now: datetime) -> Outcome | None:
    target, _, why = rest.partition(" ")
    state = sitting.state
    if why.strip():
        return _said(talk, sitting.command(commands.go_back, target, why, now=now))
    plan = commands.plan_back(state, target)
    if isinstance(plan, Outcome):
        return _said(talk, plan)
    pump = state.pump
    talk.say(f"off   {', '.join(pump.called(each) for each in plan.off)}: in this order")
    talk.say(f"dies  {', '.join(pump.called(each) for each in plan.dies) or 'nothing'}")
    talk.say(
        f"again {', '.join(pump.called(each) for each in plan.restarts) or 'no group'}: from its first round"
    )
    talk.say(f"?back {target} WHY does it; nothing is undone yet")
    return None
