"""The index of a workspace's records: taken in when they are new or changed, and asked for what is wanted.

Only ever a view. It is brought up to date in two goes, each over all cores when there is much to do: a glance
at every new or changed record, with every seal checked, after which all are listed; and their events, read
for what stands out. Each go can be watched and stopped, and is gone on with the next time. What is wrong with
the file of the index never reaches a person: it is thrown away and made again, and where none can be written
the index is kept in memory.

    index = Index(workspace)
    index.refresh(progress, stop)
    index.listed(Query("4471"), today)
    index.mentioning("instrument", "TW-04")  # file names of the records

An index belongs to the thread that made it; several on one workspace may be open at once. The tables are told
in `index_file`.
"""

from __future__ import annotations

import contextlib
import sqlite3
from collections.abc import Callable, Iterator
from datetime import date
from types import TracebackType
from typing import TypeVar

from benchcheck.store import index_file, index_queries
from benchcheck.store.index_queries import Listed, Query
from benchcheck.store.index_rows import MentionKind
from benchcheck.store.index_taking import Progress, Refreshed, Taking, never, nothing_to_say
from benchcheck.store.workspace import Workspace

T = TypeVar("T")


class Index:
    """The index of one workspace."""

    def __init__(self, workspace: Workspace) -> None:
        self._workspace = workspace
        self._path = workspace.sessions / index_file.NAME
        self._tables = self._opened()

    def refresh(
        self,
        progress: Callable[[Progress], None] = nothing_to_say,
        stop: Callable[[], bool] = never,
        *,
        events: bool = True,
    ) -> Refreshed:
        """Take in what is new or changed and take out what is gone; what was done before is not done again.

        Parameters: told how far it is, from this thread; asked between pieces whether to stop; whether to
        read events too, or only glance.

        Raises StoreFault where the folder of records cannot be listed.
        """
        return self._asked(
            lambda tables: Taking(tables, self._workspace, progress, stop).run(events=events), again=False
        )

    def listed(self, query: Query, today: date) -> list[Listed]:
        """The records that are wanted, with what stands out in each on that day."""
        return self._asked(lambda tables: index_queries.listed(tables, query, today))

    def place(self, text: str, file: str, today: date) -> int | None:
        """Where a record stands among those with these words, what stands out first; None: not there."""
        return self._asked(lambda tables: index_queries.place(tables, text, file, today))

    def count(self, query: Query) -> int:
        """How many records are wanted, whatever the page."""
        return self._asked(lambda tables: index_queries.count(tables, query))

    def states(self) -> dict[str, int]:
        """How many records there are in each state."""
        return self._asked(index_queries.states)

    def unread(self) -> int:
        """How many records were only glanced at yet."""
        return self._asked(index_queries.unread)

    def mentioning(self, kind: MentionKind, name: str) -> list[str]:
        """File names of the records that name it, the latest first; uses that were voided count too.

        A procedure is named by its id, or by id and revision: "xmpl-hc40-C".
        """
        return self._asked(lambda tables: index_queries.mentioning(tables, kind, name))

    def names(self, kind: MentionKind) -> list[str]:
        """Every name of a kind that stands in a record."""
        return self._asked(lambda tables: index_queries.names(tables, kind))

    @contextlib.contextmanager
    def one_moment(self) -> Iterator[None]:
        """What is asked inside is answered by the tables as they stand at one moment."""
        tables = self._tables
        with contextlib.suppress(sqlite3.Error):  # which the first question will meet, too
            tables.execute("BEGIN")
        try:
            yield
        finally:
            with contextlib.suppress(sqlite3.Error):  # they may have been made again meanwhile
                tables.rollback()

    def close(self) -> None:
        with contextlib.suppress(sqlite3.Error):
            self._tables.close()

    def __enter__(self) -> Index:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        traceback: TracebackType | None,
    ) -> None:
        self.close()

    def _opened(self) -> sqlite3.Connection:
        try:
            return index_file.opened(self._path)
        except (sqlite3.Error, OSError):
            return index_file.in_memory()

    def _asked(self, work: Callable[[sqlite3.Connection], T], *, again: bool = True) -> T:
        """What the tables say; where they fail, what new ones say, on the disk or at last in memory."""
        for renewed in (self._made_again, index_file.in_memory):
            try:
                return work(self._tables)
            except sqlite3.Error as error:
                self.close()
                self._tables = index_file.in_memory() if index_file.is_busy(error) else renewed()
                if again:
                    Taking(self._tables, self._workspace).run()
        return work(self._tables)

    def _made_again(self) -> sqlite3.Connection:
        with contextlib.suppress(OSError):
            index_file.thrown_away(self._path)
        return self._opened()
