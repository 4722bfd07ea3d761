"""Workspaces with one file damaged, or lying under good seals, and every command that may come upon it.

All of it comes from a seed. What has to hold: an exit status of the table, never that of a fault of ours;
nothing printed that steers a terminal; every record and procedure afterwards byte for byte as it was.
"""

from __future__ import annotations

import contextlib
import io
import random
import re
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from benchcheck.cli import main
from benchcheck.exit_status import ExitStatus
from benchcheck.session import record
from tests.checking.damage import damaged
from tests.pumps import ROOT

RECORDS = (
    "E-060-20261111T070000Z.toml",
    "M-041-20261005T070000Z.toml",
    "V-309-20261014T070000Z.toml",
    "V-311-20261117T070000Z.toml",
)
PROCEDURES = ("xmpl-ef150-a.toml", "xmpl-mc05-a.toml", "xmpl-vv07-a.toml")
REPORTS = ("text", "html", "label", "events-csv", "readings-csv")
REGISTERS = ("shop.toml", "instruments.toml", "people.toml")
HOSTILE: tuple[Any, ...] = (
    "", "[/]", "[OIL] [red] [@click=app.quit]x[/]", "\x1b[2J\x1b]0;x\x07", "\u202eabc", "=1+1",
    "<script>x</script>", "漢字" * 300, "../../etc/passwd", "2026-02-30", "0001-01-01T00:00:00+14:00",
    "9999-12-31T23:59:59-14:00", "1e999 N·m", "nan bar", "-5 lbf·in", "9" * 400,
    0, -1, 2**63 - 1, -(2**63), 1e308, -0.0, True, [], ["x", "x"],
)  # fmt: skip

STEERS = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]")
"""What a terminal would obey, or turn text round by."""


def commands(workspace: Path) -> tuple[tuple[object, ...], ...]:
    """Every way to come upon the files of a workspace, from the command line."""
    records, procedures = workspace / "sessions", workspace / "procedures"
    return (
        ("check", procedures),
        *(("check", procedures / name, "--json") for name in PROCEDURES),
        *(("rehearse", procedures / name) for name in PROCEDURES),
        ("compare", procedures / PROCEDURES[0], procedures / PROCEDURES[1]),
        ("verify", records),
        ("verify", records, "--json"),
        *(
            ("report", records, "--as", kind)
            for kind in ("text", "html", "label", "events-csv", "readings-csv")
        ),
        ("records",),
        ("records", "--json"),
        ("records", "--find", "TW-02"),
        ("trace", "--wrench", "TW-02", "--error", "+9 %"),
        ("trace", "--person", "T. Sample", "--json"),
        ("trace", "--lot", "L-1", "--without-index"),
        ("trace", "--procedure", "xmpl-vv07-a"),
        ("trace", "--serial", "V-309", "--html", workspace / "trace.html"),
        ("trends", "xmpl-mc05"),
        ("trends", "xmpl-vv07", "--json"),
        ("--lines",),
    )


def go_through(seed: int, most: int | None = None) -> int:
    """Damage one file of a workspace, and call what may come upon it; how many commands were called.

    `most` takes so many of the commands, by chance. Raises AssertionError.
    """
    chance = random.Random(seed)
    with tempfile.TemporaryDirectory() as name:
        workspace = Path(name)
        path = workspace_with_a_fault(workspace, chance)
        before = dict(_kept(workspace))
        called = list(commands(workspace))
        if most is not None:
            called = chance.sample(called, most)
        for words in called:
            said = f"seed {seed}, {path.name}: {' '.join(map(str, words))}"
            status, printed = _called(workspace, words)
            assert status in set(ExitStatus) - {ExitStatus.UNEXPECTED}, f"{said}: {status}\n{printed[-3000:]}"
            assert "Traceback" not in printed, f"{said}\n{printed[-3000:]}"
            steers = STEERS.search(printed)
            assert steers is None, f"{said}: {printed[max(steers.start() - 200, 0) : steers.end()]!r} steers"
            assert dict(_kept(workspace)) == before, f"{said}: changed a file"
        return len(called)


def workspace_with_a_fault(workspace: Path, chance: random.Random) -> Path:
    """Fill an empty folder with procedures, registers and records; which of them is not as it should be."""
    _sound_workspace(workspace)
    return _damage_something(workspace, chance)


