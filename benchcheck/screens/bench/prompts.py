"""What a prompt of the engine asks of the listener, and how what was heard becomes an answer again."""

from __future__ import annotations

from benchcheck.screens.layout import CHOICES_A_PAGE
from benchcheck.screens.listening import Answered, Question, Takes
from benchcheck.session.prompt import Choice, Form, Prompt, RingPicture

POSITION_MARK = ":"
_LONGEST_FIELD = 60


def offered(prompt: Prompt) -> tuple[Choice, ...]:
    """The choices that can be pointed at."""
    return tuple(each for each in prompt.choices if each.serves)


def shown_choices(prompt: Prompt, page: int) -> tuple[Choice, ...]:
    """The choices of one page."""
    start = page * CHOICES_A_PAGE
    return offered(prompt)[start : start + CHOICES_A_PAGE]


def names_position(prompt: Prompt) -> bool:
    """Whether the answer may begin with the position it is about."""
    picture = prompt.picture
    return isinstance(picture, RingPicture) and picture.count > 1 and not prompt.choices


def pages(prompt: Prompt) -> int:
    """Pages that the choices fill."""
    return max(1, -(-len(offered(prompt)) // CHOICES_A_PAGE))


def question_for(prompt: Prompt, page: int) -> Question:
    """What the listener asks for a prompt, on one page of its choices."""
    if prompt.form is Form.CHOICE:
        return Question(
            f"{prompt.id}/{page}",
            Takes.POINTING,
            choices=len(shown_choices(prompt, page)),
            if_empty="Point at one first: type its number.",
        )
    if prompt.form is Form.NUMBER:
        empty = "" if prompt.empty is not None else f"Type the reading{_in_unit(prompt)} first."
        letters = POSITION_MARK if names_position(prompt) else "-"
        return Question(
            prompt.id, Takes.NUMBER, if_empty=empty, letters=letters, unit=bool(prompt.unit), most_cells=16
        )
    if prompt.form is Form.WORDS:
        empty = "" if prompt.empty is not None else "Nothing is typed yet."
        return Question(prompt.id, Takes.TEXT, if_empty=empty, most_cells=_LONGEST_FIELD)
    if names_position(prompt):
        return Question(prompt.id, Takes.NUMBER, letters=POSITION_MARK, most_cells=4)
    return Question(prompt.id)


def _in_unit(prompt: Prompt) -> str:
    return f" in {prompt.unit}" if prompt.unit else ""


def answer_to(prompt: Prompt, heard: Answered, page: int) -> str:
    """The engine's answer: the value of a choice, or the text of the field."""
    if prompt.form is Form.CHOICE:
        assert heard.pointed_at is not None
        return shown_choices(prompt, page)[heard.pointed_at - 1].value
    if prompt.form is Form.CONFIRM and heard.text:
        return heard.text.rstrip(POSITION_MARK) + POSITION_MARK
    return heard.text
