"""Facts: numbers within limits, one of a few answers, words and counts; and what becomes of those outside."""

from __future__ import annotations

from datetime import timedelta

import pytest

from benchcheck.session.events import Answered, Counted, Measured, PartReplaced, Told, WentBack
from benchcheck.session.prompt import Form, GaugePicture
from tests.pumps import can_with, main_job, tiny_job
from tests.session.bench import Bench

GAP = 'ask = [{ what = "gap under the cover", max = "0.05 mm" }]\noutside = "back to cover"'


def asking(question: str, rest: str = "") -> Bench:
    """The can, at a question of its last step."""
    return Bench(tiny_job(can_with((GAP, f"ask = [{{ {question} }}]{rest}")))).until("gap/ask")


def last(bench: Bench) -> Measured:
    event = bench.events(Measured)[-1]
    assert isinstance(event, Measured)
    return event


# ---------------------------------------------------------------------- numbers


@pytest.mark.parametrize("typed", ["0.05", "0,05", "0.05 mm", "0.050", "0", "-0.01"])
def test_a_number_within_its_limits_is_taken_as_it_is_typed(typed: str) -> None:
    bench = asking('what = "gap", max = "0.05 mm"')
    bench.say(typed)
    reading = last(bench)
    assert reading.verdict == "inside" and reading.done and reading.unit == "mm"
    assert reading.si == pytest.approx(reading.value / 1000)


@pytest.mark.parametrize(
    ("typed", "rule"),
    [
        ("0.05 in", "reading-in-another-unit"),
        ("5 N·m", "reading-in-another-unit"),
        ("half", "not-a-reading"),
        ("1e400", "not-a-reading"),
        ("nan", "not-a-reading"),
        ("0.05; 3", "not-a-reading"),
        ("2 * 3", "not-a-reading"),
        ("", "nothing-answered"),
    ],
)
def test_what_is_no_reading_here_is_refused(typed: str, rule: str) -> None:
    assert asking('what = "gap", max = "0.05 mm"').refused(typed) == [rule]


@pytest.mark.parametrize(
    ("limits", "good", "bad"),
    [
        ('min = "1 mm", max = "2 mm"', ("1", "1.5", "2"), ("0.99", "2.01")),
        ('max = "2 mm"', ("-5", "2"), ("2.001",)),
        ('min = "1 mm"', ("1", "99"), ("0.999",)),
        ('unit = "mm"', ("-7", "1000"), ()),
        # The limits are inches, and the boundary is inside however it is rounded.
        ('min = "0.060 in", max = "0.070 in"', ("0.060", "0.070"), ("0.0599", "0.0701")),
    ],
)
def test_limits_include_their_ends(limits: str, good: tuple[str, ...], bad: tuple[str, ...]) -> None:
    for typed in good:
        bench = asking(f'what = "it", {limits}')
        bench.say(typed)
        assert last(bench).verdict == "inside"
    for typed in bad:
        bench = asking(f'what = "it", {limits}')
        bench.say(typed)
        assert last(bench).verdict == "outside" and bench.prompt.question == "outside"


def test_readings_at_several_places_have_to_agree() -> None:
    three = 'what = "gap", min = "0 mm", max = "1 mm", places = 3, equal_within = "0.1 mm"'
    bench = asking(three)
    assert bench.asked == "gap/ask:0 place 1" and "place 1 of 3" in bench.prompt.ask
    bench.say("0.50", "0.55", "0.60")
    assert bench.asked.startswith("release")
    apart = asking(three)
    apart.say("0.50", "0.55", "0.61")
    assert apart.prompt.question == "outside"


def test_a_reading_has_to_equal_what_was_kept_as_found() -> None:
    keep = (
        'off = ["F", "cover", "G", "lip"]',
        'off = ["F", "cover", "G", "lip"]\nask = [{ what = "turns", unit = "turns", keep = "as-found" }]',
    )
    again = (GAP, 'ask = [{ what = "turns", unit = "turns", as = "as-found", equal_within = "0.1 turns" }]')
    for typed, good in (("0.75", True), ("0.8", True), ("0.5", False)):
        bench = Bench(tiny_job(can_with(keep, again))).until("open/ask")
        bench.say("0.75")
        bench.until("gap/ask")
        assert bench.prompt.notes == ("as it was found: 0.75 turns",)
        bench.say(typed)
        assert (bench.prompt.question != "outside") is good


