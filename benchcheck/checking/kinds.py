"""Which kind of file a TOML file is: procedures and registers are told apart by their first table."""

from __future__ import annotations

from collections.abc import Callable

from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Procedure
from benchcheck.procedure.registers import InstrumentRegister, PeopleRegister, ShopRegister
from benchcheck.procedure.source import Source
from benchcheck.procedure.table import Table
from benchcheck.procedure.wording import listed, nearest, shortened

_KINDS: tuple[type[Table], ...] = (Procedure, ShopRegister, InstrumentRegister, PeopleRegister)
_BY_TABLE = {key: kind for kind in _KINDS for key in kind.fields_by_key() if key != "format"}
_FIRST = ("[procedure]", "[shop]", "[[wrench]]", "[[gauge]]", "[[person]]", "[rehearsal]")


def kind_of(source: Source, rehearsal: Callable[[], type[Table]]) -> type[Table] | Finding:
    """The model that the file should fit, or what keeps it from being told.

    `rehearsal` gives the model of rehearsal files; it is asked for only if this is one.
    """
    tables = [key for key, value in source.data.items() if _is_table(value)]
    if "record" in tables:
        return _finding(
            source,
            "record-instead-of-procedure",
            "This is the record of work on a pump, not a procedure.",
            "Use `benchcheck verify` for it.",
            "record",
        )
    if tables[:1] == ["rehearsal"]:
        return rehearsal()
    for key in tables:
        if key in _BY_TABLE:
            return _BY_TABLE[key]
    for key in source.data:
        # Told by what it was meant to be; reading it then says how to spell that.
        if like := nearest(key, _BY_TABLE):
            return _BY_TABLE[like]
    found = f"its first table is `{shortened(tables[0])}`" if tables else "it has no table"
    return _finding(
        source,
        "kind-unknown",
        f"The file is no procedure, register or rehearsal: {found}.",
        f"Begin it with format = 1 and one of {listed(_FIRST)}.",
        *tables[:1],
    )


def _is_table(value: object) -> bool:
    return isinstance(value, dict) or (
        isinstance(value, list) and bool(value) and all(isinstance(item, dict) for item in value)
    )


def _finding(source: Source, rule: str, message: str, remedy: str, *path: str) -> Finding:
    return Finding(rule, Severity.ERROR, source.place(path, key=True), message, remedy)
