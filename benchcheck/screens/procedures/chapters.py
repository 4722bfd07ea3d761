"""One procedure as the program understood it, chapter by chapter: what its author holds against the pump."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.procedure.model import Caution
from benchcheck.report.needed import Needed
from benchcheck.report.understood import StackUnderstood, Understood
from benchcheck.screens.layout import Hand
from benchcheck.screens.procedures.findings import findings_blocks, verdict
from benchcheck.screens.procedures.grooves import groove_line, groove_pictures
from benchcheck.screens.procedures.group import group_blocks
from benchcheck.screens.procedures.pages import (
    BLANK,
    Chapter,
    in_two_columns,
    labelled,
    room_for_blocks,
    side_by_side,
)
from benchcheck.screens.procedures.shelf import Book
from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.bands import MARGIN
from benchcheck.screens.widgets.cells import Canvas, Drawing, wrap
from benchcheck.screens.widgets.signs import Sign
from benchcheck.screens.widgets.stack import Stacked, draw_stack

FINDINGS = "findings"
"""The chapter that stands beside all others where there is room for it."""
_TWO_STACKS = 76
_FOR = 40
"""Column at which the use of a piece or a tool begins."""


def chapters_of(book: Book, current: int, hand: Hand, width: int, *, beside: bool) -> tuple[Chapter, ...]:
    """All chapters in `width` cells; the findings have one where there are any that do not stand `beside`."""
    rows = room_for_blocks(hand)
    found: list[Chapter] = []
    told_apart = bool(book.findings or book.silenced or book.fault or not book.reads) and not beside
    if told_apart:
        apart = (piece for block in findings_blocks(book, current, hand, width) for piece in (block, BLANK))
        found.append(Chapter(FINDINGS, verdict(book), tuple(apart)))
    told = book.understood
    if told is None:
        if not told_apart:
            found.append(
                Chapter("about", verdict(book), (), beside=("It never read, since it is open here.",))
            )
        return tuple(found)
    found.append(_about(told, hand, width, "about" if told_apart else verdict(book)))
    found += _stacks(told, hand, width, rows)
    if told.grooves:
        grooves = (
            *(groove_line(each, hand, width) for each in told.grooves),
            BLANK,
            *groove_pictures(told.grooves, hand, width),
        )
        filled = "Which step fits each ring, and which closes its groove."
        found.append(Chapter("grooves", "grooves", grooves, told.grooves[0].line, (filled,)))
    for group in told.groups:
        name = f"{group.group.id}: {group.group.called}"
        blocks = tuple(group_blocks(group, hand, width, rows))
        found.append(Chapter(f"group {group.group.id}", "torque", blocks, group.line, (name,)))
    for verb, pieces, sentence in (
        ("kit", told.kit, "What is used up, worked out from grooves and parts."),
        ("tools", told.tools, "What is needed besides."),
    ):
        if pieces:
            found.append(Chapter(verb, verb, _needed(pieces, hand, width), told.kit_line, (sentence,)))
    if told.cautions:
        cautions = tuple(block for each in told.cautions for block in _caution(each, hand, width))
        found.append(Chapter("cautions", "cautions", cautions, told.caution_line))
    return tuple(found)


def _about(told: Understood, hand: Hand, width: int, verb: str) -> Chapter:
    head = told.head
    rows = [
        ("title", head.title),
        ("models", ", ".join(head.models) + (f"; variants {', '.join(head.variants)}" * bool(head.variants))),
        ("holds", told.counts),
        ("written", f"by {head.author}" + (f", released by {head.approver}" if head.approver else "")),
        *((("issued", f"{head.issued:%-d %B %Y}"),) if head.issued is not None else ()),
        *((("scope", head.scope),) if head.scope is not None else ()),
        *(("changed" if number == 0 else "", text) for number, text in enumerate(head.changes)),
    ]
    if head.unconfirmed:
        rows.append(("to do", f"not yet confirmed for this pump: {', '.join(head.unconfirmed)}"))
    only = f"For practice only: it is {head.practice_only}." if head.practice_only else ""
    blocks = tuple(labelled(hand, label, text, width) for label, text in rows)
    return Chapter("about", verb, blocks, 1, (only,) if only else ())


def _stacks(told: Understood, hand: Hand, width: int, rows: int) -> Iterator[Chapter]:
    """Every stack drawn; two beside each other where there is room."""
    if not told.stacks:
        return
    across = 2 if width >= _TWO_STACKS else 1
    drawn = [piece for stack in told.stacks for piece in _stack(stack, hand, width // across - 1, rows - 1)]
    blocks: list[Drawing] = []
    for at in range(0, len(drawn), across):
        pair = drawn[at : at + across]
        blocks += (side_by_side(pair, width), BLANK)
    sentence = "▲ stands beside the end of a part that looks to where the stack is counted from."
    yield Chapter("stacks", "stacks", tuple(blocks), told.stacks[0].line, (sentence,))


def _stack(stack: StackUnderstood, hand: Hand, width: int, rows: int) -> Iterator[Drawing]:
    only = f" ({', '.join(stack.only)} only)" if stack.only else ""
    parts = [Stacked(hand.words(each.called), end=hand.words(each.facing)) for each in stack.parts]
    for start in range(0, len(parts), max(rows - 1, 1)):
        some = parts[start : start + max(rows - 1, 1)]
        yield draw_stack(hand.words(stack.on), hand.words(stack.from_ + only), some, width, rows)


def _needed(pieces: tuple[Needed, ...], hand: Hand, width: int) -> tuple[Drawing, ...]:
    column = _FOR if width >= _TWO_STACKS else _FOR - 8
    return tuple(in_two_columns(hand, each.what, each.for_, width, column) for each in pieces)


def _caution(caution: Caution, hand: Hand, width: int) -> Iterator[Drawing]:
    word = Sign.FAULTY.around(f" {caution.signal.value} ")
    before = f"before {', '.join(caution.before)}" if caution.before else "before everything"
    column = MARGIN + len(word.text) + 2
    steps = wrap(hand.words(before), width - column - 1)
    lines = wrap(hand.words(caution.text), width - MARGIN - 1)
    canvas = Canvas(width, len(steps) + len(lines))
    canvas.put(0, MARGIN, word.text, word.tone)
    for row, line in enumerate(steps):
        canvas.put(row, column, line, Tone.QUIET)
    for row, line in enumerate(lines, len(steps)):
        canvas.put(row, MARGIN, line)
    yield canvas.lines()
    yield BLANK
