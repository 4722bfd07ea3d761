"""All that is to be said of one file: whether it can be read, fits its kind, and makes sense.

Opening files and showing findings is for others.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import Any

from benchcheck.checking import catalogue
from benchcheck.checking.catalogue import Checked
from benchcheck.checking.kinds import kind_of
from benchcheck.checking.people import names_alike
from benchcheck.checking.subject import Subject
from benchcheck.mechanics.gauge import Gauge
from benchcheck.mechanics.wrench import Wrench
from benchcheck.procedure.finding import Finding, Severity, sort
from benchcheck.procedure.model import Procedure
from benchcheck.procedure.reading import Read, read_model
from benchcheck.procedure.references import references
from benchcheck.procedure.registers import InstrumentRegister, PeopleRegister
from benchcheck.procedure.source import read
from benchcheck.procedure.table import Table


@dataclass(frozen=True)
class Workshop:
    """What a procedure is compared with: the instruments of the shop, and its other procedures."""

    wrenches: tuple[Wrench, ...] = ()
    gauges: tuple[Gauge, ...] = ()
    others: tuple[Read[Procedure], ...] = field(default=())


def workshop_among(files: Iterable[Read[Any]]) -> Workshop:
    """The workshop that the instrument registers and procedures among some files make."""
    wrenches: list[Wrench] = []
    gauges: list[Gauge] = []
    others: list[Read[Procedure]] = []
    for each in files:
        if isinstance(each.model, InstrumentRegister):
            wrenches += each.model.wrenches()
            gauges += each.model.gauges()
        elif isinstance(each.model, Procedure):
            others.append(each)
    return Workshop(tuple(wrenches), tuple(gauges), tuple(others))


def check(
    content: bytes, file: str, rehearsal: Callable[[], type[Table]], workshop: Workshop | None = None
) -> Checked:
    """What there is to say on a procedure, a register or a rehearsal.

    Parameters:
        content: the file's bytes, as `procedure.source.read` takes them.
        file: its name as it shall stand in findings.
        rehearsal: gives the model of rehearsal files, which is no part of a procedure; asked for if need be.
        workshop: what a procedure is compared with; nothing if left out.
    """
    return check_read(read_any(content, file, rehearsal), workshop)


def read_any(content: bytes, file: str, rehearsal: Callable[[], type[Table]]) -> Read[Any] | list[Finding]:
    """A file in the model of its kind, or what keeps it from being read."""
    source = read(content, file)
    if isinstance(source, list):
        return source
    kind = kind_of(source, rehearsal)
    if isinstance(kind, Finding):
        return sort([*source.findings, kind])
    return read_model(source, kind)


def read_beside(content: bytes, file: str) -> Read[Any] | None:
    """A file of the workshop in its model; None for what no procedure is compared with, or cannot be read."""
    source = read(content, file)
    if isinstance(source, list):
        return None
    kind = kind_of(source, lambda: Table)
    if kind is not Procedure and kind is not InstrumentRegister:
        return None
    beside = read_model(source, kind)
    return None if isinstance(beside, list) else beside


def check_read(file: Read[Any] | list[Finding], workshop: Workshop | None = None) -> Checked:
    """What there is to say on a file that was read, or that could not be read.

    The rules look at a procedure only if all that it names is there.
    """
    if isinstance(file, list):
        return Checked(tuple(file))
    if isinstance(file.model, PeopleRegister):
        return Checked(tuple(sort([*file.findings, *names_alike(file)])))
    if not isinstance(file.model, Procedure):
        return Checked(file.findings)
    findings = [*file.findings, *references(file)]
    if any(finding.severity is Severity.ERROR for finding in findings):
        return Checked(tuple(sort(findings)))
    workshop = workshop or Workshop()
    checked = catalogue.check(Subject(file, workshop.wrenches, workshop.gauges, workshop.others))
    return Checked(tuple(sort([*findings, *checked.findings])), checked.silenced)
