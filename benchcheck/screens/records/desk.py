"""What the pages of the desk act on: the workspace, a clock, and what was found so far."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime
from pathlib import Path

from benchcheck.report.step_times import Times, step_times
from benchcheck.screens.bench.work import Clock
from benchcheck.screens.records.one_session import OneSession, look_at
from benchcheck.session.prompt import Outcome
from benchcheck.session.record import NewerFormat
from benchcheck.session.remarks import Remark
from benchcheck.session.state import Registers
from benchcheck.store import judging
from benchcheck.store.disk import StoreFault
from benchcheck.store.index import Index
from benchcheck.store.workspace import Workspace

MOST_OTHERS = 12
"""So many other records make the usual times: enough for a median, and read while one waits."""


class Desk:
    """A reviewer's place in a workspace."""

    def __init__(self, workspace: Workspace, registers: Registers, clock: Clock) -> None:
        self.workspace = workspace
        self.registers = registers
        self.clock = clock
        self.index = Index(workspace)
        """Of the records, as far as they are taken in."""
        self.reviewer = ""
        """Who judged last: offered again, and never taken for granted."""
        self.signed: list[str] = []
        """What came of the signature under the last judgement, in a sentence."""

    @property
    def now(self) -> datetime:
        return self.clock()

    @property
    def today(self) -> date:
        return self.now.date()

    def look_at(self, path: Path, known: tuple[Remark, ...] = ()) -> OneSession:
        """Raises StoreFault, NewerFormat."""
        return look_at(path, self.registers, self.today, known)

    def judge(
        self, path: Path, outcome: str, name: str, reason: str, limit: str = "", expires: str = ""
    ) -> Outcome | None:
        """Raises what `store.judging` raises."""
        self.signed = []
        return judging.judge(
            self.workspace,
            self.registers,
            path,
            outcome,
            name,
            reason,
            self.now,
            limit=limit,
            expires=expires,
            tell=self.signed.append,
        )

    def decide(
        self,
        path: Path,
        deviation: int,
        disposition: str,
        name: str,
        reason: str,
        limit: str = "",
        expires: str = "",
    ) -> Outcome | None:
        """Raises what `store.judging` raises."""
        self.signed = []
        return judging.decide(
            self.workspace,
            self.registers,
            path,
            deviation,
            disposition,
            name,
            reason,
            self.now,
            limit=limit,
            expires=expires,
            tell=self.signed.append,
        )

    def times_of_others(self, session: OneSession) -> Sequence[Times]:
        """The times of the latest other sessions by the same procedure; what cannot be read says none."""
        header = session.recorded.record.header
        found: list[Times] = []
        if header is None:
            return found
        for name in self.index.mentioning("procedure", f"{header.procedure}-{header.revision}"):
            if name == session.path.name or len(found) == MOST_OTHERS:
                continue
            try:
                other = self.workspace.read_record(self.workspace.sessions / name)
            except (StoreFault, NewerFormat):
                continue
            if other.header is not None and other.header.procedure_sha256 == header.procedure_sha256:
                found.append(step_times(other.events))
        return found
