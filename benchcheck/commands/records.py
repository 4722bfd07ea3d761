"""`benchcheck records`: which records there are, what stands out first, and why."""

from __future__ import annotations

import argparse

NAME = "records"
HELP = "list records: what stands out first, and why"


def arguments(parser: argparse.ArgumentParser) -> None:
    """Registers what the command takes."""
    parser.add_argument(
        "--find",
        metavar="TEXT",
        default="",
        help="only those with these words in them: serial, person, wrench, lot, revision, day, state ...",
    )
    parser.add_argument("--state", metavar="STATE", default="", help='only those that are so: "released"')
    parser.add_argument("--latest", action="store_true", help="the latest first instead")
    parser.add_argument("--most", metavar="NUMBER", type=int, help="not more than so many")
    parser.add_argument("--json", action="store_true", help="for programs")


def run(args: argparse.Namespace) -> int:
    """Brings the index up to date and prints the list; status 3 if a listed record is damaged or gone."""
    from datetime import date
    from pathlib import Path

    from benchcheck.exit_status import ExitStatus
    from benchcheck.report import plain_text, record_list
    from benchcheck.saying import print_json, refuse, say_progress
    from benchcheck.store.disk import StoreFault
    from benchcheck.store.index import Index
    from benchcheck.store.index_queries import Query
    from benchcheck.store.index_rows import DAMAGED, MISSING
    from benchcheck.store.workspace import Workspace

    program = f"benchcheck {NAME}"
    workspace = Workspace(args.workspace or Path())
    if not workspace.sessions.is_dir():
        return refuse(
            program,
            f"there is no folder {workspace.sessions}; name the workspace before the command: "
            f"benchcheck --workspace FOLDER {NAME}",
        )
    if args.most is not None and args.most < 1:
        return refuse(program, "--most wants a number of records, such as 20.")
    today = date.today()
    try:
        with Index(workspace) as index:
            index.refresh(say_progress)
            states = index.states()
            known = dict.fromkeys((*_known_states(), *states))
            if args.state and args.state not in known:
                return refuse(program, f"no record is {args.state!r}; it is one of: {', '.join(known)}.")
            records = index.listed(Query(args.find, args.state, args.latest, args.most), today)
    except StoreFault as fault:
        return refuse(program, str(fault))
    if args.json:
        print_json(record_list.as_json(records, states, today))
    else:
        asked = " and ".join(
            each
            for each in (f'"{args.find}"' * bool(args.find), f"state {args.state}" * bool(args.state))
            if each
        )
        document = record_list.document_of(records, states, asked, today)
        print(plain_text.as_text([document], plain=args.plain), end="")
    broken = any(each.state in (DAMAGED, MISSING) for each in records)
    return ExitStatus.DAMAGED if broken else ExitStatus.GOOD


def _known_states() -> tuple[str, ...]:
    from benchcheck.session.closing import WITHOUT_RELEASE
    from benchcheck.session.commands import JUDGEMENTS
    from benchcheck.session.verification import RELEASED
    from benchcheck.store.index_rows import DAMAGED, MISSING, UNREADABLE

    return ("open", RELEASED, *WITHOUT_RELEASE, *JUDGEMENTS, DAMAGED, MISSING, UNREADABLE)
