"""What lies where in a workspace, and that nothing typed or read from a file leads out of it."""

from __future__ import annotations

import hashlib
import shutil
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchcheck.session.record import Header
from benchcheck.session.verification import OutsideSeal
from benchcheck.store.disk import StoreFault
from benchcheck.store.weighed import weigh
from benchcheck.store.workspace import Workspace, demonstration, safe_name
from tests.session.samples import HEADER, PROCEDURE, event, header_with, record_bytes, seals_of


@pytest.fixture
def workspace(tmp_path: Path) -> Workspace:
    return Workspace(tmp_path)


def finished(workspace: Workspace, header: Header = HEADER, *, closed: bool = False) -> Path:
    """A record that nobody is writing any more."""
    with workspace.create_record(header, event(1), PROCEDURE, "Ana Fitter") as record:
        if closed:
            record.append(event(2, "closed", outcome="released"))
        return record.path


def test_a_new_workspace_lists_nothing_and_makes_nothing(workspace: Workspace) -> None:
    assert workspace.procedure_paths() == workspace.record_paths() == workspace.open_record_paths() == []
    assert workspace.rehearsal_paths("sample") == []
    assert workspace.missing_records() == []
    assert list(workspace.folder.iterdir()) == []


def test_a_record_is_named_for_its_pump_and_the_time_in_utc(workspace: Workspace) -> None:
    path = finished(workspace)
    assert path == workspace.sessions / "SN-0815-a-20260302T080000Z.toml"
    assert path.read_bytes() == record_bytes(event(1))
    assert workspace.record_paths() == [path]
    assert workspace.pinned(HEADER.procedure_sha256) == PROCEDURE


def test_records_of_one_name_get_a_number(workspace: Workspace) -> None:
    paths = [finished(workspace, header_with(serial=serial)) for serial in ("A/1", "A 1", "A:1")]
    assert [path.name for path in paths] == [
        "A-1-20260302T080000Z.toml",
        "A-1-20260302T080000Z-2.toml",
        "A-1-20260302T080000Z-3.toml",
    ]
    # Also where one is still being written, and where one is gone whose seal is remembered.
    with workspace.create_record(header_with(serial="B"), event(1), PROCEDURE, "Ana Fitter") as held:
        assert finished(workspace, header_with(serial="B")).stem == f"{held.path.stem}-2"
    paths[0].unlink()
    assert workspace.missing_records() == [paths[0].name]
    assert finished(workspace, header_with(serial="A 1")).stem == f"{paths[0].stem}-4"


def test_a_header_that_names_other_bytes_than_those_pinned_is_refused(workspace: Workspace) -> None:
    with pytest.raises(ValueError, match="another procedure"):
        workspace.create_record(HEADER, event(1), PROCEDURE + b"\n", "Ana Fitter")
    assert workspace.record_paths() == []


def test_registers_and_rehearsals_are_told_from_procedures(workspace: Workspace) -> None:
    for name in ("b.toml", "a.toml", "shop.toml", "instruments.toml", "people.toml", "README.md", ".x.toml"):
        workspace.procedures.mkdir(exist_ok=True)
        (workspace.procedures / name).write_text("")
    (workspace.rehearsals / "a").mkdir(parents=True)
    (workspace.rehearsals / "a" / "empty-groove.toml").write_text("")
    (workspace.procedures / "folder.toml").mkdir()
    assert [path.name for path in workspace.procedure_paths()] == ["a.toml", "b.toml"]
    assert [path.name for path in workspace.rehearsal_paths("a")] == ["empty-groove.toml"]
    assert workspace.rehearsal_paths("..") == workspace.rehearsal_paths("../rehearsals/a") == []
    assert workspace.shop.name == "shop.toml" and workspace.shop.is_file()
    assert workspace.instruments.is_file() and workspace.people.is_file()


def test_open_records_are_those_without_a_closing_event(workspace: Workspace) -> None:
    path = finished(workspace, header_with(serial="open"))
    finished(workspace, header_with(serial="closed"), closed=True)
    long_after = finished(workspace, header_with(serial="judged"), closed=True)
    with workspace.open_record(long_after, "R. Viewer", HEADER.opened) as record:
        for number in range(3, 400):
            record.append(event(number, "judged"))
    assert long_after.stat().st_size > 100_000
    assert workspace.open_record_paths() == [path]
    # A closing event that was cut off did not happen.
    closed = finished(workspace, header_with(serial="torn"), closed=True)
    closed.write_bytes(closed.read_bytes()[:-10])
    assert workspace.open_record_paths() == [path, closed]


def test_a_record_can_be_read_while_another_writes_it(workspace: Workspace) -> None:
    with workspace.create_record(HEADER, event(1), PROCEDURE, "Ana Fitter") as record:
        record.append(event(2))
        assert len(workspace.read_record(record.path).events) == 2
        assert weigh(record.path).verdict.intact


