"""Plain ASCII for every widget at once, as the last thing that happens to a line before it is sent."""

from __future__ import annotations

from rich.segment import Segment
from textual.color import Color
from textual.filter import LineFilter

from benchcheck.screens.ascii import in_ascii


class AsciiFilter(LineFilter):
    """Replaces each cell of a line by its ASCII twin; styles and control sequences stay as they are."""

    def apply(self, segments: list[Segment], background: Color) -> list[Segment]:
        return [
            segment if segment.control else Segment(in_ascii(segment.text), segment.style)
            for segment in segments
        ]
