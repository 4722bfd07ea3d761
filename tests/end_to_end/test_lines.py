"""The real program, line by line, from an empty folder to a released pump; its record, read by a stranger."""

from __future__ import annotations

import hashlib
import re
import subprocess
import sys
import tomllib
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from benchcheck.store.library import load_registers
from benchcheck.store.sitting import state_of
from benchcheck.store.workspace import Workspace
from tests.end_to_end.bench import (
    REPOSITORY,
    Onlooker,
    Piped,
    Terminal,
    begin,
    real_program,
    with_clock,
    work_on,
)


@dataclass(frozen=True)
class Released:
    """What a whole run left behind."""

    folder: Path
    record: Path
    printed: str
    answers: int
    onlooker: Onlooker


def rebuilt(bench: Piped | Terminal, folder: Path, variant: str) -> Released:
    """A pump from intake to release."""
    begin(bench, variant=variant)
    onlooker = Onlooker(folder)
    answers = work_on(bench, onlooker)
    bench.say("2")
    status, errors = bench.end()
    assert (status, errors) == (0, "")
    return Released(folder, onlooker.path, bench.printed, answers, onlooker)


@pytest.fixture(scope="module", params=["-05", "-07"])
def released(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Released:
    folder = tmp_path_factory.mktemp("shop")
    return rebuilt(Piped(with_clock(folder)), folder, request.param)


def test_an_empty_folder_ends_in_a_released_pump(released: Released) -> None:
    assert "They are invented: not for use on a real pump." in released.printed
    assert "\nPump SN-1: RELEASED.\n" in released.printed
    assert released.answers > 250
    assert "NOT YET" not in released.printed


def test_the_bytes_are_the_state(released: Released) -> None:
    workspace = Workspace(released.folder)
    state = state_of(workspace, load_registers(workspace), workspace.read_record(released.record))
    piece_by_piece = released.onlooker.state
    assert state.outcome == "released"
    # The pump is worked out from the procedure, not from the events: each state has made its own.
    pump = piece_by_piece.pump
    same_pump = replace(state, job=piece_by_piece.job, assembly=replace(state.assembly, pump=pump))
    assert same_pump == piece_by_piece


def test_the_check_value_it_prints_proves_the_record(released: Released) -> None:
    found = re.search(r"Check value, for the label: (\d+: [0-9a-f ]+)\n", released.printed)
    assert found is not None
    verified = subprocess.run(
        [
            sys.executable, "-m", "benchcheck", "verify",
            "--check-value", found[1], str(released.record),
        ],
        cwd=REPOSITORY, capture_output=True, text=True,
    )  # fmt: skip
    assert verified.returncode == 0, verified.stdout + verified.stderr
    assert "check value" in verified.stdout


def test_nothing_printed_steers_a_terminal(released: Released) -> None:
    assert all(each.isprintable() or each == "\n" for each in released.printed)


def test_on_a_narrow_terminal_of_its_own(tmp_path: Path) -> None:
    done = rebuilt(Terminal(with_clock(tmp_path), columns=50), tmp_path, "-05")
    assert "Pump SN-1: RELEASED." in done.printed
    assert done.onlooker.state.outcome == "released"
    work = done.printed.partition("WHO: ")[2]
    printed = (line for line in work.splitlines() if not line.startswith("> "))
    assert [line for line in printed if len(line) >= 50] == []


def test_the_real_program_with_the_real_clock_through_intake(tmp_path: Path) -> None:
    bench = Piped(real_program(tmp_path))
    begin(bench)
    onlooker = Onlooker(tmp_path)
    work_on(bench, onlooker, 20)
    status, errors = bench.end()
    assert (status, errors) == (0, "")
    assert bench.printed.endswith("The input ended. All that was confirmed is saved.\n")
    assert onlooker.catch_up().stopped


# ---------------------------------------------------------------------- the record, read by a stranger


def sealed_events(data: bytes) -> list[dict[str, Any]]:
    """The events of a record, every seal of which fits. Nothing of the program is used."""
    above = hashlib.sha256()
    for line in data.splitlines(keepends=True):
        if line.startswith(b"chain = "):
            assert line == b'chain = "sha256:%b"\n' % above.hexdigest().encode()
        above.update(line)
    events: list[dict[str, Any]] = tomllib.loads(data.decode())["event"]
    assert data.count(b'\nchain = "sha256:') == len(events)
    assert [event["number"] for event in events] == list(range(1, len(events) + 1))
    return events


def test_a_stranger_finds_all_that_was_done(released: Released) -> None:
    data = released.record.read_bytes()
    record = tomllib.loads(data.decode())["record"]
    pinned = (released.record.parent / "procedures" / f"{record['procedure_sha256']}.toml").read_bytes()
    assert hashlib.sha256(pinned).hexdigest() == record["procedure_sha256"]
    procedure, events = tomllib.loads(pinned.decode()), sealed_events(data)

    def of_kind(kind: str, **fields: object) -> list[dict[str, Any]]:
        return [
            event
            for event in events
            if event["kind"] == kind and all(event[name] == value for name, value in fields.items())
        ]

    # Each groove's ring.
    assert len(procedure["groove"]) == 11
    for groove in procedure["groove"]:
        (fitted,) = of_kind("ring fitted", groove=groove["id"])
        assert (fitted["size"], fitted["material"]) == (groove["takes"], groove["material"])

    # Each position's last round; then the check pass, in which nothing moved.
    assert len(procedure["fasteners"]) == 6
    for group in procedure["fasteners"]:
        # A circle of screws, or as many as there are fittings that are screws themselves.
        count = group["layout"]["circle"] if "layout" in group else len(group["parts"])
        rounds = len(group.get("rounds", ())) or 1
        for position in range(1, count + 1):
            (last,) = of_kind("position tightened", group=group["id"], round=rounds, position=position)
            assert last["value"] > 0
            assert last["newton_metre"] > 0
        if group["pass"]:
            checked = of_kind("position checked", group=group["id"])
            assert sorted(event["position"] for event in checked) == list(range(1, count + 1))
            assert not any(event["moved"] for event in checked)

    # At least 24 h of cure between the impeller nut and the first reading of the test.
    (nut,) = of_kind("position tightened", group="F3")
    tests = [event for event in events if event.get("act", "").startswith("test/")]
    waited = datetime.fromisoformat(tests[0]["at"]) - datetime.fromisoformat(nut["at"])
    assert waited >= timedelta(hours=24)

    # Two names.
    (end,) = of_kind("closed")
    assert end is events[-1]
    assert end["outcome"] == "released"
    assert end["by"] and end["second"] and end["by"] != end["second"]
    (signed,) = of_kind("signed", act="release/sign")
    assert signed["second"] == end["second"]
