"""A wrench on a line, in the line by line program at a real terminal: told, and taken by Enter alone."""

from __future__ import annotations

import io
import os
import pty
import time
from datetime import datetime, timedelta
from pathlib import Path

from benchcheck import lines
from benchcheck.instruments.serial_line import SETTLED
from tests.end_to_end.bench import Onlooker
from tests.instruments.wire import Wire
from tests.lines.moments import lay_down

A_SCREW = ("F1-r2/tighten:F1", "round 2 position 1")


class Desk(io.StringIO):
    """Types at a terminal whenever something is asked: with care, and at the screw as the test wants it."""

    def __init__(self, record: Path, wire: Wire) -> None:
        super().__init__()
        self.onlooker = Onlooker(record.parents[1], record)
        self.keyboard, self._held = pty.openpty()
        self.source = os.fdopen(os.dup(self._held), encoding="utf-8")
        self.wire = wire
        self.at_the_screw = 0

    def type(self, text: str) -> None:
        os.write(self.keyboard, f"{text}\n".encode())

    def flush(self) -> None:
        if not self.getvalue().endswith("> ") and "Which?" not in self.getvalue()[-10:]:
            return
        prompt = self.onlooker.prompt()
        if "Which?" in self.getvalue()[-10:]:
            self.type("1")
        elif prompt is None or (prompt.act, prompt.question) != A_SCREW:
            done = self.at_the_screw > 0
            os.write(self.keyboard, b"\x04") if done else self.type(self.onlooker.careful())
        else:
            self.at_the_screw += 1
            self._sent()

    def _sent(self) -> None:
        """First a foreign line, then a reading; once that is told, Enter alone."""
        if self.at_the_screw == 1:
            time.sleep(SETTLED)
            self.wire.send(b"BATTERY LOW\n")
        elif self.at_the_screw == 2:
            self.wire.send(b"134 INLB\n")
        else:
            self.type("")

    def close_down(self) -> None:
        self.source.close()
        for end in (self.keyboard, self._held):
            os.close(end)


def test_a_reading_is_told_and_taken_by_enter(tmp_path: Path) -> None:
    wire = Wire()
    record = lay_down(tmp_path, *A_SCREW)
    register = tmp_path / "procedures" / "instruments.toml"
    line = 'line = { device = "DEVICE", pattern = "{value} {unit}", units = { INLB = "lbf·in" } }\n'
    text = register.read_text(encoding="utf-8")
    talks = line.replace("DEVICE", wire.device)
    register.write_text(text.replace('id = "TW-02"\n', f'id = "TW-02"\n{talks}'), encoding="utf-8")
    desk = Desk(record, wire)
    desk.onlooker.catch_up()
    now = desk.onlooker.now

    def clock() -> datetime:
        nonlocal now
        now += timedelta(seconds=1)
        return now

    assert lines.run(tmp_path, desk.source, desk, clock) == 0
    said = " ".join(desk.getvalue().split())
    assert 'TW-02 sent "BATTERY LOW", which is no reading.' in said
    assert "Sent: 134 lbf·in. Enter takes it." in said
    desk.onlooker.catch_up()
    tightened = [each for each in desk.onlooker.events if each["kind"] == "position tightened"]
    assert (tightened[-1]["position"], tightened[-1]["round"], tightened[-1]["value"]) == (1, 2, 134)
    desk.close_down()
    wire.unplug()
