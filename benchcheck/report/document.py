"""A report before it is paper: its headings and what stands below them, in the order of reading.

Plain text and HTML are two views of one document, so that both say the same. Nothing here is escaped, laid
out or measured, and nothing knows what a session is.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

from benchcheck.mechanics.scatter import IndividualsChart


@dataclass(frozen=True, slots=True)
class When:
    """A time as people read it, and as other programs do."""

    words: str
    iso: str

    def __str__(self) -> str:
        return self.words


Cell: TypeAlias = str | When


@dataclass(frozen=True, slots=True)
class Paragraph:
    text: str


@dataclass(frozen=True, slots=True)
class Points:
    """A list; each of its sentences stands for itself."""

    sentences: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Fields:
    """Short labels, each with what is to be said under it."""

    rows: tuple[tuple[str, str], ...]
    title: str = ""


@dataclass(frozen=True, slots=True)
class Column:
    head: str
    right: bool = False
    """Whether it holds numbers, which stand below each other by their ends."""


@dataclass(frozen=True, slots=True)
class Table:
    caption: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    """Each as long as `columns`; the first cell names the row."""


@dataclass(frozen=True, slots=True)
class Mark:
    """One position of a pattern: where it sits, when it comes, what it got."""

    position: int
    x: float
    y: float
    turn: int
    """Its place in the order."""
    reading: str
    sign: str = ""
    """What is to be said of the reading: nothing, or one of the signs that the report explains."""


@dataclass(frozen=True, slots=True)
class Pattern:
    """The positions of a fastener group as they sit."""

    called: str
    seen: str
    """From which side, and where position 1 is."""
    marks: tuple[Mark, ...]
    unit: str
    datum: str = ""
    """What is at the top."""

    @property
    def order(self) -> tuple[int, ...]:
        return tuple(mark.position for mark in sorted(self.marks, key=lambda mark: mark.turn))


@dataclass(frozen=True, slots=True)
class Scale:
    """Readings against their limits, one line each."""

    called: str
    low: float
    target: float
    high: float
    unit: str
    readings: tuple[tuple[str, float], ...]
    """What was read where."""


@dataclass(frozen=True, slots=True)
class ControlChart:
    """Values in their order against the limits that they make themselves, and their moving ranges."""

    called: str
    unit: str
    values: tuple[float, ...]
    chart: IndividualsChart
    starts: tuple[int, ...] = ()
    """Index of the first value of each pump."""


Block: TypeAlias = Paragraph | Points | Fields | Table | Pattern | Scale | ControlChart


@dataclass(frozen=True, slots=True)
class Section:
    title: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class Document:
    """One report."""

    title: str
    verdict: str
    """The one word, or few, that everything else explains."""
    sentence: str
    """What the verdict means."""
    sections: tuple[Section, ...]
    pump: str
    """Which pump; with the next two, what stands on every page."""
    issue: str
    """Procedure and revision."""
    check: str
    """Event number and check value."""
