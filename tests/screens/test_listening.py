"""Listening: what a hand, a held key, a scanner and a paste can and cannot do to a question."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchcheck.screens.keys import Deed
from benchcheck.screens.listening import (
    AT_ONCE,
    Answered,
    Asked,
    Changed,
    Heard,
    Listener,
    Question,
    Refused,
    Stray,
    Takes,
    Timing,
)

READING = Question("reading", Takes.NUMBER, if_empty="type what the dial showed")
SERIAL = Question("serial", Takes.TEXT)
PICTURES = Question("pictures", Takes.POINTING, choices=3, if_empty="say first which picture you see")
CONFIRM = Question("confirm")
HAND, SCANNER = 0.3, 0.01


def listening(question: Question, timing: Timing | None = None, at: float = 0.0) -> Listener:
    listener = Listener(timing)
    listener.ask(question)
    listener.drawn(at)
    return listener


def typed(
    listener: Listener, text: str, start: float, gap: float, *, enter: bool = False
) -> list[Heard | None]:
    names = [*text, "\r"] if enter else list(text)
    return [
        listener.key("enter", "\r", start + index * gap)
        if letter == "\r"
        else listener.key(letter, letter, start + index * gap)
        for index, letter in enumerate(names)
    ]


def test_a_hand_types_a_reading_and_enter_answers() -> None:
    listener = listening(READING)
    assert typed(listener, "13,5", 1.0, HAND)[-1] == Changed()
    assert listener.key("enter", "\r", 3.0) == Answered("reading", "13,5")


def test_enter_is_deaf_until_the_question_was_seen_for_a_moment() -> None:
    listener = listening(CONFIRM, at=10.0)
    assert listener.key("enter", "\r", 10.39) == Refused()
    assert listener.key("enter", "\r", 10.6) == Answered("confirm")


def test_enter_is_deaf_before_the_question_is_drawn() -> None:
    listener = Listener()
    listener.ask(CONFIRM)
    assert not isinstance(listener.key("enter", "\r", 99.0), Answered)


def test_one_question_is_answered_once() -> None:
    listener = listening(CONFIRM)
    assert listener.key("enter", "\r", 1.0) == Answered("confirm")
    assert not isinstance(listener.key("enter", "\r", 2.0), Answered)


def test_five_enters_in_one_go_answer_one_question() -> None:
    listener = Listener()
    answers = 0
    for question in range(5):
        listener.ask(Question(f"step {question}"))
        listener.drawn(0.0 if question == 0 else 1.0)
        answers += isinstance(listener.key("enter", "\r", 1.0), Answered)
    assert answers == 1


def test_a_held_enter_answers_no_more_than_the_first_repeat_could() -> None:
    """Terminals repeat a held key 30 times a second, after half a second; none tells when it is let go."""
    listener = listening(Question("step 0"))
    answers, time = 0, 1.0
    times = [1.0] + [1.5 + index / 30 for index in range(90)]
    for index, time in enumerate(times):
        if isinstance(listener.key("enter", "\r", time), Answered):
            answers += 1
            listener.ask(Question(f"step {index + 1}"))
            listener.drawn(time + 0.005)
    assert answers <= 2


def test_a_quick_hand_in_a_round_of_twelve_is_not_slowed() -> None:
    listener = Listener()
    for position in range(12):
        listener.ask(Question(f"position {position}"))
        listener.drawn(position * 0.5)
        assert isinstance(listener.key("enter", "\r", position * 0.5 + 0.45), Answered)


def test_a_scanner_fills_the_field_and_never_accepts() -> None:
    listener = listening(SERIAL)
    heard = typed(listener, "4471", 1.0, SCANNER, enter=True)
    assert heard[-1] is None
    assert listener.text == "4471"
    assert listener.key("enter", "\r", 2.0) == Answered("serial", "4471")


@pytest.mark.parametrize("ending", ["enter", "ctrl+j", "tab"])
def test_whatever_a_scanner_sends_after_its_code(ending: str) -> None:
    listener = listening(SERIAL)
    typed(listener, "4471", 1.0, SCANNER)
    assert listener.key(ending, None, 1.0 + 4 * SCANNER) is None
    assert listener.text == "4471"


def test_a_burst_that_begins_deaf_is_dropped_whole_with_one_bell() -> None:
    listener = listening(SERIAL, at=0.9)
    heard = typed(listener, "4471-0005-0099-4471-0005-0099-4471-0005-0099", 1.0, 0.02, enter=True)
    assert heard.count(Refused()) == 1
    assert not [each for each in heard if isinstance(each, Answered)]
    assert listener.text == ""


def test_the_rest_of_a_burst_is_not_given_to_the_next_question() -> None:
    listener = listening(SERIAL)
    typed(listener, "44", 1.0, SCANNER)
    listener.ask(SERIAL)
    listener.drawn(1.015)
    typed(listener, "71", 1.02, SCANNER)
    assert listener.text == ""


def test_one_digit_of_a_quick_hand_is_kept_while_enter_is_still_deaf() -> None:
    listener = listening(READING, at=1.0)
    assert listener.key("1", "1", 1.2) == Changed()
    assert listener.key("8", "8", 1.5) == Changed()
    assert listener.text == "18"


def test_pointing_is_not_answering() -> None:
    listener = listening(PICTURES)
    assert listener.key("enter", "\r", 1.0) == Refused("say first which picture you see")
    assert listener.key("2", "2", 2.0) == Changed()
    assert listener.key("4", "4", 3.0) == Refused()
    assert listener.key("a", "a", 3.5) == Refused()
    assert listener.pointed_at == 2
    assert listener.key("enter", "\r", 4.0) == Answered("pictures", "", 2)


def test_a_scan_does_not_point() -> None:
    listener = listening(PICTURES)
    listener.key("3", "3", 1.0)
    heard = typed(listener, "1212", 2.0, SCANNER, enter=True)
    assert listener.pointed_at == 3
    assert Stray("1212") in heard
    assert not [each for each in heard if isinstance(each, Answered)]


def test_a_scan_that_nothing_asked_for_is_told_and_answers_nothing() -> None:
    listener = listening(CONFIRM)
    heard = typed(listener, "K-2206", 1.0, SCANNER, enter=True)
    assert Stray("K-2206") in heard
    assert not [each for each in heard if isinstance(each, Answered)]
    assert listener.key("x", "x", 2.0) is None


def test_a_number_takes_digits_and_one_point_or_comma() -> None:
    listener = listening(READING)
    assert listener.key("a", "a", 1.0) == Refused("Only digits, and a point or comma.")
    typed(listener, "1.5", 2.0, HAND)
    assert listener.key(",", ",", 4.0) == Refused("There is a point or comma already.")
    assert listener.key("backspace", None, 5.0) == Changed()
    assert listener.text == "1."


def test_behind_a_figure_the_unit_it_was_read_in_is_taken_where_one_is_asked_for() -> None:
    listener = listening(replace(READING, unit=True))
    assert listener.key("m", "m", 1.0) == Refused("Only digits, and a point or comma.")
    typed(listener, "0.51 mm", 2.0, HAND)
    assert listener.text == "0.51 mm"
    again = listening(replace(READING, unit=True))
    assert again.paste("18 N·m", 1.0) == Changed() and again.text == "18 N·m"


def test_an_empty_enter_is_told_what_is_missing() -> None:
    listener = listening(READING)
    assert listener.key("enter", "\r", 1.0) == Refused("type what the dial showed")
    typed(listener, "18", 2.0, HAND)
    assert listener.key("enter", "\r", 4.0) == Answered("reading", "18")


def test_a_paste_fills_the_field_and_never_accepts() -> None:
    listener = listening(SERIAL)
    assert listener.paste("44[/]71\n", 1.0) == Changed()
    assert listener.text == "44[/]71"


def test_a_paste_of_several_lines_is_refused_whole() -> None:
    listener = listening(SERIAL)
    assert listener.paste("4471\r\n4472\r\n4473", 1.0) == Refused(
        "What was pasted has 3 lines; this field takes one."
    )
    assert listener.text == ""


def test_a_paste_that_does_not_belong_is_refused_whole() -> None:
    listener = listening(READING)
    assert listener.paste("18 N·m", 1.0) == Refused("Only digits, and a point or comma.")
    assert listener.paste("9" * 50, 1.5) == Refused("What was pasted is too long for this field.")
    assert listener.text == ""
    assert listening(READING, at=5.0).paste("18", 5.1) == Refused()
    assert listening(CONFIRM).paste("18", 1.0) == Stray("18")


def test_a_second_key_that_answers_is_as_deaf_as_enter() -> None:
    question = Question("undo", answering=frozenset({Deed.GO_BACK}))
    listener = listening(question, at=1.0)
    assert listener.key("f6", None, 1.2) == Refused()
    assert listener.key("f6", None, 2.0) == Answered("undo", deed=Deed.GO_BACK)
    held = listening(question, at=0.0)
    answers = [held.key("f6", None, 0.3 + index / 30) for index in range(60)]
    assert not [each for each in answers if isinstance(each, Answered)]


def test_keys_with_a_deed_of_their_own_get_through_always() -> None:
    listener = Listener()
    assert listener.key("f2", None, 0.0) == Asked(Deed.HELP, "f2")
    listener.mute(True)
    assert listener.key("f8", None, 0.0) == Asked(Deed.STOP, "f8")


def test_a_window_that_comes_to_the_front_is_deaf_again_and_a_touch_in_a_small_one_is_nothing() -> None:
    listener = listening(READING)
    typed(listener, "18", 1.0, HAND)
    listener.seen_again(3.0)
    assert listener.touch("enter", 3.1) == Refused()
    listener.mute(True)
    assert listener.touch("enter", 4.0) is None and listener.touch("1", 4.0) is None
    listener.mute(False)
    assert listener.touch("enter", 5.0) == Answered("reading", "18")


def test_a_muted_listener_keeps_what_was_typed_and_takes_nothing() -> None:
    listener = listening(READING)
    typed(listener, "18", 1.0, HAND)
    listener.mute(True)
    assert listener.key("enter", "\r", 3.0) is None
    assert listener.key("5", "5", 4.0) is None
    assert listener.paste("5", 5.0) is None
    listener.mute(False)
    assert listener.key("enter", "\r", 6.0) == Answered("reading", "18")


def test_controls_in_a_paste_are_not_let_in() -> None:
    listener = listening(SERIAL)
    listener.paste("44\x1b[2J71", 1.0)
    assert "\x1b" not in listener.text


def test_a_separator_inside_a_scanned_code_is_kept_visibly() -> None:
    listener = listening(SERIAL)
    typed(listener, "01", 1.0, SCANNER)
    listener.key("ctrl+right_square_bracket", "\x1d", 1.02)
    assert listener.text == "01␝"


def test_marks_are_erased_with_their_letter() -> None:
    listener = listening(SERIAL, AT_ONCE)
    listener.paste("xe\u0301", 1.0)
    listener.key("backspace", None, 2.0)
    assert listener.text == "x"


KEY = st.sampled_from(
    [("enter", "\r"), ("1", "1"), ("7", "7"), ("a", "a"), ("backspace", None), ("f6", None)]
)


@given(
    st.lists(st.tuples(KEY, st.floats(0.0, 0.7)), max_size=30),
    st.sampled_from([READING, SERIAL, PICTURES, CONFIRM]),
)
def test_no_question_is_ever_answered_twice_or_unseen(
    keys: list[tuple[tuple[str, str | None], float]], question: Question
) -> None:
    listener = listening(question, at=1.0)
    time, answers = 0.9, []
    for (name, character), gap in keys:
        time += gap
        heard = listener.key(name, character, time)
        if isinstance(heard, Answered):
            answers.append((heard, time))
    assert len(answers) <= 1
    for answer, when in answers:
        assert answer.question == question.id
        assert when >= 1.4
