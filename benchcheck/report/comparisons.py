"""Two revisions of a procedure side by side, as a person reads them and as other programs do.

What differs and what can be kept is worked out in `assembly.comparison`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from benchcheck.assembly.comparison import Comparison
from benchcheck.procedure.characters import clean


def as_text(found: Comparison) -> str:
    """What changed, what is still to be confirmed, and what an open session could keep."""
    return clean("\n".join(_lines(found)) + "\n")


def as_json(found: Comparison) -> dict[str, object]:
    """The same for other programs, with every confirmation by name."""
    old, new = found.old.procedure, found.new.procedure
    return {
        "old": {"procedure": old.id, "revision": old.revision},
        "new": {"procedure": new.id, "revision": new.revision},
        "raised": found.raised,
        "differences": [{"what": each.what, "change": each.change} for each in found.differences],
        "to_confirm": list(found.to_confirm),
        "confirmed": list(found.confirmed),
        "remark": found.remark,
        "kept": {variant or "": list(acts) for variant, acts in found.kept.items()},
        "asked_again": {variant or "": list(acts) for variant, acts in found.asked_again.items()},
    }


def _lines(found: Comparison) -> Iterator[str]:
    old, new = found.old.procedure, found.new.procedure
    raised = {True: ", raised", False: ", NOT RAISED", None: ""}[found.raised]
    yield f"{new.id}: revision {old.revision} -> {new.revision}{raised}"
    yield from (f"  {each.as_text()}" for each in found.differences)
    if not found.differences:
        yield "  nothing changed"
    if found.confirmed:
        yield "confirmed for this pump since:"
        yield from _numbers(found.confirmed)
    if found.to_confirm:
        yield "still to be confirmed for this pump, and for practice only until then:"
        yield from _numbers(found.to_confirm)
    for variant, again in found.asked_again.items():
        kept = len(found.kept[variant])
        name = f" ({variant})" if variant else ""
        rest = "all but:" if again else "all of them."
        yield f"an open session{name} could keep {kept} of {kept + len(again)} confirmations, {rest}"
        if again:
            yield f"  {', '.join(again)}"
    if found.remark:
        yield found.remark


def _numbers(entries: Iterable[str]) -> Iterator[str]:
    """One line a thing, with all of its numbers: "F1: torque, thread"."""
    by_thing: dict[str, list[str]] = {}
    for entry in entries:
        thing, _, key = entry.partition(":")
        by_thing.setdefault(thing.strip(), []).append(key.strip())
    return (
        f"  {thing}: {', '.join(filter(None, keys))}".removesuffix(": ") for thing, keys in by_thing.items()
    )
