"""One session on one page: where it stands, whether it is true, what departs; and the ways to the rest."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.report.sections.verdict import fields, limits, standing
from benchcheck.report.words import capital, count
from benchcheck.screens.keys import Deed, LiveKey
from benchcheck.screens.layout import LONGEST_LINE, Hand, Sheet, Work
from benchcheck.screens.listening import Answered, Question, Takes
from benchcheck.screens.records.chapters import CHAPTERS, chapter
from benchcheck.screens.records.desk import Desk
from benchcheck.screens.records.events import EventsPage
from benchcheck.screens.records.one_session import OneSession
from benchcheck.screens.records.page import Done, Next, Open, Page
from benchcheck.screens.records.weights import sign_of
from benchcheck.screens.widgets.bands import MARGIN, TEXT_START, Clause, Sentence
from benchcheck.screens.widgets.cells import cut, wrap
from benchcheck.screens.widgets.signs import Sign
from benchcheck.session.record import check_value

_WAY_CELLS = 19
"""Cells that a way to another page takes."""
_ALL_REMARKS = 8
"""So many remarks stand on the page of a large window."""
_DEPARTS = "departs"
"""The line that is there in every window, if only its beginning."""
_JUDGES = "asks what becomes of it"
_BIG = {
    "DAMAGED RECORD": "damaged",
    "INCOMPLETE, DO NOT RUN": "not over",
    "ACCEPTED UNDER CONCESSION": "concession",
}
"""Shorter words for the large type; the sentence beside them says it in full."""


class VerdictPage(Page):
    """The first page of a session."""

    escape = "back to the records"
    this = "One session: may it be accepted, and why."

    def __init__(self, desk: Desk, session: OneSession) -> None:
        self._desk = desk
        self._session = session

    # --- keys ---------------------------------------------------------------------------------------------

    def question(self) -> Question:
        return Question(
            f"session {self._session.path} {len(self._session.tables)}",
            Takes.POINTING,
            choices=len(self._ways()),
        )

    def live(self) -> tuple[LiveKey, ...]:
        confirm, leave, *rest = super().live()
        return (
            confirm,
            LiveKey(Deed.POINT, does="at one of the pages; Enter opens it"),
            LiveKey(Deed.READ_ON, does="to the first page"),
            leave,
            LiveKey(Deed.FIND, word="events", does="the raw events, found by typing"),
            LiveKey(Deed.DECIDE, word="decide on it" if self._session.waits_for_decision else "judge"),
            *rest,
        )

    def answered(self, heard: Answered, hand: Hand) -> Next:
        chosen = (heard.pointed_at or 1) - 1
        if chosen < len(CHAPTERS):
            return Open(chapter(self._desk, self._session, chosen))
        if chosen == len(CHAPTERS):
            return Open(EventsPage(self._session))
        return Open(self._judgement())

    def asked(self, deed: Deed, key: str, hand: Hand) -> Next:
        match deed:
            case Deed.READ_ON:
                return Open(chapter(self._desk, self._session, 0))
            case Deed.FIND:
                return Open(EventsPage(self._session))
            case Deed.DECIDE:
                return Open(self._judgement())
        return super().asked(deed, key, hand)

    def _judgement(self) -> Page:
        from benchcheck.screens.records.asking import AskingPage
        from benchcheck.screens.records.decision import disposed
        from benchcheck.screens.records.judgement import judged

        flow = disposed if self._session.waits_for_decision else judged
        return AskingPage(flow(self._desk, self._session), Done)

    def returned(self, told: str) -> None:
        self._session = self._desk.look_at(self._session.path, self._session.remarks)
        self.told = told

    # --- what it shows ------------------------------------------------------------------------------------

    def sentences(self, hand: Hand) -> tuple[list[Sentence], list[Sentence]]:
        return which_record(self._session, hand), how_true(self._session, hand)

    def sheet(self, hand: Hand) -> Sheet:
        session, work = self._session, Work(hand)
        ways = self._ways()
        rows = -(-len(ways) // _columns(work))
        if session.journal is None:
            beside = [capital(session.cannot) + ("" if session.cannot.endswith(".") else ".")]
            for text in work.verb("damaged" if session.remarks else "unread", beside):
                work.sentence(text)
        else:
            stands = standing(session.journal)
            word = _BIG.get(stands.word, stands.word.partition(":")[0].lower())
            for text in work.verb(word, [self._stands()[-1]]):
                work.sentence(text)
        end = work.height - rows - (1 if hand.size.full else 0)
        work.said()
        for label, text in self._lines(_ALL_REMARKS if work.roomy else 1):
            lines = wrap(hand.words(text), min(work.width - TEXT_START - 1, LONGEST_LINE))
            left = end - work.row
            if len(lines) <= left:
                work.labelled(label, text)
            elif left and label == _DEPARTS:
                work.labelled(label, cut(lines[0], work.width - TEXT_START - 2) + "…")
        self._write_ways(work, ways, work.height - rows)
        chosen = hand.pointed_at or 1
        enter = f"shows the {ways[chosen - 1].partition(':')[0]}" if chosen < len(ways) else _JUDGES
        return Sheet(work.lines(), enter)

    def _write_ways(self, work: Work, ways: tuple[str, ...], first: int) -> None:
        columns = _columns(work)
        for place, text in enumerate(ways):
            run = (Sign.NOW if place + 1 == work.view.pointed_at else Sign.TO_COME).around(f" {place + 1} ")
            row = first + place // columns
            column = MARGIN + place % columns * ((work.width - MARGIN) // columns)
            work.canvas.put(row, column, run.text, run.tone)
            work.canvas.put(row, column + len(run.text) + 1, text)

    def _ways(self) -> tuple[str, ...]:
        remarks, *others = CHAPTERS
        return (
            f"{remarks}: {len(self._session.remarks)}",
            *others,
            f"events: {len(self._session.tables)}",
            "decide on it" if self._session.waits_for_decision else "judge it",
        )

    def _stands(self) -> tuple[str, ...]:
        """Where it stands, in a sentence; of a session that was judged, how it ended first."""
        journal = self._session.journal
        assert journal is not None
        said, judged = standing(journal).sentence, journal.state.judged
        word = f"{capital(judged.outcome)} by {judged.name} on " if judged is not None else ""
        ended, _, rest = said.partition(f" {word}")
        return (ended, word + rest) if word and rest else (said,)

    def _lines(self, remarks: int) -> Iterator[tuple[str, str]]:
        """The lines of the verdict, what matters most first: those that have no room are in the report.

        So many remarks are among them, the heaviest first.
        """
        session, journal = self._session, self._session.journal
        if journal is None:
            yield from (("not", each) for each in session.recorded.verdict.not_proved)
            return
        said = dict(fields(journal))
        yield from (("limit", each.sentence) for each in limits(journal))
        yield "complete", said["complete"]
        yield "true", _true(session)
        yield from _departs(session, remarks, said["departs"])
        if len(stands := self._stands()) > 1:
            yield "ended", stands[0]
        for word in reversed(session.judged[:-1]):
            yield "before", f"{word.outcome} by {word.name} on {journal.day(word.at)}, because {word.reason}"
        yield "who", said["who"]
        yield "with", said["with"]
        yield "numbers", said["numbers"]
        yield "left", said["left"]
        yield "screws", said["screws"]
        seal = session.seals[-1].hexadecimal
        yield "check", f"{journal.proof.number}: {check_value(seal)}, the same on every paper"


def _columns(work: Work) -> int:
    """How many ways stand beside each other."""
    return min((work.width - MARGIN) // _WAY_CELLS, 4)


def _departs(session: OneSession, most: int, otherwise: str) -> Iterator[tuple[str, str]]:
    """The heaviest remarks, and how many more there are; without one, what the report would say."""
    if not session.remarks:
        yield _DEPARTS, otherwise.replace("to read below", "to read in the report")
    shown = session.remarks[:most]
    for place, remark in enumerate(shown, 1):
        more = len(session.remarks) - most if place == len(shown) else 0
        also = f"  And {count(more, 'more remark')}." if more > 0 else ""
        yield _DEPARTS if place == 1 else "", f"{sign_of(remark.weight)} {remark.sentence}{also}"


def _true(session: OneSession) -> str:
    """What speaks for the record, up to which event."""
    verdict = session.recorded.verdict
    if not verdict.intact:
        return f"NOT from event {verdict.first_bad_event} on"
    said = [f"the seals fit up to event {verdict.events}, the last"]
    for each in verdict.proved_by:
        if " is that of event " in each:
            said.append(each[:1].lower() + each.partition(":")[0][1:])
    if len(said) == 1:
        said.append("nothing outside the record speaks for it yet")
    return "; ".join(said)


def which_record(session: OneSession, hand: Hand) -> list[Sentence]:
    """Sentence one: which pump, by which procedure, from when."""
    pump = Clause((hand.words(f"Pump {session.name}"),))
    header = session.recorded.record.header
    if header is None:
        return [(pump,)]
    model = Clause((hand.words(f"{header.procedure.upper()}{header.variant}"),), drop_rank=1)
    revision = Clause(
        (hand.words(f"revision {header.revision}"), hand.words(f"rev. {header.revision}")), drop_rank=0
    )
    practice = (Clause(("practice",), loud=True),) if header.practice else ()
    sentences: list[Sentence] = [(*practice, pump, model, revision)]
    if session.journal is not None:
        day = session.journal.time(header.opened)
        sentences.append((Clause((f"Record of {day:%-d %B %Y}", f"{day:%-d %b %Y}")),))
    return sentences


def how_true(session: OneSession, hand: Hand) -> list[Sentence]:
    """Sentence two: whether the events agree, and who judged."""
    verdict = session.recorded.verdict
    if not verdict.events and verdict.first_bad_event is None:
        agree = Clause(("no event in it is whole",), loud=True)
    elif verdict.intact:
        agree = Clause((f"All {count(verdict.events, 'event')} agree with their seals", "All seals agree"))
    else:
        agree = Clause((f"damaged from event {verdict.first_bad_event} on",), loud=True)
    judged = session.judged
    word = f"{judged[-1].outcome} by {judged[-1].name}" if judged else "no reviewer has judged it yet"
    return [(agree,), (Clause((hand.words(capital(word)),)),)]
