"""The layout of plain text: never wider than the page, nothing lost, nothing that steers a terminal."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as some

from benchcheck.report.columns import PAGE, width, wrapped
from benchcheck.report.document import (
    Block,
    Column,
    Document,
    Fields,
    Mark,
    Paragraph,
    Pattern,
    Points,
    Scale,
    Section,
    Table,
    When,
)
from benchcheck.report.html_page import as_html
from benchcheck.report.plain_text import as_text
from benchcheck.report.session_document import document_of
from tests.report import sample

NASTY = (
    "[/] [OIL] [@click=app.quit]x[/]",
    "<script>alert(1)</script>",
    "\x1b[31mred\x1b[0m\x07\x9b",
    "\u202egnp.exe",
    "שם המשאבה ארוך מאוד",
    "ポンプの非常に長い名前です" * 4,
    "W" * 200,
    "a" + "\u0301" * 5,
    "",
    " ",
)


def document(*blocks: Block, title: str = "A title") -> Document:
    return Document(
        title, "WORD", "A sentence.", (Section("Part", blocks),), "Pump 1", "p revision A", "check 1"
    )


def lines_of(*blocks: Block) -> list[str]:
    """What one section's blocks look like, without the frame round them."""
    lines = as_text([document(*blocks)]).splitlines()
    first = lines.index("PART") + 2
    return lines[first : lines.index("─" * PAGE, first) - 1]


def test_no_line_is_wider_than_the_page() -> None:
    for each in (sample.released(), sample.departed()):
        for plain in (False, True):
            text = as_text([document_of(each)], plain=plain)
            assert max(map(width, text.splitlines())) <= PAGE


def test_ascii_is_ascii() -> None:
    text = as_text([document_of(sample.departed())], plain=True)
    assert text.isascii()
    assert "20 N.m +/- 10 %" in text


@pytest.mark.parametrize("text", NASTY)
def test_text_from_files_stays_text(text: str) -> None:
    blocks = (
        Paragraph(text),
        Points((text,)),
        Fields(((text, text),), text),
        Table(text, (Column(text), Column("n", right=True)), ((text, text),)),
        Pattern(text, text, (Mark(1, 0, 1, 1, text), Mark(2, 0, -1, 2, text)), text, text),
        Scale(text, 1, 2, 3, "N·m", ((text, 2),)),
    )
    for plain in (False, True):
        said = as_text([replace(document(*blocks), title=text, pump=text)], plain=plain)
        assert max(map(width, said.splitlines())) <= PAGE
        assert not any(ord(each) < 32 and each != "\n" for each in said)
        assert not any(each in said for each in "\x7f\x9b\u202e")


@pytest.mark.parametrize("text", [text for text in NASTY if "[" in text and "\x1b" not in text])
def test_markup_comes_out_as_it_stands(text: str) -> None:
    assert lines_of(Paragraph(text)) == [text]


def test_a_table_wraps_its_cells_and_keeps_numbers_below_each_other() -> None:
    columns = (Column("what"), Column("value", right=True), Column("when"))
    long = "a sentence that is far too long to stand in one line of a table on this page"
    rows = ((long, "1.5", When("2 Nov 09:00", "2026-11-02T09:00:00+02:00")), ("short", "120", "later"))
    assert lines_of(Table("A table", columns, rows)) == [
        "A table",
        "  what                                                value  when",
        "  ──────────────────────────────────────────────────  ─────  ───────────",
        "  a sentence that is far too long to stand in one       1.5  2 Nov 09:00",
        "  line of a table on this page",
        "  short                                                 120  later",
    ]


def test_fields_hang_below_their_text() -> None:
    long = "word " * 20
    assert lines_of(Fields((("one", long), ("longer", "x")), "Both")) == [
        "Both",
        f"  one     {'word ' * 12}".rstrip(),
        f"          {'word ' * 8}".rstrip(),
        "  longer  x",
    ]


def test_a_reading_outside_stands_beyond_its_limit() -> None:
    scale = Scale(
        "Screws", 18, 20, 22, "N·m", (("position 1", 20.0), ("position 2", 25.0), ("position 3", 17.9))
    )
    assert lines_of(scale) == [
        "Screws",
        "                18             20               22 N·m",
        "  position 1    ├───────────────●───────────────┤    20",
        "  position 2    ├───────────────┼───────────────┤ !  25",
        "  position 3  ! ├───────────────┼───────────────┤    17.9",
    ]


def test_a_pattern_is_drawn_with_its_order() -> None:
    marks = (
        Mark(1, 0, 1, 1, "20"),
        Mark(2, 1, 0, 3, "20"),
        Mark(3, 0, -1, 2, "20"),
        Mark(4, -1, 0, 4, "20"),
    )
    drawn = lines_of(Pattern("Screws", "numbered clockwise", marks, "N·m", "the pin"))
    assert [line.strip() for line in drawn[-5:] if line.strip()] == ["1:1", "4:4     2:3", "3:2"]
    assert "at the top: the pin" in drawn


def test_both_forms_say_the_same() -> None:
    """Every word of a cell, a field or a sentence is in the page, and in the plain text."""
    for journal in (sample.released(), sample.departed()):
        document = document_of(journal)
        page, text = as_html([document]), " ".join(as_text([document]).split())
        for section in document.sections:
            assert section.title in page and section.title.upper() in text
            for block in section.blocks:
                match block:
                    case Points(sentences=sentences):
                        assert all(" ".join(each.split()) in text for each in sentences)
                    case Table(caption=caption, rows=rows):
                        assert caption in text and page.count("<tr>") > len(rows)


@given(some.text(max_size=80), some.integers(min_value=4, max_value=40))
def test_wrapping_keeps_every_letter_and_the_width(text: str, cells: int) -> None:
    lines = wrapped(text, cells)
    joined = "".join(lines).replace(" ", "")
    assert joined == text.replace("\n", " ").replace("\t", " ").replace(" ", "")
    assert all(width(line) <= cells for line in lines)
