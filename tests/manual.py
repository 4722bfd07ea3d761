"""The manual for authors as tests use it: its whole procedure, its pieces, and how a piece is read in it."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any

import tomli_w

MANUAL = (Path(__file__).parents[1] / "procedures" / "README.md").read_text(encoding="utf-8")
FENCES: list[tuple[str, str]] = re.findall(r"^```toml ?(\w*)\n(.*?)^```$", MANUAL, re.MULTILINE | re.DOTALL)
"""Every TOML example: its kind (`whole`, a register's name, or none for a piece) and its text."""
WHOLE = next(text for kind, text in FENCES if kind == "whole")
"""The small, but complete procedure of which the other examples are pieces."""


def within_the_whole(piece: str) -> str:
    """The whole procedure with a piece read into it, as the manual says."""
    return tomli_w.dumps(merged(tomllib.loads(WHOLE), tomllib.loads(piece)))


def merged(whole: dict[str, Any], piece: dict[str, Any]) -> dict[str, Any]:
    """The piece's tables in place of those with their ids; new ones beside their neighbours in the piece."""
    result = dict(whole)
    for key, value in piece.items():
        if isinstance(value, dict):
            result[key] = {**whole.get(key, {}), **value}
        elif isinstance(value, list):
            result[key] = _woven(whole.get(key, []), value)
        else:
            result[key] = value
    return result


def _woven(old: list[dict[str, Any]], new: list[dict[str, Any]]) -> list[dict[str, Any]]:
    known = {table["id"] for table in old if "id" in table}
    result = list(old)
    place: int | None = None
    """Where the next new table goes; None before the first that is known."""
    waiting: list[dict[str, Any]] = []
    for table in new:
        if table.get("id") in known:
            at = next(number for number, each in enumerate(result) if each.get("id") == table["id"])
            result[at : at + 1] = [*waiting, table]
            place, waiting = at + len(waiting) + 1, []
        elif place is None:
            waiting.append(table)
        else:
            result.insert(place, table)
            place += 1
    return result + waiting
