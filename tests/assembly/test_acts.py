"""A step taken apart into its acts: which they are, in which order, and how records name them."""

from __future__ import annotations

from benchcheck.assembly.acts import Verb, acts_of, all_acts
from tests.pumps import CAN, can_with, main_job, tiny_pump


def acts(text: str, step: str) -> list[str]:
    pump = tiny_pump(text)
    return [act.id for act in acts_of(pump, pump.step(step))]


def test_rings_come_before_parts_parts_before_the_group_and_questions_last() -> None:
    text = can_with(
        ('part = "cover"\n\n[[step]]\nid = "F-tight"\n', 'part = "cover"\n'),
        ('group = "F"\n\n', 'group = "F"\nask = [{ what = "gap", max = "1 mm" }]\n\n'),
    )
    assert acts(text, "cover-on") == [
        "cover-on/fit:G",
        "cover-on/install:cover",
        "cover-on/start:F",
        "cover-on/tighten:F",
        "cover-on/ask:0",
    ]


def test_what_comes_off_is_loosened_removed_or_lifted_in_the_order_given() -> None:
    assert acts(CAN, "open") == ["open/loosen:F", "open/remove:cover", "open/lift:G", "open/remove:lip"]


def test_a_question_asked_before_a_part_comes_before_it() -> None:
    text = can_with(
        (
            'max = "0.2 mm" }]',
            'max = "0.2 mm", before = "lip" }, { what = "smell", one_of = ["none", "burnt"] }]',
        )
    )
    assert acts(text, "lip-in") == ["lip-in/ask:0", "lip-in/install:lip", "lip-in/ask:1"]


def test_a_question_before_what_comes_off_comes_before_it() -> None:
    question = 'ask = [{ what = "colour", one_of = ["grey", "black"], before = "cover" }]'
    text = can_with(('off = ["F", "cover", "G", "lip"]', f'off = ["F", "cover", "G", "lip"]\n{question}'))
    assert acts(text, "open")[:3] == ["open/loosen:F", "open/ask:0", "open/remove:cover"]


def test_running_in_alone_and_tightening_alone() -> None:
    started = can_with(
        (
            'id = "F-tight"\n',
            'id = "F-in"\nact = "start"\ngroup = "F"\n\n[[step]]\nid = "F-tight"\nact = "tighten"\n',
        )
    )
    assert acts(started, "F-in") == ["F-in/start:F"]
    assert acts(started, "F-tight") == ["F-tight/tighten:F"]


def test_a_tightening_that_nothing_ran_in_before_runs_in_itself() -> None:
    text = can_with(('id = "F-tight"\n', 'id = "F-tight"\nact = "tighten"\n'))
    assert acts(text, "F-tight") == ["F-tight/start:F", "F-tight/tighten:F"]


def test_a_check_without_questions_looks_at_grooves_and_at_parts_with_ends() -> None:
    look = '[[step]]\nid = "look"\nact = "check"\nof = ["lip", "G", "F"]\nwitness = true\n\n'
    text = can_with(('[[step]]\nid = "F-tight"', look + '[[step]]\nid = "F-tight"'))
    assert acts(text, "look") == ["look/look:lip", "look/look:G", "look/witness"]


def test_the_witness_of_an_install_looks_before_the_part_goes_home() -> None:
    text = can_with(('part = "cover"\n', 'part = "cover"\nwitness = true\n'))
    assert acts(text, "cover-on") == ["cover-on/fit:G", "cover-on/install:cover"]


def test_a_wait_names_its_clock_and_a_signature_stands_last() -> None:
    pump = main_job().pump("-05")
    assert [act.id for act in acts_of(pump, pump.step("cure"))] == ["cure/wait:F3 cure"]
    assert [act.verb for act in acts_of(pump, pump.step("release"))] == [Verb.ASK, Verb.ASK, Verb.SIGN]


def test_what_another_variant_has_is_no_act() -> None:
    text = can_with(
        ('id = "lip"\nends', 'id = "lip"\nfor = ["L"]\nends'),
        ('order = ["cover", "lip"]', 'order = ["cover"]'),
        (
            '  { part = "lip", end = "mouth", toward = "top", because = "the mouth has to face the oil" },\n',
            "",
        ),
    )
    for variant, there in (("R", False), ("L", True)):
        pump = tiny_pump(text, variant, variants=["R", "L"])
        assert ("lip-in/install:lip" in [act.id for act in all_acts(pump)]) is there


def test_every_act_of_the_main_pump_has_a_name_of_its_own() -> None:
    for variant in ("-05", "-07"):
        names = [act.id for act in all_acts(main_job().pump(variant))]
        assert len(names) == len(set(names))
