"""Tables for other programs: read back as they were written, and harmless in a spreadsheet."""

from __future__ import annotations

import csv
import io
from dataclasses import fields

import pytest
from hypothesis import given
from hypothesis import strategies as some

from benchcheck.report.csv_table import READING_COLUMNS, cell, events_csv, readings_csv
from benchcheck.report.journal import Journal
from benchcheck.session.events import KINDS, Event
from benchcheck.session.record import read
from tests.report import sample


def rows_of(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text, newline="")))


def events_of(journal: Journal) -> str:
    record = read(sample.record_of(journal.state, journal.events))
    assert record.header is not None
    return events_csv([("a.toml", record.header, record.events)])


def test_every_event_is_a_row_with_all_it_holds() -> None:
    journal = sample.departed()
    rows = rows_of(events_of(journal))
    assert [int(row["number"]) for row in rows] == list(range(1, len(journal.events) + 1))
    for row, event in zip(rows, journal.events, strict=True):
        assert row["kind"] == event.kind and row["record_serial"] == "4471" and row["record"] == "a.toml"
        for field in fields(event):
            assert row[field.name] == cell(getattr(event, field.name))


def test_the_columns_of_events_are_the_same_for_every_record() -> None:
    head = events_of(sample.released()).split("\r\n", 1)[0]
    assert head == events_of(sample.departed()).split("\r\n", 1)[0]
    named = {field.name for kind in KINDS.values() for field in fields(kind)} | {
        f.name for f in fields(Event)
    }
    assert named <= set(head.split(","))
    assert len(head.split(",")) == len(set(head.split(",")))
    assert head.startswith("record,record_serial,record_procedure,record_revision,record_variant,")


def test_events_of_an_unknown_kind_are_still_a_row() -> None:
    strange = {"number": 1, "kind": "painted", "at": "2026-11-02T07:00:00Z", "by": "X", "colour": "blue"}
    (row,) = rows_of(events_csv([("a.toml", sample.released().state.header, [strange])]))
    assert row["kind"] == "painted" and None not in row


def test_readings_with_their_limits() -> None:
    rows = rows_of(readings_csv([sample.departed()]))
    assert tuple(rows[0]) == READING_COLUMNS
    third = next(
        row for row in rows if row["position"] == "3" and row["round"] == "2" and row["counts"] == "yes"
    )
    assert (third["value"], third["unit"], third["low"], third["target"], third["high"]) == (
        "18.5",
        "N·m",
        "18",
        "20",
        "22",
    )
    assert third["marked"].startswith("outside the guarded part") and third["verdict"] == "inside"
    pressure = next(row for row in rows if row["what"] == "pressure")
    assert (pressure["value"], pressure["si_value"], pressure["low"], pressure["high"]) == (
        "9.5",
        "950000",
        "9",
        "10",
    )


def test_readings_that_do_not_count_say_so() -> None:
    journal = sample.departed()
    rows = rows_of(readings_csv([journal]))
    nut = [row["counts"] for row in rows if row["group"] == "F2"]
    assert nut == ["no", "yes"]
    assert [row["counts"] for row in rows if row["what"] == "runout"] == ["no", "no", "yes"]
    assert len(rows) == sum(
        event.kind in ("position tightened", "position checked", "measured", "told")
        for event in journal.events
    )


def test_several_records_stand_in_one_table() -> None:
    rows = rows_of(readings_csv([sample.released(), sample.departed()]))
    assert len(rows) == len(rows_of(readings_csv([sample.released()]))) + len(
        rows_of(readings_csv([sample.departed()]))
    )


@pytest.mark.parametrize(
    "text",
    [
        "=1+1",
        "+cmd|' /C calc'!A0",
        "-2+3",
        "@SUM(A1)",
        "\t=1",
        "\r=1",
        "  =1+1",
        "-137 NBR",
        "=",
        "-",
        "|x",
        "%0A",
    ],
)
def test_what_a_spreadsheet_would_compute_is_text(text: str) -> None:
    assert cell(text).startswith("'")


@pytest.mark.parametrize("text", ["-137", "-05", "+1.5", "16 lbf·ft", "G1", "", "'quoted'", "a=b", "2 - 1"])
def test_plain_numbers_and_words_stay(text: str) -> None:
    assert cell(text) == text


@pytest.mark.parametrize(
    ("value", "said"),
    [
        (1.0, "1"),
        (0.5, "0.5"),
        (-0.25, "-0.25"),
        (2.5e-05, "0.000025"),
        (950000.0, "950000"),
        (103421.35939752542, "103421.35939752542"),
        (1e16, "10000000000000000"),
        (3, "3"),
        (True, "yes"),
        (None, ""),
        (("a", "b"), "a; b"),
        (["=1", "b"], "'=1; b"),
    ],
)
def test_values(value: object, said: str) -> None:
    assert cell(value) == said


def test_control_characters_do_not_get_in() -> None:
    assert cell("a\x1b[31mb\x00c\u202ed") == "a[31mbcd"


@given(some.text(max_size=60))
def test_any_text_comes_back_as_one_harmless_cell(text: str) -> None:
    event = {"number": 1, "kind": "remark", "at": "", "by": "", "text": text}
    written = events_csv([("a.toml", sample.released().state.header, [event])])
    (row,) = rows_of(written)
    assert row["text"] == cell(text)
    assert not row["text"].startswith(("=", "@", "\t", "\r"))
    assert written.endswith("\r\n")


def test_lines_end_as_the_format_says() -> None:
    text = readings_csv([sample.released()])
    assert text.count("\r\n") == text.count("\n") == text.count("\r")
