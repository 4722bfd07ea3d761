"""Whole rebuilds in which the real program is killed again and again, and has to come back right each time.

Used by the tests, for a sample, and by `python -m tests.campaigns.kills` for thousands. What must hold after
a kill: nothing confirmed is gone, at most the answer in flight is. The next start offers the record, says how
much it kept, starts the interrupted round again, asks serial, poses and open grooves anew, and goes on.
"""

from __future__ import annotations

import random
import signal
import time
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path

from benchcheck.session import engine
from benchcheck.session.prompt import Outcome
from benchcheck.session.record import read
from benchcheck.session.state import State
from tests.end_to_end.bench import Onlooker, Piped, begin, take_up, with_clock

START = 0.9
"""About how long the program takes from its start to its first question [s]."""
ANSWER = 0.03
"""About how long it takes over an answer [s]."""


@dataclass
class Tally:
    """What a campaign came to."""

    kills: Counter[str] = field(default_factory=Counter)
    """By where the program was."""
    rebuilds: int = 0
    answers: int = 0
    rounds_restarted: int = 0
    in_flight_kept: int = 0
    """Answers that were on the disk although the program had no time to say so."""
    in_flight_lost: int = 0
    torn: int = 0

    def __str__(self) -> str:
        kills = ", ".join(f"{count} {where}" for where, count in sorted(self.kills.items()))
        return (
            f"{self.kills.total()} kills ({kills}) in {self.rebuilds} rebuilds, all released; "
            f"{self.answers} answers; in flight {self.in_flight_kept} kept, {self.in_flight_lost} lost; "
            f"{self.rounds_restarted} rounds begun again; {self.torn} torn tails; nothing confirmed was lost"
        )


def rebuild_under_kills(folder: Path, chance: random.Random, kills: int, tally: Tally, variant: str) -> None:
    """One pump from intake to release, with about as many kills, spread over it."""
    left_to_answer = sorted(chance.sample(range(320), kills))
    bench, onlooker = _opened(folder, variant, chance, tally)
    answered = 0
    while (prompt := onlooker.prompt()) is not None:
        text = onlooker.careful()
        if left_to_answer and answered >= left_to_answer[0]:
            del left_to_answer[0]
            bench, text = _killed(bench, onlooker, text, chance, tally), ""
            continue
        bench.say(text)
        bench.question()
        answered += 1
        assert onlooker.prompt() != prompt, "it goes round in circles"
    tally.answers += answered
    bench.say("2")
    assert bench.end() == (0, "")
    tally.rebuilds += 1
    assert onlooker.state.outcome == "released"
    record = read(onlooker.path.read_bytes())
    assert record.damage is None and not record.torn and record.closed


def _opened(folder: Path, variant: str, chance: random.Random, tally: Tally) -> tuple[Piped, Onlooker]:
    """From an empty folder to the work on a pump, with one kill on the way."""
    bench = Piped(with_clock(folder))
    lines = ["yes", "begin with", "xmpl-hc40", "no", "SN-1", "SN-1", variant]
    for line in lines[: chance.randrange(1, len(lines) + 1)]:
        bench.question()
        bench.say(line)
    time.sleep(chance.uniform(0, ANSWER))
    _kill(bench)
    tally.kills["while opening"] += 1
    bench = Piped(with_clock(folder))
    if any((folder / "sessions").glob("*.toml")):
        if "no whole event" not in take_up(bench):
            return bench, Onlooker(folder)
        bench.say("2")  # nothing had been confirmed, so there is no record: out, and in again
        bench.end()
        bench = Piped(with_clock(folder))
    begin(bench, variant=variant, empty=not any((folder / "procedures").glob("xmpl-*.toml")))
    return bench, Onlooker(folder)


def _kill(bench: Piped) -> None:
    bench.send(signal.SIGKILL)
    status, errors = bench.end()
    assert (status, errors) == (128 + signal.SIGKILL, "")


