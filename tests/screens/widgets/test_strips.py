"""The order strip, the rounds, the ruler and the rule."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchcheck.screens.widgets.cells import line_width, plain_text
from benchcheck.screens.widgets.order_strip import Round, draw_order_strip, draw_rounds
from benchcheck.screens.widgets.ruler import draw_rule, draw_ruler
from benchcheck.screens.widgets.signs import Sign
from tests.screens.pictures import as_text, picture

CRISS_CROSS = (1, 4, 2, 5, 3, 6)
TWELVE = (1, 7, 4, 10, 2, 8, 5, 11, 3, 9, 6, 12)
DONE, NOW, NEXT, TO_COME = Sign.DONE, Sign.NOW, Sign.NEXT, Sign.TO_COME


def test_rounds_under_one_another() -> None:
    rounds = [
        Round("round 1", "30 %", "58", CRISS_CROSS, (DONE,) * 6),
        Round("round 2", "70 %", "134", CRISS_CROSS, (DONE, NOW, NEXT, TO_COME, TO_COME, TO_COME)),
        Round("round 3", "100 %", "192", CRISS_CROSS, (TO_COME,) * 6),
        Round("then on", "100 %", "192", (1, 2, 3, 4, 5, 6), (TO_COME,) * 6),
    ]
    assert as_text(draw_rounds(rounds, 1, 48)) == picture("""
        | round 1  30 %   58  ═1═ ═4═ ═2═ ═5═ ═3═ ═6═ |
        | round 2  70 %  134  ═1═ ►4◄ (2)  5   3   6  |
        | round 3 100 %  192   1   4   2   5   3   6  |
        | then on 100 %  192   1   2   3   4   5   6  |
    """)


def test_a_long_order_is_wrapped_evenly_and_only_the_current_round_is_shown() -> None:
    rounds = [
        Round(f"round {number}", "100 %", "54", TWELVE, (*[DONE] * 10, NOW, NEXT)) for number in (1, 2, 3)
    ]
    assert as_text(draw_rounds(rounds, 2, 41)) == picture("""
        |  round 3 of 3, 100 %          |
        |  ═ 1═ ═ 7═ ═ 4═ ═10═ ═ 2═ ═ 8═|
        |  ═ 5═ ═11═ ═ 3═ ═ 9═ ► 6◄ (12)|
    """)


@given(st.permutations(range(1, 49)), st.integers(6, 80))
def test_a_strip_holds_every_position_once_and_in_order(order: list[int], width: int) -> None:
    strip = draw_order_strip(order, (TO_COME,) * len(order), width)
    assert all(line_width(line) <= width for line in strip)
    assert [int(number) for line in strip for number in plain_text(line).split()] == order
    lengths = [len(plain_text(line).split()) for line in strip]
    assert max(lengths) - min(lengths[:-1], default=max(lengths)) == 0


PHASE_ENDS = (4, 9, 18, 55, 57)


@pytest.mark.parametrize(
    ("step", "ruler"),
    [
        (3, "══►─┼──────┼───────────┼──────────────────────────────────────────────────┼──┼──"),
        (4, "════►──────┼───────────┼──────────────────────────────────────────────────┼──┼──"),
        (12, "════╪══════╪═══►───────┼──────────────────────────────────────────────────┼──┼──"),
        (45, "════╪══════╪═══════════╪════════════════════════════════════►─────────────┼──┼──"),
        (58, "════╪══════╪═══════════╪══════════════════════════════════════════════════╪══╪►─"),
        (59, "════╪══════╪═══════════╪══════════════════════════════════════════════════╪══╪══"),
        (0, "────┼──────┼───────────┼──────────────────────────────────────────────────┼──┼──"),
    ],
)
def test_the_ruler_of_a_procedure_of_58_steps(step: int, ruler: str) -> None:
    assert plain_text(draw_ruler(58, step, PHASE_ENDS, 80)) == ruler


@given(st.integers(1, 200), st.data(), st.integers(60, 200))
def test_a_ruler_never_goes_back(steps: int, data: st.DataObject, width: int) -> None:
    here = data.draw(st.integers(1, steps))
    now = plain_text(draw_ruler(steps, here, (), width))
    assert len(now) == width
    assert re.fullmatch("═*►─*", now)
    if here > 1:
        assert plain_text(draw_ruler(steps, here - 1, (), width)).index("►") <= now.index("►")


def test_a_plain_rule() -> None:
    assert plain_text(draw_rule(5)) == "─────"
