"""All that is to be said of one file, from its bytes: whether it can be read, fits its kind, and makes sense.

Opening files and showing findings is for others.
"""

from __future__ import annotations

from collections.abc import Callable

from benchcheck.checking.kinds import kind_of
from benchcheck.procedure.finding import Finding, sort
from benchcheck.procedure.model import Procedure
from benchcheck.procedure.reading import Read, read_model
from benchcheck.procedure.references import references
from benchcheck.procedure.source import read
from benchcheck.procedure.table import Table


def check(content: bytes, file: str, rehearsal: Callable[[], type[Table]]) -> list[Finding]:
    """The findings on a procedure, a register or a rehearsal, by place.

    Parameters:
        content: the file's bytes, as `procedure.source.read` takes them.
        file: its name as it shall stand in findings.
        rehearsal: gives the model of rehearsal files, which is no part of a procedure; asked for if need be.
    """
    source = read(content, file)
    if isinstance(source, list):
        return source
    kind = kind_of(source, rehearsal)
    if isinstance(kind, Finding):
        return sort([*source.findings, kind])
    if kind is Procedure:
        procedure = read_model(source, Procedure)
        return (
            sort([*procedure.findings, *references(procedure)]) if isinstance(procedure, Read) else procedure
        )
    other = read_model(source, kind)
    return list(other.findings) if isinstance(other, Read) else other
