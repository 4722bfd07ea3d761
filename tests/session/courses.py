"""Sessions for the tests of what stands out: a can with four screws, driven by hand, and what is said."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from benchcheck.session.course import Course, Shown
from benchcheck.session.events import Event
from benchcheck.session.remarks import Remark, kind
from benchcheck.session.state import Job
from tests.pumps import CAN, tiny_job
from tests.session.bench import Bench


def can_bench(text: str = CAN) -> Bench:
    """The can on the bench, before the first answer."""
    return Bench(tiny_job(text))


def course_of(
    bench: Bench, *, today: date | None = None, earlier: tuple[Shown, ...] = (), job: Job | None = None
) -> Course:
    state = replace(bench.state, job=job) if job is not None else bench.state
    return Course(state, tuple(bench.events()), today, earlier)


def said(name: str, bench: Bench, *, today: date | None = None) -> list[Remark]:
    """What one kind has to say on what was done at a bench."""
    return list(kind(name).look(course_of(bench, today=today)))


def events_said(name: str, bench: Bench) -> list[Event]:
    """The events that one kind leads to."""
    events = bench.events()
    return [events[remark.event - 1] for remark in said(name, bench) if remark.event is not None]
