"""Two spellings that are one person, and two names that may be."""

from __future__ import annotations

import pytest

from benchcheck.procedure.people_names import alike, same_name


@pytest.mark.parametrize(
    ("one", "other", "same", "perhaps"),
    [
        ("T. Sample", "t sample", True, True),
        ("T. Sample", "T.SAMPLE", True, True),
        ("Zoë Núñez", "zoe nunez", True, True),
        ("Tom Sample", "Sample, Tom", False, True),
        ("T. Sample", "Tom Sample", False, True),
        ("T. Sample", "T. Samlpe", False, True),
        ("T. Sample", "T. Samples", False, True),
        ("T. Sample", "T. Semple", False, True),
        ("Tom Sample", "TomSampl", False, True),
        ("T. Sample", "W. Sample", False, False),
        ("Tom Sample", "Tim Sample", False, False),
        ("T. Sample", "W. Specimen", False, False),
        ("T. Sample", "T. Sketch", False, False),
        ("Li An", "Li Ann", False, False),
        ("サンプル", "サンプレ", False, True),
        ("", "T. Sample", False, False),
    ],
)
def test_what_a_hand_spells_otherwise(one: str, other: str, same: bool, perhaps: bool) -> None:
    assert same_name(one, other) is same_name(other, one) is same
    assert alike(one, other) is alike(other, one) is perhaps
