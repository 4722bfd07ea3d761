"""A ring that is too large, too small, too thick or too thin for its groove."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.rings import family_of, gland_of, size_of, sizes_of
from benchcheck.checking.subject import Subject
from benchcheck.mechanics.gland import STRETCH_LIMIT, Gland, GlandError, fit, fitting_sizes
from benchcheck.mechanics.o_ring import Size
from benchcheck.mechanics.rubber import stretch_limit
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Groove
from benchcheck.procedure.wording import listed

SEVERITY = Severity.ERROR
WHAT = "In its gland, as measured, a ring would be pinched, loose, overstretched or squeezed wrongly."
WHY = "Once the parts are together all rings look fitted; the wrong one leaks, or is cut as the joint closes."
WRONG = """
[[groove]]
id = "G1"
in = "cover"
where = "round the spigot"
against = "body"
takes = "-150"        # the gland is that of a -137
material = "NBR"
gland = { bore = "2.250 in", depth = "0.081 in" }
"""
RIGHT = """
[[groove]]
id = "G1"
in = "cover"
where = "round the spigot"
against = "body"
takes = "-137"
material = "NBR"
gland = { bore = "2.250 in", depth = "0.081 in" }
"""


_MOST_NAMED = 3


def check(subject: Subject) -> Iterator[Finding]:
    for groove in subject.file.groove:
        gland = _gland(groove)
        for keys, taken in sizes_of(groove):
            ring = size_of(taken)
            if gland is None or ring is None:
                continue
            limit = stretch_limit(groove.material) if family_of(groove.material) else STRETCH_LIMIT
            try:
                misfits = fit(ring, gland, stretch_limit=limit).misfits
            except GlandError:
                continue
            if misfits:
                yield subject.finding(
                    "ring-does-not-fit",
                    SEVERITY,
                    groove,
                    keys,
                    f"In `{groove.id}` the ring does not fit: {'; '.join(misfits.values())}.",
                    _remedy(ring, gland, limit),
                )


def _gland(groove: Groove) -> Gland | None:
    try:
        return gland_of(groove.gland) if groove.gland is not None else None
    except GlandError:
        return None


def _remedy(ring: Size, gland: Gland, limit: float) -> str:
    """The sizes that would fit, the nearest to the one that is written first."""

    def unlikeness(other: Size) -> tuple[float, float]:
        return (
            abs(other.section_inch - ring.section_inch),
            abs(other.inside_diameter_inch - ring.inside_diameter_inch),
        )

    fitting = sorted(fitting_sizes(gland, stretch_limit=limit), key=unlikeness)
    if not fitting:
        return "No size of AS568 fits these measures: check them against the drawing."
    names = listed([each.designation for each in fitting[:_MOST_NAMED]])
    return f"Check size and measures against the drawing; {names} would fit."
