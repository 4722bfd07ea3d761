"""The index: whatever became of the records, it says what one made from scratch would say."""

from __future__ import annotations

import dataclasses
import sqlite3
from collections.abc import Sequence
from datetime import date
from functools import cache
from pathlib import Path

import pytest

from benchcheck.session.events import Disposed, Event, GroupStarted
from benchcheck.session.remarks import Weight
from benchcheck.session.state import Job
from benchcheck.store import index_file, index_taking
from benchcheck.store.index import Index
from benchcheck.store.index_queries import Listed, Query
from benchcheck.store.index_taking import Progress
from benchcheck.store.library import load_registers, parse_procedure
from benchcheck.store.workspace import Workspace
from tests.report import sample
from tests.store.shelf import bytes_of, put, put_departed, put_released, shelf

TODAY = date(2026, 11, 20)
COLUMNS = {
    "records": "file, size, changed_ns, remembered, serial, procedure, revision, variant, practice, opened, "
    "last, last_utc, events, last_seal, state, judged, words, weight, remark_count, reading",
    "mentions": "kind, key, name, event",
    "remarks": "place, kind, weight, sentence, event",
    "uses": "instrument, day, event",
    "concessions": "expires, limited, name, event",
    "shown": "procedure, place, readings",
}


@pytest.fixture
def workspace(tmp_path: Path) -> Workspace:
    return shelf(tmp_path / "workspace")


def index_of(workspace: Workspace) -> Index:
    """An index that is up to date."""
    index = Index(workspace)
    index.refresh()
    return index


def by_file(index: Index, query: Query | None = None, today: date = TODAY) -> dict[str, Listed]:
    """What is listed, in order, by the start of the file's name."""
    return {each.file[:4]: each for each in index.listed(query or Query(), today)}


def kinds(listed: Listed) -> list[str]:
    return [remark.kind for remark in listed.remarks]


def contents(workspace: Workspace) -> dict[str, list[str]]:
    """All that the tables on disk say, in an order that does not depend on how they came to be."""
    with sqlite3.connect(workspace.sessions / index_file.NAME) as tables:
        found = {}
        for table, columns in COLUMNS.items():
            of = table if table == "records" else f"{table} JOIN records ON records.id = record"
            named = ", ".join(f"{table}.{column}" for column in columns.split(", "))
            found[table] = sorted(map(repr, tables.execute(f"SELECT records.file, {named} FROM {of}")))
    tables.close()
    return found


def from_scratch(workspace: Workspace) -> dict[str, list[str]]:
    """What the tables say once the file is deleted and made again."""
    (workspace.sessions / index_file.NAME).unlink()
    index_of(workspace).close()
    return contents(workspace)


# ---------------------------------------------------------------------- pumps with twelve screws

TWELVE = sample.PROCEDURE.replace("circle = 4", "circle = 12").encode()
FINE = sample.INSTRUMENTS.replace('graduation = "0.5 N·m"', 'graduation = "0.1 N·m"', 1)


@cache
def tightened(readings: tuple[float, ...], folder: Path) -> Sequence[Event]:
    """Twelve screws, with these readings in their two rounds, and all else with care."""
    workspace = Workspace(folder)
    job = Job(parse_procedure(TWELVE, "twelve.toml").model, load_registers(workspace))
    bench = sample.Bench(of=job)
    bench.until("tighten/tighten:F1", "round 1")
    for value in readings:
        bench.until("tighten/tighten:F1", "round")
        bench.answer(f"{value:g}")
    bench.finish()
    return bench.events


def row(step: float) -> tuple[float, ...]:
    """Both rounds of readings, beside their targets of 10 and 20 N·m in a way of their own."""
    around = [0.3, -0.2, 0.1, -0.4, 0.2, -0.1, 0.4, -0.3, 0.2, 0.1, -0.2, 0.3]
    return tuple(
        round(target + each * (1 if place % step else -1), 1)
        for target in (10, 20)
        for place, each in enumerate(around)
    )


