"""Thread-locker, locking nuts and angles: what holds a screw, and what keeps it from holding."""

from __future__ import annotations

import pytest

from benchcheck.procedure.finding import Severity
from tests.checking.small_pump import assert_as_marked, changed, findings, rules_found, small_pump

FRICTION = 'friction = { condition = "oiled", nut_factor = 0.15 }'
WET = 'friction = { condition = "wet thread-locker", nut_factor = 0.15 }'
SCREWS = 'screws = [{ item = "M6 x 20" }]'
TORQUE = 'torque = { target = "7 N·m", tolerance = "10 %" }'
STEP = 'act = "tighten"\ngroup = "F1"'
ASKED = f'{STEP}\nask = [{{ what = "temperature at the bench", min = "22 °C", max = "30 °C" }}]'
WAIT = (
    '[[step]]\nid = "leak"',
    '[[step]]\nid = "cure"\nphase = "test"\nact = "wait"\nclock = "F1 cure"\n\n[[step]]\nid = "leak"',
)


def locker(more: str = 'temperature = "22 °C"', times: str = 'handling = "20 min"\ncure = "24 h"') -> str:
    return (
        f'[fasteners.threadlocker]\nstrength = "medium"\namount = "1 drop"\nwhere = "tip"\n{times}\n{more}\n'
    )


def locked(
    friction: str = WET, asked: str = ASKED, *changes: tuple[str, str], told: str | None = None
) -> str:
    text = locker() if told is None else told
    return small_pump((FRICTION, f"{friction}\n{text}"), (STEP, asked), WAIT, *changes)


def test_a_locked_group_as_it_should_be() -> None:
    assert rules_found(locked()) == []


@pytest.mark.parametrize(
    "condition", ["oiled", "lightly oiled", "anti-seize film", "molybdenum paste", "greased"]
)
def test_locker_and_oil(condition: str) -> None:
    friction = f'friction = {{ condition = "{condition}", nut_factor = 0.15 }}'
    mark = f'  # ← locker-on-an-oiled-thread at "{condition}"'
    assert "locker-on-an-oiled-thread" in [each.rule for each in findings(locked(friction + mark))]


@pytest.mark.parametrize("words", ["clean, no oil", "oil-free", "dry", "never greased"])
def test_locker_on_what_is_said_to_be_free_of_oil(words: str) -> None:
    assert "locker-on-an-oiled-thread" not in rules_found(locked(f'{WET}\nlubricate = "{words}"'))


def test_the_oil_may_stand_in_the_lubricant_of_the_group() -> None:
    (finding,) = assert_as_marked(
        locked(f'{WET}\nlubricate = "a drop of oil"  # ← locker-on-an-oiled-thread')
    )
    assert '"a drop of oil"' in finding.message


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        (
            ((WET, f'{WET}\nprevailing = {{ min = "0.4 N·m", max = "1.5 N·m", add = "always" }}'),),
            "running torque",
        ),
        (((SCREWS, 'screws = [{ item = "M6 x 20 with lock washer" }]'),), '"lock washer"'),
        ((('name = "cover screws"', 'name = "self-locking screws"'),), '"self-locking"'),
    ],
)
def test_two_means_of_locking(changes: tuple[tuple[str, str], ...], said: str) -> None:
    text = locked()
    for old, new in changes:
        assert text.count(old) == 1
        text = text.replace(old, new)
    text = text.replace(
        "[fasteners.threadlocker]",
        "[fasteners.threadlocker]  # ← two-means-of-locking at fasteners.threadlocker",
    )
    found = [each for each in findings(text) if each.rule == "two-means-of-locking"]
    assert [said in each.message for each in found] == [True]


def test_a_cure_needs_its_temperature() -> None:
    times = 'handling = "20 min"\ncure = "24 h"  # ← cure-without-temperature'
    assert_as_marked(locked(WET, ASKED, told=locker("", times)))


def test_the_temperature_of_the_cure_has_to_be_read() -> None:
    told = locker('temperature = "22 °C"  # ← cure-temperature-not-asked')
    (finding,) = assert_as_marked(locked(WET, STEP, told=told))
    assert finding.severity is Severity.ADVICE


