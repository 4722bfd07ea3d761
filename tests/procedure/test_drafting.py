"""First drafts: what was told stands in them, what nobody told is asked for, and nonsense is sent back."""

from __future__ import annotations

from dataclasses import replace

import pytest

from benchcheck.procedure.drafting import (
    DraftFault,
    NewGroove,
    NewGroup,
    NewPart,
    NewPump,
    draft,
    groove,
    group,
    part,
)
from benchcheck.procedure.finding import Severity
from tests.checking.small_pump import findings, parsed

PUMP = NewPump(
    id="xmpl-q1",
    model="XMPL-Q1",
    author="A. Template",
    parts=(
        part("body: drive end, water end"),
        part("shaft: keyed end, plain end; body: drive end"),
        part("lip: mouth, back; body: drive end"),
        part("cover: outer face, inner face; body: drive end"),
    ),
    grooves=(groove("G1: cover, body, -137, NBR, round the spigot"),),
    groups=(group("F1: cover, 4, M6, 8.8"),),
)
ONLY_A_PERSON_KNOWS = {
    "facing-stated-once",  # must_face, from the drawing
    "layout-without-a-datum",
    "number-not-confirmed",  # the torques and the test
    "ring-count-stated-once",  # what the bag of the kit says
    "ring-size-stated-once",  # the measures of the groove
    "torque-not-judged",
}


def test_what_is_told_is_read() -> None:
    assert part("body: drive end, water end") == NewPart("body", ("drive end", "water end"))
    assert part("lip:mouth,back;body:drive end") == NewPart("lip", ("mouth", "back"), "body", "drive end")
    assert PUMP.grooves == (NewGroove("G1", "cover", "body", "-137", "NBR", "round the spigot"),)
    assert PUMP.groups == (NewGroup("F1", "cover", 4, "M6", "8.8"),)


def test_a_draft_lacks_only_what_a_person_knows() -> None:
    found = findings(draft(PUMP))
    assert [each.as_text() for each in found if each.severity is Severity.ERROR] == []
    assert {each.rule for each in found} <= ONLY_A_PERSON_KNOWS
    assert "facing-stated-once" in {each.rule for each in found}


def test_what_was_told_stands_in_the_draft() -> None:
    procedure = parsed(draft(PUMP)).model
    assert procedure.procedure.practice_only == "draft"
    assert procedure.procedure.unconfirmed == ("F1: torque", "step test: ask")
    assert [each.id for each in procedure.part] == ["body", "shaft", "lip", "cover"]
    assert procedure.groove[0].takes == "-137"
    assert procedure.fasteners[0].count == 4
    opening = next(step for step in procedure.step if step.id == "open")
    assert opening.off == ("F1", "cover", "G1", "lip", "shaft")
    assert [step.id for step in procedure.step if step.phase.value == "reassembly"] == [
        *("shaft-in", "lip-in", "cover-in", "F1-tight"),
    ]


def test_a_ring_goes_in_with_the_later_of_its_two_parts() -> None:
    pump = replace(PUMP, grooves=(groove("G1: shaft, lip, -137, NBR, under the mouth"),))
    rings = {step.id: step.rings for step in parsed(draft(pump)).model.step}
    assert rings["lip-in"] == ("G1",) and rings["cover-in"] == ()


def test_texts_with_quotes_and_letters_of_all_languages_stay_what_they_are() -> None:
    pump = replace(PUMP, author='Ä. "T" \\ mplate')
    assert parsed(draft(pump)).model.procedure.author == 'Ä. "T" \\ mplate'


@pytest.mark.parametrize("told", ["", "body", "body: one end", "body: a, b, c", ": a, b", "lip: a, b; body"])
def test_a_part_told_wrongly_is_sent_back(told: str) -> None:
    with pytest.raises(DraftFault, match="form ID: END, OTHER END; INTO: FROM"):
        part(told)


@pytest.mark.parametrize(
    "told", ["F1: cover, four, M6, 8.8", "F1: cover, 0, M6, 8.8", "F1: cover, -4, M6, 8.8"]
)
def test_a_count_is_a_number(told: str) -> None:
    with pytest.raises(DraftFault, match="no number of screws"):
        group(told)


@pytest.mark.parametrize(
    ("pump", "why"),
    [
        (replace(PUMP, parts=()), "main part"),
        (replace(PUMP, parts=PUMP.parts[1:]), "`shaft` does"),
        (replace(PUMP, parts=(*PUMP.parts, part("nut: flat, chamfer"))), "`nut` has to go into a part"),
        (replace(PUMP, parts=(*PUMP.parts, part("nut: flat, chamfer; hub: eye"))), "`nut` has to go into"),
        (replace(PUMP, parts=(*PUMP.parts, part("nut: flat, chamfer; body: eye"))), 'no end "eye"'),
        (replace(PUMP, groups=(group("G1: cover, 4, M6, 8.8"),)), "`G1` is told twice"),
        (replace(PUMP, groups=(group("F1: hub, 4, M6, 8.8"),)), "`hub`, which `F1` holds"),
        (replace(PUMP, groups=(group("F1: body, 4, M6, 8.8"),)), "`body`, which `F1` holds"),
        (
            replace(PUMP, grooves=(groove("G1: hub, body, -137, NBR, outside"),)),
            "`hub`, named by groove `G1`",
        ),
    ],
)
def test_what_does_not_hang_together_is_sent_back(pump: NewPump, why: str) -> None:
    with pytest.raises(DraftFault, match=why):
        draft(pump)