@pytest.fixture
def copies(workspace: Workspace) -> Workspace:
    """Three pumps: the third has the readings of the first."""
    workspace.instruments.write_text(FINE)
    sha256 = workspace.pin(TWELVE)
    for days, (serial, step) in enumerate((("5001", 2), ("5002", 3), ("5003", 2))):
        events = tightened(row(step), workspace.folder)
        put(workspace, bytes_of(events, serial, days, procedure_sha256=sha256), f"{serial}-{days:03}.toml")
    return workspace


def test_readings_of_an_earlier_pump_are_found(copies: Workspace) -> None:
    found = by_file(index_of(copies))
    assert list(found) == ["5003", "5002", "5001"]
    assert [kinds(each) for each in found.values()] == [["readings copied"], [], []]
    assert "those of pump 5001 of 2026-11-02" in found["5003"].remarks[0].sentence


def test_with_the_earlier_pump_the_likeness_goes(copies: Workspace) -> None:
    with index_of(copies) as index:
        (copies.sessions / "5001-000.toml").unlink()
        index.refresh()
        assert not any(each.remarks for each in index.listed(Query(), TODAY))
    assert contents(copies) == from_scratch(copies)


def test_an_earlier_pump_that_comes_later_is_compared_all_the_same(copies: Workspace) -> None:
    first = copies.sessions / "5001-000.toml"
    data = first.read_bytes()
    first.unlink()
    index_of(copies).close()
    put(copies, data, first.name)
    with index_of(copies) as index:
        assert kinds(by_file(index)["5003"]) == ["readings copied"]
    assert contents(copies) == from_scratch(copies)


# ---------------------------------------------------------------------- what is listed


def test_what_stands_out_comes_first_and_clean_ones_last(workspace: Workspace) -> None:
    put_released(workspace, "4471")
    put_departed(workspace, "4472", 1)
    damaged = put_released(workspace, "4473", 2)
    data = bytearray(damaged.read_bytes())
    data[5000] ^= 1
    damaged.write_bytes(data)
    workspace.seen_seals.remember("4474-20261105T070000Z.toml", 5, "ab" * 32)
    put(workspace, b"format = 2\n", "4475-000.toml")

    found = by_file(index_of(workspace))
    assert set(list(found)[:2]) == {"4473", "4474"}
    assert list(found)[2:] == ["4475", "4472", "4471"]
    assert [(each.state, each.weight) for each in found.values()][2:] == [
        ("unreadable", Weight.OPEN),
        ("released", Weight.DEPARTS),
        ("released", 0),
    ]
    assert found["4473"].state == "damaged" and "does not match" in found["4473"].remarks[0].sentence
    assert found["4474"].state == "missing" and found["4474"].serial == "4474"
    assert found["4472"].remarks[0].event is not None


def test_a_record_cut_back_is_damaged_and_one_torn_is_not(workspace: Workspace) -> None:
    whole = put_released(workspace, "4471").read_bytes()
    seal = whole.rindex(b'\nchain = "sha256:') + len(b'\nchain = "sha256:')
    events = whole.count(b"\n[[event]]\n")
    workspace.seen_seals.remember("4471-000.toml", events, whole[seal : seal + 64].decode())
    put(workspace, whole[: whole.rindex(b"\n[[event]]\n")], "4471-000.toml")
    put(workspace, put_released(workspace, "4472").read_bytes()[:-20], "4472-000.toml")

    found = by_file(index_of(workspace))
    assert found["4471"].state == "damaged" and "cut away" in found["4471"].remarks[0].sentence
    assert found["4472"].state == "open" and kinds(found["4472"]) == ["torn"]


