"""A flat table of a record, read several times as quickly as any TOML where it is written plainly.

Plain is what the program itself writes, but for texts with an escape in them: one key a line, and its value a
text, a number, true or false, or an array of these with one a line. Whatever is written otherwise is for the
standard library's parser, and what both can read they read alike.
"""

from __future__ import annotations

import re
import tomllib
from typing import Any

# Control characters may not stand in a text, nor a zero before a number; a date is not plain.
_SCALAR = (
    r'(?:"[^"\\\x00-\x08\x0a-\x1f\x7f]*"|-?(?:0|[1-9][0-9]{0,17})(?:\.[0-9]{1,20})?(?:e[+-]?[0-9]{1,3})?'
    r"|true|false)"
)
_FIELD = re.compile(rf"([a-z][a-z0-9_]*) = ({_SCALAR}|\[(?:\n(?:    {_SCALAR},\n)*)?\])\n")
_PLAIN = re.compile(rf"(?:{_FIELD.pattern})*+")
_TRUTH = {"true": True, "false": False}
_ITEM = re.compile(rf"    ({_SCALAR}),\n")


def flat_table(text: str) -> dict[str, Any] | None:
    """The fields of a table, given the lines below its name; None if it is not one flat table by itself."""
    if _PLAIN.fullmatch(text):
        fields = _FIELD.findall(text)
        table = {name: told[1:-1] if told[0] == '"' else _value(told) for name, told in fields}
        return table if len(table) == len(fields) else None  # no key may stand twice
    try:
        table = tomllib.loads(text)
    except (ValueError, RecursionError):
        return None
    return None if any(map(_holds_a_table, table.values())) else table


def _value(written: str) -> Any:
    if written[0] == '"':
        return written[1:-1]
    if written[0] == "[":
        return [_value(item) for item in _ITEM.findall(written)]
    if written in _TRUTH:
        return _TRUTH[written]
    return float(written) if "." in written or "e" in written else int(written)


def _holds_a_table(value: object) -> bool:
    return isinstance(value, dict) or (isinstance(value, list) and any(map(_holds_a_table, value)))
