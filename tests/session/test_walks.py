"""Whatever is answered at a bench, what has to hold holds: a sample of random walks.

The campaign `tests.campaigns.every_walk` walks many more.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

import pytest

from benchcheck.assembly.facing import misfits
from benchcheck.assembly.planned import rounds_of
from benchcheck.session import engine
from benchcheck.session.events import GroupLoosened, GroupStarted, PositionTightened, from_table
from benchcheck.session.fold import folded
from benchcheck.session.going_back import BACK, BUILDING
from benchcheck.session.prompt import Outcome
from benchcheck.session.record import read
from benchcheck.session.state import Job, State
from tests.pumps import CAN, LOOSE, main_job, opened, tiny_job
from tests.session.bench import Bench
from tests.session.walks import GARBAGE, Look, Walk, careful_way, finished_with_care


@cache
def can_job() -> Job:
    return tiny_job(CAN)


@cache
def loose_job() -> Job:
    return tiny_job(LOOSE)


PUMPS: list[tuple[Callable[[], Job], str | None]] = [(can_job, None), (loose_job, None), (main_job, "-05")]
CAN_SEEDS, MAIN_SEEDS = range(16), range(4)


def nothing_used_up_is_overlooked(bench: Bench) -> None:
    """What is dead and in comes out before anything else is done."""
    state = bench.state
    building = any(act.phase in BUILDING and act.id in state.facts for act in state.acts)
    used_up = [part for part in state.assembly.seated if state.assembly.used_up(part)]
    if used_up and building and state.closed is None:
        act = engine.next_act(state)
        assert act is not None and act.step.id == BACK, (used_up, act)


def no_void_act_stands_without_being_owed(bench: Bench) -> None:
    state = bench.state
    act = engine.next_act(state)
    if act is None or act.step.id == BACK:
        return
    for each in state.acts:
        fact = state.facts.get(each.id)
        if fact is not None and fact.void and each.verb.value == "tighten":
            hold = state.assembly.held.get(each.target)
            assert hold is None or not hold.passed, each.id


def released_only_when_right(bench: Bench) -> None:
    """Nothing leads to release with an empty groove, a wrong facing, a slack screw, or anything undecided."""
    state = bench.state
    if state.closed is None or state.closed.outcome != "released":
        return
    now, pump = state.assembly, state.pump
    assert misfits(now) == ()
    assert all(len(now.living_rings(groove)) == 1 and now.closed(groove) for groove in pump.grooves)
    assert set(pump.needed()) <= set(now.seated)
    assert not [part for part in now.seated if pump.parts[part].temporary or now.used_up(part)]
    assert not state.open_deviations and not state.suspects and not state.reaching
    tight = tightened_fully(bench)
    for group in pump.groups.values():
        assert now.held[group.id].passed
        positions = set(range(1, group.count + 1)) - now.held[group.id].disposed
        assert {(group.id, position) for position in positions} <= tight


def tightened_fully(bench: Bench) -> set[tuple[str, int]]:
    """By the events alone: positions that had their last round after their group was last run in."""
    found: set[tuple[str, int]] = set()
    for event in bench.events(GroupStarted, GroupLoosened, PositionTightened):
        if isinstance(event, PositionTightened):
            if event.round == rounds_of(bench.state.pump, event.group):
                found.add((event.group, event.position))
        elif isinstance(event, GroupStarted | GroupLoosened):
            found = {each for each in found if each[0] != event.group}
    return found


def asking_changes_nothing(bench: Bench) -> None:
    before = fingerprint(bench.state)
    assert engine.ask(bench.state, bench.now) == engine.ask(bench.state, bench.now)
    assert fingerprint(bench.state) == before


def fingerprint(state: State) -> str:
    """All that a state holds but what it works by."""
    return repr({name: value for name, value in vars(state).items() if name != "job"})


def together(*looks: Look) -> Look:
    def look(bench: Bench) -> None:
        for each in looks:
            each(bench)

    return look


EACH_MOVE = together(
    nothing_used_up_is_overlooked, no_void_act_stands_without_being_owed, released_only_when_right
)


@pytest.mark.parametrize(("job", "variant"), PUMPS, ids=["can", "loose", "main"])
def test_from_anywhere_care_leads_to_a_right_release(job: Callable[[], Job], variant: str | None) -> None:
    """Nothing that happens at a bench leads where a careful technician cannot get out of."""
    for seed in MAIN_SEEDS if job is main_job else CAN_SEEDS:
        walk = Walk(seed, careful_way(job, variant))
        walk.moves(40, EACH_MOVE)
        came = finished_with_care(walk.bench, EACH_MOVE)
        assert came in ("released", "scrapped"), (seed, came)


@pytest.mark.parametrize(("job", "variant"), PUMPS, ids=["can", "loose", "main"])
def test_the_fold_of_the_bytes_is_the_state(job: Callable[[], Job], variant: str | None) -> None:
    for seed in MAIN_SEEDS if job is main_job else CAN_SEEDS:
        walk = Walk(1000 + seed, careful_way(job, variant))
        walk.moves(40, lambda bench: None)
        record = read(walk.bench.bytes)
        assert record.damage is None and not record.torn
        begun = opened(walk.bench.state.job, variant)
        assert folded(begun, map(from_table, record.events)) == walk.bench.state, seed


@pytest.mark.parametrize(("job", "variant"), PUMPS, ids=["can", "loose", "main"])
def test_asking_is_pure_and_a_refused_answer_changes_nothing(
    job: Callable[[], Job], variant: str | None
) -> None:
    for seed in MAIN_SEEDS if job is main_job else CAN_SEEDS:
        walk = Walk(2000 + seed, careful_way(job, variant))
        walk.moves(15, lambda bench: None)
        bench = walk.bench
        if engine.ask(bench.state, bench.now) is None:
            continue
        asking_changes_nothing(bench)
        before, number = fingerprint(bench.state), len(bench.bytes)
        for text in (*GARBAGE, *(choice.value for choice in bench.prompt.choices)):
            outcome = engine.answer(bench.state, bench.prompt.id, text, bench.now)
            assert fingerprint(bench.state) == before, (seed, text)
            if isinstance(outcome, Outcome):
                assert outcome.refusals
                assert bench.carry_out(outcome) is outcome
                assert (fingerprint(bench.state), len(bench.bytes)) == (before, number)


@pytest.mark.parametrize(("job", "variant"), PUMPS, ids=["can", "loose", "main"])
def test_an_answer_to_what_is_no_longer_asked_is_refused(job: Callable[[], Job], variant: str | None) -> None:
    for seed in MAIN_SEEDS if job is main_job else CAN_SEEDS:
        walk = Walk(3000 + seed, careful_way(job, variant))
        asked: list[str] = []

        def look(bench: Bench, asked: list[str] = asked) -> None:
            prompt = engine.ask(bench.state, bench.now)
            for old in asked:
                if prompt is None or prompt.id != old:
                    outcome = engine.answer(bench.state, old, "", bench.now)
                    assert isinstance(outcome, Outcome)
                    assert [refusal.rule for refusal in outcome.refusals] == ["no-longer-asked"]
            if prompt is not None:
                asked.append(prompt.id)

        walk.moves(15, look)
