"""Measures of a groove that cannot be."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.rings import gland_of
from benchcheck.checking.subject import Subject
from benchcheck.mechanics.gland import GlandError, fit
from benchcheck.mechanics.o_ring import size
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "The measures of a gland leave no groove, or its boss has a thread that no boss has."
WHY = "Nothing proves the size of the ring then, and the measures were copied wrong."
WRONG = """
[[groove]]
id = "G1"
in = "cover"
where = "round the spigot"
against = "body"
takes = "-137"
material = "NBR"
gland = { bore = "2.250 in", depth = "1.810 in" }    # was 0.081 in
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


_LENGTHS = ("bore", "shaft", "outside", "centre_line", "depth", "width")
_ANY = size("-012")
"""A gland shows only with a ring whether it leaves room for one."""


def check(subject: Subject) -> Iterator[Finding]:
    for groove in subject.file.groove:
        told = groove.gland
        if told is None:
            continue
        lengths = {key: getattr(told, key) for key in _LENGTHS}
        nothing = [key for key, length in lengths.items() if length is not None and not length.value]
        if nothing:
            for key in nothing:
                yield subject.finding(
                    "gland-impossible",
                    SEVERITY,
                    told,
                    (key,),
                    f"`{key}` of `{groove.id}` is {lengths[key]}.",
                    "Write the measure of the drawing.",
                )
            continue
        try:
            fit(_ANY, gland_of(told))
        except GlandError as error:
            yield subject.finding(
                "gland-impossible",
                SEVERITY,
                groove,
                ("gland",),
                f"The gland of `{groove.id}`: {error}.",
                "Write the measures of the drawing.",
            )
