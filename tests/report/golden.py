"""Reports kept as files, to be read by people: what comes out has to be the same, byte for byte.

After a change that is meant, `BENCHCHECK_GOLDEN=write` in the environment of the tests writes the files anew;
what changed is then read in the difference before it is kept.
"""

from __future__ import annotations

import os
from pathlib import Path

FOLDER = Path(__file__).parent / "golden"


def same_as_golden(name: str, text: str) -> None:
    """Compare a text with the file of that name."""
    path, found = FOLDER / name, text.encode()
    if os.environ.get("BENCHCHECK_GOLDEN") == "write":
        FOLDER.mkdir(exist_ok=True)
        path.write_bytes(found)
    assert found.decode() == path.read_bytes().decode(), f"{name} is another one now"
