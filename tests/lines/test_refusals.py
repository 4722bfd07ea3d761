"""Every fault that the main pump's procedure has to catch, typed at the place where it happens.

Each has to be refused there, or come out at the question that shows it, in words that say what is wrong and
what mends it; a refused answer leaves the record as it is, and the question comes again.
"""

from __future__ import annotations

import re
from datetime import timedelta
from pathlib import Path
from typing import NamedTuple

import pytest

from tests.lines.moments import at_the_moment

NOBODY = "nobody may pass this"


class Fault(NamedTuple):
    """An answer at a question, and what has to be said to it."""

    act: str
    question: str
    answer: str
    says: tuple[str, ...]
    passable: bool = False
    variant: str = "-05"


REFUSED = {
    "lip the wrong way round": Fault(
        "main-lip-in/install:main-lip",
        "face",
        "back",
        (
            "with its lip toward you; you see the back, because the lip has to face the oil of the motor",
            "where: the main lip seal, at the deep pocket end of the seal cartridge",
            "mend: turn the main lip seal over",
        ),
        passable=True,
    ),
    "cartridge in backwards": Fault(
        "cartridge-in/install:cartridge",
        "face",
        "shallow pocket end",
        (
            "the lip of the main lip seal would point to the suction end of the motor body; it has to point "
            "to the plate end, because the lip has to face the oil of the motor",
            "so: main lip seal: its lip points to the deep pocket end of the seal cartridge",
            "so: seal cartridge: its deep pocket end points to the suction end of the motor body",
            "the lip of the excluder lip would point to the plate end",
            "mend: turn the seal cartridge over",
        ),
    ),
    "both rings in one groove": Fault(
        "cartridge-in/install:cartridge",
        "groove G2",
        "more than one ring lies in it",
        (
            "G2 is to hold one ring, and more than one ring lies in it",
            "where: outer, nearer the shallow pocket, on the seal cartridge",
            "mend: fit one -137, NBR, in G2",
        ),
    ),
    "and so the other empty": Fault(
        "cartridge-in/install:cartridge",
        "groove G3",
        "it is empty",
        ("G3 is to hold one ring, and it is empty", "mend: fit one -137, NBR, in G3"),
    ),
    "look-alike ring in the body": Fault(
        "fit-G4/fit:G4",
        "size",
        "-150 NBR",
        ("the bag says -150; G4 takes -151", "where: G4,", "mend: put the -150 back"),
        passable=True,
    ),
    "look-alike ring in the plate": Fault(
        "plate-on/fit:G5",
        "size",
        "151 nbr",
        ("the bag says -151; G5 takes -150", "where: G5,", "mend: put the -151 back"),
        passable=True,
    ),
    "rear washer as the front one": Fault(
        "tw-rear-in/install:tw-rear",
        "face",
        "grooved face",
        ("the grooved face of the rear thrust washer would point to the plate end",),
    ),
    "cartridge ring forgotten": Fault(
        "shaft-in/install:shaft",
        "place",
        "the seal cartridge is on top",
        ("the cartridge ring should lie on top", "mend: find the cartridge ring and fit it first"),
    ),
    "long screws in the short pump": Fault(
        "screws-in/start:F1",
        "screws 0",
        "5/16-18 x 3",
        ("5/16-18 x 3 is in your hand; here goes 5/16-18 x 2-3/4", "where: end plate screws"),
        passable=True,
    ),
    "short screws in the long pump": Fault(
        "screws-in/start:F1",
        "screws 0",
        "5/16-18 x 2-3/4",
        ("5/16-18 x 2-3/4 is in your hand; here goes 5/16-18 x 3",),
        passable=True,
        variant="-07",
    ),
    "round two begun at position three": Fault(
        "F1-r2/tighten:F1",
        "round 2 position 1",
        "3: 134",
        ("position 1 is due, not 3", "where: end plate screws, position 3", "mend: go to position 1"),
        passable=True,
    ),
    "ports swapped": Fault(
        "plate-on/install:plate",
        "mark",
        "the T mark stands there",
        (
            "the P mark of the end plate would stand over T cast; it has to stand over the P cast",
            "mend: turn the end plate round until the marks stand together",
        ),
    ),
    "sleeve left inside": Fault(
        "spin-1/ask:0",
        "ask",
        "0",
        ("1 of the tools is not on its hook", "where: the hooks"),
    ),
}


