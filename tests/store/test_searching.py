"""Searching a workspace: what is opened, what is passed over for good reason, and what is told as a gap."""

from __future__ import annotations

import hashlib
from dataclasses import replace
from datetime import UTC, date, datetime
from functools import cache
from pathlib import Path

import pytest

from benchcheck.session import commands
from benchcheck.session.events import PositionRepaired, PositionTightened
from benchcheck.session.record import sound_seals
from benchcheck.session.trace.search import Gap, Standing, Trace
from benchcheck.session.trace.wanted import Wanted
from benchcheck.store.index import Index
from benchcheck.store.searching import find, may_name
from benchcheck.store.workspace import Workspace
from tests.report import sample
from tests.session.trace.test_tightenings import REVISION_C, moved_on

NOW = datetime(2026, 11, 25, 18, 0, tzinfo=UTC)
SHA256 = hashlib.sha256(sample.PROCEDURE.encode()).hexdigest()


@cache
def record_bytes(serial: str, back: bool = False) -> bytes:
    bench = sample.Bench(procedure_sha256=SHA256, serial=serial)
    if back:
        bench.until("cure/wait")
        bench.command(commands.go_back, "nut", "the wrong locker was used")
    bench.finish()
    return sample.record_of(bench.state, bench.events)


@pytest.fixture
def workspace(tmp_path: Path) -> Workspace:
    """Two sessions on two pumps."""
    made = Workspace(tmp_path)
    made.pin(sample.PROCEDURE.encode())
    for serial, back in (("4471", False), ("4472", True)):
        (made.sessions / f"{serial}.toml").write_bytes(record_bytes(serial, back))
    return made


def search(workspace: Workspace, wanted: Wanted) -> Trace:
    return find(workspace, sample.registers(), wanted, NOW)


def serials(trace: Trace) -> list[str]:
    return [each.past.header.serial for each in trace.touched]


def test_every_record_is_searched(workspace: Workspace) -> None:
    trace = search(workspace, Wanted("instrument", "W-1"))
    assert serials(trace) == ["4471", "4472"] and (trace.records, trace.gaps) == (2, ())
    assert serials(search(workspace, Wanted("serial", "4472"))) == ["4472"]
    assert search(workspace, Wanted("lot", "LOT-77")).touched == ()


def test_a_record_that_nowhere_names_it_is_not_read_event_by_event(
    workspace: Workspace, monkeypatch: pytest.MonkeyPatch
) -> None:
    def read(data: bytes) -> None:
        raise AssertionError("it was read")

    monkeypatch.setattr("benchcheck.store.searching.read", read)
    assert search(workspace, Wanted("instrument", "W-9")).touched == ()
    with pytest.raises(AssertionError, match="it was read"):
        search(workspace, Wanted("instrument", "W-1"))


def test_a_record_is_known_by_its_bytes_to_name_nobody_of_that_name() -> None:
    data = record_bytes("4471")
    assert may_name(data, Wanted("person", "q example")) and not may_name(data, Wanted("person", "Q. Exam"))
    assert may_name(data, Wanted("lot", "LOT-1")) and not may_name(data, Wanted("lot", "LOT"))
    assert may_name(data, Wanted("procedure", "tiny-B")) and not may_name(data, Wanted("procedure", "tiny-A"))
    # a name that had to be written with an escape is left to the reading
    assert may_name(rb'wrench = "W-\"1\""', Wanted("instrument", 'W-"1"'))


# --- what cannot be searched ----------------------------------------------------------------------------


def gap(workspace: Workspace, wanted: Wanted) -> Gap:
    (only,) = search(workspace, wanted).gaps
    return only


def test_a_damaged_record_is_searched_up_to_its_damage_and_named(workspace: Workspace) -> None:
    path = workspace.sessions / "4471.toml"
    data = bytearray(path.read_bytes())
    seals = sound_seals(bytes(data))
    data[seals[-3] + 90] ^= 1  # in the last event but one
    path.write_bytes(data)
    trace = search(workspace, Wanted("instrument", "W-1"))
    assert serials(trace) == ["4471", "4472"]
    (only,) = trace.gaps
    assert (only.file, only.serial, only.beyond, only.damaged) == ("4471.toml", "4471", len(seals) - 2, True)
    # it is named too where what is searched for is not in its good part
    assert gap(workspace, Wanted("instrument", "W-9")).file == "4471.toml"


def test_a_record_without_a_good_event_is_named(workspace: Workspace) -> None:
    (workspace.sessions / "4471.toml").write_bytes(b"nothing of ours\n" * 40)
    only = gap(workspace, Wanted("instrument", "W-1"))
    assert (only.file, only.serial, only.beyond, only.damaged) == ("4471.toml", "", 0, True)