def test_handling_and_cure_exchanged() -> None:
    times = 'handling = "24 h"  # ← handling-after-cure\ncure = "20 min"'
    assert_as_marked(locked(WET, ASKED, told=locker(times=times)))


@pytest.mark.parametrize(
    "item",
    [
        "M6 self-locking nut",
        "M6 all-metal prevailing-torque nut",
        "M6 nut with nylon insert",
        "M6 locking nut",
    ],
)
def test_a_locking_nut_needs_a_rule_for_its_running_torque(item: str) -> None:
    mark = f'  # ← locking-nut-without-a-rule at "{item}"'
    assert_as_marked(small_pump((SCREWS, f'screws = [{{ item = "{item}" }}]{mark}')))
    rule = 'prevailing = { min = "0.4 N·m", max = "1.5 N·m", add = "always" }'
    assert rules_found(small_pump((SCREWS, f'screws = [{{ item = "{item}" }}]\n{rule}'))) == []


@pytest.mark.parametrize("item", ["M6 x 20", "jam nut M6", "M6 nut with lock nut"])
def test_other_nuts_have_no_running_torque(item: str) -> None:
    assert rules_found(small_pump((SCREWS, f'screws = [{{ item = "{item}" }}]'))) == []


# So long that 60° on top of 4 N·m make 58 % of proof load, and the widest angle below 91 %.
ONCE = 'screws = [{ item = "M6 x 250", grip = "240 mm", single_use = "once disturbed" }]'


def angle(
    told: str, screws: str = ONCE, torque: str = 'torque = { target = "4 N·m", tolerance = "10 %" }'
) -> str:
    told = told.replace(" }", ", stiffness_ratio = 4.0 }", 1)
    return small_pump((TORQUE, f"{torque}\nangle = {told}"), (SCREWS, screws))


def test_an_angle_as_it_should_be() -> None:
    assert rules_found(angle('{ add = "60 °", tolerance = "5 °" }')) == []


def test_screws_that_are_snug_and_never_turned_on_are_not_tight() -> None:
    tighten = 'id = "screws"\nact = "tighten"\ngroup = "F1"'
    told = angle('{ add = "60 °", tolerance = "5 °" }')
    text = changed(told, (tighten, f"{tighten}  # ← fastener-not-tight\nround = 2"))
    first = '[[step]]\nid = "first"\nact = "tighten"\ngroup = "F1"\nround = 1\n\n[[step]]\nid = "screws"'
    text = changed(text, ('[[step]]\nid = "screws"', first))
    (finding,) = assert_as_marked(text)
    assert "no step turns it on by its 60°" in finding.message
    then = f'{tighten}\nround = 2\n\n[[step]]\nid = "on"\nact = "tighten"\ngroup = "F1"'
    both = changed(changed(told, (tighten, then)), ('[[step]]\nid = "screws"', first))
    assert rules_found(both) == []


def test_an_angle_is_given_once() -> None:
    text = angle('{ add = "60 °", tolerance = "5 °", once = false }  # ← angle-given-twice at false')
    assert_as_marked(text)


def test_an_angle_counts_from_a_torque() -> None:
    text = small_pump(
        (TORQUE, 'angle = { add = "60 °", tolerance = "5 °" }  # ← angle-without-a-snug-torque'),
        (SCREWS, ONCE),
    )
    assert_as_marked(text)


@pytest.mark.parametrize("tolerance", ["60 °", "90 °", "0 °"])
def test_an_angle_without_limits(tolerance: str) -> None:
    mark = f'  # ← angle-tolerance-too-wide at "{tolerance}", s'
    text = angle(f'{{ add = "60 °", tolerance = "{tolerance}" }}{mark}')
    assert_as_marked(text)


def test_screws_stretched_by_an_angle_are_good_once() -> None:
    mark = '  # ← stretched-screw-used-again at "M6 x 20"'
    text = angle('{ add = "60 °", tolerance = "5 °" }', SCREWS + mark)
    (finding,) = assert_as_marked(text, "angle-not-judged")
    assert finding.severity is Severity.ADVICE