def test_a_record_of_nothing_is_listed_and_hides_no_other(workspace: Workspace) -> None:
    put(workspace, b"", "4470-000.toml")
    put(workspace, b"no record at all\n", "4469-000.toml")
    put_released(workspace, "4471")
    found = by_file(index_of(workspace))
    assert {each.file[:4]: each.state for each in found.values()} == {
        "4469": "damaged",
        "4470": "unreadable",
        "4471": "released",
    }


def test_practice_comes_after_all_work(workspace: Workspace) -> None:
    put_released(workspace, "4471")
    practice = bytes_of(sample.departed().events, "4472", 1, practice=True)
    put(workspace, practice, "4472-001.toml")
    assert list(by_file(index_of(workspace))) == ["4471", "4472"]


@pytest.mark.parametrize(
    "text",
    [
        "4472",
        "w. specimen",
        "LOT-1",
        "w-1",
        "2026-11-03",
        "3 nov 2026",
        "tiny-b",
        "Released",
        "4472 tiny w-1",
    ],
)
def test_records_are_found_by_what_is_typed(workspace: Workspace, text: str) -> None:
    put_released(workspace, "4471", practice=True)
    put_released(workspace, "4472", 1)
    with index_of(workspace) as index:
        assert "4472" in by_file(index, Query(text))
        assert not index.listed(Query(f"{text} nowhere"), TODAY)
        found = index.listed(Query(text), TODAY)
        assert index.count(Query(text)) == len(found)
        assert [index.place(text, each.file, TODAY) for each in found] == list(range(len(found)))
        assert index.place(f"{text} nowhere", found[0].file, TODAY) is None


def test_pages_of_the_latest(workspace: Workspace) -> None:
    for days in range(3):
        put_released(workspace, f"447{days}", days)
    with index_of(workspace) as index:
        assert list(by_file(index, Query(latest_first=True, limit=2))) == ["4472", "4471"]
        assert list(by_file(index, Query(latest_first=True, limit=2, offset=2))) == ["4470"]
        assert index.states() == {"released": 3}
        assert list(by_file(index, Query(state="open"))) == []


def test_names_lead_to_their_records(workspace: Workspace) -> None:
    put_released(workspace, "44 71")
    put_departed(workspace, "4472", 1)
    with index_of(workspace) as index:
        both = ["4472-001.toml", "44 71-000.toml"]
        assert index.mentioning("instrument", "w-1") == both
        assert index.mentioning("person", "Q EXAMPLE") == both
        assert index.mentioning("lot", "lot-1") == both
        assert index.mentioning("procedure", "tiny") == index.mentioning("procedure", "tiny-B") == both
        assert index.mentioning("serial", "4471") == both[1:]
        assert index.mentioning("procedure", "tiny-A") == []
        assert index.names("instrument") == ["W-1"]


def test_before_the_events_are_read_the_summary_speaks(workspace: Workspace) -> None:
    put_departed(workspace, "4472")
    index = Index(workspace)
    index.refresh(events=False)
    (listed,) = index.listed(Query(), TODAY)
    assert not listed.read and listed.weight == Weight.DEPARTS and kinds(listed) == ["not read yet"]
    assert index.mentioning("instrument", "W-1") and index.unread() == 1


# ---------------------------------------------------------------------- days and registers


def test_a_calibration_that_turns_out_to_have_ended_is_seen_without_reading_again(
    workspace: Workspace,
) -> None:
    put_released(workspace, "4471")
    with index_of(workspace) as index:
        assert not by_file(index)["4471"].remarks
        text = sample.INSTRUMENTS.replace("2027-01-31", "2026-10-31")
        workspace.instruments.write_text(text)
        assert index.refresh().read == 0
        (remark,) = by_file(index)["4471"].remarks
        assert remark.sentence == "W-1 was used on 2026-11-02; its calibration ended on 2026-10-31."


def test_a_wrench_that_turns_out_finer_is_weighed_again(workspace: Workspace) -> None:
    put_released(workspace, "4471")
    with index_of(workspace) as index:
        workspace.instruments.write_text(FINE)
        assert index.refresh().read == 1


