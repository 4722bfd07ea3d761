"""The reviewer's screen: the records, what stands out first; one session; its judgement.

It draws the uppermost page and tells it what was heard; what a page shows and where it leads is in the pages.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from benchcheck.screens.help_sheet import ESCAPE, About
from benchcheck.screens.keys import KEYS, Deed, LiveKey, keys_row
from benchcheck.screens.layout import Hand, Size
from benchcheck.screens.listening import Answered, Asked
from benchcheck.screens.records.desk import Desk
from benchcheck.screens.records.page import Done, Instead, Lead, Next, Open, Page
from benchcheck.screens.sheet_screen import SheetScreen
from benchcheck.screens.widgets.bands import Bands, Sentence

_TICK_SECONDS = 0.1


class RecordsScreen(SheetScreen):
    """Pages on each other; `left` is called with a sentence when the last of them is left."""

    def __init__(self, desk: Desk, first: Page, left: Callable[[str], None]) -> None:
        super().__init__()
        self._desk = desk
        self._pages = [first]
        self._left = left

    @property
    def page(self) -> Page:
        """The uppermost page."""
        return self._pages[-1]

    def on_mount(self) -> None:
        super().on_mount()
        self.set_interval(_TICK_SECONDS, self._tick)
        self._put_question()

    def on_unmount(self) -> None:
        for page in self._pages:
            page.closed()
        self._desk.index.close()

    def _tick(self) -> None:
        """Let what goes on behind the uppermost page come to be seen."""
        to = None if self._help else self.page.ticked()
        if to is Lead.STAY:
            self.repaint()
        elif to is not None:
            self._go(to)

    # --- what is shown ------------------------------------------------------------------------------------

    def place_in_words(self) -> str:
        return "The records."

    def about(self) -> About:
        return self.page.about()

    def hand(self, width: int, height: int) -> Hand:
        return Hand(
            size=Size(width, height),
            plain=self.benchcheck.plain,
            text=self.listener.text,
            pointed_at=self.listener.pointed_at,
            said=self._said,
            told=self.page.told,
        )

    def bands(self, width: int, height: int) -> Bands:
        hand, page = self.hand(width, height), self.page
        sheet = page.sheet(hand)  # first: it may ask the index anew, and the sentences count what it found
        first, second = self._sentences(hand)
        bands = Bands(
            first=first,
            second=second,
            ruler=None,
            work=sheet.work,
            enter=hand.words(sheet.enter),
            keys=keys_row(_in_order(page.live()), width, hint=sheet.hint, escape=page.escape_words()),
        )
        if self._help:
            helped = self.help(_in_order(page.live()), sheet.enter, hand)
            return replace(bands, work=helped.work, enter=helped.enter, keys=ESCAPE)
        return bands

    def _sentences(self, hand: Hand) -> tuple[list[Sentence], list[Sentence]]:
        for page in reversed(self._pages):
            if (sentences := page.sentences(hand)) is not None:
                return sentences
        return [], []

    # --- hearing ------------------------------------------------------------------------------------------

    def _put_question(self, pointed_at: int | None = None) -> None:
        self._said = self.page.said
        self.ask(self.page.question(), self.page.text, pointed_at)

    def changed(self) -> None:
        self.page.told = ""
        self.page.typed(self.listener.text)

    def answered(self, heard: Answered) -> None:
        self.page.told = ""
        self._go(self.page.answered(heard, self.hand(*self.size)))

    def asked(self, heard: Asked) -> None:
        if heard.deed is Deed.STOP:
            self._left("")
        else:
            asked = self.page.question()
            to = self.page.asked(heard.deed, heard.key, self.hand(*self.size))
            same = self.page.question() == asked and self.page.text == self.listener.text
            if to is Lead.STAY and same:
                self._said = self.page.said
                self.repaint()  # the same question still stands: Enter need not be deaf again
            else:
                self._go(to)

    def _go(self, to: Next) -> None:
        match to:
            case Open(page=page):
                self.page.pointed_at = self.listener.pointed_at
                self._pages.append(page)
            case Instead(page=page):
                self._pages[-1] = page
            case Lead.LEAVE:
                self._left("")
                return
            case Lead.BACK | Done():
                self._pages.pop().closed()
                if not self._pages:
                    self._left("")
                    return
                if isinstance(to, Done):
                    self.page.returned(to.told)
                else:
                    self.page.uncovered()
                self._put_question(self.page.pointed_at)
                return
        self._put_question()


def _in_order(live: tuple[LiveKey, ...]) -> tuple[LiveKey, ...]:
    """The keys as the table has them."""
    return tuple(sorted(live, key=lambda each: KEYS.index(each.key)))
