"""The words for tightening that goes wrong, typed at the main pump, and what the record then holds."""

from __future__ import annotations

from pathlib import Path

from tests.lines.moments import at_the_moment

A_SCREW = ("F1-r1/tighten:F1", "round 1 position 1")


def kinds(events: list[dict[str, object]]) -> list[object]:
    return [event["kind"] for event in events]


def test_a_screw_that_never_comes_tight(tmp_path: Path) -> None:
    typed = ["?trouble", "?trouble 2 soft; odd", "?trouble 2 never; it turned and turned"]
    came = at_the_moment(tmp_path, *A_SCREW, typed)
    assert "the thread is stripped" in came.said
    assert '"soft" is none of: at once, never, too far, wrong unit' in came.said
    assert "The group comes loose, and is begun again." in came.said
    assert kinds(came.events) == ["tightening trouble", "went back"]


def test_a_screw_that_seized_at_dismantling(tmp_path: Path) -> None:
    typed = ["?depart", "?depart screw 3 seized, its head sheared off", "?open"]
    came = at_the_moment(tmp_path, "open-motor/loosen:F1", "loose", typed)
    assert "a departure needs a reason" in came.said
    assert "Another person decides on it before release." in came.said
    assert "not decided: not as written (T. Sample: screw 3 seized, its head sheared off)" in came.said
    assert kinds(came.events) == ["deviation"]


def test_a_wrench_that_fell_and_another_one(tmp_path: Path) -> None:
    typed = ["?wrench", "?wrench battery empty", "?dropped TW-99 fell", "?dropped TW-02 fell from the bench"]
    came = at_the_moment(tmp_path, *A_SCREW, typed)
    assert "a change of wrenches needs a reason" in came.said
    assert "TW-99 is not in the register of instruments" in came.said
    assert "TW-02 rests" in came.said
    assert kinds(came.events) == ["wrench changed", "instrument doubted"]


def test_a_gauge_that_is_laid_down_and_one_that_fell(tmp_path: Path) -> None:
    typed = ["PG-01", "?gauge too soon", "PG-02", "?gauge", "?gauge its needle sticks", "PG-02"]
    typed += ["?dropped PG-02 fell from the bench"]
    came = at_the_moment(tmp_path, "test/ask:1", "gauge", typed)
    assert "PG-01: not for this: has a mark every 2 psi" in came.said
    assert "no gauge is in use now" in came.said and "a change of gauges needs a reason" in came.said
    assert "Another gauge is asked for." in came.said
    assert kinds(came.events) == ["gauge taken", "gauge changed", "gauge taken", "instrument doubted"]


def test_a_thread_with_an_insert(tmp_path: Path) -> None:
    typed = [
        "?insert F1",
        "?insert F1 2 14 lbf·ft; 10 %; T. Sample; insert",
        "?insert F1 2 14 lbf·ft; 10 %; Q. Example; insert",
    ]
    came = at_the_moment(tmp_path, *A_SCREW, typed)
    assert "Say which: ?insert GROUP N TARGET; TOLERANCE; NAME; WHY" in came.said
    assert "T. Sample is not entitled to this (dispose) today" in came.said
    assert "has limits of its own now" in came.said
    assert kinds(came.events) == ["position repaired"]


def test_a_wrench_that_fell_in_mid_round_begins_it_again_with_another_in_the_unit_it_shows(
    tmp_path: Path,
) -> None:
    typed = ["?dropped TW-02 fell from the bench", "TW-02", "TW-04", "lbf·ft", "7: 11.2", "11.2"]
    came = at_the_moment(tmp_path, "F1-r2/tighten:F1", "round 2 position 2", typed)
    assert "TW-02 is in doubt, and with it what it did here: end plate screws, round 1" in came.said
    assert "what is under way on the end plate screws begins again" in came.said
    assert "TW-02: is in doubt since it was used here: fell from the bench" in came.said
    assert "which unit does TW-04 show now? Read it off the wrench" in came.said
    assert kinds(came.events) == [
        "instrument doubted", "deviation", "answered", "wrench taken", "position tightened",
    ]  # fmt: skip
    assert (came.events[-1]["position"], came.events[-1]["unit"]) == (1, "lbf·ft")


def test_the_check_pass_asks_what_the_wrench_showed(tmp_path: Path) -> None:
    came = at_the_moment(tmp_path, "F1-r3/tighten:F1", "pass 2", ["1", "100", "190"])
    assert "position 2: what did TW-02 show? [lbf·in]" in came.said
    assert "100 lbf·in is below 172.8 lbf·in" in came.said
    assert kinds(came.events) == ["answered", "position checked"]
    assert came.events[-1]["value"] == 190
