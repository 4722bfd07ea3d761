"""What is left behind when something fails that nobody foresaw: one sentence for the person, a log for us.

The log holds what failed and the places in the program, but none of the values it worked on: a traceback with
local variables would spread names and serial numbers.
"""

from __future__ import annotations

import platform
import tempfile
import traceback
from datetime import UTC, datetime
from pathlib import Path

from platformdirs import user_state_path

import benchcheck

EXIT_STATUS = 70
"""Exit status of an unexpected fault."""


def write_log(error: BaseException, folder: Path | None = None) -> Path | None:
    """Write what failed and where into a new file; its path, or None where no file can be written."""
    now = datetime.now(UTC)
    lines = [
        f"benchcheck {benchcheck.__version__}, Python {platform.python_version()}, {platform.system()}",
        now.isoformat(timespec="seconds"),
        *traceback.format_exception(error),
    ]
    for place in (folder or user_state_path("benchcheck"), Path(tempfile.gettempdir())):
        path = place / f"benchcheck-fault-{now:%Y%m%dT%H%M%S%f}.log"
        try:
            place.mkdir(parents=True, exist_ok=True)
            path.write_text("\n".join(lines) + "\n", encoding="utf-8", errors="backslashreplace")
        except OSError:
            continue
        return path
    return None


def sentence(log: Path | None) -> str:
    """What the person is told."""
    where = f"What failed is written in {log}." if log else "No log could be written."
    return f"Benchcheck stopped because of a fault in the program; all that was confirmed is saved.  {where}"
