"""Which wrench for a group, which gauge for a reading: those that serve, and why each other one does not."""

from __future__ import annotations

from benchcheck.screens.bench.prompts import shown_choices
from benchcheck.screens.bench.sheets.plain import (
    as_sentence,
    begun,
    beside_verb,
    chosen_choice,
    enter_words,
    pointing_hint,
)
from benchcheck.screens.bench.view import View
from benchcheck.screens.layout import Sheet
from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.cells import shorten_in_the_middle, width_of


def sheet(view: View) -> Sheet:
    """What is asked of it, the instruments to point at, and the others with their reasons."""
    of_gauges = view.prompt.question == "gauge"
    prompt = view.prompt
    work = begun(view)
    for text in work.verb(prompt.verb, beside_verb(view)):
        work.sentence(text)
    work.row -= 0 if work.roomy else 1
    fit = shown_choices(prompt, view.page)
    others = [each for each in prompt.choices if not each.serves]
    work.sentence(as_sentence(prompt.ask))
    work.said()
    work.gap(len(fit) + len(others) + 3)
    if not fit:
        kind = "gauge" if of_gauges else "wrench"
        work.sentence(f"No {kind} in the register serves here; F4 says how to go on.")
        work.gap()
    cells = max((width_of(each.value) for each in prompt.choices), default=0)
    for number, each in enumerate(fit, 1):
        name = view.words(each.value)
        work.choice(number, f"{name}{' ' * max(cells - width_of(name), 0)}   {each.words}")
        if work.rows_left > 2 * (len(fit) - number) + len(others) + 3:
            work.row += 1
    if others:
        work.gap(len(others) + 1)
        work.sentence(f"Not for this {'reading' if of_gauges else 'joint'}, and why:")
    for each in others:
        if work.rows_left <= 0:
            break
        mark = f"! {view.words(each.value)} !"
        work.canvas.put(work.row, 2, mark, Tone.WRONG)
        column = 2 + max(cells + 4, width_of(mark)) + 2
        reason = view.words(each.words.removeprefix("not for this: "))
        work.canvas.put(work.row, column, shorten_in_the_middle(reason, work.width - column - 1))
        work.row += 1
    chosen = chosen_choice(view)
    enter = enter_words(view) if chosen is None else f"{prompt.enter}: {chosen.value}, {chosen.words}"
    return Sheet(work.lines(), view.words(enter), pointing_hint(view))
