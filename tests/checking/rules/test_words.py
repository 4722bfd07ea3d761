"""Words that say too little, or something else than the data beside them."""

from __future__ import annotations

import pytest

from benchcheck.checking.orientation import names_of, orientation_word
from benchcheck.procedure.finding import Severity
from tests.checking.small_pump import assert_as_marked, findings, parsed, rules_found, small_pump

SCREWS = 'id = "screws"\nact = "tighten"\ngroup = "F1"'
ITEM = 'screws = [{ item = "M6 x 20" }]'
TORQUE = 'torque = { target = "7 N·m", tolerance = "10 %" }'
LIP_IN = 'id = "lip-in"\npart = "lip"'
DROPS = "drops at the drain in five minutes"
LEAK = f'ask = [{{ what = "{DROPS}", one_of = ["none", "one or more"], good = ["none"] }}]'
OIL = 'text = "Oil under pressure cuts through skin. Let the pressure off before any screw is touched."'


def screws_say(text: str, rule: str = "", *changes: tuple[str, str]) -> str:
    mark = f"  # ← {rule}" if rule else ""
    return small_pump((SCREWS, f'{SCREWS}\ntext = "{text}"{mark}'), *changes)


# ------------------------------------------------------------------ orientation

NAMES = names_of(parsed(small_pump()).model)
"""Of the small pump: drive end, water end, keyed end, plain end, mouth, back, outer face, inner face ..."""


@pytest.mark.parametrize(
    "text",
    [
        "Lip down.",
        "Press it home, grooved face up.",
        "With the mouth down, press it in.",  # a name of this pump, and still no frame
        "Hold the body drive end up.",
        "Turn the lip upwards.",
        "Turn it upside down.",
        "It goes in right way up.",
        "Lay it face down.",
        "The dots face up.",
        "The lip points down",
        "Long screws on the left side, short ones on the right.",
        "Begin at the left.",
        "Put the key to the right.",
        "The lip faces inward.",
        "The open side facing outside.",
        "Facing the rear, groove first.",
        "Look for scratches on the top face.",
        "The mark is on the front side.",
        "The spring stands facing forward.",
        "Grease the upper edge.",
        "Lips toward the inside.",
    ],
)
def test_words_that_need_the_work_to_be_held_in_one_way(text: str) -> None:
    assert orientation_word(text, NAMES) is not None


@pytest.mark.parametrize(
    "text",
    [
        "Press until it bottoms.",
        "Line up the marks, then screw it down.",
        "Pick up the ring and hold it up to the light.",
        "Clean up the thread; dry it with compressed air.",
        "Press it down until the edge of the case is reached.",
        "Back it out by three turns and turn it back.",
        "Pressure left before the run.",
        "Old rubber left in the groove.",
        "Press to the right depth, at the right speed.",
        "Left-hand thread.",
        "The order of tightening backwards, in two passes.",
        "Case below the edge of the pocket.",
        "Top of the cartridge below the edge of the ring groove.",
        "Outer race below the edge.",
        "Wrap the back-up ring round the shaft.",
        "Open up the bore, warm up the oil, run it up to speed.",
        "Run the nut down by fingers to its seat.",
        "The arrow is on the left as seen from the drive end.",
        "Looking at the drive end, the inlet is on the right.",
        "On the outer face, near the drain.",
        "Put the guard back on its hook, in front of the rack.",
        "Up to 30 bar.",
        "Write down what the old faces say.",
        "Grease on the outside.",
        "",
    ],
)
def test_words_that_do_not(text: str) -> None:
    assert orientation_word(text, NAMES) is None


def test_an_orientation_word_is_found_wherever_something_is_told() -> None:
    assert_as_marked(small_pump((LIP_IN, f'{LIP_IN}\ntext = "Lip down."  # ← orientation-word')))
    assert_as_marked(small_pump((LIP_IN, f'{LIP_IN}\nname = "Lip seal, lip up"  # ← orientation-word')))
    assert_as_marked(
        small_pump(('where = "round the spigot"', 'where = "on the lower side"  # ← orientation-word'))
    )
    assert_as_marked(small_pump((OIL, 'text = "Keep the left side clear."  # ← orientation-word')))
    mark = '  # ← orientation-word at "lip, face down"'
    asked = LEAK.replace(DROPS, "lip, face down")
    assert_as_marked(small_pump((LEAK, asked + mark)))


