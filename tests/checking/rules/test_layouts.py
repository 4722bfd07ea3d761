"""Where the positions of a group are counted from, in which order they come, and how many there are."""

from __future__ import annotations

import pytest

from benchcheck.procedure.finding import Severity
from benchcheck.store.library import Unreadable
from tests.checking.small_pump import assert_as_marked, parsed, rules_found, small_pump

LAYOUT = 'layout = { circle = 4, seen_from = "drive end", datum = "the drain" }'


def layout(told: str, more: str = "") -> str:
    return small_pump((LAYOUT, f"layout = {told}\n{more}"))


@pytest.mark.parametrize(
    "shape", ["circle = 3", "circle = 8", "rectangle = [2, 4]", "points = [[0, 2], [1, 0], [-1, 0]]"]
)
def test_a_layout_needs_the_side_from_which_it_is_seen(shape: str) -> None:
    assert_as_marked(layout(f'{{ {shape}, datum = "the drain" }}  # ← layout-without-its-side'))


def test_two_positions_have_no_mirror_image() -> None:
    assert rules_found(layout('{ circle = 2, datum = "the drain" }')) == []


def test_a_layout_needs_something_to_count_from() -> None:
    assert_as_marked(layout('{ circle = 4, seen_from = "drive end" }  # ← layout-without-a-datum'))
    assert rules_found(layout('{ circle = 1, seen_from = "drive end" }')) == []


CIRCLE = '{{ circle = {}, seen_from = "drive end", datum = "the drain" }}'


@pytest.mark.parametrize(
    ("count", "order", "severity"),
    [
        (6, "1, 2, 3, 4, 5, 6", Severity.WARNING),
        (8, "1, 3, 5, 7, 2, 4, 6, 8", Severity.ADVICE),
        (5, "1, 3, 5, 4, 2", Severity.WARNING),
    ],
)
def test_an_order_that_does_not_go_across(count: int, order: str, severity: Severity) -> None:
    text = layout(CIRCLE.format(count), f"order = [{order}]  # ← order-not-crosswise")
    (finding,) = assert_as_marked(text)
    assert finding.severity is severity


@pytest.mark.parametrize(
    ("count", "order"),
    [
        # published cross orders: a gasket maker's work sheet, and the older variant of a gasket handbook
        (8, "1, 5, 3, 7, 2, 6, 4, 8"),
        (12, "1, 7, 4, 10, 2, 8, 5, 11, 3, 9, 6, 12"),
        (12, "1, 7, 4, 10, 3, 9, 6, 12, 2, 8, 5, 11"),
        # common practice
        (5, "1, 3, 5, 2, 4"),
        (6, "1, 4, 6, 3, 5, 2"),
    ],
)
def test_published_orders_are_all_right(count: int, order: str) -> None:
    assert rules_found(layout(CIRCLE.format(count), f"order = [{order}]")) == []


@pytest.mark.parametrize(
    ("text", "rule"),
    [
        # an order that repeats 3 and lacks 4
        (layout(CIRCLE.format(4), "order = [1, 3, 2, 3]"), "order-not-a-permutation"),
        (layout(CIRCLE.format(4), "order = [1, 3, 2, 4, 5]"), "order-not-a-permutation"),
        # a fifth position on a circle of four
        (
            small_pump(('item = "M6 x 20"', 'item = "M6 x 20", at = [1, 2, 3, 4, 5]')),
            "position-outside-the-layout",
        ),
    ],
)
def test_positions_that_are_not_there_are_a_fault_of_reference(text: str, rule: str) -> None:
    with pytest.raises(Unreadable) as unreadable:
        parsed(text)
    assert [each.rule for each in unreadable.value.findings] == [rule]
