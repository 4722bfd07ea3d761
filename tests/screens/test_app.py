"""The application: keys to answers, any size at any moment, plain, without colour, texts as they are."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pexpect
import pytest
from textual.geometry import Region

from benchcheck.screens.keys import Deed
from benchcheck.screens.listening import Answered, Asked, Question, Refused, Takes, Timing
from benchcheck.screens.themes import DARK_THEME, LIGHT_THEME, styles_without_colour
from benchcheck.screens.tones import REVERSED, Tone
from benchcheck.screens.widgets.cells import Run
from benchcheck.screens.widgets.sheet import Sheet
from tests.screens.window import asking_app, asking_screen, painted_colours, window_text

NASTY = [
    "[/",
    "[/]",
    "seal [OIL] side",
    "[red]x",
    "[@click=app.quit]x[/]",
    "[$warning]",
    "密封圈",
    "אטם שמן",
    "\\[x]",
]


async def test_a_reading_is_typed_and_answered_once() -> None:
    app = asking_app()
    async with app.run_test() as pilot:
        await pilot.press("1", "8", "comma")
        await pilot.pause()
        assert "  showed  18," in window_text(app)
        await pilot.press("enter", "enter")
        answers = [each for each in asking_screen(app).all_heard if isinstance(each, Answered)]
        assert answers == [Answered("reading", "18,")]


async def test_enter_counts_only_once_the_question_can_be_seen() -> None:
    app = asking_app(Question("confirm"), timing=Timing(deaf=60.0))
    async with app.run_test() as pilot:
        await pilot.pause()
        await pilot.press("enter")
        assert asking_screen(app).all_heard == [Refused()]


async def test_a_window_made_small_takes_no_answer_and_keeps_what_was_typed() -> None:
    app = asking_app()
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("1", "8")
        await pilot.resize_terminal(52, 12)
        await pilot.pause()
        assert "TOO SMALL TO WORK SAFELY" in window_text(app)
        assert "Pump 4471, step 45 of 58." in window_text(app)
        await pilot.press("5", "enter")
        await pilot.resize_terminal(120, 40)
        await pilot.pause()
        assert "  showed  18" in window_text(app).splitlines()[3]
        assert not [each for each in asking_screen(app).all_heard if isinstance(each, Answered)]
        await pilot.press("enter")
        assert asking_screen(app).all_heard[-1] == Answered("reading", "18")


async def test_a_question_with_a_drawing_needs_the_full_size() -> None:
    app = asking_app(least=(80, 24))
    async with app.run_test(size=(79, 24)) as pilot:
        await pilot.pause()
        assert "80 x 24 is the least" in window_text(app)


@pytest.mark.parametrize(
    "size", [(1, 1), (4, 2), (20, 5), (59, 16), (60, 15), (60, 16), (80, 24), (120, 40), (200, 60)]
)
async def test_every_size_shows_something_and_fails_at_none(size: tuple[int, int]) -> None:
    app = asking_app()
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        assert window_text(app).strip()
        for width, height in ((1, 1), (80, 24), size):
            await pilot.resize_terminal(width, height)
        await pilot.pause()
        assert len(window_text(app).split("\n")) == size[1]


@pytest.mark.parametrize("words", NASTY)
async def test_texts_of_a_file_are_shown_letter_for_letter(words: str) -> None:
    app = asking_app(words=words)
    async with app.run_test() as pilot:
        await pilot.pause()
        assert f"    part  {words}" in window_text(app)


async def test_a_command_in_a_text_never_reaches_the_terminal() -> None:
    app = asking_app(words="a\x1b[2Jb\u202ec")
    async with app.run_test() as pilot:
        await pilot.pause()
        assert "a\ufffd[2Jb\ufffdc" in window_text(app)


async def test_plain_is_pure_ascii() -> None:
    app = asking_app(words="Prüfung 密封 ►●═", plain=True)
    async with app.run_test() as pilot:
        await pilot.pause()
        text = window_text(app)
        assert text.isascii()
        assert "Prufung ???? >O=" in text
        assert "-" * 80 in text


@pytest.mark.parametrize("light", [False, True])
async def test_nothing_is_painted_but_in_the_tones_of_the_theme(light: bool) -> None:
    app = asking_app(light=light)
    async with app.run_test() as pilot:
        await pilot.press("1")
        await pilot.pause()
        assert app.theme == (LIGHT_THEME if light else DARK_THEME)
        wanted = {(style.color, style.bgcolor) for style in app.tone_styles().values()}
        for size in ((80, 24), (40, 10)):  # the second is too small to work in, and says so
            await pilot.resize_terminal(*size)
            await pilot.pause()
            assert painted_colours(app) <= wanted


async def test_without_colour_the_terminals_own_inks_are_used() -> None:
    app = asking_app(in_colour=False)
    async with app.run_test() as pilot:
        await pilot.pause()
        styles = app.tone_styles()
        assert all(
            style.color is None and style.bgcolor is None and not style.dim for style in styles.values()
        )
        assert {tone for tone, style in styles.items() if style.reverse and style.bold} == REVERSED
        assert styles == styles_without_colour()


async def test_only_lines_that_changed_are_painted_again(monkeypatch: pytest.MonkeyPatch) -> None:
    app = asking_app()
    async with app.run_test() as pilot:
        await pilot.pause()
        sheet = app.screen.query_one(Sheet)
        painted: list[Region] = []
        monkeypatch.setattr(sheet, "refresh", lambda *regions, **_: painted.extend(regions))
        lines = list(sheet.lines)
        sheet.show(lines)
        assert painted == []
        lines[7] = (Run("another", Tone.NOW),)
        sheet.show(lines)
        assert [region.y for region in painted] == [7]


async def test_a_paste_fills_the_field() -> None:
    from textual import events

    app = asking_app(Question("serial", Takes.TEXT))
    async with app.run_test() as pilot:
        app.screen.query_one(Sheet).post_message(events.Paste("44[/]71"))
        await pilot.pause()
        assert "  showed  44[/]71" in window_text(app)


async def test_no_key_of_textual_itself_is_left() -> None:
    app = asking_app(Question("confirm"))
    async with app.run_test() as pilot:
        await pilot.press("ctrl+p", "ctrl+c", "tab", "q", "ctrl+q")
        await pilot.pause()
        assert app.is_running
        assert asking_screen(app).all_heard == [Asked(Deed.STOP, "ctrl+q")]


async def test_an_editor_cannot_be_opened_where_there_is_no_terminal() -> None:
    app = asking_app()
    async with app.run_test():
        assert app.edit(Path("procedures/a.toml"), line=12) is None


async def test_a_failing_handler_comes_out_of_a_test() -> None:
    app = asking_app()
    with pytest.raises(ZeroDivisionError):
        async with app.run_test() as pilot:
            asking_screen(app).heard = lambda heard: 1 / 0  # type: ignore[method-assign, assignment]
            await pilot.press("1")


# --- in a real terminal ---------------------------------------------------------------------------------

ENTER, F8 = "\r", "\x1b[19~"


def in_a_terminal(
    workspace: Path,
    way: str = "well",
    *,
    environment: dict[str, str] | None = None,
    words: tuple[str, ...] = (),
) -> pexpect.spawn[str]:
    """The program in a pseudo-terminal of 80 by 24, once its first screen is drawn."""
    cleaned = {
        name: value for name, value in os.environ.items() if name not in ("NO_COLOR", "PYTEST_CURRENT_TEST")
    }
    child = pexpect.spawn(
        sys.executable,
        ["-m", "tests.screens.failing_program", way, "--workspace", str(workspace), *words],
        env={**cleaned, "TERM": "xterm-256color", "XDG_STATE_HOME": str(workspace), **(environment or {})},
        dimensions=(24, 80),
        encoding="utf-8",
        timeout=20,
    )
    child.expect("something else")
    time.sleep(0.6)  # Enter is deaf for a moment
    return child


def end_of(child: pexpect.spawn[str]) -> tuple[str, int | None]:
    """All that was still written, and the exit status."""
    child.expect(pexpect.EOF)
    child.close()
    return str(child.before), child.exitstatus


def test_it_ends_well_and_gives_the_terminal_back(tmp_path: Path) -> None:
    child = in_a_terminal(tmp_path)
    child.send(F8)
    written, status = end_of(child)
    assert status == 0
    assert "\x1b[?1049l" in written and "\x1b[?25h" in written


@pytest.mark.parametrize("way", ["in a handler", "in a paint", "in a timer", "in a worker", "in a task"])
def test_a_fault_is_one_sentence_a_log_and_status_70(tmp_path: Path, way: str) -> None:
    child = in_a_terminal(tmp_path, way)
    child.send(ENTER)
    written, status = end_of(child)
    assert status == 70
    after = written.split("\x1b[?1049l")[-1]
    assert "Traceback" not in written and "4471" not in written
    assert after.count("fault") >= 1 and len(after.strip().splitlines()) <= 4
    (log,) = tmp_path.glob("benchcheck/log/*.txt")
    text = log.read_text(encoding="utf-8")
    assert "a fault made on purpose" in text and "Traceback" in text
    assert "4471" not in text


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGHUP, signal.SIGINT])
def test_a_signal_ends_it_in_order(tmp_path: Path, number: signal.Signals) -> None:
    child = in_a_terminal(tmp_path)
    child.kill(number)
    written, status = end_of(child)
    assert status == 128 + number
    assert "\x1b[?1049l" in written


def test_put_to_sleep_and_woken_it_draws_again_and_is_deaf_again(tmp_path: Path) -> None:
    child = in_a_terminal(tmp_path)
    child.send("\x1a")
    child.expect_exact("\x1b[?1049l")
    deadline = time.monotonic() + 10
    while "T" not in _state_of(child.pid) and time.monotonic() < deadline:
        time.sleep(0.05)
    assert "T" in _state_of(child.pid)
    child.kill(signal.SIGCONT)
    child.expect("something else")
    time.sleep(0.8)
    child.send(F8)
    assert end_of(child)[1] == 0


def _state_of(process: int | None) -> str:
    """The state of a process as the system gives it: T while it is stopped."""
    return Path(f"/proc/{process}/stat").read_text().rsplit(")", 1)[1].split()[0]


def test_no_color_sends_no_colour(tmp_path: Path) -> None:
    child = in_a_terminal(tmp_path, environment={"NO_COLOR": "1"})
    before = str(child.before) + str(child.after)
    child.send(F8)
    written, _ = end_of(child)
    assert "38;" not in before + written and "48;" not in before + written


def test_plain_sends_ascii_only(tmp_path: Path) -> None:
    child = in_a_terminal(tmp_path, words=("--plain",))
    before = str(child.before) + str(child.after)
    child.send(F8)
    written, _ = end_of(child)
    assert (before + written).isascii()


def test_drawings_and_the_listener_load_no_textual() -> None:
    modules = [
        "ascii",
        "content",
        "keys",
        "listening",
        "tones",
        *(
            f"widgets.{name}"
            for name in (
                "bands",
                "big_type",
                "clock_face",
                "facing",
                "groove",
                "order_strip",
                "points",
                "ring",
                "ruler",
                "scale",
                "section",
                "stack",
            )
        ),
    ]
    lines = "".join(f"import benchcheck.screens.{name}\n" for name in modules)
    program = f"{lines}import sys\nsys.exit('textual' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", program], check=False).returncode == 0
