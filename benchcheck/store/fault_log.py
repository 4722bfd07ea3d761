"""Where a fault of the program is written down, so that its user need not be shown how the program works.

The log stands in the user's own folder for such things and not in the workspace: a workspace may be the very
thing that cannot be written. Values of variables are left out: they may be names and serial numbers.
"""

from __future__ import annotations

import os
import platform
import sys
import traceback
from datetime import datetime
from pathlib import Path

from benchcheck import __version__

_LONGEST = 1_000_000
"""When the log is longer [bytes], it is put aside, and the one put aside before it is dropped."""


def log_path() -> Path:
    """The log's place: `$XDG_STATE_HOME/benchcheck/log/faults.txt`, or below `~/.local/state`."""
    state = os.environ.get("XDG_STATE_HOME", "")
    # Relative paths in that variable have to be ignored, says the XDG base directory specification.
    folder = Path(state) if os.path.isabs(state) else Path.home() / ".local" / "state"
    return folder / "benchcheck" / "log" / "faults.txt"


def write_down(error: BaseException) -> Path:
    """Add a fault to the log; returns the log's place.

    Raises OSError if it cannot be written, RuntimeError if the user has no folder.
    """
    path = log_path()
    path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    if path.exists() and path.stat().st_size > _LONGEST:
        path.replace(path.with_name("faults-before.txt"))
    words = " ".join(map(ascii, sys.argv[1:]))
    head = f"{datetime.now().astimezone().isoformat(timespec='seconds')} benchcheck {__version__}, "
    head += f"Python {platform.python_version()}, {platform.platform()}, called with: {words or 'nothing'}"
    text = "".join([head, "\n", *traceback.format_exception(error), "\n"])
    with path.open("a", encoding="utf-8", errors="backslashreplace") as log:
        log.write(text)
    return path
