"""Wrong order, facing and filling in the main pump: each is found first, at its line, then what follows."""

from __future__ import annotations

import pytest

from benchcheck.checking.check import check
from benchcheck.procedure.finding import Finding
from benchcheck.procedure.table import Table
from benchcheck.session.rehearsal import RehearsalFile
from tests.checking.small_pump import assert_as_marked, changed, findings, main_pump, marked, small_pump, told
from tests.pumps import MAIN_PUMP

Change = tuple[str, str]

CURE = '[[step]]\nid = "cure"\nphase = "test"\nact = "wait"\nclock = "F3 cure"\n\n'
TEST = '[[step]]\nid = "test"\n'
RELEASE = '[[step]]\nid = "release"\n'
PLATE_ON = 'id = "plate-on"\nrings = ["G5"]\npart = "plate"'
SCREWS_IN = '[[step]]\nid = "screws-in"\n'
F1_ROUNDS = 'seen_from = "plate end", datum = "the bypass boss" }\nrounds = ["30 %", "70 %", "100 %"]'
ROUND_3 = '[[step]]\nid = "F1-r3"\nact = "tighten"\ngroup = "F1"\nround = 3\n'


def first(*changes: Change, then: tuple[str, ...] = ()) -> Finding:
    """The finding that a change of the main pump marks, which has to come before all that follow from it."""
    text = changed(main_pump(), *changes)
    (expected,) = assert_as_marked(text, *then)
    assert findings(text)[0] == expected
    return expected


def test_a_ring_that_no_step_fits() -> None:
    finding = first(
        ('[[step]]\nid = "fit-G3"\nrings = ["G3"]\n\n', ""),
        ('part = "cartridge"\nwitness', 'part = "cartridge"  # ← groove-left-empty\nwitness'),
    )
    assert "`cartridge-in` hides `G3`" in finding.message


def test_a_ring_that_is_fitted_when_its_groove_is_closed() -> None:
    finding = first(
        (PLATE_ON, 'id = "plate-on"\npart = "plate"  # ← groove-left-empty'),
        (SCREWS_IN, f'[[step]]\nid = "fit-G5"\nrings = ["G5"]\n\n{SCREWS_IN}'),
    )
    assert "`fit-G5` (line " in finding.message and "comes too late" in finding.message


def test_a_cartridge_the_wrong_way_round() -> None:
    finding = first(
        (
            'shows = "deep pocket end"\nfit',
            'shows = "shallow pocket end"  # ← part-faces-the-wrong-way\nfit',
        )
    )
    # Three facings are false, and one part mends them all.
    for false in ("the lip of `main-lip`", "the lip of `excluder`", "the deep pocket end of `cartridge`"):
        assert false in finding.message
    assert "at `cartridge-in` (line " in finding.message
    assert finding.remedy.startswith("Turn `cartridge` over: ") and finding.remedy.endswith("mends all 3.")


def test_rounds_that_never_reach_the_full_torque() -> None:
    mark = '  # ← rounds-end-below-full at "70 %"'
    short = F1_ROUNDS.replace('"70 %", "100 %"]', f'"70 %"]{mark}')
    finding = first((F1_ROUNDS, short), (ROUND_3, ""))
    assert finding.message == "The last round of `F1` is 70 % of the target, not 100 %."


def test_a_last_round_that_no_step_tightens() -> None:
    round_2 = 'group = "F1"\nround = 2'
    first((ROUND_3, ""), (round_2, 'group = "F1"  # ← fastener-not-tight\nround = 2'))


def test_the_test_before_the_cure() -> None:
    mark = "  # ← barred-step-before-its-wait"
    late = (RELEASE, CURE + RELEASE)
    finding = first((CURE, ""), late, (TEST, TEST.replace('"test"', f'"test"{mark}')))
    assert "`cure` (line " in finding.message
    finding = first((CURE, ""), (TEST, TEST.replace('"test"', f'"test"{mark}')))
    assert "no step waits for it" in finding.message


