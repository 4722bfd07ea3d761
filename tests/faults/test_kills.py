"""The real process is killed: in the middle of a round, and at random moments of a whole rebuild."""

from __future__ import annotations

import random
import signal
from pathlib import Path

import pytest

from tests.end_to_end.bench import Onlooker
from tests.faults.killing import Tally, come_back, rebuild_under_kills
from tests.faults.prepared import at_act, record_at


@pytest.mark.parametrize(
    ("act", "question", "said"),
    [
        (
            "F1-r2/tighten:F1",
            "round 2 position 5",
            "Round 2 of 3 of the end plate screws starts again: 3 of 6 positions were done.",
        ),
        (
            "F1-r3/tighten:F1",
            "pass 4",
            "The check pass of the end plate screws starts again: 3 positions were done.",
        ),
    ],
)
def test_killed_in_the_middle_of_a_round(tmp_path: Path, act: str, question: str, said: str) -> None:
    path = record_at(tmp_path, at_act(act, question))
    onlooker = Onlooker(tmp_path, path)
    onlooker.catch_up()
    tally = Tally()
    bench = come_back(onlooker, tally)
    assert said in " ".join(bench.printed.split())
    assert tally.rounds_restarted == 1
    # The instruments are chosen again, then the round begins at its first position.
    number = question.split()[1] if question.startswith("round") else ""
    while "TIGHTEN:" not in bench.printed and "CHECK:" not in bench.printed:
        bench.say(onlooker.careful())
        bench.question()
        onlooker.catch_up()
    first = f"round {number} position 1" if number else "pass 1"
    prompt = onlooker.prompt()
    assert prompt is not None and prompt.question == first
    # It can be killed once more right there, and nothing is said to start again then.
    bench.send(signal.SIGKILL)
    bench.end()
    assert "starts again" not in come_back(onlooker, tally).printed


def test_killed_at_random_moments_of_a_whole_rebuild(tmp_path: Path) -> None:
    tally = Tally()
    rebuild_under_kills(tmp_path, random.Random(7), 8, tally, "-07")
    assert tally.rebuilds == 1
    assert tally.kills.total() >= 9
