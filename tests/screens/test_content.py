"""Texts from outside: shown letter for letter, and never obeyed."""

from __future__ import annotations

import sys
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchcheck.screens.content import REPLACEMENT, literal, made_safe


@pytest.mark.parametrize(
    "text", ["[/]", "seal [OIL] side", "[red]", "[@click=app.quit]x[/]", "[$warning]", "\\[x]"]
)
def test_brackets_are_letters(text: str) -> None:
    assert literal(text) == text


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("a\x1b[2Jb", f"a{REPLACEMENT}[2Jb"),
        ("a\u009b2Jb", f"a{REPLACEMENT}2Jb"),
        ("a\u202eb", f"a{REPLACEMENT}b"),
        ("a\tb\r\nc", "a b c"),
        ("soft\u00adhyphen", "softhyphen"),
        ("می\u200cخواهم", "میخواهم"),
        ("\ud800", REPLACEMENT),
        ("אטם שמן", "אטם שמן"),
        ("密封圈", "密封圈"),
    ],
)
def test_what_a_terminal_would_obey_is_replaced(text: str, shown: str) -> None:
    assert literal(text) == shown


def test_no_control_of_any_kind_is_left() -> None:
    every = "".join(
        chr(code)
        for code in range(sys.maxunicode + 1)
        if unicodedata.category(chr(code)) in ("Cc", "Cf", "Cs", "Zl", "Zp")
    )
    assert len(every) > 2000
    left = {unicodedata.category(letter) for letter in literal(every)}
    assert left <= {"Zs", "So"}
    assert "\x1b" not in made_safe(every) and "\u202e" not in made_safe(every)


@given(st.text(max_size=40))
def test_making_safe_twice_is_making_safe_once(text: str) -> None:
    assert literal(literal(text)) == literal(text)
    assert made_safe(literal(text)) == literal(text)
