"""The rules: found by being in the folder, run on a procedure, silenced only by the file itself.

A rule is a module of `checking/rules`. Its name is the module's, with hyphens. It has `SEVERITY`, `WHAT`,
`WHY`, `WRONG` and `RIGHT` (TOML that shows the fault and its mending), and `check(subject)`.
"""

from __future__ import annotations

import pkgutil
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from importlib import import_module
from typing import Protocol, cast

from benchcheck.checking import rules
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity, sort
from benchcheck.procedure.model import Clock, Fasteners, Groove, Part, Silence, Step


class Rule(Protocol):
    """What each module of `checking/rules` offers."""

    SEVERITY: Severity
    WHAT: str
    WHY: str
    WRONG: str
    RIGHT: str

    def check(self, subject: Subject) -> Iterator[Finding]: ...


@cache
def names() -> tuple[str, ...]:
    """The names of all rules."""
    found = (each.name for each in pkgutil.iter_modules(rules.__path__))
    return tuple(sorted(name.replace("_", "-") for name in found))


def rule(name: str) -> Rule:
    """Raises KeyError for a name that no rule has."""
    if name not in names():
        raise KeyError(name)
    return cast(Rule, import_module(f"benchcheck.checking.rules.{name.replace('-', '_')}"))


ON_SILENCES = "silence-without-effect"
"""The rule that is run last: it looks at what the others have found."""


@dataclass(frozen=True)
class Silenced:
    """A finding that the file lets stand, and why."""

    finding: Finding
    reason: str


@dataclass(frozen=True)
class Checked:
    """What there is to say on a file, by place, and what there would be but for its own `[[silence]]`."""

    findings: tuple[Finding, ...] = ()
    silenced: tuple[Silenced, ...] = ()


def check(subject: Subject) -> Checked:
    """What all rules have to say on a procedure."""
    others = [name for name in names() if name != ON_SILENCES]
    subject.found = [finding for name in others for finding in rule(name).check(subject)]
    findings, silenced = [], []
    for finding in sort([*subject.found, *rule(ON_SILENCES).check(subject)]):
        silence = silenced_by(subject, finding)
        if silence is None:
            findings.append(finding)
        else:
            silenced.append(Silenced(finding, silence.reason))
    return Checked(tuple(findings), tuple(silenced))


def silenced_by(subject: Subject, finding: Finding) -> Silence | None:
    """The `[[silence]]` of the file that covers a finding, if one does."""
    return next((each for each in subject.file.silence if covers(subject, each, finding)), None)


def covers(subject: Subject, silence: Silence, finding: Finding) -> bool:
    return silence.rule == finding.rule and (silence.at is None or _is_about(subject, finding, silence.at))


def _is_about(subject: Subject, finding: Finding, thing: str) -> bool:
    """Whether a finding stands inside the table of the named part, groove, group, clock or step."""
    file = subject.file
    named: tuple[Part | Groove | Fasteners | Clock | Step, ...]
    named = (*file.part, *file.groove, *file.fasteners, *file.clock, *file.step)
    for table in named:
        if table.id == thing:
            start = subject.place(table)
            after = [place for place in map(subject.place, named) if place > start]
            if start <= finding.place and (not after or finding.place < min(after)):
                return True
    return False
