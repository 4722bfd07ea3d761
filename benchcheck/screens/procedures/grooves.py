"""Grooves as they were understood: the steps that fit and close each; those that close together, drawn."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from benchcheck.report.understood import GrooveUnderstood
from benchcheck.screens.bench.sheets.grooves import opening
from benchcheck.screens.layout import Hand
from benchcheck.screens.procedures.pages import BLANK, side_by_side
from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.bands import MARGIN
from benchcheck.screens.widgets.cells import Canvas, Drawing, wrap
from benchcheck.screens.widgets.groove import Closing, Groove, Opening, draw_grooves
from benchcheck.screens.widgets.section import NO_RING, RING
from benchcheck.screens.widgets.signs import Sign

_SAID = 10
"""Column at which what is said of a groove begins."""
_FACE_ROWS = 13
_TWO_PICTURES = 76


def groove_line(groove: GrooveUnderstood, hand: Hand, width: int) -> Drawing:
    """The ring in its groove, where that is, and the steps that fill and close it."""
    if groove.filled and groove.filled == groove.closed:
        steps = f"fitted and closed at {groove.filled}"
    else:
        fitted = f"fitted at {groove.filled}" if groove.filled else "NO STEP FITS ITS RING"
        steps = f"{fitted}, closed at {groove.closed}" if groove.closed else f"{fitted}, never closed"
    lines = wrap(hand.words(f"{groove.takes}, {steps}"), width - _SAID - 1)
    where = wrap(hand.words(f"{groove.carrier}: {groove.groove.where}"), width - _SAID - 1)
    canvas = Canvas(width, len(lines) + len(where))
    sign = (Sign.TO_COME if groove.filled else Sign.FAULTY).around(groove.groove.id)
    canvas.put(0, MARGIN, RING if groove.filled else NO_RING)
    canvas.put(0, MARGIN + 2, sign.text, sign.tone)
    for row, line in enumerate(lines):
        canvas.put(row, _SAID, line)
    for row, line in enumerate(where, len(lines)):
        canvas.put(row, _SAID, line, Tone.QUIET)
    return canvas.lines()


def groove_pictures(grooves: Sequence[GrooveUnderstood], hand: Hand, width: int) -> Iterator[Drawing]:
    """In section, those that the same part closes in one step; two pictures beside each other with room."""
    together: dict[tuple[str, str, str, Opening], list[GrooveUnderstood]] = {}
    for each in grooves:
        together.setdefault((each.carrier, each.cover, each.closed, opening(each.groove)), []).append(each)
    across = 2 if width >= _TWO_PICTURES else 1
    found = [_picture(some, hand, width // across - 3) for some in together.values()]
    drawn = [each for each in found if each is not None]
    for at in range(0, len(drawn), across):
        yield side_by_side(drawn[at : at + across], width)
        yield BLANK


def _picture(grooves: Sequence[GrooveUnderstood], hand: Hand, width: int) -> Drawing | None:
    one = grooves[0]
    way = opening(one.groove)
    shown = tuple(
        Groove(
            hand.words(each.groove.id),
            hand.words(each.takes),
            filled=bool(each.filled),
            sign=Sign.TO_COME if each.filled else Sign.FAULTY,
        )
        for each in grooves
    )
    closed = f"closed at {one.closed}" if one.closed else "never closed"
    closing = Closing(hand.words(one.carrier), hand.words(one.cover), shown, way, caption=hand.words(closed))
    rows = _FACE_ROWS if way is Opening.FACE else 3 * len(grooves) + 6
    return draw_grooves(closing, width, rows)
