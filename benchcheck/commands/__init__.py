"""The commands, one module each, found by being here.

A module has its `NAME`, which is the module's own, its `HELP` in one line, `arguments(parser)`, and
`run(args)`, which returns an exit status. It is imported only when its command is called, and imports what it
needs only in `run`: so `--help` reads the help of each out of its file.
"""

from __future__ import annotations

import os

_FOLDER = os.path.dirname(__file__)
_HELP = "HELP = "


def names() -> list[str]:
    """The names of all commands, in order."""
    files = os.listdir(_FOLDER)
    return sorted(name[: -len(".py")] for name in files if name.endswith(".py") and not name.startswith("_"))


def help_of(name: str) -> str:
    """What a command is for, as its module says."""
    with open(os.path.join(_FOLDER, f"{name}.py"), encoding="utf-8") as module:
        line = next((line for line in module if line.startswith(_HELP)), "")
    return line.removeprefix(_HELP).strip().strip("\"'")
