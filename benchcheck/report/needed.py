"""What a procedure takes, worked out from its model: pieces that are used up, and tools.

What the kit's bag says, and whether that will do, is for the rules and for the session.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from benchcheck.checking.kits import needed
from benchcheck.checking.subject import Subject
from benchcheck.mechanics.wrench import Setting
from benchcheck.procedure.model import Fasteners, Fit, Groove, Part


@dataclass(frozen=True, slots=True)
class Needed:
    """A piece or a tool, and what it is for."""

    what: str
    for_: str


def kit(subject: Subject) -> Iterator[Needed]:
    """What is used up: rings by size and rubber, parts that die, screws, thread-locker and lubricants."""
    for (size, material), grooves in needed(subject).items():
        yield Needed(f"{len(grooves)} x {size} {material}", ", ".join(grooves))
    for part in subject.file.part:
        if part.single_use is not None and not part.temporary:
            only = f", {', '.join(part.for_)} only" if part.for_ else ""
            yield Needed(f"{part.count} x {part.called}", f"single use, {part.single_use.value}{only}")
    for group in subject.file.fasteners:
        for screws in group.screws:
            if screws.single_use is not None:
                many = len(screws.at) or group.count
                yield Needed(f"{many} x {screws.item}", f"{group.called}, {screws.single_use.value}")
        if (locker := group.threadlocker) is not None:
            yield Needed(f"thread-locker, {locker.strength} strength", f"{group.called}: {locker.amount}")
    things: tuple[Part | Groove | Fasteners, ...]
    things = (*subject.file.part, *subject.file.groove, *subject.file.fasteners)
    lubricated = (
        (each.lubricate, each.id if isinstance(each, Groove) else each.called)
        for each in things
        if each.lubricate and not each.lubricate.startswith("keep")
    )
    for what, users in _gathered(lubricated):
        yield Needed(what, users)


def tools(subject: Subject) -> Iterator[Needed]:
    """What is needed and not used up: wrenches, extensions, gauges, tools that go in and come out, heat."""
    for group in subject.file.fasteners:
        if group.torque is not None:
            yield Needed(f"torque wrench {wrenches(subject, group)}", group.called)
        if group.crowfoot is not None:
            yield Needed(f"extension of {group.crowfoot.extension} on the wrench", group.called)
        if group.angle is not None:
            yield Needed(f"what shows an angle of {group.angle.add}", group.called)
    asks = ((ask.tool, step.id) for step in subject.file.step for ask in step.ask if ask.tool)
    for tool, steps in _gathered(asks):
        yield Needed(tool, steps)
    for part in subject.file.part:
        if part.temporary:
            yield Needed(part.called, "goes in for a time, and comes out")
    for fit, tool in ((Fit.PRESS, "press"), (Fit.HEAT, "heat")):
        if fitted := [each.called for each in subject.file.part if each.fit is fit]:
            yield Needed(tool, ", ".join(fitted))


def _gathered(pairs: Iterable[tuple[str | None, str]]) -> Iterator[tuple[str, str]]:
    """Each thing once, with all that it is for."""
    found: dict[str, list[str]] = {}
    for what, user in pairs:
        users = found.setdefault(what or "", [])
        if user not in users:
            users.append(user)
    return ((what, ", ".join(users)) for what, users in found.items())


def wrenches(subject: Subject, group: Fasteners) -> str:
    """Which registered wrenches can do a group, each of them all of it; or what each pull of it takes."""
    pulls = [pull for pull in subject.pulls if pull.group is group]
    if not pulls:
        return "of the shop, none registered"
    able = [{each.wrench for each in pull.outcomes if isinstance(each, Setting)} for pull in pulls]
    if whole := set.intersection(*able):
        return " or ".join(sorted(whole))
    return "; ".join(
        f"{' or '.join(sorted(each)) or 'NONE REGISTERED'} for {pull.words}"
        for pull, each in zip(pulls, able, strict=True)
    )
