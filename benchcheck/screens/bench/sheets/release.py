"""A second name: the agreement on a verdict, and at the end the release with all that stands against it."""

from __future__ import annotations

from benchcheck.assembly.refusal import Refusal
from benchcheck.procedure.model import Phase
from benchcheck.screens.bench.sheets.plain import as_sentence, begun, notes, words_sheet
from benchcheck.screens.bench.view import View
from benchcheck.screens.layout import Sheet, Work
from benchcheck.screens.widgets.cells import wrap
from benchcheck.screens.widgets.signs import Sign
from benchcheck.session.acts.sign import stands_against
from benchcheck.session.closing import put_in_here
from benchcheck.session.engine import next_act, steps_done

_COLUMN = 10


def against(view: View) -> tuple[Refusal, ...]:
    """What stands against the release; empty for any other signature."""
    act = next_act(view.state)
    if act is None or act.phase is not Phase.RELEASE:
        return ()
    return stands_against(view.state, act, view.now)


def sheet(view: View) -> Sheet:
    prompt = view.prompt
    refusals = against(view)
    if refusals:
        return _not_yet(view, refusals)
    if prompt.verb != "RELEASE":
        return words_sheet(view)
    work = begun(view)
    work.verb(
        prompt.verb,
        ["Nothing stands against it.", "Another person releases the pump, with a name of their own."],
    )
    work.gap(8)
    work.field("name", cells=24)
    work.gap(6)
    work.all_labelled(summary_lines(view))
    for note in notes(prompt):
        work.labelled("note", note)
    enter = view.words(prompt.enter) if view.text.strip() else "nothing yet: the second person types a name"
    return Sheet(work.lines(), enter)


def _not_yet(view: View, refusals: tuple[Refusal, ...]) -> Sheet:
    work = Work(view)
    count = len(refusals)
    work.verb(
        "not yet",
        [
            f"{_in_words(count)} stand{'s' if count == 1 else ''} against it.",
            "Each is mended, or decided by a second person, never by Enter.",
        ],
    )
    work.said()
    work.gap(6)
    for number, refusal in enumerate(refusals, 1):
        lines = wrap(view.words(as_sentence(refusal.wrong)), work.width - _COLUMN - 3)
        mend = wrap(view.words(f"mend: {refusal.mend}"), work.width - _COLUMN - 3) if refusal.mend else ()
        if work.rows_left < len(lines) + len(mend) + (1 if number < count else 0):
            work.canvas.put(work.row, _COLUMN, f"and {count - number + 1} more")
            break
        run = Sign.FAULTY.around(str(number))
        work.canvas.put(work.row, 2, run.text, run.tone)
        for line in (*lines, *mend):
            work.canvas.put(work.row, _COLUMN, line)
            work.row += 1
        work.gap(2)
    decided = any(each.rule == "deviation-open" for each in refusals)
    enter = "goes to the first deviation, for an entitled person to decide on" if decided else "looks again"
    return Sheet(work.lines(), enter)


def _in_words(count: int) -> str:
    words = ("No thing", "One thing", "Two things", "Three things", "Four things", "Five things")
    return words[count] if count < len(words) else f"{count} things"


def summary_lines(view: View) -> list[tuple[str, str]]:
    """What was done, in a few labelled lines."""
    state = view.state
    pump = state.pump
    here = put_in_here(state)
    rings = [each for each in pump.grooves if state.assembly.living_rings(each)]
    read = sum(each in here for each in rings)
    came_in = f"; {len(rings) - read} as they came in" if len(rings) > read else ""
    held = [each for each in state.assembly.held if each in pump.groups]
    groups = ", ".join(
        f"{pump.groups[each].called} {pump.groups[each].count}" for each in held if each in here
    )
    left_alone = ", ".join(pump.groups[each].called for each in held if each not in here)
    groups = (groups or "none") + (f"; as they came in: {left_alone}" if left_alone else "")
    deviations = len(state.deviations)
    done = state.closed.steps_done if state.closed is not None else steps_done(state)
    return [
        ("steps", f"{done} of {len(pump.steps)}"),
        (
            "rings",
            f"{read} of {len(pump.grooves)}" + (", each read groove by groove" if read else "") + came_in,
        ),
        ("screws", groups),
        ("wrench", ", ".join(state.wrenches_used) or "none"),
        ("lots", ", ".join(state.lots) or "none"),
        ("people", ", ".join(state.people)),
        (
            "changed",
            f"{deviations} deviation{'s' if deviations != 1 else ''}, {state.voided} confirmations voided",
        ),
    ]