def _sound_workspace(workspace: Path) -> None:
    procedures, records = workspace / "procedures", workspace / "sessions"
    procedures.mkdir()
    for name in (*PROCEDURES, *REGISTERS):
        shutil.copy(ROOT / "procedures" / name, procedures)
    shutil.copytree(ROOT / "sessions" / "procedures", records / "procedures")
    for name in RECORDS:
        shutil.copy(ROOT / "sessions" / name, records)
    seen = (ROOT / "sessions" / "seen-seals.txt").read_text().splitlines(keepends=True)
    here = [line for line in seen if any(name.removesuffix(".toml") in line for name in RECORDS)]
    (records / "seen-seals.txt").write_text("".join(here))


def _damage_something(workspace: Path, chance: random.Random) -> Path:
    kind = chance.randrange(4)
    if kind == 0:
        path = workspace / "procedures" / chance.choice(PROCEDURES)
    elif kind == 1:
        path = workspace / "procedures" / chance.choice(REGISTERS)
    else:
        path = workspace / "sessions" / chance.choice((*RECORDS, *RECORDS, "seen-seals.txt"))
    if kind == 2 and path.suffix == ".toml":
        path.write_bytes(lying(path.read_bytes(), chance))
    elif chance.random() < 0.3:
        path.write_bytes(_with_hostile_text(path.read_text(encoding="utf-8"), chance))
    else:
        path.write_bytes(damaged(path.read_text(encoding="utf-8"), chance.randrange(2**32)))
    return path


def _with_hostile_text(text: str, chance: random.Random) -> bytes:
    """A file in which some texts are what nobody would write, escaped as TOML has it."""
    pieces = text.split('"')
    for _ in range(chance.choice((1, 3, 30))):
        hostile = chance.choice([each for each in HOSTILE if isinstance(each, str)])
        at = chance.randrange(len(pieces))
        pieces[at] = "".join(each if each.isprintable() else f"\\u{ord(each):04X}" for each in hostile)
    return '"'.join(pieces).encode()


def lying(content: bytes, chance: random.Random) -> bytes:
    """A record in which something is not as the program writes it, and every seal of which holds."""
    good = record.read(content)
    assert good.header is not None
    events = [dict(event) for event in good.events]
    for _ in range(chance.choice((1, 1, 2, 5, 20))):
        chance.choice(_LIES)(events, chance)
    written = record.header_bytes(good.header)
    chain = record.Chain(written)
    for number, event in enumerate(events, start=1):
        more, chain = chain.then(event | {"number": number})
        written += more
    return written


Events = list[dict[str, Any]]


def _a_value_lies(events: Events, chance: random.Random) -> None:
    event = chance.choice(events)
    event[chance.choice(list(event))] = chance.choice(HOSTILE)


def _a_value_of_another_event(events: Events, chance: random.Random) -> None:
    event, other = chance.choice(events), chance.choice(events)
    key = chance.choice(list(other))
    event[key] = other[key]


def _a_value_of_its_like(events: Events, chance: random.Random) -> None:
    """What another event of the same kind says: a name, a figure or a time that exists, in a wrong place."""
    event = chance.choice(events)
    other = chance.choice([each for each in events if each.get("kind") == event.get("kind")])
    key = chance.choice(list(other))
    event[key] = other[key]


def _a_key_is_missing(events: Events, chance: random.Random) -> None:
    event = chance.choice(events)
    event.pop(chance.choice(list(event)))


def _an_event_is_missing(events: Events, chance: random.Random) -> None:
    if len(events) > 1:
        del events[chance.randrange(len(events))]


def _an_event_comes_twice(events: Events, chance: random.Random) -> None:
    events.insert(chance.randrange(len(events) + 1), dict(chance.choice(events)))


def _events_change_places(events: Events, chance: random.Random) -> None:
    one, other = chance.randrange(len(events)), chance.randrange(len(events))
    events[one], events[other] = events[other], events[one]


_LIES = (
    _a_value_lies,
    _a_value_lies,
    _a_value_of_another_event,
    _a_value_of_its_like,
    _a_value_of_its_like,
    _a_key_is_missing,
    _an_event_is_missing,
    _an_event_comes_twice,
    _events_change_places,
)


def _kept(workspace: Path) -> Iterator[tuple[Path, bytes]]:
    """The files that no command may touch; what was seen of seals may grow, and the index is only a view."""
    for path in sorted(workspace.rglob("*.toml")):
        yield path, path.read_bytes()


def _called(workspace: Path, words: tuple[object, ...]) -> tuple[int, str]:
    written = io.BytesIO()
    printed = io.TextIOWrapper(written, "utf-8", write_through=True)
    with contextlib.redirect_stdout(printed), contextlib.redirect_stderr(printed):
        status = main(["--workspace", str(workspace), *map(str, words)])
    return status, written.getvalue().decode()
