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
    import json
    import sys
    from pathlib import Path

    from benchcheck.assembly.comparison import compare
    from benchcheck.exit_status import ExitStatus
    from benchcheck.saying import refuse
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
        print(
            json.dumps(
                {
                    "old": {"procedure": old.procedure.id, "revision": old.procedure.revision},
                    "new": {"procedure": new.procedure.id, "revision": new.procedure.revision},
                    "differences": [{"what": each.what, "change": each.change} for each in found.differences],
                    "remark": found.remark,
                    "kept": {variant or "": list(acts) for variant, acts in found.kept.items()},
                    "asked_again": {variant or "": list(acts) for variant, acts in found.asked_again.items()},
                },
                ensure_ascii=False,
                indent=2,
            )
        )
    else:
        print(f"{new.procedure.id}: revision {old.procedure.revision} -> {new.procedure.revision}")
        for each in found.differences:
            print(f"  {each.as_text()}")
        if not found.differences:
            print("  nothing changed")
        for variant, acts in found.asked_again.items():
            name = f" ({variant})" if variant else ""
            print(f"an open session{name} could keep {len(found.kept[variant])} confirmations; asked again:")
            print(f"  {', '.join(acts) or 'none'}")
        if found.remark:
            print(found.remark)
    return ExitStatus.FINDINGS if found.remark else ExitStatus.GOOD
