"""Whether what a procedure names is there: parts, grooves, groups, clocks, steps, ends, marks, variants.

A name that leads nowhere is told with the nearest one that leads somewhere. What a table needs beside right
names is in `needs`; whether the pump can be built this way is for the checking on top of both.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from itertools import islice

from benchcheck.procedure.finding import Finding, Place, sort
from benchcheck.procedure.model import (
    SIDE,
    Ask,
    Clock,
    Crowfoot,
    Fasteners,
    Groove,
    MustFace,
    MustLineUp,
    Part,
    Procedure,
    Screws,
    Stack,
    Step,
)
from benchcheck.procedure.names import Names
from benchcheck.procedure.needs import needs
from benchcheck.procedure.reading import Read
from benchcheck.procedure.wording import listed, shortened

ANYTHING = ("part", "groove", "group")
"""What a look, a reading or the words `back to` may name."""
MAY_BE_BARRED = ("step", "phase")
_OUTCOMES = ("again", "replace", "stop")


def references(read: Read[Procedure]) -> list[Finding]:
    """All that a procedure names and does not have, or has and leaves without what it needs, by place."""
    return sort([*_References(read).findings(), *needs(read)])


class _References(Names):
    """One look at each place of a procedure that names something."""

    def findings(self) -> list[Finding]:
        file = self.file
        self.look_at_identifiers((*file.part, *file.groove, *file.fasteners, *file.clock))
        self.look_at_identifiers(file.step)
        self.look_at_main()
        for part in file.part:
            self.look_at_part(part)
        self.look_for_loops()
        for groove in file.groove:
            self.look_at_groove(groove)
        for face in file.must_face:
            self.look_at_must(face, "end", face.end, self.end)
        for line in file.must_line_up:
            self.look_at_must(line, "mark", line.mark, self.mark)
        for stack in file.stack:
            self.look_at_stack(stack)
        for group in file.fasteners:
            self.look_at_group(group)
        for step in file.step:
            self.look_at_step(step)
        self.look_at_verdicts()
        self.look_at_the_rest()
        return self.found

    def look_at_identifiers(self, tables: Iterable[Part | Groove | Fasteners | Clock | Step]) -> None:
        first: dict[str, Place] = {}
        for table in tables:
            place = self.at(table, "id")
            if table.id in first:
                message = f"`{table.id}` is the id of two things: here, and first at {first[table.id]}."
                remedy = "Give each its own id; parts, grooves, groups and clocks share one set of them."
                self.say("id-used-twice", place, message, remedy)
            first.setdefault(table.id, place)

    def look_at_main(self) -> None:
        head = self.file.procedure
        if self.thing(self.at(head, "main"), self.main, "part") and self.parts[self.main].into is not None:
            message = f"`{self.main}` is the main part, which stands on the bench and goes into nothing."
            place = self.at(self.parts[self.main], "into")
            self.say("main-goes-into-something", place, message, "Leave `into` out.")

    def look_at_part(self, part: Part) -> None:
        self.things(part, "into", part.into, "part")
        for index, end in enumerate(part.ends_it_goes_in_from):
            if end != SIDE:
                self.end(self.at(part, "from", index), end, part.into)
        for end in part.seen:
            self.end(self.at(part, "seen", end, key=True), end, part.id)
        for place, end in self.by_variant(part, ("shows",), part.shows, part.for_):
            self.end(place, end, part.id)
        for mark, over in part.lines_up.items():
            self.mark(self.at(part, "lines_up", mark, key=True), mark, part.id)
            for place, each in self.by_variant(part, ("lines_up", mark), over, part.for_):
                self.look_at_mark_of_part(place, each)
        self.things(part, "under", part.under, "part")
        if part.under in self.parts and not self.parts[part.under].temporary:
            message = f"`{part.id}` goes in under `{part.under}`, which is not a temporary tool."
            remedy = f"Write temporary = true in `{part.under}`."
            self.say("tool-not-temporary", self.at(part, "under"), message, remedy)
        self.things(part, "holds", part.holds, "part")
        self.applies_to(part, part.for_)

    def look_at_mark_of_part(self, place: Place, over: str) -> None:
        """A mark that another lines up with, such as "body: P cast"."""
        part, colon, mark = (piece.strip() for piece in over.partition(":"))
        if not colon:
            message = f"`{shortened(over)}` does not say which mark of which part."
            remedy = 'Write part and mark with a colon between them, as "body: P cast".'
            self.say("mark-unknown", place, message, remedy)
        elif self.thing(place, part, "part"):
            self.mark(place, mark, part)

    def look_for_loops(self) -> None:
        told: set[str] = set()
        for part in self.file.part:
            way = [part.id]
            while (into := self.parts[way[-1]].into) in self.parts and into not in way:
                way.append(str(into))
            if into in way and not told & set(way):
                loop = [*way[way.index(into) :], into]
                told |= set(loop)
                chain = ", which goes into ".join(f"`{name}`" for name in loop)
                message = f"The parts go round in a circle: {chain}."
                remedy = f"Let one of them go into something else; the way has to end in `{self.main}`."
                self.say("into-itself", self.at(self.parts[loop[0]], "into"), message, remedy)

    def look_at_groove(self, groove: Groove) -> None:
        self.things(groove, "in", groove.in_, "part")
        self.things(groove, "against", groove.against, "part")
        if groove.in_ in groove.closed_against:
            place = self.at(groove, "against", groove.closed_against.index(groove.in_))
            message = f"`{groove.id}` lies in `{groove.in_}`, so `{groove.in_}` cannot close it."
            self.say("groove-closes-itself", place, message, "Write the part it seals against.")
        self.things(groove, "closed_by", groove.closed_by, "group")
        fluids = self.file.procedure.fluids
        for index, side in enumerate(groove.touches):
            if side not in fluids:
                place = self.at(groove, "touches", index)
                self.unknown_word("fluid-unknown", place, "No fluid is told for", side, fluids)
        if groove.face is not None:
            self.end(self.at(groove, "face"), groove.face, groove.in_)
        list(self.by_variant(groove, ("takes",), groove.takes, groove.for_))  # the sizes themselves are free
        self.applies_to(groove, groove.for_)

    def look_at_must(
        self, must: MustFace | MustLineUp, key: str, name: str, look: Callable[[Place, str, str], None]
    ) -> None:
        self.things(must, "part", must.part, "part")
        look(self.at(must, key), name, must.part)
        self.things(must, "of", must.of, "part")
        for place, toward in self.by_variant(must, ("toward",), must.toward, must.for_):
            look(place, toward, must.of or self.main)
        self.applies_to(must, must.for_)

    def look_at_stack(self, stack: Stack) -> None:
        self.things(stack, "on", stack.on, "part")
        self.end(self.at(stack, "from"), stack.from_, stack.on)
        self.things(stack, "order", stack.order, "part")
        for index, name in enumerate(stack.order):
            if name in stack.order[:index]:
                place = self.at(stack, "order", index)
                self.say("stack-names-a-part-twice", place, f"`{name}` stands here twice.", "Write it once.")
        self.applies_to(stack, stack.for_)

    def look_at_group(self, group: Fasteners) -> None:
        self.things(group, "into", group.into, "part")
        if group.from_ != SIDE:
            self.end(self.at(group, "from"), group.from_, group.into)
        self.things(group, "holds", group.holds, "part")
        self.things(group, "parts", group.parts, "part")
        if group.layout and group.layout.seen_from not in (None, SIDE):
            self.end(self.at(group.layout, "seen_from"), str(group.layout.seen_from), group.into)
        for screws in group.screws:
            self.look_at_positions(screws, screws.at, group)
            self.applies_to(screws, screws.for_)
        if group.crowfoot:
            self.look_at_positions(group.crowfoot, group.crowfoot.at, group)
        if group.order:
            self.look_at_order(group)
        self.look_at_rounds_by_hand(group)
        if group.threadlocker:
            self.things(group.threadlocker, "bars", group.threadlocker.bars, *MAY_BE_BARRED)
        if group.again:
            self.things(group.again, "before", group.again.before, *MAY_BE_BARRED)
        self.applies_to(group, group.for_)

    def look_at_positions(self, table: Screws | Crowfoot, positions: Sequence[int], group: Fasteners) -> None:
        for index, position in enumerate(positions):
            if not 1 <= position <= group.count:
                message = f"`{group.id}` has positions 1 to {group.count}, so it has no {position}."
                place = self.at(table, "at", index)
                self.say("position-outside-the-layout", place, message, "Write positions it has.")

    def look_at_order(self, group: Fasteners) -> None:
        visits = Counter(group.order)
        missing = (each for each in range(1, group.count + 1) if each not in visits)
        wrong = [f"{each} is missing" for each in islice(missing, 3)]
        wrong += [f"{each} comes {visits[each]} times" for each in visits if visits[each] > 1]
        wrong += [f"there is no {each}" for each in visits if not 1 <= each <= group.count]
        if wrong:
            message = (
                f"The order has to visit each of the {group.count} positions once: {listed(wrong, 'and')}."
            )
            remedy = "Write each position once, or leave the order out: it follows from the layout."
            self.say("order-not-a-permutation", self.at(group, "order"), message, remedy)

    def look_at_rounds_by_hand(self, group: Fasteners) -> None:
        """Rounds without a wrench are early ones; the last brings the torque."""
        last = max(1, len(group.rounds))
        for index, each in enumerate(group.without_wrench):
            if each > last:
                message = f"`{group.id}` has no round {each}; its last is {last}."
            elif each == last:
                message = (
                    f"Round {each} is the last of `{group.id}`: it brings the torque and needs a wrench."
                )
            else:
                continue
            remedy = "Write rounds before the last, or leave `without_wrench` out."
            self.say("round-unknown", self.at(group, "without_wrench", index), message, remedy)

    def look_at_step(self, step: Step) -> None:
        self.things(step, "part", step.part, "part")
        self.things(step, "parts", step.parts, "part")
        self.things(step, "rings", step.rings, "groove")
        self.things(step, "off", step.off, *ANYTHING)
        self.things(step, "of", step.of, *ANYTHING)
        self.things(step, "after", step.after, "step")
        self.things(step, "group", step.group, "group")
        if step.group in self.groups and step.round is not None:
            rounds = max(1, len(self.groups[step.group].rounds))
            if step.round > rounds:
                message = f"`{step.group}` has no round {step.round}; its last is {rounds}."
                remedy = "Write a round it has, or leave `round` out."
                self.say("round-unknown", self.at(step, "round"), message, remedy)
        self.things(step, "clock", step.clock, "clock")
        self.look_at_outside(step)
        for ask in step.ask:
            self.look_at_outside(ask)
            self.things(ask, "of", ask.of, *ANYTHING)
            self.things(ask, "presses", ask.presses, "part")
            handled = [*step.rings, *step.all_parts, *step.off, *([step.group] if step.group else [])]
            if ask.before is not None and ask.before not in handled:
                place, lack = self.at(ask, "before"), "This step does not handle"
                self.unknown_word("question-before-nothing", place, lack, ask.before, handled)
            for name in ask.proves:
                self.variant(self.at(ask, "proves", name, key=True), name)
        self.applies_to(step, step.for_)

    def look_at_outside(self, table: Step | Ask) -> None:
        """What is to be done when a reading is outside its limits."""
        if table.outside is None or table.outside in _OUTCOMES:
            return
        place = self.at(table, "outside")
        before, back, name = table.outside.partition("back to ")
        if back and not before:
            self.thing(place, name.strip(), *ANYTHING)
        else:
            known = (*_OUTCOMES, "back to …")
            self.unknown_word("outcome-unknown", place, "There is no outcome", table.outside, known)

    def look_at_verdicts(self) -> None:
        """What questions set and keep, and what steps and questions make of it."""
        asks = [ask for step in self.file.step for ask in step.ask]
        verdicts: dict[str, list[str]] = {"variant": list(self.variants)}
        kept = [ask.keep for ask in asks if ask.keep is not None]
        for ask in asks:
            if ask.sets == "variant":
                for index, name in enumerate(ask.one_of):
                    self.variant(self.at(ask, "one_of", index), name)
            elif ask.sets is not None:
                verdicts.setdefault(ask.sets, []).extend(ask.one_of)
            if ask.as_ is not None and ask.as_ not in kept:
                lack = "No question keeps a value"
                self.unknown_word("kept-value-unknown", self.at(ask, "as"), lack, ask.as_, kept)
        for step in self.file.step:
            for name, value in step.if_.items():
                if name not in verdicts:
                    place, word, known = self.at(step, "if", name, key=True), name, list(verdicts)
                    lack = "No question sets"
                elif value not in verdicts[name]:
                    place, word, known = self.at(step, "if", name), value, verdicts[name]
                    lack = f"The question that sets `{name}` has no answer"
                else:
                    continue
                self.unknown_word("verdict-unknown", place, lack, word, known)

    def look_at_the_rest(self) -> None:
        for clock in self.file.clock:
            self.things(clock, "starts", clock.starts, "step")
            self.things(clock, "bars", clock.bars, *MAY_BE_BARRED)
        for caution in self.file.caution:
            self.things(caution, "before", caution.before, "step")
        for line in self.file.kit.holds if self.file.kit else ():
            self.things(line, "part", line.part, "part")
        for silence in self.file.silence:
            self.things(silence, "at", silence.at, *ANYTHING, "clock", "step")