def test_a_value_that_has_to_hold_is_read_twice_and_not_too_soon() -> None:
    bench = asking('what = "pressure", min = "9 bar", max = "10 bar", hold = "5 min"')
    bench.say("10")
    started = bench.events(Answered)[-1]
    assert isinstance(started, Answered) and started.question == "value at the start"
    assert bench.prompt.until is not None
    bench.now = bench.prompt.until - timedelta(seconds=1)
    assert bench.refused("9.9") == ["hold-cut-short"]
    outcome = bench.answer("9.9")
    assert outcome is not None and not outcome.refusals[0].passable, "nobody may cut it short"
    dropped = bench.copied()
    dropped.say("8.9")
    assert dropped.prompt.question == "outside", "a drop is told at once"
    bench.now += timedelta(seconds=1)
    bench.say("9.9")
    assert last(bench).done


def test_a_pause_starts_the_holding_again() -> None:
    bench = asking('what = "pressure", min = "9 bar", max = "10 bar", hold = "5 min"')
    bench.say("10")
    bench.cut()
    bench.arrive()
    assert bench.prompt.until is None and "at the start" in bench.prompt.ask


def test_the_gauge_shows_limits_in_the_unit_asked() -> None:
    bench = asking('what = "gap", min = "1 mm", max = "2 mm", as_new = ["1.2 mm", "1.4 mm"]')
    picture = bench.prompt.picture
    assert isinstance(picture, GaugePicture)
    assert (picture.low, picture.high, picture.as_new, picture.unit) == (1.0, 2.0, (1.2, 1.4), "mm")


# ---------------------------------------------------------------------- words and counts


def test_one_of_a_few_answers() -> None:
    bench = asking('what = "noise", one_of = ["none", "a rattle"], good = ["none"]')
    assert bench.prompt.form is Form.CHOICE
    assert bench.refused("silence") == ["no-such-answer"]
    bench.say("a rattle")
    assert bench.state.outside == "noise: a rattle" and bench.prompt.question == "outside"


def test_an_answer_that_sets_a_verdict_sets_it() -> None:
    bench = asking('what = "noise", one_of = ["none", "a rattle"], sets = "noise"')
    bench.say("a rattle")
    assert bench.state.verdicts == {"noise": "a rattle"}


@pytest.mark.parametrize(("kind", "typed"), [("words", "by ear"), ("lot", "L-77"), ("count", "12")])
def test_words_lots_and_counts(kind: str, typed: str) -> None:
    bench = asking(f'what = "it", kind = "{kind}"')
    assert bench.refused("") == ["nothing-answered"]
    bench.say(typed)
    told = bench.events(Told)[-1]
    assert isinstance(told, Told) and told.value == typed
    assert (typed in bench.state.lots) is (kind == "lot")


def test_the_serial_on_the_plate_is_that_of_the_record_or_another_pump() -> None:
    bench = asking('what = "serial on the plate", kind = "serial"')
    assert bench.refused("SN-2") == ["another-pump"]
    outcome = bench.answer("SN-2")
    assert outcome is not None and not outcome.passable
    bench.say(f" {bench.state.header.serial.lower()} ")
    told = bench.events(Told)[-1]
    assert isinstance(told, Told) and told.done


@pytest.mark.parametrize("typed", ["-1", "1.5", "a few", "٣", "1234567"])
def test_what_is_no_count(typed: str) -> None:
    assert asking('what = "it", kind = "count"').refused(typed) == ["not-a-count"]


# ---------------------------------------------------------------------- outside its limits


def test_outside_it_may_be_asked_again() -> None:
    bench = asking('what = "gap", max = "0.05 mm"', '\noutside = "again"')
    bench.say("0.5", "again")
    assert bench.asked == "gap/ask:0 place 1"
    bench.say("0.04")
    assert [event.verdict for event in bench.events(Measured)[-2:] if isinstance(event, Measured)] == [
        "outside",
        "inside",
    ], "both stay in the record"


def test_outside_a_person_leaves_it_with_a_reason() -> None:
    bench = asking('what = "gap", max = "0.05 mm"', '\noutside = "again"')
    bench.say("0.5")
    assert bench.refused("accept") == ["reading-outside-its-limits"]
    assert bench.answer("accept", over="the customer wants it back") is None
    assert bench.state.deviations[0].rules == ("reading-outside-its-limits",)
    assert bench.asked.startswith("release")


def test_outside_what_nobody_may_pass_nobody_leaves() -> None:
    bench = asking('what = "gap", max = "0.05 mm"', '\noutside = "again"\ncannot_pass = true')
    bench.say("0.5")
    outcome = bench.answer("accept", over="the customer wants it back")
    assert outcome is not None and not outcome.passable
    words = asking('what = "noise", one_of = ["none", "a hiss"], good = ["none"]', "\ncannot_pass = true")
    assert words.refused("a hiss") == ["may-not-go-on"]


