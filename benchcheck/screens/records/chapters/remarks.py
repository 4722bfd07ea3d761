"""What stands out in a session, heaviest first; each remark leads to its event and its seal."""

from __future__ import annotations

from benchcheck.screens.keys import TURNING, Deed, LiveKey, turned
from benchcheck.screens.layout import CHOICES_A_PAGE, LONGEST_LINE, Hand, Sheet, Work
from benchcheck.screens.listening import Answered, Question, Takes
from benchcheck.screens.records.desk import Desk
from benchcheck.screens.records.events import EventPage
from benchcheck.screens.records.one_session import OneSession
from benchcheck.screens.records.page import TITLE_ROWS, Further, Lead, Next, Open, Page, write_title
from benchcheck.screens.records.weights import sign_of, tone_of
from benchcheck.screens.widgets.bands import MARGIN
from benchcheck.screens.widgets.cells import wrap
from benchcheck.screens.widgets.signs import Sign
from benchcheck.session.remarks import DAMAGED, Remark, kind

_TEXT = 12


def page(desk: Desk, session: OneSession, further: Further) -> Page:
    return RemarksPage(session, further)


class RemarksPage(Page):
    """Remarks to point at."""

    escape = "back to the verdict"
    this = "What stands out in this session, and why."

    def __init__(self, session: OneSession, further: Further) -> None:
        self._session = session
        self._further = further
        self._sheet = 0
        self._sheets: tuple[tuple[Remark, ...], ...] = ()

    def question(self) -> Question:
        remarks = self._session.remarks
        if not remarks:
            return Question("no remarks")
        return Question(f"remarks {self._sheet}", Takes.POINTING, choices=min(len(remarks), CHOICES_A_PAGE))

    def live(self) -> tuple[LiveKey, ...]:
        confirm, *rest = super().live()
        point = LiveKey(Deed.POINT, does="at a remark; Enter shows its event and its seal")
        return (confirm, point, LiveKey(Deed.READ_ON), LiveKey(Deed.TO_END), *rest)

    def sheet(self, hand: Hand) -> Sheet:
        work = Work(hand)
        self._sheets = _in_sheets(self._session.remarks, hand, work.height - TITLE_ROWS)
        shown = self._shown()
        count = len(self._session.remarks)
        more = f"sheet {self._sheet + 1} of {len(self._sheets)}" if len(self._sheets) > 1 else ""
        write_title(work, f"What stands out: {count or 'nothing'}", more)
        work.row = TITLE_ROWS
        for number, remark in enumerate(shown, 1):
            self._write(work, number, remark)
        if not hand.pointed_at or hand.pointed_at > len(shown):
            return Sheet(work.lines(), self._enter()[0])
        event = shown[hand.pointed_at - 1].event
        enter = f"shows event {event} and its seal" if event else "nothing: it is about the whole record"
        return Sheet(work.lines(), enter)

    def _write(self, work: Work, number: int, remark: Remark) -> None:
        pointed = number == work.view.pointed_at
        run = (Sign.NOW if pointed else Sign.TO_COME).around(f" {number} ")
        row = work.row
        work.canvas.put(row, MARGIN, run.text, run.tone)
        work.canvas.put(row, MARGIN + 7, sign_of(remark.weight), tone_of(remark.weight))
        work.sentence(_said(remark), column=_TEXT)
        if pointed and remark.kind != DAMAGED and work.rows_left:
            work.sentence(f"Why: {kind(remark.kind).WHY}", column=_TEXT)

    def answered(self, heard: Answered, hand: Hand) -> Next:
        shown = self._shown()
        if heard.pointed_at is None:
            if self._sheet + 1 < len(self._sheets):
                self._sheet += 1
                return Lead.STAY
            return self._further()[1]
        event = shown[heard.pointed_at - 1].event if heard.pointed_at <= len(shown) else None
        return Open(EventPage(self._session, event)) if event else Lead.STAY

    def asked(self, deed: Deed, key: str, hand: Hand) -> Next:
        if deed in TURNING:
            self._sheet = turned(self._sheet, key, max(len(self._sheets) - 1, 0))
        return super().asked(deed, key, hand)

    def _shown(self) -> tuple[Remark, ...]:
        return self._sheets[self._sheet] if self._sheet < len(self._sheets) else ()

    def _enter(self) -> tuple[str, Next]:
        if self._sheet + 1 < len(self._sheets):
            return "reads on", Lead.STAY
        return self._further()


def _said(remark: Remark) -> str:
    at = f" (event {remark.event})" if remark.event else ""
    return f"{remark.kind[:1].upper()}{remark.kind[1:]}: {remark.sentence}{at}"


def _in_sheets(remarks: tuple[Remark, ...], hand: Hand, rows: int) -> tuple[tuple[Remark, ...], ...]:
    """As many as have room with the reason of one of them, and as many as digits can point at."""
    room = min(hand.size.width - _TEXT - 1, LONGEST_LINE + 6)
    sheets: list[list[Remark]] = []
    left = 0
    for remark in remarks:
        taken = len(wrap(hand.words(_said(remark)), room))
        if taken > left or len(sheets[-1]) == CHOICES_A_PAGE:
            sheets.append([])
            left = rows - 2
        sheets[-1].append(remark)
        left -= taken
    return tuple(map(tuple, sheets))
