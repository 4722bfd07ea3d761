"""A part going home: pose, place, face, mark, grooves and a second person are asked before it does."""

from __future__ import annotations

from dataclasses import replace

import pytest

from benchcheck.session import engine
from benchcheck.session.acts.questions import careful_second
from benchcheck.session.events import Corrected, GrooveFound, PartInstalled, WorkTurned
from benchcheck.session.prompt import FacingPicture, Form
from tests.pumps import SECOND, TECHNICIAN, THIRD, can_with, main_job, tiny_job
from tests.session.bench import Bench


def at(where: str, *changes: tuple[str, str]) -> Bench:
    return Bench(tiny_job(can_with(*changes))).until(where)


def questions(bench: Bench, act: str) -> list[str]:
    """The questions that a careful technician is asked for one act, in order."""
    found = []
    while bench.prompt.act == act:
        found.append(bench.prompt.question)
        bench.go_on()
    return found


FROM_BELOW = (
    'into = "body"\nfrom = "top"\nshows = "mouth"',
    'into = "body"\nfrom = "bottom"\nshows = "back"',
)
NO_STACK = ('stack = [{ on = "body", from = "top", order = ["cover", "lip"] }]\n', "")
HOLD_POINT = ('part = "cover"\n', 'part = "cover"\nwitness = true\n')


# ---------------------------------------------------------------------- what is asked


def test_a_press_fit_asks_the_face_and_then_for_home() -> None:
    assert questions(at("lip-in/install"), "lip-in/install:lip") == ["face", "home"]


def test_a_part_with_marks_asks_what_lies_on_top_its_face_and_its_mark() -> None:
    assert questions(at("cover-on/install"), "cover-on/install:cover") == ["place", "face", "mark"]


def test_a_hold_point_asks_a_second_person_before_the_part_goes_home() -> None:
    bench = at("cover-on/install", HOLD_POINT)
    assert questions(bench, "cover-on/install:cover") == ["place", "face", "mark", "witness", "witness face"]
    installed = bench.events(PartInstalled)[-1]
    assert isinstance(installed, PartInstalled) and installed.witness == SECOND


def test_a_part_without_ends_asks_only_for_home() -> None:
    bench = Bench(main_job(), "-05").until("valve-in/install:ball home")
    assert questions(bench, "valve-in/install:ball") == ["home"]


def test_a_groove_filled_in_this_step_is_not_asked_again_one_filled_earlier_is() -> None:
    bench = at("cover-on/install")
    assert "groove G" not in questions(bench.copied(), "cover-on/install:cover")
    ring_first = (
        '[[step]]\nid = "cover-on"',
        '[[step]]\nid = "ring"\nrings = ["G"]\n\n[[step]]\nid = "cover-on"',
    )
    turned = at("cover-on/install", ('rings = ["G"]\npart', "part"), ring_first)
    assert questions(turned, "cover-on/install:cover") == ["place", "face", "mark", "groove G"]


def test_the_end_it_goes_in_from_has_to_be_up() -> None:
    bench = at("cover-on/install", FROM_BELOW, NO_STACK)
    assert bench.asked == "cover-on/install:cover pose" and bench.prompt.verb == "TURN IT"
    assert bench.refused("bottom") == ["work-lies-the-wrong-way"]
    bench.say("top")
    turned = bench.events(WorkTurned)[-1]
    assert isinstance(turned, WorkTurned) and (turned.work, turned.up) == ("body", "top")
    assert bench.asked == "cover-on/install:cover face"


# ---------------------------------------------------------------------- face


def test_the_face_is_asked_by_what_one_sees_not_told() -> None:
    bench = Bench(main_job(), "-05").until("main-lip-in/install:main-lip face")
    words = {choice.value: choice.words for choice in bench.prompt.choices}
    assert words["lip"] == "the open lip with its garter spring"
    picture = bench.prompt.picture
    assert isinstance(picture, FacingPicture) and set(picture.ends) == {"lip", "back"}


def test_the_wrong_face_is_refused_by_anyone_and_neither_is_no_face() -> None:
    bench = at("lip-in/install")
    assert bench.refused("back") == ["part-faces-the-wrong-way"]
    assert bench.refused("neither") == ["part-not-recognised"]
    bench.say("mouth")


def test_the_backwards_cartridge_is_refused_though_both_its_lips_are_right_in_it() -> None:
    bench = Bench(main_job(), "-05").until("cartridge-in/install:cartridge face")
    outcome = bench.answer("shallow pocket end", over="it goes either way")
    assert outcome is not None and not outcome.passable
    assert {refusal.where for refusal in outcome.refusals} == {
        "the main lip seal", "the excluder lip", "the seal cartridge",
    }  # fmt: skip
    assert all("seal cartridge over" in refusal.mend for refusal in outcome.refusals)


def test_the_second_washer_goes_the_other_way_round_than_the_first() -> None:
    bench = Bench(main_job(), "-05").until("tw-front-in/install:tw-front face")
    assert bench.refused("plain face") == ["part-faces-the-wrong-way"]
    bench.until("tw-rear-in/install:tw-rear face")
    assert bench.refused("grooved face") == ["part-faces-the-wrong-way"]