def test_an_end_that_is_named_for_how_it_lies_is_worth_a_word() -> None:
    text = (
        small_pump()
        .replace('"plain end"', '"bottom"')
        .replace(
            'ends = ["keyed end", "bottom"]',
            'ends = ["keyed end", "bottom"]  # ← orientation-word at "bottom"',
        )
    )
    (finding,) = assert_as_marked(text)
    assert finding.severity is Severity.ADVICE


# ------------------------------------------------------------------ rotation


@pytest.mark.parametrize("words", ["clockwise", "counter-clockwise", "counterclockwise", "anti-clockwise"])
def test_a_rotation_needs_the_end_it_is_seen_from(words: str) -> None:
    mark = '  # ← rotation-without-its-viewing-end at "way the shaft turns"'
    asked = (
        f'ask = [{{ what = "way the shaft turns", one_of = ["{words}", "not at all"], good = ["{words}"] }}]'
    )
    assert_as_marked(small_pump((LEAK, asked + mark)))
    seen = asked.replace("turns", "turns, seen from the drive end")
    assert rules_found(small_pump((LEAK, seen))) == []


@pytest.mark.parametrize(
    ("text", "wrong"),
    [
        ("The shaft has to run clockwise.", True),
        ("Looking at the drive end the shaft runs clockwise.", False),
        ("It runs clockwise as seen from the drive end. Stop it then.", False),
        ("Seen from the drive end there is an arrow. The shaft has to run clockwise.", True),
        ("Turn the screw clockwise until it stops.", False),
        ("Then a clockwise pass.", False),
    ],
)
def test_a_rotation_in_a_text(text: str, wrong: bool) -> None:
    rule = "rotation-without-its-viewing-end"
    assert rules_found(screws_say(text)) == ([rule] if wrong else [])


# ------------------------------------------------------------------ vague words


@pytest.mark.parametrize(
    "text",
    [
        "Tighten until tight.",
        "Make sure it is properly seated.",
        "Assembly is the reverse of removal.",
        "Refit in reverse order.",
        "Oil as required.",
        "Replace if necessary.",
        "Do not overtighten.",
        "Screw it in hand-tight.",
        "Use a suitable press.",
        "A little grease.",
        "Apply some oil.",
        "Lubricate sparingly.",
        "Clean pins, keys, etc.",
        "Wait about 5 minutes.",
        "Check that the bore is in good condition.",
    ],
)
def test_vague_words(text: str) -> None:
    (finding,) = assert_as_marked(screws_say(text, "vague-word"))
    assert finding.remedy.startswith("Write ")


@pytest.mark.parametrize(
    "text",
    [
        "Until it bottoms.",
        "Turns free.",
        "A film of oil.",
        "Tight to 7 N·m.",
        "The approximation holds.",
        "In order of size.",
    ],
)
def test_words_that_are_not_vague(text: str) -> None:
    assert rules_found(screws_say(text)) == []


# ------------------------------------------------------------------ text against data


@pytest.mark.parametrize(
    "text",
    [
        "Look at all six screws.",
        "Mark all 8 heads.",
        "All six.",
        "Oil all of the six screws.",
        "The 6 screws are of one length.",
    ],
)
def test_a_count_that_the_layout_does_not_have(text: str) -> None:
    (finding,) = assert_as_marked(screws_say(text, "count-told-two-ways"))
    assert "`F1` has 4" in finding.message


@pytest.mark.parametrize(
    "text",
    [
        "Look at all four screws.",
        "Mark all 4 heads.",
        "The two screws at the drain are the last.",
        "All three lobes.",
        "Six drops.",
        "M6 screws.",
        "Once more, all of them.",
    ],
)
def test_counts_that_say_nothing_else(text: str) -> None:
    assert rules_found(screws_say(text)) == []


