"""A flat table read quickly says what the standard library's parser says of it, whatever it holds."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchcheck.session.flat_table import flat_table

PLAIN = """\
number = 7
kind = "measured"
at = "2026-11-02T08:00:00.000+01:00"
value = 12.5
small = -1e-05
none = -0
done = true
late = false
empty = ""
words = "a # b = [c] µ\tد"
targets = [
    "cover",
    "body",
]
places = [
    1,
    -2.5,
    true,
]
nothing = []
"""
VALUES = (
    *('"a"', '""', '"a\\"b"', '"a\\u00e9"', '"a\x00"', '"a\x7f"', '"a\tb"', '"a\rb"', '"""a\nb"""', "'a'"),
    *('"a', 'a"', '"a"  # why', "", "0", "-0", "007", "+1", "1_000", "0x1f", "-12", "9" * 18, "9" * 19, "1."),
    *(".5", "1.5", "-0.0", "1e5", "1E5", "1e+05", "2.5e-7", "1e999", "inf", "nan", "true", "false", "True"),
    *("2026-11-02", "08:00:00", "[]", "[\n]", '[\n    "a",\n]', '[\n    "a",\n    1,\n]', '["a", "b"]'),
    *("[\n    [],\n]", "[\n    -2.5,\n    true\n]", "[{a = 1}]", "{}", "{a = 1}"),
)  # fmt: skip
KEYS = ("a", "b", "a_1", "chain", "A", "a.b", '"a"', "1", "a b", "é", "# a", "[a]", "[[event]]")
LINES = st.builds(
    lambda key, equals, value, end: f"{key}{equals}{value}{end}",
    st.sampled_from(KEYS),
    st.sampled_from((" = ", " = ", " = ", "=", "  = ", "")),
    st.sampled_from(VALUES),
    st.sampled_from(("\n", "\n", "\n", "\n\n", "\r\n", " \n", "")),
)


def by_the_parser(text: str) -> dict[str, Any] | None:
    """What the standard library's parser reads; None where that is no TOML, or holds tables."""
    try:
        table = tomllib.loads(text)
    except ValueError:
        return None
    return None if "{" in repr(table)[1:] else table


def test_what_is_plain_is_read_without_the_parser(monkeypatch: pytest.MonkeyPatch) -> None:
    expected = tomllib.loads(PLAIN)
    monkeypatch.setattr(tomllib, "loads", None)
    assert repr(flat_table(PLAIN)) == repr(expected)


@pytest.mark.parametrize("value", VALUES)
def test_each_value_is_read_as_the_parser_reads_it(value: str) -> None:
    text = f"a = {value}\n"
    assert repr(flat_table(text)) == repr(by_the_parser(text))


@settings(max_examples=300, deadline=None)
@given(st.lists(LINES, max_size=5).map("".join))
def test_any_lines_are_read_as_the_parser_reads_them_and_never_as_tables(text: str) -> None:
    assert repr(flat_table(text)) == repr(by_the_parser(text))


@pytest.mark.parametrize("text", ["a = 1\na = 1\n", 'chain = ""\nb = 1\nchain = ""\n'])
def test_no_key_stands_twice(text: str) -> None:
    assert flat_table(text) is None
