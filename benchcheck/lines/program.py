"""The way through the program, line by line: the first list, a new pump, one taken up again, the work on it.

Faults that a person can act on are said and the first list comes again; what ends the talk ends the program.
"""

from __future__ import annotations

import signal
import sys
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from typing import TextIO

from benchcheck.lines import telling, words
from benchcheck.lines.beside import BesideTheKeyboard
from benchcheck.lines.talk import EndOfInput, OutputGone, Signalled, Talk
from benchcheck.lines.words import At, Leave, Refused
from benchcheck.session import troubles
from benchcheck.session.arrival import same_serial
from benchcheck.session.engine import CLOCK_SLACK
from benchcheck.session.handing_over import QUESTIONS
from benchcheck.session.record import NewerFormat
from benchcheck.session.state import Registers
from benchcheck.store.disk import StoreFault
from benchcheck.store.library import Loaded, Unreadable, load_procedure, load_registers
from benchcheck.store.lock import Held
from benchcheck.store.records import DamagedRecord, NeverBegun
from benchcheck.store.sitting import CannotOpen, Sitting, start, take_up
from benchcheck.store.workspace import Workspace

Clock = Callable[[], datetime]
_UNUSABLE = 2
_SIGNAL = 128

_FACES = (CannotOpen, DamagedRecord, NeverBegun, NewerFormat, Unreadable, StoreFault)
"""Faults that a person can act on."""
_PAUSED = "That was asked long ago, so the answer is not taken: first see whether all is as it was."


def now_utc() -> datetime:
    return datetime.now(UTC)


def run(
    folder: Path, source: TextIO | None = None, sink: TextIO | None = None, clock: Clock = now_utc
) -> int:
    """The whole program on a workspace, with standard input and output unless others are given.

    Returns the exit status.
    """
    talk = Talk(source or sys.stdin, sink or sys.stdout)
    with talk.signals():
        try:
            return _Program(talk, Workspace(folder), clock).first_list()
        except EndOfInput:
            talk.farewell("The input ended. All that was confirmed is saved.")
            return 0
        except OutputGone:
            talk.farewell("")
            return _SIGNAL + signal.SIGPIPE
        except Signalled as signalled:
            talk.farewell(f"Ended by {signalled}. All that was confirmed is saved.")
            return _SIGNAL + signalled.number


