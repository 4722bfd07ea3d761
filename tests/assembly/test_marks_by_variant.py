"""A mark that stands over another one in each variant: one set of parts makes a pump of either hand."""

from __future__ import annotations

import pytest

from benchcheck.assembly.facing import mark_angle, misfits
from tests.pumps import built, tiny_pump

HANDED = """
must_line_up = [
  { part = "housing", mark = "inlet", toward = { R = "cast R", L = "cast L" }, because = "it draws there" },
]
step = []
[[part]]
id = "body"
ends = ["drive end", "cover end"]
marks = { "cast R" = 90, "cast L" = 270 }
[[part]]
id = "housing"
ends = ["numbered face", "plain face"]
marks = { inlet = 90, outlet = 270 }
into = "body"
from = "cover end"
shows = { R = "plain face", L = "numbered face" }
lines_up = { inlet = { R = "body: cast R", L = "body: cast L" } }
ways = 2
"""


@pytest.mark.parametrize(("variant", "degree"), [("R", 90), ("L", 270)])
def test_each_variant_has_its_own_place(variant: str, degree: int) -> None:
    pump = tiny_pump(HANDED, variant, variants=("R", "L"))
    now = built(pump, "housing")
    assert pump.lines_up("housing") == {"inlet": f"body: cast {variant}"}
    assert mark_angle(now, "housing", "inlet", "body") == degree
    assert misfits(now) == ()


def test_put_together_for_the_other_hand_it_does_not_line_up() -> None:
    wrong = HANDED.replace('{ R = "body: cast R", L = "body: cast L" }', '"body: cast L"')
    (misfit,) = misfits(built(tiny_pump(wrong, "R", variants=("R", "L")), "housing"))
    assert (misfit.is_toward, misfit.toward) == ("cast L", "cast R")
