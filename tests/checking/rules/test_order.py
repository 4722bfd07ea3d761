"""What goes in and comes off, and in which order: each stop of the guard in a file, at the guilty line."""

from __future__ import annotations

import pytest

from tests.checking.small_pump import assert_as_marked, rules_found, small_pump

Change = tuple[str, str]

OFF = 'off = ["F1", "cover", "G1", "lip", "shaft"]'
SHAFT_IN = 'id = "shaft-in"\npart = "shaft"'
LIP_IN = 'id = "lip-in"\npart = "lip"'
COVER_ON = 'id = "cover-on"\nrings = ["G1"]\npart = "cover"'
SCREWS = '[[step]]\nid = "screws"\nact = "tighten"\ngroup = "F1"\n'
LEAK = '[[step]]\nid = "leak"'
NEVER_LOOSE: Change = ('id = "shaft"\nends', 'id = "shaft"\nnever_loose = true\nends')
SPACER = '[[part]]\nid = "spacer"\ninto = "body"\nfrom = "drive end"\n'
LOCK = '[[part]]\nid = "lock"\ninto = "body"\nfrom = "side"\nholds = ["shaft"]\n'
CLIP = '[[part]]\nid = "clip"\ninto = "shaft"\nfrom = "keyed end"\nholds = ["shaft"]\ntemporary = true\n'
SLEEVE = '[[part]]\nid = "sleeve"\ninto = "shaft"\nfrom = "plain end"\ntemporary = true\n'
DEPTH = 'ask = [{ what = "case below the edge", max = "0.2 mm" }]'


def off(*things: str) -> Change:
    listed = ", ".join(f'"{thing}"' for thing in things)
    return OFF, f"off = [{listed}]"


def step(name: str, *lines: str) -> str:
    return "\n".join((f'[[step]]\nid = "{name}"', *lines, "\n"))


def stack(*parts: str) -> Change:
    listed = ", ".join(f'"{part}"' for part in parts)
    return 'order = ["cover", "lip", "shaft"] }]', f"order = [{listed}] }}]"


