"""Everything that can happen: flat, known by its kind, and told in the manual with all its keys."""

from __future__ import annotations

import dataclasses
import re
from typing import Any, get_type_hints

import pytest

from benchcheck.session.events import KINDS, ActEvent, Event, UnknownEvent, from_table, stamped
from benchcheck.session.record import flat
from tests.session.event_catalogue import BEGINS, ENDS, MANUAL, own_keys, table

SAMPLES: dict[Any, Any] = {
    str: 'a [word] = "1"',
    int: 7,
    float: 20.25,
    bool: True,
    tuple[str, ...]: ("one", "two"),
    tuple[int, ...]: (1, 5, 3),
}


def sample(kind: type[Event]) -> Event:
    hints = get_type_hints(kind)
    return kind(**{field.name: SAMPLES[hints[field.name]] for field in dataclasses.fields(kind)})


@pytest.mark.parametrize("name", KINDS)
def test_each_kind_comes_back_from_its_table_as_it_was(name: str) -> None:
    event = sample(KINDS[name])
    fields = flat(event.as_table())
    assert list(fields)[:4] == ["number", "kind", "at", "by"] and fields["kind"] == name
    assert from_table(fields) == event


@pytest.mark.parametrize("name", KINDS)
def test_each_kind_is_in_the_manual_with_all_its_keys(name: str) -> None:
    section = MANUAL.read_text("utf-8").split(BEGINS)[1].split(ENDS)[0]
    (row,) = re.findall(rf"^\| `{re.escape(name)}` \|.*$", section, re.MULTILINE)
    _, kind, of_act, words, keys, _ = re.split(r"(?<!\\)\|", row)
    assert kind.strip() == f"`{name}`" and words.strip().endswith(".")
    assert (of_act.strip() == "yes") is issubclass(KINDS[name], ActEvent)
    assert [key for key in own_keys(KINDS[name]) if f"`{key}`" not in keys] == []


def test_the_manual_knows_no_other_kind() -> None:
    section = MANUAL.read_text("utf-8").split(BEGINS)[1].split(ENDS)[0]
    assert re.findall(r"^\| `([^`]+)` \|", section, re.MULTILINE) == list(KINDS)
    assert table() in section, "make it anew: python -m tests.session.event_catalogue"


def test_every_kind_says_in_a_sentence_what_it_is() -> None:
    for name, kind in KINDS.items():
        assert kind.__doc__ and not kind.__doc__.startswith(f"{kind.__name__}("), name


@pytest.mark.parametrize(
    "table",
    [
        {"number": 1, "kind": "unheard of"},
        {"number": 1},
        {"number": 1, "kind": "remark", "at": "", "by": "", "text": "x", "colour": "grey"},
        {"number": 1, "kind": "remark", "at": "", "by": ""},
        {"number": 1, "kind": "remark", "at": "", "by": "", "text": 5},
        {"number": 1, "kind": "remark", "at": "", "by": ["T. Sample"], "text": "x"},
    ],
)
def test_what_is_not_known_is_refused(table: dict[str, Any]) -> None:
    with pytest.raises(UnknownEvent, match="event 1"):
        from_table(table)


def test_number_time_and_person_are_put_on_and_a_person_who_is_named_stays() -> None:
    first = KINDS["remark"](text="one")  # type: ignore[call-arg]
    second = KINDS["remark"](text="two", by="Q. Example")  # type: ignore[call-arg]
    events = stamped((first, second), after=4, at="2026-11-02T07:00:00+00:00", by="T. Sample")
    assert [(event.number, event.by) for event in events] == [(5, "T. Sample"), (6, "Q. Example")]
    assert {event.at for event in events} == {"2026-11-02T07:00:00+00:00"}
