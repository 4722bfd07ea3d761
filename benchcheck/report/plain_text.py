"""A report as plain text, 72 columns wide: for any printer, and for whoever finds it in ten years.

Only layout is decided here. Text from records and procedures loses what would steer a terminal; the ASCII
form is spelled out before it is laid out.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence

from benchcheck.procedure.characters import clean
from benchcheck.report.ascii_text import in_ascii
from benchcheck.report.charts import control_chart, ranges_chart, values_chart
from benchcheck.report.columns import PAGE, kept, longest_word, padded, printed, width, wrapped
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
from benchcheck.report.position_drawing import draw
from benchcheck.report.words import number

_INDENT = "  "
_GAP = 2
_LABEL = 24
"""A label that is longer gets a line of its own [cells]."""
_SCALE = 32
_NARROWEST = 5


def as_text(documents: Iterable[Document], *, plain: bool = False) -> str:
    """The reports below each other; `plain` keeps to ASCII characters."""
    page = _Page(in_ascii if plain else _same)
    return printed("\n\n".join("\n".join(page.document(each)) for each in documents) + "\n")


def as_chunks(document: Document, *, chart_rows: int) -> Iterator[list[str]]:
    """What a document says, in pieces that a page of a screen is not to break: each block by itself.

    `chart_rows`: rows of a control chart between its limits, an odd number.
    """
    page = _Page(_same)
    yield [printed(line) for line in wrapped(clean(document.sentence), PAGE)]
    for section in document.sections:
        head = [clean(section.title).upper()]
        for block in section.blocks:
            if isinstance(block, ControlChart):
                name = f"{clean(block.called)}, in {block.unit}"
                yield [*head, name, *values_chart(block, PAGE, chart_rows)]
                yield [f"{name}: moving range", *ranges_chart(block, PAGE)]
            else:
                yield [*head, *(printed(line) for line in page.block(block))]
            head = []


def _same(text: str) -> str:
    return text


class _Page:
    def __init__(self, spelled: Callable[[str], str]) -> None:
        self._spelled = spelled

    def _said(self, text: object) -> str:
        return self._spelled(clean(str(text)))

    def document(self, document: Document) -> Iterator[str]:
        rule = self._said("═" * PAGE)
        yield rule
        yield from wrapped(self._said(document.title), PAGE)
        yield from wrapped(self._said(document.verdict), PAGE)
        yield rule
        yield from wrapped(self._said(document.sentence), PAGE)
        for section in document.sections:
            yield from self._section(section)
        yield ""
        yield self._said("─" * PAGE)
        yield from wrapped(
            f"End. {self._said(document.pump)}, {self._said(document.issue)}, {self._said(document.check)}.",
            PAGE,
        )

    def _section(self, section: Section) -> Iterator[str]:
        title = self._said(section.title)
        yield ""
        yield title.upper()
        yield self._said("─" * PAGE)
        for place, block in enumerate(section.blocks):
            if place:
                yield ""
            yield from self.block(block)

    def block(self, block: Block) -> Iterator[str]:
        match block:
            case Paragraph(text=text):
                yield from wrapped(self._said(text), PAGE)
            case Points(sentences=sentences):
                for sentence in sentences:
                    yield from wrapped(self._said(sentence), PAGE, "- ", _INDENT)
            case Fields():
                yield from self._fields(block)
            case Table():
                yield from self._table(block)
            case Pattern():
                yield from self._pattern(block)
            case Scale():
                yield from self._scale(block)
            case ControlChart():
                unit = f", in {block.unit}" if block.unit else ""
                yield from wrapped(self._said(f"{block.called}{unit}"), PAGE)
                drawn = control_chart(block, PAGE - len(_INDENT))
                yield from (f"{_INDENT}{self._spelled(line)}".rstrip() for line in drawn)

    def _fields(self, fields: Fields) -> Iterator[str]:
        if fields.title:
            yield from wrapped(self._said(fields.title), PAGE)
        rows = [(self._said(label), self._said(text)) for label, text in fields.rows]
        indent = _INDENT if fields.title else ""
        widest = max((width(label) for label, _ in rows if width(label) <= _LABEL), default=0)
        for label, text in rows:
            start = f"{indent}{padded(label, widest)}  "
            if width(label) > _LABEL:
                yield from wrapped(label, PAGE, indent)
                start = f"{indent}{' ' * widest}  "
            yield from wrapped(text, PAGE, start, " " * width(start)) or [start.rstrip()]

    # ------------------------------------------------------------------ tables

    def _table(self, table: Table) -> Iterator[str]:
        yield from wrapped(self._said(table.caption), PAGE)
        heads = [self._said(column.head) for column in table.columns]
        rows = [[self._cell(cell) for cell in row] for row in table.rows]
        widths = _column_widths([heads, *rows], PAGE - len(_INDENT))
        right = [column.right for column in table.columns]
        yield from self._row(heads, widths, right)
        yield _INDENT + (" " * _GAP).join(self._spelled("─") * each for each in widths)
        for row in rows:
            yield from self._row(row, widths, right)

    def _cell(self, cell: Cell) -> str:
        return kept(self._said(cell)) if isinstance(cell, When) else self._said(cell)

    def _row(self, cells: Sequence[str], widths: Sequence[int], right: Sequence[bool]) -> Iterator[str]:
        columns = [wrapped(cell, each) or [""] for cell, each in zip(cells, widths, strict=True)]
        for line in range(max(map(len, columns))):
            parts = (
                padded(lines[line] if line < len(lines) else "", each, right=at_right)
                for lines, each, at_right in zip(columns, widths, right, strict=True)
            )
            yield f"{_INDENT}{(' ' * _GAP).join(parts)}".rstrip()

    # ------------------------------------------------------------------ drawings

    def _pattern(self, pattern: Pattern) -> Iterator[str]:
        drawn = draw([(mark.x, mark.y) for mark in pattern.marks], pattern.order)
        if not drawn:
            return
        yield from wrapped(
            self._said(f"{pattern.called}, {pattern.seen}; 3:2 is position 3, the second in the order"), PAGE
        )
        if pattern.datum:
            yield from wrapped(self._said(f"at the top: {pattern.datum}"), PAGE)
        yield from (f"{_INDENT}{line}".rstrip() for line in drawn)

    def _scale(self, scale: Scale) -> Iterator[str]:
        """A line for each reading, from limit to limit; what is outside is marked beyond its end."""
        yield from wrapped(self._said(scale.called), PAGE)
        names = [next(iter(wrapped(self._said(name), _LABEL)), "") for name, _ in scale.readings]
        widest = max(map(width, names))
        low, target, high = (
            number(_short(scale.low)),
            number(_short(scale.target)),
            number(_short(scale.high)),
        )
        middle = round((scale.target - scale.low) / (scale.high - scale.low) * _SCALE)
        heads = padded(low, middle - len(target) // 2) + target
        heads = padded(heads, _SCALE + 1 - len(high) // 2) + high
        yield f"{_INDENT}{' ' * (widest + 4)}{heads} {self._said(scale.unit)}"
        for name, (_, value) in zip(names, scale.readings, strict=True):
            axis = ["├", *("─" * (_SCALE - 1)), "┤"]
            axis[middle] = "┼"
            at = round((value - scale.low) / (scale.high - scale.low) * _SCALE)
            before, behind = ("! " if at < 0 else "  "), (" !" if at > _SCALE else "  ")
            if 0 <= at <= _SCALE:
                axis[at] = "●"
            line = self._spelled("".join(axis))
            yield f"{_INDENT}{padded(name, widest)}  {before}{line}{behind}  {number(value)}"


def _short(value: float) -> float:
    return float(f"{value:.4g}")


def _column_widths(rows: Sequence[Sequence[str]], room: int) -> list[int]:
    """A width for each column, so that all fit on the page in few lines; words are cut last of all."""
    cells = [[width(cell) for cell in row] for row in rows]
    widths = [max(column) for column in zip(*cells, strict=True)]
    least = [max(map(longest_word, column)) for column in zip(*rows, strict=True)]
    room -= _GAP * (len(widths) - 1)
    for floors in (least, [_NARROWEST] * len(widths)):
        while sum(widths) > room:
            able = [place for place, each in enumerate(widths) if each > floors[place]]
            if not able:
                break
            widths = min((_narrower(widths, place) for place in able), key=lambda each: _lines(cells, each))
    return widths


def _narrower(widths: Sequence[int], place: int) -> list[int]:
    return [each - (at == place) for at, each in enumerate(widths)]


def _lines(cells: Sequence[Sequence[int]], widths: Sequence[int]) -> tuple[float, int]:
    """How long a table gets, and which column gave way: of equal ones, the widest."""
    lines = sum(max(cell / room for cell, room in zip(row, widths, strict=True)) for row in cells)
    return lines, sum(each * each for each in widths)
