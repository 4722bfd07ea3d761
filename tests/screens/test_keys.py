"""Keys: one table, and rows and help that are made from it."""

from __future__ import annotations

from collections import Counter

from benchcheck.screens.keys import (
    DEED_OF,
    KEYS,
    LISTED,
    Deed,
    LiveKey,
    help_lines,
    keys_row,
    listed_acts,
    turned,
    turned_round,
)
from benchcheck.screens.widgets.cells import line_width, plain_text
from tests.screens.pictures import as_text

BENCH = (
    LiveKey(Deed.CONFIRM),
    LiveKey(Deed.TYPE),
    LiveKey(Deed.TURN),
    LiveKey(Deed.ELSE),
    LiveKey(Deed.HELP),
    LiveKey(Deed.DEVIATION),
    LiveKey(Deed.GO_BACK),
    LiveKey(Deed.STOP),
)


def test_no_key_has_two_deeds_and_no_deed_two_keys() -> None:
    assert max(Counter(name for key in KEYS for name in key.names).values()) == 1
    assert max(Counter(key.deed for key in KEYS).values()) == 1


def test_no_key_that_terminals_keep_for_themselves_and_no_bare_letter() -> None:
    assert not {"f1", "f10", "f11", "ctrl+b", "ctrl+s", "ctrl+enter", "tab"} & set(DEED_OF)
    assert not [name for name in DEED_OF if len(name) == 1]


def test_turning_keys_stay_between_the_ends() -> None:
    assert [turned(5, key, 9, 3) for key in ("pageup", "pagedown", "home", "end")] == [2, 8, 0, 9]
    assert [turned(1, key, 1, 3) for key in ("pageup", "pagedown")] == [0, 1]
    assert [turned_round(0, key, 4) for key in ("pageup", "pagedown", "home", "end")] == [3, 1, 0, 3]
    assert turned_round(3, "pagedown", 4) == 0


def test_keys_for_gloves_are_one_apart() -> None:
    bench = {Deed.HELP, Deed.DEVIATION, Deed.GO_BACK, Deed.STOP}
    numbers = sorted(int(key.names[0][1:]) for key in KEYS if key.deed in bench)
    assert numbers == [2, 4, 6, 8]


def test_the_last_row_of_a_bench_screen() -> None:
    row = plain_text(keys_row(BENCH, 80))
    assert row == "  Esc     something else:  F2 help   F4 deviation   F6 go back   F8 stop here   "


def test_a_closed_key_says_why() -> None:
    live = (LiveKey(Deed.HELP), LiveKey(Deed.DEVIATION, closed="not here"), LiveKey(Deed.STOP))
    assert plain_text(keys_row(live, 80)).rstrip() == (
        "  Esc     something else:  F2 help   F8 stop here   F4: not here"
    )


def test_a_narrow_row_keeps_whole_entries_only() -> None:
    for width in range(20, 80):
        row = keys_row(BENCH, width)
        assert line_width(row) == width
        entries = plain_text(row)[10:].strip().removeprefix("something else:").split("   ")
        allowed = {"", "F2 help", "F4 deviation", "F6 go back", "F8 stop here"}
        assert {entry.strip() for entry in entries} <= allowed


def test_a_hint_stands_at_the_right_edge_where_there_is_room() -> None:
    live = (LiveKey(Deed.HELP), LiveKey(Deed.STOP, word="leave"))
    assert plain_text(keys_row(live, 80, hint="1 to 6  point at a line")).endswith("1 to 6  point at a line")
    assert "point" not in plain_text(keys_row(live, 50, hint="1 to 6  point at a line"))


def test_help_names_every_live_key_and_no_other() -> None:
    text = as_text(help_lines(BENCH, "records what the dial showed at position 4", 80))
    for each in BENCH:
        assert each.key.label in text and each.key.word in text
    assert "records what the dial showed at position 4" in text
    assert "F9" not in text and "F5" not in text


def test_every_key_of_the_table_can_be_helped_with() -> None:
    live = tuple(LiveKey(key.deed) for key in KEYS)
    lines = help_lines(live, "goes on", 80)
    assert len(lines) >= len(KEYS)
    assert all(line_width(line) == 80 for line in lines)


def test_acts_behind_esc_are_those_with_function_keys() -> None:
    assert [each.deed for each in listed_acts(BENCH)] == [Deed.HELP, Deed.DEVIATION, Deed.GO_BACK, Deed.STOP]
    assert Deed.CONFIRM not in LISTED
