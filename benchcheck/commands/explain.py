"""`benchcheck explain`: what a rule of the check finds, why that matters, and what to write instead."""

from __future__ import annotations

import argparse

NAME = "explain"
HELP = "what a rule of the check finds, and what to write instead"


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "rules", metavar="RULE", nargs="*", help="name of a rule, as it stands in a finding; none: lists them"
    )
    parser.add_argument("--json", action="store_true", help="for programs")


def run(args: argparse.Namespace) -> int:
    from benchcheck.checking.catalogue import names, rule
    from benchcheck.exit_status import ExitStatus
    from benchcheck.procedure.wording import nearest, shortened
    from benchcheck.report import rules as report
    from benchcheck.saying import print_json, refuse

    for name in args.rules:
        if name not in names():
            like = nearest(name, names())
            hint = (
                f"did you mean {like}?"
                if like
                else "without a name, all are listed; what a file cannot be read for, the manual explains."
            )
            return refuse("benchcheck explain", f"there is no rule {shortened(name)!r}; {hint}")
    told = [(name, rule(name)) for name in args.rules or names()]
    if args.json:
        print_json([report.as_json(*each) for each in told])
    elif args.rules:
        print("\n".join(report.as_text(*each) for each in told), end="")
    else:
        print(report.list_as_text(told), end="")
    return ExitStatus.GOOD
