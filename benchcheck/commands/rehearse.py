"""`benchcheck rehearse`: a procedure run without a pump, alone or with the departures of a file of answers."""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path

NAME = "rehearse"
HELP = "run a procedure without a pump, and see what it catches"


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("procedure", type=Path, metavar="PROCEDURE", help="a procedure file")
    parser.add_argument("answers", type=Path, nargs="*", metavar="ANSWERS", help="files of departures")
    parser.add_argument("--json", action="store_true", help="the results as JSON")


def run(args: argparse.Namespace) -> int:
    from datetime import datetime

    from benchcheck.procedure.reading import read_model
    from benchcheck.procedure.source import read
    from benchcheck.session.rehearsal import BEGINS, RehearsalFile, Run, rehearse
    from benchcheck.session.state import Job
    from benchcheck.store.disk import StoreFault, read_file
    from benchcheck.store.library import Unreadable, load_procedure, load_registers
    from benchcheck.store.workspace import Workspace

    def load_answers(path: Path) -> RehearsalFile:
        source = read(read_file(path), str(path))
        if isinstance(source, list):
            raise Unreadable(source)
        model = read_model(source, RehearsalFile)
        if isinstance(model, list):
            raise Unreadable(model)
        return model.model

    try:
        loaded = load_procedure(args.procedure)
        folder = args.workspace if args.workspace is not None else args.procedure.resolve().parent.parent
        job = Job(loaded.procedure, load_registers(Workspace(folder)))
        files = [(path, load_answers(path)) for path in args.answers]
    except (Unreadable, StoreFault) as fault:
        print(fault, file=sys.stderr)
        return 2
    head = loaded.procedure.procedure
    for path, answers in files:
        if answers.rehearsal.procedure != head.id:
            print(
                f"{path} is a rehearsal of {answers.rehearsal.procedure}, not of {head.id}", file=sys.stderr
            )
            return 2
    runs: list[tuple[str, Run]] = []
    variants = head.variants or (None,)
    if not files:
        runs += [
            (f"careful technician, {variant or 'the one variant'}", rehearse(job, variant))
            for variant in variants
        ]
    for path, answers in files:
        begins = datetime.fromisoformat(answers.rehearsal.begins) if answers.rehearsal.begins else BEGINS
        for variant in (answers.rehearsal.variant,) if answers.rehearsal.variant else variants:
            title = f"{path.name}: {answers.rehearsal.title}" + (f", {variant}" if variant else "")
            runs.append((title, rehearse(job, variant, answers.departure, begins)))
    good = all(each.as_expected for _, each in runs)
    if args.json:
        outcomes = [
            {
                "step": result.step,
                "departure": result.departure,
                "expected": result.expected,
                "came": result.came,
                "rule": result.rule,
                "message": result.message,
            }
            for _, each in runs
            for result in each.results
        ]
        unexpected = [sentence for _, each in runs for sentence in each.unexpected]
        print(
            json.dumps(
                {
                    "procedure": head.id,
                    "revision": head.revision,
                    "outcomes": outcomes,
                    "unexpected": unexpected,
                    "as_expected": good,
                },
                ensure_ascii=False,
                indent=2,
            )
        )
        return 0 if good else 1
    for title, each in runs:
        print(f"{title}: {'as expected' if each.as_expected else 'NOT as expected'}")
        for result in each.results:
            print(
                f"  {result.step}: {result.departure}: {result.came}"
                + (f" by {result.rule}" if result.rule else "")
            )
            if result.message:
                print(f"    {result.message}")
        for sentence in each.unexpected:
            print(f"  ! {sentence}")
        print(f"  {each.answers} answers, {each.state.readings} readings, {each.state.outcome}")
    return 0 if good else 1
