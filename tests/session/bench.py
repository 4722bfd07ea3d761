"""A bench for the tests of the engine: a state, a clock that is set on by hand, and the bytes of a record.

What is answered is written as a record would have it, and the state is what the written events give.
"""

from __future__ import annotations

from copy import copy
from datetime import timedelta

from benchcheck.session import commands, engine
from benchcheck.session.engine import Takeover
from benchcheck.session.events import Event, Opened, TakenUp, from_table
from benchcheck.session.fold import folded
from benchcheck.session.prompt import Outcome, Prompt
from benchcheck.session.record import Chain, flat, header_bytes, read
from benchcheck.session.rehearsal import careful_answer
from benchcheck.session.state import Job
from tests.pumps import NOW, REVIEWER, TECHNICIAN, THIRD, opened

ONE_ANSWER = timedelta(seconds=15)


class Bench:
    """One pump on the bench, worked on by the answers that a test gives."""

    def __init__(self, job: Job, variant: str | None = None) -> None:
        self.now = NOW
        self.state = opened(job, variant)
        self.bytes = header_bytes(self.state.header)
        self._chain = Chain(self.bytes)
        self.carry_out(engine.written(self.state, (Opened(serial_again=self.state.header.serial),), self.now))

    def copied(self) -> Bench:
        """Another bench on which all is as it is here."""
        return copy(self)

    # ------------------------------------------------------------------ looking

    @property
    def prompt(self) -> Prompt:
        prompt = engine.ask(self.state, self.now)
        assert prompt is not None, "nothing is asked any more"
        return prompt

    @property
    def asked(self) -> str:
        """Act and question of the prompt, as "cover-on/install:cover face"."""
        return f"{self.prompt.act} {self.prompt.question}".strip()

    def careful(self) -> str:
        """What the careful technician would answer."""
        return careful_answer(self.state, self.prompt, self.now)

    # ------------------------------------------------------------------ answering

    def answer(self, text: str, *, over: str | None = None) -> Outcome | None:
        """Give an answer; the outcome that refuses it, or None once it is written."""
        takeover = Takeover(over) if over is not None else None
        return self.carry_out(engine.answer(self.state, self.prompt.id, text, self.now, over=takeover))

    def carry_out(self, result: tuple[Event, ...] | Outcome) -> Outcome | None:
        """Write events and take the state they give; hand an outcome back."""
        if isinstance(result, Outcome):
            return result
        tables = [flat(event.as_table()) for event in result]
        for table in tables:
            block, self._chain = self._chain.then(table)
            self.bytes += block
        self.state = folded(self.state, (from_table(table) for table in tables))
        return None

    def say(self, *answers: str) -> None:
        """Answers that are all to be taken."""
        for text in answers:
            outcome = self.answer(text)
            assert outcome is None, f"{self.asked}: {text!r} refused: {outcome.refusals}"
            self.now += ONE_ANSWER

    def refused(self, text: str) -> list[str]:
        """An answer that is to be refused; the rules that do."""
        before = self.state
        outcome = self.answer(text)
        assert outcome is not None, f"{self.asked}: {text!r} was taken"
        assert self.state is before
        return [refusal.rule for refusal in outcome.refusals]

    def go_on(self, answers: int = 1) -> None:
        """So many careful answers; clocks are waited for."""
        for _ in range(answers):
            self.wait()
            self.say(self.careful())

    def wait(self) -> None:
        """Until the clock of the prompt is over."""
        prompt = self.prompt
        while prompt.until is not None and prompt.until > self.now:
            self.now = prompt.until
            prompt = self.prompt

    def until(self, *where: str) -> Bench:
        """Careful answers until what is asked begins so, as "cover-on/install" or "F-tight"."""
        for _ in range(2000):
            if self.asked.startswith(where):
                return self
            self.go_on()
        raise AssertionError(f"never asked: {where}")

    def to_the_end(self) -> Bench:
        """Careful answers until nothing is asked."""
        while engine.ask(self.state, self.now) is not None:
            self.go_on()
        return self

    def decide(self) -> None:
        """Another, entitled person decides on every departure that is open."""
        for deviation in self.state.open_deviations:
            name = next(each for each in (THIRD, REVIEWER) if each != deviation.by)
            decided = commands.dispose(
                self.state, deviation.deviation, "use as is", name, "it will do", self.now
            )
            assert self.carry_out(decided) is None

    def to_the_end_with_decisions(self) -> Bench:
        """The same after departures: what is refused is mended, each departure decided on."""
        while engine.ask(self.state, self.now) is not None:
            self.wait()
            self.decide()
            outcome = self.answer(self.careful())
            self.now += ONE_ANSWER
            if outcome is not None:
                self.mend(outcome)
        return self

    def mend(self, outcome: Outcome | None) -> None:
        """Go the way that a refusal offers."""
        assert outcome is not None and outcome.mend, "there is nothing to mend it with"
        self.carry_out(engine.written(self.state, outcome.mend, self.now))

    # ------------------------------------------------------------------ pauses

    def cut(self, *, stopped: bool = False) -> None:
        """The program ends, however, and the record is taken up again."""
        self.carry_out(engine.written(self.state, (TakenUp(stopped=stopped),), self.now))

    def arrive(self, name: str = TECHNICIAN) -> None:
        """Sign on, and read again with care whatever has to be."""
        self.say(name)
        while not self.prompt.act:
            self.go_on()

    def arrive_until(self, question: str, name: str = TECHNICIAN) -> None:
        """Sign on, and read again with care until this is to be read."""
        self.say(name)
        while self.prompt.question != question:
            self.go_on()

    def events(self, *kinds: type[Event]) -> list[Event]:
        """What was written so far, of these kinds if any are named."""
        written = map(from_table, read(self.bytes).events)
        return [event for event in written if not kinds or isinstance(event, kinds)]
