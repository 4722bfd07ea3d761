"""Two revisions side by side: what changed is said in the trade's words, and what can be kept is told."""

from __future__ import annotations

from pathlib import Path

from benchcheck.assembly.comparison import Comparison, compare
from benchcheck.store.library import parse_procedure

GOOD = Path("procedures/xmpl-hc40-c.toml").read_text("utf-8")


def changed(*replacements: tuple[str, str]) -> Comparison:
    text = GOOD
    for old, new in replacements:
        assert text.count(old) >= 1, old
        text = text.replace(old, new, 1)
    old_model = parse_procedure(GOOD.encode(), "old.toml").model
    return compare(old_model, parse_procedure(text.encode(), "new.toml").model)


def texts(found: Comparison) -> list[str]:
    return [each.as_text() for each in found.differences]


def test_a_procedure_does_not_differ_from_itself() -> None:
    found = changed()
    assert found.differences == ()
    assert found.remark is None
    assert all(again == () for again in found.asked_again.values())


def test_a_ring_of_another_size() -> None:
    found = changed(('takes = "-151"', 'takes = "-152"'), ('revision = "C"', 'revision = "D"'))
    assert "groove G4: takes -151 -> -152" in texts(found)
    assert found.asked_again["-05"] == ("fit-G4/fit:G4",), "what was found at teardown stays found"


def test_a_target_is_told_with_what_it_makes_of_the_preload() -> None:
    found = changed(('target = "16 lbf·ft"', 'target = "18 lbf·ft"'), ('revision = "C"', 'revision = "D"'))
    assert "end plate screws: torque target 16 lbf·ft -> 18 lbf·ft" in texts(found)
    assert "end plate screws: 65% -> 73% of proof load at the target" in texts(found)
    assert "F1-r3/tighten:F1" in found.asked_again["-07"]
    assert "F2/tighten:F2" in found.kept["-07"]


def test_a_facing_from_the_drawing_opens_the_parts_confirmation_again() -> None:
    line = next(each for each in GOOD.splitlines() if 'part = "main-lip"' in each and "toward" in each)
    found = changed((line, line.replace("plate end", "suction end")), ('revision = "C"', 'revision = "D"'))
    assert "main-lip-in/install:main-lip" in found.asked_again["-05"]


def test_a_change_without_a_new_revision_is_said() -> None:
    found = changed(('target = "16 lbf·ft"', 'target = "18 lbf·ft"'))
    assert found.remark == "both say revision C: a change needs a new revision"