@pytest.mark.parametrize("fault", REFUSED.values(), ids=REFUSED)
def test_a_fault_is_refused_where_it_happens(tmp_path: Path, fault: Fault) -> None:
    came = at_the_moment(tmp_path, fault.act, fault.question, [fault.answer], variant=fault.variant)
    typed, refusal, again = came.said.partition(" NOT YET ")
    assert typed == fault.answer
    assert refusal
    for words in (*fault.says, "wrong:", "mend:"):
        assert words in again
    assert (NOBODY in again) is not fault.passable
    assert ("?over WHY takes it over" in again) is fault.passable
    assert came.events == [], "a refused answer was recorded"


@pytest.mark.parametrize(
    "fault", [fault for fault in REFUSED.values() if not fault.passable], ids=lambda fault: fault.act
)
def test_what_nobody_may_pass_is_not_taken_over(tmp_path: Path, fault: Fault) -> None:
    typed = [fault.answer, "?over the customer is waiting", fault.answer]
    came = at_the_moment(tmp_path, fault.act, fault.question, typed, variant=fault.variant)
    assert "Nobody may take this over." in came.said
    assert came.said.count("NOT YET") == 2
    assert came.events == []


def test_a_passable_fault_is_taken_over_with_a_reason_and_never_released_unseen(tmp_path: Path) -> None:
    """A lip that was taken over is refused for good when its carrier goes home."""
    came = at_the_moment(
        tmp_path,
        "main-lip-in/install:main-lip",
        "face",
        ["back", "?over", "?over no other one left", "?open"],
    )
    assert "A departure needs a reason: ?over WHY" in came.said
    assert "Departure 1. Another person decides on it before release." in came.said
    assert "Departure 1, not decided: the main lip seal goes into the seal cartridge" in came.said
    assert [event["kind"] for event in came.events] == ["deviation", "answered"]
    assert came.events[0]["reason"] == "no other one left"


def test_pockets_exchanged_show_at_the_depth(tmp_path: Path) -> None:
    came = at_the_moment(
        tmp_path,
        "main-lip-in/ask:0",
        "place 1",
        ["-0.187", "take off down to the main lip seal and change it"],
    )
    assert "case below the edge of the pocket: -0.187 in is outside 0 in to 0.010 in" in came.said
    assert "OUTSIDE: " in came.said
    assert "Going back" in came.said
    assert [event["kind"] for event in came.events] == ["measured", "went back"]


def test_oil_in_the_blind_holes_shows_as_a_gap(tmp_path: Path) -> None:
    came = at_the_moment(tmp_path, "F1-r1/ask:0", "ask", ["a gap on one side", "1"])
    assert "a gap on one side is outside shut all round" in came.said
    assert "Going back Loosen the end plate screws." in came.said
    assert [event["kind"] for event in came.events] == ["told", "went back"]


def test_the_cure_is_not_cut_short_by_ten_minutes(tmp_path: Path) -> None:
    until_then = timedelta(hours=23, minutes=38)
    came = at_the_moment(tmp_path, "cure/wait:F3 cure", "over", ["", "?over it is hard"], later=until_then)
    assert re.search(r"NOT YET wrong: 0 h \d\d min are left: thread-locker, medium,", came.said)
    assert "thread-locker that is turned or loaded before it is cured does not hold" in came.said
    assert NOBODY in came.said
    assert "Nobody may take this over." in came.said
    assert came.events == []


def test_going_back_is_shown_before_it_is_done(tmp_path: Path) -> None:
    """The nut is tight, the faces are found dirty: what comes off, what dies, what starts again."""
    came = at_the_moment(
        tmp_path, "nut-on/ask:1", "place 1", ["?back the seal head", "?back seal head dirt on the faces"]
    )
    plan = came.said.partition("?back seal head dirt")[0]
    assert "1 loosen the impeller nut 2 take off the impeller nut 3 take off the impeller washer" in plan
    assert "7 take off the seal head Is scrap then: the impeller washer, the impeller nut." in plan
    assert "Begins again with its first round: the impeller nut." in plan
    assert "Is asked again: head-in, impeller-in, nut-on." in plan
    assert "The kit is then short of: impeller washer, impeller nut." in plan
    assert "Nothing is undone yet. ?back head WHY does it." in plan
    assert "Going back Loosen the impeller nut." in came.said
    assert [event["kind"] for event in came.events] == ["went back"]
    assert came.events[0]["reason"] == "dirt on the faces"
