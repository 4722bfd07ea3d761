"""Tones: every letter can be read on what lies behind it, in every theme and with few colours."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from rich.color import Color, ColorSystem

from benchcheck.screens.themes import (
    DARK_THEME,
    LIGHT_THEME,
    PALETTES,
    PALETTES_OF_SIXTEEN,
    styles_in_colour,
    themes,
)
from benchcheck.screens.tones import REVERSED, Tone, contrast_ratio, relative_luminance

# W3C, Web Content Accessibility Guidelines 2.1, success criterion 1.4.3 (level AA).
LEAST_FOR_TEXT = 4.5
# The same, 1.4.6 (level AAA).
LEAST_FOR_THE_NUMBER = 7.0

# The sixteen colours of consoles, as a Linux console has them in /sys/module/vt/parameters/default_* and as
# xterm has them in its manual (colors 0 to 15); both from memory.
CONSOLE = (
    *("#000000", "#AA0000", "#00AA00", "#AA5500", "#0000AA", "#AA00AA", "#00AAAA", "#AAAAAA"),
    *("#555555", "#FF5555", "#55FF55", "#FFFF55", "#5555FF", "#FF55FF", "#55FFFF", "#FFFFFF"),
)
XTERM = (
    *("#000000", "#CD0000", "#00CD00", "#CDCD00", "#0000EE", "#CD00CD", "#00CDCD", "#E5E5E5"),
    *("#7F7F7F", "#FF0000", "#00FF00", "#FFFF00", "#5C5CFF", "#FF00FF", "#00FFFF", "#FFFFFF"),
)


def ratio_needed(tone: Tone) -> float:
    """The one number of a sheet is written in ink."""
    return LEAST_FOR_THE_NUMBER if tone is Tone.INK else LEAST_FOR_TEXT


def test_contrast_of_black_on_white_is_the_largest_there_is() -> None:
    # W3C, WCAG 2.1, definition of contrast ratio: "can range from 1 to 21".
    assert contrast_ratio("#000000", "#FFFFFF") == pytest.approx(21.0)
    assert contrast_ratio("#777777", "#777777") == pytest.approx(1.0)
    assert relative_luminance("#FFFFFF") == pytest.approx(1.0)


def test_a_known_grey_on_white() -> None:
    # W3C, Understanding SC 1.4.3, note on rounding: #777777 on white is 4.47 to 1 and does not meet 4.5.
    assert contrast_ratio("#777777", "#FFFFFF") == pytest.approx(4.478, abs=0.01)


@pytest.mark.parametrize("theme", [each.name for each in themes()])
@pytest.mark.parametrize("tone", Tone)
def test_every_tone_can_be_read_in_every_theme(theme: str, tone: Tone) -> None:
    palette = PALETTES[theme]
    assert contrast_ratio(palette.letters(tone), palette.behind(tone)) >= ratio_needed(tone)
    # What is filled stands out from the ground as an object does: the same, success criterion 1.4.11.
    if tone in REVERSED:
        assert contrast_ratio(palette.behind(tone), palette.ground) >= 3.0


@pytest.mark.parametrize("theme", [each.name for each in themes()])
@pytest.mark.parametrize("tone", Tone)
def test_every_tone_can_be_read_in_256_colours(theme: str, tone: Tone) -> None:
    palette = PALETTES[theme]
    letters, behind = (
        Color.parse(each).downgrade(ColorSystem.EIGHT_BIT).get_truecolor().hex
        for each in (palette.letters(tone), palette.behind(tone))
    )
    assert contrast_ratio(letters, behind) >= ratio_needed(tone)


@pytest.mark.parametrize(
    ("colours", "behind_letters"), [(CONSOLE, 8), (CONSOLE, 16), (XTERM, 16)], ids=["8 behind", "16", "xterm"]
)
@pytest.mark.parametrize("theme", [DARK_THEME, LIGHT_THEME])
def test_every_tone_can_be_read_on_a_console(theme: str, colours: Sequence[str], behind_letters: int) -> None:
    for tone, style in styles_in_colour(PALETTES_OF_SIXTEEN[theme]).items():
        assert style.color is not None and style.bgcolor is not None
        letters = style.color.downgrade(ColorSystem.STANDARD).number
        behind = style.bgcolor.downgrade(ColorSystem.STANDARD).number
        assert letters is not None and behind is not None
        assert not style.bold  # a console would show it in another colour
        ratio = contrast_ratio(colours[letters], colours[behind % behind_letters])
        assert ratio >= ratio_needed(tone), tone


@pytest.mark.parametrize(
    ("theme", "expected"),
    [
        (DARK_THEME, {Tone.INK: 14.6, Tone.QUIET: 8.0, Tone.NOW: 10.6, Tone.WRONG: 7.9}),
        (LIGHT_THEME, {Tone.INK: 15.5, Tone.QUIET: 6.4, Tone.NOW: 8.4, Tone.WRONG: 7.4}),
    ],
)
def test_contrast_is_what_the_colours_were_chosen_for(theme: str, expected: dict[Tone, float]) -> None:
    palette = PALETTES[theme]
    for tone, ratio in expected.items():
        found = contrast_ratio(palette.letters(tone), palette.behind(tone))
        assert found == pytest.approx(ratio, abs=0.06)


def test_what_has_a_hue_is_seen_without_it() -> None:
    assert {Tone.NOW, Tone.WRONG} == REVERSED
