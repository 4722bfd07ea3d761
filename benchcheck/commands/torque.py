"""`benchcheck torque`: what a torque does to a screw, or what torque a preload needs."""

from __future__ import annotations

import argparse

NAME = "torque"
HELP = "what a torque makes of a screw's preload, and how much of its proof load that is"


def arguments(parser: argparse.ArgumentParser) -> None:
    """Registers what the command takes."""
    parser.add_argument(
        "--thread", required=True, metavar="THREAD", help='"5/16-18 UNC", M8, M8x1, No10-32, "M8 LH"'
    )
    parser.add_argument(
        "--strength", required=True, metavar="GRADE", help='8.8, "SAE J429 8", A4-70, "ASTM A193 B7"'
    )
    given = parser.add_mutually_exclusive_group(required=True)
    given.add_argument("--torque", metavar="TORQUE", help='"16 lbf·ft", 20Nm')
    given.add_argument("--preload", metavar="FORCE", help='"18 kN", "4000 lbf"')
    parser.add_argument("--nut-factor", metavar="K", help="K of T = K d F")
    parser.add_argument(
        "--condition", metavar="WORD", help="dry, oiled, zinc-plated, ...: the published band"
    )
    parser.add_argument("--thread-friction", metavar="X", help="coefficient in the thread")
    parser.add_argument("--bearing-friction", metavar="Y", help="coefficient under the head")
    parser.add_argument(
        "--bearing-diameter", metavar="LENGTH", help="mean diameter under the head; 1.3 d if left out"
    )
    parser.add_argument("--tolerance", metavar="TOLERANCE", help='"10 %%" or "2 lbf·ft"')
    parser.add_argument(
        "--method", metavar="WORD", help='"torque, lubricated", "torque, dry", torque, angle, elongation'
    )
    parser.add_argument("--running-torque", metavar="TORQUE", help="torque that merely turns a locking nut")
    parser.add_argument(
        "--running-rule", metavar="RULE", help='always, "from one third of the target", never'
    )
    parser.add_argument("--angle", metavar="ANGLE", help='turned on after the torque: "45°"')
    parser.add_argument("--screw-stiffness", metavar="STIFFNESS", help='"170 N/µm"')
    parser.add_argument("--joint-stiffness", metavar="STIFFNESS", help='"680 N/µm"')
    parser.add_argument("--engagement", metavar="LENGTH", help="full thread held in a tapped hole")
    parser.add_argument(
        "--tapped-strength", metavar="STRESS", help='tensile strength of the tapped part: "310 MPa"'
    )
    parser.add_argument("--json", action="store_true", help="for programs")


def run(args: argparse.Namespace) -> int:
    """Prints the answer; 0, or 2 with one sentence on standard error."""
    from benchcheck.mechanics.units import parse_number
    from benchcheck.report import torques, torques_as_text
    from benchcheck.saying import print_json, refuse

    def number(text: str | None) -> float | None:
        return None if text is None else float(parse_number(text))

    try:
        said = torques.answer(
            args.thread,
            args.strength,
            torque=args.torque,
            preload=args.preload,
            nut_factor=number(args.nut_factor),
            condition=args.condition,
            thread_friction=number(args.thread_friction),
            bearing_friction=number(args.bearing_friction),
            bearing_diameter=args.bearing_diameter,
            tolerance=args.tolerance,
            method=args.method,
            running_torque=args.running_torque,
            running_rule=args.running_rule,
            angle=args.angle,
            screw_stiffness=args.screw_stiffness,
            joint_stiffness=args.joint_stiffness,
            engagement=args.engagement,
            tapped_strength=args.tapped_strength,
        )
    except torques.REFUSALS as refusal:
        return refuse("benchcheck torque", str(refusal))
    if args.json:
        print_json(torques.as_json(said))
    else:
        print(torques_as_text.as_text(said), end="")
    return 0