def _killed(bench: Piped, onlooker: Onlooker, text: str, chance: random.Random, tally: Tally) -> Piped:
    """Kill it somehow, start it again, and see that it comes back right, to the same question or the next."""
    where = chance.choice(("at a question", "over an answer", "over an answer", "while starting"))
    tally.kills[where] += 1
    most = 0
    if where == "over an answer":
        prompt = onlooker.prompt()
        assert prompt is not None
        events = engine.answer(onlooker.state, prompt.id, text, onlooker.now)
        most = 0 if isinstance(events, Outcome) else len(events)
        bench.say(text)
        time.sleep(chance.uniform(0, ANSWER))
    _kill(bench)
    _weigh(onlooker, most, tally)
    if where == "while starting":
        bench = Piped(with_clock(bench_folder(onlooker), onlooker.now))
        bench.say("1")
        time.sleep(chance.uniform(0, START))
        _kill(bench)
        # Taking a record up is an event of its own.
        _weigh(onlooker, 1, tally)
    return come_back(onlooker, tally)


def bench_folder(onlooker: Onlooker) -> Path:
    """The workspace that a record lies in."""
    return onlooker.path.parents[1]


def _weigh(onlooker: Onlooker, most: int, tally: Tally) -> None:
    """All that was confirmed is on the disk; of what was in flight, all or nothing."""
    confirmed = onlooker.confirmed
    data = onlooker.path.read_bytes()
    assert data.startswith(confirmed), "what was confirmed has changed"
    record = read(data)
    assert record.damage is None
    more = len(record.events) - len(onlooker.events)
    assert more in (0, most), f"{more} of {most} events of an answer"
    if most:
        tally.in_flight_kept += bool(more)
        tally.in_flight_lost += not more
    tally.torn += bool(record.torn)
    if not record.torn:
        onlooker.catch_up()


def come_back(onlooker: Onlooker, tally: Tally) -> Piped:
    """Start the program again: it offers the record, says what it kept, asks again what may have changed."""
    left = onlooker.state
    bench = Piped(with_clock(bench_folder(onlooker), onlooker.now))
    offered = bench.question()
    assert f"1  go on with pump {left.header.serial}" in offered
    bench.say("1")
    said = " ".join(bench.question().split())
    assert f"{left.number} events were kept" in said
    assert "It was not left in an orderly way" in said
    state = onlooker.catch_up()
    assert state.number == left.number + 1
    for sentence in _begun_again(left):
        assert sentence in said
        tally.rounds_restarted += 1
    asked = []
    while onlooker.state.read_again or not onlooker.state.technician:
        prompt = onlooker.prompt()
        assert prompt is not None
        asked.append(prompt.ask)
        bench.say(onlooker.careful())
        bench.question()
        onlooker.catch_up()
    _asked_again(left, " ".join(asked))
    _as_it_was(left, onlooker.state)
    return bench


def _begun_again(left: State) -> list[str]:
    """What has to be said of the groups that were left inside a round or inside the check pass."""
    said = []
    for name, hold in left.assembly.held.items():
        group, called = left.pump.groups[name], left.pump.the(name)
        if hold.done:
            said.append(f"of {called} starts again: {len(hold.done)} of {group.count} positions were done.")
        elif hold.checked and not hold.passed and group.angle is None:
            said.append(f"The check pass of {called} starts again: {len(hold.checked)} positions were done.")
    return said


def _asked_again(left: State, asked: str) -> None:
    """Serial, every pose that was known, every ring that is not covered yet."""
    assert "the serial number" in asked
    pending = [each.removeprefix("pose ") for each in left.read_again if each.startswith("pose ")]
    for work in (*left.assembly.poses, *pending):
        assert f"which end of {left.pump.the(work)} is up now?" in asked
    for groove in left.pump.grooves:
        if left.assembly.living_rings(groove) and not left.assembly.closed(groove):
            assert f"what lies in {groove}," in asked


def _as_it_was(left: State, state: State) -> None:
    """What was confirmed stands: parts, rings, poses, whole rounds, facts; half rounds are begun again."""
    before, after = left.assembly, state.assembly
    assert after.seated == before.seated
    assert after.sealed == before.sealed
    assert {work: after.poses[work] for work in before.poses} == before.poses
    assert state.facts == left.facts
    assert state.clocks == left.clocks
    for group, hold in before.held.items():
        now = after.held[group]
        assert (now.rounds, now.passed, now.disposed) == (hold.rounds, hold.passed, hold.disposed)
        assert now.done == ()
