"""The order of a session against the order that was asked: what differs is named, and drawn reversed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from benchcheck.report.journal import Journal
from benchcheck.screens.layout import Hand, Size
from benchcheck.screens.records.chapters.order import OrderPage, out_of_order
from benchcheck.screens.records.one_session import OneSession
from benchcheck.screens.records.page import Lead
from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.cells import Line, plain_text
from benchcheck.session.record import Chain, RecordRead
from benchcheck.session.verification import Verdict
from benchcheck.store.recorded import Recorded
from tests.report import sample


def lines(journal: Journal) -> Sequence[Line]:
    read = RecordRead(None, (), (), Chain(), b"", None, None)
    recorded = Recorded(Path("4471.toml"), read, Verdict(0, True, None, False, None, (), ()))
    page = OrderPage(OneSession(recorded, journal, "", ()), lambda: ("", Lead.BACK))
    return page.lines(Hand(size=Size(80, 24)))


def test_a_careful_session_is_in_order_also_after_going_back() -> None:
    for journal in (sample.released(), sample.departed()):
        assert list(out_of_order(journal)) == []
        drawn = lines(journal)
        assert plain_text(drawn[0]).strip() == "Steps: in the order of the procedure."
        assert not [run for line in drawn for run in line if run.tone is Tone.WRONG]


def test_a_step_that_came_late_is_named_with_the_first_that_it_should_precede() -> None:
    journal = sample.released()
    late = tuple(
        replace(each, number=each.number + 1000) if getattr(each, "act", "").startswith("look/") else each
        for each in journal.events
    )
    found = list(out_of_order(replace(journal, events=late)))
    assert [(step, before) for step, _, before in found] == [("look", "shaft-in")]


def test_positions_in_another_order_are_drawn_reversed() -> None:
    journal = sample.released()
    (run, *others) = journal.runs
    first, second, *rest = run.turned
    swapped = replace(journal, runs=(replace(run, turned=[second, first, *rest]), *others))
    drawn = [line for line in lines(swapped) if plain_text(line).strip().startswith("round 1")]
    assert plain_text(drawn[0]).split() == ["round", "1", "3", "1", "2", "4", "!", "another", "order"]
    assert [run.text.strip() for run in drawn[0] if run.tone is Tone.WRONG] == ["3", "1"]
