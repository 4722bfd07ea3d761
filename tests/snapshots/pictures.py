"""Which screens are kept as text, how each is come to, and how its text is made.

    python -m tests.snapshots.pictures

writes all of them anew: look at what changed before it is committed. A file holds one screen at both sizes,
as it is drawn and in plain ASCII, and what is drawn reversed, for eyes and terminals without colour.
"""

from __future__ import annotations

import asyncio
import re
import shutil
import sys
import tempfile
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path

from benchcheck.screens.tones import REVERSED
from benchcheck.screens.widgets.sheet import Sheet
from tests.report import sample
from tests.screens.at_the_desk import Shelf, at_the_records
from tests.screens.hands import Hands, at_the_bench, at_work
from tests.screens.prepared import MAIN_PUMP, Moment, moment_of, opened, save, sitting_at
from tests.screens.searched import four_sessions

FOLDER = Path(__file__).parent
SIZES = ((80, 24), (120, 40))
_LINE = re.compile(r"(?<=line )\d+|\d+(?= [│|] )")
_CHECK = re.compile(r"[0-9a-f]{4} [0-9a-f]{4} [0-9a-f]{4}")


@dataclass(frozen=True)
class Screen:
    """A screen: the act or step it is at, the question of it, and the keys that are pressed there.

    Keys: a name; `=text` types a text; `>words` chooses a line; `+minutes` puts the clock forward.
    """

    at: str
    question: str = ""
    keys: tuple[str, ...] = ()
    variant: str = "-05"
    procedure: str = "xmpl-hc40-c.toml"


