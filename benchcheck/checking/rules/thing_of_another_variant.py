"""Something that is needed in a variant that does not have it."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.pump import Pump
from benchcheck.checking.subject import Subject
from benchcheck.checking.variants import lacking
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "A table that counts in a variant names a part, or a group, that is `for` other variants only."
WHY = "In that variant the pump hangs in the air: nobody can say what goes where."
WRONG = """
[procedure]
variants = ["R", "L"]

[[part]]
id = "disc"
into = "collar"         # which L does not have
from = "side"

[[part]]
id = "collar"
into = "shaft"
from = "keyed end"
for = ["R"]
"""
RIGHT = """
[procedure]
variants = ["R", "L"]

[[step]]
id = "identify"
phase = "intake"
act = "check"
ask = [{ what = "letter on the plate", one_of = ["R", "L"], sets = "variant" }]
"""


def check(subject: Subject) -> Iterator[Finding]:
    told: set[tuple[object, ...]] = set()
    for variant in subject.file.procedure.variants or (None,):
        for table, keys, name in lacking(Pump(subject.file, variant)):
            if (*table.path, *keys) not in told:
                told.add((*table.path, *keys))
                yield subject.finding(
                    "thing-of-another-variant",
                    SEVERITY,
                    table,
                    keys,
                    f"`{name}` is needed here for {variant}, and its `for` leaves that variant out.",
                    f"Write {variant} into the `for` of `{name}`, or take it out of the `for` of this table.",
                )
