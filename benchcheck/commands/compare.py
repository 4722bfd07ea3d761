"""`benchcheck compare`: what changed between two revisions of a procedure."""

from __future__ import annotations

import argparse

NAME = "compare"
HELP = "what changed between two revisions of a procedure, and what an open session could keep"


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("old", metavar="OLD", help="the earlier revision")
    parser.add_argument("new", metavar="NEW", help="the later one")
    parser.add_argument("--json", action="store_true", help="for programs")


def run(args: argparse.Namespace) -> int:
    """Prints the differences; what is wrong with the revisions themselves makes it a finding."""
    import sys
    from pathlib import Path

    from benchcheck.assembly.comparison import compare
    from benchcheck.exit_status import ExitStatus
    from benchcheck.report import comparisons as report
    from benchcheck.saying import print_json, refuse
    from benchcheck.store.disk import StoreFault
    from benchcheck.store.library import Unreadable, load_procedure

    try:
        old, new = (load_procedure(Path(path)).procedure for path in (args.old, args.new))
    except Unreadable as fault:
        print(fault, file=sys.stderr)
        return ExitStatus.UNUSABLE
    except StoreFault as fault:
        return refuse("benchcheck compare", str(fault))
    found = compare(old, new)
    if args.json:
        print_json(report.as_json(found))
    else:
        print(report.as_text(found), end="")
    return ExitStatus.FINDINGS if found.remark else ExitStatus.GOOD
