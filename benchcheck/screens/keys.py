"""The keys of every screen, what they are called, and the rows and the help that are made from them.

One table holds them all. A screen says which are live and what each does there; nothing else writes a key's
name. What is typed into a field, and when Enter counts, is in `listening`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from benchcheck.screens.widgets.bands import MARGIN, TEXT_START
from benchcheck.screens.widgets.cells import Canvas, Drawing, Line, width_of, wrap


class Deed(Enum):
    """What a key is for, whatever it is called."""

    CONFIRM = "confirm"
    ELSE = "else"
    POINT = "point"
    TYPE = "type"
    MOVE = "move"
    TURN = "turn"
    READ_ON = "read on"
    TO_END = "to the end"
    HELP = "help"
    FIND = "find"
    DEVIATION = "deviation"
    TRACE = "trace"
    GO_BACK = "go back"
    EXPORT = "export"
    STOP = "stop"
    DECIDE = "decide"


@dataclass(frozen=True)
class Key:
    """A key or a pair of keys: names as the terminal reports them, label, one word, and what it does."""

    deed: Deed
    names: tuple[str, ...]
    label: str
    word: str
    does: str


KEYS: tuple[Key, ...] = (
    Key(
        Deed.CONFIRM,
        ("enter",),
        "Enter",
        "do",
        "the pedal and the keypad's Enter do the same",
    ),
    Key(
        Deed.TYPE,
        (),
        "0 to 9 . ,",
        "type",
        "a reading; Backspace takes one back, comma and point are the same",
    ),
    Key(Deed.POINT, (), "1 to 9", "point", "at a line or a picture; only Enter answers"),
    Key(Deed.MOVE, ("up", "down"), "↑ ↓", "move", "the mark to another line"),
    Key(Deed.TURN, ("left", "right"), "← →", "turn", "the picture by a quarter, to lie as your work lies"),
    Key(Deed.READ_ON, ("pageup", "pagedown"), "PgUp PgDn", "read on", "turns the page, and never answers"),
    Key(Deed.TO_END, ("home", "end"), "Home End", "ends", "turns to the first line or page, or to the last"),
    Key(Deed.ELSE, ("escape",), "Esc", "else", "the acts below as a numbered list; Esc again closes it"),
    Key(Deed.HELP, ("f2",), "F2", "help", "what every key does here"),
    Key(Deed.FIND, ("f3",), "F3", "find", "looks for a record, a pump, a part or a word"),
    Key(Deed.DEVIATION, ("f4",), "F4", "deviation", "something is not as the procedure says"),
    Key(Deed.TRACE, ("f5",), "F5", "trace", "finds the pumps that a wrench, a lot or a person touched"),
    Key(
        Deed.GO_BACK,
        ("f6",),
        "F6",
        "go back",
        "shows what would come apart; Enter then leaves it so",
    ),
    Key(Deed.EXPORT, ("f7",), "F7", "export", "writes what is shown as a file"),
    Key(Deed.STOP, ("f8", "ctrl+q"), "F8", "stop here", "asks what is half done, writes it down, and leaves"),
    Key(Deed.DECIDE, ("f9",), "F9", "decide", "writes a reviewer's decision into the record"),
)

KEY_FOR = {key.deed: key for key in KEYS}
DEED_OF = {name: key.deed for key in KEYS for name in key.names}
"""What a key is for, by the name that the terminal reports."""

TURNING = frozenset({Deed.READ_ON, Deed.TO_END})
"""Deeds that lead to another place in what is too long for one window."""

LISTED = frozenset(key.deed for key in KEYS if key.label.startswith("F"))
"""Deeds that the numbered list offers to keyboards without function keys."""


@dataclass(frozen=True)
class LiveKey:
    """A key as it works on one screen: its word there, or why it does not work there."""

    deed: Deed
    word: str = ""
    does: str = ""
    closed: str = ""

    @property
    def key(self) -> Key:
        return KEY_FOR[self.deed]

    @property
    def shown_word(self) -> str:
        return self.word or self.key.word

    @property
    def shown_does(self) -> str:
        return self.closed or self.does or self.key.does


def turned(place: int, key: str, last: int, page: int = 1) -> int:
    """Where a turning key leads from a place in 0 to `last`; a page is so many places."""
    to = {"home": 0, "end": last, "pagedown": place + page}.get(key, place - page)
    return max(0, min(to, last))


def turned_round(place: int, key: str, count: int) -> int:
    """The same among so many pages of which the first follows the last."""
    if key in KEY_FOR[Deed.TO_END].names:
        return turned(place, key, count - 1)
    return (place + (1 if key == "pagedown" else -1)) % count


def keys_row(live: Sequence[LiveKey], width: int, *, hint: str = "", escape: str = "") -> Line:
    """The last row of a sheet: what Esc lists or does, as far as it fits, and a hint at the right edge.

    A closed key says why in its place, after the open ones. `escape` is what Esc does if it lists nothing.
    """
    listed = [each for each in live if each.deed in LISTED]
    words = [f"{each.key.label} {each.shown_word}" for each in listed if not each.closed]
    words += [f"{each.key.label}: {each.closed}" for each in listed if each.closed]
    canvas = Canvas(width, 1)
    canvas.put(0, MARGIN, "Esc")
    room = width - TEXT_START
    opening = f"{escape}   " if escape else "something else:  "
    while words and width_of(opening + "   ".join(words)) > room:
        if opening and not escape:
            opening = ""
        else:
            words.pop()
    text = opening + "   ".join(words)
    canvas.put(0, TEXT_START, text)
    column = width - width_of(hint)
    if hint and TEXT_START + width_of(text) + 3 <= column:
        canvas.put(0, column, hint)
    return canvas.lines()[0]


def listed_acts(live: Sequence[LiveKey]) -> tuple[LiveKey, ...]:
    """The acts behind Esc in the order of their numbers; a closed one keeps its number and says why."""
    return tuple(each for each in live if each.deed in LISTED)


def help_lines(live: Sequence[LiveKey], enter_does: str, width: int) -> Drawing:
    """One entry a live key: label, word and what it does here, in the order of the table."""
    by_deed = {each.deed: each for each in live}
    rows: list[tuple[str, str, str]] = []
    for key in KEYS:
        each = by_deed.get(key.deed)
        if each is None:
            continue
        does = f"{enter_does}; {key.does}" if key.deed is Deed.CONFIRM else each.shown_does
        lines = wrap(does, width - _HELP_DOES)
        rows.append((key.label, each.shown_word, lines[0]))
        rows.extend(("", "", line) for line in lines[1:])
    canvas = Canvas(width, len(rows))
    for row, (label, word, does) in enumerate(rows):
        canvas.put(row, MARGIN, label)
        canvas.put(row, _HELP_WORD, word)
        canvas.put(row, _HELP_DOES, does)
    return canvas.lines()


_HELP_WORD, _HELP_DOES = 14, 25
