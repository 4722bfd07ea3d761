"""Which sheet a prompt gets, and the whole of it: the sentences, the ruler, the work, the keys."""

from __future__ import annotations

from collections.abc import Sequence

from benchcheck.screens.bench import sentences
from benchcheck.screens.bench.sheets import (
    confirm,
    facing,
    grooves,
    instruments,
    kit,
    measure,
    outside,
    plain,
    release,
    stack,
    tighten,
    waiting,
)
from benchcheck.screens.bench.view import View
from benchcheck.screens.keys import LiveKey, keys_row
from benchcheck.screens.layout import Sheet
from benchcheck.screens.widgets.bands import Bands
from benchcheck.session.prompt import (
    ClockPicture,
    FacingPicture,
    Form,
    GroovePicture,
    Prompt,
    RingPicture,
    StackPicture,
)


def sheet_for(view: View) -> Sheet:
    """The changing half of the sheet for a prompt of the engine."""
    prompt = view.prompt
    if prompt.question == "outside":
        return outside.sheet(view)
    if prompt.question.startswith("bag"):
        return kit.sheet(view)
    if prompt.question.startswith(("wrench", "gauge")):
        return instruments.sheet(view)
    if prompt.question == "second":
        return release.sheet(view)
    match prompt.picture:
        case ClockPicture():
            return waiting.sheet(view)
        case FacingPicture():
            return facing.sheet(view)
        case RingPicture():
            return tighten.sheet(view)
        case StackPicture():
            return stack.sheet(view)
        case GroovePicture():
            return grooves.sheet(view)
    if prompt.form is Form.WAIT:
        return waiting.sheet(view)
    if prompt.form is Form.NUMBER:
        return measure.sheet(view)
    if prompt.form is Form.CHOICE:
        return plain.choice_sheet(view)
    if prompt.form is Form.WORDS:
        return plain.words_sheet(view)
    return confirm.sheet(view)


def needs_drawing(prompt: Prompt) -> bool:
    """Whether the prompt cannot be answered without its drawing."""
    return isinstance(prompt.picture, FacingPicture | GroovePicture | StackPicture)


def bands_for(view: View, sheet: Sheet, live: Sequence[LiveKey]) -> Bands:
    """The sheet with its sentences, ruler and keys."""
    return Bands(
        first=sentences.which_pump(view),
        second=sentences.who_and_what(view),
        ruler=sentences.ruler(view),
        work=sheet.work,
        enter=sheet.enter,
        keys=keys_row(live, view.size.width, hint=sheet.hint),
    )
