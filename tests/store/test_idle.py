"""Who works is asked again after the idle time of the shop, which the register gives."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

from benchcheck.session.events import SignedOff, from_table
from benchcheck.store.recorded import read_recorded
from tests.pumps import NOW, TECHNICIAN
from tests.small_shop import SmallShop, go_on


def test_the_name_is_asked_again_and_the_record_says_since_when(tmp_path: Path) -> None:
    shop = SmallShop(tmp_path)
    register = shop.workspace.procedures / "shop.toml"
    register.write_text(register.read_text("utf-8").replace('idle = "20 min"', 'idle = "5 min"'), "utf-8")
    sitting = shop.begun()
    go_on(sitting, lambda sitting: sitting.state.technician == TECHNICIAN)
    prompt = sitting.ask(NOW + timedelta(minutes=5))
    assert prompt is not None and prompt.question != "name"
    prompt = sitting.ask(NOW + timedelta(minutes=6))
    assert prompt is not None and prompt.question == "name"
    off = from_table(read_recorded(sitting.path).record.events[-1])
    assert isinstance(off, SignedOff) and (off.name, off.idle_seconds) == (TECHNICIAN, 360)
    prompt = sitting.ask(NOW + timedelta(hours=2))
    assert prompt is not None and prompt.question == "name", "it is asked once"
    sitting.record.close()
