"""`benchcheck new`: the draft of a procedure, out of answers or options, or out of an older procedure."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

NAME = "new"
HELP = "write the draft of a procedure; asks for what no option tells"

ToldT = TypeVar("ToldT")


def arguments(parser: argparse.ArgumentParser) -> None:
    """Registers what the command takes."""
    parser.add_argument("--id", help="short name of the procedure")
    parser.add_argument(
        "--model", action="append", metavar="MODEL", help="pump it is for; with --from also more than one"
    )
    parser.add_argument("--author", help="who writes it")
    parser.add_argument(
        "--part",
        action="append",
        metavar="PART",
        help='the main one first, the others as they are fitted: "cover: outer face, inner face; body: drive '
        'end" is a part, its two ends, the one that faces you first, and where it goes in',
    )
    parser.add_argument(
        "--groove",
        action="append",
        metavar="GROOVE",
        help='"G1: cover, body, -137, NBR, round the spigot": the part it is in, the part that closes it, '
        "its ring, and where",
    )
    parser.add_argument(
        "--fasteners",
        action="append",
        metavar="GROUP",
        help='"F1: cover, 4, M6, 8.8": the part they hold, how many on a circle, thread, strength',
    )
    parser.add_argument(
        "--from", dest="old", metavar="OLD", help="take over this procedure, all its numbers to be confirmed"
    )
    parser.add_argument("--revision", help="with --from: instead of the next one")
    parser.add_argument(
        "-o", dest="output", metavar="PATH", help="file to write; one in procedures/ if left out"
    )


def run(args: argparse.Namespace) -> int:
    """Writes the draft, and says where it is."""
    import sys

    from benchcheck.exit_status import ExitStatus
    from benchcheck.procedure.characters import clean
    from benchcheck.procedure.drafting import DraftFault
    from benchcheck.saying import refuse
    from benchcheck.store.disk import StoreFault
    from benchcheck.store.library import Unreadable, parse_procedure

    try:
        text = _taken_over(args) if args.old else _told(args)
        head = parse_procedure(text.encode(), "the draft").model.procedure
        path = _write(args, f"{head.id}-{head.revision}.toml".lower(), text)
    except Unreadable as fault:
        print(fault, file=sys.stderr)
        return refuse("benchcheck new", "nothing is written; mend that first.")
    except (DraftFault, StoreFault) as fault:
        return refuse("benchcheck new", str(fault))
    except EOFError:
        return refuse("benchcheck new", "nothing is written, for the answers ended before the questions.")
    print(clean(str(path)))
    print(f"`benchcheck check {clean(str(path))}` says what is still to be told.", file=sys.stderr)
    return ExitStatus.GOOD


def _taken_over(args: argparse.Namespace) -> str:
    from pathlib import Path

    from benchcheck.procedure.drafting import DraftFault
    from benchcheck.procedure.taking_over import raised, take_over
    from benchcheck.store.library import load_procedure

    if args.part or args.groove or args.fasteners:
        raise DraftFault("with --from, parts, grooves and fasteners are those of the old procedure.")
    old = load_procedure(Path(args.old)).read
    head = old.model.procedure
    name = args.id or head.id
    revision = args.revision or (raised(head.revision) if name == head.id else "A")
    return take_over(old, name=name, revision=revision, models=tuple(args.model or ()), author=args.author)


def _told(args: argparse.Namespace) -> str:
    from benchcheck.procedure.drafting import (
        GROOVE,
        GROUP,
        PART,
        DraftFault,
        NewPump,
        draft,
        groove,
        group,
        part,
    )

    if args.revision:
        raise DraftFault("--revision goes with --from; a first draft is revision A.")
    if args.model and len(args.model) > 1:
        raise DraftFault("a first draft is for one model; more can be written into it.")
    return draft(
        NewPump(
            id=args.id or _answer("Short name of the procedure"),
            model=args.model[0] if args.model else _answer("Model, as the plate says"),
            author=args.author or _answer("Who writes it"),
            parts=_several(args.part, part, f"Part, the main one first ({PART})"),
            # Whoever told the parts by options told all that there is.
            grooves=_several(args.groove or (args.part and []), groove, f"Groove ({GROOVE})"),
            groups=_several(args.fasteners or (args.part and []), group, f"Fastener group ({GROUP})"),
        )
    )


def _answer(question: str) -> str:
    import sys

    answer = ""
    while not answer:
        print(f"{question}: ", end="", file=sys.stderr, flush=True)
        answer = input().strip()
    return answer


def _several(told: list[str] | None, read: Callable[[str], ToldT], question: str) -> tuple[ToldT, ...]:
    """What the options told; or else as many answers as are given, up to an empty one."""
    import sys

    from benchcheck.procedure.drafting import DraftFault

    if told is not None:
        return tuple(map(read, told))
    found: list[ToldT] = []
    while True:
        print(f"{question}; nothing more: Enter: ", end="", file=sys.stderr, flush=True)
        answer = input().strip()
        if not answer:
            return tuple(found)
        try:
            found.append(read(answer))
        except DraftFault as fault:
            print(fault, file=sys.stderr)


def _write(args: argparse.Namespace, name: str, text: str) -> Path:
    """Where the draft was written. Raises StoreFault; never writes over a file."""
    from pathlib import Path

    from benchcheck.store.disk import StoreFault, fault

    path = (
        Path(args.output)
        if args.output
        else (getattr(args, "workspace", None) or Path()) / "procedures" / name
    )
    try:
        with path.open("x", encoding="utf-8") as file:
            file.write(text)
    except FileExistsError:
        raise StoreFault(f"{path} is there already; name another file with -o.") from None
    except OSError as error:
        raise fault(f"{path} cannot be written", error) from None
    return path
