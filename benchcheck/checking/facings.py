"""Facings of a file that come out false: the chain that shows it, and the one part that mends all of it.

For the rules on facing. What a facing is, and when it is false, is for `assembly.facing`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from benchcheck.assembly.acts import Act
from benchcheck.assembly.facing import Misfit, misfits
from benchcheck.assembly.state import Assembly
from benchcheck.checking.subject import Subject
from benchcheck.checking.walk import Case, Stop
from benchcheck.procedure.finding import Place
from benchcheck.procedure.model import MustFace, Part


@dataclass(frozen=True)
class Reversal:
    """Facings that become false with one act, and the parts any one of which, turned over, mends them all."""

    act: Act | None
    after: Assembly
    broken: tuple[Misfit, ...]
    menders: tuple[str, ...]
    """The part itself first, then what carries it; none if no single part mends them."""
    cases: tuple[Case, ...]


def reversals(subject: Subject) -> Iterator[Reversal]:
    """Every act of the file after which facings are false."""
    by_act: dict[str, list[Stop]] = {}
    for stop in subject.stopped_by("part-faces-the-wrong-way"):
        by_act.setdefault(stop.act.id if stop.act else "", []).append(stop)
    for stops in by_act.values():
        after, about = stops[0].after, {stop.about for stop in stops}
        broken = tuple(each for each in _false_facings(after) if each.must.part in about)
        cases = tuple(dict.fromkeys(case for stop in stops for case in stop.cases))
        for together in _mended_together(after, broken):
            yield Reversal(stops[0].act, after, together, menders(after, together), cases)


def menders(now: Assembly, broken: tuple[Misfit, ...]) -> tuple[str, ...]:
    """The parts of which each, turned over alone, mends all these facings and makes no other one false."""
    musts = [each.must for each in broken]
    before = [each.must for each in _false_facings(now)]
    found = []
    for part in now.chain(musts[0].part):
        if part not in now.seated or now.pump.parts[part].ends is None:
            continue
        after = [each.must for each in _false_facings(_turned_over(now, part))]
        if not any(must in after for must in musts) and all(must in before for must in after):
            found.append(part)
    return tuple(found)


def menders_together(now: Assembly, misfit: Misfit) -> tuple[str, ...]:
    """The part of a false facing and what it carries, which only together, each turned over, mend it.

    So it is where two reversals hide each other. None if that does not mend it either.
    """
    turned: list[str] = []
    before = [each.must for each in _false_facings(now)]
    part = misfit.must.part
    while part not in turned and now.pump.parts[part].ends is not None:
        turned.append(part)
        now = _turned_over(now, part)
        new = [
            each.must for each in _false_facings(now) if each.must not in before or each.must == misfit.must
        ]
        if not new:
            return tuple(turned)
        part = new[0].part
        if turned[0] not in now.chain(part):
            break
    return ()


def _turned_over(now: Assembly, part: str) -> Assembly:
    seat = now.seated[part]
    return replace(now, seated={**now.seated, part: replace(seat, turn=-seat.turn)})


def _mended_together(now: Assembly, broken: tuple[Misfit, ...]) -> Iterator[tuple[Misfit, ...]]:
    """All of them, if one part mends all; else those that one part mends."""
    if broken and menders(now, broken):
        yield broken
        return
    by_part: dict[tuple[str, ...], list[Misfit]] = {}
    for each in broken:
        by_part.setdefault(menders(now, (each,)) or (each.must.part,), []).append(each)
    for together in by_part.values():
        yield tuple(together)


def _false_facings(now: Assembly) -> list[Misfit]:
    return [each for each in misfits(now) if isinstance(each.must, MustFace)]


def said_at(subject: Subject, part: Part, variant: str | None) -> Place:
    """Where a file says which way round a part goes in: at `shows`, or at `from` where that is left out."""
    if isinstance(part.shows, dict):
        return subject.place(part, "shows", variant or "")
    return subject.place(part, "from" if part.shows is None else "shows")


def chain(subject: Subject, now: Assembly, misfit: Misfit) -> str:
    """Why a facing is false, seat by seat, with the line that says each."""
    pump = now.pump
    part, end = misfit.must.part, misfit.must.end if isinstance(misfit.must, MustFace) else ""
    words = f"the {end} of `{part}`"
    while part != misfit.of and part in now.seated:
        seat = now.seated[part]
        own = 1 if end == pump.ends(part)[0] else -1
        end = pump.ends(seat.body)[0 if own * seat.turn > 0 else 1]
        line = said_at(subject, pump.parts[part], pump.variant).line
        words += f" points to the {end} of `{seat.body}` (line {line})"
        part = seat.body
        if part != misfit.of and part in now.seated:
            words += ", and that"
    if part != misfit.of:
        words += f", which is the side of the {misfit.is_toward} of `{misfit.of}`"
    return (
        f"{words}; it must point to the {misfit.toward} ({subject.line(misfit.must)}), "
        f"because {misfit.must.because}"
    )