def test_a_concession_runs_out_while_nothing_changes(workspace: Workspace) -> None:
    events = [
        dataclasses.replace(each, expires="2027-03-31", limit="water only")
        if isinstance(each, Disposed)
        else each
        for each in sample.departed().events
    ]
    put(workspace, bytes_of(events, "4471"), "4471-000.toml")
    put_released(workspace, "4472", 1)
    with index_of(workspace) as index:
        for day, there in ((date(2027, 2, 28), False), (date(2027, 3, 1), True), (date(2027, 4, 1), True)):
            assert ("concession expires" in kinds(by_file(index, today=day)["4471"])) is there
        assert by_file(index, today=date(2027, 4, 1))["4471"].weight == Weight.OPEN


def test_a_procedure_that_is_not_at_hand_is_said_and_read_when_it_is(workspace: Workspace) -> None:
    put_released(workspace, "4471")
    (pinned,) = workspace.pinned_procedures.iterdir()
    content = pinned.read_bytes()
    pinned.unlink()
    with index_of(workspace) as index:
        (listed,) = index.listed(Query(), TODAY)
        assert kinds(listed) == ["not understood"] and listed.state == "released"
        assert index.refresh().read == 0
        workspace.pin(content)
        assert index.refresh().read == 1
        assert by_file(index)["4471"].remarks == ()


def test_events_that_do_not_fit_their_procedure_are_said(workspace: Workspace) -> None:
    events = [
        dataclasses.replace(each, group="F9") if isinstance(each, GroupStarted) else each
        for each in sample.released().events
    ]
    put(workspace, bytes_of(events, "4471"), "4471-000.toml")
    put_released(workspace, "4472", 1)
    found = by_file(index_of(workspace))
    assert kinds(found["4471"]) == ["not understood"] and not found["4472"].remarks


# ---------------------------------------------------------------------- always as from scratch


def test_it_is_as_from_scratch_whatever_became_of_the_records(workspace: Workspace) -> None:
    for days in range(4):
        put_released(workspace, f"447{days}", days)
    with index_of(workspace) as index:
        put_departed(workspace, "4480", 5)  # new
        grown = put(workspace, bytes_of(sample.departed().events[:40], "4471", 1), "4471-001.toml")
        (workspace.sessions / "4472-002.toml").unlink()
        damaged = bytearray((workspace.sessions / "4473-003.toml").read_bytes())
        damaged[-200] ^= 1
        put(workspace, bytes(damaged), "4473-003.toml")
        workspace.seen_seals.remember("4470-000.toml", 2, "0" * 64)  # contradicts what is there
        done = index.refresh()
        assert (done.taken_in, done.read, done.gone) == (4, 4, 1)

        put(workspace, bytes_of(sample.departed().events, "4471", 1), grown.name)
        assert index.refresh().taken_in == 1
        assert index.refresh().taken_in == 0
    assert contents(workspace) == from_scratch(workspace)


