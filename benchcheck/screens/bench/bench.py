"""The bench: one screen on which a pump is worked on from its opening to its release.

A prompt is never a new screen, only another sheet on this one. Nothing is shown as done before it is on the
disk; where it cannot be written, that is said at once and nothing more is asked.
"""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from dataclasses import replace
from datetime import datetime

from benchcheck.instruments.into_the_field import Field
from benchcheck.instruments.wrench_line import Heard as SaidByWrench
from benchcheck.instruments.wrench_line import Reading
from benchcheck.screens.bench import sentences
from benchcheck.screens.bench.arriving import in_words
from benchcheck.screens.bench.flows.decisions import decide
from benchcheck.screens.bench.flows.deviation import deviation
from benchcheck.screens.bench.flows.ending import STOPPED, leave, stopping
from benchcheck.screens.bench.flows.going_back import going_back
from benchcheck.screens.bench.flows.small import read_on
from benchcheck.screens.bench.flows.something_else import something_else
from benchcheck.screens.bench.live import live_keys
from benchcheck.screens.bench.mending import mend_words
from benchcheck.screens.bench.prompts import answer_to, pages, question_for
from benchcheck.screens.bench.sheet_for import bands_for, needs_drawing, sheet_for
from benchcheck.screens.bench.sheets import fault, release, summary, waiting
from benchcheck.screens.bench.sheets.refused import Refused
from benchcheck.screens.bench.sheets.refused import sheet as refused_sheet
from benchcheck.screens.bench.talking import Talking
from benchcheck.screens.bench.view import View
from benchcheck.screens.bench.work import BenchFlow, Clock, Work
from benchcheck.screens.help_sheet import ESCAPE, About
from benchcheck.screens.inquiry import Conversation, escape_row, item_sheet, reply_to
from benchcheck.screens.inquiry import pages as item_pages
from benchcheck.screens.inquiry import question_for as question_for_item
from benchcheck.screens.keys import Deed, LiveKey
from benchcheck.screens.layout import Size
from benchcheck.screens.listening import Answered, Asked, Heard, Question
from benchcheck.screens.sheet_screen import FULL_SIZE, LEAST_SIZE, SheetScreen
from benchcheck.screens.widgets.bands import Bands
from benchcheck.screens.widgets.clock_face import figure_of
from benchcheck.session import troubles
from benchcheck.session.prompt import Form, Prompt
from benchcheck.store.disk import StoreFault
from benchcheck.store.sitting import Sitting

_TICK_SECONDS = 1.0
_PAUSED = "That was asked long ago, so the answer is not taken; first see whether all is as it was."
_NOTHING_ASKED = Prompt(question="", form=Form.CONFIRM, verb="", ask="", enter="")


