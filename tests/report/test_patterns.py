"""What is said of a tightening pattern, as text and for programs."""

from __future__ import annotations

import json
from typing import Any

import pytest

from benchcheck.mechanics.pattern import PatternError, circle_order, circle_places, rectangle_places
from benchcheck.mechanics.units import QuantityError
from benchcheck.report.patterns import answer, as_json, as_text
from benchcheck.report.position_drawing import draw


def test_a_circle_is_drawn_with_its_order_and_rounds() -> None:
    # our own demonstration data: HC40 F1
    assert as_text(answer(circle=6, rounds="30,70,100", target="16 lbf·ft")).splitlines() == [
        "Where each sits, and when it comes: 3:2 is position 3, the second",
        "      1:1",
        "   6:6   2:3",
        "",
        "   5:4   3:5",
        "      4:2",
        "",
        "Order: circle of 6",
        "  1-4-2-5-3-6",
        "",
        "Rounds",
        "  1     30 %  4.8 lbf·ft",
        "  2     70 %  11.2 lbf·ft",
        "  3    100 %  16 lbf·ft",
        "     then once round clockwise from 1 at 100 %, until none moves",
        "",
        "To loosen, backwards and little by little",
        "  6-3-5-2-4-1",
        "",
        "Sources",
        "  order: common practice, by the halving rule",
    ]


def test_for_programs() -> None:
    numbers: Any = as_json(answer(circle=8, target="20 N·m"))
    json.dumps(numbers)
    assert numbers["order"] == list(circle_order(8))
    assert numbers["labels_clockwise"] == [1, 5, 3, 7, 2, 6, 4, 8]
    assert numbers["rounds"][0] == {"share": 0.3, "torque": {"value": 6.0, "unit": "N·m"}}
    assert numbers["pass"] == [1, 2, 3, 4, 5, 6, 7, 8]
    assert numbers["interaction"] is None
    assert numbers["sources"] == ["order: published cross pattern of bolted flanges"]


def test_a_rectangle() -> None:
    said = answer(rectangle="2x4", rounds="40,100")
    assert "  2-6-3-7-1-5-4-8" in as_text(said)
    assert answer(rectangle=" 2 × 4 ").order == said.order


def test_points_are_fitted_into_a_square() -> None:
    said = answer(points=[(0, 0), (300, 0), (300, 100), (0, 100)])
    assert said.places == ((-1, -1 / 3), (1, -1 / 3), (1, 1 / 3), (-1, 1 / 3))
    assert answer(points=[(5, 5)]).places == ((0, 0),)


def test_an_order_of_ones_own_is_looked_at() -> None:
    said = answer(circle=6, order="1-2-3-4-5-6")
    assert "1 is followed by its neighbour 2" in said.remarks
    assert "Order as given: circle of 6" in as_text(said)
    assert answer(circle=6, order="1, 4, 6, 3, 5, 2").remarks == ()
    # remarks are about circles only
    assert answer(rectangle="2x3", order="1 2 3 4 5 6").remarks == ()


def test_groups_of_neighbours() -> None:
    text = as_text(answer(circle=48, group_size=4))
    assert "    2  25-26-27-28" in text
    assert "Where each sits" not in text


def test_interaction_is_marked_as_an_estimate() -> None:
    said = answer(circle=8, with_interaction=True)
    assert "ESTIMATED" in as_text(said)
    numbers: Any = as_json(said)
    assert numbers["interaction"]["estimate"] is True
    assert len(numbers["interaction"]["uniform_settings"]) == 8
    # the last one tightened keeps what it was given
    assert numbers["interaction"]["trips"][2]["preloads"][said.order[-1] - 1] == 1.0
    assert answer(rectangle="2x4", with_interaction=True).interaction is not None


def test_one_position_has_no_pass() -> None:
    said = answer(circle=1, rounds="100")
    assert as_json(said)["pass"] is None
    assert "then once round" not in as_text(said)


@pytest.mark.parametrize("count", range(2, 28))
def test_drawn_labels_never_touch(count: int) -> None:
    for fraction in (0.0, 0.5):
        lines = draw(circle_places(count, fraction), circle_order(count))
        assert lines and len(lines) <= 25 and max(map(len, lines)) < 80
        words = " ".join(lines).split()
        labels = {f"{position}:{number}" for number, position in enumerate(circle_order(count), start=1)}
        # apart by at least a blank, each exactly once
        assert sorted(words) == sorted(labels)


def test_what_is_not_drawn() -> None:
    assert draw(circle_places(28), circle_order(28)) == []
    assert draw(circle_places(1), (1,)) == []
    assert draw([(0, 0), (1e-6, 0), (1, 1)], (1, 2, 3)) == []


def test_a_rectangle_is_drawn_upright() -> None:
    assert draw(rectangle_places(2, 4), (2, 6, 3, 7, 1, 5, 4, 8))[0].split() == ["1:5", "2:1", "3:3", "4:7"]


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ({}, "exactly one layout"),
        ({"circle": 6, "rectangle": "2x3"}, "exactly one layout"),
        ({"circle": 0}, "expected 1 to 200"),
        ({"rectangle": "2by4"}, 'such as "2x4"'),
        ({"rectangle": "3x"}, 'such as "2x4"'),
        ({"rectangle": "99999999x9"}, "1 to 200"),
        ({"rectangle": "²x4"}, 'such as "2x4"'),
        ({"rectangle": "2x²"}, 'such as "2x4"'),
        ({"points": []}, "expected"),
        ({"circle": 6, "order": "1-4-2-5-3"}, "lacks 6"),
        ({"circle": 6, "order": "one two"}, 'such as "1-3-2-4"'),
        ({"circle": 6, "group_size": 4}, "whole groups"),
        ({"rectangle": "2x3", "group_size": 2}, "for a circle"),
        ({"circle": 6, "rounds": "30,70"}, 'the last one to be "100 %"'),
        ({"circle": 6, "rounds": "x"}, "expected a share"),
        ({"circle": 6, "target": "16"}, "has no unit"),
    ],
)
def test_nonsense_is_refused_in_one_sentence(asked: dict[str, Any], said: str) -> None:
    with pytest.raises((PatternError, QuantityError)) as refusal:
        answer(**asked)
    assert said in str(refusal.value)
