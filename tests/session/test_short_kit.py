"""A kit that is short, and a ring from stock in its place: lot, cure date, and how long it keeps."""

from __future__ import annotations

from benchcheck.session import commands, kit
from benchcheck.session.events import RingFitted
from tests.pumps import can_with, main_job, tiny_job
from tests.session.bench import Bench

JOB = tiny_job(can_with())


def at_the_ring() -> Bench:
    return Bench(JOB).until("cover-on/fit:G")


def test_a_ring_from_stock_is_recorded_with_lot_and_cure_date_and_spares_the_kit() -> None:
    at = at_the_ring()
    at.say("-110 NBR; lot 4711; cured 2Q2020")
    (ring,) = at.events(RingFitted)
    assert isinstance(ring, RingFitted) and (ring.lot, ring.cured) == ("4711", "2Q2020")
    assert "4711" in at.state.lots and "-110 NBR" not in at.state.used
    assert at.to_the_end().state.outcome == "released"


def test_a_ring_that_was_kept_too_long_is_refused_until_somebody_takes_it_over() -> None:
    # Nitrile keeps 15 years from the end of the quarter it was cured in: SAE ARP5316, public summaries.
    at = at_the_ring()
    assert at.refused("-110 NBR; lot 1; 3Q2011") == ["kept-too-long"]
    at.say("-110 NBR; lot 1; 4Q2011")
    at = at_the_ring()
    assert at.answer("-110 NBR; lot 1; 3Q2011", over="the customer waits, and knows") is None
    assert at.state.open_deviations[0].rules == ("kept-too-long",)


def test_what_is_no_lot_or_no_cure_date_is_told() -> None:
    at = at_the_ring()
    assert at.refused("-110 NBR; 2Q2020") == ["bag-not-read"]
    assert at.refused("-110 NBR; lot 1; lately") == ["shelf-life-not-known"]
    assert at.refused("-110 NBR; lot 1; 2Q2030") == ["not-a-cure-date"]


def test_the_size_of_a_ring_from_stock_is_guarded_like_any_other() -> None:
    at = at_the_ring()
    assert at.refused("-111 NBR; lot 1; 2Q2020")


def test_a_short_kit_says_how_far_one_can_go_and_that_stock_may_help() -> None:
    at = at_the_ring()
    assert kit.told(at.state)[-1] == "What is left is enough for all that is still to be done."
    at.say("-110 NBR")
    at.until("F-tight/tighten:F pass")
    at.carry_out(commands.go_back(at.state, "cover", "looked dirty", at.now))
    at.until("cover-on/fit:G")
    assert "Short of -110 NBR: the work can go on up to step cover-on." in kit.told(at.state)
    assert "from stock" in at.prompt.notes[-1]


def test_a_ring_that_was_not_in_the_kit_at_the_count_is_missed_from_the_start() -> None:
    at = Bench(main_job(), "-05").until("kit/ask:1 bag 0")
    for bag in ("-259 FKM", "-137 NBR", "-137 NBR"):
        at.say(bag)
    assert at.answer("done", over="the stores bring the rest") is None
    held = kit.holds(at.state)
    assert (held["-137 NBR"], held["-151 NBR"]) == (2, 0)
    assert "fit-G4/fit:G4" in [each.act for each in kit.shortages(at.state)]


def test_while_the_kit_is_counted_it_holds_what_its_bag_says() -> None:
    at = Bench(main_job(), "-05").until("kit/ask:1 bag 1")
    assert kit.holds(at.state)["-151 NBR"] == 1


def test_a_ring_that_the_kit_has_no_more_of_is_never_given_the_lot_of_the_kit() -> None:
    at = at_the_ring()
    at.say("-110 NBR")
    at.until("F-tight/tighten:F pass")
    at.carry_out(commands.go_back(at.state, "cover", "looked dirty", at.now))
    at.until("cover-on/fit:G size")
    assert at.refused("-110 NBR") == ["kit-has-none-left"]
    assert at.answer("-110 NBR", over="out of the drawer, its bag is gone") is None
    ring = at.events(RingFitted)[-1]
    assert isinstance(ring, RingFitted) and ring.lot == ""
    assert at.state.open_deviations[0].rules == ("kit-has-none-left",)


def test_the_careful_technician_reads_lot_and_age_of_a_ring_from_stock() -> None:
    at = at_the_ring()
    at.say("-110 NBR")
    at.until("F-tight/tighten:F pass")
    at.carry_out(commands.go_back(at.state, "cover", "looked dirty", at.now))
    assert at.to_the_end().state.outcome == "released"
    ring = at.events(RingFitted)[-1]
    assert isinstance(ring, RingFitted) and ring.lot == "S-1" and ring.cured