FAULTS: dict[str, tuple[tuple[Change, ...], str, tuple[str, ...]]] = {
    "a part twice": (
        ((LEAK, step("again", 'part = "shaft"  # ← already-in') + LEAK),),
        "",
        (),
    ),
    "a group twice": (
        ((LEAK, step("again", 'act = "start"', 'group = "F1"  # ← already-started') + LEAK),),
        "",
        (),
    ),
    "a part never": (
        (stack("cover", "lip", "spacer", "shaft"),),
        SPACER.replace('"spacer"', '"spacer"  # ← part-left-out'),
        (),
    ),
    "a part that came off and never goes back": (
        (
            (OFF, 'off = ["F1", "cover", "G1", "lip", "spacer", "shaft"]  # ← remove-unanswered at "spacer"'),
            stack("cover", "lip", "spacer", "shaft"),
        ),
        SPACER,
        (),
    ),
    "a part taken out again, and not put back": (
        (
            (SHAFT_IN, 'id = "shaft-in"\nparts = ["shaft", "bolt"]'),
            (LEAK, step("out", 'act = "remove"', 'off = ["bolt"]  # ← remove-unanswered at "bolt"') + LEAK),
        ),
        '[[part]]\nid = "bolt"\ninto = "body"\nfrom = "side"\n',
        (),
    ),
    "the cover before what it covers": (
        (
            (f"[[step]]\n{SHAFT_IN}\n\n", ""),
            (SCREWS, step("shaft-in", 'part = "shaft"  # ← place-is-covered') + SCREWS),
        ),
        "",
        (),
    ),
    "one that stays on over what comes off": (
        (
            (OFF, 'off = ["F1", "cover", "G1", "lip", "shaft"]  # ← something-in-the-way at "shaft"'),
            (SHAFT_IN, 'id = "shaft-in"\nparts = ["shaft", "spacer"]'),
            stack("cover", "lip", "spacer", "shaft"),
        ),
        SPACER,
        (),
    ),
    "one part before several that lie under it": (
        (
            (
                SHAFT_IN,
                'id = "shaft-in"\nparts = ["spacer", "shaft", "disc"]  # ← place-is-covered at "spacer"',
            ),
            stack("cover", "lip", "spacer", "disc", "shaft"),
            off("F1", "cover", "G1", "lip", "spacer", "disc", "shaft"),
        ),
        SPACER + '[[part]]\nid = "disc"\ninto = "body"\nfrom = "drive end"\n',
        (),
    ),
    "screws before what they hold": (
        (
            (SCREWS, ""),
            (
                "[[step]]\n" + COVER_ON,
                step("screws", 'act = "tighten"', 'group = "F1"  # ← fastener-holds-nothing')
                + "[[step]]\n"
                + COVER_ON,
            ),
        ),
        "",
        (),
    ),
    "a clip before what it holds": (
        (
            (SHAFT_IN, 'id = "shaft-in"\nparts = ["clip", "shaft"]  # ← holds-nothing at "clip"'),
            off("F1", "cover", "G1", "lip", "clip", "shaft"),
        ),
        '[[part]]\nid = "clip"\ninto = "body"\nfrom = "side"\nholds = ["shaft"]\n',
        (),
    ),
    "a part at an end that is inside": (
        (
            (SHAFT_IN, 'id = "shaft-in"\nparts = ["shaft", "disc"]  # ← end-is-closed at "disc"'),
            off("F1", "cover", "G1", "lip", "shaft", "disc"),
        ),
        '[[part]]\nid = "disc"\ninto = "shaft"\nfrom = "plain end"\n',
        (),
    ),
    "taken off with its screws on": (
        ((OFF, 'off = ["cover", "F1", "G1", "lip", "shaft"]  # ← something-in-the-way at "cover"'),),
        "",
        (),
    ),
    "a ring from under the cover": (
        (
            (
                OFF,
                'off = ["F1", "G1", "cover", "lip", "shaft"]  # ← something-in-the-way at "G1"',
            ),
        ),
        "",
        (),
    ),
    "taken out twice": (
        (
            (OFF, 'off = ["F1", "cover", "G1", "lip", "shaft", "shaft"]'),
            (
                '[[step]]\nid = "runout"',
                step("out", 'phase = "teardown"', 'act = "remove"', 'off = ["lip"]  # ← not-in at "lip"')
                + '[[step]]\nid = "runout"',
            ),
        ),
        "",
        ("not-in",),
    ),
    "loosened twice": (
        (
            (
                '[[step]]\nid = "runout"',
                step("loose", 'phase = "teardown"', 'act = "remove"', 'off = ["F1"]  # ← not-on at "F1"')
                + '[[step]]\nid = "runout"',
            ),
        ),
        "",
        (),
    ),
    "without its guard": (
        (
            ('id = "shaft"\nends', 'id = "shaft"\nunder = "sleeve"\nends'),
            (SHAFT_IN, SHAFT_IN + "  # ← guard-missing"),
        ),
        SLEEVE,
        (),
    ),
    "a tool left inside": (
        ((SHAFT_IN, 'id = "shaft-in"\nparts = ["sleeve", "shaft"]  # ← tool-left-inside at "sleeve"'),),
        SLEEVE,
        (),
    ),
    "the last holder off": (
        (
            NEVER_LOOSE,
            off("F1", "cover", "G1", "lip"),
            (
                '[[step]]\nid = "runout"',
                step("clip-on", 'phase = "teardown"', 'part = "clip"')
                + step("shaft-out", 'phase = "teardown"', 'act = "remove"', 'off = ["lock", "shaft"]')
                + '[[step]]\nid = "runout"',
            ),
            (
                SHAFT_IN,
                SHAFT_IN
                + "\n\n"
                + step("clip-off", 'act = "remove"', 'off = ["clip"]  # ← left-loose at "clip"')
                + step("lock-on", 'part = "lock"').rstrip(),
            ),
        ),
        LOCK + CLIP,
        (),
    ),
    "a part that nothing holds": (
        (('id = "shaft"\nends', 'id = "shaft"\nnever_loose = true  # ← never-held\nends'),),
        "",
        (),
    ),
    "before a step that it comes after": (
        ((SHAFT_IN, SHAFT_IN + '\nafter = ["lip-in"]  # ← step-before-its-time at "lip-in"'),),
        "",
        (),
    ),
    "after itself": (
        ((SHAFT_IN, SHAFT_IN + '\nafter = ["shaft-in"]  # ← step-before-its-time at "shaft-in"'),),
        "",
        (),
    ),
}


@pytest.mark.parametrize("fault", FAULTS)
def test_each_fault_is_found_at_its_line(fault: str) -> None:
    changes, more, consequences = FAULTS[fault]
    assert_as_marked(small_pump(*changes, more=more), *consequences)


def test_the_message_names_what_came_too_late() -> None:
    text = small_pump(
        (f"[[step]]\n{SHAFT_IN}\n\n", ""),
        (SCREWS, step("shaft-in", 'part = "shaft"  # ← place-is-covered') + SCREWS),
    )
    (finding,) = assert_as_marked(text)
    line = next(at for at, each in enumerate(text.splitlines(), 1) if each.startswith("stack"))
    assert f"the stack has `cover` outside it (line {line})" in finding.message
    assert "Put `shaft` before `cover`" in finding.remedy


def test_a_part_that_is_not_taken_off_need_not_go_back() -> None:
    assert rules_found(small_pump(off("F1", "cover", "G1", "lip"))) == []