def test_a_record_that_was_cut_back_is_named(workspace: Workspace) -> None:
    path = workspace.sessions / "4471.toml"
    data = path.read_bytes()
    seals = sound_seals(data)
    digits = data[seals[-1] + 16 : seals[-1] + 80].decode()
    workspace.seen_seals.remember(path.name, len(seals), digits)
    assert search(workspace, Wanted("instrument", "W-9")).gaps == ()
    path.write_bytes(data[: seals[-2] + 82])
    only = gap(workspace, Wanted("instrument", "W-9"))
    assert (only.beyond, only.damaged) == (len(seals) - 1, True) and "cut away" in only.why


def test_a_record_that_is_gone_is_named(workspace: Workspace) -> None:
    workspace.seen_seals.remember("4470.toml", 3, "a" * 64)
    trace = search(workspace, Wanted("serial", "4470"))
    assert trace.records == 3 and [each.file for each in trace.gaps] == ["4470.toml"]


def test_a_record_whose_procedure_is_gone_is_named_and_not_called_damaged(workspace: Workspace) -> None:
    (workspace.pinned_procedures / f"{SHA256}.toml").unlink()
    trace = search(workspace, Wanted("instrument", "W-1"))
    assert trace.touched == () and [(each.beyond, each.damaged) for each in trace.gaps] == [(0, False)] * 2


def test_a_record_that_makes_no_sense_hides_no_other(workspace: Workspace) -> None:
    bench = sample.Bench(procedure_sha256=SHA256, serial="4475")
    bench.finish()
    events = list(bench.events)
    first = next(at for at, event in enumerate(events) if isinstance(event, PositionTightened))
    events[first - 1] = PositionRepaired(
        number=first,
        at=events[first].at,
        by="Q. Example",
        group="F1",
        position=1,
        target="many",
        tolerance="10 %",
        name="Q. Example",
        reason="stripped",
    )
    (workspace.sessions / "4475.toml").write_bytes(sample.record_of(bench.state, tuple(events)))
    trace = search(workspace, Wanted("instrument", "W-1"))
    assert serials(trace) == ["4471", "4472"]
    assert [(each.file, each.damaged) for each in trace.gaps] == [("4475.toml", False)]


def test_an_event_of_a_newer_program_ends_the_search_of_its_record(workspace: Workspace) -> None:
    from benchcheck.session.record import Chain, header_bytes

    bench = sample.Bench(procedure_sha256=SHA256, serial="4473")
    bench.until("open/remove:cover")
    data = header_bytes(bench.state.header)
    chain = Chain(data)
    tables = [event.as_table() for event in bench.events]
    tables.append({**tables[-1], "number": len(tables) + 1, "kind": "weighed"})
    for table in tables:
        block, chain = chain.then(table)
        data += block
    (workspace.sessions / "4473.toml").write_bytes(data)
    only = gap(workspace, Wanted("serial", "4473"))
    assert (only.beyond, only.damaged) == (len(tables) - 1, False) and "weighed" in only.why


# --- how far it is, and stopping it ----------------------------------------------------------------------


@pytest.mark.parametrize("with_index", [False, True], ids=["without the index", "with it"])
def test_what_was_not_reached_when_it_was_stopped_is_counted(with_index: bool, workspace: Workspace) -> None:
    (workspace.sessions / "4473.toml").write_bytes(record_bytes("4473"))
    told: list[tuple[str, int, int]] = []

    def trace(most: int) -> Trace:
        told.clear()
        index = Index(workspace) if with_index else None
        return find(
            workspace,
            sample.registers(),
            Wanted("instrument", "W-1"),
            NOW,
            index,
            lambda progress: told.append((progress.what, progress.done, progress.of)),
            lambda: sum(what == "records searched" for what, _, _ in told) >= most,
        )

    assert trace(9).not_reached == 0
    assert [each for each in told if each[0] == "records searched"] == [
        ("records searched", number, 3) for number in (1, 2, 3)
    ]
    part = trace(1)
    assert (serials(part), part.not_reached, part.records) == (["4471"], 2, 3)
    nothing = trace(0)
    assert (nothing.touched, nothing.not_reached, nothing.misspelt, nothing.by_index) == ((), 3, False, False)


@pytest.mark.parametrize(("with_index", "looked_into"), [(False, 3), (True, 2)])
def test_a_later_record_that_was_not_reached_is_counted_too(
    with_index: bool, looked_into: int, workspace: Workspace
) -> None:
    """It names nothing of it, and may have taken the pump apart."""
    bench = sample.Bench(procedure_sha256=SHA256, serial="4471")
    bench.until("measure")
    (workspace.sessions / "4471-2.toml").write_bytes(sample.record_of(bench.state, bench.events))
    index = Index(workspace) if with_index else None
    if index is not None:
        index.refresh()
    reached: list[int] = []
    part = find(
        workspace,
        sample.registers(),
        Wanted("instrument", "W-1"),
        NOW,
        index,
        lambda progress: reached.append(progress.done),
        lambda: len(reached) >= looked_into,
    )
    assert len(reached) >= looked_into
    assert serials(part) == ["4471", "4472"] and part.not_reached == 1


