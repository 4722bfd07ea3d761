"""How commands speak beside their results: a refusal in one sentence, and whether colours help."""

from __future__ import annotations

import os
import sys
from typing import TextIO

from benchcheck.exit_status import ExitStatus
from benchcheck.procedure.characters import clean


def refuse(program: str, sentence: str) -> ExitStatus:
    """Say on standard error why something cannot be done; returns the status for that.

    `program` is what was called: `benchcheck check`.
    """
    print(f"{program}: {clean(sentence)}", file=sys.stderr)
    return ExitStatus.UNUSABLE


def takes_colours(stream: TextIO) -> bool:
    """Whether colours help there: on a terminal that knows them, unless the person wants none."""
    return stream.isatty() and "NO_COLOR" not in os.environ and os.environ.get("TERM", "dumb") != "dumb"
