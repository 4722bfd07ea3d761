"""What a check has to say on a file: the rule, how bad it is, where, what, and what mends it.

Findings are values: gathered, sorted by place and then shown, never raised. Nothing here reads a file,
knows a rule or decides what is wrong.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Severity(StrEnum):
    """How bad a finding is: an error or a warning makes a check fail, advice does not."""

    ERROR = "error"
    WARNING = "warning"
    ADVICE = "advice"


@dataclass(frozen=True, order=True, slots=True)
class Place:
    """A spot in a file: line and column count from 1, columns in characters as an editor counts them."""

    file: str
    line: int
    column: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing a check has to say.

    Parameters:
        rule: its name in words joined by hyphens, named for the fault; stable, it is the finding's code.
        message: one or two sentences: what was found, what was expected.
        remedy: what to write or do, as a sentence.
    """

    rule: str
    severity: Severity
    place: Place
    message: str
    remedy: str

    @property
    def sort_key(self) -> tuple[Place, int, str, str]:
        """Findings are shown in the order of their places; at one place the gravest first, then by rule."""
        return self.place, list(Severity).index(self.severity), self.rule, self.message

    def as_text(self) -> str:
        """The finding as a person reads it: place, severity, rule, message, and the remedy below."""
        return f"{self.place}: {self.severity} {self.rule}: {self.message}\n    {self.remedy}"

    def as_json(self) -> dict[str, str | int]:
        """The finding as one object of the `findings` array that `check --json` prints."""
        return {
            "rule": self.rule,
            "severity": self.severity.value,
            "file": self.place.file,
            "line": self.place.line,
            "column": self.place.column,
            "message": self.message,
            "remedy": self.remedy,
        }


def sort(findings: list[Finding]) -> list[Finding]:
    """The findings in the order in which they are shown, each said once."""
    return sorted(dict.fromkeys(findings), key=lambda finding: finding.sort_key)
