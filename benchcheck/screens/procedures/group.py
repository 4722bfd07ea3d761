"""A fastener group as it was understood: its pattern from its side, its order, what its torque comes to."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.mechanics.pattern import rectangle_places
from benchcheck.procedure.model import Fasteners
from benchcheck.report.understood import GroupUnderstood
from benchcheck.screens.layout import Hand
from benchcheck.screens.procedures.pages import BLANK, labelled
from benchcheck.screens.widgets.cells import Canvas, Drawing
from benchcheck.screens.widgets.order_strip import draw_order_strip
from benchcheck.screens.widgets.pattern import Circle, Pattern, Points, direction_words
from benchcheck.screens.widgets.ring import (
    LARGEST_RADIUS_AT_80_BY_24,
    LARGEST_RADIUS_AT_120_BY_40,
    draw,
)
from benchcheck.screens.widgets.signs import Sign

_FEWEST_ROWS, _MOST_ROWS = 10, 18
"""Rows of a pattern with its caption and its strip."""


def group_blocks(told: GroupUnderstood, hand: Hand, width: int, rows: int) -> Iterator[Drawing]:
    """What is said of the group, and its picture."""
    said = [labelled(hand, label, text, width) for label, text in told.told]
    yield from said
    pattern = _pattern(told, hand)
    if pattern is None:
        return
    yield BLANK
    left = rows - sum(map(len, said)) - 1
    height = min(left if left >= _FEWEST_ROWS else rows, _MOST_ROWS) - 3
    largest = LARGEST_RADIUS_AT_120_BY_40 if hand.size.large else LARGEST_RADIUS_AT_80_BY_24
    drawing = draw(pattern, width, height, largest)
    side = told.group.layout.seen_from if told.group.layout is not None else None
    caption = hand.words(direction_words(pattern, side)) if side else ""
    strip = draw_order_strip(told.order, [_sign(told, each) for each in told.order], width - 13)
    canvas = Canvas(width, (height if drawing is not None else 0) + len(strip) + 2)
    row = 0
    if drawing is not None:
        canvas.put_drawing(0, 0, drawing)
        row = height
        canvas.put(row, max((width - len(caption)) // 2, 0), caption)
        row += 1
    canvas.put(row, 2, "in order")
    canvas.put_drawing(row, 11, strip)
    yield canvas.lines()


def _pattern(told: GroupUnderstood, hand: Hand) -> Pattern | None:
    """The picture of the group; None where its file gives no layout, or only one position."""
    layout = told.group.layout
    if layout is None or len(told.order) < 2:
        return None
    shape: Circle | Points
    if layout.circle is not None:
        shape = Circle(layout.circle, first_at_datum=layout.at_datum)
    elif layout.rectangle is not None:
        shape = Points(rectangle_places(*layout.rectangle))
    else:
        shape = Points(layout.points or ())
    signs = tuple(_sign(told, position) for position in range(1, layout.count + 1))
    return Pattern(
        shape, signs, datum=hand.words(layout.datum or ""), notes=_lengths(told.group, layout.count, hand)
    )


def _sign(told: GroupUnderstood, position: int) -> Sign:
    """The first two of the order are signed, so that the way between them is drawn."""
    if told.group.each:
        return Sign.TO_COME
    return {told.order[0]: Sign.NOW, told.order[1]: Sign.NEXT}.get(position, Sign.TO_COME)


def _lengths(group: Fasteners, count: int, hand: Hand) -> tuple[str, ...]:
    """The length of the screw at each position, where they differ; else nothing."""
    lengths = {at: each.item.rpartition(" x ")[2] for each in group.screws for at in each.at}
    if len(set(lengths.values())) < 2 or group.layout is None or group.layout.circle is not None:
        return ()
    return tuple(hand.words(lengths.get(position, "")) for position in range(1, count + 1))
