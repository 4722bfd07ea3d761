"""How the text that a session follows stands in the workspace, looked at when its record is taken up."""

from __future__ import annotations

import shutil
from datetime import date, timedelta
from pathlib import Path

import pytest

from benchcheck.session import engine
from benchcheck.session.events import (
    Event,
    HaltLifted,
    MovedOn,
    ProcedureDiffers,
    StayedOn,
    WorkHalted,
    from_table,
)
from benchcheck.session.revisions import offered
from benchcheck.store.disk import StoreFault
from benchcheck.store.library import load_registers
from benchcheck.store.recorded import read_recorded, state_of_recorded
from benchcheck.store.sitting import CannotOpen, Sitting, state_of
from tests.pumps import NOW, TECHNICIAN
from tests.small_shop import STOP, SmallShop, text

MORE_TORQUE = ('target = "20 N·m"', 'target = "24 N·m"')
LATER = timedelta(days=1)


class Shop(SmallShop):
    """With a session under way: its technician has signed on."""

    def __init__(self, folder: Path, *, practice: bool = False) -> None:
        super().__init__(folder)
        self.path = self.left_at("open", practice=practice)

    def taken_up_again(self, *, answer: str = "") -> list[Event]:
        """Take it up, sign on and answer what is asked then; what the record got by that."""
        before = len(read_recorded(self.path).record.events)
        sitting = self.taken_up(self.path, NOW + LATER)
        self.said(sitting, TECHNICIAN)
        if answer:
            self.said(sitting, answer)
        sitting.record.close()
        kinds = (WorkHalted, HaltLifted, ProcedureDiffers, StayedOn, MovedOn)
        events = map(from_table, read_recorded(self.path).record.events[before:])
        return [event for event in events if isinstance(event, kinds)]

    def said(self, sitting: Sitting, text: str) -> None:
        prompt = sitting.ask(NOW + LATER)
        assert prompt is not None
        outcome = sitting.answer(prompt.id, text, NOW + LATER)
        assert outcome is None, outcome


def test_where_nothing_has_changed_nothing_is_said(tmp_path: Path) -> None:
    assert Shop(tmp_path).taken_up_again() == []


def test_a_file_that_is_gone_or_broken_or_of_another_pump_changes_nothing(tmp_path: Path) -> None:
    shop = Shop(tmp_path)
    shop.write("tiny-a.toml", "format = 1\n[procedure\n")
    shop.write("other-a.toml", text("Z").replace('id = "tiny"', 'id = "other"'))
    assert shop.taken_up_again() == []
    (shop.workspace.procedures / "tiny-a.toml").unlink()
    assert shop.taken_up_again() == []


def test_the_file_that_was_changed_is_told_with_what_differs(tmp_path: Path) -> None:
    shop = Shop(tmp_path)
    shop.write("tiny-a.toml", text(change=MORE_TORQUE))
    differs, stayed = shop.taken_up_again(answer="stay")
    assert isinstance(differs, ProcedureDiffers) and isinstance(stayed, StayedOn)
    assert differs.differences == ("cover screws: torque target 20 N·m -> 24 N·m",)
    assert differs.procedure_sha256 == stayed.procedure_sha256
    kept = shop.workspace.pinned(differs.procedure_sha256).decode()
    assert kept == text(change=MORE_TORQUE), "both texts are kept, whatever becomes of the file"
    assert shop.taken_up_again() == [], "who has stayed is not asked again about the same text"


def test_a_text_that_is_gone_again_is_offered_no_more(tmp_path: Path) -> None:
    shop = Shop(tmp_path)
    shop.write("tiny-b.toml", text("B", change=MORE_TORQUE))
    shop.taken_up_again(answer="stay")
    (shop.workspace.procedures / "tiny-b.toml").unlink()
    sitting = shop.taken_up(shop.path, NOW + LATER)
    assert offered(sitting.state) is None
    sitting.record.close()


def test_a_later_revision_is_told_and_an_earlier_one_or_a_draft_is_not(tmp_path: Path) -> None:
    shop = Shop(tmp_path)
    shop.write("tiny-0.toml", text("A").replace("2026-01-02", "2025-01-02").replace('"A"', '"0"'))
    shop.write("tiny-c.toml", text("C", "draft"))
    assert shop.taken_up_again() == []
    shop.write("tiny-b.toml", text("B", change=MORE_TORQUE))
    (differs,) = shop.taken_up_again()
    assert isinstance(differs, ProcedureDiffers) and differs.revision == "B"


