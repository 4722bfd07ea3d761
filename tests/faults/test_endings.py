"""However the program ends: what was confirmed is saved, the record says how it was left, the status why."""

from __future__ import annotations

import fcntl
import os
import signal
import tomllib
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from benchcheck.session.rehearsal import BEGINS
from tests.end_to_end.bench import Ended, Piped, Terminal, take_up, wait_until, with_clock
from tests.faults.in_process import talked, ticking
from tests.faults.prepared import at_act, record_at

AN_HOUR_LATER = BEGINS + timedelta(hours=1)


@pytest.fixture
def record(tmp_path: Path) -> Path:
    """A record whose kit is about to be counted."""
    return record_at(tmp_path, at_act("kit/ask:0"))


def events(record: Path) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = tomllib.loads(record.read_text())["event"]
    return found


def at_work(record: Path, program: type[Piped] | type[Terminal] = Piped) -> Piped | Terminal:
    """The program at the question for the lot of the kit."""
    bench = program(with_clock(record.parents[1], AN_HOUR_LATER))
    take_up(bench)
    for line in ("T. Sample", "sn-1"):
        bench.say(line)
        bench.question()
    return bench


@pytest.mark.parametrize("program", [Piped, Terminal])
@pytest.mark.parametrize(
    ("number", "status"), [(signal.SIGTERM, 143), (signal.SIGHUP, 129), (signal.SIGINT, 130)]
)
def test_a_signal_ends_it_cleanly(
    record: Path, program: type[Piped] | type[Terminal], number: signal.Signals, status: int
) -> None:
    bench = at_work(record, program)
    bench.send(number)
    assert bench.end() == (status, "")
    assert bench.printed.endswith(f"Ended by {number.name}. All that was confirmed is saved.\n")
    assert events(record)[-1]["kind"] == "stopped"
    assert events(record)[-1]["reason"] == f"ended by {number.name}"
    assert "It was left in an orderly way." in talked(record.parents[1], ["1"], ticking(AN_HOUR_LATER))[1]


def test_a_closed_terminal_ends_it_cleanly(record: Path) -> None:
    bench = at_work(record, Terminal)
    assert isinstance(bench, Terminal)
    os.close(bench.child.child_fd)  # as when a window or a connection closes
    wait_until(lambda: not bench.child.isalive())
    assert bench.child.exitstatus == 129
    assert events(record)[-1]["reason"] == "ended by SIGHUP"


def test_a_closed_terminal_also_ends_it_where_hangups_are_ignored(record: Path) -> None:
    program = with_clock(record.parents[1], AN_HOUR_LATER)
    bench = Terminal(["/bin/sh", "-c", 'trap "" HUP; exec "$@"', "sh", *program])
    take_up(bench)
    bench.say("T. Sample")
    bench.question()
    os.close(bench.child.child_fd)
    wait_until(lambda: not bench.child.isalive())
    assert events(record)[-1]["kind"] == "stopped"


def test_a_reader_that_goes_away_ends_it_cleanly(record: Path) -> None:
    bench = at_work(record)
    assert isinstance(bench, Piped) and bench.process.stdout is not None
    bench.process.stdout.close()
    bench.say("LOT-1")
    assert bench.process.wait(10) == 128 + signal.SIGPIPE
    assert bench.process.stderr is not None and bench.process.stderr.read() == b""
    assert [event["kind"] for event in events(record)[-2:]] == ["told", "stopped"]
    assert events(record)[-1]["reason"] == "the terminal was closed"


def test_a_reader_that_has_stalled_does_not_keep_it_from_ending(record: Path) -> None:
    bench = at_work(record)
    assert isinstance(bench, Piped) and bench.process.stdout is not None
    fcntl.fcntl(bench.process.stdout, fcntl.F_SETPIPE_SZ, 4096)
    for _ in range(20):
        bench.say("?")  # the list of words, which nobody reads
    bench.say("LOT-1")
    bench.send(signal.SIGTERM)
    assert bench.process.wait(10) == 143
    assert events(record)[-1]["kind"] == "stopped"


def test_input_that_ends_saves_what_was_confirmed_and_nothing_half_typed(record: Path) -> None:
    bench = at_work(record)
    assert isinstance(bench, Piped) and bench.process.stdin is not None
    before = len(events(record))
    bench.process.stdin.write(b"LOT-")
    assert bench.end() == (0, "")
    assert [event["kind"] for event in events(record)[before:]] == ["stopped"]
    assert events(record)[-1]["reason"] == "the input ended"


def test_end_of_input_on_a_terminal(record: Path) -> None:
    bench = at_work(record, Terminal)
    assert isinstance(bench, Terminal)
    bench.child.sendeof()
    with pytest.raises(Ended, match="The input ended"):
        bench.question()
    bench.child.close()
    assert bench.child.exitstatus == 0


def test_a_signal_while_an_answer_is_taken_waits_until_it_is_saved(record: Path) -> None:
    """The clock is looked at before a question is told, and between reading an answer and writing it."""
    tick, looks = ticking(AN_HOUR_LATER), []

    def clock() -> datetime:
        if events(record)[-1]["kind"] == "read again":
            looks.append(tick())
            if len(looks) == 2:
                os.kill(os.getpid(), signal.SIGTERM)
        return tick()

    status, said = talked(record.parents[1], ["1", "T. Sample", "SN-1", "LOT-1", "-259 FKM"], clock)
    assert status == 143
    assert said.endswith("> LOT-1 Ended by SIGTERM. All that was confirmed is saved.")
    assert [event["kind"] for event in events(record)[-2:]] == ["told", "stopped"]
    assert events(record)[-2]["value"] == "LOT-1"


def test_it_stops_where_the_person_says_so(record: Path) -> None:
    status, said = talked(
        record.parents[1], ["1", "T. Sample", "SN-1", "?stop the shift is over", "3"], ticking(AN_HOUR_LATER)
    )
    assert status == 0
    assert "Left as it is. All that was confirmed is saved." in said
    assert events(record)[-1]["reason"] == "the shift is over"
