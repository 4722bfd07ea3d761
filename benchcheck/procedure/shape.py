"""What a model expects at a path: which tables, which keys, which words.

Read from the models' own annotations, so that a finding can name the keys and words that are known there.
"""

from __future__ import annotations

import types
from enum import Enum
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic.fields import FieldInfo

from benchcheck.procedure.table import Path, Table


def tables_at(model: type[Table], path: Path) -> list[type[Table]]:
    """The tables that may stand at `path`; none where something else is expected."""
    return [each for each in _types_at(model, path) if _is_table(each)]


def keys_at(model: type[Table], path: Path) -> list[str]:
    """The keys that the table at `path` may have."""
    return list(dict.fromkeys(key for table in tables_at(model, path) for key in table.fields_by_key()))


def words_at(model: type[Table], path: Path) -> list[str]:
    """The words among which the value at `path` must be; none if it is free."""
    words: list[str] = []
    for each in _types_at(model, path):
        if get_origin(each) is Literal:
            words += map(str, get_args(each))
        elif isinstance(each, type) and issubclass(each, Enum):
            words += [str(member.value) for member in each]
    return words


def description_at(model: type[Table], path: Path) -> str:
    """What the value at `path` is for, in the model's own words; empty if it does not say.

    What stands inside an array, or in a table whose keys are free, is described with the whole.
    """
    for length in range(len(path), 0, -1):
        for table in tables_at(model, path[: length - 1]):
            field = _field(table, path[length - 1])
            if field is not None:
                return field.description or _summary(_alternatives(field.annotation))
    return ""


def _summary(kinds: list[Any]) -> str:
    """What the tables among `kinds`, or in the arrays among them, say of themselves."""
    inner = [each for kind in kinds for each in (kind, *_inside(kind, 0))]
    table = next((each for each in inner if _is_table(each)), None)
    _, _, summary = ((table.__doc__ or "") if table else "").partition(": ")
    return summary.partition("\n")[0].rstrip(".")


def _types_at(model: type[Table], path: Path) -> list[Any]:
    kinds: list[Any] = [model]
    for part in path:
        kinds = [inner for kind in kinds for inner in _inside(kind, part)]
    return kinds


def _inside(kind: Any, part: str | int) -> list[Any]:
    arguments = get_args(kind)
    if _is_table(kind):
        field = _field(kind, part)
        return _alternatives(field.annotation) if field is not None else []
    if get_origin(kind) is tuple and isinstance(part, int):
        if len(arguments) == 2 and arguments[1] is Ellipsis:
            return _alternatives(arguments[0])
        return _alternatives(arguments[part]) if part < len(arguments) else []
    if get_origin(kind) is dict and isinstance(part, str):
        return _alternatives(arguments[1])
    return []


def _alternatives(annotation: Any) -> list[Any]:
    if get_origin(annotation) is Annotated:
        return _alternatives(get_args(annotation)[0])
    if get_origin(annotation) in (Union, types.UnionType):
        return [inner for each in get_args(annotation) for inner in _alternatives(each)]
    return [annotation]


def _field(table: type[Table], key: str | int) -> FieldInfo | None:
    name = table.fields_by_key().get(str(key))
    return table.model_fields[name] if name else None


def _is_table(kind: Any) -> bool:
    return isinstance(kind, type) and issubclass(kind, Table)
