"""`benchcheck trace`: which pumps are touched when an instrument, a lot, a person turns out wrong."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path

    from benchcheck.session.trace.search import Trace
    from benchcheck.session.trace.wanted import Wanted

NAME = "trace"
HELP = "which pumps are touched by an instrument, a lot, a procedure, a person"


def arguments(parser: argparse.ArgumentParser) -> None:
    """Registers what the command takes."""
    one = parser.add_mutually_exclusive_group(required=True)
    one.add_argument(
        "--instrument",
        "--wrench",
        metavar="ID",
        help="all that was tightened with this wrench, or read on this gauge",
    )
    one.add_argument("--lot", metavar="LOT", help="all that came from this lot, what was taken out too")
    one.add_argument("--procedure", metavar="ID[-REV]", help="all sessions by it, or by one revision of it")
    one.add_argument("--person", metavar="NAME", help="all that a person did, and was entitled to then")
    one.add_argument("--serial", metavar="SERIAL", help="all sessions on one pump")
    parser.add_argument("--step", metavar="STEP", help="of a procedure: only what was done in this step")
    parser.add_argument("--since", metavar="DATE", help="first day of use, such as 2026-11-24")
    parser.add_argument("--until", metavar="DATE", help="last day of use")
    parser.add_argument(
        "--error",
        metavar="SHARE",
        help='of an instrument: "+9 %%" or "+2 psi" if it showed so much more than there was; every reading '
        "is worked out anew",
    )
    parser.add_argument(
        "--without-index", action="store_true", help="look into every record, whatever the index says"
    )
    parser.add_argument("--json", action="store_true", help="for programs")
    parser.add_argument("-o", dest="output", metavar="FILE.csv", help="write the list as a table, too")
    parser.add_argument("--html", metavar="FILE", help="write it as a page, too")


def run(args: argparse.Namespace) -> int:
    """Prints what was found; a damaged record is searched as far as it is good, and gives status 3."""
    from datetime import datetime
    from pathlib import Path

    from benchcheck.mechanics.units import QuantityError
    from benchcheck.report import html_page, plain_text, traces, traces_as_data
    from benchcheck.saying import print_json, refuse
    from benchcheck.store.disk import StoreFault
    from benchcheck.store.library import Unreadable
    from benchcheck.store.results import write_result

    program = f"benchcheck {NAME}"
    try:
        wanted = _wanted(args)
        found = _found(args.workspace, wanted, datetime.now().astimezone(), indexed=not args.without_index)
        if args.output is not None:
            write_result(Path(args.output), traces_as_data.as_csv(found))
        if args.html is not None:
            write_result(Path(args.html), html_page.as_html([traces.document_of(found)]))
    except (QuantityError, StoreFault) as why:
        return refuse(program, str(why))
    except Unreadable as why:
        return refuse(program, str(why).splitlines()[0])
    if args.json:
        print_json(traces_as_data.as_json(found))
    else:
        print(plain_text.as_text([traces.document_of(found)], plain=args.plain), end="")
    for gap in found.gaps:
        beyond = f"not searched beyond event {gap.beyond}" if gap.beyond else "not searched"
        refuse(program, f"{gap.file}: {beyond}; {gap.why}")
    return _status(found)


def _status(found: Trace) -> int:
    from benchcheck.exit_status import ExitStatus

    if any(gap.damaged for gap in found.gaps):
        return ExitStatus.DAMAGED
    return ExitStatus.UNUSABLE if found.gaps else ExitStatus.GOOD


def _wanted(args: argparse.Namespace) -> Wanted:
    """What was asked for. Raises QuantityError with a sentence to show."""
    from benchcheck.mechanics.units import QuantityError
    from benchcheck.session.trace.wanted import KINDS, Wanted, parse_day, parse_error

    kind = next(each for each in KINDS if getattr(args, each) is not None)
    name = getattr(args, kind).strip()
    if not name:
        raise QuantityError(f"--{kind} names nothing; write which one")
    if args.error is not None and kind != "instrument":
        raise QuantityError("an error is that of an instrument: name it with --instrument")
    if args.step is not None and kind != "procedure":
        raise QuantityError("a step belongs to a procedure: name it with --procedure")
    return Wanted(
        kind,
        name,
        step=(args.step or "").strip(),
        since=parse_day(args.since) if args.since is not None else None,
        until=parse_day(args.until) if args.until is not None else None,
        error=parse_error(args.error) if args.error is not None else None,
    )


def _found(folder: Path | None, wanted: Wanted, now: datetime, *, indexed: bool) -> Trace:
    """Raises StoreFault, Unreadable."""
    from pathlib import Path

    from benchcheck.saying import say_progress
    from benchcheck.store.disk import StoreFault
    from benchcheck.store.index import Index
    from benchcheck.store.library import load_registers
    from benchcheck.store.searching import find
    from benchcheck.store.workspace import Workspace

    workspace = Workspace(folder or Path())
    if not workspace.sessions.is_dir():
        raise StoreFault(
            f"there is no folder {workspace.sessions}; name the workspace before the command: "
            "benchcheck --workspace FOLDER trace ..."
        )
    registers = load_registers(workspace)
    if not indexed:
        return find(workspace, registers, wanted, now, progress=say_progress)
    with Index(workspace) as index:
        return find(workspace, registers, wanted, now, index, say_progress)
