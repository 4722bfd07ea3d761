"""`benchcheck schema`: the format of procedures as a JSON Schema, for completion in an editor."""

from __future__ import annotations

import argparse

NAME = "schema"
HELP = "the format of procedures as a JSON Schema, for editors"


def arguments(parser: argparse.ArgumentParser) -> None:
    """The command takes nothing."""


def run(args: argparse.Namespace) -> int:
    import json

    from benchcheck.exit_status import ExitStatus
    from benchcheck.procedure.schema import schema

    print(json.dumps(schema(), ensure_ascii=False, indent=2))
    return ExitStatus.GOOD
