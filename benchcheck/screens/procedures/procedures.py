"""The procedures: their list, one of them as the program understood it, and what can be tried on it.

The folder is looked at about once a second, and everything is read, checked and tried in threads beside the
screen, so that it never waits. What is shown and where one is in it is in modules of their own.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from threading import Event

from textual.message import Message

from benchcheck.screens.bench.work import Clock
from benchcheck.screens.help_sheet import ESCAPE, About
from benchcheck.screens.inquiry import Conversation, Item, escape_row, item_sheet, question_for, reply_to
from benchcheck.screens.keys import TURNING, Deed, LiveKey, keys_row, turned_round
from benchcheck.screens.layout import Hand, Sheet, Size, Work
from benchcheck.screens.listening import Answered, Asked, Question, Takes
from benchcheck.screens.procedures.list_sheet import list_pages, list_sheet, shown, what_of_all
from benchcheck.screens.procedures.reading import (
    LIVE,
    Reading,
    result_pages,
    result_sheet,
    what_of_it,
    which_procedure,
)
from benchcheck.screens.procedures.sheets import escape_row_of, running_sheet, what_else
from benchcheck.screens.procedures.shelf import Book, Shelf
from benchcheck.screens.procedures.trials import Came, Progress, Trial
from benchcheck.screens.procedures.trying import trying
from benchcheck.screens.sheet_screen import SheetScreen
from benchcheck.screens.widgets.bands import Bands, Clause, Sentence
from benchcheck.screens.widgets.cells import Line
from benchcheck.screens.widgets.ruler import draw_ruler
from benchcheck.store.sitting import Sitting
from benchcheck.store.workspace import Workspace

_LOOK_SECONDS = 1.0
_PROGRESS_SECONDS = 0.2
_LIST_LIVE = (
    LiveKey(Deed.CONFIRM),
    LiveKey(Deed.POINT),
    LiveKey(Deed.READ_ON),
    LiveKey(Deed.TO_END),
    LiveKey(Deed.ELSE, does="back to the open pumps"),
    LiveKey(Deed.HELP),
    LiveKey(Deed.STOP, word="leave", does="back to the open pumps"),
)


class ProceduresScreen(SheetScreen):
    """Reads the procedures of a workspace; `left` is called when it is to be left."""

    class News(Message):
        """The folder is known better."""

        def __init__(self, books: tuple[Book, ...]) -> None:
            super().__init__()
            self.books = books

    class Ended(Message):
        """A trial has come to its end, or was stopped."""

    def __init__(self, workspace: Workspace, clock: Clock, left: Callable[[str], None]) -> None:
        super().__init__()
        self._workspace = workspace
        self._clock = clock
        self._left = left
        self._shelf = Shelf(workspace, clock)
        self._looking = False
        self._over = Event()
        self._books: tuple[Book, ...] | None = None
        self._list_page = 0
        self._reading: Reading | None = None
        self._flow: Conversation[Trial | Sitting | None] | None = None
        self._acts: Conversation[Deed] | None = None
        self._trial: Trial | None = None
        self._progress = Progress(0, 1, "")
        self._stop = Event()
        self._came: Came | None = None
        self._page = 0

    def on_mount(self) -> None:
        super().on_mount()
        self._ask()
        self.call_after_refresh(self._look)
        self.set_interval(_LOOK_SECONDS, self._look)
        self.set_interval(_PROGRESS_SECONDS, self._show_progress)

    def on_unmount(self) -> None:
        self._over.set()
        self._stop.set()

    # --- beside the screen --------------------------------------------------------------------------------

    def _look(self) -> None:
        if self.is_current and not self._looking:
            self._looking = True
            self.run_worker(self._look_beside, thread=True, group="look")

    def _look_beside(self) -> None:
        try:
            first = self._reading.path if self._reading is not None else None
            self._shelf.look(self._told, first, self._over.is_set)
        finally:
            self._looking = False

    def _told(self, books: tuple[Book, ...]) -> None:
        self.post_message(self.News(books))

    def on_procedures_screen_news(self, news: News) -> None:
        before, self._books = self._books, news.books
        reading = self._reading
        if reading is not None and self._book is None:
            self._reading, self._said = None, f"{reading.path.name} is not there any more."
            self._ask()
        elif before is None or len(before) != len(self._books):
            self._ask()
        else:
            self.repaint()

    def _run(self, trial: Trial) -> None:
        self._trial, self._progress = trial, Progress(0, 1, "beginning")
        stop = self._stop = Event()

        def beside() -> None:
            for progress in trial.steps():
                self._progress = progress
                if stop.is_set():
                    break
            self.post_message(self.Ended())

        self.run_worker(beside, thread=True, group="try")

    def _show_progress(self) -> None:
        if self._trial is not None:
            self.repaint()

    def on_procedures_screen_ended(self, _: Ended) -> None:
        if self._trial is not None:
            came = self._trial.so_far()
            if self._stop.is_set():
                came = replace(came, verb="stopped", sentence=f"So far: {came.sentence}")
            self._came, self._trial, self._page = came, None, 0
            self._ask()

    # --- what is shown ------------------------------------------------------------------------------------

    @property
    def _book(self) -> Book | None:
        """The procedure that is read."""
        path = self._reading.path if self._reading is not None else None
        return next((book for book in self._books or () if book.path == path), None)

    @property
    def _item(self) -> Item | None:
        """The question that stands over everything else."""
        flow = self._acts or self._flow
        return flow.item if flow is not None else None

    def place_in_words(self) -> str:
        return "The procedures."

    def about(self) -> About:
        if self._trial is not None:
            return About("A trial of the procedure runs.", "Esc stops it; what came so far is shown.")
        if self._item is not None:
            return About("A question beside the procedure.", f"Esc: {self._item.escape}.")
        if self._came is not None:
            return About("What came of the trial.", "Esc goes back to the procedure.")
        if self._reading is not None:
            return About(
                "A procedure as the program understands it.",
                "F8 goes back to the list of procedures.",
                "Read on with PgDn; Enter opens your editor there.",
            )
        return About("The procedures here, and what is wrong in them.", "Esc goes back to the open pumps.")

    def hand(self, width: int, height: int) -> Hand:
        return Hand(
            size=Size(width, height),
            plain=self.benchcheck.plain,
            text=self.listener.text,
            pointed_at=self.listener.pointed_at,
            said=self._said,
            page=self._list_page if self._item is None else 0,
        )

    def bands(self, width: int, height: int) -> Bands:
        hand = self.hand(width, height)
        book = self._book
        sheet, keys = self._sheet(hand, width)
        first: list[Sentence] = [(Clause(("The procedures of this shop",)),)]
        if book is not None:
            first = which_procedure(book, hand)
        if book is not None and self._reading is not None and sheet.hint == "":
            first.append(self._reading.where(book, hand))
        second = what_of_all(self._books or ()) if book is None else what_of_it(book, hand)
        ruler = None
        if self._trial is not None:
            ruler = draw_ruler(self._progress.of, self._progress.done + 1, (), width)
        return Bands(first=first, second=second, ruler=ruler, work=sheet.work, enter=sheet.enter, keys=keys)

    def _sheet(self, hand: Hand, width: int) -> tuple[Sheet, Line]:
        book, item = self._book, self._item
        if self._help:
            does = "does what its row says"
            return self.help(LIVE if book is not None else _LIST_LIVE, does, hand), ESCAPE
        if item is not None:
            return item_sheet(item, hand), escape_row(item, width)
        if self._trial is not None:
            return running_sheet(self._progress, self._stop.is_set(), hand), escape_row_of(
                "stops it, and shows what came so far", width
            )
        if self._came is not None:
            sheet = result_sheet(self._came, self._page, hand)
            return sheet, escape_row_of(f"back to the procedure   PgDn reads on: {sheet.hint}", width)
        if book is not None:
            assert self._reading is not None
            sheet = self._reading.sheet(book, hand)
            return sheet, keys_row(LIVE, width)
        if self._books is None:
            work = Work(hand)
            work.sentence("Reading the procedures.")
            return Sheet(work.lines(), "nothing yet"), escape_row_of("back to the open pumps", width)
        sheet = list_sheet(self._books, hand)
        return sheet, escape_row_of(f"back to the open pumps   F2 help   {sheet.hint}", width)

    # --- hearing ------------------------------------------------------------------------------------------

    def _ask(self) -> None:
        """Put the question of what is shown now."""
        item = self._item
        if self._trial is not None or self._came is not None:
            self.ask(Question("read"))
        elif item is not None:
            flow = self._acts or self._flow
            assert flow is not None
            self.ask(question_for(item, f"procedures {id(flow)} {flow.number}", 0), item.text)
        elif self._reading is not None:
            self.ask(Question("reading"))
        else:
            some = shown(self._books or (), self._list_page)
            first = "Point at one first: type its number."
            pointed_at = self.listener.pointed_at
            self.ask(
                Question(f"list {self._list_page}", Takes.POINTING, choices=len(some), if_empty=first),
                pointed_at=pointed_at if pointed_at is not None and pointed_at <= len(some) else None,
            )

    def answered(self, heard: Answered) -> None:
        self._said = ""
        if self._acts is not None and self._acts.item is not None:
            self._acts.answer(reply_to(self._acts.item, heard, 0))
            deed, self._acts = self._acts.result, None
            if deed is not None:
                self._do(deed)
                return
        elif self._flow is not None and self._flow.item is not None:
            self._flow.answer(reply_to(self._flow.item, heard, 0))
            if self._flow.item is None:
                wanted, self._flow = self._flow.result, None
                self._begin(wanted)
        elif self._came is not None:
            self._came = None
        elif self._trial is None and self._reading is not None:
            self._edit()
        elif self._trial is None and heard.pointed_at:
            book = shown(self._books or (), self._list_page)[heard.pointed_at - 1]
            self._reading = Reading(book.path)
        self._ask()

    def asked(self, heard: Asked) -> None:
        deed = heard.deed
        if self._trial is not None:
            if deed in (Deed.ELSE, Deed.STOP):
                self._stop.set()
                self.repaint()
        elif self._item is not None:
            if deed in (Deed.ELSE, Deed.STOP):
                self._acts = self._flow = None
                self._ask()
        elif self._came is not None:
            self._in_result(heard)
        elif self._reading is None:
            self._in_list(heard)
        elif deed is Deed.ELSE:
            self._acts = Conversation(what_else())
            self._ask()
        elif deed in TURNING or deed is Deed.TURN:
            self._turn(heard)
        else:
            self._do(deed)

    def _in_result(self, heard: Asked) -> None:
        assert self._came is not None
        if heard.deed in TURNING:
            count = len(result_pages(self._came, self.hand(*self.size)))
            self._page = turned_round(min(self._page, count - 1), heard.key, count)
            self.repaint()
        elif heard.deed in (Deed.ELSE, Deed.STOP):
            self._came = None
            self._ask()

    def _in_list(self, heard: Asked) -> None:
        if heard.deed in (Deed.ELSE, Deed.STOP):
            self._left("")
        elif heard.deed in TURNING:
            self._list_page = turned_round(self._list_page, heard.key, list_pages(self._books or ()))
            self._ask()

    def _turn(self, heard: Asked) -> None:
        book, hand = self._book, self.hand(*self.size)
        if book is not None and self._reading is not None:
            if heard.deed is Deed.TURN:
                self._reading.next_finding(book, hand, 1 if heard.key == "right" else -1)
            else:
                self._reading.turn(book, hand, heard.key)
        self.repaint()

    def _do(self, deed: Deed) -> None:
        """What a key does while a procedure is read, or its line in the list behind Esc."""
        book = self._book
        if deed is Deed.HELP:
            self._ask()
            self.open_help()
            return
        if deed is Deed.FIND and book is not None and self._reading is not None:
            self._reading.next_chapter(book, self.hand(*self.size))
        elif deed is Deed.TRACE and book is not None:
            self._flow = Conversation(trying(self._workspace, book, self._clock()))
        elif deed is Deed.STOP:
            self._reading = None
        self._ask()

    # --- what is done -------------------------------------------------------------------------------------

    def _edit(self) -> None:
        """Open the author's own editor where the finding or the page comes from."""
        book, reading = self._book, self._reading
        if book is None or reading is None:
            return
        status = self.benchcheck.edit(book.path, reading.line(book, self.hand(*self.size)))
        if status is None:
            self._said = "No editor could be opened: set EDITOR, or keep one open in another window."
        self._look()

    def _begin(self, wanted: Trial | Sitting | None) -> None:
        if isinstance(wanted, Sitting):
            self._practise(wanted)
        elif wanted is not None:
            self._run(wanted)

    def _practise(self, sitting: Sitting) -> None:
        from benchcheck.screens.bench.arriving import arrived
        from benchcheck.screens.bench.bench import BenchScreen

        def left(words: str) -> None:
            self.benchcheck.pop_screen()
            self._said = words
            self._ask()

        self.benchcheck.push_screen(BenchScreen(sitting, self._clock, left, arrived(sitting)))
