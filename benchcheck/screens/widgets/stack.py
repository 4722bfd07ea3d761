"""What is on a shaft or in a bore, in order from a named end, with the way each part faces."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.cells import Drawing, Line, Run, shorten_in_the_middle, width_of
from benchcheck.screens.widgets.signs import Sign


@dataclass(frozen=True)
class Stacked:
    """One part of a stack; `end`, if it has two, is the one that faces the end the stack is counted from."""

    name: str
    sign: Sign = Sign.TO_COME
    end: str = ""


def draw_stack(on: str, from_end: str, parts: Sequence[Stacked], width: int, height: int) -> Drawing:
    """A heading and one line a part, outermost first; where there are too many, the middle ones are counted.

    The part in hand is always among those shown.
    """
    heading = f"on the {on}, from the {from_end}"
    if width_of(heading) > width:
        heading = shorten_in_the_middle(f"{on}, from {from_end}", width)
    room = max(height - 1, 1)
    name_cells = max((width_of(part.name) for part in parts), default=0)
    lines: list[Line] = [(Run(heading),)]
    lines.extend(
        _line(item, name_cells, width) if isinstance(item, Stacked) else (Run(f"  │  {item} more"),)
        for item in _shown(parts, room)
    )
    return tuple(lines)


def _shown(parts: Sequence[Stacked], room: int) -> list[Stacked | int]:
    """The parts to show, with the number of those left out where some are."""
    if len(parts) <= room:
        return list(parts)
    now = next((index for index, part in enumerate(parts) if part.sign is Sign.NOW), 0)
    if room < 3:
        return [parts[now]] if room == 1 else [parts[now], len(parts) - 1]
    first = min(max(0, now - (room - 2) // 2), len(parts) - room + 1)
    if first <= 1:
        kept = parts[: room - 1]
        return [*kept, len(parts) - len(kept)]
    if first + room - 1 >= len(parts):
        kept = parts[len(parts) - room + 1 :]
        return [len(parts) - len(kept), *kept]
    kept = parts[first : first + room - 2]
    return [first, *kept, len(parts) - first - len(kept)]


def _line(part: Stacked, name_cells: int, width: int) -> Line:
    end_cells = width_of(part.end) + 4 if part.end else 0
    name = shorten_in_the_middle(part.name, max(width - 5 - end_cells, 1))
    label = part.sign.around(name)
    gap = " " * max(0, min(name_cells, width - 5 - end_cells) - width_of(name))
    line: Line = (Run("  │", Tone.QUIET), label)
    return (*line, Run(f"{gap}  {part.end} ▲")) if part.end else line