# ---------------------------------------------------------------------- mark


def test_another_mark_over_the_mark_is_refused() -> None:
    bench = at("cover-on/install:cover mark")
    assert bench.refused("arrow") == ["marks-do-not-line-up"]
    assert bench.refused("elsewhere") == ["marks-do-not-line-up"]
    outcome = bench.answer("elsewhere", over="it is worn off")
    assert outcome is not None and not outcome.passable
    bench.say("dot")


def test_a_plate_turned_by_half_is_refused() -> None:
    bench = Bench(main_job(), "-05").until("plate-on/install:plate mark")
    outcome = bench.answer("T mark")
    assert outcome is not None and outcome.refusals[0].rule == "marks-do-not-line-up"
    assert "pressure and tank change places" in outcome.refusals[0].wrong


# ---------------------------------------------------------------------- place


def test_what_should_lie_on_top_and_does_not_was_never_fitted() -> None:
    bench = Bench(main_job(), "-05").until("ring-on/install:ring place")
    above = bench.copied()
    outcome = above.answer("neither")
    assert outcome is not None and outcome.refusals[0].rule == "part-left-out" and not outcome.passable
    assert [type(event) for event in outcome.mend] == [Corrected]
    above.mend(outcome)
    assert above.asked.startswith("tw-front-in/install:tw-front")
    assert "tw-front" not in above.state.assembly.seated


# ---------------------------------------------------------------------- grooves


@pytest.mark.parametrize(
    ("seen", "rule"), [("empty", "groove-left-empty"), ("more than one", "second-ring-in-a-groove")]
)
def test_a_groove_seen_otherwise_before_it_is_hidden_stops_the_part_and_is_filled_anew(
    seen: str, rule: str
) -> None:
    bench = Bench(main_job(), "-05").until("cartridge-in/install:cartridge groove G3")
    outcome = bench.answer(seen, over="it will do")
    assert outcome is not None and [each.rule for each in outcome.refusals] == [rule] and not outcome.passable
    assert [type(event) for event in outcome.mend] == [GrooveFound]
    bench.mend(outcome)
    assert bench.asked == "fit-G3/fit:G3 size"
    assert bench.until("cartridge-in/install")


def test_an_empty_groove_is_found_at_the_face_if_the_record_knows_it() -> None:
    bench = at("cover-on/fit")
    bench.carry_out(engine.leave_out(bench.state, "none at hand", bench.now))
    bench.until("cover-on/install:cover face")
    assert bench.refused("rear") == ["groove-left-empty"]


# ---------------------------------------------------------------------- the second person


def test_the_second_person_is_another_one_and_entitled() -> None:
    bench = at("cover-on/install:cover witness", HOLD_POINT)
    assert bench.prompt.form is Form.WORDS
    assert bench.refused(TECHNICIAN) == ["witness-is-the-doer"]
    assert bench.refused("N. Body") == ["person-not-known"]
    assert bench.refused("K. Sketch") == ["person-not-entitled"]
    bench.say(SECOND)


def test_the_careful_technician_calls_nobody_who_had_a_hand_in_it() -> None:
    bench = at("cover-on/install:cover witness", HOLD_POINT)
    state, now = bench.state, bench.now
    assert careful_second(state, "witness", now) == SECOND
    assert careful_second(state, "witness", now, (SECOND,)) == THIRD
    assert careful_second(state, "witness", now, (SECOND, THIRD)) == "nobody"


def test_the_second_person_sees_the_same_or_the_part_does_not_go_home() -> None:
    bench = at("cover-on/install:cover witness", HOLD_POINT)
    bench.say(SECOND)
    assert bench.refused("face") == ["witness-sees-otherwise"]
    assert "cover" not in bench.state.assembly.seated
    bench.say("rear")
    assert "cover" in bench.state.assembly.seated


# ---------------------------------------------------------------------- what is recorded


def test_the_seat_is_recorded_as_it_was_seen() -> None:
    bench = at("F-tight")
    lip, cover = (event for event in bench.events(PartInstalled) if isinstance(event, PartInstalled))
    assert (lip.part, lip.instance, lip.end, lip.seen, lip.turn, lip.angle) == (
        "lip",
        1,
        "top",
        "mouth",
        1,
        -1,
    )
    assert (cover.part, cover.instance, cover.seen, cover.turn, cover.angle) == ("cover", 0, "rear", -1, 0)


def test_a_part_that_goes_in_from_either_end_goes_in_from_the_one_that_is_up() -> None:
    either = ('into = "body"\nfrom = "top"\nshows = "mouth"', 'into = "body"\nfrom = ["top", "bottom"]')
    for up, seen, wrong in (("top", "mouth", "back"), ("bottom", "back", "mouth")):
        bench = at("bore", either, NO_STACK)
        bench.state = replace(bench.state, assembly=bench.state.assembly.turned_up("body", up))
        bench.until("lip-in/install")
        assert bench.asked == "lip-in/install:lip face"
        assert bench.refused(wrong) == ["part-faces-the-wrong-way"]
        bench.say(seen)
        bench.go_on()
        installed = bench.events(PartInstalled)[-1]
        assert isinstance(installed, PartInstalled) and installed.end == up
