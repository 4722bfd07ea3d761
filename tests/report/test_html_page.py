"""The page as a parser sees it: whole, accessible, all its own, and no text of a record acting as markup."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace
from html.parser import HTMLParser

import pytest

from benchcheck.report.document import (
    Column,
    Document,
    Fields,
    Mark,
    Paragraph,
    Pattern,
    Points,
    Section,
    Table,
)
from benchcheck.report.html_page import as_html
from benchcheck.report.html_text import css_string, escaped
from benchcheck.report.session_document import document_of
from tests.report import sample

VOID = {"meta"}


class Page(HTMLParser):
    """Notes what a page holds; fails where tags do not close in order."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: Counter[str] = Counter()
        self.ids: list[str] = []
        self.headings: list[int] = []
        self.attributes: list[tuple[str, str, str]] = []
        self.text = ""
        self._open: list[str] = []
        self.feed(text)
        self.close()
        assert self._open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags[tag] += 1
        self.attributes += [(tag, name, value or "") for name, value in attrs]
        self.ids += [value or "" for name, value in attrs if name == "id"]
        if re.fullmatch("h[1-6]", tag):
            self.headings.append(int(tag[1]))
        if tag not in VOID:
            self._open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        self._open.pop()

    def handle_endtag(self, tag: str) -> None:
        assert self._open.pop() == tag

    def handle_data(self, data: str) -> None:
        if "style" not in self._open:
            self.text += data

    def values(self, attribute: str) -> list[str]:
        return [value for _, name, value in self.attributes if name == attribute]


def pages() -> list[str]:
    one, other = document_of(sample.released()), document_of(sample.departed())
    return [as_html([one]), as_html([other]), as_html([one, other]), as_html([])]


@pytest.mark.parametrize("number", range(4))
def test_the_page_is_whole_and_accessible(number: int) -> None:
    assert_accessible(pages()[number])


def assert_accessible(text: str) -> None:
    page = Page(text)
    assert len(page.ids) == len(set(page.ids))
    assert page.headings.count(1) == 1 and page.headings[0] == 1
    assert all(after <= before + 1 for before, after in zip(page.headings, page.headings[1:], strict=False))
    assert page.tags["main"] == 1 and page.tags["html"] == 1
    assert ("html", "lang", "en") in page.attributes and ("meta", "charset", "utf-8") in page.attributes
    assert page.tags["caption"] == page.tags["table"] == page.tags["thead"]
    assert set(page.values("scope")) <= {"col", "row"}
    assert page.values("role").count("img") == page.tags["svg"]
    pointed_to = {name for value in page.values("aria-labelledby") for name in value.split()}
    assert pointed_to | {value[1:] for value in page.values("href")} <= set(page.ids)


@pytest.mark.parametrize("number", range(4))
def test_nothing_comes_from_outside_and_nothing_runs(number: int) -> None:
    assert_alone(pages()[number])


def assert_alone(text: str) -> None:
    page = Page(text)
    assert "http:" not in text and "https:" not in text and "//" not in text
    assert "src=" not in text and "url(" not in text and "@import" not in text
    assert not page.tags.keys() & {"script", "link", "img", "iframe", "object", "embed", "form", "base"}
    assert not [name for _, name, _ in page.attributes if name.startswith("on") or name == "style"]
    policy = next(value for value in page.values("content") if "default-src" in value)
    assert "default-src 'none'" in policy and "script" not in policy


def test_the_same_session_gives_the_same_bytes() -> None:
    bench = sample.Bench()
    bench.finish()
    assert as_html([document_of(bench.journal())]) == as_html([document_of(sample.released())])


def test_what_stands_on_every_page_of_paper() -> None:
    text = as_html([document_of(sample.released()), document_of(sample.departed())])
    feet = re.findall(
        r'@page r(\d) \{\n  @bottom-left \{ content: "([^"]+)".*\n.*"([^"]+)" counter\(page\)', text
    )
    assert feet == [
        ("1", "Pump 4471, XMPL-T1, tiny revision B", "check 52: a02d 817c 50f2   page "),
        ("2", "Pump 4471, XMPL-T1, tiny revision B", "check 77: a02d 817c 50f2   page "),
    ]
    # Where a browser knows no page boxes, it prints the title.
    title = re.search("<title>(.*)</title>", as_html([document_of(sample.released())]))
    assert title and title[1] == "Pump 4471, XMPL-T1: RELEASED, tiny revision B, check 52: a02d 817c 50f2"


