"""Procedures damaged on purpose: at random, and one statement at a time.

For the tests, which take a sample, and for the campaign that takes thousands.
"""

from __future__ import annotations

import random
import re
from collections.abc import Iterator
from dataclasses import dataclass

from benchcheck.mechanics.units import Quantity
from benchcheck.procedure.model import Procedure
from benchcheck.store.library import parse_procedure

_STRING = re.compile(r'"[^"\n]*"')
_NUMBER = re.compile(r"\d+(?:\.\d+)?")


def damaged(text: str, seed: int) -> bytes:
    """The file after one to four damages of any kind; the same for the same seed."""
    chance = random.Random(seed)
    content = text.encode()
    for _ in range(chance.choice((1, 1, 2, 4))):
        content = chance.choice(_KINDS)(content, chance)
    return content


def _line_deleted(content: bytes, chance: random.Random) -> bytes:
    lines = content.split(b"\n")
    del lines[chance.randrange(len(lines))]
    return b"\n".join(lines)


def _lines_exchanged(content: bytes, chance: random.Random) -> bytes:
    lines = content.split(b"\n")
    one, other = chance.randrange(len(lines)), chance.randrange(len(lines))
    lines[one], lines[other] = lines[other], lines[one]
    return b"\n".join(lines)


def _tables_exchanged(content: bytes, chance: random.Random) -> bytes:
    tables = content.split(b"\n\n")
    one, other = chance.randrange(len(tables)), chance.randrange(len(tables))
    tables[one], tables[other] = tables[other], tables[one]
    return b"\n\n".join(tables)


def _table_deleted(content: bytes, chance: random.Random) -> bytes:
    tables = content.split(b"\n\n")
    del tables[chance.randrange(len(tables))]
    return b"\n\n".join(tables)


def _number_changed(content: bytes, chance: random.Random) -> bytes:
    text = content.decode("utf-8", "replace")
    found = list(_NUMBER.finditer(text))
    if not found:
        return content
    at = chance.choice(found)
    other = chance.choice(("0", "-1", "7", "1e9", "99999999999", f"{at[0]}0", f"{at[0]}.5"))
    return (text[: at.start()] + other + text[at.end() :]).encode()


def _value_exchanged(content: bytes, chance: random.Random) -> bytes:
    """One text of the file in the place of another: names that exist, where they do not belong."""
    text = content.decode("utf-8", "replace")
    found = list(_STRING.finditer(text))
    if not found:
        return content
    at, other = chance.choice(found), chance.choice(found)
    return (text[: at.start()] + other[0] + text[at.end() :]).encode()


def _byte_flipped(content: bytes, chance: random.Random) -> bytes:
    if not content:
        return content
    changed = bytearray(content)
    changed[chance.randrange(len(changed))] ^= 1 << chance.randrange(8)
    return bytes(changed)


_KINDS = (
    _line_deleted,
    _lines_exchanged,
    _tables_exchanged,
    _table_deleted,
    _number_changed,
    _value_exchanged,
    _value_exchanged,
    _byte_flipped,
)


@dataclass(frozen=True)
class Slip:
    """One statement of a good procedure that was made wrong, and the rules of which one has to find it."""

    what: str
    text: str
    found_by: tuple[str, ...]


def slips(text: str) -> Iterator[Slip]:
    """Each ring left out, facing reversed, round dropped and torque in another unit, one at a time."""
    procedure = parse_procedure(text.encode(), "good.toml").model
    yield from _rings_left_out(text, procedure)
    yield from _facings_reversed(text, procedure)
    yield from _rounds_dropped(text, procedure)
    yield from _units_changed(text, procedure)


def _rings_left_out(text: str, procedure: Procedure) -> Iterator[Slip]:
    steps = text.split("[[step]]\n")
    for groove in procedure.groove:
        for at, step in enumerate(steps):
            line = re.search(rf'^rings = \[.*"{re.escape(groove.id)}".*\]\n', step, re.MULTILINE)
            if line is None:
                continue
            others = [each for each in _STRING.findall(line[0]) if each != f'"{groove.id}"']
            fits_more = others or re.search(r"^(part|parts|group) = ", step, re.MULTILINE)
            rings = f"rings = [{', '.join(others)}]\n" if others else ""
            left = [step.replace(line[0], rings)] if fits_more else []
            changed = "[[step]]\n".join((*steps[:at], *left, *steps[at + 1 :]))
            yield Slip(f"no ring in {groove.id}", changed, ("groove-left-empty", "step-unknown"))