def test_outside_it_may_be_gone_back_for() -> None:
    bench = asking('what = "gap", max = "0.05 mm"', '\noutside = "back to cover"')
    bench.say("0.5", "back")
    went = bench.events(WentBack)[-1]
    assert isinstance(went, WentBack) and went.targets == ("cover",) and "0.5 mm" in went.reason
    bench.until("gap/ask")
    bench.to_the_end()
    assert bench.state.outcome == "released"


def test_outside_a_part_may_be_replaced_and_the_new_one_is_measured_before_it_is_fitted() -> None:
    bench = Bench(main_job(), "-05").until("washers/ask:0")
    bench.say("0.0890", "replace")
    replaced = bench.events(PartReplaced)[-1]
    assert isinstance(replaced, PartReplaced) and replaced.part == "tw-front"
    assert bench.asked == "washers/ask:0 place 1" and bench.state.assembly.instance("tw-front") == 1
    bench.to_the_end()
    assert bench.state.outcome == "released"


def test_of_several_parts_that_were_judged_together_each_may_be_replaced() -> None:
    bench = Bench(main_job(), "-05").until("wear-ring/ask:0")
    bench.say("0.020")
    assert [each.value for each in bench.prompt.choices][:2] == ["replace impeller", "replace volute"]
    bench.say("replace volute")
    replaced = bench.events(PartReplaced)[-1]
    assert isinstance(replaced, PartReplaced) and replaced.part == "volute"
    bench.say("0.012")
    bench.until("rotors/ask:0")
    bench.say("0.010")
    assert [each.value for each in bench.prompt.choices][:2] == ["replace", "again"], "a set goes as one"


def test_as_found_a_part_that_is_still_in_is_noted_and_not_asked_about_for_ever() -> None:
    bench = Bench(main_job(), "-05").until("as-found/ask:2")
    bench.say("0.040", "replace")
    assert not bench.asked.startswith("as-found/ask:2")
    assert bench.state.assembly.is_dead("impeller")
    bench.to_the_end()
    assert bench.state.outcome == "released" and bench.state.assembly.instance("impeller") == 1


def test_back_is_offered_only_where_the_author_says_where_to() -> None:
    for rule, offered in (("again", {"again", "accept"}), ("back to cover", {"back", "again", "accept"})):
        bench = asking('what = "gap", max = "0.05 mm"', f'\noutside = "{rule}"')
        bench.say("0.5")
        assert {choice.value for choice in bench.prompt.choices} == offered


# ---------------------------------------------------------------------- the variant


def test_the_width_of_the_rotor_proves_the_variant_and_another_one_is_asked_about() -> None:
    bench = Bench(main_job(), "-05").until("rotor-width/ask")
    assert bench.refused("0.750") == ["variant-differs"]
    between = bench.copied()
    between.say("0.600")
    assert between.prompt.question == "outside"
    bench.say("0.5005")
    assert bench.state.variant_proved and bench.state.variant == "-05"


def test_another_variant_than_on_the_paper_is_taken_over_and_the_pump_is_worked_on_as_that() -> None:
    bench = Bench(main_job(), "-05").until("identify/ask:1")
    assert bench.refused("-07") == ["variant-differs"]
    assert bench.answer("-07", over="the paper has the wrong line ticked") is None
    assert bench.state.variant == "-07" and bench.state.pump.variant == "-07"
    bench.to_the_end_with_decisions()
    assert bench.state.outcome == "released"


# ---------------------------------------------------------------------- the kit


def test_the_kit_is_counted_bag_by_bag() -> None:
    bench = Bench(main_job(), "-05").until("kit/ask:1")
    for _ in range(11):
        bench.go_on()
    assert sum(bench.state.kit.values()) == 11 and bench.asked.startswith("tools")
    assert all(
        isinstance(event, Counted) and event.count <= event.expected for event in bench.events(Counted)
    )


def test_a_ring_too_many_a_stranger_and_a_short_kit() -> None:
    bench = Bench(main_job(), "-05").until("kit/ask:1")
    bench.say("-151 NBR")
    assert bench.refused("-151 NBR") == ["ring-too-many"]
    assert bench.refused("-999 NBR") == ["ring-not-for-this-pump"]
    assert bench.refused("-151 FKM") == ["ring-not-for-this-pump"]
    assert bench.refused("-151") == ["bag-not-read"]
    outcome = bench.answer("done")
    assert outcome is not None and outcome.refusals[0].rule == "kit-short" and outcome.passable
    assert "-150 NBR: 0 of 1" in outcome.refusals[0].wrong
