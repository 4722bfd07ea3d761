"""The end: released, or closed without release, in a few labelled lines."""

from __future__ import annotations

from benchcheck.screens.bench import printing
from benchcheck.screens.bench.sheets.release import summary_lines
from benchcheck.screens.bench.view import View
from benchcheck.screens.bench.work import Work as BenchWork
from benchcheck.screens.layout import Sheet, Work
from benchcheck.session.record import check_value
from benchcheck.store.sitting import Sitting


def sheet(view: View, sitting: Sitting) -> Sheet:
    """What was done; Enter prints it and goes on."""
    state = view.state
    closed = state.closed
    work = Work(view)
    outcome = closed.outcome if closed is not None else "nothing left"
    who = [
        f"{state.technician} did the work"
        + (f", {closed.second} released it." if closed and closed.second else ".")
    ]
    if closed is not None and closed.reason:
        who.append(f"Why: {closed.reason}.")
    work.verb(outcome, [*who, f"{state.number} events are in the record."])
    work.gap(9)
    work.all_labelled(summary_lines(view))
    work.labelled(
        "check",
        f"{state.number}: {check_value(sitting.record.chain.last_seal)}, the same on every paper",
    )
    work.labelled("record", sitting.path.name)
    for sentence in sitting.signed:
        work.labelled("key", sentence)
    work.said()
    return Sheet(work.lines(), "prints the label and the report, and goes to the open pumps")


def print_all(work: BenchWork) -> str:
    """Print label and report, as far as there are any; says where they are."""
    return "  ".join(printing.print_paper(work, paper) for paper in printing.papers(work)[:2])
