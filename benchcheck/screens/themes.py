"""The two themes, and what each tone looks like in a theme or without colour.

Where colour is not wanted, the terminal's own two inks are used: what is now and what is wrong is then drawn
reversed and bold, and told apart by its signs.
"""

from __future__ import annotations

from collections.abc import Mapping

from rich.style import Style
from textual.theme import Theme

from benchcheck.screens.tones import DARK, DARK_OF_SIXTEEN, LIGHT, LIGHT_OF_SIXTEEN, REVERSED, Palette, Tone

DARK_THEME = "benchcheck-dark"
LIGHT_THEME = "benchcheck-light"
PALETTES: Mapping[str, Palette] = {DARK_THEME: DARK, LIGHT_THEME: LIGHT}
PALETTES_OF_SIXTEEN: Mapping[str, Palette] = {DARK_THEME: DARK_OF_SIXTEEN, LIGHT_THEME: LIGHT_OF_SIXTEEN}
"""For a terminal that has sixteen colours or eight."""


def themes() -> tuple[Theme, ...]:
    """Our themes as Textual wants them registered."""
    return tuple(_theme(name, palette, dark=name == DARK_THEME) for name, palette in PALETTES.items())


def _theme(name: str, palette: Palette, *, dark: bool) -> Theme:
    return Theme(
        name=name,
        primary=palette.now,
        secondary=palette.quiet,
        warning=palette.now,
        error=palette.wrong,
        success=palette.ink,
        accent=palette.now,
        foreground=palette.ink,
        background=palette.ground,
        surface=palette.ground,
        panel=palette.ground,
        dark=dark,
        text_alpha=1.0,
    )


def styles_in_colour(palette: Palette) -> Mapping[Tone, Style]:
    """Styles of all tones on a palette's ground."""
    return {
        tone: Style(
            color=palette.letters(tone),
            bgcolor=palette.behind(tone),
            bold=palette.is_bold if tone in REVERSED else None,
        )
        for tone in Tone
    }


def styles_without_colour() -> Mapping[Tone, Style]:
    """Styles of all tones in the terminal's own inks; never dim, so that quiet letters can still be read."""
    return {tone: Style(reverse=True, bold=True) if tone in REVERSED else Style() for tone in Tone}
