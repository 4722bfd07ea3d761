"""Every form of the report, as files a person can read."""

from __future__ import annotations

import pytest

from benchcheck.report import csv_table, handover, label, tags
from benchcheck.report.html_page import as_html
from benchcheck.report.journal import Journal
from benchcheck.report.plain_text import as_text
from benchcheck.report.session_document import document_of
from tests.report import sample
from tests.report.golden import same_as_golden


@pytest.mark.parametrize("name", ["released", "departed"])
def test_plain_text(name: str) -> None:
    same_as_golden(f"{name}.txt", as_text([document_of(_session(name))]))


def test_plain_text_in_ascii() -> None:
    same_as_golden("departed-ascii.txt", as_text([document_of(sample.departed())], plain=True))


@pytest.mark.parametrize("name", ["released", "departed"])
def test_page(name: str) -> None:
    same_as_golden(f"{name}.html", as_html([document_of(_session(name))]))


def test_page_of_several() -> None:
    documents = [document_of(sample.released()), document_of(sample.departed())]
    same_as_golden("both.html", as_html(documents))


@pytest.mark.parametrize("name", ["released", "departed"])
def test_label(name: str) -> None:
    same_as_golden(f"{name}.label.txt", label.as_text(_session(name)))


@pytest.mark.parametrize(
    ("name", "act", "question"),
    [
        ("round", "tighten/tighten:F1", "round 2 position 2"),
        ("curing", "cure/wait", ""),
        ("open-cover", "cover-on/install:cover", ""),
    ],
)
def test_tags_and_handover_card(name: str, act: str, question: str) -> None:
    journal, now = sample.left(act, question)
    same_as_golden(f"left-{name}.tags.txt", "\n".join(tags.tags(journal, now)))
    same_as_golden(f"left-{name}.card.txt", as_text([handover.card(journal, now)]))


def test_readings_as_a_table() -> None:
    same_as_golden("departed.readings.csv", csv_table.readings_csv([sample.departed()]))


def _session(name: str) -> Journal:
    return sample.released() if name == "released" else sample.departed()
