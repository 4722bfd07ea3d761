"""Texts of a procedure that would be commands elsewhere, long names, wide letters: through every sheet.

The sheets are pure functions, so every kind of question of a whole rebuild is drawn at every size here.
"""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from benchcheck.screens.ascii import drawing_in_ascii
from benchcheck.screens.bench.live import live_keys
from benchcheck.screens.bench.sheet_for import bands_for, needs_drawing, sheet_for
from benchcheck.screens.bench.sheets.refused import Refused
from benchcheck.screens.bench.sheets.refused import sheet as refused_sheet
from benchcheck.screens.bench.view import View
from benchcheck.screens.layout import Sheet, Size
from benchcheck.screens.widgets.bands import set_bands
from benchcheck.screens.widgets.cells import Drawing, line_width, plain_text
from benchcheck.session.engine import answer
from benchcheck.session.prompt import Outcome
from tests.screens.prepared import MAIN_PUMP, Moment, Run, careful_run, opened

NASTY = "[/ [OIL] [red] [@click=app.quit]x[/] 密封圈 אטם"
LONG = "a very long name that somebody gave to a part of this pump in the year nobody remembers"
_TEXTS = re.compile(
    r'(\b(?:name|text|what|where|lubricate|because|datum|title|seen\.(?:\w+|"[^"]*")) = )"((?:[^"\\]|\\.)*)"'
)
SIZES = (Size(80, 24), Size(120, 40), Size(60, 16), Size(79, 23), Size(200, 70))


@cache
def rebuild_with(text: str) -> Run:
    """The careful run of the main pump with a text added to every text of its procedure."""
    source = (Path(__file__).parents[2] / "procedures" / MAIN_PUMP).read_text(encoding="utf-8")
    return careful_run(content=_TEXTS.sub(rf'\1"\2 {text}"', source).encode())


def kinds(run: Run, most: int = 3) -> list[Moment]:
    """A few questions of each kind."""
    found: list[Moment] = []
    counted: Counter[object] = Counter()
    for moment in run.moments:
        prompt = moment.prompt
        if prompt is None:
            continue
        kind = (prompt.verb, prompt.form, type(prompt.picture), prompt.question.split(" ")[0])
        counted[kind] += 1
        if counted[kind] <= most:
            found.append(moment)
    return found


class Asked:
    """What the keys need to know of the work."""

    def __init__(self, moment: Moment) -> None:
        self.prompt, self.refused = moment.prompt, None


def drawn(moment: Moment, view: View, sheet: Sheet) -> Drawing:
    """The whole window."""
    live = live_keys(Asked(moment))  # type: ignore[arg-type]
    return set_bands(bands_for(view, sheet, live), view.size.width, view.size.height)


def views(moment: Moment, size: Size, *, plain: bool = False) -> list[View]:
    """A question untouched, and with something typed or pointed at and something to say."""
    assert moment.prompt is not None
    common = {"state": moment.state, "prompt": moment.prompt, "now": moment.now, "size": size, "plain": plain}
    return [
        View(**common),  # type: ignore[arg-type]
        View(**common, text="3", pointed_at=1, said="Not this: [/] 密."),  # type: ignore[arg-type]
    ]


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size.width}x{size.height}")
@pytest.mark.parametrize("text", [NASTY, LONG, "封" * 60], ids=["commands", "long", "wide"])
def test_every_sheet_of_a_rebuild_fits_its_window(text: str, size: Size) -> None:
    for moment in kinds(rebuild_with(text)):
        assert moment.prompt is not None
        if needs_drawing(moment.prompt) and not size.full:
            continue
        for view in views(moment, size):
            lines = drawn(moment, view, sheet_for(view))
            assert len(lines) == size.height
            assert {line_width(line) for line in lines} == {size.width}, moment.prompt.act


def test_texts_are_literal_on_the_sheets_that_hold_them() -> None:
    shown = 0
    for moment in rebuild_with(NASTY).moments:
        if moment.prompt is None:
            continue
        view = views(moment, Size(200, 70))[0]
        window = " ".join(" ".join(map(plain_text, drawn(moment, view, sheet_for(view)))).split())
        shown += NASTY in window
        assert "[OIL]" in window or moment.prompt.question == "name", moment.prompt.act
    assert shown > 250


@pytest.mark.parametrize("size", SIZES[:3], ids=lambda size: f"{size.width}x{size.height}")
def test_plain_is_ascii_and_as_wide(size: Size) -> None:
    for moment in kinds(rebuild_with(NASTY)):
        assert moment.prompt is not None
        if needs_drawing(moment.prompt) and not size.full:
            continue
        for view in views(moment, size, plain=True):
            lines = drawing_in_ascii(drawn(moment, view, sheet_for(view)))
            assert {line_width(line) for line in lines} == {size.width}
            assert all(plain_text(line).isascii() for line in lines)


@pytest.mark.parametrize("size", SIZES[:3], ids=lambda size: f"{size.width}x{size.height}")
def test_every_wrong_choice_is_refused_on_a_sheet_that_fits(size: Size) -> None:
    refused_ones = 0
    for moment in kinds(rebuild_with(NASTY)):
        prompt = moment.prompt
        assert prompt is not None
        for given in (*(each.value for each in prompt.choices), "0", "99999", NASTY):
            outcome = answer(moment.state, prompt.id, given, moment.now)
            if not isinstance(outcome, Outcome):
                continue
            refused_ones += 1
            view = views(moment, size)[0]
            lines = drawn(moment, view, refused_sheet(view, Refused(outcome, given, "mends it")))
            assert {line_width(line) for line in lines} == {size.width}
            window = "".join(map(plain_text, lines))
            assert "wrong" in window
    assert refused_ones > 100


def test_a_serial_of_any_length_leaves_the_step_to_be_read(tmp_path: Path) -> None:
    sitting = opened(tmp_path, serial="S" * 60)
    moment = careful_run().moments[40]
    assert moment.prompt is not None
    header = replace(moment.state.header, serial="S" * 60)
    state = replace(moment.state, header=header)
    for width in (60, 80, 120):
        view = View(state=state, prompt=moment.prompt, now=moment.now, size=Size(width, 24))
        first = plain_text(drawn(moment, view, sheet_for(view))[0])
        assert "tep 6 of" in first and "Pump SSS" in first, first
    sitting.record.close()
