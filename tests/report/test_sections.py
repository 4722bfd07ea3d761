"""What the sections say, each in a session in which it matters; the golden files hold the rest."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta

import pytest

from benchcheck.report.columns import PAGE, width
from benchcheck.report.document import Fields, Paragraph, Points, Section, Table
from benchcheck.report.html_page import as_html
from benchcheck.report.journal import Journal, journal_of
from benchcheck.report.plain_text import as_text
from benchcheck.report.sections import clocks, departures, facing, grooves, people, readings, undone, verdict
from benchcheck.report.session_document import document_of
from benchcheck.session import commands, engine
from benchcheck.session.events import (
    ClockWentBack,
    Closed,
    Event,
    GrooveFound,
    PartInstalled,
    PartReplaced,
    PositionTightened,
    TakenUp,
)
from benchcheck.session.fold import beginning, folded
from tests.pumps import main_job
from tests.report import sample
from tests.report.test_html_page import Page


def said(section: Section | None) -> str:
    """All text of a section, one block's line each."""
    assert section is not None
    lines: list[str] = []
    for block in section.blocks:
        match block:
            case Paragraph(text=text):
                lines.append(text)
            case Points(sentences=sentences):
                lines += sentences
            case Fields(rows=rows, title=title):
                lines += [title, *(f"{label}: {text}" for label, text in rows)]
            case Table(rows=cells):
                lines += (" | ".join(map(str, row)) for row in cells)
    return "\n".join(lines)


def with_events(change: Callable[[Event], Event]) -> Journal:
    """The careful session as if its record said something else."""
    journal = sample.released()
    events = tuple(map(change, journal.events))
    state = folded(beginning(journal.state.job, journal.state.header), events)
    return journal_of(state, events, journal.proof)


# ---------------------------------------------------------------------- the report trusts nothing


def test_a_careful_session_departs_in_nothing() -> None:
    journal = sample.released()
    assert list(departures.departing(journal)) == []
    assert said(departures.section(journal)) == "Nothing departs from the procedure."
    assert ("departs", "nothing") in verdict.fields(journal)


def test_a_summary_that_is_not_true_is_said() -> None:
    def lie(event: Event) -> Event:
        return replace(event, readings=5) if isinstance(event, Closed) else event

    assert "The closing summary is not what the events add up to: readings" in said(
        departures.section(with_events(lie))
    )


def test_a_reading_that_was_never_marked_is_judged_anew() -> None:
    def low(event: Event) -> Event:
        hit = isinstance(event, PositionTightened) and (event.round, event.position) == (2, 3)
        return replace(event, value=15.0, newton_metre=15.0) if hit else event  # type: ignore[call-arg]

    journal = with_events(low)
    assert "Cover screws, position 3, round 2, 15 N·m: OUTSIDE its limits" in said(
        departures.section(journal)
    )
    assert "1 OUTSIDE the limits" in dict(verdict.fields(journal))["numbers"]


def test_a_part_that_went_in_the_wrong_way_is_worked_out() -> None:
    def reverse(event: Event) -> Event:
        hit = isinstance(event, PartInstalled) and event.part == "seal"
        return replace(event, turn=1, seen="lip") if hit else event  # type: ignore[call-arg]

    journal = with_events(reverse)
    assert "lip seal | lip | ! outside | inside" in said(facing.as_built(journal))
    assert (
        "The lip seal: its lip points to the outside; inside is due, because the lip has to face the oil."
        in said(departures.section(journal))
    )


def test_a_mark_that_stands_elsewhere_is_worked_out() -> None:
    def turn(event: Event) -> Event:
        hit = isinstance(event, PartInstalled) and event.part == "cover"
        return replace(event, angle=90) if hit else event  # type: ignore[call-arg]

    assert "cover | notch | ! 90 degrees off | pin" in said(facing.as_built(with_events(turn)))


def test_a_wrench_out_of_date_on_the_day_is_said() -> None:
    journal = sample.released()
    registers = journal.state.job.registers
    old = tuple(replace(each, calibration_due=date(2026, 11, 1)) for each in registers.wrenches)
    job = replace(journal.state.job, registers=replace(registers, wrenches=old))
    later = replace(journal, state=replace(journal.state, job=job))
    assert (
        "W-1 was used on 2 November 2026; by the register of today its calibration ended on 1 November"
        in said(departures.section(later))
    )


# ---------------------------------------------------------------------- verdicts


@pytest.mark.parametrize("outcome", ["accepted", "returned", "rejected"])
def test_a_reviewers_word_follows_the_release(outcome: str) -> None:
    bench = sample.Bench()
    bench.finish()
    bench.now += timedelta(hours=1)
    bench.write(commands.judge(bench.state, outcome, "R. Outline", "seen and weighed", bench.now))
    stands = verdict.standing(bench.journal())
    assert stands.word == outcome.upper()
    assert "by R. Outline on" in stands.sentence and "because seen and weighed." in stands.sentence


def test_damage_outweighs_a_release() -> None:
    journal = sample.released()
    damaged = replace(journal, proof=replace(journal.proof, bad_from=49))
    stands = verdict.standing(damaged)
    assert stands.word == "DAMAGED RECORD" and "From event 49 on" in stands.sentence
    assert said(departures.section(damaged)).startswith("The record is damaged from event 49 on.")


