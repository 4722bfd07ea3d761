"""How long the bench engineer's numbers take, each as a ratio to a floor measured in the same run.

Run it by hand:  python tests/benchmarks/measure_numbers.py
It asserts nothing. Times drift with the machine; the ratio to the floor is what to compare.
"""

from __future__ import annotations

import random
import statistics
import subprocess
import sys
import timeit
from collections.abc import Callable

from benchcheck.mechanics.interaction import circle_influence, simulate
from benchcheck.mechanics.pattern import circle_order

POSITIONS = 64
ROUNDS = 5
ROUND_SHARES = [0.2, 0.4, 0.6, 0.8, 1.0]
TURNS = 15


def milliseconds(work: Callable[[], object], number: int = 10) -> float:
    """Time of one call, the best of several turns."""
    return min(timeit.repeat(work, number=number, repeat=TURNS)) / number * 1000


def process_milliseconds(program: str) -> float:
    """Time of a fresh interpreter that runs the program, the median of several turns."""

    def start() -> None:
        subprocess.run([sys.executable, "-c", program], check=True)

    return statistics.median(timeit.repeat(start, number=1, repeat=TURNS)) * 1000


def order_of_two_hundred() -> tuple[float, float]:
    """Floor: sort 200 positions by a key."""
    return milliseconds(lambda: circle_order(200)), milliseconds(
        lambda: sorted(range(1, 201), key=lambda position: -position)
    )


def interaction_of_sixty_four() -> tuple[float, float]:
    """Floor: the same number of multiplications and additions on plain lists."""
    order = list(range(1, POSITIONS + 1))
    random.Random(64).shuffle(order)
    influence = circle_influence(POSITIONS)
    column = [0.01] * POSITIONS

    def floor() -> None:
        held = [0.0] * POSITIONS
        for _ in range(ROUNDS * POSITIONS):
            held = [before + 0.5 * change for before, change in zip(held, column, strict=True)]

    return (
        milliseconds(lambda: simulate(influence, order, ROUND_SHARES, check_passes=0)),
        milliseconds(floor),
    )


def import_of_units() -> tuple[float, float]:
    """Floor: an interpreter that imports what the module takes from the standard library."""
    return (
        process_milliseconds("import benchcheck.mechanics.units"),
        process_milliseconds("import dataclasses, decimal, difflib, functools, math, re, typing"),
    )


def first_conversion() -> tuple[float, float]:
    """Floor: an interpreter that imports the library that converts."""
    return (
        process_milliseconds("from benchcheck.mechanics.units import convert; convert(16, 'lbf·ft', 'N·m')"),
        process_milliseconds("import pint"),
    )


def main() -> None:
    """Prints one line for each measure."""
    measures: dict[str, Callable[[], tuple[float, float]]] = {
        "order of 200 positions on a circle": order_of_two_hundred,
        "64 positions over five rounds": interaction_of_sixty_four,
        "import of units, whole process": import_of_units,
        "first conversion, whole process": first_conversion,
    }
    print(f"{'measure':38} {'ms':>9} {'floor ms':>9} {'ratio':>7}   floor")
    for name, measure in measures.items():
        taken, floor = measure()
        described = (measure.__doc__ or "").removeprefix("Floor: ")
        print(f"{name:38} {taken:9.3f} {floor:9.3f} {taken / floor:6.2f}x   {described}")


if __name__ == "__main__":
    main()
