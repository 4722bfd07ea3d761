"""Facing and turning: the chain that shows the fault, and the one place that mends all of it."""

from __future__ import annotations

import pytest

from benchcheck.procedure.finding import Severity
from tests.checking.small_pump import (
    SMALL_PUMP,
    assert_as_marked,
    changed,
    main_pump,
    rules_found,
    small_pump,
)

SHOWS_COVER = 'shows = "outer face"'
SHOWS_LIP = 'shows = "mouth"'
SHOWS_CARTRIDGE = 'shows = "deep pocket end"\nfit'
MUST_LIP = (
    '{ part = "lip", end = "mouth", toward = "water end", because = "the lip holds the oil in the body" }'
)
WRONG = "  # ← part-faces-the-wrong-way"


def test_a_reversed_part_is_named_where_it_is_said() -> None:
    (finding,) = assert_as_marked(small_pump((SHOWS_LIP, f'shows = "back"{WRONG}')))
    assert finding.message.startswith("As it is fitted at `cover-on` (line ")
    assert finding.message.endswith(", because the lip holds the oil in the body.")
    assert finding.remedy == 'Turn `lip` over: in `lip` write shows = "mouth".'


def test_the_chain_names_each_line() -> None:
    text = small_pump((SHOWS_LIP, f'shows = "back"{WRONG}'))
    (finding,) = assert_as_marked(text)

    def line(words: str) -> int:
        return next(at for at, each in enumerate(text.splitlines(), 1) if each.strip().startswith(words))

    lip, cover, must = line('shows = "back"'), line('shows = "outer face"'), line('{ part = "lip"')
    assert (
        f"the mouth of `lip` points to the outer face of `cover` (line {lip}), and that points to the "
        f"drive end of `body` (line {cover}); it must point to the water end (line {must})"
    ) in finding.message


def test_a_reversed_carrier_is_the_one_part_that_mends_all() -> None:
    (finding,) = assert_as_marked(small_pump((SHOWS_COVER, f'shows = "inner face"{WRONG}')))
    assert "the mouth of `lip`" in finding.message and "the inner face of `cover`" in finding.message
    assert finding.remedy == ('Turn `cover` over: in `cover` write shows = "outer face". That mends all 2.')


def test_two_reversals_that_cancel_leave_the_carrier() -> None:
    """Cartridge and both lips in it reversed: only the facing of the cartridge itself is false."""
    lips = 'shows = "lip"\nfit = "press"\nsingle_use = "once disturbed"\nlubricate = "grease on the lip"\n'
    text = main_pump().replace(lips, lips.replace('"lip"\nfit', '"back"\nfit'))
    text = changed(text, (SHOWS_CARTRIDGE, f'shows = "shallow pocket end"{WRONG}\nfit'))
    (finding,) = assert_as_marked(text)
    assert "of `cartridge` points to the suction end" in finding.message
    assert finding.remedy.startswith("Turn `cartridge`, `main-lip` and `excluder` over: ")


def test_a_facing_by_variant_is_named_in_its_variant() -> None:
    text = small_pump(
        ('main = "body"', 'main = "body"\nvariants = ["R", "L"]'),
        (SHOWS_LIP, f'shows = {{ R = "mouth", L = "back" }}{WRONG} at "back"'),
    )
    (finding,) = assert_as_marked(text)
    assert " for L, " in finding.message


def test_where_no_one_part_mends_it_the_demand_is_named() -> None:
    contrary = MUST_LIP.replace("water end", "drive end")
    text = small_pump((MUST_LIP + ",", f'{MUST_LIP},\n  {contrary},{WRONG} at "drive end"'))
    (finding,) = assert_as_marked(text)
    assert finding.remedy.startswith("No one part mends it")


def test_a_part_on_a_part_beside_is_compared_through_what_both_sit_in() -> None:
    must = '{ part = "lip", end = "mouth", toward = "keyed end", of = "shaft", because = "it runs on it" }'
    text = small_pump((MUST_LIP, must), (SHOWS_LIP, f"{SHOWS_LIP}{WRONG}"))
    (finding,) = assert_as_marked(text)
    assert "which is the side of the plain end of `shaft`" in finding.message


def test_a_mark_over_the_wrong_mark() -> None:
    text = small_pump(
        ("marks = { drain = 180 }", "marks = { drain = 180, filler = 0 }"),
        (
            'lines_up = { arrow = "body: drain" }',
            'lines_up = { arrow = "body: filler" }  # ← marks-do-not-line-up at "body',
        ),
    )
    text = text.replace('at "body', 'at "body: filler"')
    (finding,) = assert_as_marked(text)
    assert "stands over filler of `body`; it must stand over the drain" in finding.message


