"""The screen the application opens with: the pumps that are open here, and the ways to everything else."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from benchcheck.screens.bench.arriving import arrived
from benchcheck.screens.bench.bench import BenchScreen
from benchcheck.screens.bench.sentences import day_and_time, step_number, step_words
from benchcheck.screens.bench.work import Clock
from benchcheck.screens.content import literal
from benchcheck.screens.help_sheet import ESCAPE, help_sheet
from benchcheck.screens.inquiry import (
    Conversation,
    Flow,
    Item,
    escape_row,
    item_sheet,
    question_for,
    reply_to,
)
from benchcheck.screens.inquiry import pages as item_pages
from benchcheck.screens.keys import Deed, LiveKey, keys_row
from benchcheck.screens.layout import Hand, Size
from benchcheck.screens.listening import Answered, Asked, Changed, Heard, Question, Stray
from benchcheck.screens.listening import Refused as NotTaken
from benchcheck.screens.opening import opening
from benchcheck.screens.sheet_screen import SheetScreen
from benchcheck.screens.widgets.bands import Bands, Clause, Sentence
from benchcheck.session.clocks import running
from benchcheck.session.engine import next_act
from benchcheck.session.record import NewerFormat
from benchcheck.session.state import Registers, State
from benchcheck.store.disk import StoreFault
from benchcheck.store.library import Unreadable, load_procedure, load_registers
from benchcheck.store.lock import Held
from benchcheck.store.records import DamagedRecord, NeverBegun
from benchcheck.store.sitting import CannotOpen, Sitting, state_of, take_up
from benchcheck.store.workspace import Workspace

_LIVE = (
    LiveKey(Deed.CONFIRM),
    LiveKey(Deed.POINT),
    LiveKey(Deed.READ_ON),
    LiveKey(Deed.HELP),
    LiveKey(Deed.STOP, word="leave", does="ends the program; nothing is lost by it"),
)


@dataclass(frozen=True)
class OpenPump:
    """A record that is not closed, as the first screen shows it."""

    path: Path
    state: State | None
    words: str


class FirstScreen(SheetScreen):
    """The open pumps and the ways to everything else; every way comes back here."""

    def __init__(self, workspace: Workspace, clock: Clock) -> None:
        super().__init__()
        self._workspace = workspace
        self._clock = clock
        self._registers: Registers | None = None
        self._pumps: list[OpenPump] = []
        self._flow: Conversation[Sitting | None] | None = None
        self._help = False
        self._said = ""
        self._page = 0

    def on_mount(self) -> None:
        super().on_mount()
        self.begin()

    def begin(self, told: str = "") -> None:
        """Look at the workspace, and ask what is to be done."""
        self._page = 0
        if self._flow is not None:
            self._flow.close()
        self._flow = Conversation(self._first_list(told))
        self._put_question()

    def _first_list(self, told: str) -> Flow[Sitting | None]:
        """The first list, over and over; ends with a sitting to work on, or with None to leave."""
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
                    return self._take_up(registers, self._pumps[chosen.index].path)
                if index == 0:
                    sitting = yield from opening(self._workspace, registers, self._clock())
                    if sitting is not None:
                        return sitting
                elif index == 1:
                    yield from _records(self._workspace)
                elif index == 2:
                    yield from _procedures(self._workspace)
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
        records = len(self._workspace.record_paths())
        procedures = len(self._workspace.procedure_paths())
        return Item(
            "open pumps" if self._pumps else "start",
            "",
            "goes there",
            choices=(
                *(each.words for each in self._pumps),
                "start on another pump" if self._pumps else "start on a pump",
                f"records: {records}",
                f"procedures: {procedures}",
                "numbers: torque, pattern, wrench, O-ring",
            ),
            beside=("The one you left last stands first.",) if self._pumps else (),
            told=told,
            escape="",
        )

    def _take_up(self, registers: Registers, path: Path) -> Sitting:
        return take_up(self._workspace, registers, path, "", self._clock())

    # --- what is shown -----------------------------------------------------------------------------------

    def place_in_words(self) -> str:
        return "No pump is open."

    def hand(self, width: int, height: int) -> Hand:
        return Hand(
            size=Size(width, height),
            plain=self.benchcheck.plain,
            text=self.listener.text,
            pointed_at=self.listener.pointed_at,
            said=self._said,
            told=self._flow.item.told if self._flow is not None and self._flow.item is not None else "",
            page=self._page,
        )

    def bands(self, width: int, height: int) -> Bands:
        hand = self.hand(width, height)
        item = self._flow.item if self._flow is not None else None
        if self._help or item is None:
            sheet = help_sheet(_LIVE, "does what its row says", hand)
            keys = ESCAPE
        else:
            sheet = item_sheet(item, hand)
            keys = (
                escape_row(item, width, sheet.hint)
                if item.escape
                else keys_row(_LIVE, width, hint=sheet.hint)
            )
        return Bands(
            first=[self._where(hand), (Clause(("Nobody has signed on",)),)],
            second=self._what(hand),
            ruler=None,
            work=sheet.work,
            enter=sheet.enter,
            keys=keys,
        )

    def _where(self, hand: Hand) -> tuple[Clause, ...]:
        now = self._clock()
        if self._registers is None:
            return (Clause(("Benchcheck",)),)
        shop = self._registers.shop
        local = now.astimezone(ZoneInfo(shop.time_zone))
        bench = hand.words(shop.bench)
        return (
            Clause((bench[:1].upper() + bench[1:],)),
            Clause((f"{local:%A %-d %B %Y, %H:%M}", f"{local:%-d %b %Y, %H:%M}")),
        )

    def _what(self, hand: Hand) -> list[Sentence]:
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

    # --- hearing -----------------------------------------------------------------------------------------

    def _put_question(self) -> None:
        item = self._flow.item if self._flow is not None else None
        if item is None:
            self.ask(Question("help"))
            return
        assert self._flow is not None
        self._said = item.said
        self.ask(question_for(item, f"first {id(self._flow)} {self._flow.number}", self._page), item.text)

    def heard(self, heard: Heard) -> None:
        if isinstance(heard, Changed):
            self._said = ""
        elif isinstance(heard, NotTaken):
            self._said = heard.why or self._said
        elif isinstance(heard, Stray):
            self._said = f"Read {heard.text}; nothing asked for it."
        elif isinstance(heard, Asked):
            self._asked(heard)
            return
        elif isinstance(heard, Answered):
            self._answered(heard)
            return
        self.repaint()

    def _answered(self, heard: Answered) -> None:
        if self._help:
            self._help = False
            self._put_question()
            return
        assert self._flow is not None and self._flow.item is not None
        reply = reply_to(self._flow.item, heard, self._page)
        self._page = 0
        self._flow.answer(reply)
        if self._flow.item is not None:
            self._put_question()
        elif self._flow.result is not None:
            self._work_on(self._flow.result)
        else:
            self.benchcheck.exit()

    def _asked(self, heard: Asked) -> None:
        if self._help or heard.deed is Deed.HELP:
            self._help = not self._help and heard.deed is Deed.HELP
            if self._help:
                self.ask(Question("help"))
            else:
                self._put_question()
        elif heard.deed is Deed.STOP:
            self.benchcheck.exit()
        elif heard.deed is Deed.ELSE:
            self.begin()
        elif heard.deed is Deed.READ_ON and self._flow is not None and self._flow.item is not None:
            count = item_pages(self._flow.item)
            if count > 1:
                self._page = (self._page + (1 if heard.key == "pagedown" else -1)) % count
                self._put_question()

    # --- the bench ---------------------------------------------------------------------------------------

    def _work_on(self, sitting: Sitting) -> None:
        """Open the bench on a pump; when it is left, the first list comes again."""

        def left(words: str) -> None:
            self.benchcheck.pop_screen()
            self.begin(words)

        self.benchcheck.push_screen(BenchScreen(sitting, self._clock, left, arrived(sitting)))


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


def _cannot(why: str) -> Item:
    """Something that a person can act on stands in the way."""
    return Item(
        "not yet",
        "",
        "goes back to the open pumps",
        lines=tuple(("wrong", text) for text in why.splitlines() if text.strip()),
    )


def _records(workspace: Workspace) -> Flow[None]:
    """The records, by name, with what each adds up to."""
    paths = workspace.record_paths()
    if not paths:
        yield Item("records", "There is no record yet.", "goes back to the first list")
        return
    chosen = yield Item("records", "", "shows it", choices=tuple(path.stem for path in paths))
    path = paths[chosen.index]
    verdict = workspace.verify_record(path)
    record = workspace.read_record(path)
    lines = [("file", path.name)]
    if record.header is not None:
        header = record.header
        lines += [
            ("pump", header.serial),
            ("by", f"{header.procedure}, revision {header.revision} {header.variant}".strip()),
            ("opened", header.opened),
        ]
    lines.append(("events", str(len(record.events))))
    lines += [("proved", text) for text in verdict.proved_by] + [("not", text) for text in verdict.not_proved]
    yield Item("record", "", "goes back to the first list", lines=tuple(lines))


def _procedures(workspace: Workspace) -> Flow[None]:
    """The procedures, each with its scope or with what is wrong with it."""
    paths = workspace.procedure_paths()
    chosen = yield Item("procedures", "", "shows it", choices=tuple(path.stem for path in paths))
    path = paths[chosen.index]
    try:
        procedure = load_procedure(path).procedure
    except Unreadable as why:
        yield Item(
            "findings",
            "",
            "goes back to the first list",
            lines=tuple(("wrong", text) for text in str(why).splitlines() if text.strip()),
        )
        return
    head = procedure.procedure
    lines = [
        ("id", f"{head.id.upper()}, revision {head.revision}, {head.status}"),
        ("title", head.title),
        ("for", ", ".join(head.models)),
        (
            "holds",
            f"{len(procedure.step)} steps, {len(procedure.part)} parts, {len(procedure.groove)} grooves",
        ),
    ]
    if head.scope:
        lines.append(("scope", head.scope))
    lines += [("changed", text) for text in head.changes]
    yield Item("procedure", "", "goes back to the first list", lines=tuple(lines))
