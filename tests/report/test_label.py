"""The label: always six lines, never a cut serial, and no word of release where there is none."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from benchcheck.report import label
from benchcheck.report.columns import width
from benchcheck.report.plain_text import as_text
from benchcheck.report.session_document import document_of
from benchcheck.session import commands
from tests.report import sample


def test_six_lines_of_forty_columns() -> None:
    for journal in (sample.released(), sample.departed()):
        lines = label.label(journal)
        assert len(lines) == label.LINES and all(width(line) <= label.COLUMNS for line in lines)


@pytest.mark.parametrize("serial", ["9" * 60, "SN\x1b[31m 1", "ポンプ4471"])
def test_the_serial_and_the_check_value_are_never_cut(serial: str) -> None:
    bench = sample.Bench(serial=serial)
    bench.finish()
    lines = label.label(bench.journal())
    assert lines[1].startswith(serial.replace("\x1b", "")) and lines[5] == "check 52: a02d 817c 50f2"
    assert len(lines) == label.LINES


def test_what_is_too_long_is_shortened_and_shows_it() -> None:
    journal = sample.released()
    header = replace(journal.state.header, procedure="a-procedure-with-a-very-long-name-in-it")
    lines = label.label(replace(journal, state=replace(journal.state, header=header)))
    assert lines[2].endswith(" ...") and width(lines[2]) <= label.COLUMNS


def test_an_open_record_says_that_the_pump_must_not_run() -> None:
    journal, _ = sample.left("tighten/tighten:F1")
    assert label.label(journal)[0] == "INCOMPLETE, DO NOT RUN"


def test_a_damaged_record_is_no_release() -> None:
    journal = sample.released()
    damaged = replace(journal, proof=replace(journal.proof, bad_from=40))
    assert label.label(damaged)[0] == "DAMAGED RECORD"


def test_practice_is_no_release() -> None:
    bench = sample.Bench(practice=True)
    bench.finish()
    assert label.label(bench.journal())[0] == "PRACTICE"


def test_a_pump_that_was_given_up() -> None:
    bench = sample.Bench()
    bench.until("measure/ask")
    bench.command(commands.close, "scrapped", "the shaft is cracked")
    assert label.label(bench.journal())[0] == "NOT RELEASED: SCRAPPED"


def test_a_concession_shows_when_it_expires() -> None:
    bench = sample.Bench()
    bench.finish()
    bench.now += timedelta(hours=1)
    bench.write(
        commands.judge(
            bench.state,
            "accepted under concession",
            "R. Outline",
            "seen",
            bench.now,
            limit="cold water only",
            expires="2027-01-31",
        )
    )
    lines = label.label(bench.journal())
    assert lines[0] == "ACCEPTED UNDER CONCESSION" and lines[3] == "expires 2027-01-31"
    assert lines[4] == "T. Sample, Q. Example, R. Outline"


def test_a_decision_under_a_limit_shows_on_the_pump() -> None:
    bench = sample.Bench()
    bench.until("cover-on/fit:G1")
    bench.answer("-138 NBR", why="the kit holds no other one")
    for last in ("2027-03-31", "2027-01-31"):  # the second word on it takes the place of the first
        decided = commands.dispose(
            bench.state,
            1,
            "use as is",
            "R. Outline",
            "it fits",
            bench.now,
            limit="up to 10 bar",
            expires=last,
        )
        bench.write(decided)
    bench.finish()
    lines = label.label(bench.journal())
    assert lines[0] == "RELEASED, 1 deviation, limited" and lines[3] == "expires 2027-01-31"
    text = as_text([document_of(bench.journal())])
    assert "limit      up to 10 bar, until 2027-01-31 (R. Outline on deviation 1)" in text


def test_ascii() -> None:
    bench = sample.Bench(serial="Größe ±4")
    bench.until("open/")
    assert "".join(label.label(bench.journal(), plain=True)).isascii()