def test_clips_out_before_the_screws_that_take_over() -> None:
    """What the author declared, and what the model shows by itself."""
    parts = (
        '[[part]]\nid = "clips"\ninto = "lip"\nfrom = "mouth"\nholds = ["lip"]\ntemporary = true\n'
        '[[part]]\nid = "collar"\ninto = "cover"\nfrom = "side"\nholds = ["lip"]\n'
    )
    loose = ('id = "lip"\nname', 'id = "lip"\nnever_loose = true\nname')
    teardown = ('"cover", "G1", "lip", "shaft"]', '"cover", "G1"]')
    lip_out = (
        '[[step]]\nid = "runout"',
        '[[step]]\nid = "clips-first"\nphase = "teardown"\npart = "clips"\n\n[[step]]\nid = "lip-out"\n'
        'phase = "teardown"\nact = "remove"\noff = ["collar", "lip", "shaft"]\n\n[[step]]\nid = "runout"',
    )
    clips_off = '[[step]]\nid = "clips-off"\nact = "remove"\noff = ["clips"]{mark}\n{after}\n'
    collar_on = '[[step]]\nid = "collar-on"\npart = "collar"\n\n'
    cover_on = '[[step]]\nid = "cover-on"'
    base = (loose, teardown, lip_out)

    good = (cover_on, collar_on + clips_off.format(mark="", after='after = ["collar-on"]\n') + cover_on)
    assert [each.as_text() for each in findings(small_pump(*base, good, more=parts))] == []
    mark = '  # ← left-loose at "clips"'
    after = 'after = ["collar-on"]  # ← step-before-its-time at "collar-on"\n'
    swapped = (cover_on, clips_off.format(mark=mark, after=after) + collar_on + cover_on)
    assert_as_marked(small_pump(*base, swapped, more=parts))


def test_the_clips_of_the_end_suction_pump_out_before_its_set_screws() -> None:
    text = (MAIN_PUMP.parent / "xmpl-ef150-a.toml").read_text(encoding="utf-8")
    start = text.index('[[step]]\nid = "clips-out"')
    end = text.index("[[step]]\n", start + 1)
    after = 'after = ["set-screws"]'
    clips_out = text[start:end].replace(after, f'{after}  # ← step-before-its-time at "set-screws"')
    screws = '[[step]]\nid = "set-screws"'
    text = changed(text[:start] + text[end:], (screws, clips_out + screws))
    assert_as_marked(text)


def test_shims_that_come_out_and_never_go_back() -> None:
    text = changed(main_pump(), ('parts = ["shims", "imp-key"', 'parts = ["imp-key"'))
    found = findings(text)
    assert [each.rule for each in found] == ["remove-unanswered"]
    line = text.splitlines()[found[0].place.line - 1]
    assert line.startswith("off = ") and line[found[0].place.column - 1 :].startswith('"shims"')


def test_a_lip_pressed_in_taken_out_and_pressed_in_again() -> None:
    again = (
        '[[step]]\nid = "lip-out"\nact = "remove"\noff = ["main-lip"]\n\n[[step]]\nid = "lip-again"\n'
        'part = "main-lip"  # ← single-use-fitted-again\n'
        'ask = [{ what = "case below the edge", min = "0 in", max = "0.010 in" }]\n\n'
    )
    excluder_in = '[[step]]\nid = "excluder-in"'
    finding = first((excluder_in, again + excluder_in))
    assert "`lip-out` (line " in finding.message


def test_screws_for_one_of_two_variants() -> None:
    old = 'screws = [\n  { item = "5/16-18 x 2-3/4", grip = "2-1/4 in", for = ["-05"] },\n'
    finding = first((old, "screws = [  # ← position-without-a-screw\n"))
    assert "for -05" in finding.message


def rehearsal() -> type[Table]:
    return RehearsalFile


@pytest.mark.parametrize(
    "change",
    [
        ('[[step]]\nid = "fit-G3"', '[[step]]\nid = "fit-G2"  # ← id-used-twice'),
        ('takes = "-151"', 'takes = "-151"\nclosed_by = "fit-G5"  # ← group-unknown'),
    ],
)
def test_an_id_used_twice_and_one_that_leads_nowhere(change: Change) -> None:
    text = changed(main_pump(), change)
    found = check(text.encode(), "small.toml", rehearsal).findings
    assert told(found) == marked(text)


@pytest.mark.parametrize(
    ("moved", "before", "rule"),
    [
        ("tw-rear-in", "tw-front-in", "place-is-covered"),
        ("ir-cart-in", "cartridge-in", "holds-nothing"),
        ("shaft-in", "cartridge-in", "place-is-covered"),
        ("er-on", "bearing-on", "holds-nothing"),
        ("guard-off", "shaft-in", "guard-missing"),
        ("screws-in", "plate-on", "fastener-holds-nothing"),
        ("F1-r2", "F1-r1", "round-out-of-order"),
        ("volute-on", "nut-on", "place-is-covered"),
        ("cartridge-in", "fit-G3", "groove-left-empty"),
        ("cartridge-in", "lip-check", "look-after-the-closure"),
    ],
)
def test_a_step_moved_before_one_that_it_needs(moved: str, before: str, rule: str) -> None:
    steps = main_pump().split("[[step]]\n")
    at = {step.split('"')[1]: number for number, step in enumerate(steps[1:], 1)}
    step = steps.pop(at[moved])
    steps.insert(at[before], step)
    assert rule in [each.rule for each in findings("[[step]]\n".join(steps))]
