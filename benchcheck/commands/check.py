"""`benchcheck check`: what is wrong with procedures and registers, each fault with place and remedy."""

from __future__ import annotations

import argparse
import os
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from benchcheck.procedure.table import Table

NAME = "check"
HELP = "say what is wrong with procedures and registers"


def arguments(parser: argparse.ArgumentParser) -> None:
    """Registers what the command takes."""
    parser.add_argument(
        "paths",
        metavar="PATH",
        nargs="+",
        help="file; or folder: all TOML files below it, or its procedures/",
    )
    parser.add_argument("--json", action="store_true", help="for programs")


def run(args: argparse.Namespace) -> int:
    """Prints the findings. What cannot be read is refused, and the rest checked all the same."""
    import json
    import sys

    from benchcheck.checking.check import check
    from benchcheck.exit_status import ExitStatus
    from benchcheck.procedure.finding import Severity, sort
    from benchcheck.procedure.source import SIZE_LIMIT
    from benchcheck.report import findings as report
    from benchcheck.saying import refuse, takes_colours
    from benchcheck.store.disk import fault

    status = ExitStatus.GOOD
    contents: dict[str, bytes] = {}
    for path in args.paths:
        try:
            files = _files(path)
            if not files:
                status = refuse("benchcheck check", f"{path} holds no TOML file.")
            for file in files:
                with open(file, "rb") as opened:
                    contents[file] = opened.read(SIZE_LIMIT + 1)
        except OSError as error:
            status = refuse("benchcheck check", str(fault(f"{error.filename or path} cannot be read", error)))

    findings = sort([each for file, content in contents.items() for each in check(content, file, _rehearsal)])
    if args.json:
        print(json.dumps(report.as_json(findings, len(contents)), ensure_ascii=False, indent=2))
    else:
        print(report.as_text(findings, contents, coloured=takes_colours(sys.stdout)), end="")
        print(report.summary(findings, len(contents)), file=sys.stderr)
    if status is ExitStatus.GOOD and any(each.severity is not Severity.ADVICE for each in findings):
        return ExitStatus.FINDINGS
    return status


def _rehearsal() -> type[Table]:
    from benchcheck.session.rehearsal import RehearsalFile

    return RehearsalFile


def _files(path: str) -> list[str]:
    """The file itself, or the TOML files below a folder, by name; of a workspace only those in `procedures/`.

    Raises OSError.
    """
    if not os.path.isdir(path):
        return [path]
    procedures = os.path.join(path, "procedures")
    found: list[str] = []
    for folder, folders, files in os.walk(
        procedures if os.path.isdir(procedures) else path, onerror=_give_up
    ):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        found += [
            os.path.join(folder, name)
            for name in sorted(files)
            if name.endswith(".toml") and not name.startswith(".")
        ]
    return found


def _give_up(error: OSError) -> None:
    raise error
