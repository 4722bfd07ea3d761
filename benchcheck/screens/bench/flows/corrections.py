"""One of the last answers was wrong: it is taken back with a reason, and asked again."""

from __future__ import annotations

from benchcheck.screens.bench.work import BenchFlow, Work, said
from benchcheck.screens.inquiry import Item
from benchcheck.session import commands
from benchcheck.session.events import ActEvent

_TELLING = ("what", "question", "value", "unit", "count", "size", "material", "groove", "group", "position")


def corrections(work: Work) -> BenchFlow:
    """Choose the answer, say why, take it back."""
    message = ""
    while True:
        last = tuple(commands.correctable(work.state))
        if not last:
            yield Item(
                "correct",
                "None of the last answers can be corrected here; F6 goes back to a thing.",
                "goes back to the work",
            )
            return ""
        chosen = yield Item(
            "correct",
            "Which answer was wrong? The last one stands first.",
            "asks why",
            choices=tuple(answer_in_words(each) for each in last),
            said=message,
        )
        event = last[chosen.index]
        why = yield Item(
            "correct",
            f"{answer_in_words(event)}. Why is it wrong? One line.",
            "takes it back; it stays in the record, and is asked again",
            field="why",
        )
        outcome = work.command(commands.correct, event.number, why.text)
        if outcome is None:
            return "Taken back; it is asked again."
        message = said(outcome)


def answer_in_words(event: ActEvent) -> str:
    """An answer of the record in a line."""
    table = event.as_table()
    told = [str(table[key]) for key in _TELLING if table.get(key) not in (None, "")]
    return f"event {event.number}, {event.act.split('/')[0]}: {', '.join(told) or event.kind}"
