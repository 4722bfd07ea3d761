"""Another text of a procedure, for a rehearsal: the one that is followed, with one thing changed.

What is changed is named as in the file: a table by its name and its id, then a key. Whether the text so made
is a good one is for the checker; here it only has to fit the model.
"""

from __future__ import annotations

import hashlib
from typing import Any

from pydantic import TypeAdapter, ValidationError

from benchcheck.procedure.model import Procedure
from benchcheck.procedure.table import Table
from benchcheck.session.prompt import Outcome, refused

TABLES = ("step", "part", "groove", "fasteners", "clock")
"""The tables of a procedure that have an id."""


def changed_text(procedure: Procedure, of: str, key: str, to: Any, revision: str) -> Procedure | Outcome:
    """The procedure with one key of one table changed, or without that table; or why that cannot be.

    Parameters:
        of: the table and its id, as "step gap" or "fasteners F1".
        key: the key that changes; empty: the table is gone.
        to: the new value, as TOML has it; None: the key is left out.
        revision: of the new text; empty: the same.
    """
    kind, _, name = of.partition(" ")
    tables: tuple[Table, ...] = getattr(procedure, kind) if kind in TABLES else ()
    place = next((at for at, each in enumerate(tables) if getattr(each, "id", "") == name), None)
    if place is None:
        return refused("no-such-table", f'"{of}" is no table of the procedure', mend='write as "step gap"')
    new: tuple[Table, ...] = ()
    if key:
        changed = _changed(tables[place], key, to)
        if isinstance(changed, Outcome):
            return changed
        new = (changed,)
    head = procedure.procedure.model_copy(update={"revision": revision} if revision else {})
    left = (*tables[:place], *new, *tables[place + 1 :])
    return procedure.model_copy(update={kind: left, "procedure": head})


def _changed(table: Table, key: str, to: Any) -> Table | Outcome:
    name = table.fields_by_key().get(key)
    if name is None:
        known = ", ".join(table.fields_by_key())
        return refused("no-such-key", f'"{key}" is none of the keys of that table: {known}')
    field = type(table).model_fields[name]
    if to is None and not field.is_required():
        return table.model_copy(update={name: field.get_default(call_default_factory=True)})
    try:
        value = TypeAdapter(field.rebuild_annotation()).validate_python(to)
    except ValidationError:
        return refused("no-such-value", f"{to!r} cannot stand at {key}: {field.description}")
    return table.model_copy(update={name: value})


def name_of(procedure: Procedure) -> str:
    """What stands for the SHA-256 of a text that is in no file."""
    return hashlib.sha256(procedure.model_dump_json().encode()).hexdigest()
