"""Wrong numbers and words in the shipped procedures: each is found first, at its line, then what follows."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from benchcheck.checking.catalogue import names, rule
from benchcheck.checking.joints import MIXED_UP
from benchcheck.checking.subject import Subject
from benchcheck.mechanics.units import Quantity, QuantityError, room
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Procedure
from benchcheck.procedure.reading import Read
from benchcheck.store.library import Unreadable
from tests.checking.small_pump import assert_as_marked, changed, findings, marked, parsed, told
from tests.pumps import ROOT, registers


@cache
def shipped(name: str) -> str:
    return (ROOT / "procedures" / name).read_text(encoding="utf-8")


@cache
def as_read(name: str) -> Read[Procedure]:
    return parsed(shipped(name))


HC40, GX18, MC05 = "xmpl-hc40-c.toml", "xmpl-gx18-b.toml", "xmpl-mc05-a.toml"
VV07, EF150 = "xmpl-vv07-a.toml", "xmpl-ef150-a.toml"
F1_OF_HC40 = 'torque = { target = "16 lbf·ft", tolerance = "10 %" }'
F1_SCREW = 'strength = "SAE J429 8"'


def first(name: str, *changes: tuple[str, str], then: tuple[str, ...] = ()) -> Finding:
    """The finding that a change marks, which has to come before all that follow from it."""
    text = changed(shipped(name), *changes)
    expected, *others = findings(text)
    assert told([expected]) == marked(text)
    assert {each.rule for each in others} == set(then)
    return expected


def test_newton_metres_under_a_number_of_pounds() -> None:
    mark = '  # ← torque-too-low at "16 N·m"'
    finding = first(
        HC40,
        (F1_OF_HC40, f'torque = {{ target = "16 N·m", tolerance = "10 %" }}{mark}'),
        then=("torque-unit-unlike-the-others",),
    )
    # 16 N·m on 5/16-18 with K 0.15: 48 % of 6 292 lbf, and 65 % as 16 lbf·ft
    assert "48 %" in finding.message and "65 % as 16 lbf·ft" in finding.message


def test_foot_pounds_under_a_number_of_inch_pounds() -> None:
    mark = '  # ← torque-over-proof-load at "192 lbf·ft"'
    finding = first(
        HC40,
        (F1_OF_HC40, f'torque = {{ target = "192 lbf·ft", tolerance = "10 %" }}{mark}'),
        then=("torque-beyond-every-wrench",),
    )
    assert finding.severity is Severity.ERROR
    assert "781 %" in finding.message and "65 % as 192 lbf·in" in finding.message


def test_a_torque_for_better_screws() -> None:
    torque = f'{F1_OF_HC40}  # ← torque-over-proof-load at "16 lbf·ft"'
    finding = first(HC40, (F1_OF_HC40, torque), (F1_SCREW, 'strength = "SAE J429 5"'))
    assert "92 %" in finding.message and "101 %" in finding.message


def test_foot_pounds_for_newton_metres() -> None:
    torque = 'torque = { target = "18 N·m", tolerance = "8 %" }'
    wrong = torque.replace("N·m", "lbf·ft") + '  # ← torque-over-proof-load at "18 lbf·ft"'
    finding = first(GX18, (torque, wrong))
    # 24.4 N·m, 96 % of 21.23 kN; at the top of the tolerance over 100 %
    assert "96 %" in finding.message and "71 % as 18 N·m" in finding.message


def test_two_rings_that_look_alike_exchanged() -> None:
    four = 'takes = "-151"\nmaterial = "NBR"\ngland = { outside = "3.200 in"'
    five = 'takes = "-150"\nmaterial = "NBR"\ngland = { outside = "3.075 in"'
    mark = "  # ← ring-does-not-fit\n"
    text = changed(
        shipped(HC40),
        (four, four.replace('"-151"\n', f'"-150"{mark}')),
        (five, five.replace('"-150"\n', f'"-151"{mark}')),
    )
    floats, pinched = assert_as_marked(text)
    assert "0.132 in" in floats.message and "-151" in floats.remedy
    assert "0.118 in larger" in pinched.message and "-150" in pinched.remedy


def test_a_lip_that_is_to_look_down() -> None:
    step = 'id = "main-lip-in"\npart = "main-lip"\ntext = "Press on the case, squarely, until it bottoms."'
    wrong = step.replace('bottoms."', 'bottoms, lip down."  # ← orientation-word')
    assert '"lip down"' in first(HC40, (step, wrong)).message


SEVENTH = '{ item = "5/16-18 x 3", grip = "2-1/2 in", for = ["-07"] }'
ROUNDS = 'rounds = ["30 %", "70 %", "100 %"]\npass = true\ntorque = { target = "16'


@pytest.mark.parametrize(
    ("old", "new", "rule"),
    [
        (SEVENTH, SEVENTH.replace(" }", ", at = [1, 2, 3, 4, 5, 6, 7] }"), "position-outside-the-layout"),
        (ROUNDS, f"order = [1, 4, 2, 3, 3, 6]\n{ROUNDS}", "order-not-a-permutation"),
    ],
)
def test_positions_that_are_not_there(old: str, new: str, rule: str) -> None:
    with pytest.raises(Unreadable) as unreadable:
        parsed(changed(shipped(HC40), (old, new)))
    assert [each.rule for each in unreadable.value.findings] == [rule]


def test_a_tolerance_that_only_paper_can_hold() -> None:
    torque = 'torque = { target = "30 lbf·ft", tolerance = "2 lbf·ft" }'
    wrong = (
        torque.replace('"2 lbf·ft"', '"0.01 lbf·ft"')
        + '  # ← tolerance-tighter-than-any-wrench at "0.01 lbf·ft"'
    )
    finding = first(HC40, (torque, wrong))
    assert "TW-04" in finding.message


def test_a_rubber_and_the_oil_that_destroys_it() -> None:
    gland = 'gland = { bore = "1.625 in", depth = "0.081 in", width = "0.145 in" }'
    ring = f'material = "FKM"\n{gland}\nlubricate = "soapy water"'
    wrong = ring.replace('"FKM"', '"EPDM"').replace(
        '"soapy water"', '"mineral oil"  # ← rubber-against-lubricant'
    )
    line = '{ ring = "-127", material = "FKM" }'
    finding = first(HC40, (ring, wrong), (line, line.replace("FKM", "EPDM")))
    assert finding.severity is Severity.ERROR
    alone = findings(changed(shipped(HC40), (ring, ring.replace('"FKM"', '"EPDM"'))))
    assert [each.rule for each in alone] == ["kit-lacks-a-ring", "kit-holds-a-ring-too-many"]


def test_a_left_hand_screw_whose_hand_was_dropped() -> None:
    item = 'screws = [{ item = "M8 x 25, left-hand" }]'
    mark = '  # ← hand-told-two-ways at "M8 x 25, left-hand"'
    finding = first(MC05, ('hand = "left"\n', ""), (item, item + mark))
    assert finding.severity is Severity.ERROR


@pytest.mark.parametrize(
    ("name", "layout"),
    [
        (HC40, 'layout = { circle = 6, seen_from = "plate end", datum = "the bypass boss" }'),
        (
            HC40,
            'layout = { circle = 8, seen_from = "suction end", datum = "the centre line of the discharge" }',
        ),
        (MC05, 'layout = { circle = 5, seen_from = "motor end", datum = "the drain" }'),
    ],
)
def test_a_circle_that_is_seen_from_nowhere(name: str, layout: str) -> None:
    before, _, after = layout.partition('seen_from = "')
    without = before + after.partition('", ')[2]
    first(name, (layout, f"{without}  # ← layout-without-its-side"))


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('hold = "5 min"', 'hold = "5"'),
        ('cure = "24 h"', 'cure = "24"'),
        ('handling = "20 min"', "handling = 20"),
        ('max = "30 psi"', 'max = "30"'),
        ('max = "30 psi"', 'max = "30,5 psi"'),
        ('target = "16 lbf·ft"', 'target = "16,0 lbf·ft"'),
    ],
)
def test_numbers_without_their_unit_and_with_a_comma(old: str, new: str) -> None:
    text = changed(shipped(HC40), (old, new))
    with pytest.raises(Unreadable) as unreadable:
        parsed(text)
    (finding,) = unreadable.value.findings
    assert finding.place.line == text[: text.index(new)].count("\n") + 1
    assert "unit" in finding.message + finding.remedy or "point" in finding.message + finding.remedy


NUT_OF_VV07 = 'torque = { target = "90 N·m", tolerance = "10 %" }'


def test_a_tolerance_tighter_than_the_only_wrench_that_reaches_it() -> None:
    # only TW-05 reaches 90 N·m and what the running torque adds, and it is accurate to ±4 %
    mark = '  # ← tolerance-tighter-than-any-wrench at "3 %"'
    finding = first(VV07, (NUT_OF_VV07, NUT_OF_VV07.replace('"10 %"', '"3 %"') + mark))
    assert "TW-05" in finding.message and "4 %" in finding.message


def test_a_locking_nut_without_its_rule() -> None:
    rule = 'prevailing = { min = "4 N·m", max = "20 N·m", add = "always" }\n'
    item = 'item = "locking nut M16 x 1.5, all metal"'
    finding = first(VV07, (rule, ""), (item, f"{item}  # ← locking-nut-without-a-rule"))
    assert finding.severity is Severity.ERROR and "`F2`" in finding.message


ON_TORQUE = [name for name in names() if name.startswith(("torque-", "tolerance-", "reason-"))]
TORQUES = [
    (name, group.id)
    for name in (HC40, GX18, MC05, VV07, EF150)
    for group in as_read(name).model.fasteners
    if group.torque
]


def with_unit(name: str, group_id: str, unit: str) -> Subject | None:
    """A shipped procedure with one target's number under another unit; None where it could not be read."""
    read = as_read(name)
    groups = []
    for group in read.model.fasteners:
        if group.id == group_id and group.torque is not None:
            target = Quantity(group.torque.target.value, unit)
            try:
                room(target, group.torque.tolerance)
            except QuantityError:
                return None
            torque = group.torque.model_copy(update={"target": target})
            group = group.model_copy(update={"torque": torque})
        groups.append(group)
    model = read.model.model_copy(update={"fasteners": tuple(groups)})
    return Subject(replace(read, model=model), registers().wrenches, registers().gauges)


@pytest.mark.parametrize(("name", "group"), TORQUES)
def test_no_torque_can_stand_under_another_unit_unsaid(name: str, group: str) -> None:
    told_in = next(
        each.torque.target.unit for each in as_read(name).model.fasteners if each.id == group and each.torque
    )
    for unit in MIXED_UP:
        slipped = with_unit(name, group, unit)
        if slipped is not None:
            found = [finding for each in ON_TORQUE for finding in rule(each).check(slipped)]
            assert bool(found) == (unit != told_in), unit
