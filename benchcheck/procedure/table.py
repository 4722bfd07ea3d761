"""The base of every model that is read from a TOML file.

A table is frozen, takes no key it does not know, and changes no value into another type. After reading it
knows its path in the file (`step`, 3, `ask`, 0), from which the file's source tells line and column; two
tables with equal contents are equal wherever they stand.

Arrays are tuples. A key that is a reserved word in Python gets a trailing underscore and an alias:
`from_: str = Field(alias="from")`; a file must use the alias, code may use either. What is no plain TOML
type (an enumeration, a quantity) needs a validator of its own or `Field(strict=False)`.
"""

from __future__ import annotations

from functools import cache
from typing import Self, TypeAlias

from pydantic import BaseModel, ConfigDict

Path: TypeAlias = tuple[str | int, ...]
"""Where a value stands in a file: keys, and indices in arrays from 0."""


class Table(BaseModel):
    """A TOML table: frozen, strict, and aware of its path in the file it was read from."""

    __slots__ = ("_path",)  # beside the fields: no part of what is compared or written

    model_config = ConfigDict(
        defer_build=True,  # one model for the whole file, made when a file of its kind is read
        frozen=True,
        extra="forbid",
        strict=True,
        allow_inf_nan=False,
        validate_by_alias=True,
        validate_by_name=True,
        validate_default=False,
    )

    @property
    def path(self) -> Path:
        """The table's path in its file; empty for the file itself and for a table that was never read."""
        return getattr(self, "_path", ())

    @classmethod
    def fields_by_key(cls) -> dict[str, str]:
        """The keys an author may write, each with the name of its field."""
        return _keys(cls)

    @classmethod
    def key(cls, name: str) -> str:
        """The key of a field, which may be named by either. Raises KeyError for what is neither."""
        return name if name in cls.fields_by_key() else _fields(cls)[name]

    def __eq__(self, other: object) -> bool:
        return type(self) is type(other) and self.__dict__ == other.__dict__

    def __copy__(self) -> Self:
        copied = super().__copy__()
        object.__setattr__(copied, "_path", self.path)
        return copied


@cache
def _keys(model: type[Table]) -> dict[str, str]:
    return {field.alias or name: name for name, field in model.model_fields.items()}


@cache
def _fields(model: type[Table]) -> dict[str, str]:
    return {name: key for key, name in _keys(model).items()}


def settle(value: object, path: Path = ()) -> None:
    """Tell `value`, and every table inside it, the path at which it stands."""
    if isinstance(value, Table):
        object.__setattr__(value, "_path", path)
        keys, values = _fields(type(value)), value.__dict__
        for name in value.model_fields_set:  # what the file leaves out holds no table
            item = values[name]
            if isinstance(item, _MAY_HOLD_TABLES):
                settle(item, (*path, keys[name]))
    elif isinstance(value, tuple):
        for index, item in enumerate(value):
            if isinstance(item, _MAY_HOLD_TABLES):
                settle(item, (*path, index))
    elif isinstance(value, dict):
        for key, item in value.items():
            if isinstance(item, _MAY_HOLD_TABLES):
                settle(item, (*path, key))


_MAY_HOLD_TABLES = (Table, tuple, dict)
