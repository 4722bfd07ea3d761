"""The few tones a screen is drawn in, and their colours on a dark and on a light ground.

Only two tones have a hue: what the hand acts on now, and what is wrong. Nothing here knows Textual; the
contrast of every pair is computed by `contrast_ratio` and held by a test, not by eye.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class Tone(Enum):
    """What a run of letters means; how it looks is the theme's business."""

    INK = "ink"
    QUIET = "quiet"
    NOW = "now"
    WRONG = "wrong"


@dataclass(frozen=True)
class Palette:
    """Colours as `#rrggbb`. `now` and `wrong` are fills; what stands on them is the ground's colour.

    `on_now` and `on_wrong` are for grounds that could not be read there. `is_bold` says whether letters on
    a fill are bold too.
    """

    ground: str
    ink: str
    quiet: str
    now: str
    wrong: str
    on_now: str = ""
    on_wrong: str = ""
    is_bold: bool = True

    def letters(self, tone: Tone) -> str:
        """The colour of what is written in a tone."""
        return {
            Tone.INK: self.ink,
            Tone.QUIET: self.quiet,
            Tone.NOW: self.on_now or self.ground,
            Tone.WRONG: self.on_wrong or self.ground,
        }[tone]

    def behind(self, tone: Tone) -> str:
        """The colour that lies behind what is written in a tone."""
        return {Tone.NOW: self.now, Tone.WRONG: self.wrong}.get(tone, self.ground)


DARK = Palette(ground="#15181B", ink="#ECE8E1", quiet="#A8AEB3", now="#F3C04B", wrong="#FF8C7D")
LIGHT = Palette(ground="#F7F5EF", ink="#1A1D1F", quiet="#545A5F", now="#0A4B78", wrong="#9E1A12")

# Of sixteen colours a console may have only the first eight behind letters, so that white comes out grey, and
# it shows bold letters in a lighter colour: what is filled has one of the eight, and nothing is bold.
_BLACK, _RED, _BLUE, _CYAN, _GREY, _WHITE = "#000000", "#AA0000", "#0000AA", "#00AAAA", "#AAAAAA", "#FFFFFF"
DARK_OF_SIXTEEN = Palette(
    ground=_BLACK, ink=_WHITE, quiet=_GREY, now=_CYAN, wrong=_RED, on_wrong=_WHITE, is_bold=False
)
LIGHT_OF_SIXTEEN = Palette(
    ground=_WHITE,
    ink=_BLACK,
    quiet=_BLACK,
    now=_BLUE,
    wrong=_RED,
    on_now=_WHITE,
    on_wrong=_WHITE,
    is_bold=False,
)

REVERSED = frozenset({Tone.NOW, Tone.WRONG})
"""Tones drawn as a filled cell, so that they are seen without colour too."""


def relative_luminance(colour: str) -> float:
    """Relative luminance of an sRGB colour `#rrggbb`, from 0 (black) to 1 (white).

    Source: W3C, Web Content Accessibility Guidelines 2.2, definition of relative luminance.
    """
    channels = (int(colour[start : start + 2], 16) / 255 for start in (1, 3, 5))
    red, green, blue = (
        value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4 for value in channels
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast_ratio(one: str, other: str) -> float:
    """Contrast of two colours, from 1 (none) to 21 (black on white).

    Source: W3C, Web Content Accessibility Guidelines 2.2, definition of contrast ratio.
    """
    darker, lighter = sorted((relative_luminance(one), relative_luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)
