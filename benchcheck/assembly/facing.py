"""Which way things point and stand, composed from the seatings: along the axis, and about it.

Along the axis a seat is `same` (+1) or `turned` (-1); the product down the bodies tells where an end points.
About the axis a seat has an angle; turned over, angles run the other way. Nothing here knows a pump: only
`must_face` and `must_line_up` say what is right.
"""

from __future__ import annotations

from dataclasses import dataclass

from benchcheck.assembly.bars import common_body
from benchcheck.assembly.state import Assembly
from benchcheck.procedure.model import MustFace, MustLineUp


def _turn_down_to(now: Assembly, part: str, body: str) -> int:
    direction = 1
    while part != body:
        seat = now.seated[part]
        direction *= seat.turn
        part = seat.body
    return direction


def direction(now: Assembly, part: str, of: str) -> int | None:
    """+1 if the part's first end points as the first end of `of`, -1 if the other way.

    None while they are not in one work, or where one lies across the axis.
    """
    common = common_body(now, part, of)
    if common is None:
        return None
    return _turn_down_to(now, part, common) * _turn_down_to(now, of, common) or None


def points_to(now: Assembly, part: str, end: str, of: str) -> str | None:
    """The end of `of` that the named end of the part points to."""
    way = direction(now, part, of)
    if way is None:
        return None
    ends = now.pump.ends(of)
    own = 1 if end == now.pump.ends(part)[0] else -1
    return ends[0 if way * own > 0 else 1]


def end_up(now: Assembly, part: str) -> str | None:
    """The end of the part that is up as the work lies now."""
    root = now.root(part)
    up = now.poses.get(root)
    way = direction(now, part, root)
    if up is None or way is None:
        return None
    return now.pump.ends(part)[0 if way * (1 if up == now.pump.ends(root)[0] else -1) > 0 else 1]


def _angle_in(now: Assembly, part: str, angle: int, body: str) -> int | None:
    """An angle of the part in the frame of a body under it."""
    while part != body:
        seat = now.seated[part]
        if seat.angle is None or seat.turn == 0:
            return None
        angle = (seat.angle + angle * seat.turn) % 360
        part = seat.body
    return angle


def mark_angle(now: Assembly, part: str, mark: str, body: str) -> int | None:
    """Where a mark stands in the frame of a body of the same work [degree]."""
    return _angle_in(now, part, now.pump.parts[part].marks[mark], body)


def seat_angle(now: Assembly, part: str, turn: int, mark: str, over_part: str, over_mark: str) -> int | None:
    """The angle of a seat when the part's own mark stands over another part's mark."""
    body = now.pump.parts[part].into
    if body is None or not now.in_one_work(body, over_part):
        return None
    common = common_body(now, over_part, body)
    assert common is not None
    target = mark_angle(now, over_part, over_mark, common)
    zero = _angle_in(now, body, 0, common)
    if target is None or zero is None:
        return None
    way = _turn_down_to(now, body, common)
    in_body = (target - zero) * way
    return (in_body - now.pump.parts[part].marks[mark] * turn) % 360


@dataclass(frozen=True, slots=True)
class Misfit:
    """A `must_face` or `must_line_up` that is not so."""

    must: MustFace | MustLineUp
    is_toward: str
    toward: str
    of: str
    chain: tuple[str, ...]


def _face_chain(now: Assembly, must: MustFace, of: str) -> tuple[str, ...]:
    """The reasons, seat by seat, in words."""
    reasons: list[str] = []
    part, end = must.part, must.end
    while part != of and part in now.seated:
        seat = now.seated[part]
        own = 1 if end == now.pump.ends(part)[0] else -1
        toward = now.pump.ends(seat.body)[0 if own * seat.turn > 0 else 1]
        reasons.append(
            f"{now.pump.called(part)}: its {end} points to the {toward} of {now.pump.the(seat.body)}"
        )
        part, end = seat.body, toward
    return tuple(reasons)


def misfits(now: Assembly) -> tuple[Misfit, ...]:
    """Every `must_face` and `must_line_up` that can be worked out now and is false."""
    found: list[Misfit] = []
    for must in now.pump.faces:
        of = must.of or now.pump.main
        toward = now.pump.value(must.toward)
        actual = points_to(now, must.part, must.end, of) if must.part in now.seated else None
        if actual is not None and toward is not None and actual != toward:
            found.append(Misfit(must, actual, toward, of, _face_chain(now, must, of)))
    for line in now.pump.lines:
        of = line.of or now.pump.main
        toward = now.pump.value(line.toward)
        if line.part not in now.seated or toward is None:
            continue
        common = common_body(now, line.part, of)
        if common is None:
            continue
        stands, wanted = mark_angle(now, line.part, line.mark, common), mark_angle(now, of, toward, common)
        if stands is not None and wanted is not None and stands != wanted:
            over = next(
                (mark for mark in now.pump.parts[of].marks if mark_angle(now, of, mark, common) == stands),
                f"{(stands - wanted) % 360} degrees off",
            )
            found.append(Misfit(line, over, toward, of, ()))
    return tuple(found)


def one_that_mends(now: Assembly, broken: tuple[Misfit, ...]) -> str | None:
    """The one seated part that, turned over, mends every broken facing and breaks none."""
    from dataclasses import replace

    faces = [each.must.part for each in broken if isinstance(each.must, MustFace)]
    if not faces or len(faces) != len(broken):
        return None
    shared = [part for part in now.chain(faces[0]) if part in now.seated]
    for part in reversed(shared):
        if not all(part in now.chain(each) for each in faces):
            continue
        seat = now.seated[part]
        turned = replace(now, seated={**now.seated, part: replace(seat, turn=-seat.turn)})
        if not misfits(turned):
            return part
    return None
