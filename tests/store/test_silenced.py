"""A finding that a procedure lets stand: its reason goes into the record, and into the session's report."""

from __future__ import annotations

from pathlib import Path

from benchcheck.report.journal import journal_of, proof_of
from benchcheck.report.plain_text import as_text
from benchcheck.report.session_document import document_of
from benchcheck.session.events import Opened, from_table
from benchcheck.store.library import load_registers
from benchcheck.store.recorded import read_recorded, state_of_recorded
from tests.small_shop import SmallShop, text

SILENCE = (
    '\n[[silence]]\nrule = "torque-too-low"\nat = "F"\nreason = "the cover is soft;\\nasked [/] about"\n'
)


def report(shop: SmallShop, path: Path) -> str:
    recorded = read_recorded(path)
    state, events = state_of_recorded(recorded, load_registers(shop.workspace))
    proof = proof_of(path.name, recorded.record, recorded.verdict)
    return as_text((document_of(journal_of(state, events, proof)),))


def test_the_reason_is_in_the_first_event_and_in_the_report(tmp_path: Path) -> None:
    shop = SmallShop(tmp_path)
    shop.write("tiny-a.toml", text() + SILENCE)
    sitting = shop.begun()
    sitting.record.close()
    opened = shop.workspace.read_record(sitting.path).events[0]
    assert opened["silenced"] == ["torque-too-low at F: the cover is soft;\nasked [/] about"]
    said = " ".join(report(shop, sitting.path).split())
    assert "and the procedure lets stand: - torque-too-low at F: the cover is soft; asked [/] about" in said
    assert "(event 1)" in said


def test_without_any_the_report_says_nothing_of_it(tmp_path: Path) -> None:
    shop = SmallShop(tmp_path)
    sitting = shop.begun()
    sitting.record.close()
    assert shop.workspace.read_record(sitting.path).events[0]["silenced"] == []
    assert "lets stand" not in report(shop, sitting.path)


def test_a_record_of_before_is_read_as_ever() -> None:
    table = {"number": 1, "kind": "opened", "at": "2026-01-02T08:00:00+00:00", "by": "", "serial_again": "1"}
    opened = from_table(table)
    assert isinstance(opened, Opened) and opened.silenced == ()