def test_who_moved_on_is_read_again_by_both_texts_also_in_a_copy(tmp_path: Path) -> None:
    shop = Shop(tmp_path)
    shop.write("tiny-b.toml", text("B", change=MORE_TORQUE))
    _, moved = shop.taken_up_again(answer="move on")
    assert isinstance(moved, MovedOn) and moved.revision == "B"
    state = state_of(shop.workspace, load_registers(shop.workspace), shop.workspace.read_record(shop.path))
    assert state.job.procedure.procedure.revision == "B"
    assert shop.taken_up_again() == [], "the revision it began by is no news"
    copy = tmp_path / "copy"
    shutil.copytree(shop.workspace.sessions, copy)
    recorded = read_recorded(copy / shop.path.name)
    assert state_of_recorded(recorded, None)[0].procedure_sha256 == moved.procedure_sha256
    followed = f"from event {moved.number} on"
    assert f"The text followed {followed} is kept beside the records." in recorded.verdict.proved_by
    kept = copy / "procedures" / f"{moved.procedure_sha256}.toml"
    kept.write_text(text("B"), "utf-8")
    doubts = read_recorded(copy / shop.path.name).verdict.not_proved
    assert f"Which text was followed {followed}: its copy is not the one." in doubts
    with pytest.raises(StoreFault, match="is not the procedure that was pinned"):
        state_of_recorded(recorded, None)


def test_a_withdrawn_revision_stops_the_work_until_it_is_there_again(tmp_path: Path) -> None:
    shop = Shop(tmp_path)
    shop.write("tiny-a.toml", text(status="withdrawn"))
    (halted,) = shop.taken_up_again()
    assert halted == WorkHalted(
        why="tiny revision A is withdrawn", number=halted.number, at=halted.at, by=halted.by
    )
    assert shop.taken_up_again() == [], "it is stopped still"
    shop.write("tiny-a.toml", text())
    (lifted,) = shop.taken_up_again()
    assert isinstance(lifted, HaltLifted)


def test_a_stop_notice_stops_the_revision_it_names_from_its_day_on(tmp_path: Path) -> None:
    shop = Shop(tmp_path)
    shop.notice(STOP.replace('"A"', '"B"'))
    assert shop.taken_up_again() == []
    shop.notice(STOP + f"since = {date(2027, 1, 1)}\n")
    assert shop.taken_up_again() == []
    shop.notice(STOP)
    (halted,) = shop.taken_up_again()
    assert isinstance(halted, WorkHalted)
    assert halted.why == "the shop has a stop notice on tiny revision A: the cover cracks; ask Q. Example"


def test_under_a_stop_notice_nothing_is_begun(tmp_path: Path) -> None:
    shop = Shop(tmp_path)
    shop.notice(STOP.replace('revision = "A"\n', ""))
    with pytest.raises(CannotOpen, match="has a stop notice: the cover cracks"):
        shop.begun()
    shop.begun(practice=True).record.close()


def test_a_stopped_revision_leaves_the_way_to_one_that_is_not(tmp_path: Path) -> None:
    shop = Shop(tmp_path)
    shop.notice(STOP)
    shop.write("tiny-b.toml", text("B"))
    halted, differs, moved = shop.taken_up_again(answer="move on")
    assert isinstance(halted, WorkHalted) and isinstance(differs, ProcedureDiffers)
    assert isinstance(moved, MovedOn)
    assert shop.taken_up_again() == []


def test_practice_is_not_stopped_and_goes_with_a_draft_as_it_is_written(tmp_path: Path) -> None:
    shop = Shop(tmp_path, practice=True)
    shop.notice(STOP)
    shop.write("tiny-a.toml", text(status="draft", change=MORE_TORQUE))
    (differs,) = shop.taken_up_again()
    assert isinstance(differs, ProcedureDiffers)


def test_after_a_long_pause_it_is_looked_at_again(tmp_path: Path) -> None:
    shop = Shop(tmp_path)
    sitting = shop.taken_up(shop.path, NOW + LATER)
    shop.said(sitting, TECHNICIAN)
    shop.said(sitting, "SN-1")
    assert sitting.state.read_again == ()
    shop.notice(STOP)
    assert engine.long_pause(sitting.state, NOW + 2 * LATER) is not None
    sitting.ask(NOW + 2 * LATER)
    assert sitting.state.halted
    sitting.record.close()
