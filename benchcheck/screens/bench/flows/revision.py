"""Another text of the procedure than the one that is followed: what differs, what it costs, moving on."""

from __future__ import annotations

from benchcheck.screens.bench.work import BenchFlow, Work, said
from benchcheck.screens.inquiry import Item
from benchcheck.session import commands, revisions
from benchcheck.session.prompt import Outcome

_STAY, _MOVE = "stay on the text that is followed", "move on to revision {}; what it voids is asked again"


def other_text(work: Work) -> BenchFlow:
    """Read what differs, then move on or stay."""
    offer = revisions.offered(work.state)
    assert offer is not None
    ways = [_STAY]
    if not isinstance(revisions.moving(work.state), Outcome):
        ways.append(_MOVE.format(offer.revision))
    told = (*revisions.consequences(work.state), *offer.differences)
    chosen = yield Item(
        "new text",
        f"Revision {offer.revision} of the procedure is in the workspace.",
        "does this",
        choices=tuple(ways),
        lines=tuple(("note", each) for each in told),
    )
    if chosen.index == 0:
        return "All is as it was."
    outcome = work.command(commands.move_on)
    if outcome is not None:
        return said(outcome)
    return f"The work follows revision {offer.revision} from here."
