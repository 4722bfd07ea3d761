"""What could not be written: said at once, and nothing more is asked of this pump."""

from __future__ import annotations

from benchcheck.screens.bench.view import View
from benchcheck.screens.layout import Sheet, Work


def sheet(view: View, words: str) -> Sheet:
    work = Work(view)
    work.verb("not saved", ["The last answer is not in the record.", "All that was confirmed before it is."])
    work.gap(4)
    work.labelled("why", words)
    work.labelled(
        "then", "mend the disk or the folder, and take the pump up again; it begins where the record ends"
    )
    return Sheet(work.lines(), "leaves this pump, and goes to the open pumps")
