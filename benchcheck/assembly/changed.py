"""A frozen thing as it is with some of its fields changed: `changed(state, hand={})`.

It gives what `dataclasses.replace` gives, ten times as quickly, for classes that a fold copies several times
an event: without slots, with nothing to do once they are made, and with every field handed in. What was
worked out from the old one and is kept beside its fields is not taken along.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

__all__ = ["changed"]

if TYPE_CHECKING:
    # So that names and types of the fields are checked.
    from dataclasses import replace as changed
else:
    import dataclasses
    from functools import cache

    @cache
    def _fields(kind: type) -> tuple[str, ...]:
        return tuple(field.name for field in dataclasses.fields(kind))

    def changed(before, /, **changes):
        after = object.__new__(type(before))
        values = vars(before)
        vars(after).update({name: values[name] for name in _fields(type(before))}, **changes)
        return after
