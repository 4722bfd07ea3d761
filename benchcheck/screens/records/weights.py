"""The sign of each weight that a remark can have, with its word: on lists and on the pages of a session."""

from __future__ import annotations

from benchcheck.screens.tones import Tone
from benchcheck.session.remarks import Weight

_SIGNS = {Weight.BROKEN: "!", Weight.OPEN: "~", Weight.DEPARTS: "x", Weight.ODD: "?"}
QUIET = "═"
"""The sign of a session in which nothing stands out."""
LEGEND = (
    ("!", "does not hold"),
    ("~", "open"),
    ("x", "departs, decided"),
    ("?", "odd"),
    (QUIET, "nothing stands out"),
)


def sign_of(weight: Weight | None) -> str:
    """The sign of a weight; without one, that of a quiet session."""
    return _SIGNS[weight] if weight is not None else QUIET


def tone_of(weight: Weight | None) -> Tone:
    """Only what does not hold has a hue."""
    return Tone.WRONG if weight is Weight.BROKEN else Tone.INK
