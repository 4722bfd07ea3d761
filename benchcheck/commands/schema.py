"""`benchcheck schema`: the format of procedures as a JSON Schema, for completion in an editor."""

from __future__ import annotations

import argparse

NAME = "schema"
HELP = "the format of procedures as a JSON Schema, for editors"


def arguments(parser: argparse.ArgumentParser) -> None:
    """The command takes nothing."""


def run(args: argparse.Namespace) -> int:
    from benchcheck.exit_status import ExitStatus
    from benchcheck.procedure.schema import schema
    from benchcheck.saying import print_json

    print_json(schema())
    return ExitStatus.GOOD