class BenchScreen(SheetScreen):
    """Works on one pump; `left` is called with a sentence once the record is free again."""

    def __init__(
        self,
        sitting: Sitting,
        clock: Clock,
        left: Callable[[str], None],
        arrived: tuple[tuple[str, str], ...] = (),
    ) -> None:
        super().__init__()
        self._work = Work(sitting, clock)
        self._left = left
        self._arrived = arrived
        self._flow: Conversation[str] | None = None
        self._fault = ""
        self._is_left = False
        self._told = ""
        self._page = 0
        self._turns = 0
        self._turned_for = ""
        self._flow_began_at = 0
        self._figure = ""
        """The time left as it was last shown."""
        self._was_over = False
        self._talking = Talking(sitting.state.job.registers.lines, self._wrench_said)
        self._field = Field()

    # --- beginning, and the clock ------------------------------------------------------------------------

    def on_mount(self) -> None:
        super().on_mount()
        self.set_interval(_TICK_SECONDS, self._tick)
        self._ask_next()

    def on_unmount(self) -> None:
        """Where the program is ended from outside, say so in the record; its next opening can tell anyway."""
        self._talking.close()
        if self._is_left:
            return
        if self.benchcheck.fault is None:
            with suppress(StoreFault):
                self._work.sitting.stop("the program was ended from outside", self._work.clock())
        self._work.sitting.record.close()

    def _tick(self) -> None:
        """Let a clock on the sheet go on, ring once when it is over; look for a line that was lost."""
        self._talking.look()
        prompt = self._work.prompt
        if prompt is None or prompt.until is None or self._flow is not None or self._help:
            return
        over = prompt.until <= self._work.clock()
        if over and not self._was_over:
            self.benchcheck.bell()
            if prompt.question == "clock":
                self._ask_next()
        self._was_over = over
        figure = figure_of(prompt.until - self._work.clock())
        if figure != self._figure:
            self._figure = figure
            self.repaint()

    # --- what is shown -----------------------------------------------------------------------------------

    def place_in_words(self) -> str:
        state = self._work.state
        step = self._work.prompt.step if self._work.prompt else ""
        number = sentences.step_number(state, step)
        where = f", step {number} of {len(state.pump.steps)}" if number else ""
        return f"Pump {state.header.serial}{where}."

    def about(self) -> About:
        if self._fault:
            return About("Nothing could be written, so nothing is asked.", "Enter and F8 leave the pump.")
        if self._flow is not None and self._flow.item is not None:
            return About("A question beside the work.", f"Esc: {self._flow.item.escape}.")
        if self._work.prompt is None:
            return About("The end of this session.", "F8 goes back to the open pumps.")
        return About("One pump on the bench, step by step.", "F8 stops here; what was confirmed is kept.")

    def least_size(self) -> tuple[int, int]:
        plain = self._flow is not None or self._help or self._fault or self._work.refused is not None
        if plain or self._work.prompt is None:
            return LEAST_SIZE
        return FULL_SIZE if needs_drawing(self._work.prompt) else LEAST_SIZE

    def view(self, width: int, height: int) -> View:
        """The present prompt as it is to be drawn."""
        return View(
            state=self._work.state,
            prompt=self._work.prompt or _NOTHING_ASKED,
            now=self._work.clock(),
            size=Size(width, height),
            plain=self.benchcheck.plain,
            text=self.listener.text,
            pointed_at=self.listener.pointed_at,
            said=self._said,
            told=self._told,
            quarter_turns=self._turns,
            page=self._page,
            arrived=self._arrived,
        )

    def bands(self, width: int, height: int) -> Bands:
        view = self.view(width, height)
        if self._help:
            return self._help_bands(view)
        if self._fault:
            sheet = fault.sheet(view, self._fault)
            return bands_for(view, sheet, (LiveKey(Deed.HELP),))
        if self._flow is not None and self._flow.item is not None:
            item = self._flow.item
            sheet = item_sheet(item, view)
            bands = bands_for(view, sheet, ())
            return replace(bands, keys=escape_row(item, width, sheet.hint))
        if self._work.prompt is None:
            return bands_for(view, summary.sheet(view, self._work.sitting), live_keys(self._work))
        if self._work.refused is not None:
            return bands_for(view, refused_sheet(view, self._work.refused), live_keys(self._work))
        return bands_for(view, sheet_for(view), live_keys(self._work))

    def _help_bands(self, view: View) -> Bands:
        sheet = sheet_for(view) if self._work.prompt else summary.sheet(view, self._work.sitting)
        bands = bands_for(view, self.help(live_keys(self._work), sheet.enter, view), ())
        return replace(bands, keys=ESCAPE)

    # --- asking ------------------------------------------------------------------------------------------

    def _ask_next(self, told: str = "", said: str = "") -> None:
        """Ask what is asked now; a refusal that stood is gone."""
        self._work.refused = None
        prompt = self._work.ask()
        self._page, self._said, self._told, self._help = 0, said, told, False
        self._was_over = (
            prompt is not None and prompt.until is not None and prompt.until <= self._work.clock()
        )
        if prompt is not None and prompt.target != self._turned_for:
            self._turns, self._turned_for = 0, prompt.target
        self._put_question(self._field.kept_for(prompt))
        self._talking.attend(troubles.wrench_in_hand(self._work.state))

    def _put_question(self, text: str = "", pointed_at: int | None = None) -> None:
        """Put the question of what is on the sheet to the listener."""
        prompt = self._work.prompt
        if self._fault:
            question = Question("fault")
        elif self._flow is not None and self._flow.item is not None:
            item = self._flow.item
            question = question_for_item(item, f"flow {id(self._flow)} {self._flow.number}", self._page)
            text = text or item.text
        elif prompt is None:
            question = Question("summary")
        elif self._work.refused is not None:
            question = Question(f"{prompt.id} refused")
        elif prompt.form is Form.WAIT or self._is_barred(prompt):
            question = Question(prompt.id)
        else:
            question = question_for(prompt, self._page)
        self.ask(question, text, pointed_at)

    # --- hearing -----------------------------------------------------------------------------------------

    def heard(self, heard: Heard) -> None:
        try:
            asks_for_help = self._help or (isinstance(heard, Asked) and heard.deed is Deed.HELP)
            if self._fault and isinstance(heard, Answered | Asked) and not asks_for_help:
                self._after_fault(heard)
            else:
                super().heard(heard)
        except StoreFault as store_fault:
            self._cannot_write(str(store_fault))

    def changed(self) -> None:
        self._told = ""

    def _wrench_said(self, heard: SaidByWrench) -> None:
        """Put a reading into the field that asks for it; of anything else say what it is."""
        self.call_later(self._put_reading, heard)

    def _put_reading(self, heard: SaidByWrench) -> None:
        if self._is_left:
            return
        if isinstance(heard, Reading):
            open_for_it = not (self._fault or self._help or self._flow or self._work.refused)
            text, words = self._field.take(self._work.prompt if open_for_it else None, heard)
        else:
            text, words = "", heard.words
        if words:
            self._said = words
            self.benchcheck.bell()
            self.repaint()
        elif (came := self.listener.tool(text, self.benchcheck.monotonic())) is not None:
            self._hear(came)

    def answered(self, heard: Answered) -> None:
        if self._flow is not None and self._flow.item is not None:
            reply = reply_to(self._flow.item, heard, self._page)
            self._page = 0
            self._flow.answer(reply)
            self._after_flow()
        elif self._work.prompt is None:
            self._leave(summary.print_all(self._work))
        elif self._work.refused is not None:
            self._mend(self._work.refused)
        else:
            self._answer(self._work.prompt, heard)

    def _answer(self, prompt: Prompt, heard: Answered) -> None:
        view = self.view(*self.size)
        if prompt.form is Form.WAIT and not waiting.is_over(view):
            self._leave(leave(self._work, f"it waits: {prompt.ask}"))
            return
        if self._is_barred(prompt):
            self._go_to_the_first_thing_against()
            return
        now = self._work.clock()
        asked = self._still_asked(prompt, now)
        if asked is None:
            return
        text = answer_to(asked, heard, self._page)
        outcome = self._work.sitting.answer_asked(asked, text, now)
        if outcome is None:
            self._ask_next()
            return
        self.benchcheck.bell()
        self._work.refused = Refused(outcome, text, mend_words(self._work.state, outcome))
        self._put_question()

    def _still_asked(self, prompt: Prompt, now: datetime) -> Prompt | None:
        """The question on the sheet at this moment; if time has put another there, that is asked."""
        number, before = self._work.state.number, self._work.state.at or now
        asked = self._work.ask(now)
        if asked is not None and asked.id == prompt.id:
            return asked
        self.benchcheck.bell()
        paused = self._work.state.number != number
        if paused:
            self._arrived = (("gap", f"{in_words(now - before)} without an answer"),)
        self._ask_next(said=_PAUSED if paused else "")
        return None

    def _mend(self, refused: Refused) -> None:
        if refused.outcome.mend:
            self._work.sitting.take_mend(refused.outcome, self._work.clock())
        self._ask_next()

    def _is_barred(self, prompt: Prompt) -> bool:
        """Whether something stands against the release that is asked for."""
        return prompt.question == "second" and bool(release.against(self.view(*self.size)))

    def _go_to_the_first_thing_against(self) -> None:
        """An open deviation is put to whoever may decide on it; anything else is looked at again."""
        waiting_ones = self._work.state.open_deviations
        if waiting_ones:
            self._start(decide(self._work, waiting_ones[0]))
        else:
            self._ask_next()

    def asked(self, heard: Asked) -> None:
        deed = heard.deed
        if deed is Deed.READ_ON:
            self._turn_page(1 if heard.key == "pagedown" else -1)
        elif self._flow is not None:
            self._asked_in_flow(deed)
        elif self._work.prompt is None:
            if deed is Deed.STOP:
                self._leave("")
        elif deed is Deed.TURN:
            self._turns = (self._turns + (1 if heard.key == "right" else 3)) % 4
            self.repaint()
        elif deed is Deed.ELSE:
            self._start(something_else(self._work))
        elif deed is Deed.DEVIATION:
            if self._work.refused is not None and not self._work.refused.outcome.passable:
                self.benchcheck.bell()
            else:
                self._start(deviation(self._work))
        elif deed is Deed.GO_BACK:
            self._start(going_back(self._work))
        elif deed is Deed.STOP:
            self._start(stopping(self._work))

    def _asked_in_flow(self, deed: Deed) -> None:
        assert self._flow is not None
        if deed is Deed.ELSE:
            self._flow.close()
            self._flow = None
            self._page, self._said = 0, ""
            self._put_question()
        elif deed is Deed.STOP:
            self._flow.close()
            self._start(stopping(self._work))

    def _turn_page(self, by: int) -> None:
        """Another page of the choices; where they have one only, the text to read on."""
        item = self._flow.item if self._flow is not None else None
        if item is not None:
            count = item_pages(item)
        elif self._work.prompt is not None and self._work.refused is None:
            count = pages(self._work.prompt)
            if count == 1:
                if by > 0:
                    self._start(read_on(self._work))
                return
        else:
            count = 1
        if count > 1:
            self._page = (self._page + by) % count
            self._put_question()

    # --- flows -------------------------------------------------------------------------------------------

    def _start(self, flow: BenchFlow) -> None:
        self._page, self._said, self._told = 0, "", ""
        self._flow_began_at = self._work.state.number
        self._flow = Conversation(flow)
        self._after_flow()

    def _after_flow(self) -> None:
        """Show the next item of the flow, or what came of it."""
        assert self._flow is not None
        if self._flow.item is not None:
            self._said = self._flow.item.said
            if self._said:
                self.benchcheck.bell()
            self._put_question()
            return
        result = self._flow.result or ""
        self._flow = None
        if result.startswith(STOPPED):
            self._leave(result)
            return
        if self._work.refused is not None and self._flow_began_at == self._work.state.number:
            self._told = result  # nothing was written: the refusal still stands
            self._put_question()
            return
        self._ask_next(result)

    # --- leaving, pauses, faults ---------------------------------------------------------------------------

    def _leave(self, words: str) -> None:
        self._work.sitting.record.close()
        self._is_left = True
        self._left(words)

    def _cannot_write(self, fault: str) -> None:
        self._fault = fault
        self._flow = None
        self.benchcheck.bell()
        self._put_question()

    def _after_fault(self, heard: Heard) -> None:
        if isinstance(heard, Answered) or (isinstance(heard, Asked) and heard.deed is Deed.STOP):
            self._leave(self._fault)
