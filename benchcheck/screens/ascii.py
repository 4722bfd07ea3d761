"""The ASCII twin of everything that is drawn: one cell becomes one cell.

One table serves every drawing. Words that need more room in ASCII than the sign they replace are spelled out
by `spelled_out` before the text is laid out; whatever slips through still comes out as ASCII, cell for cell.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping

from benchcheck.screens.widgets.cells import Drawing, Line, Run, clusters, width_of

TWIN: Mapping[str, str] = {
    **dict.fromkeys("█▀▄", "#"),
    **dict.fromkeys("░▒▓", ":"),
    **dict.fromkeys("─━", "-"),
    **dict.fromkeys("│┃", "|"),
    **dict.fromkeys("┌┐└┘├┤┬┴┼╪", "+"),
    **dict.fromkeys("╱↗↙", "/"),
    **dict.fromkeys("╲↖↘", "\\"),
    **dict.fromkeys("►→▶≥", ">"),
    **dict.fromkeys("◄←◀≤", "<"),
    **dict.fromkeys("▲↑", "^"),
    **dict.fromkeys("▼↓", "v"),
    **dict.fromkeys("◆•", "*"),
    **dict.fromkeys("○▁", "_"),
    **dict.fromkeys("·…", "."),
    **dict.fromkeys("–—−‑", "-"),
    **dict.fromkeys("‘’", "'"),
    **dict.fromkeys("“”„", '"'),
    "═": "=",
    "●": "O",
    "×": "x",
    "°": "o",
    "µ": "u",
    "\N{NO-BREAK SPACE}": " ",
}
"""What stands in plain ASCII for each drawn sign; signs of different states never share a twin."""

_SPELLED_OUT = {
    "±": "+/-",
    "·": ".",
    "×": "x",
    "≤": "<=",
    "≥": ">=",
    "…": "...",
    "½": "1/2",
    "¼": "1/4",
    "¾": "3/4",
    "²": "^2",
    "³": "^3",
    "Ø": "dia. ",
    "ø": "dia. ",
    "Ω": "ohm",
    "ß": "ss",
}


_DEGREES = re.compile(r" ?°(?=([A-Za-z]?))")


def spelled_out(text: str) -> str:
    """Words and quantities with their signs spelled out for ASCII; done before a text is laid out."""
    if text.isascii():
        return text
    text = _DEGREES.sub(lambda found: " deg " if found[1] else " deg", text)
    return "".join(_SPELLED_OUT.get(sign, sign) for sign in text)


def in_ascii(text: str) -> str:
    """A text in ASCII, each cell of it replaced by one cell."""
    if text.isascii() and text.isprintable():
        return text
    return "".join(_twin(cluster) for cluster in clusters(text))


def drawing_in_ascii(drawing: Drawing) -> Drawing:
    """A drawing in ASCII, for a printer of plain text."""
    return tuple(_line_in_ascii(line) for line in drawing)


def _line_in_ascii(line: Line) -> Line:
    return tuple(Run(in_ascii(run.text), run.tone) for run in line)


def _twin(cluster: str) -> str:
    """The twin of one letter with its marks: from the table, else without its marks, else question marks."""
    cells = width_of(cluster)
    if cells == 0:
        return ""
    letter = cluster[0]
    if letter in TWIN:
        return TWIN[letter].ljust(cells)
    if cluster.isascii() and cluster.isprintable():
        return cluster
    bare = unicodedata.normalize("NFKD", letter)[:1]
    return bare.ljust(cells) if bare.isascii() and bare.isprintable() else "?" * cells
