"""A reviewer's word in a record on disk: behind the end, sealed, superseded and never erased."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from benchcheck.session import commands
from benchcheck.session.closing import agrees
from benchcheck.session.prompt import Outcome
from benchcheck.store.judging import decide, judge
from benchcheck.store.lock import Held
from benchcheck.store.recorded import read_recorded, state_of_recorded
from benchcheck.store.records import DamagedRecord
from benchcheck.store.sitting import CannotOpen, take_up
from benchcheck.store.workspace import Workspace
from tests.report import sample

REVIEWER = "R. Outline"


class Shop:
    """A workspace with one record of the small test pump in it."""

    def __init__(self, folder: Path, bench: sample.Bench) -> None:
        self.workspace = Workspace(folder)
        procedure = sample.PROCEDURE.encode()
        bench = bench_with(bench, self.workspace.pin(procedure))
        self.path = self.workspace.sessions / "4471.toml"
        self.path.write_bytes(sample.record_of(bench.state, bench.events))
        self.now = bench.now + timedelta(days=1)

    def judge(self, outcome: str, reason: str = "all is there", **named: str) -> Outcome | None:
        return self.judge_as(REVIEWER, outcome, reason, self.now, **named)

    def judge_as(
        self, name: str, outcome: str, reason: str, now: datetime, limit: str = "", expires: str = ""
    ) -> Outcome | None:
        return judge(
            self.workspace, sample.registers(), self.path, outcome, name, reason, now,
            limit=limit, expires=expires,
        )  # fmt: skip


def bench_with(bench: sample.Bench, sha256: str) -> sample.Bench:
    """The same session by a procedure of these bytes."""
    made = sample.Bench(procedure_sha256=sha256)
    made.write(bench.events)
    made.now = bench.now
    return made


def finished() -> sample.Bench:
    bench = sample.Bench()
    bench.finish()
    return bench


@pytest.fixture
def shop(tmp_path: Path) -> Shop:
    return Shop(tmp_path, finished())


def rule(outcome: Outcome | None) -> str:
    assert outcome is not None
    return outcome.refusals[0].rule


def test_the_word_stands_behind_the_end_and_all_seals_hold(shop: Shop) -> None:
    before = shop.path.read_bytes()
    assert shop.judge("accepted") is None
    assert shop.path.read_bytes().startswith(before)
    recorded = read_recorded(shop.path)
    assert recorded.verdict.intact and recorded.verdict.released
    assert any("remembered seal" in each.lower() for each in recorded.verdict.proved_by)
    state, events = state_of_recorded(recorded, sample.registers())
    assert state.outcome == "accepted" and agrees(state) == ()
    assert events[-1].kind == "judged" and events[-1].by == REVIEWER
    assert state.judged is not None and state.closed is not None
    assert state.judged.people == state.closed.people and state.judged.serial == "4471"


def test_a_later_word_takes_its_place_and_the_earlier_one_stays(shop: Shop) -> None:
    assert shop.judge("accepted") is None
    assert shop.judge("returned", "the customer hears a noise") is None
    state, events = state_of_recorded(read_recorded(shop.path), sample.registers())
    assert state.outcome == "returned"
    assert [each.kind for each in events[-3:]] == ["closed", "judged", "judged"]


@pytest.mark.parametrize(
    ("name", "outcome", "named", "refused"),
    [
        ("Q. Example", "accepted", {}, "own-work"),
        ("T. Sample", "accepted", {}, "person-not-entitled"),
        (REVIEWER, "accepted under concession", {"limit": "200 h"}, "no-limit"),
        (REVIEWER, "accepted under concession", {"limit": "200 h", "expires": "soon"}, "not-a-day"),
        (
            REVIEWER,
            "accepted under concession",
            {"limit": "200 h", "expires": "2020-01-01"},
            "concession-expired",
        ),
        (REVIEWER, "accepted", {"limit": "200 h"}, "no-concession"),
    ],
)
def test_what_is_refused_leaves_every_byte_as_it_was(
    shop: Shop, name: str, outcome: str, named: dict[str, str], refused: str
) -> None:
    before = shop.path.read_bytes()
    assert rule(shop.judge_as(name, outcome, "so", shop.now, **named)) == refused
    assert shop.path.read_bytes() == before
    assert [path.name for path in shop.workspace.sessions.iterdir() if path.is_file()] == ["4471.toml"]


def test_an_open_record_is_not_judged(tmp_path: Path) -> None:
    bench = sample.Bench()
    bench.until("cover-on")
    assert rule(Shop(tmp_path, bench).judge("accepted")) == "record-is-open"


def test_while_a_deviation_is_open_nothing_is_accepted(tmp_path: Path) -> None:
    bench = sample.Bench()
    bench.until("cover-on/fit:G1")
    bench.answer("-138 NBR", why="the kit holds no other one")
    bench.command(commands.close, "scrapped", "the body is cracked")
    shop = Shop(tmp_path, bench)
    assert rule(shop.judge("accepted")) == "deviation-open"
    assert shop.judge("rejected", "it was scrapped") is None


def test_a_reviewers_clock_behind_the_benchs_spoils_nothing(shop: Shop) -> None:
    assert shop.judge_as(REVIEWER, "accepted", "so", shop.now - timedelta(days=30)) is None
    assert read_recorded(shop.path).verdict.intact


def test_a_word_that_was_torn_off_is_set_aside_and_the_next_one_says_so(shop: Shop) -> None:
    end = shop.path.stat().st_size
    assert shop.judge("accepted") is None
    shop.workspace.seen_seals.path.unlink()  # the power failed before the seal was remembered
    shop.path.write_bytes(shop.path.read_bytes()[: end + 60])
    assert shop.judge("accepted", "again") is None
    state, _ = state_of_recorded(read_recorded(shop.path), sample.registers())
    assert state.judged is not None and state.judged.torn_bytes == 60
    assert (shop.workspace.sessions / state.judged.torn_file).stat().st_size == 60


def test_a_damaged_record_is_added_nothing_to(shop: Shop) -> None:
    data = shop.path.read_bytes()
    shop.path.write_bytes(data.replace(b"T. Sample", b"T. Simple", 1))
    before = shop.path.read_bytes()
    with pytest.raises(DamagedRecord):
        shop.judge("accepted")
    assert shop.path.read_bytes() == before


@pytest.fixture
def waiting(tmp_path: Path) -> Shop:
    """With a ring of another size taken over, nobody's decision on it yet, and the pump left in order."""
    bench = sample.Bench()
    bench.until("cover-on/fit:G1")
    bench.answer("-138 NBR", why="the kit holds no other one")
    bench.command(commands.stop, "waits for a decision")
    return Shop(tmp_path, bench)


