"""Questions that the screens ask on their own: one sheet each, in a row, with a deed at the end.

A flow is a generator: it yields one item after another, is sent what was answered to each, and returns what
came of it. Esc closes it, and then nothing has happened. An item knows nothing of Textual.
"""

from __future__ import annotations

from collections.abc import Callable, Generator
from dataclasses import dataclass
from typing import Any, Generic, TypeAlias, TypeVar

from benchcheck.screens.behind import Behind, write_how_far
from benchcheck.screens.keys import Deed
from benchcheck.screens.layout import CHOICES_A_PAGE, Hand, Sheet, Work
from benchcheck.screens.listening import Answered, Question, Takes
from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.bands import MARGIN, TEXT_START
from benchcheck.screens.widgets.cells import Canvas, Drawing, Line, width_of

Result = TypeVar("Result")

_LONGEST_FIELD = 200
_A_HAND_WAITS = 0.2
"""Seconds."""


@dataclass(frozen=True)
class Item:
    """One question: large word, what is asked, what Enter does; answers to point at, a field, or neither.

    `beside` stands next to the large word, `lines` are labelled lines below the question. `again` are deeds
    whose key answers too, as a second F6 does. `escape` says what Esc does here; empty: nothing of its own.
    """

    verb: str
    ask: str
    enter: str | Callable[[Hand], str]
    choices: tuple[str, ...] = ()
    field: str = ""
    may_be_empty: bool = False
    most_cells: int = _LONGEST_FIELD
    beside: tuple[str, ...] = ()
    lines: tuple[tuple[str, str], ...] = ()
    again: frozenset[Deed] = frozenset()
    again_words: str = ""
    escape: str = "back to where you were, nothing is written"
    text: str = ""
    """What stands in the field from the beginning."""
    said: str = ""
    """Why the answer before was not taken."""
    told: str = ""
    """What came of the deed before."""
    body: Callable[[Hand], Drawing] | None = None
    """What stands below the question in place of labelled lines."""
    turn: Callable[[str], None] | None = None
    """What a turning key does to the body, where it has more than one page."""
    at: int = -1
    """The choice, from 0, that is pointed at from the beginning."""
    behind: Behind[Any] | None = None
    """What goes on meanwhile, on the first screen: its end answers in place of a key, and Esc stops it."""


@dataclass(frozen=True)
class Reply:
    """What was answered: the place of a choice from 0, the text of the field, and by which key."""

    index: int = -1
    text: str = ""
    deed: Deed = Deed.CONFIRM


Flow: TypeAlias = Generator[Item, Reply, Result]


class Conversation(Generic[Result]):
    """A flow under way: the item that is asked now, or what came of it all."""

    def __init__(self, flow: Flow[Result]) -> None:
        self._flow = flow
        self.item: Item | None = None
        self.result: Result | None = None
        self.number = 0
        """How many items were asked so far: the name of the present one."""
        self._go_on(lambda: next(flow))

    def answer(self, reply: Reply) -> None:
        """Send what was answered; then there is another item, or the result."""
        self._go_on(lambda: self._flow.send(reply))

    def close(self) -> None:
        """Leave it; nothing more happens in it."""
        self._flow.close()
        self.item = None

    def _go_on(self, step: Callable[[], Item]) -> None:
        try:
            self.item = step()
            self.number += 1
        except StopIteration as ended:
            self.item = None
            self.result = ended.value


def waited_for(verb: str, ask: str, behind: Behind[Result], escape: str) -> Flow[Result]:
    """What comes of work behind the screen; how far it is shows once it takes longer than a hand would wait.

    Raises StoreFault where it could not be done. Leaving the flow stops the work.
    """
    try:
        behind.wait(_A_HAND_WAITS)
        if not behind.is_over:
            yield Item(verb, ask, "nothing yet: it runs", behind=behind, escape=escape)
    except GeneratorExit:
        behind.stop()
        raise
    return behind.result


