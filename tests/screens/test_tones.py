"""Tones: every letter can be read on its ground, by the contrast formula of the accessibility guidelines."""

from __future__ import annotations

import pytest

from benchcheck.screens.tones import DARK, LIGHT, REVERSED, Palette, Tone, contrast_ratio, relative_luminance

# W3C, Web Content Accessibility Guidelines 2.2, success criterion 1.4.6 (level AAA) for ordinary letters.
READABLE = 7.0
# The same, 1.4.3 (level AA).
LEAST_READABLE = 4.5


def test_contrast_of_black_on_white_is_the_largest_there_is() -> None:
    # W3C, WCAG 2.2, definition of contrast ratio: "can range from 1 to 21".
    assert contrast_ratio("#000000", "#FFFFFF") == pytest.approx(21.0)
    assert contrast_ratio("#777777", "#777777") == pytest.approx(1.0)
    assert relative_luminance("#FFFFFF") == pytest.approx(1.0)


def test_a_known_grey_on_white() -> None:
    # W3C, Understanding SC 1.4.3, note on rounding: #777777 on white is 4.47 to 1 and does not meet 4.5.
    assert contrast_ratio("#777777", "#FFFFFF") == pytest.approx(4.478, abs=0.01)


@pytest.mark.parametrize("palette", [DARK, LIGHT])
def test_every_tone_can_be_read_on_its_ground(palette: Palette) -> None:
    for tone in Tone:
        least = LEAST_READABLE if tone is Tone.QUIET else READABLE
        assert contrast_ratio(palette.colour(tone), palette.ground) >= least, tone


@pytest.mark.parametrize(
    ("palette", "expected"),
    [
        (DARK, {Tone.INK: 14.6, Tone.QUIET: 8.0, Tone.NOW: 10.6, Tone.WRONG: 7.9}),
        (LIGHT, {Tone.INK: 15.5, Tone.QUIET: 6.4, Tone.NOW: 8.4, Tone.WRONG: 7.4}),
    ],
)
def test_contrast_is_what_the_colours_were_chosen_for(palette: Palette, expected: dict[Tone, float]) -> None:
    for tone, ratio in expected.items():
        assert contrast_ratio(palette.colour(tone), palette.ground) == pytest.approx(ratio, abs=0.06)


def test_what_has_a_hue_is_seen_without_it() -> None:
    assert {Tone.NOW, Tone.WRONG} == REVERSED
