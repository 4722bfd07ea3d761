"""`benchcheck check`: what is wrong with procedures and registers, each fault with place and remedy."""

from __future__ import annotations

import argparse
import os
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from benchcheck.checking.check import Workshop
    from benchcheck.procedure.finding import Finding
    from benchcheck.procedure.model import Procedure
    from benchcheck.procedure.reading import Read
    from benchcheck.procedure.registers import InstrumentRegister
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

    from benchcheck.checking.check import check_read, read_any
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

    reads = {file: read_any(content, file, _rehearsal) for file, content in contents.items()}
    workshops = _Workshops(args.workspace, reads)
    checked = [check_read(each, workshops.of(file)) for file, each in reads.items()]
    findings = sort([finding for each in checked for finding in each.findings])
    silenced = sorted(
        ((silenced.finding, silenced.reason) for each in checked for silenced in each.silenced),
        key=lambda pair: pair[0].sort_key,
    )
    if args.json:
        print(json.dumps(report.as_json(findings, len(reads), silenced), ensure_ascii=False, indent=2))
    else:
        print(report.as_text(findings, contents, coloured=takes_colours(sys.stdout)), end="")
        print(report.silenced_as_text(silenced), end="")
        print(report.summary(findings, len(reads), len(silenced)), file=sys.stderr)
    if status is ExitStatus.GOOD and any(each.severity is not Severity.ADVICE for each in findings):
        return ExitStatus.FINDINGS
    return status


class _Workshops:
    """For each procedure, the instruments and the other procedures of the workspace that it lies in."""

    def __init__(self, workspace: Path | None, files: Mapping[str, Read[Any] | list[Finding]]) -> None:
        from pathlib import Path

        from benchcheck.procedure.model import Procedure
        from benchcheck.procedure.reading import Read

        self._told = workspace
        self._given: dict[Path, Read[Procedure]] = {
            Path(name).resolve(): file
            for name, file in files.items()
            if isinstance(file, Read) and isinstance(file.model, Procedure)
        }
        self._known: dict[Path, tuple[InstrumentRegister | None, dict[Path, Read[Procedure]]]] = {}

    def of(self, name: str) -> Workshop | None:
        """None for what is no procedure."""
        from pathlib import Path

        from benchcheck.checking.check import Workshop

        path = Path(name).resolve()
        if path not in self._given:
            return None
        folder = self._told or (path.parent.parent if path.parent.name == "procedures" else path.parent)
        instruments, procedures = self._of_workspace(folder.resolve())
        others = tuple(read for other, read in {**procedures, **self._given}.items() if other != path)
        if instruments is None:
            return Workshop(others=others)
        return Workshop(instruments.wrenches(), instruments.gauge, others)

    def _of_workspace(self, folder: Path) -> tuple[InstrumentRegister | None, dict[Path, Read[Procedure]]]:
        from benchcheck.store.library import readable_instruments, readable_procedures
        from benchcheck.store.workspace import Workspace

        if folder not in self._known:
            workspace = Workspace(folder)
            procedures = {
                path.resolve(): read
                for path, read in readable_procedures(workspace, apart_from=self._given).items()
            }
            self._known[folder] = readable_instruments(workspace), procedures
        return self._known[folder]


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