def test_verify_weighs_the_remembered_seals_those_handed_in_and_the_pinned_copy(workspace: Workspace) -> None:
    path = finished(workspace, closed=True)
    verdict = weigh(path).verdict
    assert verdict.intact and verdict.released
    assert sum("The remembered seal is that of event 2" in one for one in verdict.proved_by) == 1
    assert sum("procedure kept beside" in one for one in verdict.proved_by) == 1
    wrong = OutsideSeal(1, "0" * 64, "The printed check value")
    assert weigh(path, (wrong,)).verdict.first_bad_event == 1
    data = path.read_bytes()
    path.write_bytes(data[: seals_of(data)[0].end])
    assert weigh(path).verdict.first_bad_event == 2
    shutil.rmtree(workspace.pinned_procedures)
    assert any("Which procedure" in one for one in weigh(path).verdict.not_proved)


def test_verify_changes_nothing(workspace: Workspace) -> None:
    path = finished(workspace)
    path.write_bytes(path.read_bytes() + b"\n[[event]]\nnumb")
    before = {file: file.read_bytes() for file in workspace.folder.rglob("*") if file.is_file()}
    assert weigh(path).verdict.intact
    assert {file: file.read_bytes() for file in workspace.folder.rglob("*") if file.is_file()} == before


def test_a_pinned_copy_that_was_spoiled_is_not_used_and_is_written_again(workspace: Workspace) -> None:
    sha256 = workspace.pin(PROCEDURE)
    path = workspace.pinned_procedures / f"{sha256}.toml"
    assert (sha256, path.read_bytes()) == (hashlib.sha256(PROCEDURE).hexdigest(), PROCEDURE)
    path.write_bytes(b"something else")
    with pytest.raises(StoreFault, match="is not the procedure that was pinned"):
        workspace.pinned(sha256)
    workspace.pin(PROCEDURE)
    assert workspace.pinned(sha256) == PROCEDURE
    assert [file.name for file in workspace.pinned_procedures.iterdir()] == [path.name]


def test_a_digest_out_of_a_file_leads_nowhere_else(workspace: Workspace) -> None:
    workspace.sessions.mkdir()
    secret = workspace.folder / "secret.toml"
    secret.write_bytes(PROCEDURE)
    with pytest.raises(StoreFault, match="cannot be read"):
        workspace.pinned("../../secret")
    path = workspace.sessions / "SN.toml"
    path.write_bytes(record_bytes(event(1), header=replace(HEADER, procedure_sha256="../../secret")))
    assert not any("procedure kept" in one for one in weigh(path).verdict.proved_by)


def test_prints_never_replace_each_other(workspace: Workspace) -> None:
    first = workspace.print_text("label SN/1", "one\n")
    second = workspace.print_text("label SN/1", "two: é\n")
    assert [first.name, second.name] == ["label-SN-1.txt", "label-SN-1-2.txt"]
    assert first.parent == workspace.prints
    assert (first.read_text(), second.read_text("utf-8")) == ("one\n", "two: é\n")


@settings(max_examples=200, deadline=None)
@given(st.text() | st.sampled_from(["", ".", "..", "../x", "/", "a/b\\c", "\x00", "-rf", "CON", "é" * 300]))
def test_a_name_made_from_any_text_is_a_plain_file_name(text: str) -> None:
    name = safe_name(text)
    assert name and name == Path(name).name
    assert not name.startswith((".", "-")) and len(name.encode()) <= 80
    assert name.isprintable() and not set(name) & set('/\\:*?"<>| ')
    assert safe_name(name) == name


def test_the_demonstration_is_copied_and_never_over_what_is_there(
    workspace: Workspace, tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch
) -> None:
    shown = tmp_path_factory.mktemp("shown")
    (shown / "rehearsals" / "pump").mkdir(parents=True)
    (shown / "pump-a.toml").write_text("a")
    (shown / "shop.toml").write_text("s")
    (shown / "README.md").write_text("r")
    (shown / "notes.swp").write_text("n")
    (shown / "rehearsals" / "pump" / "wrong.toml").write_text("w")
    monkeypatch.setattr("benchcheck.store.workspace.demonstration", lambda: shown)
    workspace.procedures.mkdir()
    workspace.shop.write_text("mine")
    written = workspace.write_demonstration()
    assert [str(path.relative_to(workspace.procedures)) for path in written] == [
        "README.md",
        "pump-a.toml",
        "rehearsals/pump/wrong.toml",
    ]
    assert workspace.shop.read_text() == "mine"
    assert (workspace.rehearsals / "pump" / "wrong.toml").read_text() == "w"
    assert workspace.write_demonstration() == []
    shutil.rmtree(shown)
    with pytest.raises(StoreFault, match="cannot be read"):
        workspace.write_demonstration()


def test_the_demonstration_of_a_repository_is_its_own_procedures() -> None:
    assert str(demonstration()) == str(Path(__file__).parents[2] / "procedures")
