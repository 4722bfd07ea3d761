"""The five bands: same rows everywhere, and sentences that lose whole clauses, never letters."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.bands import (
    Bands,
    Clause,
    labelled_lines,
    set_bands,
    status,
    too_small,
    work_height,
)
from benchcheck.screens.widgets.cells import Run, line_width, plain_text, width_of
from benchcheck.screens.widgets.ruler import draw_ruler
from tests.screens.pictures import as_text

WHERE = [
    (
        Clause(("Pump 4471",)),
        Clause(("XMPL-HC40-05",), drop_rank=3),
        Clause(("revision C", "rev. C"), drop_rank=4),
    ),
    (
        Clause(
            ("Reassembly, step 45 of 58: tighten the end plate", "Reassembly, step 45 of 58", "step 45 of 58")
        ),
    ),
    (Clause(("The plate end is up", "Plate end is up")),),
]
WHO = [
    (Clause(("T. Sample with TW-02",)),),
    (Clause(("1 deviation is open", "1 deviation"), loud=True),),
    (Clause(("Saved 13:19:07", "Saved"), drop_rank=1), Clause(("event 131",))),
]


def test_wide_enough_the_sentences_are_whole() -> None:
    assert status(WHERE, 130) == (
        "Pump 4471, XMPL-HC40-05, revision C.  Reassembly, step 45 of 58: tighten the end plate.  "
        "The plate end is up."
    )


def test_at_80_columns_they_shorten_from_the_end() -> None:
    assert status(WHERE, 80) == (
        "Pump 4471, XMPL-HC40-05, rev. C.  Reassembly, step 45 of 58.  Plate end is up."
    )


def test_narrower_still_clauses_go_by_rank_and_never_pump_step_or_pose() -> None:
    assert status(WHERE, 55) == "Pump 4471, rev. C.  step 45 of 58.  Plate end is up."
    for width in range(45, 130):
        text = status(WHERE, width)
        assert width_of(text) <= width
        assert "Pump 4471" in text and "step 45 of 58" in text and "late end is up" in text
        assert "…" not in text


def test_what_is_not_as_usual_stands_in_capitals() -> None:
    assert "1 DEVIATION IS OPEN" in status(WHO, 100)


@given(st.integers(1, 140))
def test_a_status_never_leaves_its_row(width: int) -> None:
    assert width_of(status(WHERE, width)) <= width
    assert width_of(status(WHO, width)) <= width


def test_bands_lie_on_their_rows() -> None:
    bands = Bands(
        WHERE,
        WHO,
        draw_ruler(58, 45, (4, 9), 80),
        ((Run("work"),),) * 40,
        "records it",
        (Run("  Esc     keys"),),
    )
    for height in (16, 24, 40):
        lines = set_bands(bands, 80, height)
        assert len(lines) == height
        assert {line_width(line) for line in lines} == {80}
        rows = [plain_text(line).rstrip() for line in lines]
        assert rows[0].startswith("Pump 4471") and rows[1].startswith("T. Sample")
        assert "►" in rows[2]
        assert rows[3 : 3 + work_height(height)] == ["work"] * work_height(height)
        assert rows[-3] == "─" * 80
        assert rows[-2] == "  Enter   records it"
        assert rows[-1] == "  Esc     keys"


def test_labels_are_quiet_and_end_before_the_text() -> None:
    lines = labelled_lines([("wrong", "G3 has no ring"), ("", "and no groove cover")], 40)
    assert as_text(lines).splitlines() == ["   wrong  G3 has no ring", "          and no groove cover"]
    assert [run.text.strip() for run in lines[0] if run.tone is Tone.QUIET] == ["wrong"]


def test_a_window_too_small_says_what_is_needed() -> None:
    for width, height in ((52, 12), (30, 9), (20, 5), (10, 3), (1, 1)):
        lines = too_small("Pump 4471, step 45 of 58.", width, height, (60, 16))
        assert len(lines) == height
        assert {line_width(line) for line in lines} == {width}
    text = as_text(too_small("Pump 4471, step 45 of 58.", 52, 12, (60, 16)))
    assert (
        "TOO SMALL TO WORK SAFELY" in text and "60 x 16" in text and "52 x 12" in text and "Pump 4471" in text
    )
