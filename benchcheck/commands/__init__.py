"""The commands, one module each, and the table of them that `benchcheck --help` shows.

A module has its `NAME`, its `HELP` as here, `arguments(parser)` and `run(args)`, which returns an exit
status. It is imported only when its command is called, and imports what it needs only in `run`.
"""

from __future__ import annotations

COMMANDS = {
    "check": "say what is wrong with procedures and registers",
    "rehearse": "run a procedure without a pump, and see what it catches",
    "compare": "what changed between two revisions of a procedure, and what an open session could keep",
    "schema": "the format of procedures as a JSON Schema, for editors",
    "verify": "say what records prove, and what they do not",
    "torque": "what a torque makes of a screw's preload, and how much of its proof load that is",
    "pattern": "the order in which the positions of a circle, a rectangle or any layout are tightened",
    "wrench": "which wrench of the register reaches a torque, and what to set it to",
    "oring": "an O-ring's size, its look-alikes, its fit in a gland, its rubber and shelf life",
}
"""Name and help of each; the name is the module's too."""
