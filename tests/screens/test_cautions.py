"""What can hurt is seen whole on the sheet that asks for it, or the sheet says by which key it is read."""

from __future__ import annotations

import re

import pytest

from benchcheck.screens.bench.sheet_for import sheet_for
from benchcheck.screens.bench.view import View
from benchcheck.screens.layout import Hand, Size, Work
from benchcheck.screens.widgets.cells import plain_text
from benchcheck.session.prompt import Prompt
from tests.screens.pictures import as_text
from tests.screens.prepared import careful_run

SIZES = (Size(80, 24), Size(120, 40), Size(60, 16))
MORE = re.compile(r"(\d more|more): (PgDn|Esc)\b")


def words_of(text: str) -> str:
    return " ".join(re.sub(r"[^\w.,;:]", " ", text).split())


def all_are_seen(prompt: Prompt, text: str) -> bool:
    return all(words_of(each.text) in words_of(text) for each in prompt.cautions)


@pytest.mark.parametrize("size", SIZES)
def test_no_caution_of_a_rebuild_is_left_out_without_a_word(size: Size) -> None:
    seen = 0
    for moment in careful_run().moments:
        prompt = moment.prompt
        if prompt is None or not prompt.cautions:
            continue
        view = View(state=moment.state, prompt=prompt, now=moment.now, size=size)
        text = "\n".join(plain_text(line) for line in sheet_for(view).work)
        seen += 1
        assert all_are_seen(prompt, text) or MORE.search(text), f"{prompt.id}\n{text}"
        assert f"! {prompt.cautions[0].signal.value} !" in text, f"{prompt.id}\n{text}"
    assert seen > 50


def test_where_all_have_room_nothing_more_is_promised() -> None:
    prompt = next(
        each.prompt for each in careful_run().moments if each.prompt and len(each.prompt.cautions) > 1
    )
    for rows, promised in ((0, True), (9, False)):
        work = Work(Hand(size=Size(80, 24)))
        work.caution_line(prompt.cautions, "PgDn")
        work.row = work.height - rows
        work.cautions(prompt.cautions)
        text = as_text(work.lines())
        assert bool(MORE.search(text)) is promised and (promised or all_are_seen(prompt, text)), text
