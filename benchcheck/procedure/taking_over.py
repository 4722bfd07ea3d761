"""An older procedure as the draft of a new one: its text with every remark, its numbers marked as inherited.

Only the head is written anew: which document it is, and what is still to be confirmed. Files are opened and
written by others.
"""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Iterator, Mapping
from typing import Any

from benchcheck.procedure.drafting import DraftFault
from benchcheck.procedure.model import Procedure
from benchcheck.procedure.reading import Read

_NAMES = {"id", "for", "if", "round", "lines_up", "keep", "as", "sets", "unconfirmed"}
"""Keys whose digits count nothing: they name, or refer to, something."""

_OF_THE_HEAD = {"long_pause"}
"""The keys of the head that hold a number of the pump's work; the others say which document it is."""


def raised(revision: str) -> str:
    """The revision after another: `D` after `C`, `AA` after `Z`, `10` after `9`, `r08` after `r07`."""
    if digits := re.search("[0-9]+$", revision):
        return f"{revision[: digits.start()]}{int(digits[0]) + 1:0{len(digits[0])}}"
    last = revision[-1]
    if last in "Zz":
        first = chr(ord(last) - 25)
        return f"{raised(revision[:-1])}{first}" if revision[:-1] else 2 * first
    return f"{revision[:-1]}{chr(ord(last) + 1)}" if last.isalpha() and last.isascii() else f"{revision}1"


def is_raised(new: str, old: str) -> bool | None:
    """Whether a revision comes after another; None where their forms have no order, as `C` and `2`."""
    for one, other in zip(_pieces(new), _pieces(old), strict=False):
        if one.isdigit() != other.isdigit():
            return None
        if one != other:
            return int(one) > int(other) if one.isdigit() else _longer(one) > _longer(other)
    return len(_pieces(new)) > len(_pieces(old))


def _longer(letters: str) -> tuple[int, str]:
    """Letters in the order in which revisions use them up: `AA` comes after `Z`."""
    return len(letters), letters


def _pieces(revision: str) -> list[str]:
    """Runs of digits and what stands between them, capitals and small letters being the same."""
    return re.findall("[0-9]+|[^0-9]+", revision.upper())


def numbers(data: Mapping[str, Any]) -> tuple[str, ...]:
    """What of a procedure's values has a number in it, each once: `F1: torque`, `step runout: ask`."""
    names = set(_names(data))
    return tuple(dict.fromkeys(_numbers(data, names)))


def _numbers(data: Mapping[str, Any], names: set[str]) -> Iterator[str]:
    for key, value in data.items():
        for table in value if isinstance(value, list) else [value]:
            if not isinstance(table, dict):
                continue
            thing = key if key == "procedure" else table.get("id", key)
            for inner, told in table.items():
                skipped = inner in _NAMES or (key == "procedure" and inner not in _OF_THE_HEAD)
                if not skipped and _has_number(told, names):
                    yield f"{'step ' if key == 'step' else ''}{thing}: {inner}"


def _names(data: Mapping[str, Any]) -> Iterator[str]:
    head = data["procedure"]
    yield from (*head["models"], *head.get("variants", ()))
    for value in data.values():
        for table in value if isinstance(value, list) else [value]:
            if isinstance(table, dict):
                yield table.get("id", "")
                yield from table.get("ends", ())


def _has_number(value: object, names: set[str]) -> bool:
    if isinstance(value, bool):
        return False
    if isinstance(value, str):
        return value not in names and any(letter.isdigit() for letter in value)
    if isinstance(value, dict):
        return any(_has_number(told, names) for key, told in value.items() if key not in _NAMES)
    if isinstance(value, list):
        return any(_has_number(told, names) for told in value)
    return isinstance(value, int | float)


def take_over(
    old: Read[Procedure], *, name: str, revision: str, models: tuple[str, ...], author: str | None = None
) -> str:
    """The text of an older procedure as a draft.

    Parameters:
        name, revision: id and issue of the new document.
        models: the pumps it is for; those of the old one if empty.
        author: who answers for it; the old one's author if None.

    Raises:
        DraftFault: the old file writes its head in a way that cannot be edited as text.
    """
    head = old.model.procedure
    said: dict[str, object] = {"id": name, "revision": revision, "status": "draft"}
    if models:
        said["models"] = list(models)
    if author:
        said["author"] = author
    said["changes"] = [f"Taken over from {head.id}, revision {head.revision}."]
    said["unconfirmed"] = list(numbers(old.source.data))
    lines = old.source.lines.text.split("\n")
    start = old.place(head).line
    if not re.match(r"\s*\[\s*procedure\s*\]", lines[start - 1]):
        raise DraftFault(f"{old.source.file} has no [procedure] header of its own line; give it one first.")
    rest = dict(said)
    new = lines[:start]
    at = after = start
    while at < len(lines) and not lines[at].lstrip().startswith("["):
        if not (bare := lines[at].strip()) or bare.startswith("#"):
            new.append(lines[at])
            at += 1
            continue
        end = _end(lines, at)
        key = next(iter(tomllib.loads("\n".join(lines[at:end]))))
        if key in rest:
            new.append(_statement(key, rest.pop(key), _remark(lines[end - 1])))
        elif key not in ("issued", "approver"):
            new += lines[at:end]
        after = len(new)
        at = end
    left = [_statement(key, value) for key, value in rest.items()]
    return "\n".join([*new[:after], *left, *new[after:], *lines[at:]])


def _end(lines: list[str], start: int) -> int:
    """The line after a statement that begins at a line."""
    for end in range(start + 1, len(lines) + 1):
        try:
            tomllib.loads("\n".join(lines[start:end]))
        except tomllib.TOMLDecodeError:
            continue
        return end
    raise AssertionError("a file that was read has whole statements")


def _remark(line: str) -> str:
    """What an author wrote behind a value: the shortest end of its line that is a remark."""
    for at, letter in enumerate(line):
        if letter == "#":
            try:
                tomllib.loads(line[:at])
            except tomllib.TOMLDecodeError:
                continue  # a sign inside a text
            return f"  {line[at:].rstrip()}"
    return ""


def _statement(key: str, value: object, remark: str = "") -> str:
    told = json.dumps(value, ensure_ascii=False)
    if isinstance(value, list) and len(told) > 80:
        inner = "\n".join(f"  {json.dumps(each, ensure_ascii=False)}," for each in value)
        told = f"[\n{inner}\n]"
    return f"{key} = {told}{remark}"
