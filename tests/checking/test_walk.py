"""The walk through a file: its branches, what it passes over, and what it puts in for the file."""

from __future__ import annotations

from benchcheck.assembly.pump import Pump
from benchcheck.checking.walk import MOST_BRANCHES, branches, never_put_in, walks
from tests.checking.small_pump import main_pump, parsed, small_pump


def pump_of(text: str, variant: str | None = None) -> Pump:
    return Pump(parsed(text).model, variant)


def asked(*names: str, answers: tuple[str, ...] = ("a", "b")) -> str:
    one_of = ", ".join(f'"{answer}"' for answer in answers)
    asks = "".join(
        f'[[step]]\nid = "ask-{name}"\nphase = "intake"\nact = "check"\n'
        f'ask = [{{ what = "{name}", one_of = [{one_of}], sets = "{name}" }}]\n\n'
        for name in names
    )
    does = "".join(
        f'[[step]]\nid = "do-{name}"\nact = "do"\ntext = "Do."\nif = {{ {name} = "a" }}\n\n' for name in names
    )
    return small_pump(('[[step]]\nid = "shaft-in"', f'{asks}{does}[[step]]\nid = "shaft-in"'))


def test_a_procedure_without_verdicts_has_one_way() -> None:
    assert list(branches(pump_of(small_pump()))) == [{}]
    (walk,) = walks(pump_of(small_pump()))
    assert walk.stops == () and set(walk.end.seated) == {"shaft", "lip", "cover"}


def test_each_answer_is_a_branch_also_one_that_no_step_names() -> None:
    assert list(branches(pump_of(asked("lip", answers=("a", "b", "c"))))) == [
        {"lip": "a"},
        {"lip": "b"},
        {"lip": "c"},
    ]


def test_verdicts_are_tried_all_with_all() -> None:
    assert len(list(branches(pump_of(asked("one", "two", "three"))))) == 8


def test_many_verdicts_are_tried_in_pairs_and_never_without_end() -> None:
    names = [f"v{number}" for number in range(12)]
    tried = list(branches(pump_of(asked(*names))))
    assert len(tried) == MOST_BRANCHES
    assert all(branch.keys() == set(names) for branch in tried)
    pairs = {(branch["v0"], branch["v1"]) for branch in tried}
    assert pairs == {("a", "a"), ("a", "b"), ("b", "a"), ("b", "b")}


def test_the_variant_is_no_open_question() -> None:
    text = small_pump(
        ('main = "body"', 'main = "body"\nvariants = ["R", "L"]'),
        (
            '{ what = "serial on the plate", kind = "serial" }',
            '{ what = "letter", one_of = ["R", "L"], sets = "variant" }',
        ),
        (
            '[[step]]\nid = "runout"',
            '[[step]]\nid = "note"\nact = "do"\ntext = "Note it."\nif = { variant = "R" }\n\n'
            '[[step]]\nid = "runout"',
        ),
    )
    assert list(branches(pump_of(text, "R"))) == [{"variant": "R"}]
    assert list(branches(pump_of(text, "L"))) == [{"variant": "L"}]


def test_what_was_never_taken_off_is_passed_over() -> None:
    good, replaced = (
        next(
            walk
            for walk in walks(pump_of(main_pump(), "-05"))
            if walk.case.verdicts == (("bearing", verdict),)
        )
        for verdict in ("good", "replace")
    )
    fitting = {
        name: next(moment for moment in walk.moments if moment.act.id == "bearing-on/install:bearing")
        for name, walk in (("good", good), ("replaced", replaced))
    }
    assert fitting["good"].passed_over and not fitting["replaced"].passed_over
    assert good.end.instance("bearing") == 0 and replaced.end.instance("bearing") == 1


def test_what_the_file_never_puts_in_is_put_in_for_it_and_breeds_nothing() -> None:
    """Without its cartridge the whole motor end would hang in the air."""
    text = main_pump().replace(
        'id = "cartridge-in"\npart = "cartridge"', 'id = "cartridge-in"\nact = "check"'
    )
    pump = pump_of(text, "-05")
    assert never_put_in(pump) == ("cartridge",)
    for walk in walks(pump):
        assert walk.never_put_in == ("cartridge",) and walk.stops == ()
        assert walk.end.present("main-lip") and walk.end.closed("G2")


def test_a_walk_is_of_the_acts_of_the_file_alone() -> None:
    pump = pump_of(main_pump(), "-07")
    for walk in walks(pump):
        assert all(moment.act.step in pump.steps for moment in walk.moments)
