"""A frozen thing with some fields changed: what the standard library's `replace` would give, and no more."""

from __future__ import annotations

from dataclasses import FrozenInstanceError, dataclass, field, replace
from functools import cached_property

import pytest

from benchcheck.assembly.changed import changed


@dataclass(frozen=True)
class Shelf:
    """Frozen, without slots, as the assembly and the state of a session are."""

    name: str
    boards: tuple[int, ...] = ()
    notes: dict[str, str] = field(default_factory=dict)

    @cached_property
    def load(self) -> int:
        return sum(self.boards)


def test_it_gives_what_replace_gives_and_leaves_what_was() -> None:
    before = Shelf("a", (1, 2), {"x": "y"})
    after = changed(before, boards=(3,), name="b")
    assert after == replace(before, boards=(3,), name="b") == Shelf("b", (3,), {"x": "y"})
    assert before == Shelf("a", (1, 2), {"x": "y"})
    assert type(after) is Shelf and after.notes is before.notes


def test_what_was_worked_out_of_the_old_one_is_worked_out_anew() -> None:
    before = Shelf("a", (1, 2))
    assert before.load == 3
    assert changed(before, boards=(4, 5)).load == 9


def test_what_it_gives_is_frozen_too() -> None:
    with pytest.raises(FrozenInstanceError):
        changed(Shelf("a"), name="b").name = "c"  # type: ignore[misc]
