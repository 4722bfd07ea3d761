"""Damage the shipped procedures in every way: the check never falls over, and finds each slip that it should.

Not collected by the tests, which take a sample of it. Run it whole with

    python -m tests.campaigns.damaged_procedures [COUNT]

COUNT random damages (5000 if left out), and each single slip: every ring left out, facing reversed, round
dropped and torque in another unit. It ends with 1 if the check failed, said something about a place
that is not in the file, or let a slip through.
"""

from __future__ import annotations

import sys
from functools import cache
from itertools import islice
from pathlib import Path

from benchcheck.checking.check import Workshop, check
from benchcheck.procedure.table import Table
from benchcheck.session.rehearsal import RehearsalFile
from tests.checking.damage import damaged, slips
from tests.pumps import MAIN_PUMP, registers

SHIPPED = sorted(MAIN_PUMP.parent.glob("xmpl-*.toml"))


def complaints_about_damage(seed: int) -> list[str]:
    """What is wrong with how one damaged file is checked. Raises whatever the check raises."""
    path = SHIPPED[seed % len(SHIPPED)]
    content = damaged(path.read_text(encoding="utf-8"), seed)
    lines = content.count(b"\n") + 1
    found = check(content, path.name, _rehearsal, _workshop()).findings
    return [
        f"seed {seed}: {finding.as_text()}"
        for finding in found
        if not (1 <= finding.place.line <= lines and finding.place.column >= 1 and finding.remedy)
    ]


def complaints_about_slips(path: Path, step: int = 1) -> list[str]:
    """The slips in one procedure, every so-manieth, that the check lets through."""
    complaints = []
    for slip in islice(slips(path.read_text(encoding="utf-8")), 0, None, step):
        rules = {each.rule for each in check(slip.text.encode(), path.name, _rehearsal, _workshop()).findings}
        if not rules & set(slip.found_by):
            complaints.append(f"{path.name}: {slip.what}: found {sorted(rules)}")
    return complaints


def _rehearsal() -> type[Table]:
    return RehearsalFile


@cache
def _workshop() -> Workshop:
    return Workshop(registers().wrenches, registers().gauges)


def main(count: int) -> int:
    """Go through all of them; the exit status."""
    complaints = [each for path in SHIPPED for each in complaints_about_slips(path)]
    for seed in range(count):
        try:
            complaints += complaints_about_damage(seed)
        except Exception as error:  # whatever it is, it must not be
            complaints.append(f"seed {seed}: {type(error).__name__}: {error}")
    print("\n".join(complaints) or f"{count} damages and every slip: all was told, and nothing fell over.")
    return bool(complaints)


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 5000))
