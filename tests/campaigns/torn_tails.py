"""Cut the last event of a record at every byte, and take it up again with the program each time.

Not collected by the tests, which take a sample of it. Run it whole with

    python -m tests.campaigns.torn_tails

It prints how many cuts were made, and ends with a traceback at the first after which something was wrong.
"""

from __future__ import annotations

import tempfile
from pathlib import Path

from tests.faults.torn_tails import TornTails


def main() -> None:
    """Make all the cuts."""
    with tempfile.TemporaryDirectory() as folder:
        torn = TornTails(Path(folder))
        for cut in torn.cuts:
            torn.cut_and_take_up(cut)
        print(f"{len(torn.cuts)} cuts; all before them was kept, and said, each time")


if __name__ == "__main__":
    main()
