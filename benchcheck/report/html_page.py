"""Reports as one HTML file that needs nothing else: no script, no picture, no font from anywhere.

All HTML of the program is built here, and every text goes through `_text` on its way in. The same documents
give the same bytes. Drawings are in `html_drawings`, the style sheet in `html_style`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from benchcheck.report.document import (
    Block,
    Cell,
    ControlChart,
    Document,
    Fields,
    Paragraph,
    Pattern,
    Points,
    Scale,
    Section,
    Table,
    When,
)
from benchcheck.report.html_charts import chart_drawing
from benchcheck.report.html_drawings import pattern_drawing, scale_drawing
from benchcheck.report.html_style import page_style, sheet
from benchcheck.report.html_text import escaped
from benchcheck.report.words import OUTSIDE, TAKEN_OVER, UNGUARDED

_POLICY = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'"
_GOOD = ("RELEASED", "ACCEPTED", "NO RULE FIRED")
"""Verdicts that need no second look."""
_SHORT = 12
"""Tables of so many rows are not broken over two printed pages."""
_SPOKEN = {OUTSIDE: ("bad", "wrong: "), UNGUARDED: ("odd", "doubtful: "), TAKEN_OVER: ("odd", "decided: ")}
"""For each sign at the start of a cell, its class, and the word a screen reader says for it."""


def as_html(documents: Sequence[Document]) -> str:
    """One page; several reports follow each other on it, each beginning on a sheet of its own."""
    title = _title(documents)
    styles = [sheet(), *(page_style(number, each) for number, each in enumerate(documents, 1))]
    body: list[str] = []
    if len(documents) != 1:
        body += [f"<h1>{escaped(title)}</h1>", *_contents(documents)]
    for number, document in enumerate(documents, 1):
        body += _Article(number, level=1 if len(documents) == 1 else 2).lines(document)
    return "\n".join(
        [
            "<!DOCTYPE html>",
            '<html lang="en">',
            "<head>",
            '<meta charset="utf-8">',
            f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">',
            '<meta name="viewport" content="width=device-width, initial-scale=1">',
            f"<title>{escaped(title)}</title>",
            "<style>",
            *styles,
            "</style>",
            "</head>",
            "<body>",
            "<main>",
            *body,
            "</main>",
            "</body>",
            "</html>",
            "",
        ]
    )


def _title(documents: Sequence[Document]) -> str:
    """Browsers print it at the head of each page where they know nothing of page boxes."""
    if len(documents) == 1:
        each = documents[0]
        return f"{each.pump}: {each.verdict}, {each.issue}, {each.check}"
    return f"Reports on {len(documents)} records"


def _contents(documents: Sequence[Document]) -> Iterator[str]:
    yield "<nav><ul>"
    for number, each in enumerate(documents, 1):
        said = f"{each.pump}: {each.verdict}, {each.check}"
        yield f'<li><a href="#r{number}">{escaped(said)}</a></li>'
    yield "</ul></nav>"


class _Article:
    """One report of the page; headings count from `level`, and ids begin with its number."""

    def __init__(self, number: int, level: int) -> None:
        self._id = f"r{number}"
        self._level = level
        self._drawings = 0

    def lines(self, document: Document) -> Iterator[str]:
        top = self._level
        kind = "verdict" if document.verdict in _GOOD else "verdict bad"
        yield f'<article id="{self._id}" class="{self._id}">'
        yield f"<h{top}>{escaped(document.title)}</h{top}>"
        yield f'<p class="{kind}"><strong>{escaped(document.verdict)}</strong></p>'
        yield f"<p>{escaped(document.sentence)}</p>"
        for section in document.sections:
            yield from self._section(section)
        yield (
            f"<footer><p>End. {escaped(document.pump)}, {escaped(document.issue)}, "
            f"{escaped(document.check)}.</p></footer>"
        )
        yield "</article>"

    def _section(self, section: Section) -> Iterator[str]:
        yield "<section>"
        yield f"<h{self._level + 1}>{escaped(section.title)}</h{self._level + 1}>"
        for block in section.blocks:
            yield from self._block(block)
        yield "</section>"

    def _block(self, block: Block) -> Iterator[str]:
        match block:
            case Paragraph(text=text):
                yield f'<p dir="auto">{escaped(text)}</p>'
            case Points(sentences=sentences):
                yield "<ul>"
                yield from (f'<li dir="auto">{escaped(each)}</li>' for each in sentences)
                yield "</ul>"
            case Fields():
                yield from self._fields(block)
            case Table():
                yield from self._table(block)
            case Pattern():
                yield from pattern_drawing(block, self._drawing_id())
            case Scale():
                yield from scale_drawing(block, self._drawing_id())
            case ControlChart():
                yield from chart_drawing(block, self._drawing_id())

    def _drawing_id(self) -> str:
        self._drawings += 1
        return f"{self._id}d{self._drawings}"

    def _fields(self, fields: Fields) -> Iterator[str]:
        if fields.title:
            yield f"<h{self._level + 2}>{escaped(fields.title)}</h{self._level + 2}>"
        yield "<dl>"
        for label, text in fields.rows:
            yield f'<div><dt>{escaped(label)}</dt><dd dir="auto">{escaped(text)}</dd></div>'
        yield "</dl>"

    def _table(self, table: Table) -> Iterator[str]:
        caption = escaped(table.caption)
        short = ' class="short"' if len(table.rows) <= _SHORT else ""
        yield f'<div class="wide" role="region" aria-label="{caption}" tabindex="0"><table{short}>'
        yield f"<caption>{caption}</caption>"
        heads = "".join(
            f'<th scope="col"{_side(each.right)}>{escaped(each.head)}</th>' for each in table.columns
        )
        yield f"<thead><tr>{heads}</tr></thead>"
        yield "<tbody>"
        for row in table.rows:
            first, *others = (
                (_cell(each), column.right) for each, column in zip(row, table.columns, strict=True)
            )
            cells = f'<th scope="row"{_side(first[1])}>{first[0]}</th>'
            cells += "".join(f'<td dir="auto"{_side(right)}>{said}</td>' for said, right in others)
            yield f"<tr>{cells}</tr>"
        yield "</tbody>"
        yield "</table></div>"


def _side(right: bool) -> str:
    return ' class="n"' if right else ""


def _cell(cell: Cell) -> str:
    if isinstance(cell, When):
        return f'<time datetime="{escaped(cell.iso)}">{escaped(cell.words)}</time>'
    sign, space, rest = cell.partition(" ")
    if space and sign in _SPOKEN:
        kind, word = _SPOKEN[sign]
        return f'<strong class="{kind}">{sign} <span class="spoken">{word}</span>{escaped(rest)}</strong>'
    return escaped(cell)
