"""Looks and readings: while there is something to see, of what is together or apart as it should be."""

from __future__ import annotations

import pytest

from tests.checking.small_pump import assert_as_marked, findings, rules_found, small_pump

LEAK = '[[step]]\nid = "leak"'
COVER_ON = '[[step]]\nid = "cover-on"'
SHAFT_IN = '[[step]]\nid = "shaft-in"'


def look(thing: str, mark: str, more: str = "") -> str:
    return f'[[step]]\nid = "look"\nact = "check"\nof = ["{thing}"]{mark}\n{more}\n'


@pytest.mark.parametrize(("more", "what"), [("", "look"), ("witness = true\n", "hold point")])
def test_a_look_at_a_groove_that_is_hidden(more: str, what: str) -> None:
    mark = '  # ← look-after-the-closure at "G1"'
    (finding,) = assert_as_marked(small_pump((LEAK, look("G1", mark, more) + LEAK)))
    assert f"The {what} `look` cannot see `G1`: `cover` is on by then." == finding.message


def test_a_question_about_a_groove_that_is_hidden_is_a_look_too() -> None:
    ask = 'ask = [{ what = "ring", one_of = ["round", "twisted"], good = ["round"] }]\n'
    mark = '  # ← look-after-the-closure at "G1"'
    assert_as_marked(small_pump((LEAK, look("G1", mark, ask) + LEAK)))


def test_a_look_at_a_part_with_another_over_it() -> None:
    mark = '  # ← look-at-what-is-covered at "shaft"'
    (finding,) = assert_as_marked(small_pump((LEAK, look("shaft", mark) + LEAK)))
    assert "`cover` lies over it" in finding.message
    assert rules_found(small_pump((COVER_ON, look("shaft", "") + COVER_ON))) == []


def test_a_reading_by_itself_of_what_is_in() -> None:
    reading = (
        '[[step]]\nid = "again"\nact = "measure"\nof = ["shaft"]{mark}\nbetween = false\n'
        'ask = [{{ what = "runout", max = "0.05 mm" }}]\n\n'
    )
    mark = '  # ← read-by-itself-when-in at ["shaft"]'
    assert_as_marked(small_pump((LEAK, reading.format(mark=mark) + LEAK)))
    assert rules_found(small_pump((SHAFT_IN, reading.format(mark="") + SHAFT_IN))) == []


def test_a_reading_between_parts_that_are_apart() -> None:
    reading = (
        '[[step]]\nid = "drag"\nact = "measure"\nof = ["shaft", "lip"]{mark}\n'
        'ask = [{{ what = "torque to turn", max = "0.3 N·m" }}]\n\n'
    )
    mark = '  # ← read-together-when-apart at ["shaft", "lip"]'
    (finding,) = assert_as_marked(small_pump((COVER_ON, reading.format(mark=mark) + COVER_ON)))
    assert "`shaft` and `lip`" in finding.message
    assert rules_found(small_pump((LEAK, reading.format(mark="") + LEAK))) == []


def test_two_parts_may_be_looked_at_before_they_meet() -> None:
    faces = (
        '[[step]]\nid = "faces"\nact = "check"\nof = ["shaft", "lip"]\n'
        'ask = [{ what = "both, before they meet", one_of = ["clean", "dirty"], good = ["clean"] }]\n\n'
    )
    assert rules_found(small_pump((COVER_ON, faces + COVER_ON))) == []


# ---------------------------------------------------------------------- cautions and questions


def caution(text: str, *before: str, mark: str = "") -> str:
    names = ", ".join(f'"{each}"' for each in before)
    return f'[[caution]]\nsignal = "CAUTION"\ntext = "{text}"\nbefore = [{names}]{mark}\n'


def test_a_caution_that_comes_when_the_first_time_is_over() -> None:
    mark = "  # ← caution-after-its-act"
    (finding,) = assert_as_marked(small_pump(more=caution("The cover is under load.", "cover-on", mark=mark)))
    assert "`open` (line " in finding.message and finding.remedy == 'Write "open" into `before` as well.'
    assert rules_found(small_pump(more=caution("The cover is under load.", "open", "cover-on"))) == []


def test_a_caution_about_the_press_counts_every_press_fit() -> None:
    pressed = ('id = "shaft"\nends', 'id = "shaft"\nfit = "press"\nends')
    depth = (
        'part = "shaft"\n',
        'part = "shaft"\nask = [{ what = "depth", max = "1 mm", with = "depth gauge" }]\n',
    )
    mark = "  # ← caution-after-its-act"
    text = small_pump(pressed, depth, more=caution("A press crushes fingers.", "shaft-in", mark=mark))
    assert_as_marked(text)


@pytest.mark.parametrize("words", ["The discovery is under load.", "Uncovered parts cut.", "Oil burns."])
def test_a_caution_that_names_no_part_is_left_alone(words: str) -> None:
    assert rules_found(small_pump(more=caution(words, "cover-on"))) == []


@pytest.mark.parametrize(
    ("answers", "good", "is_one"),
    [
        ('["none"]', "", True),
        ('["none", "one or more"]', 'good = ["none", "one or more"]', True),
        ('["yes", "no"]', 'good = ["yes"]', True),
        ('["OK", "not OK"]', 'good = ["OK"]', True),
        ('["none", "one or more"]', "", False),
        ('["none", "one or more"]', 'good = ["none"]', False),
        ('["good", "replace"]', "", False),
    ],
)
def test_a_question_that_cannot_be_answered_with_no(answers: str, good: str, is_one: bool) -> None:
    tail = f", {good}" if good else ""
    mark = f"  # ← question-without-a-no at {answers}" if is_one else ""
    text = small_pump(
        (
            'one_of = ["none", "one or more"], good = ["none"] }]',
            f"one_of = {answers}{tail} }}]{mark}",
        )
    )
    assert [each.rule for each in findings(text)] == (["question-without-a-no"] if is_one else [])
    if is_one:
        assert_as_marked(text)
