"""A judgement at the desk, by keys: what it asks, what is written, and what the engine refuses."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchcheck.session import commands
from benchcheck.store.recorded import read_recorded
from tests.report import sample
from tests.screens.at_the_desk import REVIEWER, Shelf, at_the_verdict, flowing, outcome_of
from tests.screens.hands import Hands


@pytest.fixture
def shelf(tmp_path: Path) -> Shelf:
    return Shelf(tmp_path)


async def judge(hands: Hands, words: str, *answers: str) -> None:
    """Choose a judgement, and answer what is asked for it."""
    await hands.press("f9")
    await hands.choose(words)
    for answer in answers:
        await hands.enter(answer)


async def test_it_is_accepted_and_the_verdict_says_so(shelf: Shelf) -> None:
    path = shelf.released()
    async with at_the_verdict(path) as hands:
        await judge(hands, "accept it", REVIEWER, "all is there")
        assert outcome_of(path) == "accepted"
        assert "Accepted by R. Outline" in hands.window
        assert "It is in the record: accepted, says R. Outline." in hands.window


async def test_a_later_word_shows_the_earlier_one(shelf: Shelf) -> None:
    path = shelf.released()
    async with at_the_verdict(path) as hands:
        await judge(hands, "accept it", REVIEWER, "all is there")
        await hands.press("f9")
        assert "accepted by R. Outline, because all is there" in hands.window
        await hands.choose("return it")
        await hands.press("enter")  # the name is offered again
        await hands.enter("the customer hears a noise")
        assert outcome_of(path) == "returned"
        assert "accepted by R. Outline on" in flowing(hands.window)


async def test_a_concession_asks_for_its_limit_and_last_day_until_they_hold(shelf: Shelf) -> None:
    path = shelf.released()
    async with at_the_verdict(path) as hands:
        await judge(hands, "accept it under", "for 200 h", "2020-01-01", REVIEWER, "the lip is worn")
        assert "1 January 2020 is past" in hands.window and outcome_of(path) == "released"
        await hands.press("enter", *["backspace"] * 10)
        await hands.enter("2027-03-31")
        await hands.enter(REVIEWER)
        await hands.press("enter")  # the reason still stands there
        judged = read_recorded(path).record.events[-1]
        assert (judged["limit"], judged["expires"]) == ("for 200 h", "2027-03-31")
        assert outcome_of(path) == "accepted under concession"


async def test_nobody_judges_his_own_work(shelf: Shelf) -> None:
    path = shelf.released()
    before = path.read_bytes()
    async with at_the_verdict(path) as hands:
        await judge(hands, "accept it", "Q. Example", "so")
        assert "Q. Example took part in this work; another person judges it" in flowing(hands.window)
        await hands.enter("N. Body")
        await hands.press("enter")
        assert "is not in the register of people" in hands.window
        await hands.press("escape")
        assert "back to the records" in hands.window
    assert path.read_bytes() == before


async def test_what_is_open_or_damaged_is_not_judged(shelf: Shelf) -> None:
    async with at_the_verdict(shelf.open()) as hands:
        await hands.press("f9")
        assert "The work on this pump is not over." in hands.window
        await hands.press("enter")
        assert "back to the records" in hands.window
    async with at_the_verdict(shelf.damaged()) as hands:
        await hands.press("f9")
        assert "nothing is added to it" in flowing(hands.window)


async def test_an_open_deviation_is_decided_on_as_at_the_bench(shelf: Shelf) -> None:
    bench = sample.Bench()
    bench.until("cover-on/fit:G1")
    bench.answer("-138 NBR", why="the kit holds no other one")
    bench.command(commands.stop, "waits for a decision")
    path = shelf.small("4475", bench.events)
    async with at_the_verdict(path) as hands:
        assert "F9 decide on it" in hands.window
        await hands.press("f9")
        assert "the kit holds no other one" in hands.window and "has taken part" in flowing(hands.window)
        await hands.choose("use as is")
        for answer in ("up to 10 bar", "2027-03-31", "T. Sample", "the groove is the same"):
            await hands.enter(answer)
        assert "T. Sample is not entitled to this" in flowing(hands.window)
        await hands.press("enter", "enter")
        await hands.enter(REVIEWER)
        await hands.enter("the groove is the same")
        assert "Decided on deviation 1: use as is." in hands.window and "F9 judge" in hands.window
    decided = read_recorded(path).record.events[-1]
    assert (decided["kind"], decided["by"], decided["limit"]) == ("disposed", REVIEWER, "up to 10 bar")