def decided(shop: Shop, name: str = REVIEWER, deviation: int = 1, expires: str = "") -> Outcome | None:
    return decide(
        shop.workspace, sample.registers(), shop.path, deviation, "use as is", name, "the groove is the same",
        shop.now, limit="up to 10 bar", expires=expires,
    )  # fmt: skip


def test_a_deviation_of_a_pump_left_as_it_is_is_decided_on(waiting: Shop) -> None:
    before = waiting.path.read_bytes()
    assert decided(waiting, expires="2027-03-31") is None
    assert waiting.path.read_bytes().startswith(before)
    recorded = read_recorded(waiting.path)
    state, events = state_of_recorded(recorded, sample.registers())
    assert recorded.verdict.intact and not state.open_deviations
    assert (events[-1].kind, events[-1].by) == ("disposed", REVIEWER)
    assert state.dispositions[1].expires == "2027-03-31"
    # nothing else happened to the pump: it is taken up as what was left in order
    take_up(waiting.workspace, sample.registers(), waiting.path, "", waiting.now).record.close()
    taken_up = next(each for each in read_recorded(waiting.path).record.events if each["kind"] == "taken up")
    assert taken_up["stopped"]


@pytest.mark.parametrize(
    ("named", "wrong"),
    [
        ({"name": "T. Sample"}, "person-not-entitled"),
        ({"name": "N. Body"}, "person-not-known"),
        ({"deviation": 2}, "no-such-deviation"),
        ({"expires": "2020-01-01"}, "concession-expired"),
    ],
)
def test_a_decision_that_is_refused_leaves_every_byte_as_it_was(
    waiting: Shop, named: dict[str, Any], wrong: str
) -> None:
    before = waiting.path.read_bytes()
    assert rule(decided(waiting, **named)) == wrong
    assert waiting.path.read_bytes() == before


def test_whoever_decided_does_not_judge_the_session_later(waiting: Shop) -> None:
    decided(waiting)
    state, _ = state_of_recorded(read_recorded(waiting.path), sample.registers())
    assert REVIEWER in state.people


def test_nothing_is_decided_on_a_pump_that_is_on_a_bench_or_torn_off_or_over(
    waiting: Shop, tmp_path: Path
) -> None:
    at_the_bench = waiting.workspace.open_record(waiting.path, "T. Sample", "2026-11-02T08:00:00+00:00")
    with at_the_bench, pytest.raises(Held):
        decided(waiting)
    torn = waiting.path.read_bytes() + b"\n[[event]]\nnumb"
    waiting.path.write_bytes(torn)
    with pytest.raises(CannotOpen, match="taken up at the bench first"):
        decided(waiting)
    assert waiting.path.read_bytes() == torn
    assert rule(decided(Shop(tmp_path / "over", finished()))) == "record-is-closed"
