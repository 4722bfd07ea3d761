"""Clocks along the steps: waited for before what they bar, started before they are waited for."""

from __future__ import annotations

from tests.checking.small_pump import assert_as_marked, rules_found, small_pump

FRICTION = 'friction = { condition = "oiled", nut_factor = 0.15 }'
SCREWS = 'act = "tighten"\ngroup = "F1"'
LEAK = '[[step]]\nid = "leak"'
COVER_ON = '[[step]]\nid = "cover-on"'
AGAIN = (FRICTION, FRICTION + '\nagain = { after = "4 h", before = "test" }')
SECOND = '[[step]]\nid = "second-pass"\nact = "tighten"\ngroup = "F1"\n\n'


def soak(more: str = 'bars = ["leak"]', starts: str = "cover-on") -> str:
    return f'[[clock]]\nid = "soak"\nstarts = "{starts}"\nleast = "5 min"\n{more}\nbecause = "it swells"\n'


def wait(clock: str = "soak", mark: str = "") -> str:
    return f'[[step]]\nid = "wait"\nact = "wait"\nclock = "{clock}"{mark}\n\n'


def test_a_clock_that_is_waited_for() -> None:
    assert rules_found(small_pump((LEAK, wait() + LEAK), more=soak())) == []
    assert rules_found(small_pump((LEAK, wait() + LEAK), more=soak('bars = "test"'))) == []


def test_a_wait_that_comes_too_late_or_not_at_all() -> None:
    marked = (LEAK + "\n", LEAK + "  # ← barred-step-before-its-wait\n")
    release = '[[step]]\nid = "release"'
    late = wait().replace('act = "wait"', 'phase = "test"\nact = "wait"')
    (finding,) = assert_as_marked(small_pump(marked, (release, late + release), more=soak()))
    assert "`wait` (line " in finding.message and finding.remedy == "Put `wait` before it."
    (finding,) = assert_as_marked(small_pump(marked, more=soak()))
    assert "no step waits for it" in finding.message


def test_a_clock_that_only_tells_the_latest_needs_no_wait() -> None:
    at_most = soak().replace('least = "5 min"', 'most = "2 h"')
    assert rules_found(small_pump(more=at_most)) == []


def test_a_wait_for_a_clock_that_does_not_run() -> None:
    text = small_pump(
        (COVER_ON, wait(mark="  # ← wait-before-its-clock-starts") + COVER_ON),
        (LEAK + "\n", LEAK + "  # ← barred-step-before-its-wait\n"),
        more=soak(),
    )
    finding, _ = assert_as_marked(text)
    assert "which `cover-on` (line " in finding.message


def test_a_clock_that_bars_nothing_any_more() -> None:
    late = soak('bars = ["cover-on"]  # ← clock-bars-nothing', starts="leak")
    assert_as_marked(small_pump(more=late))


def test_a_second_pass() -> None:
    good = small_pump(AGAIN, (LEAK, wait("F1 again") + SECOND + LEAK))
    assert rules_found(good) == []
    text = small_pump(
        (FRICTION, FRICTION + '\nagain = { after = "4 h", before = "test" }  # ← second-pass-missing'),
        (LEAK, wait("F1 again") + LEAK),
    )
    assert_as_marked(text)


def test_a_group_that_is_never_loosened_starts_no_clock() -> None:
    """The plate was never off: its locker has cured long ago."""
    text = small_pump(
        AGAIN,
        ('off = ["F1", "cover", "G1", "lip", "shaft"]', 'off = ["drain-plug"]'),
        more='[[part]]\nid = "drain-plug"\ninto = "body"\nfrom = "side"\n',
    )
    assert "second-pass-missing" not in rules_found(text)
