"""Set every ring of 3 to 24 positions at every radius, turn, side and pair: nothing may touch.

Not collected by the tests, which take a sample of it. Run it whole with

    python -m tests.campaigns.every_ring [LARGEST COUNT]

It prints how many ways were drawn and how many pairs were neighbours without a way, and ends with 1 if any
label touches another, any way crosses a number, or the order round a ring is lost.
"""

from __future__ import annotations

import sys

from benchcheck.screens.widgets.pattern import Circle, Pattern
from benchcheck.screens.widgets.ring import circle_cells, place
from tests.screens.pictures import complaints_about, signs_for

LARGEST_RADIUS = 13


def main(largest_count: int) -> int:
    """Go through all of them; the exit status."""
    ways = without_way = 0
    for count in range(3, largest_count + 1):
        for first_at_datum in (False, True):
            circle = Circle(count, first_at_datum)
            for radius in range(2, LARGEST_RADIUS + 1):
                works = all(
                    circle_cells(circle, radius, turns, side) for turns in range(4) for side in (False, True)
                )
                if not works:
                    continue
                for turns in range(4):
                    for mirrored in (False, True):
                        for now in range(1, count + 1):
                            for next_one in range(1, count + 1):
                                if now == next_one:
                                    continue
                                pattern = Pattern(
                                    circle,
                                    signs_for(count, now, next_one),
                                    quarter_turns=turns,
                                    mirrored=mirrored,
                                )
                                placement = place(pattern, 4 * radius + 12, 2 * radius + 1, radius)
                                assert placement is not None
                                wrong = complaints_about(pattern, placement)
                                if wrong:
                                    print(f"{pattern}, radius {radius}: {wrong[0]}")
                                    return 1
                                ways += bool(placement.way)
                                without_way += not placement.way
        print(f"{count:3} positions: {ways} ways so far, {without_way} pairs without one", flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 24))
