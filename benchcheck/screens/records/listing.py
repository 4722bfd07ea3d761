"""The records, what stands out first and why; found by typing. Only lines that have room are asked for."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from time import monotonic

from benchcheck.report.words import count
from benchcheck.screens.inquiry import Flow, Item
from benchcheck.screens.keys import Deed, LiveKey, turned
from benchcheck.screens.layout import Hand, Sheet, Work
from benchcheck.screens.listening import Answered, Question, Takes
from benchcheck.screens.records.asking import AskingPage
from benchcheck.screens.records.desk import Desk
from benchcheck.screens.records.finder import MARK, write_field
from benchcheck.screens.records.page import Instead, Lead, Next, Open, Page
from benchcheck.screens.records.several import MOST, Clean, Word, WritingPage, several
from benchcheck.screens.records.taking_in import TakingIn
from benchcheck.screens.records.verdict import VerdictPage
from benchcheck.screens.records.weights import LEGEND, sign_of, tone_of
from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.bands import MARGIN, Clause, Sentence
from benchcheck.screens.widgets.cells import shorten_in_the_middle, width_of, wrap
from benchcheck.session.record import NewerFormat
from benchcheck.session.remarks import Weight
from benchcheck.store.disk import StoreFault
from benchcheck.store.index_queries import Listed, Query
from benchcheck.store.index_taking import Progress

_ASKED_EVERY = 1.0
"""Seconds between two looks at the index while it is being filled."""
_HEAD, _FIRST = 2, 3
"""Rows of the head and of the first line."""
_SIGN, _PUMP, _MODEL, _DAY, _WHY = 1, 3, 14, 27, 34
"""Columns of a line."""
_COLUMNS = ((_PUMP, "pump"), (_MODEL, "procedure"), (_DAY, "last"), (_WHY, "why it stands here"))
_ELSE = ("accept several clean ones at once", "look for new and changed records", "leave to the open pumps")
_RELEASED, _OPEN = "released", "open"


class ListPage(Page):
    """The first page of the desk."""

    this = "The sessions, what stands out first, and why."
    now = "Type to find, move with the arrows; Enter opens."

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._taking = TakingIn(desk.workspace)
        self._look_again = False
        """Whether a record may have changed since the present go looked at it."""
        self._seen: tuple[Progress | None, bool] | None = None
        """How far the taking in was when it was last looked at, and whether it was over."""
        self._at = 0
        """Place of the marked line among those found."""
        self._is_held = False
        """Whether a hand put the mark on its record, and it stays there, whatever comes in before it."""
        self._first = 0
        self._count = 0
        self._lines: Sequence[Listed] = ()
        self._asked: tuple[str, int, int] | None = None
        """What the lines in hand are the answer to."""
        self._is_behind = False
        """Whether more was taken in than the lines in hand show."""
        self._asked_at = 0.0
        self._states: dict[str, int] = {}

    # --- the index ----------------------------------------------------------------------------------------

    def _lines_for(self, rows: int) -> Sequence[Listed]:
        """The lines that have room, from the index unless they are in hand."""
        # Where the marked record stands and what stands there is one question: more may come in meanwhile.
        with self._desk.index.one_moment():
            return self._lines_by_now(rows)

    def _lines_by_now(self, rows: int) -> Sequence[Listed]:
        if self._asked is None or self._asked[0] != self.text:
            if self._is_held and (held := self._marked) is not None:
                self._follow(held)
            self._count = self._desk.index.count(Query(self.text))
            self._states = self._desk.index.states()
            self._at = max(0, min(self._at, self._count - 1))
        self._first = max(0, min(self._first, self._at, self._count - rows), self._at - rows + 1)
        asked = (self.text, self._first, rows)
        if asked != self._asked:
            query = Query(self.text, limit=rows, offset=self._first)
            self._lines = self._desk.index.listed(query, self._desk.today)
            self._asked = asked
        return self._lines

    def _follow(self, held: Listed) -> None:
        """Mark the record where it stands by now; after a reviewer's word on it, the next one."""
        index, today = self._desk.index, self._desk.today
        place = index.place(self.text, held.file, today)
        if place is None:
            return
        now = index.listed(Query(self.text, limit=1, offset=place), today)
        if now and now[0].judged == held.judged:
            self._first += place - self._at
            self._at = place

    @property
    def _marked(self) -> Listed | None:
        place = self._at - self._first
        return self._lines[place] if 0 <= place < len(self._lines) else None

    def _ask_anew(self) -> None:
        self._asked = None
        self._is_behind = False
        self._asked_at = monotonic()

    @property
    def _all_in(self) -> bool:
        """Whether all is taken in, and the lines are asked for since."""
        return self._seen is not None and self._seen[1]

    @property
    def _can_be_stopped(self) -> bool:
        """Whether it was seen to take in records; merely to look for new ones takes no time."""
        return self._seen is not None and self._seen[0] is not None and not self._seen[1]

    def ticked(self) -> Next | None:
        if self._look_again and self._taking.is_over:
            self.uncovered()
        over = self._taking.is_over
        now = (self._taking.progress, over)
        is_news = now != self._seen
        self._seen, self._is_behind = now, self._is_behind or is_news
        if self._is_behind and (over or monotonic() - self._asked_at > _ASKED_EVERY):
            self._ask_anew()
            return Lead.STAY
        return Lead.STAY if is_news else None

    def closed(self) -> None:
        self._taking.stop()

    def uncovered(self) -> None:
        self._take_in(events=not self._taking.was_stopped)

    def returned(self, told: str) -> None:
        super().returned(told)
        self.uncovered()

    def _take_in(self, *, events: bool) -> None:
        """Look for what is new or changed; without events, what was stopped stays stopped."""
        self._look_again = not self._taking.is_over
        if not self._look_again:
            self._taking = TakingIn(self._desk.workspace, events=events)
            self._seen = None
        self._ask_anew()

    # --- keys ---------------------------------------------------------------------------------------------

    def escape_words(self) -> str:
        if self.text:
            return "all records again"
        return "stops taking in" if self._can_be_stopped else ""

    def question(self) -> Question:
        return Question("records", Takes.TEXT)

    def live(self) -> tuple[LiveKey, ...]:
        confirm, leave, *rest = super().live()
        return (
            confirm,
            LiveKey(Deed.TYPE, does="finds: serial, person, instrument, lot, revision, day, state"),
            LiveKey(Deed.MOVE),
            LiveKey(Deed.READ_ON),
            LiveKey(Deed.TO_END),
            leave,
            LiveKey(
                Deed.DECIDE, word="accept several", does="the clean ones listed here, once they were read"
            ),
            *rest,
        )

    def typed(self, text: str) -> None:
        super().typed(text)
        self.said = ""
        self._at = self._first = 0
        self._is_held = False

    def answered(self, heard: Answered, hand: Hand) -> Next:
        marked = self._marked
        if marked is None:
            return Lead.STAY
        try:
            session = self._desk.look_at(self._desk.workspace.sessions / marked.file, marked.remarks)
        except (StoreFault, NewerFormat) as fault:
            self.said = str(fault).replace(f"{self._desk.workspace.sessions}/", "")
            return Lead.STAY
        self._is_held = True
        return Open(VerdictPage(self._desk, session))

    def asked(self, deed: Deed, key: str, hand: Hand) -> Next:
        self.said = ""
        match deed:
            case Deed.MOVE:
                self._move_to(self._at + (1 if key == "down" else -1))
            case Deed.READ_ON | Deed.TO_END:
                before = self._at
                self._move_to(turned(before, key, max(self._count - 1, 0), _rows(hand)))
                self._first += self._at - before
            case Deed.DECIDE:
                return Open(self._accepting())
            case Deed.ELSE if self.text:
                super().typed("")
                self._is_held = self._marked is not None
                return Lead.STAY
            case Deed.ELSE if self._can_be_stopped:
                if not self._taking.is_over:  # it may be since it was last seen
                    self._taking.stop()
                return Lead.STAY
            case Deed.ELSE:
                return Open(AskingPage(_something_else(), self._chosen))
        return Lead.STAY

    def _move_to(self, place: int) -> None:
        self._at = max(0, min(place, self._count - 1))
        self._is_held = True

    # --- what it shows ------------------------------------------------------------------------------------

    def sentences(self, hand: Hand) -> tuple[list[Sentence], list[Sentence]]:
        total = sum(self._states.values())
        under_way = self._states.get(_OPEN, 0)
        waiting = self._states.get(_RELEASED, 0)
        first: list[Sentence] = [
            (Clause(("Records",)),),
            (
                Clause((count(total, "session"),)),
                Clause((f"{under_way} under way",), drop_rank=0),
                Clause((f"{waiting} released and not judged",), drop_rank=1),
            ),
        ]
        return first, [(Clause((hand.words(self._how_far()),), loud=not self._all_in),)]

    def _how_far(self) -> str:
        taking = self._taking
        progress = self._seen[0] if self._seen is not None else None
        if not self._all_in:
            if progress is None:
                return "Looking for new and changed records"
            return f"Taking in {progress.what}: {progress.done} of {progress.of}"
        if taking.fault:
            return taking.fault
        unread = self._desk.index.unread()
        if unread:
            return f"Taking in was stopped; {count(unread, 'record')} not read through yet"
        return "What stands out comes first; all records are taken in"

    def sheet(self, hand: Hand) -> Sheet:
        work = Work(hand)
        lines = self._lines_for(_rows(hand))
        self._write_head(work)
        for row, line in enumerate(lines, _FIRST):
            self._write(work, row, line, marked=row - _FIRST == self._at - self._first)
        column = MARGIN
        for sign, words in LEGEND:
            work.canvas.put(work.height - 1, column, f"{sign} {words}", Tone.QUIET)
            column += len(words) + 5
        marked = self._marked
        if marked is None:
            why = "nothing: no record holds these words" if self.text else "nothing yet: no record is listed"
            return Sheet(work.lines(), why)
        return Sheet(work.lines(), f"opens {marked.serial}: {_why(marked)}{_more(marked)}")

    def _write_head(self, work: Work) -> None:
        view = work.view
        if view.told or view.said:
            work.row = 0
            work.said(most_rows=_HEAD)
        else:
            place = f"{self._at + 1} of {self._count}" if self._count else "none"
            write_field(work, 0, self.text, place)
        for column, word in _COLUMNS:
            work.canvas.put(_HEAD, column, word, Tone.QUIET)

    def _write(self, work: Work, row: int, line: Listed, *, marked: bool) -> None:
        def put(column: int, text: str, end: int, tone: Tone = Tone.INK) -> None:
            work.canvas.put(row, column, shorten_in_the_middle(work.view.words(text), end - column - 1), tone)

        if marked:
            work.canvas.put(row, 0, MARK.text, MARK.tone)
        weight = Weight(line.weight) if line.weight else None
        work.canvas.put(row, _SIGN, sign_of(weight), tone_of(weight))
        put(_PUMP, line.serial, _MODEL, Tone.NOW if marked else Tone.INK)
        put(_MODEL, f"{line.procedure.upper()}{line.variant}", _DAY)
        put(_DAY, _day(line.last, self._desk.today.year), _WHY)
        more = _more(line)
        room = work.width - _WHY - 1 - len(more)
        text = work.view.words(_why(line))
        if width_of(text) > room:
            text = wrap(text, room - 1)[0] + "…"
        work.canvas.put(row, _WHY, text + more)

    # --- several at once, and what else there is ----------------------------------------------------------

    def _clean(self) -> list[Clean]:
        """Of what is listed: released, nothing stands out, nobody has judged it."""
        query = Query(self.text, state=_RELEASED)
        return [
            Clean(
                self._desk.workspace.sessions / each.file,
                f"{each.serial}  {each.procedure.upper()}{each.variant}, revision {each.revision}, "
                f"{each.state} {_day(each.last, self._desk.today.year)}, {count(each.events, 'event')}",
            )
            for each in self._desk.index.listed(query, self._desk.today)
            if not (each.remarks or each.judged or each.practice) and each.read
        ][:MOST]

    def _accepting(self) -> Page:
        clean = self._clean()

        def then(word: Word | None) -> Next:
            return Instead(WritingPage(self._desk, clean, word)) if word is not None else Lead.BACK

        return AskingPage(several(self._desk, clean, self._desk.index.unread()), then)

    def _chosen(self, index: int) -> Next:
        """What follows from a choice of what else there is."""
        if index == 0:
            return Instead(self._accepting())
        if index == 1:
            self._take_in(events=True)
        return Lead.BACK if index == 1 else Lead.LEAVE


