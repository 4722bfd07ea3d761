"""The only ways for a text to get into HTML, or into the style sheet inside of it."""

from __future__ import annotations

import html

from benchcheck.procedure.characters import clean

_PLAIN = frozenset("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789 .,:-")


def escaped(text: str) -> str:
    """For the content of an element, and for an attribute in double quotes."""
    return html.escape(clean(text), quote=True)


def css_string(text: str) -> str:
    """A string of a style sheet, quotes included; whatever is no plain letter is written by its number."""
    return '"' + "".join(each if each in _PLAIN else f"\\{ord(each):06x}" for each in clean(text)) + '"'
