"""A touch on what is written does what its key does; it points at a choice and never answers it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from time import monotonic

import pytest
from textual import events

from benchcheck.screens.app import BenchcheckApp
from benchcheck.screens.first import FirstScreen
from benchcheck.screens.keys import Deed
from benchcheck.screens.listening import AT_ONCE, Answered, Asked, Changed, Question, Refused, Takes
from benchcheck.screens.touching import keys_at
from benchcheck.screens.widgets.cells import Line, Run
from benchcheck.screens.widgets.sheet import Sheet
from benchcheck.screens.widgets.signs import Sign
from benchcheck.store.workspace import Workspace
from tests.pumps import NOW
from tests.screens.window import asking_app, asking_screen, window_text

SHEET = """
Pump 4471.

────────────────────────────────────────────────────────────
  Which? 3 of them.
    1    the closed back of the
         metal case
  ► 2 ◄  the open lip
    3  1 bearing     4   times
   ►1◄ you look into the deep      2  you look into the
       pocket                         shallow pocket
     why  12 of them
────────────────────────────────────────────────────────────
  Enter   records it
  Esc     something else:  F2 help   F4: nobody may   PgDn for more
""".strip("\n")
LINES: tuple[Line, ...] = tuple((Run(text),) for text in SHEET.split("\n"))


def touched(row_holds: str, word: str) -> tuple[str, ...]:
    row = next(at for at, text in enumerate(SHEET.split("\n")) if row_holds in text)
    return keys_at(LINES, row, SHEET.split("\n")[row].index(word))


@pytest.mark.parametrize(
    ("row_holds", "word", "keys"),
    [
        ("closed back", "closed", ("1",)),
        ("closed back", "1", ("1",)),
        ("metal case", "metal", ("1",)),
        ("open lip", "2", ("2",)),
        ("1 bearing", "1 bearing", ("3",)),
        ("1 bearing", "times", ("4",)),
        ("into the deep", "deep", ("1",)),
        ("into the deep", "2", ("2",)),
        ("shallow pocket", "pocket", ("1",)),
        ("shallow pocket", "shallow", ("2",)),
        ("12 of them", "12", ()),
        ("Which?", "3", ()),
        ("Pump 4471", "Pump", ()),
        ("records it", "Enter", ("enter",)),
        ("records it", "it", ("enter",)),
        ("something else", "Esc", ("escape",)),
        ("something else", "else", ("escape",)),
        ("something else", "help", ("f2",)),
        ("something else", "nobody", ("f4",)),
        ("something else", "more", ("pagedown",)),
        ("something else", "  Esc", ()),
    ],
)
def test_what_is_written_there_is_the_key(row_holds: str, word: str, keys: tuple[str, ...]) -> None:
    assert touched(row_holds, word) == keys


def test_beyond_what_is_written_there_is_no_key() -> None:
    assert keys_at(LINES, len(LINES) - 1, 79) == ()
    assert keys_at(LINES, len(LINES) - 2, 79) == ()
    assert keys_at(LINES, 99, 0) == keys_at((), 0, 0) == ()


def test_a_line_of_a_list_stands_for_the_arrows_to_it() -> None:
    rows: list[Line] = [(Run(" " + text),) for text in ("sentences", "sentences", "rule")]
    rows += [(Run(" one"),), (Run(" two"),), (Run("►", Sign.NOW.tone), Run("three")), (Run(" four"),), (), ()]
    rows += [(Run(" below"),), (Run("rule"),), (Run("  Enter   opens"),), (Run("  Esc     back"),)]
    moves = [keys_at(rows, row, 5) for row in range(3, 10)]
    assert moves == [("up", "up"), ("up",), (), ("down",), (), (), ()]


async def test_a_touch_points_and_only_the_row_of_enter_answers() -> None:
    question = Question("which", Takes.POINTING, choices=2, if_empty="Point at one first.")
    app = asking_app(question, choices=("a bearing", "a seal"))
    async with app.run_test() as pilot:
        heard = asking_screen(app).all_heard
        await pilot.click(offset=(12, row_of(app, "a seal")))
        await pilot.click(offset=(12, row_of(app, "a seal")), times=2)
        assert heard and set(map(type, heard)) == {Changed}
        assert asking_screen(app).listener.pointed_at == 2
        await pilot.click(offset=(50, row_of(app, "a seal") + 2))
        await pilot.click(offset=(12, 22), times=2)
        assert [each for each in heard if not isinstance(each, Changed)] == [
            Answered("which", pointed_at=2),
            Refused(),
        ]
        await pilot.click(offset=(window_text(app).splitlines()[-1].index("F2"), 23))
        assert heard[-1] == Asked(Deed.HELP, "f2")


async def test_a_digit_that_is_touched_gets_into_no_field() -> None:
    app = asking_app(Question("reading", Takes.NUMBER), choices=("a bearing", "a seal"))
    async with app.run_test() as pilot:
        await pilot.click(offset=(12, row_of(app, "a seal")))
        assert asking_screen(app).all_heard == [] and asking_screen(app).listener.text == ""


async def test_what_is_pressed_elsewhere_and_let_go_on_enter_is_no_answer() -> None:
    app = asking_app(Question("confirm"))
    async with app.run_test() as pilot:
        await pilot.mouse_down(offset=(12, 10))
        sheet = app.screen.query_one(Sheet)
        sheet.post_message(events.Click(sheet, 12, 22, 0, 0, 1, False, False, False))
        await pilot.pause()
        assert asking_screen(app).all_heard == []


async def test_the_touch_that_brings_the_window_to_the_front_is_no_answer(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    app = asking_app(Question("confirm"))
    async with app.run_test() as pilot:
        await pilot.pause()
        monkeypatch.setattr(app, "monotonic", lambda: monotonic() + 60.0)  # as if it were deaf for so long
        app.post_message(events.AppFocus())
        await pilot.pause()
        await pilot.click(offset=(12, 22))
        assert asking_screen(app).all_heard == [Refused()]


async def test_by_touch_alone_from_an_empty_folder_to_the_first_question(tmp_path: Path) -> None:
    workspace = Workspace(tmp_path)
    app = BenchcheckApp(lambda: FirstScreen(workspace, lambda: NOW), timing=AT_ONCE)

    async with app.run_test() as pilot:

        async def touch(words: str, *, until: Callable[[], bool]) -> None:
            await pilot.click(offset=(20, row_of(app, words)))
            await pilot.click(offset=(12, 22))
            for _ in range(500):
                if until():
                    return
                await pilot.pause(0.01)
            raise AssertionError(window_text(app))

        while "write the demonstration" not in window_text(app):
            await pilot.pause(0.01)
        await touch("write the demonstration", until=lambda: "start on a pump" in window_text(app))
        await touch("start on a pump", until=lambda: "By which procedure" in window_text(app))
        assert not workspace.record_paths()


def row_of(app: BenchcheckApp, words: str) -> int:
    return next(row for row, text in enumerate(window_text(app).splitlines()) if words in text)
