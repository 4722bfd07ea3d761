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
    """Colours as `#rrggbb`. `now` and `wrong` are drawn reversed: as the fill, with the ground as letters."""

    ground: str
    ink: str
    quiet: str
    now: str
    wrong: str

    def colour(self, tone: Tone) -> str:
        """The colour of a tone against the ground."""
        return {Tone.INK: self.ink, Tone.QUIET: self.quiet, Tone.NOW: self.now, Tone.WRONG: self.wrong}[tone]


DARK = Palette(ground="#15181B", ink="#ECE8E1", quiet="#A8AEB3", now="#F3C04B", wrong="#FF8C7D")
LIGHT = Palette(ground="#F7F5EF", ink="#1A1D1F", quiet="#545A5F", now="#0A4B78", wrong="#9E1A12")

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
