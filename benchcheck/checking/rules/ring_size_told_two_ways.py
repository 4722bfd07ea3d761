"""A ring's size in words that is not that of its groove."""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchcheck.checking.rings import size_of, sizes_of
from benchcheck.checking.subject import Subject
from benchcheck.checking.texts import of_step
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.wording import listed

SEVERITY = Severity.WARNING
WHAT = "A step that lays in rings tells a size that none of its grooves takes."
WHY = "The bag is chosen by the words, and the groove gets a ring of another pump."
WRONG = """
[[step]]
id = "cover-on"
rings = ["G1"]        # takes -137
part = "cover"
text = "Look at the -138 once more: not twisted."
"""
RIGHT = """
[[step]]
id = "cover-on"
rings = ["G1"]
part = "cover"
text = "Look at the ring once more: not twisted."
"""


_SIZE = re.compile(r"(?<![\w.,/])-(?P<dash>\d{3})(?![\w.,/-])")


def check(subject: Subject) -> Iterator[Finding]:
    grooves = {groove.id: groove for groove in subject.file.groove}
    for step in subject.file.step:
        taken = [size for name in step.rings if name in grooves for _, size in sizes_of(grooves[name])]
        dashes = {size.dash for size in map(size_of, taken) if size is not None}
        if not dashes:
            continue
        for passage in of_step(step):
            for match in _SIZE.finditer(passage.text):
                if match["dash"] not in dashes:
                    yield subject.finding(
                        "ring-size-told-two-ways",
                        SEVERITY,
                        passage.table,
                        passage.keys,
                        f'"{match[0]}" is said here, and the step takes {listed(sorted(set(taken)), "and")}.',
                        "Write the size of the drawing in the groove, and leave it out here.",
                    )
