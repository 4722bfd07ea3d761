"""Small deeds that ask one thing: another technician, a remark, something to print, something to read."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence

from benchcheck.screens.bench import printing
from benchcheck.screens.bench.sheets.plain import as_sentence
from benchcheck.screens.bench.work import BenchFlow, Work, said
from benchcheck.screens.inquiry import Item
from benchcheck.screens.layout import Hand
from benchcheck.screens.widgets.bands import TEXT_START
from benchcheck.screens.widgets.cells import Drawing, Run, wrap
from benchcheck.session import commands, kit
from benchcheck.session.handing_over import QUESTIONS
from benchcheck.session.prompt import Prompt

_ROWS_A_PAGE = 11
_CELLS = 66


def another_technician(work: Work) -> BenchFlow:
    message = ""
    while True:
        name = yield Item(
            "who",
            f"{work.state.technician or 'Nobody'} works here now. Who goes on? As in the register of people.",
            "signs that person on",
            field="name",
            most_cells=60,
            said=message,
        )
        outcome = work.command(commands.sign_on, name.text)
        if outcome is None:
            return f"{work.state.technician} has signed on."
        message = said(outcome)


def asked_again(work: Work) -> BenchFlow:
    """Put a refused answer aside, as one that was only typed or pointed at wrongly."""
    work.refused = None
    yield from ()
    return ""


def remark(work: Work) -> BenchFlow:
    text = yield Item(
        "remark", "What is to be remembered? One line.", "writes it into the record", field="text"
    )
    outcome = work.command(commands.remark, text.text)
    return said(outcome) if outcome is not None else "It is in the record."


def printed(work: Work) -> BenchFlow:
    """Choose a paper, and print it."""
    papers = printing.papers(work)
    chosen = yield Item(
        "print",
        "What is to be printed?",
        "prints",
        choices=tuple(paper.words for paper in papers),
    )
    return printing.print_paper(work, papers[chosen.index])


def read_on(work: Work) -> BenchFlow:
    """All that there is to read on the prompt in hand, page after page."""
    prompt = work.prompt
    if prompt is None:
        return ""
    if prompt.question in QUESTIONS:
        from benchcheck.screens.bench.flows.handover import card_read

        return (yield from card_read(work))
    return (yield from pages_of(_paragraphs(prompt)))


def kit_told(work: Work) -> BenchFlow:
    """What the kit held, what was used, and how far the rest will do."""
    return (yield from pages_of([list(kit.told(work.state))]))


def pages_of(paragraphs: Iterable[list[str]]) -> BenchFlow:
    """Texts to read, page after page."""
    rows: list[str] = []
    for texts in paragraphs:
        for text in texts:
            rows += wrap(text, _CELLS)
        rows.append("")
    pages = [rows[start : start + _ROWS_A_PAGE] for start in range(0, len(rows), _ROWS_A_PAGE)]
    for number, page in enumerate(pages, 1):
        last = number == len(pages)
        yield Item(
            "read",
            f"page {number} of {len(pages)}" if len(pages) > 1 else "",
            "goes back to the question" if last else "turns the page",
            body=_rows(page),
            escape="back to the question",
        )
    return ""


def _paragraphs(prompt: Prompt) -> Iterator[list[str]]:
    """What there is to read on a prompt: what can hurt, what is done, what is asked, what else is known."""
    if prompt.cautions:
        yield [f"{caution.signal.value}: {caution.text}" for caution in prompt.cautions]
    if prompt.do:
        yield list(prompt.do)
    yield [as_sentence(prompt.ask), *([f"Good: {prompt.good}."] if prompt.good else [])]
    if prompt.figure is not None:
        figure = prompt.figure
        yield [f"{figure.text} {figure.unit}: {figure.how}", *([figure.why] if figure.why else [])]
    if prompt.notes:
        yield list(prompt.notes)


def _rows(rows: Sequence[str]) -> Callable[[Hand], Drawing]:
    """Rows of text at the column of all texts."""

    def body(hand: Hand) -> Drawing:
        return tuple((Run(" " * TEXT_START + hand.words(row)),) for row in rows)

    return body
