"""Size and rubber as they are typed off a bag, however they are written."""

from __future__ import annotations

import pytest

from benchcheck.session.acts.fit import read_bag


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("-137 NBR", ("-137", "NBR")),
        ("137, nbr", ("-137", "NBR")),
        ("AS568-137 NBR", ("-137", "NBR")),
        ("-245 fluoropolymer-coated FKM", ("-245", "FLUOROPOLYMER-COATED FKM")),
        ("20 x 2.5 EPDM", ("20 x 2.5", "EPDM")),
        ("-137 NBR 70", ("-137", "NBR 70")),
        ("-137", None),
        ("", None),
    ],
)
def test_size_and_rubber_off_a_bag(typed: str, read: tuple[str, str] | None) -> None:
    assert read_bag(typed) == read