TIGHTEN = ("F1-r2/tighten:F1", "round 2 position 2")
SCREENS = {
    "who": Screen("", "name"),
    "words": Screen("safe/ask:0"),
    "answers": Screen("safe/ask:2", keys=("1",)),
    "kit": Screen("kit/ask:1", "bag 4", ("=-150 NBR",)),
    "wrenches": Screen("tools/ask:0", keys=("2",)),
    "wrenches-for-the-nut": Screen("tools/ask:0", "wrench F3"),
    "unit-that-a-wrench-shows": Screen("tools/ask:0", keys=(">TW-04",)),
    "lay-out": Screen("tools/ask:0", "done"),
    "how-it-lies": Screen("as-found/loosen:F6", "pose"),
    "loosen": Screen("open-wet/loosen:F2", "loose"),
    "take-out": Screen("open-wet/remove:washer"),
    "take-out-facing": Screen("open-shaft/remove:cartridge", "face"),
    "take-out-ring": Screen("open-wet/lift:G11"),
    "count": Screen("discard/ask:0", keys=("=20",)),
    "measure": Screen("wear-ring/ask:0"),
    "measure-proves-the-variant": Screen("rotor-width/ask:0", keys=("=0.5",)),
    "outside": Screen("wear-ring/ask:0", keys=("=0.02", "enter")),
    "facing-lip": Screen("main-lip-in/install:main-lip", "face"),
    "facing-lip-refused": Screen("main-lip-in/install:main-lip", "face", (">the closed back",)),
    "facing-cartridge": Screen("cartridge-in/install:cartridge", "face", ("1",)),
    "groove-looked-at": Screen("cartridge-in/install:cartridge", "groove G3"),
    "groove-empty-refused": Screen("cartridge-in/install:cartridge", "groove G3", (">it is empty",)),
    "home": Screen("shaft-in/install:shaft", "home"),
    "what-lies-on-top": Screen("shaft-in/install:shaft", "place"),
    "what-lies-on-top-refused": Screen("shaft-in/install:shaft", "place", (">the seal cartridge",)),
    "marks": Screen("plate-on/install:plate", "mark"),
    "ring-fitted": Screen("fit-G4/fit:G4"),
    "ring-refused": Screen("fit-G4/fit:G4", "", ("=-150 NBR", "enter")),
    "hold-point-name": Screen("cartridge-in/install:cartridge", "witness"),
    "hold-point": Screen("lip-check/witness", "saw main-lip"),
    "screws": Screen("screws-in/start:F1"),
    "tighten": Screen(*TIGHTEN, keys=("=134",)),
    "tighten-turned": Screen(*TIGHTEN, keys=("right",)),
    "tighten-refused": Screen(*TIGHTEN, keys=("=150", "enter")),
    "tighten-out-of-order": Screen(*TIGHTEN, keys=("=3:134", "enter")),
    "tighten-setting-wrench": Screen("valve-in/tighten:F4"),
    "tighten-eight": Screen("F2/tighten:F2", "round 2 position 3"),
    "tighten-check": Screen("F1-r3/tighten:F1", "pass 3"),
    "tighten-check-showed": Screen("F1-r3/tighten:F1", "reading 3", ("=190",)),
    "tighten-rectangle": Screen("", procedure="xmpl-gx18-b.toml", variant="R"),
    "cure": Screen("cure/wait:F3 cure", keys=("+600",)),
    "gauges": Screen("test/ask:1", "gauge"),
    "hold-begins": Screen("test/ask:1", "place 1"),
    "hold-runs": Screen("test/ask:1", "place 1", keys=("=24.8", "enter", "+2")),
    "release": Screen("release/sign", "second"),
    "released": Screen("release/sign", "second", ("=Q. Example", "enter")),
    "not-yet-released": Screen(
        "fittings/ask:0",
        keys=(
            ">one or both open",
            ">leave it",
            "f4",
            ">the order",
            "=caps on order",
            "enter",
            ">go on",
            "*release",
        ),
    ),
    "help": Screen(*TIGHTEN, keys=("f2",)),
    "something-else": Screen(*TIGHTEN, keys=("escape",)),
    "deviation-what": Screen(*TIGHTEN, keys=("f4", "2")),
    "deviation-why": Screen(*TIGHTEN, keys=("f4", "2", "enter", "=thread [/] damaged")),
    "deviation-what-now": Screen(*TIGHTEN, keys=("f4", "2", "enter", "=thread damaged", "enter")),
    "go-back-to-what": Screen("volute-on/fit:G1", keys=("f6",)),
    "go-back": Screen("volute-on/fit:G1", keys=("f6", ">the seal head", "=faces dirty", "enter")),
    "going-back": Screen("volute-on/fit:G1", keys=("f6", ">the seal head", "=faces dirty", "enter", "f6")),
    "stop": Screen(*TIGHTEN, keys=("f8",)),
    "correct": Screen("shaft/ask:1", keys=("escape", ">one of the last answers")),
    "read-on": Screen("cartridge-in/install:cartridge", "face", ("pagedown",)),
    "hand-over": Screen(*TIGHTEN, keys=("escape", ">hand over")),
    "take-over": Screen(*TIGHTEN, keys=("escape", ">another technician", "=W. Specimen", "enter")),
    "decide-until": Screen(
        "fittings/ask:0",
        keys=(
            ">one or both open",
            ">leave it",
            "f4",
            ">the order",
            "=caps on order",
            "enter",
            ">go on",
            "escape",
            ">decide on a deviation",
            ">use as is",
            "=dry run only",
            "enter",
        ),
    ),
    "again-serial": Screen(*TIGHTEN, keys=("+42", "=1", "enter", "=T. Sample", "enter")),
    "again-groove": Screen("cartridge-in/install:cartridge", "face", ("+42", "1", "enter", "*again")),
}


def moment(screen: Screen) -> Moment:
    """Where in the careful run a screen stands."""

    def is_it(prompt) -> bool:  # type: ignore[no-untyped-def]
        if screen.procedure != "xmpl-hc40-c.toml":
            return bool(prompt.question.startswith("round 2 position 5"))
        names = screen.at in (prompt.act, prompt.step)
        return names and screen.question in ("", prompt.question)

    return moment_of(is_it, screen.variant, screen.procedure)


