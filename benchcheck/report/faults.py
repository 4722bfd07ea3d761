"""What came of every single fault, for a person and for other programs. Making faults is for the session."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from benchcheck.procedure.characters import clean
from benchcheck.procedure.model import Procedure
from benchcheck.session.fault_run import Found

_COUNTS = ("faults", "caught", "let through", "thin", "harmless")


def as_text(procedure: Procedure, found: Sequence[Found], *, worst_first: bool = False) -> str:
    """A table kind by kind, what is let through or thin after it, and the counts of each variant.

    Faults of one kind about one thing that are seen by the same steps stand in one row. `worst_first`: what
    is let through or thin stands over the table, for a reader who sees the beginning first.
    """
    variants = tuple(dict.fromkeys(each.variant for each in found))
    table = [
        _kind(kind, [each for each in found if each.fault.kind == kind], variants) for kind in _kinds(found)
    ]
    worst = [
        _list(title, [each for each in found if wanted(each)])
        for title, wanted in (("LET THROUGH", _is_let_through), ("THIN: one step, one look", _is_thin))
        if any(wanted(each) for each in found)
    ]
    head = procedure.procedure
    blocks = [*worst, *table] if worst_first else [*table, *worst]
    return clean("\n".join([*blocks, _counted(f"{head.id} {head.revision}", found, variants)]))


def as_json(procedure: Procedure, found: Sequence[Found], *, complete: bool) -> dict[str, object]:
    """One object for each fault, for other programs; `complete`: it was not stopped before the end."""
    return {
        "procedure": procedure.procedure.id,
        "revision": procedure.procedure.revision,
        "faults": [_object(each) for each in found],
        "caught": sum(each.caught for each in found),
        "let_through": sum(each.let_through for each in found),
        "seen_once": sum(len(each.steps) == 1 for each in found),
        "thin": sum(each.thin for each in found),
        "complete": complete,
    }


def summary(found: Sequence[Found]) -> str:
    """How many of each, as a sentence."""
    counts = ", ".join(f"{count} {word}" for word, count in zip(_COUNTS, _numbers(found), strict=True))
    return f"{counts}."


def _object(each: Found) -> dict[str, object]:
    first = each.sightings[0] if each.sightings else None
    return {
        "kind": each.fault.kind,
        "at": each.fault.act,
        "fault": each.words,
        "variant": each.variant,
        "harms": each.harms,
        "caught": each.caught,
        "caught_at": each.caught_at,
        "seen_at": list(each.steps),
        "seen_by": list(dict.fromkeys(sighting.by.value for sighting in each.sightings)),
        "thin": each.thin,
        "rule": first.rule if first is not None else "",
        "message": first.message if first is not None else "",
    }


def _kinds(found: Iterable[Found]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(each.fault.kind for each in found))


def _is_let_through(each: Found) -> bool:
    return each.let_through


def _is_thin(each: Found) -> bool:
    return each.thin


def _kind(kind: str, found: Sequence[Found], variants: Sequence[str | None]) -> str:
    rows: dict[tuple[object, ...], list[Found]] = {}
    for each in found:
        about = each.fault.thing or each.fault.act
        rows.setdefault((about, each.caught_at, each.steps, each.harms), []).append(each)
    lines = [kind]
    for alike in rows.values():
        one, words = alike[0], tuple(dict.fromkeys(each.words for each in alike))
        more = f" (and {len(words) - 1} like it)" if len(words) > 1 else ""
        there = tuple(dict.fromkeys(each.variant for each in alike))
        only = f" [{', '.join(str(each) for each in there)}]" if len(there) < len(variants) else ""
        lines.append(f"  {words[0]}{more}{only}")
        lines.append(f"      {_outcome(one)}")
    return "\n".join(lines) + "\n"


def _outcome(each: Found) -> str:
    seen = f"seen at {len(each.steps)} step{'s' * (len(each.steps) > 1)}: {', '.join(each.steps)}"
    if each.caught:
        return f"caught at {each.caught_at}" + (f"; {seen}" if len(each.steps) > 1 else "")
    if not each.harms:
        return "harmless: the pump comes out the same"
    return f"LET THROUGH; {seen}, too late" if each.steps else "LET THROUGH; no step sees it"


def _list(title: str, found: Sequence[Found]) -> str:
    lines = dict.fromkeys(f"  {each.words}, made in {each.fault.act}: {_outcome(each)}" for each in found)
    return "\n".join([title, *lines]) + "\n"


def _counted(name: str, found: Sequence[Found], variants: Sequence[str | None]) -> str:
    rows: list[tuple[str, ...]] = [(name, *_COUNTS)]
    for variant in variants:
        of = [each for each in found if each.variant == variant]
        rows.append((variant or "all", *(str(number) for number in _numbers(of))))
    widths = [max(len(row[column]) for row in rows) for column in range(len(rows[0]))]
    lines = [
        "  ".join(
            [
                row[0].ljust(widths[0]),
                *(cell.rjust(width) for cell, width in zip(row[1:], widths[1:], strict=True)),
            ]
        )
        for row in rows
    ]
    return "\n".join(lines) + "\n"


def _numbers(found: Sequence[Found]) -> tuple[int, ...]:
    return (
        len(found),
        sum(each.caught for each in found),
        sum(each.let_through for each in found),
        sum(each.thin for each in found),
        sum(not each.caught and not each.harms for each in found),
    )
