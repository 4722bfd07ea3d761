"""`benchcheck oring`: an O-ring's dimensions, what it is taken for, how it fits, what its rubber bears."""

from __future__ import annotations

import argparse

NAME = "oring"
HELP = "an O-ring's size, its look-alikes, its fit in a gland, its rubber and shelf life"


def arguments(parser: argparse.ArgumentParser) -> None:
    """Registers what the command takes."""
    parser.add_argument("size", metavar="SIZE", help="AS568 dash number: -151, 151 or AS568-151")
    parser.add_argument(
        "--groove",
        metavar="GLAND",
        help='gland to fit it in: "bore 2.250, depth 0.081", "shaft 0.625, depth 0.050", '
        '"groove OD 81.28 mm, depth 1.96 mm", "3/4-16 boss"; may add "width 0.140"',
    )
    parser.add_argument("--rubber", metavar="RUBBER", help="NBR, FKM, EPDM, ...")
    parser.add_argument(
        "--fluid", metavar="FLUID", action="append", default=[], help="fluid or lubricant; may be given again"
    )
    parser.add_argument("--cured", metavar="DATE", help="cure date: 2011-08-14, 2011-08 or 3Q2011")
    parser.add_argument("--rule", metavar="RULE", help='shelf life by "SAE ARP5316" or "ISO 2230"')
    parser.add_argument("--json", action="store_true", help="for programs")


def run(args: argparse.Namespace) -> int:
    """Prints the answer; 0, or 2 with one sentence on standard error."""
    from benchcheck.mechanics.gland import GlandError
    from benchcheck.mechanics.o_ring import UnknownSize
    from benchcheck.mechanics.rubber import RubberError
    from benchcheck.report import o_rings
    from benchcheck.saying import print_json, refuse

    try:
        said = o_rings.answer(
            args.size,
            gland=args.groove,
            material=args.rubber,
            fluids=args.fluid,
            cured=args.cured,
            rule=args.rule,
        )
    except (UnknownSize, GlandError, RubberError) as refusal:
        return refuse("benchcheck oring", str(refusal))
    if args.json:
        print_json(o_rings.as_json(said))
    else:
        print(o_rings.as_text(said), end="")
    return 0