@asynccontextmanager
async def standing_at(screen: Screen, folder: Path) -> AsyncIterator[Hands]:
    """The application with this screen on it."""
    place = moment(screen)
    async with at_work(folder, place, variant=screen.variant, procedure=screen.procedure) as hands:
        for key in screen.keys:
            if key.startswith("="):
                await hands.type(key[1:])
            elif key.startswith(">"):
                await hands.choose(key[1:])
            elif key.startswith("+"):
                hands.clock.put_forward(timedelta(minutes=int(key[1:])))
                await hands.repaint()
            elif key == "*release":
                await hands.work_on("release", "second")
            elif key == "*again":
                await hands.enter("T. Sample")
                await hands.enter("SN-1")
                await hands.work_on("", "groove G3")
            else:
                await hands.press(key)
        yield hands


async def text_of(hands: Hands) -> str:
    """The screen at both sizes, drawn and plain, with what is reversed."""
    blocks = []
    for width, height in SIZES:
        for plain in (False, True):
            hands.app.plain = plain
            await hands.resize(width, height)
            await hands.repaint()
            title = f"{width} x {height}{', plain' if plain else ''}"
            blocks.append(f"{title}\n{'-' * len(title)}\n{hands.window}\n")
        blocks.append(_reversed(hands))
    text = _LINE.sub(lambda line: "0" * len(line[0]), "\n".join(blocks))
    return _CHECK.sub("cccc cccc cccc", text)


def _reversed(hands: Hands) -> str:
    """What is drawn reversed, row by row."""
    sheet = hands.app.screen.query_one(Sheet)
    rows = [
        f"  row {row}: {', '.join(runs)}"
        for row, line in enumerate(sheet.lines, 1)
        if (runs := [f"{run.text.strip()} ({run.tone.value})" for run in line if run.tone in REVERSED])
    ]
    return "\n".join(["reversed", *(rows or ["  nothing"]), ""])


async def snapshot(name: str) -> str:
    """The text of a screen."""
    with tempfile.TemporaryDirectory() as folder:
        async with standing_at(SCREENS[name], Path(folder)) as hands:
            return await text_of(hands)


async def first_screen(name: str) -> str:
    """The text of one of the screens before a pump is on the bench."""
    with tempfile.TemporaryDirectory() as folder:
        if name == "first-open-pumps":
            sitting_at(Path(folder), moment(SCREENS["tighten"])).record.close()
            opened(Path(folder), "-07", serial="4466").record.close()
        if name in SEARCHES:
            four_sessions(Path(folder))
        if name.startswith("procedure"):  # quickly there, and quickly checked
            (Path(folder) / "procedures").mkdir()
            for file in ("shop.toml", "instruments.toml", "people.toml", MAIN_PUMP):
                shutil.copy(Path("procedures") / file, Path(folder) / "procedures")
        async with at_the_bench(Path(folder), begins=moment(SCREENS["tighten"]).now) as hands:
            if name not in ("first-open-pumps", *PROCEDURES, *SEARCHES):
                await hands.enter("1")
            for key in FIRST[name]:
                await _first_key(hands, key)
            return await text_of(hands)


async def _first_key(hands: Hands, key: str) -> None:
    """One key before a pump is on the bench: `>words` chooses a line, `!name` presses, the rest is typed.

    `~file|old|new` is what an author does meanwhile; after it, as after a choice, all is checked first.
    """
    if key.startswith("~"):
        name, old, new = key[1:].split("|")
        path = hands.folder / "procedures" / name
        save(path, path.read_text("utf-8").replace(old, new, 1))
        await hands.wait_while("Nothing found")
    elif key.startswith(">"):
        await hands.choose(key[1:])
    elif key.startswith("!"):
        await hands.press(key[1:])
    else:
        await hands.enter(key)
    await hands.wait_while("eing checked", "BEING CHECKED", "Reading the procedures", "nothing yet: it runs")


