"""Sizes as people write them, and the sizes they are taken for."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchcheck.mechanics.o_ring import Resemblance, UnknownSize, all_sizes, look_alikes, size


@pytest.mark.parametrize("text", ["-151", "151", "AS568-151", "as568 151", "AS568A-151", " -151 ", "–151"])
def test_spellings_of_one_size(text: str) -> None:
    assert size(text).designation == "-151"


@pytest.mark.parametrize("text", ["-012", "012", "12", "-12"])
def test_leading_zeros_may_be_left_out(text: str) -> None:
    assert size(text).dash == "012"


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("-179", "AS568 has no size -179; the nearest are -178 and -201"),
        ("000", "AS568 has no size -000; the nearest are -001 and -002"),
        ("999", "AS568 has no size -999; the nearest are -928 and -932"),
        ("151 NBR", 'found "151 NBR", expected an AS568 size: write a dash number such as -151'),
        ("", 'found "", expected an AS568 size: write a dash number such as -151'),
        # Digits of other scripts are not what is printed on a bag.
        ("１５１", 'found "１５１", expected an AS568 size: write a dash number such as -151'),
    ],
)
def test_unknown_sizes_are_refused_in_one_sentence(text: str, sentence: str) -> None:
    with pytest.raises(UnknownSize) as refusal:
        size(text)
    assert str(refusal.value) == sentence


def test_a_long_text_makes_no_long_sentence() -> None:
    with pytest.raises(UnknownSize) as refusal:
        size("9" * 100_000)
    assert len(str(refusal.value)) < 120


@given(st.text(max_size=12))
def test_any_text_is_a_size_or_a_refusal(text: str) -> None:
    try:
        assert size(text) in all_sizes()
    except UnknownSize as refusal:
        assert str(refusal)


def designations(text: str) -> set[str]:
    return {other.designation for other in look_alikes(size(text))}


@pytest.mark.parametrize(
    ("one", "other"),
    # Pairs that published size tables show close together: same inside diameter, another section.
    [("-116", "-210"), ("-325", "-222"), ("-349", "-425")],
)
def test_published_look_alikes(one: str, other: str) -> None:
    assert other in designations(one)
    assert one in designations(other)


def test_differences_are_told_from_the_size_asked_about() -> None:
    told = {other.designation: other for other in look_alikes(size("-151"))}
    assert told["-150"].difference == "0.125 in narrower inside; same section"
    assert told["-152"].difference == "0.250 in wider inside; same section"
    assert told["-234"].difference == "0.003 in narrower inside; 0.036 in thicker"
    assert told["-041"].difference == "0.002 in wider inside; 0.033 in thinner"
    assert told["76 × 2.5 mm"].difference == "0.13 mm wider inside; 0.12 mm thinner"
    assert told["76 × 2.5 mm"].is_metric and not told["-150"].is_metric


def test_equal_inside_diameters_are_said_so() -> None:
    told = {other.designation: other.difference for other in look_alikes(size("-349"))}
    assert told["-425"] == "same inside diameter; 0.065 in thicker"


def test_boss_sizes_are_taken_for_the_next_boss_size() -> None:
    found = look_alikes(size("-906"))
    assert [o.designation for o in found if o.resemblance is Resemblance.NEXT_BOSS] == ["-905", "-907"]


def test_no_size_is_its_own_look_alike_and_likeness_is_mutual() -> None:
    named = {one.designation: designations(one.dash) for one in all_sizes()}
    for one, others in named.items():
        assert one not in others
        assert others or one in ("-001", "-002", "-003")
        for other in others:
            assert other.endswith("mm") or one in named[other]
