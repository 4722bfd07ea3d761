"""A file's values as a model, or everything that is wrong with them, each with its place.

The model is checked by pydantic; `misfits` tells its errors in an author's words. What is read here has the
right shape; whether it makes sense is for others.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from pydantic import ValidationError

from benchcheck.procedure.finding import Finding, Place, sort
from benchcheck.procedure.misfits import misfits
from benchcheck.procedure.source import Source
from benchcheck.procedure.table import Table, settle

ModelT = TypeVar("ModelT", bound=Table)


@dataclass(frozen=True)
class Read(Generic[ModelT]):
    """A file that was read into its model, and still knows where everything stands."""

    model: ModelT
    source: Source

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What was said on the way; warnings only."""
        return self.source.findings

    def place(self, table: Table, *keys: str | int, key: bool = False) -> Place:
        """Where a value of a table stands; without keys, or if the file leaves it out, where the table does.

        Parameters:
            table: any table of this model.
            keys: a key, as authors write it (`"from"`) or as its field is called, then what is inside it.
            key: the place of the key itself instead of its value's.

        Raises:
            KeyError: such a table has no such key, in no file whatever.
        """
        if keys and isinstance(keys[0], str):
            keys = (type(table).key(keys[0]), *keys[1:])
        return self.source.place((*table.path, *keys), key=key)


def read_model(source: Source, model: type[ModelT]) -> Read[ModelT] | list[Finding]:
    """The model that a file describes, or all that keeps the file from being one, sorted by place."""
    data = _arrays_as_tuples(source.data)
    try:
        read = model.model_validate(data, by_alias=True, by_name=False)
    except ValidationError as error:
        return sort([*source.findings, *misfits(source, model, error)])
    settle(read)
    return Read(read, source)


def _arrays_as_tuples(value: Any) -> Any:
    """Models hold tuples, so that nothing in them can be changed."""
    if isinstance(value, dict):
        return {key: _arrays_as_tuples(item) for key, item in value.items()}
    if isinstance(value, list):
        return tuple(_arrays_as_tuples(item) for item in value)
    return value
