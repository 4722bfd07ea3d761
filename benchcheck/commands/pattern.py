"""`benchcheck pattern`: the order in which positions are tightened, drawn, with its rounds."""

from __future__ import annotations

import argparse

NAME = "pattern"
HELP = "the order in which the positions of a circle, a rectangle or any layout are tightened"


def arguments(parser: argparse.ArgumentParser) -> None:
    """Registers what the command takes."""
    layout = parser.add_mutually_exclusive_group(required=True)
    layout.add_argument("--circle", metavar="N", help="positions on a circle, 1 to 200")
    layout.add_argument("--rectangle", metavar="RxC", help="rows and columns: 2x4")
    layout.add_argument(
        "--points", metavar="FILE", help="x and y of each position, one to a line; - for standard input"
    )
    parser.add_argument("--order", metavar="ORDER", help="an order of your own to look at: 1-4-2-5-3-6")
    parser.add_argument("--rounds", metavar="SHARES", help="shares of the target in percent: 30,70,100")
    parser.add_argument("--target", metavar="TORQUE", help='torque of the last round: "16 lbf·ft"')
    parser.add_argument("--groups", metavar="SIZE", help="neighbours tightened together, on a circle")
    parser.add_argument("--interaction", action="store_true", help="estimate what the preloads end as")
    parser.add_argument("--json", action="store_true", help="for programs")


def run(args: argparse.Namespace) -> int:
    """Prints the answer; 0, or 2 with one sentence on standard error."""
    from benchcheck.mechanics.interaction import InteractionError
    from benchcheck.mechanics.pattern import PatternError
    from benchcheck.mechanics.units import QuantityError
    from benchcheck.report import patterns
    from benchcheck.saying import print_json, refuse

    try:
        said = patterns.answer(
            circle=_count(args.circle),
            rectangle=args.rectangle,
            points=_points(args.points) if args.points is not None else None,
            order=args.order,
            rounds=args.rounds,
            target=args.target,
            group_size=_count(args.groups),
            with_interaction=args.interaction,
        )
    except (PatternError, QuantityError, InteractionError) as refusal:
        return refuse("benchcheck pattern", str(refusal))
    except OSError as fault:
        return refuse(
            "benchcheck pattern", f"{args.points} cannot be read: {(fault.strerror or str(fault)).lower()}"
        )
    if args.json:
        print_json(patterns.as_json(said))
    else:
        print(patterns.as_text(said), end="")
    return 0


def _count(text: str | None) -> int | None:
    from benchcheck.mechanics.pattern import MOST_POSITIONS, PatternError

    if text is None:
        return None
    if not (text.isascii() and text.isdigit() and len(text) < 5):
        raise PatternError(f'found "{text[:20]}", expected a count from 1 to {MOST_POSITIONS}')
    return int(text)


def _points(file: str) -> list[tuple[float, float]]:
    """Two numbers to a line, apart by blanks or a comma; lines that start with # are passed over."""
    import sys

    from benchcheck.mechanics.pattern import MOST_POSITIONS, PatternError

    if file == "-":
        text = sys.stdin.read(100_000)
    else:
        with open(file, encoding="utf-8", errors="replace") as opened:
            text = opened.read(100_000)
    points: list[tuple[float, float]] = []
    for number, line in enumerate(text.splitlines(), start=1):
        if not line.strip() or line.lstrip().startswith("#"):
            continue
        try:
            x, y = (float(word) for word in line.replace(",", " ").split())
        except ValueError:
            raise PatternError(
                f"{file}, line {number}: expected two numbers, x and y, with decimal points"
            ) from None
        points.append((x, y))
        if len(points) > MOST_POSITIONS:
            raise PatternError(f"{file} holds more than {MOST_POSITIONS} points")
    return points
