"""A row of questions as one page of the desk: the items of a flow, and at its end what came of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Generic, cast

from benchcheck.screens.inquiry import Conversation, Flow, Result, item_sheet, pages, question_for, reply_to
from benchcheck.screens.keys import TURNING, Deed, LiveKey, turned
from benchcheck.screens.layout import Hand, Sheet
from benchcheck.screens.listening import Answered, Question
from benchcheck.screens.records.page import Lead, Next, Page


class AskingPage(Page, Generic[Result]):
    """Asks until the flow ends, and goes where its result leads; Esc leaves it, and nothing has happened."""

    def __init__(self, flow: Flow[Result], then: Callable[[Result], Next]) -> None:
        self._then = then
        self._flow = Conversation(flow)
        self._sheet = 0
        """The page of the choices that is shown."""
        self._show()

    def question(self) -> Question:
        item = self._flow.item
        return question_for(item, f"asked {self._flow.number}", self._sheet) if item else Question("nothing")

    def sheet(self, hand: Hand) -> Sheet:
        assert self._flow.item is not None
        return item_sheet(self._flow.item, replace(hand, page=self._sheet))

    def live(self) -> tuple[LiveKey, ...]:
        item = self._flow.item
        confirm, *rest = super().live()
        more: list[LiveKey] = []
        if item is not None and item.choices:
            more.append(LiveKey(Deed.POINT))
        if item is not None and (item.turn is not None or pages(item) > 1):
            more += [LiveKey(Deed.READ_ON), LiveKey(Deed.TO_END)]
        if item is not None and item.field:
            more.append(LiveKey(Deed.TYPE, does="words; Backspace takes one letter back"))
        return (confirm, *more, *rest)

    def answered(self, heard: Answered, hand: Hand) -> Next:
        assert self._flow.item is not None
        reply = reply_to(self._flow.item, heard, self._sheet)
        self._flow.answer(reply)
        self._show()
        if self._flow.item is not None:
            return Lead.STAY
        return self._then(cast(Result, self._flow.result))

    def asked(self, deed: Deed, key: str, hand: Hand) -> Next:
        item = self._flow.item
        if deed in TURNING and item is not None:
            self._sheet = turned(self._sheet, key, pages(item) - 1)
            if item.turn is not None:
                item.turn(key)
        if deed is Deed.ELSE:
            self._flow.close()
        return super().asked(deed, key, hand)

    def _show(self) -> None:
        """Take over what the present item says."""
        self._sheet = 0
        item = self._flow.item
        if item is not None:
            self.escape, self.text, self.said, self.told = item.escape, item.text, item.said, item.told
