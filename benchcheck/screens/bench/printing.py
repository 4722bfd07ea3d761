"""What can be printed from the bench, and the printing: a text file, and the shop's own command."""

from __future__ import annotations

import shlex
import subprocess
from collections.abc import Callable
from dataclasses import dataclass

from benchcheck.screens.bench.work import Work
from benchcheck.store.disk import StoreFault

_COMMAND_SECONDS = 20


@dataclass(frozen=True)
class Paper:
    """A paper: what it is called in the list, the name of its file, and its text."""

    words: str
    name: str
    text: Callable[[], str]


def papers(work: Work) -> tuple[Paper, ...]:
    """The papers that there are now."""
    return ()


def print_paper(work: Work, paper: Paper) -> str:
    """Write a paper and hand it to the shop's print command; says where it is and whether that worked."""
    try:
        path = work.sitting.workspace.print_text(f"{work.state.header.serial}-{paper.name}", paper.text())
    except StoreFault as fault:
        return str(fault)
    command = work.state.job.registers.shop.print_command
    if not command:
        return f"It is in {path}; the shop has no print command."
    try:
        done = subprocess.run(
            [*shlex.split(command), str(path)],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            timeout=_COMMAND_SECONDS,
            check=False,
        )
    except (OSError, ValueError, subprocess.TimeoutExpired):
        return f"It is in {path}; the print command did not work."
    return f"Printed: {path}." if done.returncode == 0 else f"It is in {path}; the print command failed."