NASTY = (
    "<script>alert(1)</script>",
    "</style></title><script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "' onmouseover='alert(1)",
    "[/] [OIL] [red]",
    "&lt;b&gt; &amp;",
    "]]> --> <!--",
    "\x1b[31mred\x07",
    '"; } body { display: none } .x { content: "',
    "\\27 \\",
)


@pytest.mark.parametrize("text", NASTY)
def test_text_from_files_stays_text(text: str) -> None:
    table = Table(text, (Column(text), Column(text)), ((text, text),))
    pattern = Pattern(text, text, (Mark(1, 0, 1, 1, text, text), Mark(2, 0, -1, 2, text, text)), text, text)
    blocks = (Paragraph(text), Points((text,)), Fields(((text, text),), text), table, pattern)
    document = Document(text, text, text, (Section(text, blocks),), text, text, text)
    harmless = Document("x", "x", "x", (Section("x", blocks),), "x", "x", "x")
    page, other = Page(as_html([document])), Page(as_html([harmless]))
    assert page.tags == other.tags and "script" not in page.tags and "img" not in page.tags
    assert not [name for _, name, _ in page.attributes if name.startswith("on")]
    shown = re.sub(r"[\x00-\x1f]", "", text)
    assert page.text.count(shown) > 10
    assert "\x1b" not in page.text and "\x07" not in page.text


def test_a_remark_with_markup_in_a_record_is_shown_as_it_was_typed() -> None:
    assert "the cover is scratched &lt;outside&gt;" in as_html([document_of(sample.departed())])


def test_a_string_of_the_style_sheet_cannot_end_itself() -> None:
    assert (
        css_string('a"; } </style> \\')
        == '"a\\000022\\00003b \\00007d \\00003c\\00002fstyle\\00003e \\00005c"'
    )
    assert css_string("Größe 5") == '"Gr\\0000f6\\0000dfe 5"'


def test_escaping_is_for_attributes_too() -> None:
    assert escaped("\"'<>&") == "&quot;&#x27;&lt;&gt;&amp;"


def test_signs_are_said_to_those_who_do_not_see_them() -> None:
    text = as_html([document_of(sample.departed())])
    assert '<strong class="odd">? <span class="spoken">doubtful: </span>18.5</strong>' in text
    assert '<strong class="bad">! <span class="spoken">wrong: </span>lip</strong>' in text


def test_a_verdict_that_is_no_release_looks_like_none() -> None:
    document = document_of(sample.released())
    assert '<p class="verdict"><strong>RELEASED</strong></p>' in as_html([document])
    damaged = replace(document, verdict="DAMAGED RECORD")
    assert '<p class="verdict bad"><strong>DAMAGED RECORD</strong></p>' in as_html([damaged])


@pytest.mark.parametrize("count", [3, 4, 8, 24, 48])
def test_positions_of_a_ring_never_touch(count: int) -> None:
    from benchcheck.mechanics.pattern import circle_order, circle_places, labels_clockwise

    turns = labels_clockwise(circle_order(count))
    marks = tuple(
        Mark(number, x, y, turns[number - 1], "20")
        for number, (x, y) in enumerate(circle_places(count, 0.5), 1)
    )
    pattern = Pattern("Screws", "numbered clockwise", marks, "N·m", "the pin")
    text = as_html([Document("t", "v", "s", (Section("p", (pattern,)),), "a", "b", "c")])
    circles = [
        tuple(map(float, found))
        for found in re.findall(r'class="hole" cx="([\d.]+)" cy="([\d.]+)" r="([\d.]+)"', text)
    ]
    assert len(circles) == count
    for at, (x, y, radius) in enumerate(circles):
        assert radius <= x <= 560 - radius
        for other_x, other_y, other_radius in circles[:at]:
            assert ((x - other_x) ** 2 + (y - other_y) ** 2) ** 0.5 >= radius + other_radius
