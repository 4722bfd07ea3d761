"""`benchcheck check`: what is wrong with procedures and registers, each fault with place and remedy."""

from __future__ import annotations

import argparse
import contextlib
import os
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from benchcheck.checking.check import Workshop
    from benchcheck.procedure.finding import Finding
    from benchcheck.procedure.reading import Read
    from benchcheck.procedure.table import Table

_OBJECTS_BETWEEN_LOOKS = 200_000

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
    import gc
    import sys

    # What is read is kept to the end, and there is little else: looking for cycles in it only takes time.
    gc.set_threshold(_OBJECTS_BETWEEN_LOOKS)

    from benchcheck.checking.check import check_read, read_any
    from benchcheck.exit_status import ExitStatus
    from benchcheck.procedure.finding import Severity, sort
    from benchcheck.procedure.source import SIZE_LIMIT
    from benchcheck.report import findings as report
    from benchcheck.saying import print_json, refuse, takes_colours
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

    reads = {file: read_any(content, file, _rehearsal) for file, content in contents.items()}
    workshops = _Workshops(args.workspace, reads)
    checked = [check_read(each, workshops.of(file)) for file, each in reads.items()]
    findings = sort([finding for each in checked for finding in each.findings])
    silenced = sorted(
        ((silenced.finding, silenced.reason) for each in checked for silenced in each.silenced),
        key=lambda pair: pair[0].sort_key,
    )
    if args.json:
        print_json(report.as_json(findings, len(reads), silenced))
    else:
        print(report.as_text(findings, contents, coloured=takes_colours(sys.stdout)), end="")
        print(report.silenced_as_text(silenced), end="")
        print(report.summary(findings, len(reads), len(silenced)), file=sys.stderr)
    if status is ExitStatus.GOOD and any(each.severity is not Severity.ADVICE for each in findings):
        return ExitStatus.FINDINGS
    return status


class _Workshops:
    """For each procedure, the instruments and the other procedures of the workspace that it lies in."""

    def __init__(self, workspace: Path | None, reads: Mapping[str, Read[Any] | list[Finding]]) -> None:
        self._told = None if workspace is None else os.path.join(workspace, "procedures")
        self._reads: dict[str, Read[Any]] = {
            os.path.realpath(file): each for file, each in reads.items() if not isinstance(each, list)
        }
        self._given = set(self._reads)
        self._folders: dict[str, set[str]] = {}

    def of(self, file: str) -> Workshop:
        from benchcheck.checking.check import Workshop, workshop_among
        from benchcheck.procedure.model import Procedure

        own = os.path.realpath(file)
        if own not in self._reads or not isinstance(self._reads[own].model, Procedure):
            return Workshop()
        inside = self._files_in(self._told or os.path.dirname(own))
        return workshop_among(
            each
            for path, each in self._reads.items()
            if path != own and (path in inside or (path in self._given and isinstance(each.model, Procedure)))
        )

    def _files_in(self, folder: str) -> set[str]:
        """What a procedure is compared with in a folder, each read by now; none if it cannot be listed."""
        from benchcheck.checking.check import read_beside
        from benchcheck.procedure.source import SIZE_LIMIT

        if folder not in self._folders:
            paths: list[str] = []
            with contextlib.suppress(OSError):
                paths = [os.path.realpath(os.path.join(folder, name)) for name in sorted(os.listdir(folder))]
            for path in paths:
                if path not in self._reads and path.endswith(".toml") and os.path.isfile(path):
                    with contextlib.suppress(OSError), open(path, "rb") as opened:
                        each = read_beside(opened.read(SIZE_LIMIT + 1), path)
                        if each is not None:
                            self._reads[path] = each
            self._folders[folder] = self._reads.keys() & set(paths)
        return self._folders[folder]


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
