"""Random work on the pumps, many times over: wherever it leads, care leads out of it, and to a right pump.

Not collected by the tests, which take a sample of it. Run it, with the first seed and how many, with

    python -m tests.campaigns.every_walk [FIRST [COUNT]]

It prints how the walks ended; it ends with 1 if one ended wrong, naming its pump and seed.
"""

from __future__ import annotations

import sys
import traceback
from collections import Counter

from tests.session.test_walks import EACH_MOVE, PUMPS
from tests.session.walks import Walk, careful_way, finished_with_care

MOVES = 60


def main(first: int = 0, count: int = 300) -> int:
    """Walk all of them; the exit status."""
    came: Counter[str] = Counter()
    for job, variant in PUMPS:
        for seed in range(first, first + count):
            walk = Walk(seed, careful_way(job, variant))
            try:
                walk.moves(MOVES, EACH_MOVE)
                end = finished_with_care(walk.bench, EACH_MOVE)
            except Exception:
                end = traceback.format_exc()
            came[end] += 1
            if end not in ("released", "scrapped"):
                print(f"{job().procedure.procedure.title}, seed {seed}: {end}", flush=True)
    for end, number in came.most_common():
        print(f"{number:6} {end.splitlines()[-1]}")
    return 0 if set(came) <= {"released", "scrapped"} else 1


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:3])))