PROCEDURE = (">procedures", ">XMPL-HC40")
PROCEDURES: dict[str, tuple[str, ...]] = {
    "procedures": (">procedures",),
    "procedure": PROCEDURE,
    "procedure-stacks": (*PROCEDURE, "!f3"),
    "procedure-grooves": (*PROCEDURE, *(2 * ["!f3"])),
    "procedure-grooves-drawn": (*PROCEDURE, "!f3", "!f3", "!pagedown", "!pagedown"),
    "procedure-torque": (*PROCEDURE, *(3 * ["!f3"])),
    "procedure-kit": (*PROCEDURE, *(9 * ["!f3"])),
    "procedure-cautions": (*PROCEDURE, "!pageup"),
    "procedure-findings": (*PROCEDURE, f"~{MAIN_PUMP}|16 lbf·ft|16 N·m"),
    "procedure-that-does-not-read": (*PROCEDURE, "!f3", f"~{MAIN_PUMP}|[[groove]]|[[groove]", "!right"),
    "procedure-try": (*PROCEDURE, "!f5"),
    "procedure-rehearsed": (*PROCEDURE, "!f5", ">rehearse it"),
}
TOUCHED = (">trace", ">a wrench", "W-1", "+9 %", "", "")
SEARCHES: dict[str, tuple[str, ...]] = {
    "trace": (">trace",),
    "trace-touched": TOUCHED,
    "trace-of-a-pump": (*TOUCHED, ">SN-2", "!enter"),
    "trends": (">trends", ">tiny"),
    "trends-chart": (">trends", ">tiny", ">cover screws"),
}
FIRST: dict[str, tuple[str, ...]] = {
    "first": (),
    "first-open-pumps": (),
    "opening-procedure": (">start",),
    "opening-serial": (">start", ">XMPL-HC40", "1"),
    "opening-serials-differ": (">start", ">XMPL-HC40", "1", "4471", "4417"),
    "opening-variant": (">start", ">XMPL-HC40", "1", "4471", "4471"),
    **PROCEDURES,
    **SEARCHES,
}


async def desk_screen(name: str) -> str:
    """The text of one of the reviewer's screens: from the list of records, all of them taken in."""
    with tempfile.TemporaryDirectory() as folder:
        shelf = Shelf(Path(folder))
        shelf.departed("4402"), shelf.released("4403"), shelf.damaged("4398"), shelf.open("4411")
        later = sample.PROCEDURE.replace('revision = "B"', 'revision = "C"').replace("20 N·m", "22 N·m")
        (shelf.workspace.procedures / "tiny-b.toml").write_text(later, encoding="utf-8")
        async with at_the_records(Path(folder)) as hands:
            for key in DESK[name]:
                if key.startswith("="):
                    await hands.type(key[1:])
                else:
                    await hands.press(key)
            return await text_of(hands)


DESK: dict[str, tuple[str, ...]] = {
    "records": ("down",),
    "session": ("down", "enter"),
    "session-remarks": ("down", "enter", "1", "enter", "1"),
    "session-tightening": ("down", "enter", "2", "enter"),
    "session-procedure": ("down", "enter", "5", "enter"),
    "session-event": ("down", "enter", "f3", "=signed on", "enter"),
    "judge": ("down", "enter", "f9", "1"),
}


async def made(name: str) -> str:
    if name in DESK:
        return await desk_screen(name)
    return await (first_screen(name) if name in FIRST else snapshot(name))


NAMES = (*FIRST, *DESK, *SCREENS)


def path_of(name: str) -> Path:
    return FOLDER / f"{name}.txt"


async def write(names: list[str]) -> None:
    for name in names or NAMES:
        path_of(name).write_text(await made(name), encoding="utf-8")
        print(name)


if __name__ == "__main__":
    asyncio.run(write(sys.argv[1:]))