def _something_else() -> Flow[int]:
    chosen = yield Item("records", "", "goes there", choices=_ELSE, escape="back to the list")
    return chosen.index


def _rows(hand: Hand) -> int:
    """How many records have room."""
    return max(Work(hand).height - _FIRST - 1, 1)


def _day(time: str, this_year: int) -> str:
    """The day, or the month of another year."""
    try:
        day = datetime.fromisoformat(time)
        return f"{day:%-d %b}" if day.year == this_year else f"{day:%m/%Y}"
    except ValueError:
        return ""


def _why(line: Listed) -> str:
    """Why it stands where it stands: the heaviest remark, its kind first, else where it has come to."""
    practice = "practice: " if line.practice else ""
    if line.remarks:
        first = line.remarks[0]
        said = first.sentence.casefold()
        says_itself = first.kind in said or said.startswith(first.kind.split()[0])
        kind = "" if says_itself else f"{first.kind}: "
        return practice + kind + first.sentence
    if line.state == _RELEASED:
        return f"{practice}released, not judged yet"
    return practice + ("under way" if line.state == _OPEN else line.state)


def _more(line: Listed) -> str:
    """How many remarks there are besides the heaviest."""
    return f"  (+{len(line.remarks) - 1})" if len(line.remarks) > 1 else ""
