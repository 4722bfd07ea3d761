"""Every way back on the main pump: from after each of its acts to everything that is in, in both variants.

Not collected by the tests, which go a sample of them. Run it whole with

    python -m tests.campaigns.every_way_back

It prints how many ways were gone; it ends with 1 if one is not legal, not complete, or does not come home.
"""

from __future__ import annotations

import sys

from tests.assembly.ways import needless_moves, stations, targets, wrong_with_way
from tests.pumps import main_job


def main() -> int:
    """Go all of them; the exit status."""
    ways = bad = 0
    for variant in main_job().procedure.procedure.variants:
        for name, now in stations(main_job().pump(variant)):
            for target in targets(now):
                ways += 1
                wrong = wrong_with_way(now, target)
                wrong += [f"{thing} could have stayed" for thing in needless_moves(now, target)]
                bad += bool(wrong)
                for each in wrong:
                    print(f"{variant}, after {name}, back to {target}: {each}", flush=True)
    print(f"{ways} ways, {bad} wrong")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
