"""Something else: the acts behind Esc as a numbered list, each a flow of its own."""

from __future__ import annotations

from collections.abc import Callable

from benchcheck.screens.bench.flows.corrections import corrections
from benchcheck.screens.bench.flows.decisions import decisions
from benchcheck.screens.bench.flows.deviation import deviation
from benchcheck.screens.bench.flows.ending import closing, stopping
from benchcheck.screens.bench.flows.going_back import going_back
from benchcheck.screens.bench.flows.handover import handing_over
from benchcheck.screens.bench.flows.revision import other_text
from benchcheck.screens.bench.flows.small import (
    another_technician,
    asked_again,
    kit_told,
    printed,
    read_on,
    remark,
)
from benchcheck.screens.bench.flows.troubles import (
    another_gauge,
    another_wrench,
    fell,
    gone_wrong,
    thread_repaired,
)
from benchcheck.screens.bench.work import BenchFlow, Work
from benchcheck.screens.inquiry import Item
from benchcheck.session import commands, revisions, troubles


def entries(work: Work) -> list[tuple[str, Callable[[Work], BenchFlow]]]:
    """What can be done besides answering, at this moment."""
    state = work.state
    found: list[tuple[str, Callable[[Work], BenchFlow]]] = [
        ("a deviation: something is not as the procedure says   F4", deviation),
        ("go back: reach something again                        F6", going_back),
        ("stop here, the pump stays as it is                    F8", stopping),
        ("read all there is to this question                    PgDn", read_on),
    ]
    if work.refused is not None and work.refused.mend_words:
        found.insert(0, ("the answer was given wrongly: ask it again", asked_again))
    if any(commands.correctable(state)):
        found.append(("one of the last answers was wrong", corrections))
    if state.open_deviations:
        found.append((f"decide on a deviation: {len(state.open_deviations)} open", decisions))
    if troubles.group_in_hand(state):
        found.append(("it goes wrong under the wrench", gone_wrong))
        found.append(("a thread here has an insert: limits of its own", thread_repaired))
    if troubles.wrench_in_hand(state):
        found.append(("another wrench for what is left", another_wrench))
    if troubles.gauge_in_hand(state):
        found.append(("another gauge for what is still to be read", another_gauge))
    if state.technician:
        found.append(("a wrench or gauge fell, or is damaged", fell))
    if (offer := revisions.offered(state)) is not None and state.technician:
        found.append((f"revision {offer.revision} of the procedure is there: move on to it", other_text))
    found.append(("what the kit holds, and how far it will do", kit_told))
    found.append(("write a remark into the record", remark))
    if state.technician:
        found.append(("hand over: the card is read, signed and printed", handing_over))
        found.append(("another technician goes on", another_technician))
    if state.technician:
        found.append(("print a tag, the report, a card", printed))
    if state.technician:
        found.append(("end without a released pump", closing))
    return found


def something_else(work: Work) -> BenchFlow:
    """Choose from the list, and go on with what was chosen."""
    listed = entries(work)
    chosen = yield Item(
        "else",
        "What else?",
        "goes there",
        choices=tuple(words for words, _ in listed),
        escape="closes the list, nothing is lost",
    )
    return (yield from listed[chosen.index][1](work))
