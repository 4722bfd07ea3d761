"""`benchcheck wrench`: which wrench of the shop reaches a target, and what to set it to."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from benchcheck.mechanics.wrench import Wrench

NAME = "wrench"
HELP = "which wrench of the register reaches a torque, and what to set it to"


def arguments(parser: argparse.ArgumentParser) -> None:
    """Registers what the command takes."""
    parser.add_argument("--target", required=True, metavar="TORQUE", help='torque at the screw: "16 lbf·ft"')
    parser.add_argument("--tolerance", metavar="TOLERANCE", help='"10 %%" or "2 lbf·ft"')
    parser.add_argument("--wrench", metavar="ID", help="the one asked about; the best one if left out")
    parser.add_argument("--extension", metavar="LENGTH", help="crow-foot: drive to screw")
    parser.add_argument("--length", metavar="LENGTH", help="drive to the middle of the grip, as measured")
    parser.add_argument("--angle", metavar="ANGLE", help="extension to wrench: 0° in line, 90°, 180° back")
    parser.add_argument("--left-hand", action="store_true", help="the screw tightens counter-clockwise")
    parser.add_argument("--on", metavar="DATE", help="day for calibration: 2026-11-24; today if left out")
    parser.add_argument("--json", action="store_true", help="for programs")


def run(args: argparse.Namespace) -> int:
    """Prints the answer; 0, 1 where the wrench named or all are refused, 2 with a sentence on standard error.

    Without a tolerance, an extension and a length give the crow-foot arithmetic alone, and no register is
    read.
    """
    from datetime import date

    from benchcheck.exit_status import ExitStatus
    from benchcheck.mechanics.units import QuantityError
    from benchcheck.report import wrenches
    from benchcheck.saying import print_json, refuse

    program = "benchcheck wrench"
    try:
        if args.tolerance is None:
            if args.extension is None or args.length is None:
                raise QuantityError("give a tolerance, or an extension and a length for the crow-foot alone")
            wanted, shown = wrenches.crow_foot(args.target, args.extension, args.length, args.angle)
            if args.json:
                print_json(wrenches.crow_foot_json(wanted, shown))
            else:
                print(f"{wanted} at the screw: the wrench shows {shown}")
            return ExitStatus.GOOD
        try:
            on = date.fromisoformat(args.on) if args.on is not None else date.today()
        except ValueError:
            raise QuantityError(f'found date "{args.on[:20]}", expected one such as 2026-11-24') from None
        register = _register(args.workspace)
        if isinstance(register, str):
            return refuse(program, register)
        said = wrenches.answer(
            register,
            args.target,
            args.tolerance,
            on=on,
            wrench=args.wrench,
            extension=args.extension,
            length=args.length,
            angle=args.angle,
            left_hand=args.left_hand,
        )
    except QuantityError as refusal:
        return refuse(program, str(refusal))
    if args.json:
        print_json(wrenches.as_json(said))
    else:
        print(wrenches.as_text(said), end="")
    return ExitStatus.GOOD if said.is_able else ExitStatus.FINDINGS


def _register(folder: str | None) -> tuple[Wrench, ...] | str:
    """The wrenches of a workspace, or the first thing that is wrong with its register."""
    from pathlib import Path

    from benchcheck.procedure.reading import read_model
    from benchcheck.procedure.registers import InstrumentRegister
    from benchcheck.procedure.source import read
    from benchcheck.store.disk import StoreFault, read_file

    path = Path(folder or ".") / "procedures" / "instruments.toml"
    try:
        source = read(read_file(path), str(path))
    except StoreFault as fault:
        hint = "name the workspace before the command: benchcheck --workspace FOLDER wrench ..."
        return f"{str(fault).rstrip('.')}; {hint}"
    found = source if isinstance(source, list) else read_model(source, InstrumentRegister)
    if isinstance(found, list):
        return found[0].as_text().splitlines()[0]
    return found.model.wrenches()
