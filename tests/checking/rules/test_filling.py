"""Rings into their grooves, one each and before they are hidden, and single-use things used once."""

from __future__ import annotations

import pytest

from tests.checking.small_pump import assert_as_marked, changed, main_pump, rules_found, small_pump

COVER_ON = 'id = "cover-on"\nrings = ["G1"]\npart = "cover"'
LEAK = '[[step]]\nid = "leak"'
OFF = 'off = ["F1", "cover", "G1", "lip", "shaft"]'
FIT = '[[step]]\nid = "fit-G1"\nrings = ["G1"]'
ASK = 'ask = [{ what = "case below the edge of the bore", min = "0 mm", max = "0.2 mm" }]'


def test_a_groove_hidden_before_its_ring_is_in() -> None:
    text = small_pump(
        (COVER_ON, 'id = "cover-on"\npart = "cover"  # ← groove-left-empty'), (LEAK, f"{FIT}\n\n{LEAK}")
    )
    (finding,) = assert_as_marked(text)
    assert "and `fit-G1` (line " in finding.message and finding.remedy == "Put `fit-G1` before `cover-on`."


def test_a_groove_that_no_step_fills() -> None:
    text = small_pump((COVER_ON, 'id = "cover-on"\npart = "cover"  # ← groove-left-empty'))
    (finding,) = assert_as_marked(text)
    assert finding.message.endswith("; no step fits its ring.")


def test_a_groove_that_is_never_hidden_and_never_filled() -> None:
    bush = '[[part]]\nid = "bush"\ninto = "shaft"\nfrom = "keyed end"\ntemporary = true\n'
    groove = (
        '[[groove]]\nid = "G2"  # ← groove-left-empty\nin = "shaft"\nwhere = "at the key"\nagainst = "bush"\n'
        'takes = "-137"\nmaterial = "NBR"\n'
    )
    text = small_pump((OFF, 'off = ["F1", "cover", "G1", "lip", "shaft", "G2"]'), more=bush + groove)
    assert_as_marked(text, "kit-lacks-a-ring")


def test_a_groove_whose_ring_is_never_pressed() -> None:
    bush = '[[part]]\nid = "bush"\ninto = "shaft"\nfrom = "keyed end"\ntemporary = true\n'
    groove = (
        '[[groove]]\nid = "G2"  # ← groove-left-open\nin = "shaft"\nwhere = "at the key"\nagainst = "bush"\n'
        'takes = "-137"\nmaterial = "NBR"\n'
    )
    text = small_pump(
        (OFF, 'off = ["F1", "cover", "G1", "lip", "shaft", "G2"]'),
        ('part = "shaft"\n\n', 'part = "shaft"\nrings = ["G2"]\n\n'),
        more=bush + groove,
    )
    (finding,) = assert_as_marked(text, "kit-lacks-a-ring")
    assert "`shaft` and `bush` are not together" in finding.message


def test_a_second_ring_and_one_for_a_groove_that_is_hidden() -> None:
    second = COVER_ON.replace('["G1"]', '["G1"]  # ← second-ring-in-a-groove at "G1"')
    assert_as_marked(small_pump((f"[[step]]\n{COVER_ON}", f"{FIT}\n\n[[step]]\n{second}")))
    again = '[[step]]\nid = "again"\nrings = ["G1"]  # ← groove-is-hidden at "G1"\n\n'
    (finding,) = assert_as_marked(small_pump((LEAK, again + LEAK)))
    assert "which `cover` has hidden" in finding.message


def test_an_old_ring_that_nobody_takes_out() -> None:
    off = 'off = ["F1", "cover", "lip", "shaft"]'
    text = small_pump((OFF, off), ('rings = ["G1"]', 'rings = ["G1"]  # ← old-ring-left-in at "G1"'))
    assert_as_marked(text)
    text = small_pump((OFF, off), (COVER_ON, 'id = "cover-on"\npart = "cover"  # ← single-use-fitted-again'))
    (finding,) = assert_as_marked(text)
    assert "the old ring in it" in finding.message


LIP_AGAIN = (
    '[[step]]\nid = "cover-on"',
    '[[step]]\nid = "lip-out"\nact = "remove"\noff = ["lip"]\n\n'
    f'[[step]]\nid = "lip-again"\npart = "lip"  # ← single-use-fitted-again\n{ASK}\n\n'
    '[[step]]\nid = "cover-on"',
)


def test_a_single_use_part_fitted_taken_out_and_fitted_again() -> None:
    (finding,) = assert_as_marked(small_pump(LIP_AGAIN))
    assert "and `lip-out` (line " in finding.message


def test_it_may_be_tried_in_if_the_kit_holds_a_second_one() -> None:
    again = (LIP_AGAIN[0], LIP_AGAIN[1].replace("  # ← single-use-fitted-again", ""))
    kit = ('{ part = "lip" }', '{ part = "lip", count = 2 }')
    assert "single-use-fitted-again" not in rules_found(small_pump(again, kit))


def test_a_nut_that_was_loosened_and_is_tightened_again() -> None:
    steps = (
        '[[step]]\nid = "nut-loose"\nact = "remove"\noff = ["F3"]\n\n'
        '[[step]]\nid = "nut-start"\nact = "start"\ngroup = "F3"  # ← single-use-fitted-again\n\n'
        '[[step]]\nid = "nut-tight"\nact = "tighten"\ngroup = "F3"\n\n'
    )
    volute = '[[step]]\nid = "volute-on"'
    (finding,) = assert_as_marked(changed(main_pump(), (volute, steps + volute)))
    assert "`nut` is single-use" in finding.message


@pytest.mark.parametrize("fit", ["press", "heat"])
@pytest.mark.parametrize(
    ("question", "proves"),
    [
        ('{ what = "depth", max = "0.2 mm" }', True),
        ('{ what = "depth", min = "0 mm", of = ["lip"] }', True),
        ('{ what = "depth", max = "0.2 mm", of = ["shaft"] }', False),
        ('{ what = "depth", unit = "mm" }', False),
        ('{ what = "case", one_of = ["home", "askew"], good = ["home"] }', False),
    ],
)
def test_a_press_fit_wants_a_number_with_a_limit(fit: str, question: str, proves: bool) -> None:
    mark = "" if proves else "  # ← press-fit-without-a-number"
    start = small_pump()
    old = next(line for line in start.splitlines() if "case below the edge" in line)
    text = small_pump((old, f"ask = [{question}]"), ('fit = "press"\n', f'fit = "{fit}"{mark}\n'))
    found = [each.rule for each in assert_as_marked(text, *_others(text))]
    assert found == ([] if proves else ["press-fit-without-a-number"])


def _others(text: str) -> list[str]:
    """What is to be said of these questions besides, which is not what is tested here."""
    return [each for each in rules_found(text) if each != "press-fit-without-a-number"]