def test_it_can_be_stopped_and_gone_on_with(workspace: Workspace, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(index_taking, "READINGS", 1)
    for days in range(4):
        put_released(workspace, f"447{days}", days)
    seen: list[Progress] = []
    with Index(workspace) as index:
        stopped = index.refresh(seen.append, lambda: len(seen) > 2)
        assert stopped.stopped and index.unread() == 2
        assert [each.what for each in seen] == ["records", "events", "events"]
        assert [(each.done, each.of) for each in seen[1:]] == [(1, 4), (2, 4)]
        assert len(index.listed(Query(), TODAY)) == 4
        assert index.refresh().read == 2
    assert contents(workspace) == from_scratch(workspace)


def test_over_processes_it_comes_to_the_same(workspace: Workspace, monkeypatch: pytest.MonkeyPatch) -> None:
    put_departed(workspace, "4471")
    put_released(workspace, "4472", 1)
    index_of(workspace).close()
    here = contents(workspace)
    monkeypatch.setattr(index_taking, "FEW_GLANCES", 0)
    monkeypatch.setattr(index_taking, "GLANCES", 1)
    assert from_scratch(workspace) == here


# ---------------------------------------------------------------------- a file that is no good


def garbage(path: Path) -> None:
    path.write_bytes(b"no tables at all, and longer than a page of them is\n" * 200)


def other_tables(path: Path) -> None:
    with sqlite3.connect(path) as tables:
        tables.execute("CREATE TABLE records (serial TEXT)")
    tables.close()


def of_another_version(path: Path) -> None:
    with sqlite3.connect(path) as tables:
        tables.execute("UPDATE meta SET value = '0' WHERE name = 'version'")
    tables.close()


@pytest.mark.parametrize("spoil", [garbage, other_tables, of_another_version])
def test_a_file_that_is_no_good_is_made_again(workspace: Workspace, spoil: object) -> None:
    put_released(workspace, "4471")
    path = workspace.sessions / index_file.NAME
    if spoil is of_another_version:
        index_of(workspace).close()
    assert callable(spoil)
    spoil(path)
    with index_of(workspace) as index:
        assert list(by_file(index)) == ["4471"]
    assert contents(workspace) == from_scratch(workspace)


def broken_while_open(path: Path) -> None:
    """Every page but the first is overwritten, as a failing disk may do it."""
    data = path.read_bytes()
    path.write_bytes(data[:4096] + b"\xff" * (len(data) - 4096))


def emptied_while_open(path: Path) -> None:
    with sqlite3.connect(path) as tables:
        tables.execute("DROP TABLE remarks")
    tables.close()


@pytest.mark.parametrize("spoil", [broken_while_open, emptied_while_open])
def test_a_file_that_breaks_under_the_hand_is_made_again(workspace: Workspace, spoil: object) -> None:
    put_departed(workspace, "4471")
    with index_of(workspace) as index:
        assert callable(spoil)
        spoil(workspace.sessions / index_file.NAME)
        assert by_file(index)["4471"].weight == Weight.DEPARTS
    index_of(workspace).close()
    assert contents(workspace) == from_scratch(workspace)


def test_where_no_file_can_be_the_index_is_kept_in_memory(workspace: Workspace) -> None:
    put_released(workspace, "4471")
    (workspace.sessions / index_file.NAME).mkdir()
    with index_of(workspace) as index:
        assert list(by_file(index)) == ["4471"]


def test_while_another_program_writes_it_is_kept_in_memory(
    workspace: Workspace, monkeypatch: pytest.MonkeyPatch
) -> None:
    put_released(workspace, "4471")
    index_of(workspace).close()
    monkeypatch.setattr(index_file, "WAIT_SECONDS", 0.0)
    other = sqlite3.connect(workspace.sessions / index_file.NAME)
    other.execute("BEGIN EXCLUSIVE")
    with index_of(workspace) as index:
        assert list(by_file(index)) == ["4471"]
    other.rollback()
    other.close()
    assert contents(workspace) == from_scratch(workspace)


def test_a_workspace_without_records_lists_none(tmp_path: Path) -> None:
    with index_of(Workspace(tmp_path)) as index:
        assert index.listed(Query(), TODAY) == [] and index.states() == {}


def test_nothing_is_taken_in_between_what_is_asked_in_one_moment(workspace: Workspace) -> None:
    with Index(workspace) as index:
        index.refresh()
        other = sqlite3.connect(workspace.sessions / index_file.NAME, timeout=0)
        with index.one_moment():
            index.count(Query())
            with pytest.raises(sqlite3.OperationalError, match="locked"), other:
                other.execute("DELETE FROM records")
        with other:
            other.execute("DELETE FROM records")
        assert index.count(Query()) == 0
        other.close()
