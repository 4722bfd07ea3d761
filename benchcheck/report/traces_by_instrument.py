"""What one instrument did in one session, as tables: its uses, or those that an error took out of the limits.

Of a wrench group by group; what was read on it, or on a gauge, in one table.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.report import words
from benchcheck.report.columns import kept
from benchcheck.report.document import Block, Column, Paragraph, Table
from benchcheck.report.trace_words import heading, now_words
from benchcheck.session.trace.read_off import ReadOff
from benchcheck.session.trace.search import Touched, is_in_the_pump
from benchcheck.session.trace.uses import Use

_AGAIN = (
    Column("showed", right=True),
    Column("was", right=True),
    Column("limits", right=True),
    Column("off by", right=True),
    Column("event", right=True),
    Column("now"),
)
_READ_AGAIN = (Column("reading"), *_AGAIN)
_RECALIBRATED = (Column("at"), *_AGAIN)


def by_an_instrument(touched: Touched) -> Iterator[Block]:
    """What it did, or where an error is known, what leaves the limits and what does not."""
    groups: dict[tuple[str, str], list[Use]] = {}
    for use in touched.uses:
        if use.tightening is not None:
            drawn = use.tightening.event
            groups.setdefault((drawn.group, drawn.unit), []).append(use)
    read = [use for use in touched.uses if use.reading is not None]
    if touched.wanted.error is None:
        if groups:
            yield _in_short(touched, groups)
        if read:
            yield _read_in_short(touched, read)
        return
    yield Paragraph(heading(touched))
    for (group, unit), found in groups.items():
        name = words.capital(touched.past.pump.called(group))
        rows = tuple(
            _recalibrated_row(use) for use in found if use.recalibrated is None or use.recalibrated.beyond
        )
        if rows:
            yield Table(f"{name}, in {unit}", _RECALIBRATED, rows)
        if stays := len(found) - len(rows):
            which = f"all {stays}" if stays > 1 else "its one use"
            if rows:
                which = f"{stays} other{'s' if stays > 1 else ''}"
            yield Paragraph(f"{name}: {which} stay{'s' if stays == 1 else ''} inside the limits.")
    if rows := tuple(
        _reading_row(use) for use in read if use.recalibrated is None or use.recalibrated.beyond
    ):
        yield Table("Readings", _READ_AGAIN, rows)
    if stays := len(read) - len(rows):
        yield Paragraph(f"{words.capital(words.count(stays, 'reading'))} {_stay(stays)} inside the limits.")


def _stay(count: int) -> str:
    return "stays" if count == 1 else "stay"


def _read_in_short(touched: Touched, read: list[Use]) -> Table:
    rows = tuple(
        (use.reading.event.what, _showed(use.reading), str(use.event.number), now_words(use))
        for use in read
        if use.reading is not None
    )
    columns = (Column("reading"), Column("showed", right=True), Column("event", right=True), Column("now"))
    return Table(heading(touched), columns, rows)


def _showed(reading: ReadOff) -> str:
    return kept(f"{words.number(reading.event.value)} {reading.event.unit}")


def _limits_words(low: float | None, high: float | None) -> str:
    if low is not None and high is not None:
        return words.limits(low, high)
    return f"at least {words.number(low)}" if low is not None else f"at most {words.number(high or 0.0)}"


def _reading_row(use: Use) -> tuple[str, ...]:
    assert use.reading is not None
    reading, again = use.reading, use.recalibrated
    what, end = (reading.event.what, _showed(reading)), (str(use.event.number), now_words(use))
    if again is None:
        return *what, "?", "not known", "?", *end
    limits = _limits_words(reading.low, reading.high)
    return *what, _figures(again.true, 4), kept(limits), kept(_figures(again.beyond, 2)), *end


def _in_short(touched: Touched, groups: dict[tuple[str, str], list[Use]]) -> Table:
    rows = []
    for (group, _), found in groups.items():
        first, last = found[0].event.number, found[-1].event.number
        still = sum(map(is_in_the_pump, found))
        events = f"{first} to {last}" if last > first else str(first)
        rows.append((touched.past.pump.called(group), str(len(found)), events, str(still)))
    columns = (
        Column("group"),
        Column("uses", right=True),
        Column("events"),
        Column("still in the pump", right=True),
    )
    return Table(heading(touched), columns, tuple(rows))


def _recalibrated_row(use: Use) -> tuple[str, ...]:
    assert use.tightening is not None
    done, again = use.tightening, use.recalibrated
    event = done.event
    showed = f"{'set ' if done.how == 'set' else ''}{words.number(event.value)}"
    place = f"{'pass' if done.in_pass else done.round}/{event.position}", kept(showed)
    end = str(event.number), now_words(use)
    if again is None or use.tightening.band is None:
        return *place, "?", "not known", "?", *end
    band = use.tightening.band
    off = f"{_figures(again.beyond, 2)} ({_figures(abs(again.beyond) / band.target * 100, 2)} %)"
    return *place, _figures(again.true, 4), kept(words.limits(band.low, band.high)), kept(off), *end


def _figures(value: float, figures: int) -> str:
    return words.number(float(f"{value:.{figures}g}"))
