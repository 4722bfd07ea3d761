"""The words that begin with "?", and the way to a pump: what they do, and what the record then holds."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from benchcheck.lines.talk import wrapped
from benchcheck.lines.words import thing_named
from tests.faults.in_process import talked
from tests.faults.prepared import shop
from tests.lines.moments import at_the_moment, lay_down
from tests.pumps import main_job

A_RING = ("fit-G2/fit:G2", "size")
A_DEPTH = ("main-lip-in/ask:0", "place 1")


def kinds(events: list[dict[str, object]]) -> list[object]:
    return [event["kind"] for event in events]


# ---------------------------------------------------------------------- at a question


def test_an_answer_is_corrected_and_asked_again(tmp_path: Path) -> None:
    came = at_the_moment(tmp_path, *A_RING, ["-137 NBR", "?last", "?correct 0 wrong bag"])
    number = came.events[0]["number"]
    assert f"{number} ring in G2: -137 NBR, fit-G2/fit:G2" in came.said
    came = at_the_moment(
        tmp_path / "again", *A_RING, ["-137 NBR", f"?correct {number} read off the wrong bag"]
    )
    assert f"Answer {number} does not count. It is asked again." in came.said
    assert "Step 22 of 59, fit-G2 -137, NBR, into G2:" in came.said
    assert kinds(came.events) == ["ring fitted", "corrected"]
    assert came.events[1]["reason"] == "read off the wrong bag"


def test_an_act_is_left_out_and_another_person_decides(tmp_path: Path) -> None:
    typed = [
        "?skip no micrometer in the shop",
        "?open",
        "?decide 1 use as is; T. Sample; looks right",
        "?decide 1 fine; Q. Example; looks right",
        "?decide 1 use as is; q example; the case stands flush",
        "?open",
    ]
    came = at_the_moment(tmp_path, *A_DEPTH, typed)
    assert "Left out. Departure 1; another person decides on it." in came.said
    assert (
        "Departure 1, not decided: main-lip-in was left out (T. Sample: no micrometer in the shop)"
        in came.said
    )
    assert "T. Sample is not entitled to this (dispose) today" in came.said
    assert '"fine" is none of: use as is, rework, repair, replace, scrap, return' in came.said
    assert "Decided on departure 1: use as is." in came.said
    assert "No departure is waiting for a decision." in came.said
    assert kinds(came.events) == ["deviation", "left out", "disposed"]
    assert came.events[2]["name"] == "Q. Example"


def test_a_remark_another_technician_and_where_the_work_stands(tmp_path: Path) -> None:
    typed = ["?note [OIL] on the mat", "?where", "?who w specimen", "T. Sample", "W. Specimen"]
    came = at_the_moment(tmp_path, *A_RING, typed)
    assert "Noted." in came.said
    assert "W. Specimen is signed on." in came.said
    assert "Pump SN-1: Rebuild of the hydraulically driven centrifugal pump (xmpl-hc40" in came.said
    assert "The seal cartridge lies with its shallow pocket end up." in came.said
    # Another pair of hands begins with seeing whether all is as the record says.
    assert "READ AGAIN: the serial number" in came.said
    assert kinds(came.events) == ["remark", "signed on", "card left", "taken over"]


def test_the_question_is_told_again_in_full(tmp_path: Path) -> None:
    came = at_the_moment(tmp_path, "cartridge-in/install:cartridge", "face", ["?say"])
    after = came.said.partition("?say ")[2]
    assert after.startswith("Step 26 of 59, cartridge-in")
    for words in ("WARNING: A press crushes fingers", "Oil on the outside.", "PRESS IN: look at"):
        assert words in after
    # An answer that is not understood brings only the question back.
    came = at_the_moment(tmp_path / "again", "cartridge-in/install:cartridge", "face", ["both"])
    assert '"both" is none of the answers' in came.said
    assert "WARNING" not in came.said
    assert "PRESS IN: look at" in came.said


def test_a_session_ends_without_release(tmp_path: Path) -> None:
    came = at_the_moment(tmp_path, *A_RING, ["?close scrapped", "?close scrapped; body cracked", "quit"])
    assert "a decision needs a reason" in came.said
    assert "Pump SN-1: SCRAPPED." in came.said
    assert "go on with" not in came.said, "it is not offered again"
    assert kinds(came.events) == ["closed"]
    assert came.events[0]["reason"] == "body cracked"


def test_what_was_asked_before_a_long_pause_is_not_answered(tmp_path: Path) -> None:
    """The answer comes an hour after the question was told: first it is seen whether all is as it was."""
    typed = ["-137 NBR", "T. Sample", "sn-1"]
    came = at_the_moment(tmp_path, *A_RING, typed, pause=timedelta(hours=1))
    assert "-137 NBR That was asked long ago, so the answer is not taken:" in came.said
    assert "READ AGAIN: the serial number" in came.said
    assert kinds(came.events) == ["taken up", "signed on", "read again"]
    assert came.events[0]["pause_seconds"] >= 3600


@pytest.mark.parametrize(
    ("text", "thing", "rest"),
    [
        ("G2", "G2", ""),
        ("g2 a nick in it", "G2", "a nick in it"),
        ("head dirty", "head", "dirty"),
        ("the seal head dirty", "head", "dirty"),
        ("The Seal Cartridge", "cartridge", ""),
        ("F1 3 scrap; Q. Example; stripped", "F1", "3 scrap; Q. Example; stripped"),
        ("end plate screws 3 scrap", "F1", "3 scrap"),
        ("flywheel gone", "flywheel", "gone"),
        ("", "", ""),
    ],
)
def test_things_are_named_by_id_or_as_a_person_calls_them(text: str, thing: str, rest: str) -> None:
    assert thing_named(main_job().pump("-05"), text) == (thing, rest)


# ---------------------------------------------------------------------- to a pump


def test_a_serial_read_differently_is_read_again(tmp_path: Path) -> None:
    shop(tmp_path)
    typed = ["begin", "xmpl", "no", "", "?position F1", "SN-1", "SN-7", "SN-1", "sn - 1", "-07", "T. Sample"]
    _, said = talked(tmp_path, typed)
    assert "Nothing was typed. ? goes back to the first list." in said
    assert '"?position F1" is a word to the program, no answer. ? goes back to the first list.' in said
    assert 'The two readings differ: "SN-1" and "SN-7". Read both again.' in said
    assert "Step 1 of 59" in said


def test_a_pump_that_is_open_already_is_not_begun_unawares(tmp_path: Path) -> None:
    record = lay_down(tmp_path, *A_RING)
    typed = ["begin", "xmpl", "no", "sn-1", "SN-1", "no", "quit"]
    status, said = talked(tmp_path, typed)
    assert f"The record {record.name} of this pump is still open." in said
    assert status == 0
    assert list(record.parent.glob("*.toml")) == [record]


def test_practice_is_marked_at_every_question(tmp_path: Path) -> None:
    shop(tmp_path)
    typed = ["begin", "xmpl", "perhaps", "yes", "SN-1", "SN-1", "9", "2", "T. Sample", "LOT"]
    _, said = talked(tmp_path, typed)
    assert "Type yes or no." in said
    assert '"9" is none of these: type 1 to 2.' in said
    assert said.count("practice >") == 3


def test_help_and_the_way_back_to_the_first_list(tmp_path: Path) -> None:
    shop(tmp_path)
    status, said = talked(tmp_path, ["?", "7", "begin", "?", "begin", "xmpl", "no", "?", "quit"])
    assert status == 0
    assert "? lists what else can be said." in said
    assert said.count("1 begin with a pump 2 quit") == 4


def test_nobody_who_is_not_in_the_register_signs_on(tmp_path: Path) -> None:
    shop(tmp_path)
    typed = ["begin", "xmpl", "no", "SN-1", "SN-1", "1", "N. Body", "R. Outline", "t sample"]
    _, said = talked(tmp_path, typed)
    assert '"N. Body" is not in the register of people' in said
    assert "R. Outline is not entitled to this (work) today" in said
    assert "Step 1 of 59" in said


# ---------------------------------------------------------------------- lines


def test_lines_wrap_below_their_first_word_and_keep_sizes_whole() -> None:
    line = "  good: 0.0010 in to 0.0025 in, of a 5/16-18 x 2-3/4 or a thread-locker"
    pieces = wrapped(line, 24)
    assert pieces[0].startswith("  good: ")
    assert all(piece.startswith("    ") for piece in pieces[1:])
    assert all(len(piece) <= 24 for piece in pieces)
    assert " ".join(" ".join(pieces).split()) == line.strip()
    assert any("5/16-18" in piece for piece in pieces)
