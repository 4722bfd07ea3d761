"""Times: faster than a hand, entered after the work; and what was written down at the bench."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from benchcheck.session import commands, engine
from benchcheck.session.events import CardLeft, GrooveFound, InstrumentDoubted, MovedOn, TakenUp, WorkHalted
from benchcheck.session.remarks import Weight, kind
from tests.pumps import can_with
from tests.session.bench import ONE_ANSWER, Bench
from tests.session.courses import can_bench, course_of, events_said, said


def at_pace(bench: Bench, seconds: float, answers: int) -> Bench:
    """So many careful answers, so far apart."""
    for _ in range(answers):
        bench.now += timedelta(seconds=seconds) - ONE_ANSWER
        bench.go_on()
    return bench


def test_screws_faster_than_a_hand_stand_out_and_a_quick_hand_nearly_does() -> None:
    quick = at_pace(can_bench().until("F-tight/tighten:F round 1"), 2.0, 8)
    assert not said("hand too fast", quick)
    fast = at_pace(can_bench().until("F-tight/tighten:F round 1"), 1.9, 8)
    remarks = said("hand too fast", fast)
    assert [each.weight for each in remarks] == [Weight.ODD, Weight.ODD]
    assert remarks[0].sentence.startswith("Cover screws: 4 positions in 5.7 s")


def test_three_screws_in_no_time_are_too_few_to_say() -> None:
    bench = at_pace(can_bench().until("F-tight/tighten:F round 1"), 0.5, 3)
    assert not said("hand too fast", at_pace(bench, 15, 5))


def test_answers_faster_than_anybody_reads_stand_out() -> None:
    def acts_at(seconds: float) -> list[str]:
        bench = at_pace(can_bench(MANY).until("open/remove:plug-a"), seconds, 20)
        return [remark.sentence for remark in said("hand too fast", bench)]

    (sentence,) = acts_at(0.4)
    assert " acts in " in sentence
    assert acts_at(3) == []


MANY = can_with(
    (
        "[[fasteners]]",
        "\n".join(f'[[part]]\nid = "plug-{each}"\ninto = "body"\nfrom = "side"\n' for each in "abcdef")
        + "\n[[fasteners]]",
    ),
    (
        '[[step]]\nid = "lip-in"',
        '[[step]]\nid = "plugs"\nact = "install"\nparts = ["plug-a", "plug-b", "plug-c", "plug-d", "plug-e", '
        '"plug-f"]\n\n[[step]]\nid = "lip-in"',
    ),
    (
        'off = ["F", "cover"',
        'off = ["plug-a", "plug-b", "plug-c", "plug-d", "plug-e", "plug-f", "F", "cover"',
    ),
)


def test_many_things_handled_at_once_after_a_pause_were_entered_late() -> None:
    def after(minutes: int, seconds: float) -> Bench:
        bench = can_bench(MANY).until("open/remove:plug-a")
        bench.now += timedelta(minutes=minutes)
        return at_pace(bench, seconds, 6)

    (remark,) = said("entered late", after(40, 3))
    assert remark.sentence.startswith("After 40 min without an answer, 6 things were handled in 15 s")
    assert not said("entered late", after(40, 7))
    assert not said("entered late", after(10, 3))


def test_what_was_written_at_the_bench_is_read() -> None:
    bench = can_bench().until("bore/ask")
    assert not said("noted at the bench", bench)
    bench.carry_out(commands.remark(bench.state, "the can is scratched [red]", bench.now))
    (remark,) = said("noted at the bench", bench)
    assert remark.weight is Weight.ODD and remark.sentence.endswith("wrote: the can is scratched [red].")


def test_what_was_met_with_is_read() -> None:
    bench = can_bench().until("F-tight/tighten:F round 1")
    bench.carry_out(
        engine.written(
            bench.state,
            (
                TakenUp(stopped=False, torn_bytes=12, torn_file="x.toml.torn-1"),
                GrooveFound(act="cover-on/fit:G", groove="G", found="empty"),
                InstrumentDoubted(instrument="TW-01", readings=(), reason="it fell"),
                CardLeft(name="T. Sample", signed=True),
                CardLeft(name="T. Sample", signed=False, words="he had left"),
                WorkHalted(why="revision A is withdrawn"),
            ),
            bench.now,
        )
    )
    assert [type(each) for each in events_said("noted at the bench", bench)] == [
        TakenUp,
        GrooveFound,
        InstrumentDoubted,
        CardLeft,
        WorkHalted,
    ]
    assert said("noted at the bench", bench)[3].sentence.endswith("handover card: he had left.")


def test_another_revision_on_the_way_is_read() -> None:
    moved = MovedOn(
        revision="D", procedure_sha256="0" * 64, kept=3, void=("bore/ask:0", "lip-in/install:lip")
    )
    course = course_of(can_bench().until("bore/ask"))
    (remark,) = kind("noted at the bench").look(replace(course, events=(moved,)))
    assert remark.sentence == "The work moved on to revision D: 2 confirmations no longer counted."


def test_an_orderly_pause_is_nothing_to_note() -> None:
    bench = can_bench().until("bore/ask")
    bench.cut(stopped=True)
    assert not said("noted at the bench", bench)