def pages(item: Item) -> int:
    return max(1, -(-len(item.choices) // CHOICES_A_PAGE))


def first_page(item: Item) -> int:
    """The page that is shown first: that of the choice pointed at."""
    return max(item.at, 0) // CHOICES_A_PAGE


def pointed_first(item: Item) -> int | None:
    """The number that is pointed at from the beginning."""
    return item.at % CHOICES_A_PAGE + 1 if item.at >= 0 else None


def shown(item: Item, page: int) -> tuple[str, ...]:
    return item.choices[page * CHOICES_A_PAGE : (page + 1) * CHOICES_A_PAGE]


def question_for(item: Item, name: str, page: int) -> Question:
    """What the listener asks for an item."""
    if item.choices:
        return Question(
            f"{name}/{page}",
            Takes.POINTING,
            choices=len(shown(item, page)),
            if_empty="Point at one first: type its number.",
            answering=item.again,
        )
    if item.field:
        empty = "" if item.may_be_empty else "Nothing is typed yet."
        return Question(name, Takes.TEXT, if_empty=empty, most_cells=item.most_cells, answering=item.again)
    return Question(name, answering=item.again)


def reply_to(item: Item, heard: Answered, page: int) -> Reply:
    index = page * CHOICES_A_PAGE + heard.pointed_at - 1 if heard.pointed_at else -1
    return Reply(index, heard.text, heard.deed)


def item_sheet(item: Item, hand: Hand) -> Sheet:
    """The sheet of an item."""
    work = Work(hand)
    for text in work.verb(item.verb, item.beside):
        work.sentence(text)
    if item.ask:
        work.sentence(item.ask)
    if item.choices:
        work.said()
        texts = shown(item, hand.page)
        work.gap(len(texts) + 1)
        work.choices(texts, keep=len(item.lines))
    elif item.field:
        work.gap(3)
        work.field(item.field, cells=min(24, item.most_cells))
    else:
        work.said()
    if item.behind is not None:
        work.gap(2)
        write_how_far(work, item.behind.how_far(), item.behind.is_stopping)
    if item.body is not None:
        work.gap(1)
        work.draw(work.row, 0, item.body(hand))
    if item.lines:
        work.gap(len(item.lines))
        work.all_labelled(item.lines)
    return Sheet(work.lines(), _enter(item, hand), _hint(item))


def _enter(item: Item, hand: Hand) -> str:
    enter = item.enter if isinstance(item.enter, str) else item.enter(hand)
    if item.choices:
        texts = shown(item, hand.page)
        if not hand.pointed_at or hand.pointed_at > len(texts):
            return nothing_pointed(len(texts))
        return hand.words(f"{enter}: {texts[hand.pointed_at - 1]}")
    if item.field and not item.may_be_empty and not hand.text.strip():
        return "nothing yet: type it first"
    return hand.words(enter)


def nothing_pointed(choices: int) -> str:
    """What Enter does before anything is pointed at."""
    if not choices:
        return "nothing: there is nothing to point at"
    digits = {1: "1", 2: "1 or 2"}.get(choices, f"1 to {choices}")
    return f"nothing yet: point first, with {digits}"


def _hint(item: Item) -> str:
    return f"PgDn for more: {len(item.choices)} in all" if len(item.choices) > CHOICES_A_PAGE else ""


def escape_row(item: Item, width: int, hint: str = "") -> Line:
    """The last row: what Esc does, that F2 helps, and which key does the deed that Enter leaves alone."""
    canvas = Canvas(width, 1)
    canvas.put(0, MARGIN, "Esc")
    canvas.put(0, TEXT_START, item.escape)
    right = item.again_words or hint
    column = width - width_of(right) - 1
    after = TEXT_START + width_of(item.escape) + 3
    if after + 7 < (column if right else width):
        canvas.put(0, after, "F2 help")
    if right and column > TEXT_START + width_of(item.escape):
        canvas.put(0, column, right, Tone.INK)
    return canvas.lines()[0]
