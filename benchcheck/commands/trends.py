"""`benchcheck trends`: what the sessions of a procedure show together, charted, with the rules that fired."""

from __future__ import annotations

import argparse

NAME = "trends"
HELP = "charts of a procedure's readings, what is often redone, where it departs"


def arguments(parser: argparse.ArgumentParser) -> None:
    """Registers what the command takes."""
    parser.add_argument(
        "procedure", metavar="PROCEDURE", help='id of the procedure: all its revisions, or one: "xmpl-hc40-c"'
    )
    parser.add_argument("--group", metavar="GROUP", help="only this fastener group, by its id")
    parser.add_argument("--since", metavar="DATE", help="only sessions with work on or after this day")
    parser.add_argument("--json", action="store_true", help="for programs")
    parser.add_argument("--html", metavar="FILE", help="write it as a page with its charts, too")


def run(args: argparse.Namespace) -> int:
    """Prints the charts; a damaged record counts as far as it is good, is named, and gives status 3."""
    from datetime import datetime
    from pathlib import Path

    from benchcheck.exit_status import ExitStatus
    from benchcheck.mechanics.units import QuantityError
    from benchcheck.report import html_page, plain_text, trends
    from benchcheck.saying import print_json, refuse, say_progress
    from benchcheck.session.trace.wanted import Wanted, parse_day
    from benchcheck.session.trends import trends as gathered
    from benchcheck.store.disk import StoreFault
    from benchcheck.store.index import Index
    from benchcheck.store.library import Unreadable, load_registers
    from benchcheck.store.results import write_result
    from benchcheck.store.searching import find
    from benchcheck.store.workspace import Workspace

    program, now = f"benchcheck {NAME}", datetime.now().astimezone()
    workspace = Workspace(args.workspace or Path())
    try:
        since = parse_day(args.since) if args.since is not None else None
        registers = load_registers(workspace)
        with Index(workspace) as index:
            wanted = Wanted("procedure", args.procedure, since=since)
            found = find(workspace, registers, wanted, now, index, say_progress)
        pasts = [each.past for each in found.touched]
        if not pasts:
            said = f"no record in {workspace.sessions} was made by {args.procedure}."
            return refuse(program, said)
        known = {group for past in pasts for group in past.pump.groups}
        if args.group is not None and args.group not in known:
            return refuse(program, f"there is no group {args.group}; it has {', '.join(sorted(known))}.")
        made = gathered(args.procedure, pasts, registers.wrenches, args.group)
        if args.html is not None:
            page = html_page.as_html([trends.document_of(made, now, found.gaps)])
            write_result(Path(args.html), page)
    except (QuantityError, StoreFault) as why:
        return refuse(program, str(why))
    except Unreadable as why:
        return refuse(program, str(why).splitlines()[0])
    if args.json:
        print_json(trends.as_json(made, now, found.gaps))
    else:
        print(plain_text.as_text([trends.document_of(made, now, found.gaps)], plain=args.plain), end="")
    for gap in found.gaps:
        refuse(program, f"{gap.file}: not read beyond event {gap.beyond}; {gap.why}")
    if any(gap.damaged for gap in found.gaps):
        return ExitStatus.DAMAGED
    return ExitStatus.UNUSABLE if found.gaps else ExitStatus.GOOD
