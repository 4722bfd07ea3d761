"""Wrenches that talk, over real pseudo-terminals: whole lines, half lines, foreign lines, lost ones."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from benchcheck.instruments.serial_line import LONGEST, SETTLED, LineLost, SerialLine
from benchcheck.instruments.wrench_line import LOOKED_FOR_AGAIN, Reading, Said, WrenchLine
from benchcheck.mechanics.units import Quantity, parse_number
from tests.instruments.wire import Wire


@pytest.fixture
def wire() -> Iterator[Wire]:
    wire = Wire()
    yield wire
    if wire.wrench >= 0:
        wire.unplug()


def newton_metre(value: str) -> Quantity:
    return Quantity(parse_number(value), "N·m")


# ---------------------------------------------------------------------- lines


def test_whole_lines_come_out_and_half_ones_are_joined(wire: Wire) -> None:
    line = wire.line()
    assert line.lines() == ()
    wire.send(b"16.2 Nm\r\n1")
    assert line.lines() == ("16.2 Nm",)
    wire.send(b"6.")
    assert line.lines() == ()
    wire.send(b"4 Nm\n17 Nm\n")
    assert line.lines() == ("16.4 Nm", "17 Nm")
    line.close()


def test_what_was_sent_before_it_was_opened_is_of_another_time(wire: Wire) -> None:
    wire.send(b"99 Nm\n")
    line = wire.line()
    assert line.lines() == ()
    line.close()


def test_the_end_of_a_line_that_was_begun_before_is_no_line(wire: Wire) -> None:
    line = SerialLine(wire.device, 9600, wire.monotonic)
    wire.send(b"2 Nm\n16.2 Nm\n")
    assert line.lines() == ("16.2 Nm",)
    line.close()


def test_what_never_ends_is_cut_off_and_steers_no_terminal(wire: Wire) -> None:
    line = wire.line()
    wire.send(b"\x1b[2J" + b"x" * (LONGEST + 10))
    (shown,) = line.lines()
    assert len(shown) <= LONGEST and "\x1b" not in shown
    line.close()


def test_a_line_that_goes_is_lost_and_what_is_no_line_cannot_be_opened(wire: Wire, tmp_path: Path) -> None:
    line = wire.line()
    wire.unplug()
    with pytest.raises(LineLost):
        line.lines()
    line.close()
    (tmp_path / "text").write_text("16.2 Nm\n")
    with pytest.raises(LineLost, match="is no serial line"):
        SerialLine(str(tmp_path / "text"), 9600)
    with pytest.raises(LineLost, match="No such file"):
        SerialLine(str(tmp_path / "none"), 9600)


# ---------------------------------------------------------------------- wrenches


def test_readings_of_the_wrench_in_hand_are_heard_and_foreign_lines_are_said(wire: Wire) -> None:
    heard = WrenchLine({"TW-04": wire.entry()}, wire.monotonic)
    heard.attend("TW-04")
    assert heard.listen() == ()
    wire.time += SETTLED
    wire.send(b"16.2 Nm\nBATTERY LOW\n12 lbf.ft\n")
    first, foreign, second = heard.listen()
    assert first == Reading("TW-04", newton_metre("16.2"))
    assert isinstance(foreign, Said) and 'TW-04 sent "BATTERY LOW", which is no reading' in foreign.words
    assert second == Reading("TW-04", Quantity(parse_number("12"), "lbf·ft"))
    heard.attend("TW-01")
    assert not heard.talks and heard.line is None and heard.listen() == ()


def test_a_lost_line_is_said_once_and_looked_for_until_it_is_there_again(wire: Wire, tmp_path: Path) -> None:
    plug = tmp_path / "wrench"
    plug.symlink_to(wire.device)
    heard = WrenchLine({"TW-04": wire.entry(device=str(plug))}, wire.monotonic)
    heard.attend("TW-04")
    heard.listen()
    wire.unplug()
    (lost,) = heard.listen()
    assert isinstance(lost, Said) and "The line of TW-04 is lost" in lost.words
    assert heard.talks and heard.line is None
    plug.unlink()
    for _ in range(3):
        wire.time += LOOKED_FOR_AGAIN
        assert heard.listen() == ()
    again = Wire()
    plug.symlink_to(again.device)
    wire.time += LOOKED_FOR_AGAIN
    assert heard.listen() == (Said("The line of TW-04 is there again."),)
    wire.time += SETTLED
    again.send(b"5.0 Nm\n")
    assert heard.listen() == (Reading("TW-04", newton_metre("5.0")),)
    heard.close()
    again.unplug()