@dataclass(frozen=True)
class _Program:
    talk: Talk
    workspace: Workspace
    clock: Clock

    # ------------------------------------------------------------------ the first list

    def first_list(self) -> int:
        talk, workspace = self.talk, self.workspace
        talk.say(f"Benchcheck, in {workspace.folder}. ? helps.")
        while True:
            try:
                if not workspace.procedure_paths() and not self._offer_demonstration():
                    return 0
                registers = load_registers(workspace)
                waiting = workspace.open_record_paths()
            except (Unreadable, StoreFault) as fault:
                talk.say(str(fault))
                return _UNUSABLE
            ways: list[tuple[str, Callable[[], None]]] = [
                (f"go on with {self._record_told(path)}", partial(self._again, registers, path))
                for path in waiting
            ]
            ways.append(("begin with a pump", partial(self._new, registers, waiting)))
            talk.say()
            chosen = talk.pick("Which?", [*(told for told, _ in ways), "quit"])
            if chosen is None:
                talk.say(
                    "Type the number of a line, then Enter. At a question, ? lists what else can be said."
                )
            elif chosen == len(ways):
                return 0
            else:
                self._guarded(ways[chosen][1])

    def _guarded(self, work: Callable[[], None]) -> None:
        """Do one thing of the list; a fault that a person can act on is said, and the list comes again."""
        try:
            work()
        except Leave:
            pass
        except _FACES as fault:
            self.talk.say(str(fault))
        except Held as held:
            self.talk.say(str(held))

    def _record_told(self, path: Path) -> str:
        """A record in the list: the pump, and how old it is; or only its name if it says nothing."""
        try:
            header = self.workspace.read_record(path).header
        except (StoreFault, NewerFormat):
            header = None
        if header is None:
            return path.name
        practice = ", practice" if header.practice else ""
        return f"pump {header.serial}, opened {header.opened[:10]}{practice} ({path.stem})"

    def _offer_demonstration(self) -> bool:
        talk, workspace = self.talk, self.workspace
        talk.say("There is no procedure here yet.")
        if not talk.yes("Write the demonstration pumps here, to look and to practise with?"):
            return False
        written = workspace.write_demonstration()
        talk.say(f"{len(written)} files are in {workspace.procedures}.")
        talk.say("They are invented: not for use on a real pump.")
        return True

    # ------------------------------------------------------------------ a new pump

    def _new(self, registers: Registers, waiting: list[Path]) -> None:
        talk = self.talk
        loaded = self._choose_procedure()
        head = loaded.procedure.procedure
        practice = head.practice_only is not None
        if practice:
            talk.say(f"{head.id} revision {head.revision} is {head.practice_only}: this is practice.")
        else:
            practice = talk.yes("Is this practice, on no real pump?")
        serial, again = self._serial()
        self._warn_of_open(serial, waiting)
        variant = ""
        if head.variants:
            talk.say("Variant, as stamped on the pump:")
            chosen = talk.pick("Which variant?", head.variants)
            if chosen is None:
                raise Leave
            variant = head.variants[chosen]
        sitting = start(
            self.workspace,
            registers,
            loaded,
            serial=serial,
            serial_again=again,
            variant=variant,
            practice=practice,
            who="",
            now=self.clock(),
        )
        talk.say(f"The record is {sitting.path.name}. ? lists what can be said at a question.")
        self._work(sitting)

    def _choose_procedure(self) -> Loaded:
        talk = self.talk
        loaded: list[Loaded] = []
        for path in self.workspace.procedure_paths():
            try:
                loaded.append(load_procedure(path))
            except StoreFault as fault:
                talk.say(f"Left out: {fault}")
            except Unreadable as fault:
                first, *more = fault.findings
                talk.say(f"Left out: {path.name}, line {first.place.line}: {first.message}")
                if more:
                    talk.say(f"  and {len(more)} more: `benchcheck check` lists them")
        if not loaded:
            raise CannotOpen("No procedure here reads well, so no work can begin.")
        heads = [each.procedure.procedure for each in loaded]
        chosen = talk.pick(
            "Which procedure?",
            [f"{head.title}: {head.id}, revision {head.revision}, {head.status}" for head in heads],
        )
        if chosen is None:
            raise Leave
        return loaded[chosen]

    def _serial(self) -> tuple[str, str]:
        """Two readings that are one serial number."""
        talk = self.talk
        while True:
            serial = self._answer("Serial number, read on the plate:")
            again = self._answer("Serial number once more, read on the body:")
            if same_serial(serial, again):
                return serial, again
            talk.say(f'The two readings differ: "{serial}" and "{again}". Read both again. ? goes back.')

    def _answer(self, question: str) -> str:
        while True:
            answer = self.talk.ask(question).strip()
            if answer == "?":
                raise Leave
            if answer and not answer.startswith("?"):
                return answer
            said = f'"{answer}" is a word to the program, no answer' if answer else "Nothing was typed"
            self.talk.say(f"{said}. ? goes back to the first list.")

    def _warn_of_open(self, serial: str, waiting: list[Path]) -> None:
        """A pump whose record is still open is seldom begun anew."""
        for path in waiting:
            try:
                header = self.workspace.read_record(path).header
            except (StoreFault, NewerFormat):
                continue
            if header is not None and same_serial(header.serial, serial):
                self.talk.say(f"The record {path.name} of this pump is still open.")
                if not self.talk.yes("Begin another one all the same?"):
                    raise Leave

    # ------------------------------------------------------------------ the work

    def _again(self, registers: Registers, path: Path) -> None:
        sitting = take_up(self.workspace, registers, path, "", self.clock())
        self.talk.say(*telling.taken_up_told(sitting))
        self._work(sitting)

    def _work(self, sitting: Sitting) -> None:
        beside = BesideTheKeyboard(sitting.state.job.registers.lines)
        try:
            self._ask_and_answer(sitting, beside)
        except (EndOfInput, OutputGone, Signalled) as ended:
            self._stop_quietly(sitting, _how_it_ended(ended))
            raise
        except StoreFault as fault:
            self.talk.say(str(fault), "That answer does not count. What was confirmed before is saved.")
        finally:
            beside.close()
            sitting.record.close()

    def _ask_and_answer(self, sitting: Sitting, beside: BesideTheKeyboard) -> None:
        talk = self.talk
        refused: Refused | None = None
        told: telling.Told | None = None
        card_told = False
        while (prompt := sitting.ask(self.clock())) is not None:
            if refused is not None and refused.asked != (prompt.act, prompt.question):
                refused = None
            if prompt.question in QUESTIONS and not card_told:
                talk.say("", telling.card_told(sitting, self.clock()))
            card_told = prompt.question in QUESTIONS
            before, told = told, telling.prompt_told(sitting.state, prompt)
            talk.say("", *told.after(before))
            if sent := beside.attend(troubles.wrench_in_hand(sitting.state), prompt):
                talk.say(*sent)
            text = talk.ask("practice >" if sitting.state.header.practice else ">", beside) or beside.reading
            now = self.clock()
            self._say_clock(sitting, now)
            number = sitting.state.number
            asked_now = sitting.ask(now)
            if asked_now is None or asked_now.id != prompt.id:
                paused = sitting.state.number != number
                talk.say(_PAUSED if paused else "The time is over.")
                continue
            if text.startswith("?"):
                refused = words.carry_out(text, At(talk, sitting, prompt, refused, now))
                continue
            text = telling.answer_meant(prompt, text)
            outcome = sitting.answer_asked(asked_now, text, now)
            refused = None
            if outcome is not None:
                refused = Refused((prompt.act, prompt.question), text, outcome)
                talk.say(*telling.refusal_told(outcome))
        talk.say()
        if sitting.state.closed is None:
            talk.say("Nothing more is asked. The procedure has no release, so the record stays open.")
        else:
            talk.say(*telling.end_told(sitting))

    def _say_clock(self, sitting: Sitting, now: datetime) -> None:
        at = sitting.state.at
        if at is not None and now < at - CLOCK_SLACK:
            self.talk.say(telling.clock_went_back_told(at - now))

    def _stop_quietly(self, sitting: Sitting, reason: str) -> None:
        """Say in the record that it was left; where that cannot be written, the next opening says it."""
        try:
            sitting.stop(reason, self.clock())
        except StoreFault:
            return


def _how_it_ended(ended: Exception) -> str:
    if isinstance(ended, EndOfInput):
        return "the input ended"
    return "the terminal was closed" if isinstance(ended, OutputGone) else f"ended by {ended}"
