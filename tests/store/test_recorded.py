"""Records read to be looked at: from a workspace or a copy, damaged, without what belongs beside them."""

from __future__ import annotations

import hashlib
from pathlib import Path

import pytest

from benchcheck.session.record import Chain, Fields, NewerFormat
from benchcheck.store.disk import StoreFault
from benchcheck.store.recorded import read_recorded, records_in, registers_of, state_of_recorded
from benchcheck.store.sitting import CannotOpen
from tests.report import sample


@pytest.fixture
def record(tmp_path: Path) -> Path:
    """A finished record in a folder of its own, with its procedure beside it."""
    return kept(tmp_path / "sessions")


def kept(folder: Path, data: bytes | None = None) -> Path:
    procedure = sample.PROCEDURE.encode()
    sha256 = hashlib.sha256(procedure).hexdigest()
    (folder / "procedures").mkdir(parents=True)
    (folder / "procedures" / f"{sha256}.toml").write_bytes(procedure)
    if data is None:
        bench = sample.Bench(procedure_sha256=sha256)
        bench.finish()
        data = sample.record_of(bench.state, bench.events)
    path = folder / "4471.toml"
    path.write_bytes(data)
    return path


def test_a_good_record(record: Path) -> None:
    recorded = read_recorded(record)
    assert recorded.verdict.intact and recorded.verdict.released
    assert any("procedure kept beside" in each for each in recorded.verdict.proved_by)
    state, events = state_of_recorded(recorded, sample.registers())
    assert state.outcome == "released" and len(events) == len(recorded.record.events)
    assert state.job.registers.wrench("W-1") is not None


def test_without_registers_the_record_speaks_for_itself(record: Path) -> None:
    recorded = read_recorded(record)
    assert registers_of(recorded) is None
    state, _ = state_of_recorded(recorded, None)
    assert state.outcome == "released" and state.job.registers.wrenches == ()
    assert state.job.registers.shop.bench == recorded.header.bench


def test_the_registers_are_those_of_the_workspace_named() -> None:
    root = Path(__file__).parents[2]
    recorded = read_recorded(root / "procedures" / "shop.toml")  # no record; its place is what counts here
    registers = registers_of(recorded, root)
    assert registers is not None and registers.wrench("TW-01") is not None
    assert registers_of(recorded) is not None


def test_damage_leaves_the_good_part(record: Path) -> None:
    data = bytearray(record.read_bytes())
    data[data.rindex(b"released")] ^= 1
    record.write_bytes(data)
    recorded = read_recorded(record)
    last = recorded.verdict.first_bad_event
    assert last is not None and not recorded.verdict.intact
    state, events = state_of_recorded(recorded, None)
    assert state.outcome == "open" and len(events) == last - 1


def test_a_seal_that_is_remembered_is_weighed(record: Path) -> None:
    (record.parent / "seen-seals.txt").write_text(f"{'0' * 64} 3 4471.toml\n")
    recorded = read_recorded(record)
    assert recorded.verdict.first_bad_event == 1 and recorded.record.damage is None


def test_a_procedure_that_is_missing_or_another_is_said(record: Path) -> None:
    (pinned,) = (record.parent / "procedures").iterdir()
    pinned.write_text("format = 1\n")
    with pytest.raises(StoreFault, match="not the procedure that was pinned"):
        state_of_recorded(read_recorded(record), None)
    pinned.unlink()
    with pytest.raises(StoreFault, match="cannot be read"):
        state_of_recorded(read_recorded(record), None)


def test_the_name_of_the_procedure_leads_nowhere_else(tmp_path: Path) -> None:
    bench = sample.Bench(procedure_sha256="../../../etc/passwd")
    bench.until("open/")
    recorded = read_recorded(kept(tmp_path / "sessions", sample.record_of(bench.state, bench.events)))
    with pytest.raises(CannotOpen, match="does not say by which procedure"):
        state_of_recorded(recorded, None)


def test_what_is_no_record_has_no_header(tmp_path: Path) -> None:
    path = tmp_path / "x.toml"
    path.write_text("hello\n")
    recorded = read_recorded(path)
    with pytest.raises(CannotOpen, match="holds no event"):
        _ = recorded.header
    path.write_text("format = 9\n")
    with pytest.raises(NewerFormat):
        read_recorded(path)


@pytest.mark.parametrize(
    "of_another",
    [
        {"kind": "painted"},
        {"kind": "remark", "text": 5},
        {
            "kind": "position tightened",
            "act": "close/tighten:no-such-group",
            "group": "no-such-group",
            "round": 1,
            "position": 1,
            "wrench": "TW-02",
            "how": "set",
            "value": 5.0,
            "unit": "N·m",
            "newton_metre": 5.0,
        },
        {"kind": "remark", "text": "x", "at": "tomorrow"},
    ],
)
def test_an_event_of_another_program_is_said(of_another: Fields, tmp_path: Path) -> None:
    bench = sample.Bench(procedure_sha256=hashlib.sha256(sample.PROCEDURE.encode()).hexdigest())
    bench.until("open/")
    data = sample.record_of(bench.state, bench.events)
    strange: Fields = {
        "number": len(bench.events) + 1,
        "at": "2026-11-02T07:00:00Z",
        "by": "X",
        **of_another,
    }
    block, _ = Chain(data).then(strange)
    recorded = read_recorded(kept(tmp_path / "sessions", data + block))
    assert recorded.verdict.intact
    with pytest.raises(CannotOpen, match=f"event {strange['number']} .*another program"):
        state_of_recorded(recorded, None)


def test_records_of_a_folder_and_those_that_are_gone(record: Path) -> None:
    folder = record.parent
    (folder / ".hidden.toml").write_text("")
    (folder / "seen-seals.txt").write_text(f"{'0' * 64} 3 gone.toml\n")
    assert records_in(folder) == ([record], ["gone.toml"])
    assert records_in(record) == ([record], [])
