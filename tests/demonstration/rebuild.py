"""One invented rebuild, worked at the real engine and written by the program's own store.

A seeded hand answers with care; its readings scatter as readings do, its answers take as long as answers
take. What departs from care is told by the stories.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

from benchcheck.assembly.acts import Act, Verb
from benchcheck.session import commands, engine
from benchcheck.session.careful import careful_answer
from benchcheck.session.engine import Takeover
from benchcheck.session.going_back import BACK
from benchcheck.session.prompt import Form, Outcome, Prompt
from benchcheck.store import judging, sitting
from benchcheck.store.library import load_procedure, load_registers
from benchcheck.store.workspace import Workspace

_SCATTER = 0.011
"""Standard deviation of a reading about what is aimed at: of a practised hand at a dial."""
_OF_THE_BAND = 0.06
"""Standard deviation of what a gauge shows, as a share of what is allowed."""
_SECONDS = (9.0, 38.0)
"""Least and most time that an answer takes."""


class Rebuild:
    """A record under way, and the clock of its bench."""

    def __init__(
        self,
        workspace: Workspace,
        procedure: str,
        serial: str,
        begins: datetime,
        variant: str = "",
        who: str = "T. Sample",
        *,
        hand: str = "",
        practice: bool = False,
    ) -> None:
        """Open the record. `hand` says whose chance it is; the serial's own, if left out."""
        self.workspace = workspace
        self.registers = load_registers(workspace)
        self.now = begins
        self.who = who
        self._chance = random.Random(hand or serial)
        path = next(each for each in workspace.procedure_paths() if each.name.startswith(procedure))
        self.sitting = sitting.start(
            workspace, self.registers, load_procedure(path),
            serial=serial, serial_again=serial.lower(), variant=variant, practice=practice, who="",
            now=begins,
        )  # fmt: skip
        self.wrenches: tuple[str, ...] = ()
        """Wrenches taken wherever they may be; else the first that fits."""
        self.readings: Callable[[str], str] | None = None
        """What is shown instead of a scattered reading."""

    @property
    def path(self) -> Path:
        return self.sitting.path

    # --- the careful work -------------------------------------------------------------------------------

    def work_on(self, to: str = "", question: str = "") -> None:
        """Answer with care up to a step, and a question of it; without one, to the end."""
        while (prompt := self.prompt()) is not None:
            if to and prompt.step == to and question in ("", prompt.question):
                return
            self.say(*self._answers(prompt))
        if to:
            raise LookupError(f"{to} {question} is never asked")

    def finish(self) -> None:
        """Work to the end, and free the record."""
        self.work_on()
        self.sitting.record.close()

    def prompt(self) -> Prompt | None:
        """What is asked now, waited for where it has to be."""
        prompt = self.sitting.ask(self.now)
        while prompt is not None and prompt.until is not None and prompt.until > self.now:
            self.now = prompt.until + timedelta(seconds=self._chance.uniform(20, 400))
            prompt = self.sitting.ask(self.now)
        return prompt

    def say(self, *answers: str) -> None:
        """Give the first of these answers that is taken."""
        prompt = self.prompt()
        assert prompt is not None
        self._take_time()
        outcome: Outcome | None = None
        for answer in answers:
            outcome = self.sitting.answer(prompt.id, answer, self.now)
            if outcome is None:
                return
        assert outcome is not None
        raise ValueError(f"{prompt.step}: {answers} refused: {outcome.refusals}")

    def refused(self, answer: str) -> Outcome:
        """Give an answer that is refused, which leaves no trace."""
        prompt = self.prompt()
        assert prompt is not None
        self._take_time()
        outcome = self.sitting.answer(prompt.id, answer, self.now)
        assert outcome is not None, f"{prompt.step}: {answer} was taken"
        return outcome

    def _answers(self, prompt: Prompt) -> tuple[str, ...]:
        state = self.sitting.state
        careful = careful_answer(state, prompt, self.now)
        if not prompt.act and prompt.question == "name":
            return (self.who,)
        if prompt.form is Form.CHOICE and prompt.question.startswith("wrench"):
            offered = [each.value for each in prompt.choices]
            return (*(each for each in self.wrenches if each in offered), careful)
        act = engine.next_act(state)
        if prompt.form is not Form.NUMBER or act is None or not _scatters(act):
            return (careful,)
        shown = self.readings(careful) if self.readings else self._scattered(careful, act)
        return (shown, careful)

    def _scattered(self, figure: str, act: Act) -> str:
        try:
            value = float(figure)
        except ValueError:
            return figure
        spread = _SCATTER * value
        if act.verb is Verb.ASK:
            low, high = act.question.min, act.question.max
            unit = act.question.read_in
            spread = (high.to(unit) - (low.to(unit) if low else 0.0)) * _OF_THE_BAND if high else 0.0
        off = self._chance.gauss(0.0, spread)
        decimals = len(figure.partition(".")[2])
        return f"{value + max(-2.2 * spread, min(2.2 * spread, off)):.{decimals}f}"

    def _take_time(self) -> None:
        self.now += timedelta(seconds=round(self._chance.uniform(*_SECONDS), 1))

    # --- what is not plain work ---------------------------------------------------------------------------

    def over(self, answer: str, reason: str) -> None:
        """An answer that is refused, taken over with a reason."""
        prompt = self.prompt()
        assert prompt is not None
        self._take_time()
        outcome = self.sitting.answer(prompt.id, answer, self.now, over=Takeover(reason))
        assert outcome is None, outcome

    def go_back(self, to: str, reason: str) -> None:
        """Take apart down to a thing, with care."""
        self.command(commands.go_back, to, reason)
        while (prompt := self.prompt()) is not None and prompt.step == BACK:
            self.say(*self._answers(prompt))

    def command(self, do: Callable[..., commands.Result], *arguments: Any, **named: Any) -> None:
        self._take_time()
        outcome = self.sitting.command(do, *arguments, now=self.now, **named)
        assert outcome is None, outcome

    def stop(self, reason: str) -> None:
        self._take_time()
        self.sitting.stop(reason, self.now)

    def take_up(self, after: timedelta, who: str = "") -> None:
        """Open the record again after a time."""
        self.now += after
        self.who = who or self.who
        self.sitting = sitting.take_up(self.workspace, self.registers, self.path, "", self.now)

    def judge(
        self, after: timedelta, outcome: str, name: str, reason: str, limit: str = "", expires: str = ""
    ) -> None:
        """A reviewer's word on the finished record."""
        said = judging.judge(
            self.workspace,
            self.registers,
            self.path,
            outcome,
            name,
            reason,
            self.now + after,
            limit=limit,
            expires=expires,
        )
        assert said is None, said


def _scatters(act: Act) -> bool:
    """Whether what is read here is a reading of a wrench or a gauge, that need not equal another."""
    if act.verb is Verb.TIGHTEN:
        return True
    if act.verb is not Verb.ASK:
        return False
    question = act.question
    return not (question.proves or question.as_ or question.hold or question.equal_within or question.kind)
