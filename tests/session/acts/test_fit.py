"""A ring into its groove: size and rubber are both read off its bag, at each groove."""

from __future__ import annotations

import pytest

from benchcheck.session.events import RingFitted, RingLifted
from benchcheck.session.prompt import GroovePicture
from tests.pumps import can_with, main_job, tiny_job
from tests.session.bench import Bench


def at(where: str, *changes: tuple[str, str]) -> Bench:
    return Bench(tiny_job(can_with(*changes))).until(where)


@pytest.mark.parametrize("typed", ["-110 NBR", "110 nbr", "-110, NBR", "  110   Nbr "])
def test_the_right_bag_is_taken_however_it_is_typed(typed: str) -> None:
    bench = at("cover-on/fit")
    bench.say(typed)
    (event,) = bench.events(RingFitted)
    assert isinstance(event, RingFitted) and (event.groove, event.size, event.material) == (
        "G",
        "-110",
        "NBR",
    )
    assert event.done and bench.asked.startswith("cover-on/install")


@pytest.mark.parametrize(
    ("typed", "rules"),
    [
        ("-111 NBR", ["ring-of-another-size"]),
        ("-110 FKM", ["ring-of-another-rubber"]),
        ("-210 EPDM", ["ring-of-another-size", "ring-of-another-rubber"]),
        ("-110", ["bag-not-read"]),
        ("NBR", ["bag-not-read"]),
        ("", ["nothing-answered"]),
    ],
)
def test_another_bag_is_refused(typed: str, rules: list[str]) -> None:
    assert at("cover-on/fit").refused(typed) == rules


def test_the_look_alike_is_refused_at_the_groove_not_by_the_count() -> None:
    """-150 and -151 differ by 3 mm on the diameter, and one kit holds one of each."""
    bench = Bench(main_job(), "-05").until("fit-G4/fit")
    assert bench.refused("-150 NBR") == ["ring-of-another-size"]
    bench.until("plate-on/fit:G5 size")
    assert bench.refused("-151 NBR") == ["ring-of-another-size"]


def test_a_ring_that_could_fall_out_goes_into_a_groove_that_is_up() -> None:
    face = ('material = "NBR"', 'material = "NBR"\nface = "top"')
    bench = at("cover-on/fit:G size", face)
    assert bench.state.assembly.poses["body"] == "top"
    below = at("cover-on/fit", (face[0], 'material = "NBR"\nface = "bottom"'))
    assert below.asked == "cover-on/fit:G pose"
    assert below.refused("top") == ["work-lies-the-wrong-way"]
    below.say("bottom")
    assert below.asked == "cover-on/fit:G size"


def test_the_picture_has_the_grooves_of_its_carrier_and_what_is_in_them() -> None:
    bench = Bench(main_job(), "-05").until("fit-G3/fit")
    picture = bench.prompt.picture
    assert isinstance(picture, GroovePicture) and picture.asked == "G3"
    assert [(name, ring) for name, _, ring in picture.grooves] == [("G2", "-137"), ("G3", "")]


def test_a_used_up_ring_that_teardown_left_in_its_groove_comes_out_first() -> None:
    bench = at("cover-on", ('off = ["F", "cover", "G", "lip"]', 'off = ["F", "cover", "lip"]'))
    (lifted,) = bench.events(RingLifted)
    assert isinstance(lifted, RingLifted) and lifted.act == "going back/lift:G", "nothing is fitted over it"
    assert bench.asked == "cover-on/fit:G size"


def test_the_lot_of_the_kit_stands_with_each_ring() -> None:
    bench = Bench(main_job(), "-05").until("fit-G3/fit")
    (ring,) = bench.events(RingFitted)
    assert isinstance(ring, RingFitted) and ring.lot == "LOT-1" and bench.state.lots == ("LOT-1",)