# --- a name that nobody knows ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("wanted", "like"),
    [
        (Wanted("instrument", "W-11"), ("W-1",)),
        (Wanted("person", "Q. Exempla"), ("Q. Example",)),
        (Wanted("procedure", "tiny", step="covr-on"), ("cover-on",)),
    ],
    ids=lambda each: "" if isinstance(each, tuple) else each.kind,
)
def test_a_name_that_nobody_knows_is_told_with_those_like_it(
    wanted: Wanted, like: tuple[str, ...], workspace: Workspace
) -> None:
    for trace in (search(workspace, wanted), indexed(workspace, wanted)):
        assert trace.touched == () and trace.misspelt
        assert trace.like[0] == like[0]


@pytest.mark.parametrize(
    "wanted", [Wanted("instrument", "W-2"), Wanted("instrument", "W-1", since=date(2027, 1, 1))]
)
def test_a_known_name_that_was_not_used_is_not_called_misspelt(wanted: Wanted, workspace: Workspace) -> None:
    for trace in (search(workspace, wanted), indexed(workspace, wanted)):
        assert trace.touched == () and not trace.misspelt


# --- the same pump later --------------------------------------------------------------------------------


def test_a_later_record_that_names_nothing_of_it_still_takes_it_apart(workspace: Workspace) -> None:
    """The later session used another wrench; its teardown loosened what the first one tightened."""
    bench = sample.Bench(procedure_sha256=SHA256, serial="44 71")
    bench.until("measure")
    header = replace(bench.state.header, opened="2027-11-02T07:00:00+00:00")
    moved = tuple(replace(event, at=event.at.replace("2026", "2027")) for event in bench.events)
    data = sample.record_of(replace(bench.state, header=header), moved)
    assert not may_name(data, Wanted("instrument", "W-1"))
    (workspace.sessions / "4471-2.toml").write_bytes(data)
    trace = search(workspace, Wanted("instrument", "W-1"))
    standing = {each.past.header.serial: each.standing for each in trace.touched}
    assert standing == {"4471": Standing.NOT_IN_THE_PUMP, "4472": Standing.IN_THE_PUMP}


def test_a_record_that_moved_on_is_searched_by_each_text_it_followed(workspace: Workspace) -> None:
    bench = sample.Bench(procedure_sha256=SHA256, serial="4474")
    bench.finish()
    past = moved_on(bench, hashlib.sha256(REVISION_C.encode()).hexdigest())
    path = workspace.sessions / "4474.toml"
    path.write_bytes(sample.record_of(bench.state, past.events))
    only = gap(workspace, Wanted("procedure", "tiny-C"))
    assert only.file == "4474.toml" and "a procedure it moved on to" in only.why
    workspace.pin(REVISION_C.encode())
    wanted = Wanted("procedure", "tiny-C")
    for trace in (search(workspace, wanted), indexed(workspace, wanted)):
        assert serials(trace) == ["4474"] and trace.gaps == ()


# --- with the index -------------------------------------------------------------------------------------


def indexed(workspace: Workspace, wanted: Wanted) -> Trace:
    with Index(workspace) as index:
        return find(workspace, sample.registers(), wanted, NOW, index)


@pytest.mark.parametrize(
    "wanted",
    [
        Wanted("instrument", "w-1"),
        Wanted("lot", "LOT-1"),
        Wanted("lot", "LOT-9"),
        Wanted("procedure", "tiny-b"),
        Wanted("person", "q example"),
        Wanted("serial", "44 72"),
        Wanted("serial", "4471", since=date(2026, 11, 2), until=date(2026, 11, 2)),
        Wanted("instrument", "W-1", since=date(2027, 1, 1)),
    ],
    ids=lambda wanted: f"{wanted.kind} {wanted.name}",
)
@pytest.mark.parametrize("read", [False, True], ids=["glanced at", "read"])
def test_by_the_index_the_same_is_found(wanted: Wanted, read: bool, workspace: Workspace) -> None:
    with Index(workspace) as index:
        index.refresh(events=read)
    (workspace.sessions / "4473.toml").write_bytes(b"nothing of ours\n" * 40)
    plain, by_index = search(workspace, wanted), indexed(workspace, wanted)
    # only the index knows every lot and serial that there is
    assert by_index == replace(plain, by_index=True, misspelt=by_index.misspelt, like=by_index.like)


def test_the_index_keeps_records_that_name_nothing_of_it_shut(
    workspace: Workspace, monkeypatch: pytest.MonkeyPatch
) -> None:
    with Index(workspace) as index:
        index.refresh()

    def opened(path: Path) -> bytes:
        raise AssertionError(f"{path.name} was opened")

    monkeypatch.setattr("benchcheck.store.searching.read_file", opened)
    trace = indexed(workspace, Wanted("instrument", "W-9"))
    assert trace.touched == () and trace.records == 2
    with pytest.raises(AssertionError, match=r"447\d.toml was opened"):
        indexed(workspace, Wanted("instrument", "W-1"))
