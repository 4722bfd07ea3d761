"""The open pumps of a workspace, and the first list with all that can be begun from it.

What the first screen says and asks, without Textual. It is loaded once the first screen has been painted:
reading records and procedures takes more imports than a person wants to wait for.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, TypeAlias
from zoneinfo import ZoneInfo

from benchcheck.screens.bench.sentences import day_and_time, step_number, step_words
from benchcheck.screens.bench.work import Clock
from benchcheck.screens.content import literal
from benchcheck.screens.inquiry import Flow, Item
from benchcheck.screens.layout import Hand
from benchcheck.screens.opening import opening
from benchcheck.screens.widgets.bands import Clause, Sentence
from benchcheck.session.clocks import running
from benchcheck.session.engine import next_act
from benchcheck.session.record import NewerFormat
from benchcheck.session.state import Registers, State
from benchcheck.store.disk import StoreFault
from benchcheck.store.library import Unreadable, load_registers
from benchcheck.store.lock import Held
from benchcheck.store.records import DamagedRecord, NeverBegun
from benchcheck.store.sitting import CannotOpen, Sitting, state_of, take_up
from benchcheck.store.workspace import Workspace

if TYPE_CHECKING:
    from benchcheck.screens.sheet_screen import SheetScreen

Left: TypeAlias = Callable[[str], None]
"""What a screen calls to be left, with what there is to say of it in the list it came from."""
Way: TypeAlias = "Callable[[Left], SheetScreen]"
"""A way from the list to another screen: given how that is left, it makes the screen."""


@dataclass(frozen=True)
class OpenPump:
    """A record that is not closed, as the first screen shows it."""

    path: Path
    state: State | None
    words: str


class Pumps:
    """What lies in a workspace, and the list that everything is begun from."""

    def __init__(self, workspace: Workspace, clock: Clock) -> None:
        self._workspace = workspace
        self._clock = clock
        self._registers: Registers | None = None
        self._pumps: list[OpenPump] = []

    def first_list(self, told: str = "") -> Flow[Way | None]:
        """The first list, over and over; ends with the way to another screen, or with None to leave."""
        while True:
            try:
                if not self._workspace.procedure_paths() and not (yield from self._offer_demonstration()):
                    return None
                self._registers = registers = load_registers(self._workspace)
                self._pumps = self._open_pumps(registers)
                chosen = yield self._list(told)
                told = ""
                index = chosen.index - len(self._pumps)
                if index < 0:
                    return self._bench(self._take_up(registers, self._pumps[chosen.index].path))
                if index == 0:
                    sitting = yield from opening(self._workspace, registers, self._clock())
                    if sitting is not None:
                        return self._bench(sitting)
                elif index == 1:
                    return self._records
                elif index == 2:
                    from benchcheck.screens.records.trace import trace

                    yield from trace(self._workspace, registers, self._clock)
                elif index == 3:
                    from benchcheck.screens.records.trends import trends

                    yield from trends(self._workspace, registers, self._clock)
                elif index == 4:
                    return self._procedures
                else:
                    from benchcheck.screens.numbers import numbers

                    yield from numbers(registers.wrenches, self._clock().date())
            except (CannotOpen, DamagedRecord, NeverBegun, NewerFormat, StoreFault) as why:
                yield _cannot(str(why))
            except Held as held:
                yield _cannot(f"{held} It can be read, and not added to from here.")
            except Unreadable as why:
                yield _cannot(str(why))
                if self._registers is None:
                    return None

    def _offer_demonstration(self) -> Flow[bool]:
        chosen = yield Item(
            "no procedure",
            f"There is no procedure in {self._workspace.procedures} yet.",
            "does this",
            choices=("write the demonstration pumps here, to look and to practise with", "leave"),
            lines=(("they", "are invented: not for use on a real pump"),),
            escape="",
        )
        if chosen.index != 0:
            return False
        self._workspace.write_demonstration()
        return True

    def _open_pumps(self, registers: Registers) -> list[OpenPump]:
        """The open records, the one left last first."""
        found = []
        for path in self._workspace.open_record_paths():
            try:
                state = state_of(self._workspace, registers, self._workspace.read_record(path))
                found.append(OpenPump(path, state, open_pump_words(state, self._clock())))
            except (CannotOpen, StoreFault, NewerFormat, Unreadable):
                found.append(OpenPump(path, None, f"{path.stem}: cannot be read as it is"))
        found.sort(
            key=lambda each: each.state.at.timestamp() if each.state and each.state.at else 0.0, reverse=True
        )
        return found

    def _list(self, told: str) -> Item:
        record_count = len(self._workspace.record_paths())
        procedure_count = len(self._workspace.procedure_paths())
        return Item(
            "open pumps" if self._pumps else "start",
            "",
            "goes there",
            choices=(
                *(each.words for each in self._pumps),
                "start on another pump" if self._pumps else "start on a pump",
                f"records: {record_count}",
                "trace: which pumps are touched",
                "trends: readings over time",
                f"procedures: {procedure_count}",
                "numbers: torque, pattern, wrench, O-ring",
            ),
            beside=_beside(bool(self._pumps), record_count),
            told=told,
            escape="",
        )

    def _take_up(self, registers: Registers, path: Path) -> Sitting:
        return take_up(self._workspace, registers, path, "", self._clock())

    def _bench(self, sitting: Sitting) -> Way:
        def opened(left: Left) -> SheetScreen:
            from benchcheck.screens.bench.arriving import arrived
            from benchcheck.screens.bench.bench import BenchScreen

            return BenchScreen(sitting, self._clock, left, arrived(sitting))

        return opened

    def _procedures(self, left: Left) -> SheetScreen:
        from benchcheck.screens.procedures.procedures import ProceduresScreen

        return ProceduresScreen(self._workspace, self._clock, left)

    def _records(self, left: Left) -> SheetScreen:
        from benchcheck.screens.records.desk import Desk
        from benchcheck.screens.records.listing import ListPage
        from benchcheck.screens.records.screen import RecordsScreen

        assert self._registers is not None
        desk = Desk(self._workspace, self._registers, self._clock)
        return RecordsScreen(desk, ListPage(desk), left)

    # --- what the sentences say ---------------------------------------------------------------------------

    def where(self, hand: Hand) -> list[Sentence]:
        """Sentence one: which bench, what day."""
        now = self._clock()
        if self._registers is None:
            return [(Clause(("Benchcheck",)),)]
        shop = self._registers.shop
        local = now.astimezone(ZoneInfo(shop.time_zone))
        bench = hand.words(shop.bench)
        day = Clause((f"{local:%A %-d %B %Y, %H:%M}", f"{local:%-d %b %Y, %H:%M}"))
        return [(Clause((bench[:1].upper() + bench[1:],)), day), (Clause(("Nobody has signed on",)),)]

    def what(self, hand: Hand) -> list[Sentence]:
        """Sentence two: what is open, which clocks run, how the wrenches stand."""
        count = len(self._pumps)
        pumps = "No pump is open here" if not count else f"{count} pump{'s' if count > 1 else ''} open here"
        sentences: list[Sentence] = [(Clause((pumps,)),)]
        now = self._clock()
        clocks = sum(len(running(each.state, now)) for each in self._pumps if each.state is not None)
        if clocks:
            sentences.append((Clause((f"{clocks} clock{'s run' if clocks > 1 else ' runs'}",), loud=True),))
        if self._registers is not None:
            wrenches = self._registers.wrenches
            late = sum(each.calibration_due < now.date() for each in wrenches)
            sentences.append(
                (Clause((f"{len(wrenches)} wrenches, {late} out of date", f"{len(wrenches)} wrenches")),)
            )
        return sentences


def open_pump_words(state: State, now: datetime) -> str:
    """An open pump in one line of the first list."""
    head = state.job.procedure.procedure
    zone = ZoneInfo(state.job.registers.shop.time_zone)
    model = f"{head.id.upper()}{state.variant or ''}"
    act = next_act(state)
    where = "all done"
    if act is not None:
        number, count = step_number(state, act.step.id), len(state.pump.steps)
        name = step_words(state.pump, act.step)
        where = f"step {number} of {count}, {name}" if number else "going back"
    parts = [f"{state.header.serial}   {model}   {where}"]
    clocks = running(state, now)
    if clocks:
        end = min(end for _, end in clocks)
        parts.append(f"waits until {day_and_time(end.astimezone(zone), now.astimezone(zone))}")
    elif state.at is not None:
        word = "stopped" if state.stopped else "left"
        parts.append(f"{word} {day_and_time(state.at.astimezone(zone), now.astimezone(zone))}")
    practice = "practice: " if state.header.practice else ""
    return literal(practice + ", ".join(parts))


def _beside(pumps: bool, records: int) -> tuple[str, ...]:
    """What stands beside the large word: for somebody who goes on, or who begins here."""
    if pumps:
        return ("The one you left last stands first.",)
    return (
        ()
        if records
        else ("New here? Start on a pump, for practice: it asks all, and no real pump is meant.",)
    )


def _cannot(why: str) -> Item:
    """Something that a person can act on stands in the way."""
    return Item(
        "not yet",
        "",
        "goes back to the open pumps",
        lines=tuple(("wrong", text) for text in why.splitlines() if text.strip()),
    )
