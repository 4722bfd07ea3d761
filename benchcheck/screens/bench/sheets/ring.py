"""The picture of a fastener group: its layout, the sign of each position, which way the numbers run."""

from __future__ import annotations

from collections.abc import Mapping

from benchcheck.screens.bench.view import View
from benchcheck.screens.widgets.cells import Drawing
from benchcheck.screens.widgets.order_strip import Round
from benchcheck.screens.widgets.pattern import Circle, Pattern, Points, direction_words
from benchcheck.screens.widgets.ring import (
    LARGEST_RADIUS_AT_80_BY_24,
    LARGEST_RADIUS_AT_120_BY_40,
    draw,
)
from benchcheck.screens.widgets.signs import Sign
from benchcheck.session.prompt import RingPicture

_PITCH = 2.0


def signs(view: View, picture: RingPicture, faulty: int = 0) -> Mapping[int, Sign]:
    """The sign of each position; `faulty` is the one that a refusal is about."""
    hold = view.state.assembly.held.get(view.prompt.target)
    disposed = hold.disposed if hold is not None else frozenset()
    found = {}
    for position in range(1, picture.count + 1):
        if position == faulty:
            found[position] = Sign.FAULTY
        elif position == picture.now:
            found[position] = Sign.NOW
        elif position in disposed:
            found[position] = Sign.DEVIATION
        elif position in picture.done:
            found[position] = Sign.DONE
        elif position == picture.next:
            found[position] = Sign.NEXT
        else:
            found[position] = Sign.TO_COME
    return found


def pattern(view: View, picture: RingPicture, faulty: int = 0) -> Pattern | None:
    """The group as a pattern; None where its file gives no layout, or only one position."""
    layout = _layout(picture)
    if layout is None or picture.count < 2:
        return None
    by_position = signs(view, picture, faulty)
    screws = dict(picture.screws)
    lengths = {text.rsplit(" x ", 1)[-1] for text in screws.values()}
    notes = (
        tuple(view.words(screws.get(n, "").rsplit(" x ", 1)[-1]) for n in range(1, picture.count + 1))
        if isinstance(layout, Points) and len(lengths) > 1
        else ()
    )
    return Pattern(
        layout,
        tuple(by_position[position] for position in range(1, picture.count + 1)),
        datum=view.words(picture.datum),
        quarter_turns=view.quarter_turns,
        mirrored=mirrored(view, picture),
        notes=notes,
    )


def _layout(picture: RingPicture) -> Circle | Points | None:
    if picture.circle:
        return Circle(picture.circle, first_at_datum=picture.at_datum)
    if picture.points:
        return Points(picture.points)
    if picture.rows and picture.columns:
        return Points(_rectangle(picture.rows, picture.columns))
    return None


def _rectangle(rows: int, columns: int) -> tuple[tuple[float, float], ...]:
    """Places of a rectangle: clockwise round its rim from the upper left, then the inner ones row by row."""
    rim = [(0, column) for column in range(columns)]
    rim += [(row, columns - 1) for row in range(1, rows)]
    if rows > 1:
        rim += [(rows - 1, column) for column in range(columns - 2, -1, -1)]
    if columns > 1:
        rim += [(row, 0) for row in range(rows - 2, 0, -1)]
    inner = [(row, column) for row in range(1, rows - 1) for column in range(1, columns - 1)]
    return tuple((column * _PITCH, -row * _PITCH) for row, column in (*rim, *inner))


def mirrored(view: View, picture: RingPicture) -> bool:
    """Whether the work lies so that one looks at the group from the side opposite to its numbering."""
    if picture.mirrored:
        return True
    pump = view.state.pump
    group = pump.groups.get(view.prompt.target)
    if group is None or not picture.seen_from:
        return False
    root = view.state.assembly.root(group.into)
    up = view.state.assembly.poses.get(root)
    return bool(up) and up != picture.seen_from and picture.seen_from in pump.ends(root)


def ring_drawing(
    view: View, picture: RingPicture, width: int, height: int, faulty: int = 0
) -> Drawing | None:
    """The picture in the room there is; None where the order strip has to do."""
    told = pattern(view, picture, faulty)
    if told is None:
        return None
    largest = LARGEST_RADIUS_AT_120_BY_40 if view.size.large else LARGEST_RADIUS_AT_80_BY_24
    return draw(told, width, height, largest)


def seen_from_words(view: View, picture: RingPicture) -> str:
    """From where the picture is seen, and which way its numbers run."""
    told = pattern(view, picture)
    if told is None or not picture.seen_from:
        return ""
    return view.words(direction_words(told, picture.seen_from))


def rounds(view: View, picture: RingPicture, named: str = "round") -> tuple[Round, ...]:
    """All rounds with the signs of their positions, the check pass last."""
    now_signs = signs(view, picture)
    found = []
    for number, share in enumerate(picture.rounds, 1):
        done = number < picture.round
        row = tuple(
            Sign.DONE if done else now_signs[p] if number == picture.round else Sign.TO_COME
            for p in picture.order
        )
        figure = picture.figures[number - 1] if number <= len(picture.figures) else ""
        found.append(Round(f"{named} {number}", view.words(share), figure, picture.order, row))
    if picture.check_pass:
        order = tuple(range(1, picture.count + 1))
        found.append(Round("check", "", "", order, tuple(now_signs[p] for p in order)))
    return tuple(found)
