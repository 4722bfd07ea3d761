"""A procedure as it was understood: held against what its own file says, worked out on another way."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from benchcheck.checking.check import read_any, workshop_among
from benchcheck.checking.subject import Subject
from benchcheck.procedure.model import Procedure
from benchcheck.procedure.reading import Read
from benchcheck.report.understood import GroupUnderstood, Understood, understood
from benchcheck.session.rehearsal import RehearsalFile


@cache
def of(name: str, *replacements: tuple[str, str]) -> Understood:
    """A demonstration procedure, with some of its text replaced."""
    text = Path("procedures", name).read_text("utf-8")
    for old, new in replacements:
        assert old in text
        text = text.replace(old, new, 1)
    read = read_any(text.encode(), name, lambda: RehearsalFile)
    instruments = read_any(Path("procedures/instruments.toml").read_bytes(), "", lambda: RehearsalFile)
    assert isinstance(read, Read) and isinstance(read.model, Procedure) and isinstance(instruments, Read)
    workshop = workshop_among([instruments])
    return understood(Subject(read, workshop.wrenches, workshop.gauges))


def told(name: str, group: str, label: str, *replacements: tuple[str, str]) -> str:
    return dict(_group(name, group, *replacements).told).get(label, "")


def _group(name: str, group: str, *replacements: tuple[str, str]) -> GroupUnderstood:
    return next(each for each in of(name, *replacements).groups if each.group.id == group)


def test_what_faces_out_of_a_stack_is_what_the_drawing_wants() -> None:
    """`must_face` says it from another side: the lip looks to the plate end, the eye to the suction end."""
    facing = {
        part.called: part.facing
        for stack in of("xmpl-hc40-c.toml").stacks
        if (stack.on, stack.from_) == ("motor body", "plate end")
        for part in stack.parts
    }
    assert facing["main lip seal"] == "lip"
    assert facing["seal cartridge"] == "deep pocket end"
    assert facing["excluder lip"] == "back"
    assert facing["bearing ring"] == "sharp edge"
    assert facing["ball bearing"] == "", "it has no two ends"


def test_a_part_stated_reversed_is_shown_reversed() -> None:
    turned = of("xmpl-vv07-a.toml", ('shows = "outer face"', 'shows = "inner face"'))
    before = of("xmpl-vv07-a.toml")
    changed = [
        (old.facing, new.facing)
        for one, other in zip(before.stacks, turned.stacks, strict=True)
        for old, new in zip(one.parts, other.parts, strict=True)
        if old != new
    ]
    assert ("outer face", "inner face") in changed


def test_each_groove_is_filled_before_it_is_closed() -> None:
    for groove in of("xmpl-hc40-c.toml").grooves:
        filled, closed = (int(step.split()[0]) for step in (groove.filled, groove.closed))
        assert filled <= closed, groove


def test_a_ring_that_no_step_fits_is_told() -> None:
    grooves = of("xmpl-vv07-a.toml", ('rings = ["G1"]', "rings = []")).grooves
    assert [each.groove.id for each in grooves if not each.filled] == ["G1"]


def test_torque_against_strength_in_figures() -> None:
    # Our own demonstration data: 16 lbf·ft on 5/16-18 of grade 8, K 0.15; 65.1 % of proof load, as elsewhere.
    assert told("xmpl-hc40-c.toml", "F1", "proof").startswith("65 % of proof load, 59 to 72")
    assert "48 % of proof load" in told(
        "xmpl-hc40-c.toml", "F1", "proof", ('target = "16 lbf·ft"', 'target = "16 N·m"')
    )


def test_what_an_angle_makes_of_a_snug_screw() -> None:
    # 13.3 kN snug and 25.5 kN by 45°, of 48.1 kN: our own demonstration data.
    assert told("xmpl-vv07-a.toml", "F1", "turned").startswith("81 % after the angle, 72 to 89")
    assert "check pass" not in told("xmpl-vv07-a.toml", "F1", "rounds")


def test_the_order_the_rounds_and_the_side() -> None:
    # Six on a circle crosswise: common practice. Rounds: 0.3 and 0.7 of 16 lbf·ft.
    assert told("xmpl-hc40-c.toml", "F1", "order") == "1-4-2-5-3-6"
    assert told("xmpl-hc40-c.toml", "F1", "rounds").startswith(
        "30 %: 4.8 lbf·ft, 70 %: 11.2 lbf·ft, 100 %: 16"
    )
    assert told("xmpl-hc40-c.toml", "F1", "seen").startswith("from the plate end")
    left_hand = [each for each in of("xmpl-mc05-a.toml").groups if each.group.hand == "left"]
    assert left_hand and all(dict(each.told)["hand"].startswith("left") for each in left_hand)


def test_the_spread_is_said_to_be_an_estimate_and_has_its_source() -> None:
    # ± 30 % for a torque wrench, ± 15 % for turn of the nut: a fastener maker's glossary.
    said = dict(_group("xmpl-hc40-c.toml", "F1").told)
    assert said["spread"].startswith("± 30 % of preload") and "glossary" in said["spread"]
    assert "ESTIMATED" in said[""]
    assert told("xmpl-vv07-a.toml", "F1", "spread").startswith("± 15 % of preload")


def test_the_kit_holds_what_the_grooves_take() -> None:
    """The bag of the demonstration kit says the same from another side."""
    taken = of("xmpl-hc40-c.toml")
    rings = {each.what for each in taken.kit if each.for_.startswith("G") and " x -" in each.what}
    bag = Path("procedures/xmpl-hc40-c.toml").read_text("utf-8").partition("[kit]")[2]
    assert rings and all(f'"{ring.split()[2]}"' in bag for ring in rings)


def test_tools_are_those_that_steps_and_groups_name() -> None:
    tools = {each.what: each.for_ for each in of("xmpl-hc40-c.toml").tools}
    assert tools["dial indicator, shaft on V-blocks"] == "shaft"
    assert tools["bullet sleeve"] == "goes in for a time, and comes out"
    assert "seal cartridge" in tools["press"]
