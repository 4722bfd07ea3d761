"""Kill the real program at random moments of whole rebuilds, over and over, and see that it comes back right.

Not collected by the tests, which take a sample of it. Run it whole with

    python -m tests.campaigns.kills --count 1000

It says how far it is on standard error, prints the counts, and ends with a traceback at the first kill after
which something was wrong; the same seed kills at the same answers again.
"""

from __future__ import annotations

import argparse
import random
import sys
import tempfile
from pathlib import Path

from tests.faults.killing import Tally, rebuild_under_kills


def main() -> None:
    """Run the campaign."""
    parser = argparse.ArgumentParser(prog="python -m tests.campaigns.kills")
    parser.add_argument("--count", type=int, default=1000, help="how many kills, at least")
    parser.add_argument("--each", type=int, default=40, help="about how many of them in one rebuild")
    parser.add_argument("--seed", type=int, default=20260302)
    args = parser.parse_args()
    chance, tally = random.Random(args.seed), Tally()
    while tally.kills.total() < args.count:
        with tempfile.TemporaryDirectory() as folder:
            rebuild_under_kills(Path(folder), chance, args.each, tally, chance.choice(("-05", "-07")))
        print(f"{tally.kills.total()} of {args.count}", file=sys.stderr, flush=True)
    print(tally)


if __name__ == "__main__":
    main()
