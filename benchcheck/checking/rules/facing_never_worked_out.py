"""A facing that proves nothing, because it can never be worked out."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.facing import direction, mark_angle
from benchcheck.assembly.state import Assembly
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import MustFace, MustLineUp

SEVERITY = Severity.WARNING
WHAT = (
    "A `must_face` or `must_line_up` compares what lies across the axis, never comes together, or "
    "is fitted any way round."
)
WHY = "It reads like a proof and is none."
WRONG = """
[[part]]
id = "plug"
ends = ["head", "tip"]
into = "body"
from = "side"

[[must_face]]
part = "plug"
end = "tip"
toward = "water end"
because = "it closes the gallery"
"""
RIGHT = """
[[part]]
id = "plug"
ends = ["head", "tip"]
into = "body"
from = "side"
"""


def check(subject: Subject) -> Iterator[Finding]:
    musts: tuple[MustFace | MustLineUp, ...] = (*subject.file.must_face, *subject.file.must_line_up)
    turned = {part.id for part in subject.file.part if part.lines_up}
    for must in musts:
        if isinstance(must, MustLineUp) and must.part not in turned:
            continue  # `turn-stated-once` tells of it
        ends = [walk.end for walk in subject.walks if must in (*walk.pump.faces, *walk.pump.lines)]
        if ends and not any(_is_worked_out(now, must) for now in ends):
            what = must.end if isinstance(must, MustFace) else must.mark
            yield subject.finding(
                "facing-never-worked-out",
                SEVERITY,
                must,
                ("part",),
                f"Where the {what} of `{must.part}` comes to lie cannot be worked out from the parts.",
                "Lead it along one axis, or say how the part is turned by `lines_up`; else leave it out.",
            )


def _is_worked_out(now: Assembly, must: MustFace | MustLineUp) -> bool:
    of = must.of or now.pump.main
    if must.part not in now.seated or not now.in_one_work(must.part, of):
        return must.part not in now.seated  # that it is not in is told elsewhere
    if isinstance(must, MustFace):
        return direction(now, must.part, of) is not None
    toward, root = now.pump.value(must.toward), now.root(of)
    return toward is None or None not in (
        mark_angle(now, must.part, must.mark, root),
        mark_angle(now, of, toward, root),
    )