def test_a_step_of_another_branch_need_not_come_first() -> None:
    asks = 'ask = [{ what = "edge", one_of = ["sharp", "worn"], sets = "edge" }]'
    text = small_pump(
        ('ask = [{ what = "serial on the plate", kind = "serial" }]', asks),
        (
            f"[[step]]\n{SHAFT_IN}",
            step("stone", 'act = "do"', 'text = "Stone the edge."', 'if = { edge = "worn" }')
            + f'[[step]]\n{SHAFT_IN}\nafter = ["stone"]',
        ),
    )
    assert rules_found(text) == []


# ---------------------------------------------------------------------- branches

ASKED = (
    'ask = [{ what = "serial on the plate", kind = "serial" }]',
    'ask = [{ what = "shaft", one_of = ["good", "worn"], sets = "shaft" }]',
)


def test_both_branches_take_the_same_part_off() -> None:
    text = small_pump(
        ASKED,
        off("F1", "cover", "G1", "lip"),
        (
            '[[step]]\nid = "runout"',
            step("shaft-out", 'phase = "teardown"', 'act = "remove"', 'off = ["shaft"]')
            + step(
                "old-shaft-out",
                'phase = "teardown"',
                'act = "remove"',
                'off = ["shaft"]  # ← not-in at "shaft"',
                'if = { shaft = "worn" }',
            )
            + '[[step]]\nid = "runout"',
        ),
    )
    (finding,) = assert_as_marked(text)
    assert 'when `shaft` is "worn"' in finding.message


def test_both_branches_fit_the_same_part() -> None:
    text = small_pump(
        ASKED,
        (
            f"[[step]]\n{LIP_IN}",
            step(
                "new-shaft-in",
                'part = "shaft"  # ← already-in',
                'if = { shaft = "worn" }  # ← branch-on-a-fitting',
            )
            + f"[[step]]\n{LIP_IN}",
        ),
    )
    finding, _ = assert_as_marked(text)
    assert "since `shaft-in`" in finding.message and 'when `shaft` is "worn"' in finding.message


def test_neither_branch_fits_the_part() -> None:
    text = small_pump(
        ASKED,
        (
            OFF,
            'off = ["F1", "cover", "G1", "lip", "shaft"]  # ← remove-unanswered at "shaft"',
        ),
        (SHAFT_IN, SHAFT_IN + '\nif = { shaft = "scrap" }  # ← branch-on-a-fitting'),
        ('one_of = ["good", "worn"], sets', 'one_of = ["good", "worn", "scrap"], sets'),
    )
    finding, _ = assert_as_marked(text, "part-left-out")
    assert 'when `shaft` is "good" or "worn"' in finding.message


def test_a_question_that_comes_after_the_step_that_needs_it() -> None:
    grease = step(
        "grease",
        'act = "do"',
        'text = "Grease the shaft."',
        'if = { edge = "worn" }  # ← verdict-asked-too-late at "worn"',
    )
    asks = step(
        "edge", 'act = "check"', 'ask = [{ what = "edge", one_of = ["sharp", "worn"], sets = "edge" }]'
    )
    text = small_pump((f"[[step]]\n{SHAFT_IN}", grease + f"[[step]]\n{SHAFT_IN}"), (LEAK, asks + LEAK))
    (finding,) = assert_as_marked(text)
    assert "`edge` (line " in finding.message


def test_a_question_that_not_every_variant_is_asked() -> None:
    text = small_pump(
        ('main = "body"', 'main = "body"\nvariants = ["R", "L"]'),
        (
            f"[[step]]\n{SHAFT_IN}",
            step(
                "edge",
                'act = "check"',
                'for = ["R"]',
                'ask = [{ what = "edge", one_of = ["sharp", "worn"], sets = "edge" }]',
            )
            + step(
                "grease",
                'act = "do"',
                'text = "Grease the shaft."',
                'if = { edge = "worn" }  # ← verdict-asked-too-late at "worn"',
            )
            + f"[[step]]\n{SHAFT_IN}",
        ),
    )
    assert_as_marked(text)


# ---------------------------------------------------------------------- how it begins and ends


def test_a_phase_that_is_over() -> None:
    text = small_pump(
        (
            LEAK,
            step(
                "look",
                'phase = "inspection"  # ← phases-out-of-order',
                'act = "check"',
                'ask = [{ what = "lot", kind = "lot" }]',
            )
            + LEAK,
        )
    )
    assert_as_marked(text)


def test_a_step_after_the_signature_and_none_at_all() -> None:
    label = step("label", 'phase = "release"', 'act = "do"', 'text = "Hang the label on."').replace(
        '"label"', '"label"  # ← ends-without-a-release'
    )
    (finding,) = assert_as_marked(small_pump(more=label))
    assert "after the signature, `release`" in finding.message
    release = '[[step]]\nid = "release"\nphase = "release"\nact = "sign"\n'
    (finding,) = assert_as_marked(
        small_pump((release, ""), ('id = "leak"\n', 'id = "leak"  # ← ends-without-a-release\n'))
    )
    assert "nothing is signed" in finding.message