def test_an_open_session_counts_what_is_done() -> None:
    journal, _ = sample.left("tighten/tighten:F1", "round 2")
    told = dict(verdict.fields(journal))
    assert told["complete"] == "7 of 12 steps; 1 of 1 ring in"
    assert told["screws"] == "none; NOT TIGHT: cover screws, shaft nut"
    assert told["left"] == "1 part to go in yet; no tool inside"


def test_what_came_in_with_the_pump_is_no_work_of_the_session() -> None:
    bench = sample.Bench(of=main_job(), variant="-05")
    bench.until("identify/")
    bench.command(commands.close, "wrong serial", "the plate was misread")
    told = dict(verdict.fields(bench.journal()))
    assert (
        told["complete"] == "0 of 58 steps (1 more was not called for); 11 of 11 rings in, 11 as they came in"
    )
    assert told["screws"].startswith("none; as they came in: end plate screws, ")
    assert "last round" not in told["screws"] and "TIGHT" not in told["screws"]


def test_an_act_that_was_left_out_is_counted() -> None:
    bench = sample.Bench()
    bench.until("measure/ask")
    bench.now += timedelta(seconds=15)
    bench.write(engine.leave_out(bench.state, "the indicator is away", bench.now))
    bench.until("look/")
    journal = bench.journal()
    assert "1 act left out" in dict(verdict.fields(journal))["complete"]
    assert "Deviation 1: measure was left out. NOT DECIDED." in said(departures.section(journal))
    assert "decided: NOT YET" in said(departures.section(journal))


# ---------------------------------------------------------------------- readings


def test_a_reading_taken_over_stands_with_its_sign() -> None:
    bench = sample.Bench()
    bench.until("measure/ask")
    bench.answer("0.08")
    bench.answer("accept", why="the maker allows it")
    bench.until("look/")
    journal = bench.journal()
    assert "measure | runout | ~ 0.08 mm, taken over | at most 0.05 mm" in said(readings.section(journal))
    assert "runout: 0.08 mm, outside its limits (at most 0.05 mm); taken over at event" in said(
        undone.section(journal)
    )
    assert "1 taken over outside the limits" in dict(verdict.fields(journal))["numbers"]


def test_a_replaced_part_is_said() -> None:
    bench = sample.Bench(sample.PROCEDURE.replace('outside = "again"', 'outside = "replace"'))
    bench.until("measure/ask")
    bench.answer("0.08")
    bench.answer("replace")
    assert any(isinstance(event, PartReplaced) for event in bench.events)
    bench.finish()
    journal = bench.journal()
    assert "The shaft was replaced: runout: 0.08 mm" in said(grooves.section(journal))
    assert "Other new parts: shaft." in said(grooves.section(journal))
    assert "the part was replaced at event" in said(undone.section(journal))


def test_an_empty_groove_and_a_missing_part() -> None:
    journal, _ = sample.left("seal-in/install:seal")
    text = said(grooves.section(journal))
    assert (
        "G1 | round the spigot, cover | ! EMPTY, -137 NBR is due" in text and "The cover is not in." in text
    )


# ---------------------------------------------------------------------- people, clocks, interruptions


def test_who_saw_what_is_said_in_the_parts_own_names() -> None:
    assert "W. Specimen | looked at Which way the lip faces: lip seal: back" in said(
        people.section(sample.released())
    )


def test_a_witness_of_what_was_undone_is_marked_void() -> None:
    bench = sample.Bench()
    bench.until("cure/wait")
    bench.command(commands.go_back, "seal", "a leak")
    bench.finish()
    rows = [line for line in said(people.section(bench.journal())).splitlines() if "looked at" in line]
    assert len(rows) == 2 and "(void)" in rows[0] and "(void)" not in rows[1]


def test_interruptions_are_told_in_order() -> None:
    bench = sample.Bench()
    bench.until("tighten/tighten:F1", "round 2")
    bench.happen(TakenUp(stopped=False, pause_seconds=7200, torn_bytes=17, torn_file="x.torn-1"))
    bench.answer()
    bench.happen(ClockWentBack(seconds=90))
    bench.happen(GrooveFound(act="", groove="G1", found="empty"))
    text = said(clocks.section(bench.journal())).replace("\N{NO-BREAK SPACE}", " ")
    assert "taken up again after 2 h 00 min, without having been left in an orderly way." in text
    assert "its 17 bytes had not been confirmed and are kept as x.torn-1." in text
    assert "the clock of the bench had gone back by 1 min." in text
    assert "G1 was found empty, not as the record had it." in text
    assert "The clock of the bench went back before event" in said(departures.section(bench.journal()))


def test_a_cure_that_runs_is_told_with_its_end() -> None:
    journal, _ = sample.left("cure/wait")
    assert "not over before Monday 2 November 2026, 15:11." in said(clocks.section(journal))


# ---------------------------------------------------------------------- the main pump


def test_the_main_pump_fits_on_paper_and_on_a_page() -> None:
    bench = sample.Bench(of=main_job(), variant="-05")
    bench.finish()
    document = document_of(bench.journal())
    text = as_text([document])
    assert document.verdict == "RELEASED"
    assert max(map(width, text.splitlines())) <= PAGE
    assert all(f"  {groove}" in text for groove in bench.state.pump.grooves)
    assert all(group.called in text.casefold() for group in bench.state.pump.groups.values())
    assert "Pump 4471, XMPL-HC40-05" in text.replace("\n", " ")
    assert Page(as_html([document])).tags["svg"] >= 4
