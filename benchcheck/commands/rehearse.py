"""`benchcheck rehearse`: a procedure without a pump, done with care, with departures or with each fault."""

from __future__ import annotations

import argparse
import os
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from benchcheck.session.state import Job

NAME = "rehearse"
HELP = "run a procedure without a pump, and see what it catches"
PROGRAM = f"benchcheck {NAME}"


def arguments(parser: argparse.ArgumentParser) -> None:
    """Registers what the command takes."""
    parser.add_argument("procedure", type=Path, metavar="PROCEDURE", help="a procedure file")
    parser.add_argument(
        "answers",
        nargs="*",
        metavar="ANSWERS",
        help="file of departures; folder with such files; or id of a procedure, for those kept under it",
    )
    parser.add_argument(
        "--faults", action="store_true", help="make every single fault, and say which steps would see it"
    )
    parser.add_argument("--json", action="store_true", help="for programs")


def run(args: argparse.Namespace) -> int:
    """Prints what came of each departure; without answers, whether the careful technician reaches release."""
    import sys

    from benchcheck.exit_status import ExitStatus
    from benchcheck.report import rehearsals as report
    from benchcheck.saying import print_json, refuse
    from benchcheck.session.state import Job
    from benchcheck.store.disk import StoreFault
    from benchcheck.store.library import (
        NotARehearsal,
        Unreadable,
        load_procedure,
        load_registers,
        load_rehearsal,
    )
    from benchcheck.store.workspace import Workspace

    if args.faults and args.answers:
        return refuse(PROGRAM, "--faults makes its faults itself: name no answers with it.")
    folder = Path(args.workspace) if args.workspace else args.procedure.resolve().parent.parent
    try:
        loaded = load_procedure(args.procedure)
        job = Job(loaded.procedure, load_registers(Workspace(folder)))
        files = [(path, load_rehearsal(path, job)) for word in args.answers for path in _files(word, folder)]
    except Unreadable as fault:
        print(fault, file=sys.stderr)
        return ExitStatus.UNUSABLE
    except (StoreFault, NotARehearsal) as fault:
        return refuse(PROGRAM, str(fault))
    if args.faults:
        return _faults(job, as_json=args.json)
    stages = report.Stages(job)
    rehearsed = [stages.rehearsed(str(path), read) for path, read in files] or [stages.careful()]
    if args.json:
        print_json(report.as_json(loaded.procedure, rehearsed))
    else:
        print(report.as_text(rehearsed), end="")
        print(report.summary(rehearsed), file=sys.stderr)
    return ExitStatus.GOOD if all(each.as_expected for each in rehearsed) else ExitStatus.FINDINGS


def _files(word: str, workspace: Path) -> list[Path]:
    """The file itself, the TOML files below a folder, or those kept under the id of a procedure.

    Raises NotARehearsal, StoreFault.
    """
    from benchcheck.store.disk import fault
    from benchcheck.store.library import NotARehearsal

    path = Path(word)
    if not path.exists() and len(path.parts) == 1:
        kept = workspace / "procedures" / "rehearsals" / word
        path = Path(os.path.relpath(kept)) if kept.is_dir() else path
    if not path.is_dir():
        return [path]
    try:
        found = sorted(each for each in path.rglob("*.toml") if not each.name.startswith("."))
    except OSError as error:
        raise fault(f"The folder {path} cannot be listed", error) from error
    if not found:
        raise NotARehearsal(f"{path} holds no TOML file.")
    return found


def _variants(job: Job) -> tuple[str | None, ...]:
    return job.procedure.procedure.variants or (None,)


def _faults(job: Job, *, as_json: bool) -> int:
    """Every single fault in every variant. Stopped with Ctrl-C, it says what it has so far."""
    import signal
    import sys

    from benchcheck.exit_status import ExitStatus, of_signal
    from benchcheck.report import faults as report
    from benchcheck.saying import print_json
    from benchcheck.session.fault_run import Found, faults_of, run_faults
    from benchcheck.session.fault_walk import NotReleased, walks
    from benchcheck.session.rehearsal import Stage

    found: list[Found] = []
    stopped = False
    try:
        for variant in _variants(job):
            _say_progress(f"{variant or job.procedure.procedure.id}: the careful technician")
            ways = walks(Stage(job, variant))
            all_faults = faults_of(job, ways[0])
            for number, each in enumerate(run_faults(ways, all_faults), 1):
                _say_progress(
                    f"{variant or job.procedure.procedure.id}: {number} of {len(all_faults)} faults"
                )
                found += [each] if each is not None else []
    except NotReleased as fault:
        _say_progress("")
        print(f"{PROGRAM}: {fault}", file=sys.stderr)
        return ExitStatus.FINDINGS
    except KeyboardInterrupt:
        stopped = True
    _say_progress("")
    if as_json:
        shown = report.as_json(job.procedure, found, complete=not stopped)
        print_json(shown)
    else:
        print(report.as_text(job.procedure, found), end="")
    print(("Stopped. So far: " if stopped else "") + report.summary(found), file=sys.stderr)
    if stopped:
        return of_signal(signal.SIGINT)
    wrong = any(each.let_through or each.thin for each in found)
    return ExitStatus.FINDINGS if wrong else ExitStatus.GOOD


def _say_progress(words: str) -> None:
    """On a terminal, in one line that is written over and at last cleared."""
    import sys

    if sys.stderr.isatty():
        print(f"\r\x1b[K{words}", end="", file=sys.stderr, flush=True)
