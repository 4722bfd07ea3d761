"""Press keys and say lines at random, from random moments of a rebuild and from the first sheet on.

Not collected by the tests, which take a sample of it. Run it whole with

    python -m tests.campaigns.wild_hands [COUNT] [FIRST_SEED]

COUNT keys and as many lines (100000 if left out), in turns of 200. It prints the count, and ends with a
traceback that names the seed at the first thing that went wrong.
"""

from __future__ import annotations

import asyncio
import sys

from tests.faults.wild_hands import press_anything, press_anything_anywhere, say_anything

_A_TURN = 200


def main(count: int = 100_000, first_seed: int = 1_000) -> None:
    for turn in range(-(-count // _A_TURN)):
        seed = first_seed + turn
        try:
            asyncio.run(press_anything(seed, _A_TURN // 2))
            asyncio.run(press_anything_anywhere(seed, _A_TURN // 2))
            say_anything(seed, _A_TURN)
        except Exception as fault:
            raise RuntimeError(f"seed {seed}") from fault
        print(f"\r{(turn + 1) * _A_TURN} keys, {(turn + 1) * _A_TURN} lines", end="", flush=True)
    print(": no fault, no record harmed")


if __name__ == "__main__":
    main(*map(int, sys.argv[1:]))
