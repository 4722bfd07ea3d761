"""The invented sessions of the demonstration: what each is there to show.

Each story is a function that works on an empty record; its docstring says what it shows. Names of people and
wrenches are those of the registers.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime, timedelta

from benchcheck.session import commands
from benchcheck.store.workspace import Workspace
from tests.demonstration.rebuild import Rebuild

MAIN, GEAR, MAGNET, VANE, END_SUCTION = "xmpl-hc40", "xmpl-gx18", "xmpl-mc05", "xmpl-vv07", "xmpl-ef150"
DIALS, FINE = ("TW-02", "TW-01"), ("TW-04",)
DECIDES, REVIEWS = "Q. Example", "R. Outline"
_NEXT_DAY = timedelta(hours=26)

Story = Callable[[Workspace], None]
STORIES: dict[str, Story] = {}
"""By serial."""


def story(serial: str) -> Callable[[Story], Story]:
    def told(work: Story) -> Story:
        STORIES[serial] = work
        return work

    return told


def _day(month: int, day: int, hour: int = 7, minute: int = 0) -> datetime:
    return datetime(2026, month, day, hour, minute, tzinfo=UTC)


def _plain(
    serial: str, procedure: str, variant: str, begins: datetime, who: str, wrenches: tuple[str, ...] = ()
) -> None:
    def work(workspace: Workspace) -> None:
        rebuild = Rebuild(workspace, procedure, serial, begins, variant, who)
        rebuild.wrenches = wrenches
        rebuild.finish()
        if begins < _day(10, 8):
            rebuild.judge(_NEXT_DAY, "accepted", REVIEWS, "read through; nothing stands out")

    STORIES[serial] = work


_plain("2207", MAIN, "-05", _day(9, 14), "T. Sample", DIALS)
_plain("2213", MAIN, "-07", _day(9, 17), "K. Sketch", FINE)
_plain("G-118", GEAR, "R", _day(9, 24), "T. Sample")
_plain("G-121", GEAR, "L", _day(9, 30), "W. Specimen")
_plain("M-041", MAGNET, "", _day(10, 5), "K. Sketch")
_plain("V-307", VANE, "", _day(10, 7), "T. Sample")
_plain("E-055", END_SUCTION, "", _day(10, 9), "K. Sketch")
_plain("2219", MAIN, "-05", _day(10, 12), "K. Sketch", DIALS)
_plain("V-309", VANE, "", _day(10, 14), "T. Sample")
_plain("2228", MAIN, "-07", _day(10, 19), "T. Sample", DIALS)


@story("2231")
def reversed_lip(workspace: Workspace) -> None:
    """A lip pressed in reversed and taken over; the cartridge is refused with it, and it is put right."""
    rebuild = Rebuild(workspace, MAIN, "2231", _day(10, 20), "-05", "T. Sample")
    rebuild.work_on("main-lip-in", "face")
    rebuild.over("back", "the press was set up the other way round")
    rebuild.work_on("cartridge-in", "face")
    rebuild.refused("deep pocket end")
    rebuild.go_back("main-lip", "the lip has to face the oil after all")
    number = rebuild.sitting.state.open_deviations[0].deviation
    rebuild.command(commands.dispose, number, "rework", DECIDES, "pressed out, and a new one put in")
    rebuild.finish()
    rebuild.judge(_NEXT_DAY, "accepted", REVIEWS, "put right before the cartridge went in")


@story("2236")
def nut_off_again(workspace: Workspace) -> None:
    """Going back: the head comes off again for a fingerprint on the carbon face."""
    rebuild = Rebuild(workspace, MAIN, "2236", _day(10, 22), "-07", "K. Sketch")
    rebuild.work_on("volute-on")
    rebuild.go_back("head", "a fingerprint on the carbon face")
    rebuild.finish()


@story("2240")
def first_of_two_alike(workspace: Workspace) -> None:
    """Clean by itself; the readings of 2241 are the same, one by one."""
    rebuild = Rebuild(workspace, MAIN, "2240", _day(10, 26), "-05", "W. Specimen")
    rebuild.wrenches = FINE
    rebuild.finish()


@story("2241")
def copied_readings(workspace: Workspace) -> None:
    """Readings copied from 2240."""
    rebuild = Rebuild(workspace, MAIN, "2241", _day(10, 28, 8), "-05", "W. Specimen", hand="2240")
    rebuild.wrenches = FINE
    rebuild.finish()


@story("2244")
def too_even(workspace: Workspace) -> None:
    """Every reading is the figure that was asked for; returned for that."""
    rebuild = Rebuild(workspace, MAIN, "2244", _day(10, 30), "-07", "K. Sketch")
    rebuild.wrenches = FINE
    rebuild.readings = str
    rebuild.finish()
    reason = "readings as no hand gives them; the screws are tightened again under another person's eyes"
    rebuild.judge(_NEXT_DAY, "returned", REVIEWS, reason)


@story("2250")
def concession(workspace: Workspace) -> None:
    """A worn clearance left as it is under a limit, and accepted so up to a day."""
    rebuild = Rebuild(workspace, MAIN, "2250", _day(11, 2), "-05", "T. Sample")
    rebuild.work_on("wear-ring")
    rebuild.say("0.019")
    rebuild.over("accept", "the customer has no spare, and asks for the pump by Friday")
    number = rebuild.sitting.state.open_deviations[0].deviation
    limit, expires = "for water at up to 100 psi", "2026-12-11"
    rebuild.command(
        commands.dispose, number, "use as is", DECIDES, "flow is enough for this duty",
        limit=limit, expires=expires,
    )  # fmt: skip
    rebuild.finish()
    rebuild.judge(
        _NEXT_DAY, "accepted under concession", REVIEWS, "as the customer asked, in writing",
        limit=limit, expires=expires,
    )  # fmt: skip


@story("2254")
def handed_over(workspace: Workspace) -> None:
    """Stopped in the evening inside a round, and taken up by another person in the morning."""
    rebuild = Rebuild(workspace, MAIN, "2254", _day(11, 5, 12), "-05", "T. Sample")
    rebuild.work_on("F1-r2", "round 2 position 5")
    rebuild.stop("end of the shift")
    rebuild.take_up(timedelta(hours=15), "K. Sketch")
    rebuild.finish()


@story("M-047")
def practice(workspace: Workspace) -> None:
    """Practice: a pump that is never released by it."""
    Rebuild(workspace, MAGNET, "M-047", _day(11, 9), "", "K. Sketch", practice=True).finish()


@story("E-060")
def scrapped(workspace: Workspace) -> None:
    """Ended without release: worn beyond repair."""
    rebuild = Rebuild(workspace, END_SUCTION, "E-060", _day(11, 11), "", "W. Specimen")
    rebuild.work_on("clean")
    rebuild.command(commands.close, "scrapped", "the casing is eaten through at the tongue")
    rebuild.sitting.record.close()


@story("G-126")
def damaged(workspace: Workspace) -> None:
    """One digit of a reading was changed in the file after the work."""
    rebuild = Rebuild(workspace, GEAR, "G-126", _day(11, 13), "R", "T. Sample")
    rebuild.finish()
    content = rebuild.path.read_bytes()
    before, key, after = content.rpartition(b'\nkind = "position tightened"\n')
    line = b"\nvalue = "
    assert key and line in after
    place = after.index(line) + len(line)
    other = b"9" if after[place : place + 1] != b"9" else b"8"
    rebuild.path.write_bytes(before + key + after[:place] + other + after[place + 1 :])


@story("V-311")
def torn(workspace: Workspace) -> None:
    """The power went while an answer was written: the tail of the file is half an event."""
    rebuild = Rebuild(workspace, VANE, "V-311", _day(11, 17), "", "T. Sample")
    rebuild.work_on("clean")
    rebuild.sitting.record.close()
    last = rebuild.sitting.state.number
    with rebuild.path.open("ab") as file:
        file.write(f'\n[[event]]\nnumber = {last + 1}\nkind = "tol'.encode())


@story("2258")
def deviation_waits(workspace: Workspace) -> None:
    """Open: a worn clearance was left as it is, and nobody has decided on it yet."""
    rebuild = Rebuild(workspace, MAIN, "2258", _day(11, 20), "-07", "W. Specimen")
    rebuild.work_on("wear-ring")
    rebuild.say("0.020")
    rebuild.over("accept", "there is no new impeller on the shelf")
    rebuild.work_on("F1-r1")
    rebuild.stop("waits for a decision")


@story("2263")
def open_in_mid_round(workspace: Workspace) -> None:
    """Open: cut off inside the second round of the end plate."""
    rebuild = Rebuild(workspace, MAIN, "2263", _day(11, 24, 13), "-05", "K. Sketch")
    rebuild.work_on("F1-r2", "round 2 position 3")
    rebuild.sitting.record.close()
