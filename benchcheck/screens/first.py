"""The screen the application opens with: the pumps that are open here, and the ways to everything else.

It is painted before anything is read; what it then says and asks is worked out in `pumps`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchcheck.screens.help_sheet import ESCAPE, About
from benchcheck.screens.inquiry import (
    Conversation,
    Item,
    Reply,
    escape_row,
    first_page,
    item_sheet,
    pointed_first,
    question_for,
    reply_to,
)
from benchcheck.screens.inquiry import pages as item_pages
from benchcheck.screens.keys import TURNING, Deed, LiveKey, keys_row, turned_round
from benchcheck.screens.layout import Hand, Sheet, Size, Work
from benchcheck.screens.listening import Answered, Asked, Question
from benchcheck.screens.sheet_screen import SheetScreen
from benchcheck.screens.widgets.bands import Bands, Clause, Sentence
from benchcheck.screens.widgets.cells import Line

if TYPE_CHECKING:
    from benchcheck.screens.bench.work import Clock
    from benchcheck.screens.pumps import Pumps, Way
    from benchcheck.store.workspace import Workspace

_SENT_SECONDS = 0.01
_PROGRESS_SECONDS = 0.1


def _live(escape: str) -> tuple[LiveKey, ...]:
    return (
        LiveKey(Deed.CONFIRM),
        LiveKey(Deed.POINT),
        LiveKey(Deed.READ_ON),
        LiveKey(Deed.TO_END),
        LiveKey(Deed.ELSE, does=escape or "back to this list"),
        LiveKey(Deed.HELP),
        LiveKey(Deed.STOP, word="leave", does="ends the program; nothing is lost by it"),
    )


class FirstScreen(SheetScreen):
    """The open pumps and the ways to everything else; every way comes back here."""

    def __init__(self, workspace: Workspace, clock: Clock) -> None:
        super().__init__()
        self._workspace = workspace
        self._clock = clock
        self._pumps: Pumps | None = None
        self._flow: Conversation[Way | None] | None = None
        self._page = 0

    def on_mount(self) -> None:
        super().on_mount()
        self.set_interval(_PROGRESS_SECONDS, self._tick)

    def on_unmount(self) -> None:
        if self._flow is not None:
            self._flow.close()

    def _tick(self) -> None:
        """Let what goes on behind an item come to be seen; its end answers the item."""
        item = self._flow.item if self._flow is not None else None
        if item is None or item.behind is None:
            return
        if item.behind.is_over:
            self._help = False
            self._reply(Reply())
        elif not self._help:
            self.repaint()

    def opened(self) -> None:
        # A timer lets the picture reach the terminal before anything is loaded.
        self.set_timer(_SENT_SECONDS, self.begin)

    def begin(self, told: str = "") -> None:
        """Look at the workspace, and ask what is to be done."""
        from benchcheck.screens.pumps import Pumps

        self._page = 0
        if self._flow is not None:
            self._flow.close()
        if self._pumps is None:
            self._pumps = Pumps(self._workspace, self._clock)
        self._flow = Conversation(self._pumps.first_list(told))
        self._put_question()

    # --- what is shown -----------------------------------------------------------------------------------

    def place_in_words(self) -> str:
        return "No pump is open."

    def about(self) -> About:
        item = self._flow.item if self._flow is not None else None
        if item is None or not item.escape:
            return About(
                "The start: pumps under way, and all else there is.",
                "F8 ends the program; what was confirmed is kept.",
            )
        return About("A step on the way from the first list.", f"Esc: {item.escape}.")

    def hand(self, width: int, height: int) -> Hand:
        return Hand(
            size=Size(width, height),
            plain=self.benchcheck.plain,
            text=self.listener.text,
            pointed_at=self.listener.pointed_at,
            said=self._said,
            told=self._flow.item.told if self._flow is not None and self._flow.item is not None else "",
            page=self._page,
        )

    def bands(self, width: int, height: int) -> Bands:
        hand = self.hand(width, height)
        item = self._flow.item if self._flow is not None else None
        keys: Line = ()
        if item is None:
            work = Work(hand)
            work.sentence("Looking at what lies in the workspace.")
            sheet = Sheet(work.lines(), "nothing yet")
        elif self._help:
            sheet = self.help(_live(item.escape), "does what its row says", hand)
            keys = ESCAPE
        else:
            sheet = item_sheet(item, hand)
            keys = keys_row(_live(item.escape), width, hint=sheet.hint)
            if item.escape:
                keys = escape_row(item, width, sheet.hint)
        where: list[Sentence] = [(Clause(("Benchcheck",)),)]
        what: list[Sentence] = [(Clause((hand.words(str(self._workspace.folder)),)),)]
        if self._pumps is not None:
            where, what = self._pumps.where(hand), self._pumps.what(hand)
        return Bands(
            first=where,
            second=what,
            ruler=None,
            work=sheet.work,
            enter=sheet.enter,
            keys=keys,
        )

    # --- hearing -----------------------------------------------------------------------------------------

    def _put_question(self, pointed_at: int | None = None) -> None:
        item = self._flow.item if self._flow is not None else None
        if item is None:
            self.ask(Question("nothing"))
            return
        assert self._flow is not None
        self._said = item.said
        question = question_for(item, f"first {id(self._flow)} {self._flow.number}", self._page)
        self.ask(question, item.text, pointed_at)

    def answered(self, heard: Answered) -> None:
        assert self._flow is not None and self._flow.item is not None
        if self._flow.item.behind is not None:
            self._put_question()
            return
        self._reply(reply_to(self._flow.item, heard, self._page))

    def _reply(self, reply: Reply) -> None:
        assert self._flow is not None
        self._flow.answer(reply)
        if self._flow.item is not None:
            self._page = first_page(self._flow.item)
            self._put_question(pointed_first(self._flow.item))
        elif self._flow.result is not None:
            self._go(self._flow.result)
        else:
            self.benchcheck.exit()

    def asked(self, heard: Asked) -> None:
        if heard.deed is Deed.STOP:
            self.benchcheck.exit()
        elif heard.deed is Deed.ELSE:
            self._escape()
        elif heard.deed in TURNING and self._flow is not None and self._flow.item is not None:
            self._turn(self._flow.item, heard)

    def _turn(self, item: Item, heard: Asked) -> None:
        """Turn the pages of the choices, round and round with PgUp and PgDn, or those of the text."""
        count = item_pages(item)
        if count > 1:
            self._page = turned_round(self._page, heard.key, count)
            self._put_question()
        elif item.turn is not None:
            item.turn(heard.key)
            self.repaint()

    def _escape(self) -> None:
        item = self._flow.item if self._flow is not None else None
        if item is None or item.behind is None:
            self.begin()
        else:
            item.behind.stop()
            self.repaint()

    # --- the other screens -------------------------------------------------------------------------------

    def _go(self, way: Way) -> None:
        """Open another screen; when it is left, the first list comes again."""

        def left(words: str) -> None:
            self.benchcheck.pop_screen()
            self.begin(words)

        self.benchcheck.push_screen(way(left))
