"""What the check has to say, drawn: how many of each, and each finding with its line and the place marked."""

from __future__ import annotations

from collections.abc import Sequence

from benchcheck.procedure.finding import Finding, Severity
from benchcheck.report.findings import guilty_line
from benchcheck.screens.content import literal
from benchcheck.screens.layout import Hand
from benchcheck.screens.procedures.shelf import Book
from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.bands import MARGIN
from benchcheck.screens.widgets.cells import Canvas, Drawing, Run, width_of, wrap
from benchcheck.screens.widgets.signs import Sign

_TEXT = 6
"""Column at which the sentences of a finding begin."""


def verdict(book: Book) -> str:
    """The large word: what the author has to know first."""
    if book.fault or not book.reads:
        return "does not read"
    if book.checking and not book.lines:
        return "checking"
    worst = next((each for each in Severity if book.count(each)), None)
    return "nothing found" if worst is None else _counted(book.count(worst), worst)


def in_words(book: Book) -> str:
    """How many findings of each kind, the worst first."""
    if book.fault:
        return "cannot be opened"
    if book.checking:
        return "being checked"
    counts = [_counted(book.count(each), each) for each in Severity if book.count(each)]
    if book.silenced:
        counts.append(f"{len(book.silenced)} silenced")
    return ("" if book.reads else "does not read: ") + (", ".join(counts) or "nothing found")


def sign_of(book: Book) -> Sign:
    """The sign of a procedure in a list: faulty with an error or a warning, done where all is well."""
    if book.checking and not book.lines:
        return Sign.TO_COME
    bad = book.fault or book.count(Severity.ERROR) or book.count(Severity.WARNING)
    return Sign.FAULTY if bad else Sign.DONE


def _counted(number: int, severity: Severity) -> str:
    if severity is Severity.ADVICE:
        return f"{number} advice"
    return f"{number} {severity.value}{'s' if number > 1 else ''}"


def findings_blocks(book: Book, current: int, hand: Hand, width: int) -> tuple[Drawing, ...]:
    """Each finding whole, then the silenced ones with their reasons."""
    if book.fault:
        return (_sentences(hand, [book.fault], width),)
    if book.checking and not book.lines:
        return (_sentences(hand, ["Being checked."], width),)
    blocks = [
        _block(finding, number, number == current, book.lines, hand, width)
        for number, finding in enumerate(book.findings)
    ]
    if not blocks:
        blocks.append(_sentences(hand, ["Nothing was found."], width))
    blocks += [
        _sentences(
            hand,
            [f"silenced, line {each.finding.place.line}: {each.finding.rule}", f"because: {each.reason}"],
            width,
        )
        for each in book.silenced
    ]
    return tuple(blocks)


def sign_in_front(number: int) -> Run:
    """How the finding in hand is marked, by its place from 0."""
    return Sign.NOW.around(str(number + 1))


def findings_panel(book: Book, current: int, hand: Hand, width: int, rows: int) -> Drawing:
    """As many findings as have room beside a page, among them the one in hand."""
    blocks = findings_blocks(book, current, hand, width)
    return _fitted(blocks, min(current, len(blocks) - 1), width, rows)


def _fitted(blocks: Sequence[Drawing], current: int, width: int, rows: int) -> Drawing:
    """Blocks from the first on, or from as far down as it takes to show the current one, whole."""
    first = 0
    while first < current and sum(len(each) + 1 for each in blocks[first : current + 1]) > rows:
        first += 1
    canvas = Canvas(width, rows)
    row = 0
    for at, block in enumerate(blocks[first:], first):
        left = len(blocks) - at
        room = rows - row - (1 if left > 1 else 0)
        if len(block) > room and at != current:
            canvas.put(rows - 1, _TEXT, f"and {left} more")
            break
        canvas.put_drawing(row, 0, block[: max(room, 1)])
        row += len(block) + 1
    return canvas.lines()


def _block(
    finding: Finding, number: int, current: bool, lines: Sequence[bytes], hand: Hand, width: int
) -> Drawing:
    """Severity, rule and place; the line with its mark; what is wrong, and what to write instead."""
    place = f"line {finding.place.line}:{finding.place.column}"
    head = wrap(f"{finding.severity.value:9}{place}  {finding.rule}", width - _TEXT - 1)
    said = wrap(hand.words(finding.message), width - _TEXT - 1)
    mend = wrap(hand.words(finding.remedy), width - _TEXT - 1)
    guilty = guilty_line(finding.place, lines, width - _TEXT - len(str(finding.place.line)) - 6)
    canvas = Canvas(width, len(head) + len(said) + len(mend) + (2 if guilty is not None else 0))
    run = sign_in_front(number) if current else Sign.TO_COME.around(str(number + 1))
    canvas.put(0, MARGIN, run.text, run.tone)
    for row, line in enumerate(head):
        canvas.put(row, _TEXT, line)
    if finding.severity is Severity.ERROR:
        canvas.put(0, _TEXT, finding.severity.value, Tone.WRONG)
    row = len(head)
    for line in said:
        canvas.put(row, _TEXT, line)
        row += 1
    if guilty is not None:
        text, mark = guilty
        margin = f"{finding.place.line} │ "
        canvas.put(row, _TEXT, margin, Tone.QUIET)
        canvas.put(row, _TEXT + width_of(margin), literal(text))
        canvas.put(row + 1, _TEXT + width_of(margin) + mark, "▲", Tone.WRONG)
        row += 2
    for line in mend:
        canvas.put(row, _TEXT, line)
        row += 1
    return canvas.lines()


def _sentences(hand: Hand, texts: Sequence[str], width: int) -> Drawing:
    lines = [line for text in texts for line in wrap(hand.words(text), width - _TEXT - 1)]
    canvas = Canvas(width, len(lines))
    for row, line in enumerate(lines):
        canvas.put(row, _TEXT, line)
    return canvas.lines()
