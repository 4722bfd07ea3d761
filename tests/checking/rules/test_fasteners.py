"""Groups run in, tightened round by round to the full, with a screw for each position."""

from __future__ import annotations

import pytest

from tests.checking.small_pump import assert_as_marked, rules_found, small_pump

SCREWS = 'screws = [{ item = "M6 x 20" }]'
STEP = '[[step]]\nid = "screws"\nact = "tighten"\ngroup = "F1"\n'
ROUNDS = 'rounds = ["50 %", "100 %"]'
VARIANTS = ('main = "body"', 'main = "body"\nvariants = ["R", "L"]')


def one_round(name: str, number: int, mark: str = "") -> str:
    return f'[[step]]\nid = "{name}"\nact = "tighten"\ngroup = "F1"\nround = {number}{mark}\n\n'


def test_each_round_in_a_step_of_its_own() -> None:
    assert rules_found(small_pump((STEP, one_round("first", 1) + one_round("second", 2)))) == []


@pytest.mark.parametrize(
    ("steps", "rounds"),
    [
        (one_round("second", 2, "  # ← round-out-of-order"), ROUNDS),
        (one_round("first", 1) + one_round("again", 1, "  # ← round-out-of-order"), ROUNDS),
        (
            one_round("first", 1) + one_round("third", 3, "  # ← round-out-of-order"),
            'rounds = ["30 %", "70 %", "100 %"]',
        ),
        (
            one_round("first", 1)
            + one_round("second", 2)
            + one_round("again", 2, "  # ← round-out-of-order"),
            ROUNDS,
        ),
    ],
)
def test_a_round_that_is_skipped_or_comes_twice(steps: str, rounds: str) -> None:
    assert_as_marked(small_pump((STEP, steps), (ROUNDS, rounds)))


def test_a_group_that_stops_short_or_is_never_touched() -> None:
    first = one_round("first", 1).replace('group = "F1"', 'group = "F1"  # ← fastener-not-tight')
    (finding,) = assert_as_marked(small_pump((STEP, first)))
    assert "1 of 2 rounds" in finding.message
    start = STEP.replace("tighten", "start").replace('"F1"', '"F1"  # ← fastener-not-tight')
    assert_as_marked(small_pump((STEP, start)))
    (finding,) = assert_as_marked(small_pump((STEP, ""), ('id = "F1"', 'id = "F1"  # ← fastener-not-tight')))
    assert finding.message == "No step tightens `F1`."


def test_a_group_that_is_loosened_and_left() -> None:
    loose = '[[step]]\nid = "loose"\nact = "remove"\noff = ["F1"]\n\n[[step]]\nid = "leak"'
    text = small_pump(
        ('[[step]]\nid = "leak"', loose), (STEP, STEP.replace('"F1"', '"F1"  # ← fastener-not-tight'))
    )
    (finding,) = assert_as_marked(text)
    assert "loose at the end" in finding.message


def test_tightened_where_one_branch_has_not_run_it_in() -> None:
    asks = (
        '{ what = "serial on the plate", kind = "serial" }',
        '{ what = "screws", one_of = ["old", "new"], sets = "screws" }',
    )
    start = '[[step]]\nid = "run-in"\nact = "start"\ngroup = "F1"\nif = { screws = "new" }\n\n'
    text = small_pump(asks, (STEP, start + STEP.replace('"F1"', '"F1"  # ← not-run-in')))
    (finding,) = assert_as_marked(text)
    assert 'when `screws` is "old"' in finding.message


@pytest.mark.parametrize(
    ("rounds", "rule", "value"),
    [
        ('["30 %", "70 %"]', "rounds-end-below-full", '"70 %"'),
        ('["50 %", "110 %"]', "rounds-end-below-full", '"110 %"'),
        ('["90 %"]', "rounds-end-below-full", '"90 %"'),
        ('["70 %", "30 %", "100 %"]', "rounds-do-not-rise", '"30 %"'),
        ('["50 %", "50.0 %", "100 %"]', "rounds-do-not-rise", '"50.0 %"'),
    ],
)
def test_rounds(rounds: str, rule: str, value: str) -> None:
    text = small_pump((ROUNDS, f"rounds = {rounds}  # ← {rule} at {value}"))
    assert_as_marked(text)


def test_positions_without_a_screw() -> None:
    at = 'screws = [{ item = "M6 x 20", at = [1, 3] }]  # ← position-without-a-screw'
    (finding,) = assert_as_marked(small_pump((SCREWS, at)))
    assert "at positions 2 and 4" in finding.message
    variant = 'screws = [{ item = "M6 x 20", for = ["R"] }]  # ← position-without-a-screw'
    (finding,) = assert_as_marked(small_pump(VARIANTS, (SCREWS, variant)))
    assert "for L at positions 1, 2, 3 and 4" in finding.message


def test_positions_with_two_screws() -> None:
    mark = "  # ← position-with-two-screws at [4]"
    two = f'screws = [\n  {{ item = "M6 x 20" }},\n  {{ item = "M6 x 25", at = [4] }},{mark}\n]'
    assert_as_marked(small_pump((SCREWS, two)))
    both = 'screws = [\n  { item = "M6 x 20", for = ["R"] },\n  { item = "M6 x 25", for = ["L"] },\n]'
    assert rules_found(small_pump(VARIANTS, (SCREWS, both))) == []


def test_a_part_that_one_variant_does_not_have() -> None:
    disc = '[[part]]\nid = "disc"\ninto = "collar"  # ← thing-of-another-variant\nfrom = "side"\n'
    collar = '[[part]]\nid = "collar"\ninto = "shaft"\nfrom = "keyed end"\nfor = ["R"]\n'
    text = small_pump(
        VARIANTS,
        ('part = "shaft"\n\n', 'parts = ["shaft", "collar", "disc"]\n\n'),
        ('"lip", "shaft"]\n\n', '"lip", "shaft", "disc", "collar"]\n\n'),
        more=disc + collar,
    )
    (finding,) = assert_as_marked(text)
    assert "for L" in finding.message
