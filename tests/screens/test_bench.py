"""The bench under a hand: what a key does, when it counts, and what stands in the record after it."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path

import pytest
from textual import events

from benchcheck.screens.listening import Timing
from benchcheck.session import engine
from benchcheck.session.prompt import Form, Prompt
from benchcheck.session.state import State
from benchcheck.store.disk import StoreFault
from benchcheck.store.records import RecordFile
from tests.screens.hands import Hands, at_the_bench, at_work
from tests.screens.prepared import Moment, moment_of


def step(name: str, question: str = "") -> Moment:
    """The first question of a step, or the one of that name in it."""
    return moment_of(lambda prompt: prompt.step == name and question in ("", prompt.question))


def act(name: str, question: str = "") -> Moment:
    return moment_of(lambda prompt: prompt.act == name and question in ("", prompt.question))


def confirm(prompt: Prompt) -> bool:
    return prompt.form is Form.CONFIRM and prompt.step == "open-wet"


# --- when Enter counts ----------------------------------------------------------------------------------


async def test_enter_is_deaf_until_the_question_could_be_read(tmp_path: Path) -> None:
    async with at_work(tmp_path, moment_of(confirm), timing=Timing(deaf=60.0)) as hands:
        number = hands.record.state.number
        await hands.press("enter")
        assert hands.record.state.number == number


async def test_five_queued_enters_confirm_one(tmp_path: Path) -> None:
    async with at_work(tmp_path, moment_of(confirm), timing=Timing(deaf=0.3)) as hands:
        number = hands.record.state.number
        await asyncio.sleep(0.4)
        for _ in range(5):
            hands.app.post_message(events.Key("enter", None))
        await hands.settle()
        await asyncio.sleep(0.4)
        assert hands.record.state.number == number + 1
        await hands.press("enter")
        assert hands.record.state.number == number + 2


async def test_a_confirm_asks_once_before_it_is_written_and_once_after(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked_after: list[int] = []

    def counted(state: State, now: datetime, ask: Callable[..., Prompt | None] = engine.ask) -> Prompt | None:
        asked_after.append(state.number)
        return ask(state, now)

    async with at_work(tmp_path, moment_of(confirm)) as hands:
        number = hands.record.state.number
        monkeypatch.setattr(engine, "ask", counted)
        await hands.press("enter")
        assert asked_after == [number, number + 1]


async def test_a_scanner_never_answers_where_nothing_is_typed(tmp_path: Path) -> None:
    async with at_work(tmp_path, moment_of(confirm), timing=Timing(deaf=0.0, burst_gap=5.0)) as hands:
        number = hands.record.state.number
        await hands.type("4471")
        await hands.press("enter")
        assert "Read 4471; nothing asked for it." in hands.window
        assert hands.record.state.number == number


async def test_a_scanner_fills_a_field_and_a_hand_accepts(tmp_path: Path) -> None:
    timing = Timing(deaf=0.0, burst_gap=0.2, held_gap=0.0)
    async with at_work(tmp_path, step("kit"), timing=timing) as hands:
        number = hands.record.state.number
        await hands.type("K-2206")
        await hands.press("enter")
        assert hands.record.state.number == number and "K-2206" in hands.window
        await asyncio.sleep(0.3)
        await hands.press("enter")
        assert hands.record.state.number == number + 1
        assert hands.record.state.lots == ("K-2206",)


async def test_a_paste_fills_the_field_whole_or_not_at_all(tmp_path: Path) -> None:
    async with at_work(tmp_path, step("kit")) as hands:
        hands.app.post_message(events.Paste("K-2206\n[/]"))
        await hands.settle()
        assert "What was pasted has 2 lines; this field takes one." in hands.window
        hands.app.post_message(events.Paste("[red]K[/]"))
        await hands.settle()
        assert "[red]K[/]▁" in hands.window


async def test_pointing_is_not_answering(tmp_path: Path) -> None:
    async with at_work(tmp_path, act("safe/ask:1")) as hands:
        number = hands.record.state.number
        await hands.press("2")
        assert "► 2 ◄" in hands.window and "records what you say: still connected" in hands.window
        await hands.press("1")
        assert "► 1 ◄" in hands.window
        assert hands.record.state.number == number
        await hands.press("enter")
        assert hands.record.state.number == number + 1


async def test_enter_with_nothing_pointed_at_says_so(tmp_path: Path) -> None:
    async with at_work(tmp_path, act("safe/ask:1")) as hands:
        assert "nothing yet: point first, with 1 or 2" in hands.window
        await hands.press("enter")
        assert "Point at one first" in hands.window


# --- the window -----------------------------------------------------------------------------------------


@pytest.mark.parametrize("size", [(1, 1), (20, 5), (59, 16), (60, 16), (79, 23), (120, 40), (200, 70)])
@pytest.mark.parametrize("name", ["cartridge-in", "F1-r2", "cure", "wear-ring", "kit", "tools", "open-wet"])
async def test_any_size_at_any_moment(tmp_path: Path, name: str, size: tuple[int, int]) -> None:
    async with at_work(tmp_path, step(name)) as hands:
        for width, height in (size, (40, 10), size, (80, 24)):
            await hands.resize(width, height)
            assert len(hands.window.split("\n")) == height
            if width < 60 or height < 16:
                assert "TOO SMALL" in hands.window or width < 24
        assert "Enter" in hands.window


async def test_a_small_window_takes_no_answer_and_loses_nothing(tmp_path: Path) -> None:
    async with at_work(tmp_path, act("F1-r2/tighten:F1", "round 2 position 2")) as hands:
        number = hands.record.state.number
        await hands.type("13")
        await hands.resize(52, 12)
        assert "TOO SMALL TO WORK SAFELY" in hands.window and "Pump SN-1, step 46 of" in hands.window
        await hands.press("4", "enter")
        await hands.resize(80, 24)
        assert "showed  13▁" in hands.window
        assert hands.record.state.number == number


async def test_a_question_with_a_drawing_is_not_taken_below_full_size(tmp_path: Path) -> None:
    async with at_work(tmp_path, step("cartridge-in", "face"), (79, 24)) as hands:
        assert "80 x 24 is the least" in hands.window


async def test_the_picture_turns_and_the_numbers_stay(tmp_path: Path) -> None:
    async with at_work(tmp_path, act("F1-r2/tighten:F1", "round 2 position 2")) as hands:
        number, before = hands.record.state.number, hands.window
        await hands.press("right")
        turned = hands.window
        assert turned != before and "►2◄" in turned
        await hands.press("right", "right", "right")
        assert hands.window == before
        await hands.press("left", "right")
        assert hands.window == before
        assert hands.record.state.number == number


# --- tightening -----------------------------------------------------------------------------------------


async def test_a_reading_may_name_another_position(tmp_path: Path) -> None:
    async with at_work(tmp_path, act("F1-r2/tighten:F1", "round 2 position 2")) as hands:
        await hands.type("3:134")
        assert "records: position 3 showed 134 lbf·in" in hands.window
        await hands.press("enter")
        assert "Position 2 is due, not 3." in hands.window and "!3!" in hands.window


async def test_enter_records_the_click_of_a_setting_wrench(tmp_path: Path) -> None:
    async with at_work(tmp_path, act("valve-in/tighten:F4")) as hands:
        number = hands.record.state.number
        assert "records: check valve cap clicked, set to 20.0 lbf·ft" in hands.window
        await hands.press("enter")
        assert hands.record.state.number == number + 1
        assert hands.record.events[-1]["how"] == "set"


async def test_a_reading_below_is_refused_in_words_and_leaves_no_trace(tmp_path: Path) -> None:
    async with at_work(tmp_path, act("F1-r2/tighten:F1", "round 2 position 2")) as hands:
        data = hands.record.path.read_bytes()
        await hands.enter("12")
        assert "12 lbf·in is below" in hands.window and "!2!" in hands.window
        assert hands.record.path.read_bytes() == data
        await hands.press("enter")
        assert "►2◄" in hands.window and "showed  ▁" in hands.window


# --- deviations, decisions, corrections -----------------------------------------------------------------


async def test_a_deviation_stands_against_release_until_another_person_decides(tmp_path: Path) -> None:
    async with at_work(tmp_path, act("fittings/ask:0")) as hands:
        await hands.choose("one or both open")
        await hands.choose("leave it as it is")
        assert " wrong  " in hands.window
        await hands.take_over("the caps are on order")
        assert "DEVIATION" in hands.window
        (deviation,) = hands.record.state.open_deviations
        assert deviation.reason == "the order: the caps are on order"
        await hands.work_on("release", "second")
        assert "One thing stands" in hands.window and "!1!" in hands.window
        await hands.press("enter")
        assert "What becomes of it?" in " ".join(hands.window.split())
        await hands.choose("use as is")
        await hands.enter("dry run only")
        await hands.enter("soon")
        await hands.enter("Q. Example")
        await hands.enter("it holds")
        assert '"soon" is no day' in hands.window and "dry run only" in hands.window
        await hands.enter()
        await hands.press(*["backspace"] * 4)
        await hands.enter("2026-12-31")
        await hands.enter("T. Sample")
        await hands.enter("it holds")
        assert "is not entitled" in hands.window
        await hands.enter()
        await hands.enter()
        await hands.enter("Q. Example")
        await hands.enter("it holds")
        assert not hands.record.state.open_deviations
        (decided,) = hands.record.state.dispositions.values()
        assert (decided.limit, decided.expires) == ("dry run only", "2026-12-31")
        await hands.enter("Q. Example")
        assert hands.record.state.outcome == "released"


async def test_an_answer_is_taken_back_with_a_reason_and_asked_again(tmp_path: Path) -> None:
    async with at_work(tmp_path, act("wear-ring/ask:0")) as hands:
        await hands.enter("0.011")
        await hands.press("escape")
        await hands.choose("one of the last answers")
        await hands.choose("event")
        await hands.enter("read on the wrong scale")
        assert hands.record.events[-1]["kind"] == "corrected"
        assert "Wear ring clearance" in hands.window
        prompt = hands.prompt()
        assert prompt is not None and prompt.act == "wear-ring/ask:0"


async def test_escape_closes_the_list_and_what_was_begun(tmp_path: Path) -> None:
    async with at_work(tmp_path, act("F1-r2/tighten:F1", "round 2 position 2")) as hands:
        number, before = hands.record.state.number, hands.window
        for keys in ("escape", "f4", "f4 2 enter", "f6", "f6 1 enter", "f8", "f2"):
            await hands.press(*keys.split())
            assert hands.window != before
            await hands.press("escape")
            assert hands.window == before
        assert hands.record.state.number == number


async def test_going_back_is_shown_first_and_enter_leaves_all_as_it_is(tmp_path: Path) -> None:
    async with at_work(tmp_path, act("volute-on/fit:G1")) as hands:
        number = hands.record.state.number
        await hands.press("f6")
        await hands.choose("the seal head")
        await hands.enter("faces dirty")
        window = " ".join(hands.window.split())
        assert "x impeller nut x" in window and "F6 again: do it" in window
        await hands.press("enter")
        assert hands.record.state.number == number
        await hands.go_back("the seal head", "faces dirty")
        assert hands.record.state.number > number
        assert "Going back" in hands.window
        prompt = hands.prompt()
        assert prompt is not None and prompt.step == "going back"


async def test_another_technician_a_remark_and_an_end_without_release(tmp_path: Path) -> None:
    async with at_work(tmp_path, step("wear-ring")) as hands:
        await hands.press("escape")
        await hands.choose("another technician")
        await hands.enter("Nobody Known")
        assert "is not in the register" in hands.window
        await hands.enter("K. Sketch")
        assert hands.record.state.technician == "K. Sketch"
        await hands.press("escape")
        await hands.choose("write a remark")
        await hands.enter("the [/] tag hangs [red]loose")
        assert hands.record.events[-1]["text"] == "the [/] tag hangs [red]loose"
        await hands.press("escape")
        await hands.choose("end without")
        await hands.choose("scrapped")
        await hands.enter("the body is cracked")
        assert hands.record.state.outcome == "scrapped"
        assert "Why: the body is cracked." in hands.window


async def test_reading_on_and_help_change_nothing(tmp_path: Path) -> None:
    async with at_work(tmp_path, step("cartridge-in", "face")) as hands:
        before, number = hands.window, hands.record.state.number
        await hands.press("pagedown")
        assert "Keep hands out, stand aside, press slowly." in " ".join(hands.window.split())
        await hands.press("escape", "f2")
        assert "F6" in hands.window and "═5═ done" in hands.window
        await hands.press("enter")
        assert hands.window == before and hands.record.state.number == number


# --- stopping, pauses, clocks ---------------------------------------------------------------------------


async def test_stopped_and_taken_up_again_the_round_begins_anew(tmp_path: Path) -> None:
    moment = act("F1-r2/tighten:F1", "round 2 position 2")
    async with at_work(tmp_path, moment) as hands:
        await hands.press("f8")
        assert "round 2, from its first position" in hands.window
        await hands.enter("phone")
        assert hands.record.events[-1]["kind"] == "stopped"
    async with at_the_bench(tmp_path, begins=moment.now + timedelta(minutes=42)) as hands:
        assert "SN-1" in hands.window and "stopped" in hands.window
        await hands.enter("1")
        assert "42 minutes" in hands.window and '"phone"' in hands.window
        assert "round 2 of the end plate screws" in hands.window
        await hands.enter("T. Sample")
        await hands.enter("SN-2")
        assert "is not the serial of this record" in " ".join(hands.window.split())
        await hands.press("enter")
        await hands.enter("sn-1")
        await hands.work_on("F1-r2", "round 2 position 1")
        assert "►1◄" in hands.window


async def test_a_screw_that_seized_waits_for_a_decision_and_the_question_stays(tmp_path: Path) -> None:
    async with at_work(tmp_path, act("open-motor/loosen:F1", "loose")) as hands:
        await hands.press("f4")
        await hands.choose("the place    a screw seized")
        await hands.enter("screw 3 seized, its head sheared off")
        await hands.choose("stay at this question")
        prompt = hands.prompt()
        assert prompt is not None and prompt.act == "open-motor/loosen:F1"
        assert "1 DEVIATION IS OPEN" in hands.window and "another person decides" in hands.window
        assert hands.record.events[-1]["reason"] == "screw 3 seized, its head sheared off"


async def test_a_reading_in_another_unit_is_never_taken_for_one_in_the_unit_asked_for(tmp_path: Path) -> None:
    async with at_work(tmp_path, act("wear-ring/ask:0")) as hands:
        await hands.type("0.44")
        assert "records wear ring clearance on diameter: 0.44 in" in hands.window
        await hands.type(" mm")
        assert "clearance on diameter: 0.44 mm" in hands.window
        before = len(hands.record.events)
        await hands.press("enter")
        words = " ".join(hands.window.split())
        assert 'this is asked in "in"; you typed "mm"' in words.replace("This", "this")
        assert "0.44 mm is 0.01732 in" in words
        assert len(hands.record.events) == before


async def test_a_short_kit_is_told_at_the_groove_and_a_ring_from_nowhere_is_refused(tmp_path: Path) -> None:
    async with at_work(tmp_path, act("fit-G2/fit:G2")) as hands:
        await hands.enter("-137 NBR")
        await hands.enter("-137 NBR")
        await hands.go_back("G2", "a nick was seen")
        await hands.work_on("fit-G2", "size")
        assert "the kit has none left" in " ".join(hands.window.split())
        await hands.enter("-137 NBR")
        words = " ".join(hands.window.split())
        assert "The kit held 2 -137 NBR, and all are used." in words
        assert '"-137 NBR; lot 4711; 2Q2024"' in words


async def test_a_reading_that_was_only_typed_wrongly_loosens_nothing(tmp_path: Path) -> None:
    async with at_work(tmp_path, act("F1-r2/tighten:F1", "round 2 position 2")) as hands:
        before = len(hands.record.events)
        await hands.enter("160")
        assert "goes back to the end plate screws" in hands.window
        assert "Esc 1 asks again" in hands.window
        await hands.press("escape")
        await hands.choose("the answer was given wrongly: ask it again")
        assert "nothing yet: type what it showed" in hands.window
        assert len(hands.record.events) == before
        await hands.enter("134")
        assert hands.record.events[-1]["kind"] == "position tightened"


async def test_a_leak_in_the_test_is_told_the_way_to_its_rework(tmp_path: Path) -> None:
    async with at_work(tmp_path, act("test/ask:4")) as hands:
        await hands.choose("a leak at a joint")
        assert "F6 goes back to a thing that is at fault" in hands.window
        await hands.go_back("the volute casing", "it leaks at its joint")
        assert hands.record.events[-1]["kind"] == "went back"


async def test_a_pump_that_was_opened_by_mistake_claims_no_work(tmp_path: Path) -> None:
    async with at_work(tmp_path, act("identify/ask:0")) as hands:
        await hands.press("escape")
        await hands.choose("end without a released pump")
        await hands.choose("wrong serial")
        await hands.enter("the plate was misread")
        words = " ".join(hands.window.split())
        assert "rings 0 of 11; 11 as they came in" in words
        assert "screws none; as they came in: " in words


async def test_after_a_long_pause_the_answer_is_not_taken_and_the_pump_is_looked_at(tmp_path: Path) -> None:
    async with at_work(tmp_path, act("F1-r2/tighten:F1", "round 2 position 2")) as hands:
        await hands.type("134")
        hands.clock.put_forward(timedelta(minutes=31))
        await hands.press("enter")
        assert "That was asked long ago" in hands.window
        assert hands.record.events[-1]["kind"] == "taken up"
        prompt = hands.prompt()
        assert prompt is not None and prompt.question == "name"


async def test_a_clock_rings_once_when_it_is_over_and_then_lets_go_on(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with at_work(tmp_path, step("cure")) as hands:
        rung: list[int] = []
        monkeypatch.setattr(hands.app, "bell", lambda: rung.append(1))
        prompt = hands.prompt()
        assert prompt is not None and prompt.until is not None
        assert "1 CLOCK RUNS" in hands.window and "leaves this pump to its clock" in hands.window
        hands.clock.now = prompt.until
        for _ in range(40):
            await asyncio.sleep(0.1)
            if rung:
                break
        await asyncio.sleep(1.2)
        assert rung == [1]
        assert "goes on: the time is over" in hands.window
        number = hands.record.state.number
        await hands.press("enter")
        assert hands.record.state.number > number


async def test_a_pump_left_to_its_clock_wears_its_tag(tmp_path: Path) -> None:
    async with at_work(tmp_path, step("cure")) as hands:
        await hands.press("enter")
    tags = sorted(path.name for path in (tmp_path / "sessions/print").iterdir())
    assert tags == ["SN-1-curing.txt", "SN-1-incomplete.txt"]
    assert "CURING UNTIL" in (tmp_path / "sessions/print/SN-1-curing.txt").read_text()


async def test_a_hold_is_not_cut_short(tmp_path: Path) -> None:
    async with at_work(tmp_path, act("test/ask:1")) as hands:
        which_gauge = hands.prompt()
        assert which_gauge is not None
        await hands.answer(which_gauge, hands.careful())
        await hands.enter("24.8")
        prompt = hands.prompt()
        assert prompt is not None and prompt.until is not None
        number = hands.record.state.number
        assert "nothing good before" in hands.window
        hands.clock.now = prompt.until - timedelta(minutes=1)
        await hands.enter("24.8")
        assert "are left of 5 min" in " ".join(hands.window.split()) and hands.record.state.number == number
        await hands.press("enter")
        hands.clock.now = prompt.until
        await hands.enter("24.8")
        assert hands.record.state.number > number


# --- the disk -------------------------------------------------------------------------------------------


async def test_what_cannot_be_written_is_said_at_once_and_not_shown_as_done(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with at_work(tmp_path, act("F1-r2/tighten:F1", "round 2 position 2")) as hands:
        data = hands.record.path.read_bytes()

        def full(self: RecordFile, *events: object) -> None:
            raise StoreFault("the disk is full")

        monkeypatch.setattr(RecordFile, "append", full)
        await hands.enter("134")
        assert "the disk is full" in hands.window
        assert "mend the disk or the folder" in hands.window
        assert hands.record.path.read_bytes() == data
        await hands.type("134")
        await hands.press("f4")
        assert "the disk is full" in hands.window
        await hands.press("enter")
        assert not hands.app.is_running or "the disk is full" not in hands.window


async def test_a_release_is_printed_and_the_paper_says_the_same(tmp_path: Path) -> None:
    async with at_work(tmp_path, step("release", "second")) as hands:
        await hands.enter("W. Specimen")
        assert "is not entitled" in hands.window
        await hands.press("enter")
        await hands.enter("Q. Example")
        check = hands.window.split("   check  ")[1].split(",")[0]
        await hands.press("enter")
    papers = tmp_path / "sessions/print"
    assert f"check {check}" in (papers / "SN-1-label.txt").read_text()
    assert "RELEASED" in (papers / "SN-1-report.txt").read_text()


async def test_the_record_is_free_again_when_the_bench_is_left(tmp_path: Path) -> None:
    async with at_work(tmp_path, step("wear-ring")) as hands:
        await leave(hands)
    async with at_the_bench(tmp_path) as hands:
        await hands.enter("1")
        assert "SN-1" in hands.window and "name" in hands.window


async def leave(hands: Hands) -> None:
    await hands.press("f8")
    await hands.press("enter")
