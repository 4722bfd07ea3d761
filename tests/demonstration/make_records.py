"""Make the demonstration's records anew, exactly as they were.

    python -m tests.demonstration.make_records

writes `sessions/` of the repository, through the program's own engine and store: needed when a shipped
procedure, a register or the form of a record has changed. A test makes each again and compares the bytes.
"""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from unittest.mock import patch

from benchcheck.store.workspace import Workspace
from tests.demonstration.stories import STORIES

REPOSITORY = Path(__file__).parents[2]
SESSIONS = REPOSITORY / "sessions"
HOST = "bench-2"
"""The machine that the records name."""


@contextmanager
def workshop() -> Iterator[Workspace]:
    """An empty workspace with the shipped procedures, on the demonstration's machine."""
    with tempfile.TemporaryDirectory() as name, patch("platform.node", return_value=HOST):
        folder = Path(name)
        shutil.copytree(REPOSITORY / "procedures", folder / "procedures")
        yield Workspace(folder)


def main() -> None:
    with workshop() as workspace:
        for serial, work in STORIES.items():
            work(workspace)
            print(serial, work.__doc__ or "clean", flush=True)
        made = workspace.sessions
        for old in (
            *SESSIONS.glob("*.toml"),
            *SESSIONS.glob("*.torn-*"),
            *SESSIONS.glob("procedures/*.toml"),
        ):
            old.unlink()
        shutil.copytree(
            made, SESSIONS, dirs_exist_ok=True, ignore=shutil.ignore_patterns("*.lock", "*.sqlite*", "print")
        )


if __name__ == "__main__":
    main()
