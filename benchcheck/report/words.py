"""Small words of reports: numbers, durations, counts, and what an event was, in half a sentence."""

from __future__ import annotations

import math
from collections.abc import Iterable
from datetime import timedelta

from benchcheck.assembly.pump import Pump
from benchcheck.procedure.model import Step
from benchcheck.report.columns import kept
from benchcheck.session import events as happened
from benchcheck.session.arrival import TWO_RINGS
from benchcheck.session.events import Event

UNGUARDED, OUTSIDE, TAKEN_OVER = "?", "!", "~"
"""Signs beside a reading; each is explained where it stands."""
_FIGURES = 4


def number(value: float) -> str:
    """A number as it was read: no exponent, no digits that only a computer adds."""
    text = f"{value:.10g}"
    return f"{float(text):f}".rstrip("0").rstrip(".") if "e" in text else text


def limits(low: float, high: float) -> str:
    """Both limits with four figures, rounded inward."""
    return f"{_rounded(low, math.ceil)} to {_rounded(high, math.floor)}"


def _rounded(value: float, way: object) -> str:
    if value == 0:
        return "0"
    places = _FIGURES - 1 - math.floor(math.log10(abs(value)))
    scaled = value * 10.0**places
    near = round(scaled)
    # What is a whole number but for the last bit must not be moved by one.
    whole = near if math.isclose(scaled, near, rel_tol=1e-9) else way(scaled)  # type: ignore[operator]
    return number(whole / 10.0**places)


def duration(span: timedelta) -> str:
    """A time that passed: "24 h 10 min", "40 s"."""
    seconds = int(span.total_seconds())
    if seconds < 60:
        return f"{seconds} s"
    minutes = seconds // 60
    return kept(f"{minutes // 60} h {minutes % 60:02} min" if minutes >= 60 else f"{minutes} min")


def capital(text: str) -> str:
    """The text as it begins a sentence."""
    return text[:1].upper() + text[1:]


def count(many: int, noun: str) -> str:
    return f"{many} {noun}{'' if many == 1 else 's'}"


def listed(words: Iterable[str]) -> str:
    """`a, b and c`; "none" for nothing."""
    *before, last = [*words] or ["none"]
    return f"{', '.join(before)} and {last}" if before else last


def step_words(pump: Pump, step: Step) -> str:
    """What a person calls a step: its heading, else what it handles."""
    if step.name:
        return step.name
    if step.clock:
        return f"wait for {step.clock}"
    things = [f"ring of {groove}" for groove in step.rings if groove in pump.grooves]
    things += (pump.called(part) for part in (*step.all_parts, *step.off) if part in pump.parts)
    if step.group in pump.groups:
        which = f", round {step.round}" if step.round is not None else ""
        things.append(f"{pump.called(step.group or '')}{which}")
    return f"{step.act.value} {listed(dict.fromkeys(things))}" if things else step.id


def found_words(found: str) -> str:
    """What somebody saw in a groove, after "was found"."""
    return "with more than one ring" if found == TWO_RINGS else found


def event_words(pump: Pump, event: Event) -> str:
    """What happened, short."""
    match event:
        case happened.RingLifted(groove=groove):
            return f"ring of {groove} lifted"
        case happened.GrooveFound(groove=groove, found=found):
            return f"{groove} found {found_words(found)}"
        case happened.PartRemoved(part=part):
            return f"{pump.called(part)} taken out"
        case happened.PartReplaced(part=part, reason=reason):
            return f"{pump.called(part)} replaced: {reason}"
        case happened.PartInstalled(part=part):
            return f"{pump.called(part)} fitted"
        case happened.RingFitted(groove=groove, size=size, material=material):
            return f"ring {size} {material} into {groove}"
        case happened.GroupLoosened(group=group):
            return f"{pump.called(group)} loosened"
        case happened.GroupStarted(group=group):
            return f"{pump.called(group)} run in"
        case happened.Corrected(reason=reason):
            return f"corrected: {reason}"
        case happened.Measured(what=what, value=value, unit=unit):
            return f"{what}: {number(value)} {unit}"
        case happened.Told(what=what, value=value):
            return what if what == value else f"{what}: {value}"
        case happened.Counted(what=what, count=counted):
            return f"{what}: {counted}"
        case happened.PositionTightened(group=group, position=position):
            return f"{pump.called(group)}, position {position} tightened"
        case happened.PositionTurned(group=group, position=position):
            return f"{pump.called(group)}, position {position} turned"
        case happened.PositionChecked(group=group):
            return f"{pump.called(group)}, check pass"
        case happened.Witnessed(name=name):
            return f"seen by {name}"
        case happened.WaitOver(clock=clock):
            return f"{clock}: waited"
    return event.kind
