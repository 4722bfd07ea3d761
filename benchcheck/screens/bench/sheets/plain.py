"""Prompts without a picture: a few answers to point at, or words to type."""

from __future__ import annotations

from benchcheck.screens.bench.prompts import offered, pages, shown_choices
from benchcheck.screens.bench.sentences import step_number, step_words
from benchcheck.screens.bench.view import View
from benchcheck.screens.inquiry import nothing_pointed
from benchcheck.screens.layout import CHOICES_A_PAGE, Sheet, Work
from benchcheck.session.handing_over import QUESTIONS as HANDING_OVER
from benchcheck.session.prompt import Choice, Prompt


def as_sentence(text: str) -> str:
    """A text with a capital first, and a full stop unless it ends in a mark of its own."""
    text = text.strip()
    first = text[:1] if text[1:2] == ")" else text[:1].upper()  # "a)" counts, it begins no sentence
    return first + text[1:] + ("" if text.endswith((".", "?", "!", ":")) else ".")


def choice_words(choice: Choice) -> str:
    return choice.words


def notes(prompt: Prompt) -> list[str]:
    """What a prompt has to say besides, without the wrench, which stands in the second sentence."""
    return [note for note in prompt.notes if not note.startswith("with ")]


def step_title(view: View) -> str:
    """The name of the step in hand, as a sentence."""
    number = step_number(view.state, view.prompt.step)
    return (
        as_sentence(step_words(view.state.pump, view.state.pump.steps[number - 1]))
        if number is not None
        else ""
    )


def beside_verb(view: View) -> list[str]:
    """The sentences that belong beside the verb: what is done, or else what the step is called."""
    title = step_title(view)
    return list(view.prompt.do) or (
        [title] if title and title.casefold() not in view.prompt.ask.casefold() else []
    )


def enter_words(view: View) -> str:
    """What Enter will do: with a choice pointed at, that very choice."""
    chosen = chosen_choice(view)
    if chosen is None:
        return nothing_pointed(len(shown_choices(view.prompt, view.page)))
    return view.words(f"{view.prompt.enter}: {chosen.words}")


def chosen_choice(view: View) -> Choice | None:
    shown = shown_choices(view.prompt, view.page)
    return shown[view.pointed_at - 1] if view.pointed_at and view.pointed_at <= len(shown) else None


def pointing_hint(view: View) -> str:
    """The hint in the last row, where the choices have more than one page."""
    count = len(offered(view.prompt))
    return f"PgDn for more: {count} in all" if count > CHOICES_A_PAGE else ""


def begun(view: View, *, beside_drawing: bool = False) -> Work:
    """The work band of a prompt with what can hurt over the verb, and the key to the rest of it.

    Every sheet of a prompt begins so, that none forgets; `beside_drawing` where one reaches up to that row.
    """
    work = Work(view)
    key = "Esc" if pages(view.prompt) > 1 else "PgDn"  # which turns the choices then
    work.caution_line(view.prompt.cautions, key, work.drawing_start if beside_drawing else None)
    return work


def choice_sheet(view: View) -> Sheet:
    """A question with a few answers."""
    prompt = view.prompt
    work = begun(view)
    left = work.verb(prompt.verb, beside_verb(view))
    texts = [choice_words(each) for each in shown_choices(prompt, view.page)]
    for text in left:
        work.labelled("do", text)
    if left:
        work.gap(len(texts) + 3)
    work.sentence(as_sentence(prompt.ask))
    work.said()
    work.gap(len(texts) + 1)
    work.choices(texts, keep=len(notes(prompt)) + (1 if prompt.good else 0))
    if prompt.good:
        work.labelled("good", prompt.good)
    for note in notes(prompt):
        work.labelled("note", note)
    _full_cautions(view, work)
    return Sheet(work.lines(), enter_words(view), pointing_hint(view))


def words_sheet(view: View) -> Sheet:
    """A question answered by words: a name, a number read off a plate, a lot."""
    prompt = view.prompt
    work = begun(view)
    for text in work.verb(prompt.verb, beside_verb(view)):
        work.labelled("do", text)
    work.gap(6)
    work.sentence(as_sentence(prompt.ask))
    work.gap(4)
    work.field(field_label(prompt), cells=24)
    work.gap(2)
    work.all_labelled(view.arrived if not prompt.act else ())
    for note in notes(prompt):
        work.labelled("note", note)
    _full_cautions(view, work)
    if view.text.strip():
        return Sheet(work.lines(), view.words(prompt.enter))
    first = "PgDn reads the card, then type the name" if prompt.question in HANDING_OVER else "type it first"
    return Sheet(work.lines(), f"nothing yet: {first}")


def field_label(prompt: Prompt) -> str:
    """The small word before the field."""
    if prompt.question in ("name", "witness", "second", *HANDING_OVER):
        return "name"
    if prompt.question == "serial":
        return "serial"
    if prompt.question == "size" or prompt.question.startswith("bag"):
        return "bag"
    return "read"


def _full_cautions(view: View, work: Work) -> None:
    """All cautions whole at the foot of the band, where there is room for them."""
    if view.prompt.cautions:
        work.gap(3)
        work.cautions(view.prompt.cautions)
