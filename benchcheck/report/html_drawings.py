"""Patterns and scales as drawings inside a page, each with its words for those who do not see it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from benchcheck.report.document import Mark, Pattern, Scale
from benchcheck.report.html_text import escaped
from benchcheck.report.words import OUTSIDE, number

_SIZE, _LARGE, _MANY = 360, 560, 24
"""Width of a pattern, also the most of its height; the same for more than so many positions [px]."""
_LARGEST, _SMALLEST = 26.0, 4.0
"""Radius of a position [px]."""
_READABLE = 17.0
"""Radius from which on a reading fits into it [px]."""
_ROW = 26
_NAMES, _AXIS, _VALUES = 110, 380, 90


def pattern_drawing(pattern: Pattern, name: str) -> Iterator[str]:
    """Positions as they sit: the number, what it got, and beside it when it comes."""
    size = _SIZE if len(pattern.marks) <= _MANY else _LARGE
    places, height = _places(pattern, size)
    radius = _radius(places)
    yield "<figure>"
    yield from begun(name, size, height, pattern.called, _in_words(pattern))
    middle = (size / 2, height / 2)
    if _is_ring(pattern):
        ring = math.dist(places[0], middle)
        yield f'<circle class="metal" cx="{px(middle[0])}" cy="{px(middle[1])}" r="{px(ring)}"/>'
    if pattern.datum:
        yield f'<path class="datum" d="M{px(middle[0] - 7)} 2h14l-7 12z"/>'
    for mark, place in zip(pattern.marks, places, strict=True):
        yield from _position(mark, place, middle, radius)
    yield "</svg>"
    yield f"<figcaption>{escaped(_caption(pattern, radius))}</figcaption>"
    yield "</figure>"


def _position(
    mark: Mark, place: tuple[float, float], middle: tuple[float, float], radius: float
) -> Iterator[str]:
    x, y = place
    yield f'<g class="{_kind(mark.sign == OUTSIDE)}">'
    yield f'<circle class="hole" cx="{px(x)}" cy="{px(y)}" r="{px(radius)}"/>'
    reading = f"{mark.sign} {mark.reading}".strip() if radius >= _READABLE else mark.sign
    yield label("number", x, y - 3 if reading else y + 5, str(mark.position))
    if reading:
        yield label("small", x, y + 14, reading)
    # When it comes stands on the inner side, towards the middle, where no neighbour is.
    inward = (radius + 14) / (math.dist(place, middle) or 1.0)
    turn = (x + (middle[0] - x) * inward, y + (middle[1] - y) * inward)
    yield label("small quiet", turn[0], turn[1] + 4, _ordinal(mark.turn))
    yield "</g>"


def label(kind: str, x: float, y: float, text: str) -> str:
    return f'<text class="{kind}" x="{px(x)}" y="{px(y)}" text-anchor="middle">{escaped(text)}</text>'


def _kind(outside: bool) -> str:
    return "bad" if outside else "good"


def _places(pattern: Pattern, size: int) -> tuple[list[tuple[float, float]], int]:
    """Where each position stands on the sheet, and how high that is [px]."""
    edge = _LARGEST + 18
    xs, ys = [mark.x for mark in pattern.marks], [mark.y for mark in pattern.marks]
    if _is_ring(pattern):
        left, right, bottom, top = -1.0, 1.0, -1.0, 1.0
    else:
        left, right, bottom, top = min(xs), max(xs), min(ys), max(ys)
    scale = (size - 2 * edge) / (max(right - left, top - bottom) or 1.0)
    height = math.ceil((top - bottom) * scale + 2 * edge)
    indent = (size - (right - left) * scale) / 2
    return [
        (indent + (mark.x - left) * scale, edge + (top - mark.y) * scale) for mark in pattern.marks
    ], height


def _is_ring(pattern: Pattern) -> bool:
    return len(pattern.marks) > 2 and all(
        math.isclose(math.hypot(mark.x, mark.y), 1.0, abs_tol=1e-6) for mark in pattern.marks
    )


def _radius(places: list[tuple[float, float]]) -> float:
    nearest = min(
        (math.dist(one, other) for at, one in enumerate(places) for other in places[:at]),
        default=2 * _LARGEST,
    )
    return max(_SMALLEST, min(_LARGEST, nearest * 0.42))


def _caption(pattern: Pattern, radius: float) -> str:
    at_top = f" At the top: {pattern.datum}." if pattern.datum else ""
    got = f"its reading in {pattern.unit}" if radius >= _READABLE and pattern.unit else ""
    inside = f"In each position: its number{f' and {got}' if got else ''}; beside it: when it comes."
    return f"{pattern.called}, {pattern.seen}.{at_top} {inside}"


def _in_words(pattern: Pattern) -> str:
    said = []
    for mark in sorted(pattern.marks, key=lambda mark: mark.turn):
        got = f", {mark.reading} {pattern.unit}" if mark.reading else ", no reading"
        said.append(
            f"{_ordinal(mark.turn)}: position {mark.position}{got}{f' ({mark.sign})' if mark.sign else ''}"
        )
    return f"In the order of tightening: {'; '.join(said)}."


def _ordinal(count: int) -> str:
    ending = "th" if count // 10 % 10 == 1 else {1: "st", 2: "nd", 3: "rd"}.get(count % 10, "th")
    return f"{count}{ending}"


def scale_drawing(scale: Scale, name: str) -> Iterator[str]:
    """Each reading as a point between its limits; one that is outside stands beside the band."""
    height = _ROW * (len(scale.readings) + 1) + 6
    wide = _NAMES + _AXIS + _VALUES
    span = scale.high - scale.low
    room = span * 0.25
    first, last = scale.low - room, scale.high + room

    def at(value: float) -> float:
        return _NAMES + (min(max(value, first), last) - first) / (last - first) * _AXIS

    bottom = height - 4
    yield "<figure>"
    yield from begun(name, wide, height, scale.called, _scale_in_words(scale))
    left, band = px(at(scale.low)), px(at(scale.high) - at(scale.low))
    yield f'<rect class="band" x="{left}" y="{_ROW}" width="{band}" height="{bottom - _ROW}"/>'
    target = px(at(scale.target))
    yield f'<line class="target" x1="{target}" y1="{_ROW}" x2="{target}" y2="{bottom}"/>'
    for value in (scale.low, scale.target, scale.high):
        yield label("small quiet", at(value), 18, _short(value))
    for row, (where, value) in enumerate(scale.readings, 1):
        y = _ROW * row + _ROW / 2 + 2
        outside = not scale.low <= value <= scale.high
        yield f'<g class="{_kind(outside)}">'
        yield f'<text x="0" y="{px(y + 5)}">{escaped(where)}</text>'
        yield f'<circle class="dot" cx="{px(at(value))}" cy="{px(y)}" r="6"/>'
        said = f"{OUTSIDE} {number(value)}" if outside else number(value)
        yield f'<text x="{_NAMES + _AXIS + 10}" y="{px(y + 5)}">{said}</text>'
        yield "</g>"
    yield "</svg>"
    said = f"{scale.called}, in {scale.unit}: the band is the tolerance."
    yield f"<figcaption>{escaped(said)}</figcaption>"
    yield "</figure>"


def begun(name: str, wide: int, height: int, title: str, words: str) -> Iterator[str]:
    """A drawing up to its words; its lines follow."""
    yield (
        f'<svg role="img" aria-labelledby="{name}t {name}e" width="{wide}" height="{height}" '
        f'viewBox="0 0 {wide} {height}">'
    )
    yield f'<title id="{name}t">{escaped(title)}</title>'
    yield f'<desc id="{name}e">{escaped(words)}</desc>'


def _scale_in_words(scale: Scale) -> str:
    read = "; ".join(f"{where}: {number(value)}" for where, value in scale.readings)
    return f"Limits {_short(scale.low)} to {_short(scale.high)} {scale.unit}. {read}."


def _short(value: float) -> str:
    return number(float(f"{value:.4g}"))


def px(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")
