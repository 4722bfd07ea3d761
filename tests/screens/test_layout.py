"""The work band: what can be pointed at is seen, however long its words are."""

from __future__ import annotations

import re

import pytest

from benchcheck.screens.layout import Hand, Size, Work
from tests.screens.pictures import as_text

LONG = "the cartridge ring: the side with the sharp edges, where a fingernail catches on the rim of it, twice"


@pytest.mark.parametrize("size", [Size(60, 16), Size(80, 24), Size(120, 40)])
@pytest.mark.parametrize("count", [2, 5, 7])
def test_every_choice_of_a_page_has_its_row(size: Size, count: int) -> None:
    work = Work(Hand(size=size))
    work.row = min(work.row, work.height - count)
    work.choices([LONG] * count)
    assert re.findall(r"^    (\d)    the cart", as_text(work.lines()), re.MULTILINE) == [
        str(number) for number in range(1, count + 1)
    ]


def test_words_of_choices_are_whole_where_they_have_room() -> None:
    work = Work(Hand(size=Size(80, 24)))
    work.choices([LONG] * 5)
    text = " ".join(as_text(work.lines()).split())
    assert text.count("of it, twice") == 5 and "…" not in text
