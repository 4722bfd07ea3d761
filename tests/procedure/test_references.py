"""Each name that leads nowhere, and each table that lacks what it needs, in a small pump that was right."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Procedure
from benchcheck.procedure.reading import Read, read_model
from benchcheck.procedure.references import references
from benchcheck.procedure.source import Source, read
from tests.procedure.small_pump import SMALL_PUMP, read_procedure


def test_the_small_pump_has_nothing_wrong() -> None:
    assert references(read_procedure(SMALL_PUMP)) == []


def broken(old: str, new: str) -> tuple[list[Finding], str]:
    """The findings after one change, and the text; ⟨ in `new` marks a place and is not part of the file."""
    assert SMALL_PUMP.count(old) == 1, f"{old!r} must stand once in the small pump"
    marked = SMALL_PUMP.replace(old, new)
    text = marked.replace("⟨", "")
    return references(read_procedure(text)), marked


def place_of_mark(marked: str) -> tuple[int, int]:
    before = marked[: marked.index("⟨")]
    return before.count("\n") + 1, len(before) - (before.rfind("\n") + 1) + 1


# What stands in the small pump, what is written instead, and what must be said there.
FAULTS = [
    ('main = "body"', 'main = ⟨"bodi"', "part-unknown", "did you mean `body`?"),
    ('into = "shaft"', 'into = ⟨"shft"', "part-unknown", "There is no part `shft`; did you mean `shaft`?"),
    ('into = "shaft"', 'into = ⟨"G1"', "part-unknown", "`G1` is the name of a groove; expected a part."),
    ('under = "guard"', 'under = ⟨"lip"', "tool-not-temporary", "not a temporary tool"),
    ('under = "guard"', 'under = ⟨"gard"', "part-unknown", "`guard`"),
    ('holds = ["lip"]', 'holds = ["lip", ⟨"F1"]', "part-unknown", "`F1` is the name of a group"),
    ('from = "thread"', 'from = ⟨"tread"', "end-unknown", "`shaft` has no end `tread`; did you"),
    ('from = ["top", "bottom"]', 'from = ["top", ⟨"botom"]', "end-unknown", "`bottom`"),
    ('shows = "face"', 'shows = ⟨"back"', "end-unknown", "`cap` has no end `back`"),
    ('L = "keyway" }', 'L = ⟨"keway" }', "end-unknown", "`keyway`"),
    ('shows = { R = "thread", L', 'shows = { R = "thread", ⟨X = "thread", L', "variant-unknown", "`X`"),
    ('shows = { R = "thread", L', "shows = ⟨{ L", "variant-left-out", "not for `R`"),
    ('takes = { R = "-110", L', "takes = ⟨{ L", "variant-left-out", "`takes` is told by variant"),
    ("seen.mouth", "seen.⟨moth", "end-unknown", "`mouth`"),
    ("lines_up = { dot", "lines_up = { ⟨spot", "mark-unknown", "`cap` has no mark `spot`"),
    ('"body: notch"', '⟨"body: nitch"', "mark-unknown", "`body` has no mark `nitch`; did you mean `notch`?"),
    ('"body: notch"', '⟨"boddy: notch"', "part-unknown", "`body`"),
    ('"body: notch"', '⟨"notch"', "mark-unknown", "which mark of which part"),
    ('"body: notch"', '{ R = "body: notch", L = ⟨"body: nitch" }', "mark-unknown", "did you mean `notch`?"),
    (
        '"body: notch"',
        '⟨{ R = "body: notch" }',
        "variant-left-out",
        "`dot` is told by variant, but not for `L`",
    ),
    ('for = ["L"]', 'for = ["L", ⟨"Q"]', "variant-unknown", "There is no variant `Q`"),
    ('in = "cap"', 'in = ⟨"cup"', "part-unknown", "`cap`"),
    ('against = ["body"]', 'against = [⟨"bod"]', "part-unknown", "`body`"),
    ('against = ["body"]', 'against = ["body", ⟨"cap"]', "groove-closes-itself", "`cap` cannot close it"),
    ('face = "rear"', 'face = ⟨"front"', "end-unknown", "`cap` has no end `front`"),
    ('face = "rear"', 'face = "rear"\nclosed_by = ⟨"F2"', "group-unknown", "There is no group `F2`"),
    ('part = "lip", end', 'part = ⟨"lib", end', "part-unknown", "`lip`"),
    ('end = "mouth"', 'end = ⟨"moth"', "end-unknown", "`mouth`"),
    ('toward = "top"', 'toward = ⟨"up"', "end-unknown", "`body` has no end `up`"),
    ('toward = "top"', 'of = "shaft", toward = ⟨"top"', "end-unknown", "`shaft` has no end `top`"),
    ('toward = "top"', 'of = ⟨"schaft", toward = "top"', "part-unknown", "`shaft`"),
    ('toward = "top"', 'toward = ⟨{ R = "top" }', "variant-left-out", "not for `L`"),
    ('mark = "dot"', 'mark = ⟨"dod"', "mark-unknown", "`dot`"),
    ('toward = "notch"', 'toward = ⟨"noch"', "mark-unknown", "`notch`"),
    ('on = "body"', 'on = ⟨"bdy"', "part-unknown", "`body`"),
    ('from = "top", order', 'from = ⟨"tip", order', "end-unknown", "`top`"),
    ('"lip", "shaft"] }', '"lip", ⟨"F1"] }', "part-unknown", "a group"),
    ('"lip", "shaft"] }', '"lip", "shaft", ⟨"cap"] }', "stack-names-a-part-twice", "`cap` stands here twice"),
    ('holds = ["cap"]', 'holds = [⟨"cab"]', "part-unknown", "`cap`"),
    ('holds = ["cap"]', 'parts = [⟨"cab"]', "part-unknown", "`cap`"),
    ('seen_from = "top"', 'seen_from = ⟨"tap"', "end-unknown", "`top`"),
    ("at = [1, 2]", "at = [1, ⟨5]", "position-outside-the-layout", "positions 1 to 4, so it has no 5"),
    ("at = [4]", "at = [⟨0]", "position-outside-the-layout", "no 0"),
    ("order = [1, 3, 2, 4]", "order = ⟨[1, 3, 3, 5]", "order-not-a-permutation", "2 is missing"),
    ("order = [1, 3, 2, 4]", "order = ⟨[1, 2, 3]", "order-not-a-permutation", "4 is missing"),
    ('"100 %"]', '"100 %"]\nwithout_wrench = [1, ⟨2]', "round-unknown", "Round 2 is the last of `F1`"),
    ('"100 %"]', '"100 %"]\nwithout_wrench = [⟨3]', "round-unknown", "no round 3; its last is 2"),
    ('before = "run"', 'before = ⟨"rum"', "step-unknown", "no step or phase `rum`; did you mean"),
    ('cure = "3 h"', 'cure = "3 h", bars = ⟨"tset"', "step-unknown", "`test`"),
    ('bars = ["run", "release"]', 'bars = ["run", ⟨"realease"]', "step-unknown", "`release`"),
    ('starts = "cap-in"', 'starts = ⟨"cap"', "step-unknown", "`cap` is the name of a part; expected a step"),
    ('before = ["cap-in"]', 'before = [⟨"capin"]', "step-unknown", "`cap-in`"),
    ('{ part = "lip" }]', '{ part = ⟨"lips" }]', "part-unknown", "`lip`"),
    ('parts = ["guard", "shaft"]', 'parts = [⟨"gard", "shaft"]', "part-unknown", "`guard`"),
    ('part = "lip"\nafter', 'part = ⟨"lipp"\nafter', "part-unknown", "`lip`"),
    ('after = ["shaft-in"]', 'after = [⟨"shaft"]', "step-unknown", "`shaft` is the name of a part"),
    ('rings = ["G1"]', 'rings = [⟨"G2"]', "groove-unknown", "`G1`"),
    ('group = "F1"', 'group = ⟨"F2"', "group-unknown", "`F1`"),
    ("round = 1", "round = ⟨3", "round-unknown", "no round 3; its last is 2"),
    ('clock = "F1 cure"', 'clock = ⟨"F1 cur"', "clock-unknown", "`F1 cure`"),
    ('off = ["F1", "cap"', 'off = ["F1", ⟨"cab"', "part-unknown", "no part, groove or group `cab`"),
    ('of = ["cap", "G1", "F1"]', 'of = ["cap", ⟨"G9"]', "part-unknown", "`G1`"),
    ('of = ["cap"] }]', 'of = [⟨"cup"] }]', "part-unknown", "`cap`"),
    ('as = "turns"', 'as = ⟨"turn"', "kept-value-unknown", "did you mean `turns`?"),
    ('outside = "again"', 'outside = ⟨"agian"', "outcome-unknown", "did you mean `again`?"),
    ('outside = "back to cap"', 'outside = ⟨"back to cup"', "part-unknown", "`cap`"),
    ('outside = "back to cap"', 'outside = ⟨"go back to cap"', "outcome-unknown", "go back to cap"),
    ('if = { lip = "worn" }', 'if = { lip = ⟨"gone" }', "verdict-unknown", "has no answer `gone`"),
    ('if = { lip = "worn" }', 'if = { ⟨lid = "worn" }', "verdict-unknown", "did you mean `lip`?"),
    ('one_of = ["R", "L"]', 'one_of = ["R", ⟨"M"]', "variant-unknown", "no variant `M`"),
    ("proves = { R =", "proves = { ⟨S =", "variant-unknown", "no variant `S`"),
    ('at = "F1"', 'at = ⟨"F2"', "part-unknown", "`F1`"),
    ("into = \"body\"\nfrom = \"side\"", "⟨", "part-without-place", "`plug` has no `into`"),
    ('from = "side"', "⟨", "part-without-place", "from which end of `body`"),
    ('shows = "face"', "⟨", "facing-not-said", "`cap` has two ends"),
    ('ends = ["face", "rear"]', 'ends = ⟨["rear", "rear"]', "ends-alike", "one name"),
    ('least = "5 min"', "⟨", "clock-without-time", "neither `least` nor `most`"),
    ('{ part = "lip" }]', "⟨{ count = 2 }]", "kit-line-unclear", "a ring or a part"),
    ('bore = "0.500 in", depth', "depth", "gland-unclear", "0 of bore"),
    ('bore = "0.500 in"', 'bore = "0.500 in", boss = "3/4-16"', "gland-unclear", "2 of bore"),
    ('text = "Press the old lip out."', "⟨", "act-without-object", "to do needs `text`"),
    ('off = ["F1", "cap", "G1", "lip"]', "⟨", "act-without-object", "to remove needs `off`"),
    ('clock = "F1 cure"', "⟨", "act-without-object", "to wait needs `clock`"),
    ('part = "cap"\nrings = ["G1"]', "⟨", "act-without-object", "`part`, `parts`, `rings` or `group`"),
    ('act = "sign"', 'act = "sign"\nclock = ⟨"soak"', "key-without-effect", "`clock` says nothing"),
    ('act = "wait"', 'act = "wait"\npart = ⟨"cap"', "key-without-effect", "let the act be install"),
    ('part = "cap"\nrings', 'part = "cap"\nround = ⟨1\nrings', "key-without-effect", "without `group`"),
    ('parts = ["guard", "shaft"]', 'parts = ⟨["guard", "shaft", "body"]', "main-installed", "the main part"),
    ('{ what = "turns", unit = "turns", k', '⟨{ what = "turns", k', "question-without-form", "how `turns`"),
    ('what = "leak",', 'what = "leak", kind = "count",', "question-of-two-forms", "more than one way"),
    ('as = "turns", of', 'as = "turns", before = ⟨"cap", of', "question-before-nothing", "not handle `cap`"),
    ('material = "NBR"', 'material = "NBR"\ntouches = [⟨"oil"]', "fluid-unknown", "told for `oil`"),
    ('what = "leak",', 'what = "leak", presses = [⟨"cab"],', "part-unknown", "`cap`"),
    ('good = ["good"]', 'good = ⟨["god"]', "answer-unknown", "`god` is good, but"),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "rule", "words"), FAULTS, ids=lambda text: str(text)[:40])
def test_faults_of_reference(old: str, new: str, rule: str, words: str) -> None:
    findings, marked = broken(old, new)
    (finding,) = [finding for finding in findings if finding.rule == rule] or findings
    assert (finding.rule, finding.severity) == (rule, Severity.ERROR)
    assert words in finding.message + finding.remedy
    if new.strip("⟨") and "⟨" in new:
        assert (finding.place.line, finding.place.column) == place_of_mark(marked)


@pytest.mark.parametrize(
    ("old", "new", "rule"), [fault[:3] for fault in FAULTS], ids=lambda text: str(text)[:40]
)
def test_one_fault_is_said_once(old: str, new: str, rule: str) -> None:
    """No other finding, except where a name that is now missing was used elsewhere."""
    findings, _ = broken(old, new)
    assert {finding.rule for finding in findings} - {rule} <= CONSEQUENCES.get(new, set())
    assert len({finding.place for finding in findings}) == len(findings)


# What no longer has its name, or its two ends, is missed by what used them.
CONSEQUENCES: dict[str, set[str]] = {
    'part = ⟨"lib", end': {"facing-not-said"},
    'ends = ⟨["rear", "rear"]': {"end-unknown"},
}


def test_a_name_used_for_two_things_is_said_with_both_places() -> None:
    findings, _ = broken('id = "plug"', 'id = "G1"')
    (finding,) = findings
    first = SMALL_PUMP[: SMALL_PUMP.index('id = "plug"')].count("\n") + 1
    second = SMALL_PUMP[: SMALL_PUMP.index('id = "G1"')].count("\n") + 1
    assert (finding.rule, finding.place.line) == ("id-used-twice", second)
    assert f"first at small.toml:{first}:6" in finding.message


def test_steps_have_names_of_their_own() -> None:
    assert broken('id = "look"', 'id = "shaft"')[0] == []
    (finding,) = broken('id = "look"', 'id = "cap-in"')[0]
    assert finding.rule == "id-used-twice"


def test_parts_that_go_round_in_a_circle_are_said_once() -> None:
    findings, marked = broken('into = "body"\nfrom = ["top", "bottom"]', 'into = ⟨"guard"\nfrom = "side"')
    (finding,) = findings
    assert finding.rule == "into-itself"
    assert "`shaft`, which goes into `guard`, which goes into `shaft`" in finding.message
    assert (finding.place.line, finding.place.column) == place_of_mark(marked)


def test_the_main_part_goes_into_nothing() -> None:
    findings, marked = broken("marks = { notch = 0 }", 'marks = { notch = 0 }\ninto = ⟨"cap"\nfrom = "rear"')
    assert [finding.rule for finding in findings] == ["into-itself", "main-goes-into-something"]
    assert (findings[1].place.line, findings[0].place.column) == place_of_mark(marked)


def test_a_part_without_named_ends_has_none() -> None:
    findings, _ = broken('from = "side"\nfor', 'from = "side"\nshows = "flat"\nfor')
    (finding,) = findings
    assert (finding.rule, finding.remedy) == ("end-unknown", 'Give `plug` its two ends: ends = ["…", "…"].')


def test_all_faults_of_a_file_come_at_once_in_order() -> None:
    text = SMALL_PUMP.replace('"F1"', '"F9"').replace('id = "F9"', 'id = "F1"')
    findings = references(read_procedure(text))
    assert [finding.rule for finding in findings] == [
        "part-unknown",
        "group-unknown",
        "part-unknown",
        "part-unknown",
    ]
    assert findings == sorted(findings, key=lambda finding: finding.sort_key)


@settings(max_examples=100, deadline=None)
@given(
    st.integers(0, len(SMALL_PUMP) - 1), st.integers(0, 30), st.text("a1\"'[]{}=,.\n #–\x00\x1b", max_size=3)
)
def test_damage_anywhere_gives_findings_and_never_a_fall(start: int, length: int, instead: str) -> None:
    damaged = SMALL_PUMP[:start] + instead + SMALL_PUMP[start + length :]
    source = read(damaged.encode(), "small.toml")
    result = read_model(source, Procedure) if isinstance(source, Source) else source
    findings = references(result) if isinstance(result, Read) else result
    lines = damaged.count("\n") + 1
    assert all(
        1 <= finding.place.line <= lines and finding.message and finding.remedy for finding in findings
    )
