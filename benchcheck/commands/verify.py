"""`benchcheck verify`: what records prove, by what, and what they do not; nothing is changed."""

from __future__ import annotations

import argparse
import os
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from benchcheck.session.verification import OutsideSeal, Verdict

NAME = "verify"
HELP = "say what records prove, and what they do not"


def arguments(parser: argparse.ArgumentParser) -> None:
    """Registers what the command takes."""
    parser.add_argument(
        "records", metavar="RECORD", nargs="+", help="record; or folder with records, as sessions/"
    )
    parser.add_argument(
        "--check-value",
        metavar="VALUE",
        help='of one record, as printed, behind the number of its event: "58: 210d aefe f49a"',
    )
    parser.add_argument("--json", action="store_true", help="for programs")


def run(args: argparse.Namespace) -> int:
    """Prints a verdict on each record, weighed against what the folder that it lies in remembers."""
    from pathlib import Path

    from benchcheck.exit_status import ExitStatus
    from benchcheck.procedure.characters import clean
    from benchcheck.saying import print_json, refuse
    from benchcheck.session.record import NewerFormat
    from benchcheck.store.disk import StoreFault
    from benchcheck.store.weighed import records_in, weigh

    program = f"benchcheck {NAME}"
    printed = []
    if args.check_value is not None:
        if len(args.records) != 1 or os.path.isdir(args.records[0]):
            return refuse(program, "a check value is that of one record: name only that one.")
        seal = _printed(args.check_value)
        if seal is None:
            return refuse(program, 'a check value is written as printed: "58: 210d aefe f49a".')
        printed = [seal]

    status = ExitStatus.GOOD
    verdicts: dict[str, Verdict] = {}
    missing: list[str] = []
    for word in args.records:
        try:
            paths, gone = records_in(Path(word))
            missing += (str(Path(word) / name) for name in gone)
            if not paths and not gone:
                status = refuse(program, f"{word} holds no record.")
            for path in paths:
                try:
                    verdicts[str(path)] = weigh(path, printed).verdict
                except NewerFormat as newer:
                    status = refuse(program, f"{path}: {newer}")
        except StoreFault as fault:
            status = refuse(program, str(fault))

    if args.json:
        records = [verdict.as_json(file) for file, verdict in verdicts.items()]
        print_json({"records": records, "missing": missing})
    else:
        print(clean("".join(verdict.as_text(file) for file, verdict in verdicts.items())), end="")
        for name in missing:
            print(clean(f"{name}: MISSING; its seal is remembered, and the file is not there"))
    if missing or any(verdict.first_bad_event is not None for verdict in verdicts.values()):
        return ExitStatus.DAMAGED
    if not all(verdict.intact for verdict in verdicts.values()):
        return ExitStatus.UNUSABLE  # no event is whole in it, so it is no record yet
    return status


def _printed(text: str) -> OutsideSeal | None:
    """A check value as a person copies it off a label."""
    import re

    from benchcheck.session.verification import CHECK_DIGITS, OutsideSeal

    match = re.fullmatch(r"\s*(\d{1,9})\s*[:,;.]?\s+([0-9a-f\s]+)", text, re.ASCII | re.IGNORECASE)
    if match is None:
        return None
    number, digits = int(match[1]), "".join(match[2].split())
    if number == 0 or not CHECK_DIGITS <= len(digits) <= 64:
        return None
    return OutsideSeal(number, digits, "The printed check value")
