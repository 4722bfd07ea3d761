"""The words of findings."""

from __future__ import annotations

from benchcheck.procedure.wording import listed, nearest, shortened, spelled


def test_nearest_known_word() -> None:
    known = ["cartridge", "shaft", "main-lip", "G2"]
    assert nearest("cartrige", known) == "cartridge"
    assert nearest("Main_Lip", known) == "main-lip"
    assert nearest("g2", known) == "G2"
    assert nearest("volute", known) is None
    assert nearest("x" * 900_000, known) is None


def test_lists_read_as_english() -> None:
    assert listed(["a"]) == "a"
    assert listed(["a", "b"]) == "a or b"
    assert listed(["a", "b", "c"], "and") == "a, b and c"


def test_paths_are_spelled_for_people() -> None:
    assert spelled(("step", 3, "ask", 0, "min")) == "step 4, ask 1, min"
    assert spelled(("procedure", "id")) == "procedure, id"


def test_long_values_are_cut_to_one_line() -> None:
    assert shortened("a\n  b") == "a b"
    assert len(shortened("x" * 900_000)) == 60