def _facings_reversed(text: str, procedure: Procedure) -> Iterator[Slip]:
    faced = {must.part for must in procedure.must_face}
    tables = text.split("[[part]]\n")
    for part in procedure.part:
        if part.ends is None or part.id not in faced or not isinstance(part.shows, str):
            continue
        at = next(number for number, table in enumerate(tables) if table.startswith(f'id = "{part.id}"\n'))
        other = next(end for end in part.ends if end != part.shows)
        table = tables[at].replace(f'shows = "{part.shows}"', f'shows = "{other}"', 1)
        changed = "[[part]]\n".join((*tables[:at], table, *tables[at + 1 :]))
        yield Slip(f"{part.id} reversed", changed, ("part-faces-the-wrong-way",))


def _rounds_dropped(text: str, procedure: Procedure) -> Iterator[Slip]:
    for group in procedure.fasteners:
        if len(group.rounds) > 1:
            written = ", ".join(f'"{share}"' for share in group.rounds)
            fewer = ", ".join(f'"{share}"' for share in group.rounds[:-1])
            start = text.index(f'id = "{group.id}"\nname' if group.name else f'id = "{group.id}"\n')
            at = text.index(f"rounds = [{written}]", start)
            changed = text[:at] + text[at:].replace(f"rounds = [{written}]", f"rounds = [{fewer}]", 1)
            yield Slip(f"no last round in {group.id}", changed, ("rounds-end-below-full", "round-unknown"))
    steps = text.split("[[step]]\n")
    for at, step in enumerate(steps):
        if re.search(r"^round = \d+$", step, re.MULTILINE) and not _made_good(
            procedure, step.split(chr(34))[1]
        ):
            changed = "[[step]]\n".join((*steps[:at], *steps[at + 1 :]))
            yield Slip(
                f"no step {step.split(chr(34))[1]}",
                changed,
                (
                    "round-out-of-order",
                    "fastener-not-tight",
                    "not-run-in",
                    "step-unknown",
                    "second-pass-missing",
                ),
            )


def _made_good(procedure: Procedure, name: str) -> bool:
    """Whether the next step with the same group does all rounds that are left, and is no second pass."""
    place = next(at for at, step in enumerate(procedure.step) if step.id == name)
    dropped, *later = procedure.step[place:]
    after = next((step for step in later if step.group == dropped.group), None)
    again = any(group.again for group in procedure.fasteners if group.id == dropped.group)
    return after is not None and after.round is None and not again


_OTHER_UNITS = {
    "N·m": ("lbf·ft", "kgf·m", "lbf·in"),
    "lbf·ft": ("N·m", "lbf·in", "kgf·m"),
    "lbf·in": ("N·m", "lbf·ft", "kgf·m"),
    "N·cm": ("N·m",),
}


def _units_changed(text: str, procedure: Procedure) -> Iterator[Slip]:
    for group in procedure.fasteners:
        if group.torque is None or group.low_because is not None:
            continue
        target: Quantity = group.torque.target
        for unit in _OTHER_UNITS.get(target.unit, ()):
            start = text.index(f'id = "{group.id}"\nname' if group.name else f'id = "{group.id}"\n')
            at = text.index(f'target = "{target}"', start)
            changed = text[:at] + text[at:].replace(f'"{target}"', f'"{target.value} {unit}"', 1)
            yield Slip(
                f"{group.id}: {target.value} {unit} for {target.unit}",
                changed,
                (
                    "torque-over-proof-load",
                    "torque-too-high",
                    "torque-too-low",
                    "torque-unit-unlikely",
                    "torque-unit-unlike-the-others",
                    "tolerance-in-another-unit",
                ),
            )
