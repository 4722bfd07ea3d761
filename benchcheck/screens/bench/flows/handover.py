"""The handover card: read page by page, signed by who leaves, printed, and the pump left."""

from __future__ import annotations

from benchcheck.report import handover
from benchcheck.screens.bench.flows.ending import leave
from benchcheck.screens.bench.flows.small import pages_of
from benchcheck.screens.bench.printing import handover_paper, print_paper
from benchcheck.screens.bench.work import BenchFlow, Work, said
from benchcheck.screens.inquiry import Item
from benchcheck.session import commands

_RULES = "═─=-"


def card_read(work: Work) -> BenchFlow:
    """The card, page after page, without the rules that divide it on paper."""
    rows = [row for row in card_text(work).splitlines() if not row or row.strip(_RULES)]
    return (yield from pages_of([rows]))


def handing_over(work: Work) -> BenchFlow:
    """Who works here reads the card, signs it with a word for whoever goes on, and leaves the pump."""
    yield from card_read(work)
    word = yield Item(
        "hand over",
        f"{work.state.technician} signs this card. A word for whoever goes on? One line, or nothing.",
        "signs the card, prints it, and leaves the pump as it is",
        field="word",
        may_be_empty=True,
    )
    outcome = work.command(commands.sign_card, word.text)
    if outcome is not None:
        return said(outcome)
    printed = print_paper(work, handover_paper(work))
    return f"{leave(work, 'handed over')}  {printed}"


def card_text(work: Work) -> str:
    """The card as it would be printed."""
    return handover.as_printed(work.sitting.path, work.state.job.registers, work.clock())
