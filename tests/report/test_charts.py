"""Control charts as text and as a drawing: the published example, and points that never cross a limit."""

from __future__ import annotations

from statistics import fmean

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchcheck.mechanics.scatter import individuals_chart
from benchcheck.report.charts import BEYOND, POINT, control_chart
from benchcheck.report.document import ControlChart, Document, Section
from benchcheck.report.html_page import as_html
from benchcheck.report.plain_text import as_text
from tests.published_tables import rows
from tests.report.test_html_page import Page


def chart_of(*values: float, starts: tuple[int, ...] = (), unit: str = "N·m") -> ControlChart:
    return ControlChart("Cover screws", unit, values, individuals_chart(values), starts)


# NIST/SEMATECH e-Handbook 6.3.2.2: flow rate of ten batches. The figures at the left are its printed
# 55.8041, 50.81 and 45.8159 to four figures, and for the ranges 3.267 × 1.8778 = 6.135 (derived), 1.8778.
# By hand: a row between the limits is (55.8041 - 45.8159) / 9 = 1.1098 high. The first value, 49.6, lies
# 6.2041 / 1.1098 = 5.59 rows below the upper limit: in the sixth row, the one below the mean's. The highest,
# 53.6, 2.2041 / 1.1098 = 1.99 rows: in the second. Of the ranges a row is 6.1347 / 4 = 1.5337 high, and the
# largest, 3.5 and 3.4, lie 1.72 and 1.78 rows below their limit: in the second.
NIST = """\
 55.8 ··········

              ●
            ●
             ● ●
50.81 ───●─●────
      ● ●

       ●  ●

45.82 ··········
      ──────────
moving range
6.135 ··········

          ●●
1.878 ─●●───────
         ●  ●●●●
    0 ──────────
"""


def test_the_nist_example_is_drawn_by_the_code_that_draws_readings() -> None:
    values = [float(row["x"]) for row in rows("nist_individuals_flowrate")]
    drawn = control_chart(ControlChart("Flow rate", "", tuple(values), individuals_chart(values)), 70)
    assert drawn == NIST.splitlines()


def test_a_value_beyond_a_limit_stands_beyond_it_with_a_sign() -> None:
    drawn = control_chart(chart_of(*[10, 10.2] * 8, 14, *[10, 10.2] * 8), 70)
    upper = next(at for at, line in enumerate(drawn) if "·" in line)
    beyond = [line for line in drawn[:upper] if BEYOND in line]
    assert len(beyond) == 1 and beyond[0].index(BEYOND) == drawn[upper].index("·") + 16


def test_only_the_latest_are_drawn_where_there_is_no_room_and_that_is_said() -> None:
    drawn = control_chart(chart_of(*(10 + at % 3 for at in range(90))), 40)
    assert drawn[0].startswith("the last ") and " of 90" in drawn[0]
    assert max(map(len, drawn)) <= 40


def test_a_tick_marks_where_a_pump_begins() -> None:
    drawn = control_chart(chart_of(1, 2, 3, 1, 2, 3, starts=(0, 3)), 70)
    axis = next(line for line in drawn if "┼" in line)
    assert axis.strip() == "┼──┼──"


@given(st.lists(st.integers(0, 400), min_size=8, max_size=50).filter(lambda values: len(set(values)) > 1))
def test_no_point_stands_on_the_wrong_side_of_a_line(tenths: list[int]) -> None:
    values = [each / 10 for each in tenths]
    chart = chart_of(*values)
    drawn = control_chart(chart, 80)
    limits = [at for at, line in enumerate(drawn) if "·" in line]
    upper, lower = limits[0], limits[1]
    margin = drawn[upper].index("·")
    for at, value in enumerate(values):
        column = [line[margin + at] if len(line) > margin + at else " " for line in drawn]
        row = next(row for row, sign in enumerate(column) if sign in (POINT, BEYOND))
        assert (row < upper) == (value > chart.chart.upper_limit)
        assert (row > lower) == (value < chart.chart.lower_limit)
    assert fmean(values) == pytest.approx(chart.chart.mean)


def document(chart: ControlChart) -> Document:
    return Document("A chart", "", "", (Section("Readings", (chart,)),), "pump", "issue", "check")


def test_on_paper_it_keeps_to_the_page_and_to_ascii() -> None:
    text = as_text([document(chart_of(*(10 + at % 3 for at in range(90))))], plain=True)
    assert text.isascii() and max(map(len, text.splitlines())) <= 72


def test_on_a_page_it_is_a_drawing_with_its_words() -> None:
    page = as_html([document(chart_of(*[10, 10.2] * 8, 14, *[10, 10.2] * 8, starts=(0, 16)))])
    seen = Page(page)
    assert seen.tags["svg"] == 1 and seen.tags["circle"] == 33 + 32
    assert "Beyond them: value 17, 14." in seen.text and "! 14" in seen.text
