"""Damage one file of a workspace at random (procedure, register, record), and call every command on it.

Not collected by the tests, which take a sample of it. Run it whole with

    python -m tests.campaigns.damaged_workspaces [COUNT] [FIRST_SEED]

COUNT workspaces (500 if left out). Some records are damaged so that the seals find it; others lie under good
seals. It ends with a traceback that names the seed at the first thing that went wrong.
"""

from __future__ import annotations

import sys

from tests.faults.damaged_workspaces import go_through


def main(count: int = 500, first_seed: int = 1_000) -> None:
    called = 0
    for seed in range(first_seed, first_seed + count):
        called += go_through(seed)
        print(f"\r{seed - first_seed + 1} workspaces, {called} commands", end="", flush=True)
    print(": each ended as it should, and changed nothing")


if __name__ == "__main__":
    main(*map(int, sys.argv[1:]))
