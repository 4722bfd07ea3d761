"""The line by line face: the same questions as on the screens, asked and answered as plain text.

For a screen reader, a dumb terminal, a pipe, or a test. One prompt at a time; a line that begins with "?" is
a word to the program, everything else is an answer. What is confirmed is on disk before the next prompt is
printed. `program` is the way through it, `talk` reads and prints, `telling` puts things into words, `words`
holds the "?" words.
"""

from __future__ import annotations

from benchcheck.lines.program import run

__all__ = ["run"]
