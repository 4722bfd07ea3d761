"""A decision on a deviation of a session that is not over, taken at the desk: asked as at the bench.

Who may decide, and what, is the engine's to say; its sentence is shown where the question stood.
"""

from __future__ import annotations

from benchcheck.screens.bench.flows.decisions import Holds, decided, deviation_lines, which
from benchcheck.screens.inquiry import Flow
from benchcheck.screens.records.desk import Desk
from benchcheck.screens.records.judgement import CANNOT, not_written
from benchcheck.screens.records.one_session import OneSession
from benchcheck.session.prompt import Outcome

_THEN = ("then", "who decides on it has taken part, and does not judge this session later")


def disposed(desk: Desk, session: OneSession) -> Flow[str]:
    """Choose a deviation, decide on it, and write that; ends with what there is to say of it."""
    assert session.journal is not None
    about = yield from which(session.journal.state.open_deviations)

    def write(disposition: str, name: str, reason: str, holds: Holds) -> Outcome | None:
        refusal = desk.decide(session.path, about.deviation, disposition, name, reason, **holds)
        if refusal is None:
            desk.reviewer = name
        return refusal

    lines = (*deviation_lines(about), _THEN)
    try:
        told = yield from decided(f"deviation {about.deviation}", lines, write, desk.reviewer)
    except CANNOT as fault:
        yield not_written(str(fault))
        return ""
    return "  ".join((told, *desk.signed))
