"""A new procedure's first text, out of the parts, grooves and fastener groups of its pump.

A draft says only what it was told. What nobody has told yet stands in it as a remark, and the torques and the
test, which no rule could miss, as not yet confirmed. Files, and the questions to a person, are for others.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass


class DraftFault(ValueError):
    """What was told cannot be put into a draft; the message is a sentence that says how it should be told."""


@dataclass(frozen=True)
class NewPart:
    """A part: its ends, the one that faces you as you fit it first; what it goes into, and from which end."""

    id: str
    ends: tuple[str, str]
    into: str | None = None
    from_: str | None = None


@dataclass(frozen=True)
class NewGroove:
    """A groove: the part it is in, the part that closes it, its ring, and where on its part it is."""

    id: str
    in_: str
    against: str
    size: str
    material: str
    where: str


@dataclass(frozen=True)
class NewGroup:
    """A fastener group: the part it holds, how many there are on a circle, thread and property class."""

    id: str
    holds: str
    count: int
    thread: str
    strength: str


@dataclass(frozen=True)
class NewPump:
    """What a draft is made of; the main part first, the others in the order they are fitted."""

    id: str
    model: str
    author: str
    parts: tuple[NewPart, ...]
    grooves: tuple[NewGroove, ...] = ()
    groups: tuple[NewGroup, ...] = ()


PART = "ID: END, OTHER END; INTO: FROM"
GROOVE = "ID: IN, AGAINST, SIZE, MATERIAL, WHERE"
GROUP = "ID: PART HELD, COUNT, THREAD, STRENGTH"


def part(told: str) -> NewPart:
    """`cover: outer face, inner face; body: drive end`; the main part has nothing after its ends.

    Raises DraftFault.
    """
    own, _, place = told.partition(";")
    name, ends = _named(own, 2, PART)
    if not place.strip():
        return NewPart(name, (ends[0], ends[1]))
    into, (from_,) = _named(place, 1, PART)
    return NewPart(name, (ends[0], ends[1]), into, from_)


def groove(told: str) -> NewGroove:
    """`G1: cover, body, -137, NBR, round the spigot`. Raises DraftFault."""
    name, values = _named(told, 5, GROOVE)
    return NewGroove(name, *values)


def group(told: str) -> NewGroup:
    """`F1: cover, 4, M6, 8.8`. Raises DraftFault."""
    name, (holds, count, thread, strength) = _named(told, 4, GROUP)
    if not re.fullmatch("[1-9][0-9]{0,2}", count):
        raise DraftFault(f'"{count}" is no number of screws; write it in digits.')
    return NewGroup(name, holds, int(count), thread, strength)


def _named(told: str, count: int, form: str) -> tuple[str, list[str]]:
    name, _, rest = told.partition(":")
    values = [value.strip() for value in rest.split(",")]
    if not name.strip() or len(values) != count or not all(values):
        raise DraftFault(f'"{told.strip()}" is not of the form {form}.')
    return name.strip(), values


def draft(pump: NewPump) -> str:
    """The text of a first revision.

    Raises:
        DraftFault: the parts do not hang together.
    """
    _require_whole(pump)
    main, *others = pump.parts
    blocks = [
        [
            f"# First draft for {_text(pump.model)}. What begins with `# to tell:` waits for who knows it.",
            "format = 1",
            "",
            "# to tell: which way each part points in the finished pump; from the drawing, not from `shows`:",
            "# must_face = [",
            f'#   {{ part = "...", end = "...", toward = {_text(main.ends[0])}, because = "..." }},',
            "# ]",
        ],
        _table(
            "[procedure]",
            id=pump.id,
            title=f"Rebuild of {pump.model}",
            revision="A",
            status="draft",
            author=pump.author,
            models=[pump.model],
            main=main.id,
            unconfirmed=[*(f"{each.id}: torque" for each in pump.groups), "step test: ask"],
        ),
        *(_part(each) for each in pump.parts),
        *(_groove(each) for each in pump.grooves),
        *(_group(each, pump) for each in pump.groups),
        *_steps(pump, others),
    ]
    return "\n\n".join("\n".join(block) for block in blocks) + "\n"


def _require_whole(pump: NewPump) -> None:
    if not pump.parts:
        raise DraftFault("A pump has at least its main part.")
    main, *others = pump.parts
    if main.into is not None:
        raise DraftFault(f"The first part is the main one and goes into nothing; `{main.id}` does.")
    seen = {main.id: main}
    for each in others:
        if each.into is None or each.into not in seen:
            raise DraftFault(f"`{each.id}` has to go into a part that was told before it; write {PART}.")
        if each.from_ not in seen[each.into].ends:
            raise DraftFault(f'`{each.into}` has no end "{each.from_}", from which `{each.id}` would go in.')
        seen[each.id] = each
    things: tuple[NewPart | NewGroove | NewGroup, ...] = (*pump.parts, *pump.grooves, *pump.groups)
    ids = [each.id for each in things]
    if twice := next((name for name in ids if ids.count(name) > 1), None):
        raise DraftFault(f"`{twice}` is told twice; each id means one thing.")
    for ring in pump.grooves:
        for name in (ring.in_, ring.against):
            if name not in seen:
                raise DraftFault(f"`{name}`, named by groove `{ring.id}`, is none of the parts.")
    for screws in pump.groups:
        if screws.holds not in seen or seen[screws.holds].into is None:
            raise DraftFault(
                f"`{screws.holds}`, which `{screws.id}` holds, is no part that goes into another."
            )


def _text(value: str) -> str:
    return json.dumps(value, ensure_ascii=False)  # a text of JSON is a basic string of TOML too


def _table(header: str, **values: str | int | Sequence[str] | None) -> list[str]:
    lines = [header]
    for key, value in values.items():
        if value is None:
            continue
        if isinstance(value, int):
            told = str(value)
        elif isinstance(value, str):
            told = _text(value)
        else:
            told = f"[{', '.join(map(_text, value))}]"
        lines.append(f"{key.rstrip('_')} = {told}")
    return lines


def _part(each: NewPart) -> list[str]:
    shows = None if each.into is None else each.ends[0]
    return _table("[[part]]", id=each.id, ends=each.ends, into=each.into, from_=each.from_, shows=shows)


def _groove(each: NewGroove) -> list[str]:
    return [
        *_table(
            "[[groove]]",
            id=each.id,
            in_=each.in_,
            where=each.where,
            against=each.against,
            takes=each.size,
            material=each.material,
        ),
        "# to tell: its measures, as in",
        '# gland = { bore = "2.250 in", depth = "0.081 in" }',
    ]


def _group(each: NewGroup, pump: NewPump) -> list[str]:
    held = next(one for one in pump.parts if one.id == each.holds)
    assert held.into is not None and held.from_ is not None
    lines = _table(
        "[[fasteners]]",
        id=each.id,
        into=held.into,
        from_=held.from_,
        holds=[each.holds],
        thread=each.thread,
        strength=each.strength,
    )
    if each.count > 1:
        lines += [
            f"layout = {{ circle = {each.count}, seen_from = {_text(held.from_)} }}",
            "# to tell: what is at the top of the circle, inside the braces above, as in",
            '# datum = "the drain"',
            'rounds = ["50 %", "100 %"]',
        ]
    return [
        *lines,
        "# to tell: the screws, the torque, and the friction it was worked out with, as in",
        f"# screws = [{{ item = {_text(each.thread + ' x 20')} }}]",
        '# torque = { target = "7 N·m", tolerance = "10 %" }',
        '# friction = { condition = "oiled", nut_factor = 0.15 }',
    ]


def _steps(pump: NewPump, fitted: Sequence[NewPart]) -> Iterator[list[str]]:
    """Intake, everything off in the order it comes off, everything on in the order told, test, release."""
    yield [
        *_table("[[step]]", id="identify", phase="intake", act="check", name="Read the plate"),
        'ask = [{ what = "serial on the plate", kind = "serial" }]',
    ]
    if fitted:
        yield _table(
            "[[step]]", id="open", phase="teardown", act="remove", off=list(_coming_off(pump, fitted))
        )
    for each in fitted:
        rings = [ring.id for ring in pump.grooves if _closed_by(ring, pump) == each.id]
        yield _table("[[step]]", id=f"{each.id}-in", rings=rings or None, part=each.id)
        for screws in pump.groups:
            if screws.holds == each.id:
                yield _table("[[step]]", id=f"{screws.id}-tight", act="tighten", group=screws.id)
    yield [
        *_table("[[step]]", id="test", phase="test", act="test"),
        "# to tell: the test, and what is good",
        'ask = [{ what = "leaks", one_of = ["none", "some"], good = ["none"] }]',
    ]
    yield _table("[[step]]", id="release", phase="release", act="sign")


def _coming_off(pump: NewPump, fitted: Sequence[NewPart]) -> Iterator[str]:
    for each in reversed(fitted):
        yield from (screws.id for screws in pump.groups if screws.holds == each.id)
        yield each.id
        yield from (ring.id for ring in pump.grooves if _closed_by(ring, pump) == each.id)


def _closed_by(ring: NewGroove, pump: NewPump) -> str:
    """The part with which a groove is closed: of the two, the one that is fitted later."""
    order = [each.id for each in pump.parts]
    return max(ring.in_, ring.against, key=order.index)
