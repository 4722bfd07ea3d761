"""The kit, bag by bag: size and rubber are typed, and the list beside them fills."""

from __future__ import annotations

from benchcheck.screens.bench.sheets.plain import as_sentence, begun, beside_verb
from benchcheck.screens.bench.view import View
from benchcheck.screens.layout import Sheet, Work
from benchcheck.screens.widgets.cells import shorten_in_the_middle, width_of
from benchcheck.screens.widgets.section import NO_RING, RING
from benchcheck.screens.widgets.signs import Sign
from benchcheck.session.acts.bags import NO_MORE
from benchcheck.session.kit import rings_needed

_NAME_CELLS = 14
_COUNT_ROWS = 2


def sheet(view: View) -> Sheet:
    """The field on the left, every ring of the pump on the right with how many were counted."""
    prompt, state = view.prompt, view.state
    needs = rings_needed(state.pump)
    counted = sum(min(state.kit.get(name, 0), count) for name, count in needs.items())
    work = begun(view)
    end = work.drawing_start if view.size.full else work.width
    left = work.verb(prompt.verb, beside_verb(view), until=end)
    for text in left:
        work.sentence(text, end)
    work.gap(6)
    work.labelled("next", "size and rubber on the next bag", end)
    work.gap(5)
    work.field("bag", cells=14)
    work.gap(3)
    work.labelled("so far", f"{counted} of {sum(needs.values())} rings", end)
    work.labelled("end", as_sentence(f'type "{NO_MORE}" when there are no more bags'), end)
    if view.size.full:
        _list(view, work, end + 1)
    enter = "counts the ring you typed" if view.text.strip() else "nothing yet: type size and rubber"
    if view.text.strip().casefold() == NO_MORE:
        enter = "ends the count"
    return Sheet(work.lines(), enter)


def _list(view: View, work: Work, column: int) -> None:
    state, needs = view.state, rings_needed(view.state.pump)
    canvas = work.canvas
    canvas.put(work.verb_row, column, "   size and rubber    rings")
    room = work.height - work.verb_row - _COUNT_ROWS
    apart = 2 if room >= 2 * len(needs) else 1
    shown = list(needs.items())[: max(room // apart - 1, 1)]
    row = work.verb_row + 2
    for name, count in shown:
        have = state.kit.get(name, 0)
        sign = Sign.DONE if have >= count else Sign.TO_COME
        run = sign.around(f" {shorten_in_the_middle(view.words(name), _NAME_CELLS):<{_NAME_CELLS}} ")
        canvas.put(row, column, run.text, run.tone)
        rings = " ".join([RING] * min(have, count) + [NO_RING] * max(count - have, 0))
        if width_of(rings) > work.width - column - 22:
            rings = f"{have} of {count}"
        canvas.put(row, column + 22, rings)
        row += apart
    if len(shown) < len(needs):
        canvas.put(row, column + 3, f"and {len(needs) - len(shown)} more")
        row += 1
    canvas.put(min(row + 1, work.height - 1), column, f"{RING} counted   {NO_RING} still to find")