def test_a_count_may_stand_in_a_name_or_a_caution() -> None:
    assert_as_marked(
        small_pump(('name = "cover screws"', 'name = "six cover screws"  # ← count-told-two-ways'))
    )
    before = f'{OIL}\nbefore = ["safe"]'
    text = 'text = "The spring lifts the cover when all six screws are out."  # ← count-told-two-ways'
    caution = f'{text}\nbefore = ["open"]'
    assert_as_marked(small_pump((before, caution)))


def test_left_hand_in_words_and_right_hand_in_the_data() -> None:
    at = '"M6 x 20, left-hand"'
    (finding,) = assert_as_marked(
        small_pump((ITEM, f"screws = [{{ item = {at} }}]  # ← hand-told-two-ways at {at}"))
    )
    assert finding.severity is Severity.ERROR
    assert_as_marked(screws_say("Left-hand thread: turn it counter-clockwise.", "hand-told-two-ways"))
    assert_as_marked(small_pump(('thread = "M6"', 'thread = "M6 LH"  # ← hand-told-two-ways')))


def test_right_hand_in_words_and_left_hand_in_the_data() -> None:
    left = (TORQUE, f'{TORQUE}\nhand = "left"')
    said = screws_say("These are right-hand threads.", "hand-told-two-ways", left)
    assert_as_marked(said, wrenches=())
    assert rules_found(screws_say("Left-hand thread.", "", left), wrenches=()) == []
    assert rules_found(screws_say("Left-hand, not right-hand like the others.", "", left), wrenches=()) == []


def test_a_hand_that_is_said_of_another_group_is_not_said_of_this_one() -> None:
    open_ = 'id = "open"\nphase = "teardown"\nact = "remove"\noff = ["F1", "cover", "G1", "lip", "shaft"]'
    two = open_.replace('off = ["F1"', 'off = ["F2", "nut", "F1"') + '\ntext = "The nut is left-hand."'
    more = (
        '\n[[part]]\nid = "nut"\ninto = "shaft"\nfrom = "keyed end"\n'
        '[[fasteners]]\nid = "F2"\ninto = "shaft"\nfrom = "keyed end"\nparts = ["nut"]\nhand = "left"\n'
    )
    assert "hand-told-two-ways" not in [each.rule for each in findings(small_pump((open_, two), more=more))]


LOCKER = (
    'friction = { condition = "oiled", nut_factor = 0.15 }',
    'friction = { condition = "wet thread-locker", nut_factor = 0.15 }\n'
    'threadlocker = { strength = "medium", '
    'amount = "2 drops", where = "tip", handling = "20 min", cure = "24 h" }',
)


@pytest.mark.parametrize(
    ("text", "wrong"),
    [
        ("3 drops of thread-locker.", True),
        ("Two drops of thread-locker.", False),
        ("Look for 3 drops of water.", False),
    ],
)
def test_drops_of_locker(text: str, wrong: bool) -> None:
    found = findings(screws_say(text, "", LOCKER))
    assert ("drops-told-two-ways" in [each.rule for each in found]) == wrong


@pytest.mark.parametrize("text", ["Set it to 9 N·m.", "That is 62 lbf·ft.", "First 3 Nm, then 70 kgf·cm."])
def test_a_torque_in_words_that_is_not_the_data_s(text: str) -> None:
    found = [
        each
        for each in findings(screws_say(text, "torque-told-two-ways"))
        if each.rule == "torque-told-two-ways"
    ]
    assert found and found[0].place.line == 1 + screws_say(text).split(text)[0].count("\n")


@pytest.mark.parametrize(
    "text",
    ["Set it to 7 N·m.", "7 N·m is 62 lbf·in.", "First 3.5 N·m, then 7.0 Nm.", "Between 6.3 and 7.7 N·m."],
)
def test_a_torque_in_words_that_is(text: str) -> None:
    assert rules_found(screws_say(text)) == []


def test_a_ring_s_size_in_words() -> None:
    cover = 'id = "cover-on"\nrings = ["G1"]\npart = "cover"'
    assert_as_marked(
        small_pump((cover, f'{cover}\ntext = "The -138 lies in it."  # ← ring-size-told-two-ways'))
    )
    assert rules_found(small_pump((cover, f'{cover}\ntext = "The -137, variant -05, at -40 °C."'))) == []
