"""An older procedure as a draft: the text stays, the head is new, and no inherited number goes unmarked."""

from __future__ import annotations

import tomllib

import pytest

from benchcheck.procedure.drafting import DraftFault
from benchcheck.procedure.taking_over import is_raised, numbers, raised, take_over
from tests.checking.small_pump import findings, main_pump, parsed, rules_found, small_pump


@pytest.mark.parametrize(
    ("revision", "following"),
    [
        *(("A", "B"), ("c", "d"), ("Z", "AA"), ("AZ", "BA"), ("ZZ", "AAA"), ("az", "ba")),
        *(("3", "4"), ("9", "10"), ("07", "08"), ("r9", "r10"), ("1.9", "1.10"), ("A-", "A-1")),
    ],
)
def test_a_revision_is_raised(revision: str, following: str) -> None:
    assert raised(revision) == following
    assert is_raised(following, revision) and is_raised(revision, following) is False


@pytest.mark.parametrize(
    ("new", "old", "comes_after"), [("C", "C", False), ("c", "B", True), ("10", "9", True), ("C", "2", None)]
)
def test_which_revision_comes_after(new: str, old: str, comes_after: bool | None) -> None:
    assert is_raised(new, old) is comes_after


def taken_over(text: str, name: str = "xmpl-s1", revision: str = "B", models: tuple[str, ...] = ()) -> str:
    return take_over(parsed(text), name=name, revision=revision, models=models)


def test_the_head_is_that_of_a_draft() -> None:
    text = take_over(
        parsed(main_pump()), name="xmpl-hc41", revision="A", models=("XMPL-HC41",), author="B. Template"
    )
    head = parsed(text).model.procedure
    assert (head.id, head.revision, head.models, head.author) == (
        *("xmpl-hc41", "A", ("XMPL-HC41",), "B. Template"),
    )
    assert (head.practice_only, head.issued, head.approver) == ("draft", None, None)
    assert head.changes == ("Taken over from xmpl-hc40, revision C.",)
    assert head.variants == parsed(main_pump()).model.procedure.variants


def test_nothing_but_the_head_is_changed() -> None:
    old, new = main_pump(), taken_over(main_pump())
    before, _, rest = old.partition("[procedure]\n")
    assert new.startswith(before + "[procedure]\n")
    assert new.endswith(rest[rest.index("# ------") :])


def test_remarks_of_the_head_stay_and_signs_in_texts_are_none() -> None:
    text = small_pump(
        ('status = "draft"', '# of the head\nstatus = "released"  # by hand'),
        ('author = "A. Template"', 'author = "A # Template"  # who "wrote" it\nissued = 2026-03-02'),
    )
    new = take_over(parsed(text), name="xmpl-s1", revision="B", models=(), author="B # Template")
    assert "# of the head\n" in new
    assert 'status = "draft"  # by hand\n' in new
    assert 'author = "B # Template"  # who "wrote" it\n' in new
    assert "issued" not in new


def test_lines_may_end_as_they_do_elsewhere() -> None:
    text = taken_over(main_pump().replace("\n", "\r\n"))
    assert parsed(text).model.procedure.practice_only == "draft"
    assert parsed(text).model.procedure.unconfirmed == (
        parsed(taken_over(main_pump())).model.procedure.unconfirmed
    )


def test_every_quantity_and_count_is_marked() -> None:
    marked = set(parsed(taken_over(main_pump())).model.procedure.unconfirmed)
    data = tomllib.loads(main_pump())
    for group in data["fasteners"]:
        for key in ("torque", "thread", "strength", "friction", "rounds", "angle", "layout", "threadlocker"):
            told = str(group.get(key, ""))
            assert (f"{group['id']}: {key}" in marked) == any(each.isdigit() for each in told), (group, key)
    for groove in data["groove"]:
        assert {f"{groove['id']}: takes", f"{groove['id']}: gland"} & marked
    for step in data["step"]:
        limits = [ask for ask in step.get("ask", ()) if {"min", "max", "as_new"} & set(ask)]
        assert not limits or f"step {step['id']}: ask" in marked


def test_names_are_no_numbers() -> None:
    marked = numbers(
        tomllib.loads("""
        format = 1
        procedure = { id = "p2", models = ["X-2"], variants = ["-05"], revision = "3", long_pause = "9 min" }
        part = [{ id = "port-2", ends = ["end 1", "end 2"], shows = "end 1", for = ["-05"] }]
        step = [
            { id = "in-2", part = "port-2", round = 2, ask = [{ what = "gap", keep = "gap-1", hot = true }] },
            { id = "gap", ask = [{ what = "gap", max = "1 mm" }, { what = "play", max = "2 mm" }] },
        ]
        """)
    )
    assert marked == ("procedure: long_pause", "step gap: ask")


def test_a_second_taking_over_marks_no_mark() -> None:
    once = taken_over(small_pump())
    twice = taken_over(once, revision="C")
    assert parsed(twice).model.procedure.unconfirmed == parsed(once).model.procedure.unconfirmed
    assert twice.count("unconfirmed =") == 1


def test_the_draft_has_nothing_wrong_but_its_marks() -> None:
    for text in (small_pump(), main_pump()):
        assert set(rules_found(taken_over(text))) == {"number-not-confirmed"}


def test_a_head_without_its_header_is_sent_back() -> None:
    text = small_pump(
        ("[procedure]\n", ""),
        *((f"{key} = ", f"procedure.{key} = ") for key in ("title", "revision", "status", "author", "main")),
        ('id = "xmpl-s1"', 'procedure.id = "xmpl-s1"'),
        ("models = ", "procedure.models = "),
    )
    assert findings(text) == []
    with pytest.raises(DraftFault, match="header"):
        taken_over(text)