def test_a_part_that_is_turned_over_is_not_told_of_its_marks_as_well() -> None:
    text = small_pump(
        (SHOWS_COVER, f'shows = "inner face"{WRONG}'), ("marks = { arrow = 180 }", "marks = { arrow = 90 }")
    )
    assert "marks-do-not-line-up" not in rules_found(text)


CARRIER = """
[[part]]
id = "holder"{mark}
ends = ["deep end", "flat end"]
into = "cover"
from = "inner face"
shows = "deep end"{once}

[[part]]
id = "wiper"
ends = ["edge", "back"]
into = "holder"
from = "deep end"
shows = "edge"
"""


def test_a_carrier_that_nobody_says_anything_of() -> None:
    parts = CARRIER.format(mark="  # ← carrier-without-its-own-facing", once="  # ← facing-stated-once")
    text = small_pump(
        (MUST_LIP, MUST_LIP.replace('"lip"', '"wiper"').replace("mouth", "edge") + ",\n  " + MUST_LIP),
        ('part = "lip"\nask', 'parts = ["lip", "holder", "wiper"]\nask'),
        ('"cover", "G1", "lip", "shaft"', '"cover", "G1", "wiper", "holder", "lip", "shaft"'),
        more=parts,
    )
    carrier, _ = assert_as_marked(text)
    assert "`wiper`" in carrier.message


@pytest.mark.parametrize(
    "changes",
    [
        ((MUST_LIP + ",", ""), (SHOWS_LIP, f"{SHOWS_LIP}  # ← facing-stated-once")),
        ((SHOWS_LIP, ""), ('id = "lip"\n', 'id = "lip"  # ← facing-stated-once\n')),
    ],
)
def test_what_is_said_from_one_side_only(changes: tuple[tuple[str, str], ...]) -> None:
    (finding,) = assert_as_marked(small_pump(*changes))
    assert finding.severity is Severity.ADVICE


def test_a_turn_that_only_the_drawing_says() -> None:
    because = 'toward = "drain", because = "leaking oil has to run out at the lowest place" },'
    text = small_pump(
        ('lines_up = { arrow = "body: drain" }\n', ""),
        (because, f'{because}  # ← turn-stated-once at "cover"'),
    )
    (finding,) = assert_as_marked(text)
    assert finding.severity is Severity.ADVICE


def test_a_turn_that_nobody_says_and_one_that_the_drawing_does_not_say() -> None:
    start = SMALL_PUMP.index("must_line_up")
    line = SMALL_PUMP[start : SMALL_PUMP.index("]\n", start) + 2]
    lines_up = 'lines_up = { arrow = "body: drain" }'
    (finding,) = assert_as_marked(
        small_pump((line, ""), (lines_up, f"{lines_up}  # ← turn-stated-once at {{"))
    )
    assert finding.severity is Severity.ADVICE
    (finding,) = assert_as_marked(
        small_pump((line, ""), (f"{lines_up}\n", ""), ("ways = 4", "ways = 4  # ← turn-stated-once"))
    )
    assert finding.severity is Severity.WARNING


def test_what_lies_across_the_axis_is_never_worked_out() -> None:
    must = '{ part = "plug", end = "tip", toward = "water end", because = "it closes" }'
    text = small_pump(
        (MUST_LIP + ",", f'{must},  # ← facing-never-worked-out at "plug"\n  {MUST_LIP},'),
        ('"lip", "shaft"]\n\n', '"lip", "shaft", "plug"]\n\n'),
        ('part = "shaft"\n\n', 'parts = ["shaft", "plug"]\n\n'),
        more='[[part]]\nid = "plug"\nends = ["head", "tip"]\ninto = "body"\nfrom = "side"\n',
    )
    assert_as_marked(text)


@pytest.mark.parametrize(
    ("stack", "mark"),
    [
        ('{ on = "body", from = "water end", order = ["lip", "cover"] }', '"lip"'),
        ('{ on = "shaft", from = "keyed end", order = ["shaft", "lip"] }', '"lip"'),
    ],
)
def test_a_stack_that_meets_a_part_where_it_cannot_be(stack: str, mark: str) -> None:
    found = rules_found(small_pump(('shaft"] }]', f'shaft"] }}, {stack}]')))
    assert set(found) == {"stack-against-place"}
