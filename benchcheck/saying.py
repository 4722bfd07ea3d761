"""How commands speak beside their results: a refusal in one sentence, and whether colours help."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING, TextIO

from benchcheck.exit_status import ExitStatus
from benchcheck.procedure.characters import clean, steering_characters

if TYPE_CHECKING:
    from benchcheck.store.index_taking import Progress


def refuse(program: str, sentence: str) -> ExitStatus:
    """Say on standard error why something cannot be done; returns the status for that.

    `program` is what was called: `benchcheck check`.
    """
    print(f"{program}: {clean(sentence)}", file=sys.stderr)
    return ExitStatus.UNUSABLE


def print_json(value: object) -> None:
    """A result for other programs; what would steer a terminal stands in it as an escape of JSON."""
    import json

    text = json.dumps(value, ensure_ascii=False, indent=2)
    for offset in reversed(steering_characters(text)):
        text = f"{text[:offset]}{json.dumps(text[offset])[1:-1]}{text[offset + 1 :]}"
    print(text)


def say_progress(progress: Progress) -> None:
    """How far it is, on standard error, and only to a person who waits there."""
    if sys.stderr.isatty():
        end = "\r\x1b[K" if progress.done >= progress.of else ""
        print(
            f"\r{progress.what}: {progress.done} of {progress.of} {end}", end="", file=sys.stderr, flush=True
        )


def takes_colours(stream: TextIO) -> bool:
    """Whether colours help there: on a terminal that knows them, unless the person wants none."""
    return stream.isatty() and "NO_COLOR" not in os.environ and os.environ.get("TERM", "dumb") != "dumb"
