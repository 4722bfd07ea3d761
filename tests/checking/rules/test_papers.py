"""The head of a procedure, its ids, and its silences."""

from __future__ import annotations

import pytest

from benchcheck.checking.catalogue import check
from benchcheck.procedure.finding import Severity
from tests.checking.small_pump import (
    assert_as_marked,
    earlier_revision,
    findings,
    parsed,
    rules_found,
    small_pump,
    subject,
)

AUTHOR = 'author = "A. Template"'
DRAFT = 'status = "draft"'
LEAK_ASK = 'one_of = ["none", "one or more"], good = ["none"]'


def head(*lines: str) -> str:
    return small_pump(('revision = "A"\n', ""), (DRAFT, "\n".join(lines)))


@pytest.mark.parametrize("approver", ["A. Template", "a. template", "A Template", " A.  Template"])
def test_author_and_approver_are_one(approver: str) -> None:
    assert_as_marked(small_pump((AUTHOR, f'{AUTHOR}\napprover = "{approver}"  # ← author-is-approver')))


def test_another_approver() -> None:
    assert rules_found(small_pump((AUTHOR, f'{AUTHOR}\napprover = "B. Template"'))) == []


@pytest.mark.parametrize(
    ("lines", "lacks"),
    [
        (('revision = "C"', 'approver = "B. C"', "issued = 2026-03-02"), ["changes"]),
        (('revision = "C"', 'approver = "B. C"', 'changes = ["New."]'), ["issued"]),
        (('revision = "C"', "issued = 2026-03-02", 'changes = ["New."]'), ["approver"]),
        (('revision = "2"',), ["issued", "approver", "changes"]),
        (('revision = "A"',), ["issued", "approver"]),
        (('revision = "01"', 'approver = "B. C"', "issued = 2026-03-02"), []),
        (('revision = "C"', 'approver = "B. C"', "issued = 2026-03-02", 'changes = ["New."]'), []),
    ],
)
def test_what_a_release_has_to_say(lines: tuple[str, ...], lacks: list[str]) -> None:
    mark = "  # ← release-not-documented" if lacks else ""
    text = head(f'status = "released"{mark}', *lines)
    found = [each for each in findings(text, others=()) if each.rule != "two-released-revisions"]
    assert [each.rule for each in found] == ["release-not-documented"] * bool(lacks)
    for finding in found:
        assert all(f"`{key}`" in finding.message for key in lacks)
        assert finding.message.count("`") == 2 * len(lacks)
        assert_as_marked(text, "two-released-revisions")


def test_a_draft_need_not_say_it() -> None:
    assert rules_found(head(DRAFT, 'revision = "C"')) == []


def test_two_revisions_are_released() -> None:
    lines = ("issued = 2026-03-02", 'approver = "B. C"', 'revision = "A"')
    text = head('status = "released"  # ← two-released-revisions', *lines)
    (finding,) = assert_as_marked(text)
    assert "Revision 0" in finding.message
    assert findings(text, others=()) == []
    assert check(subject(head('status = "withdrawn"', *lines), others=[earlier_revision()])).findings == ()
    other = parsed(text.replace('id = "xmpl-s1"', 'id = "xmpl-s9"').replace('"A"', '"0"'))
    assert "two-released-revisions" not in [each.rule for each in findings(text, others=[other])]


@pytest.mark.parametrize(
    ("one", "other"),
    [("G1", "g1"), ("lip", "LIP"), ("lip", "1ip"), ("lip-0", "lip-O"), ("lip-1", "lip_l"), ("lip1", "lip-1")],
)
def test_ids_that_look_alike(one: str, other: str) -> None:
    parts = "".join(
        f'[[part]]\nid = "{name}"{mark}\ninto = "body"\nfrom = "side"\n'
        for name, mark in ((one, ""), (other, "  # ← ids-alike"))
        if name not in ("G1", "lip")
    )
    names = [each for each in (one, other) if each not in ("G1", "lip")]
    text = small_pump(
        ('part = "shaft"\n\n', f'parts = ["shaft", {", ".join(map(repr, names))}]\n\n'.replace("'", '"')),
        ('"lip", "shaft"]\n\n', f'"lip", "shaft", {", ".join(map(repr, names))}]\n\n'.replace("'", '"')),
        more=parts,
    )
    assert_as_marked(text)


def test_ids_of_steps_that_look_alike() -> None:
    text = small_pump(
        (
            '[[step]]\nid = "leak"',
            '[[step]]\nid = "leak-0"\nact = "do"\ntext = "Fill it."\n\n[[step]]\nid = "leak"',
        ),
        more="",
    )
    assert rules_found(text) == []
    text = small_pump(
        (
            '[[step]]\nid = "leak"\n',
            '[[step]]\nid = "Leak"\nact = "do"\ntext = "Fill it."\n\n[[step]]\nid = "leak"  # ← ids-alike\n',
        )
    )
    assert_as_marked(text)


# ---------------------------------------------------------------------- silences


def silence(rule: str, at: str = "", mark: str = "") -> str:
    place = f'at = "{at}"\n' if at else ""
    return f'[[silence]]\nrule = "{rule}"{mark}\n{place}reason = "It is so on the drawing."\n'


ONE_ANSWER = (LEAK_ASK, 'one_of = ["none"]')


@pytest.mark.parametrize("at", ["", "leak"])
def test_a_silence_keeps_its_finding_with_the_reason(at: str) -> None:
    checked = check(subject(small_pump(ONE_ANSWER, more=silence("question-without-a-no", at))))
    assert checked.findings == ()
    (silenced,) = checked.silenced
    assert silenced.finding.rule == "question-without-a-no"
    assert silenced.reason == "It is so on the drawing."


def test_a_silence_at_another_place_silences_nothing() -> None:
    mark = "  # ← silence-without-effect"
    text = small_pump(ONE_ANSWER, more=silence("question-without-a-no", "screws", mark))
    (finding,) = assert_as_marked(text, "question-without-a-no")
    assert finding.severity is Severity.ADVICE and "at `screws`" in finding.message


def test_a_silence_for_a_rule_that_is_none() -> None:
    mark = "  # ← silence-unknown"
    (finding,) = assert_as_marked(small_pump(more=silence("question-without-no", "", mark)))
    assert finding.remedy == "Write `question-without-a-no`, if that is meant."


def test_what_is_silenced_for_nothing_can_itself_be_silenced() -> None:
    text = small_pump(more=silence("ids-alike") + silence("silence-without-effect"))
    assert rules_found(text) == []
