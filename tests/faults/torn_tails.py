"""The last event of a record cut off at one byte after another, and the record taken up again each time."""

from __future__ import annotations

import tomllib
from datetime import timedelta
from pathlib import Path

from benchcheck.session.record import read
from benchcheck.session.rehearsal import BEGINS
from tests.faults.in_process import talked, ticking
from tests.faults.prepared import at_act, record_at


class TornTails:
    """A record, and all the places at which its last event can be cut."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.record = record_at(folder, at_act("safe/ask:0"))
        self.whole = self.record.read_bytes()
        self.event_count = len(read(self.whole).events)
        self.start = read(self.whole).seals[-1].start
        self.cuts = range(self.start + 1, len(self.whole))

    def cut_and_take_up(self, cut: int) -> None:
        """All before the last event is kept; what is left of it is set aside and said, and goes on."""
        # A power cut leaves no time to remember a seal.
        (self.record.parent / "seen-seals.txt").unlink()
        self.record.write_bytes(self.whole[:cut])
        status, said = talked(self.folder, ["1"], ticking(BEGINS + timedelta(hours=1)))
        assert status == 0
        assert f"{self.event_count - 1} events were kept" in said
        assert f"The last write was torn. Its {cut - self.start} bytes were never confirmed." in said
        (aside,) = self.record.parent.glob("*.torn-*")
        assert f"They are kept as {aside.name}." in said
        assert aside.read_bytes() == self.whole[self.start : cut]
        aside.unlink()
        assert self.record.read_bytes().startswith(self.whole[: self.start])
        *_, again, stopped = tomllib.loads(self.record.read_text())["event"]
        assert (again["kind"], again["torn_bytes"]) == ("taken up", cut - self.start)
        assert stopped["kind"] == "stopped"
