"""The slips of authors' hands: each is found where it is, and the remedy is what to write."""

from __future__ import annotations

import tomllib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchcheck.procedure.finding import Finding
from benchcheck.procedure.source import read


def fault(text: str) -> Finding:
    findings = read(text.encode(), "pump.toml")
    assert isinstance(findings, list)
    return findings[-1]


# The place of each fault is marked by ⟨, which is not part of the file.
SLIPS = [
    ("a = 20⟨,5", "comma in a number", "20.5"),
    ("a = { max = 0⟨,5 }", "comma in a number", "0.5"),
    ("a = [{ max = 0⟨,5 }]", "comma in a number", "0.5"),
    ("id = ⟨“G2”", "the quote “", "straight quotes"),
    ("a = [⟨“x”]", "the quote “", "straight quotes"),
    ("⟨“a” = 1", "the quote “", "straight quotes"),
    ("id = ⟨cartridge", "`cartridge` is neither", 'Write "cartridge".'),
    ("id = ⟨main lip # the oil side", "`main lip` is neither", 'Write "main lip".'),
    ("t = ⟨16 lbf·ft", "`16 lbf·ft` is neither", 'Write "16 lbf·ft".'),
    ("t = ⟨10%", "`10%` is neither", 'Write "10%".'),
    ("t = { target = ⟨16 N·m, tolerance = 1 }", "`16 N·m` is neither", 'Write "16 N·m".'),
    ('a = ["x", ⟨y]', "`y` is neither", 'Write "y".'),
    ('a = ⟨it\'s "so"', "neither", 'Write "it\'s \\"so\\"".'),
    ("a = ⟨07", "begins with a zero", '"07"'),
    ("d = ⟨2026-13-01", "no date", "2026-03-02"),
    ("d = ⟨07:32", "no seconds", "07:32:00"),
    ("d = ⟨2026-03-01 07:32", "no seconds", "2026-03-01 07:32:00"),
    ("a = ⟨True", "`True`", "true"),
    ("a = ⟨yes", "`yes`", "true"),
    ("a = ⟨Off", "`Off`", "false"),
    ("a = ⟨.5", "no digit", "0.5"),
    ("a⟨\u00a0= 1", "U+00A0 (no-break space)", "ordinary space"),
    ("a = ⟨\u202f1", "U+202F", "ordinary space"),
    ("⟨größe = 1", "more than letters", '"größe" ='),
    ("⟨|rom = 1", "more than letters", '"|rom" ='),
    ("a = { ⟨^out = 1 }", "more than letters", '"^out" ='),
    ("a = ⟨b = 1", "the key `b` where the value", "a line"),
    ('a = [1]\n⟨{ what = "gap" },', "without a key", "key = {"),
    ("a = ⟨{ b = 1,\n c = 2 }", "one line", "one line"),
    ("a = { b = 1⟨, }", "comma before the closing }", "last comma"),
    ('a = "⟨\\e[2J"', "TOML 1.1", "\\u001b"),
    ('a = "⟨\\x41"', "TOML 1.1", "\\u0041"),
    ('a = "C:⟨\\users"', "`\\u` is the number of no", "four digits"),
    ('a = "C:⟨\\dir"', "backslash", "\\\\"),
    ('a = "⟨\\ud800"', "`\\ud800` is the number of no", "four digits"),
    ('id⟨: "x"', "colon", "Write ="),
    ('id ⟨"x"', "after a key", "Write ="),
    ("key ⟨=", "no value", "leave the key out"),
    ("key ⟨= # later", "no value", "leave the key out"),
    ("⟨= 1", "no key", "key before"),
    ("a =⟨= 1", "second =", "one ="),
    ("⟨[part\nid = 1", "not closed", "[[name]]"),
    ("[part]⟨]\nid = 1", "too many", "[[name]]"),
    ("[⟨]", "no name", "[name]"),
    ("[a ⟨b]", "blank", "quotes"),
    ("a = 1 ⟨b = 2", "`b` after the end of the value", "a line"),
    ('a = "x" ⟨b = 2', "`b` after the end of the value", "a line"),
    ('a = "the ⟨"oil" side"', "`oil` follows", '\\"'),
    ('a = ⟨"abc', 'no closing "', 'Write "'),
    ('a = 1\nb = ⟨"""abc\n\n', 'no closing """', 'Write """'),
    ("a = ⟨'abc", "no closing '", "Write '"),
    ("a = ⟨[1, 2\nb = 3", "never closed", "Write ]"),
    ("a = ⟨[\n 1,\n 2\n", "never closed", "Write ]"),
    ("x = {a = [1, 2⟨}", "opened with [", "Write ]"),
    ("a = [1 ⟨2]", "without a comma", "comma"),
    ('a = ["x" ⟨"y"]', "without a comma", "comma"),
    ("a = {b = 1 ⟨c = 2}", "without a comma", "comma"),
    ("⟨// a remark\na = 1", "//", "#"),
    ("a = 1 ⟨; a remark", ";", "#"),
    ('⟨{"a": 1}', "without a key", "key = {"),
    ("a = 1\n⟨]", "`]`", "[table]"),
    ("a = 1\n⟨a = 2", "`a` is written twice: here, and first at pump.toml:1:1", "one of the two"),
    ('step = [{id = "a"}]\n[[⟨step]]', "`step` is written twice", "join"),
    ("[[step]]\nask = [{ min = 1, ⟨min = 2 }]", "`step 1, ask 1, min` is written twice", "one of the two"),
]


@pytest.mark.parametrize(("marked", "message", "remedy"), SLIPS, ids=[slip[0] for slip in SLIPS])
def test_slips_of_the_hand(marked: str, message: str, remedy: str) -> None:
    before, _, after = marked.partition("⟨")
    finding = fault(before + after)
    assert message in finding.message
    assert remedy in finding.remedy
    line, column = before.count("\n") + 1, len(before) - (before.rfind("\n") + 1) + 1
    assert (finding.place.line, finding.place.column) == (line, column)


@pytest.mark.parametrize("marked", [slip[0] for slip in SLIPS])
def test_the_librarys_own_sentences_never_come_through(marked: str) -> None:
    text = marked.replace("⟨", "")
    with pytest.raises(tomllib.TOMLDecodeError) as raised:
        tomllib.loads(text)
    sentence = str(raised.value).partition(" (at")[0]
    assert sentence not in fault(text).as_text()


@settings(max_examples=200, deadline=None)
@given(st.sampled_from([slip[0].replace("⟨", "") for slip in SLIPS]), st.integers(0, 40))
def test_a_slip_is_placed_on_its_line_wherever_it_stands(slip: str, lines: int) -> None:
    alone, later = fault(slip), fault('"on the way" = [1, 2]\n' * (lines > 0) + "\n" * lines + slip)
    shift = lines + (lines > 0)
    assert (later.place.line, later.place.column) == (alone.place.line + shift, alone.place.column)
