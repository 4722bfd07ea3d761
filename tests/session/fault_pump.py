"""A pump of six parts whose procedure the tests of faults blind in one eye after another."""

from __future__ import annotations

from functools import cache

from benchcheck.assembly.faults import Fault
from benchcheck.session.fault_run import Found, faults_of, run_faults
from benchcheck.session.fault_walk import Walk, walks
from benchcheck.session.rehearsal import Stage
from tests.pumps import tiny_job

PUMP = """
must_face = [
  { part = "washer", end = "grooved face", toward = "top",    because = "the wheel runs on the grooves" },
  { part = "lid",    end = "inside",       toward = "bottom", because = "the channel lies inside" },
]
stack = [{ on = "body", from = "top", order = ["lid", "wheel", "peg", "washer"] }]
groove = [
  { id = "G1", in = "body", where = "round the top", against = "lid", takes = "-151", material = "NBR" },
]
step = [
  { id = "open", phase = "teardown", act = "remove", off = ["F1", "lid", "G1", "wheel", "peg", "washer"] },
  { id = "washer-in", part = "washer", ask = [{ what = "depth", min = "1 mm", max = "2 mm" }] },
  { id = "peg-in", part = "peg" },
  { id = "fit-G1", rings = ["G1"] },
  { id = "wheel-in", part = "wheel" },
  { id = "lid-on", part = "lid" },
  { id = "F1", group = "F1" },
  { id = "release", phase = "release", act = "sign", ask = [{ what = "mat", kind = "mat" }] },
]
[[part]]
id = "body"
ends = ["top", "bottom"]
marks = { dot = 0 }
[[part]]
id = "washer"
ends = ["grooved face", "plain face"]
into = "body"
from = "top"
shows = "grooved face"
fit = "press"
[[part]]
id = "peg"
into = "body"
from = "top"
[[part]]
id = "wheel"
into = "body"
from = "top"
single_use = "once disturbed"
[[part]]
id = "lid"
ends = ["outside", "inside"]
into = "body"
from = "top"
shows = "outside"
marks = { notch = 0, arrow = 90 }
lines_up = { notch = "body: dot" }
ways = 4
[[fasteners]]
id = "F1"
name = "lid screws"
into = "body"
from = "top"
holds = ["lid"]
screws = [{ item = "M6 x 16" }]
layout = { circle = 4, seen_from = "top", datum = "the dot" }
rounds = ["50 %", "100 %"]
torque = { target = "20 N·m", tolerance = "10 %" }
"""


TURNED_ON = PUMP.replace(
    'torque = { target = "20 N·m", tolerance = "10 %" }',
    """torque = { target = "20 N·m", tolerance = "10 %" }
angle = { add = "45 °", tolerance = "5 °" }""",
)
"""The same with screws that are turned on by an angle after their torque."""

LOCKING = PUMP.replace('layout = { circle = 4, seen_from = "top", datum = "the dot" }\n', "").replace(
    'rounds = ["50 %", "100 %"]',
    'prevailing = { min = "2 N·m", max = "4 N·m", add = "always" }\nhand = "right"',
)
"""The same with one nut that locks."""

TIMED = PUMP.replace(
    "[[fasteners]]",
    """[[clock]]
id = "soak"
starts = "fit-G1"
least = "30 min"
most = "2 h"
bars = "lid-on"
[[fasteners]]""",
)
"""The same with a ring that has to soak for half an hour, and no longer than two, before the lid is on."""


@cache
def walks_of(text: str) -> tuple[Walk, ...]:
    return walks(Stage(tiny_job(text), None))


@cache
def every(text: str = PUMP) -> tuple[Fault, ...]:
    return faults_of(tiny_job(text), walks_of(text)[0])


@cache
def found(text: str = PUMP) -> tuple[Found, ...]:
    return tuple(each for each in run_faults(walks_of(text), every(text)) if each is not None)


def of(words: str, text: str = PUMP) -> Found:
    """The one fault that is called so."""
    (one,) = [each for each in found(text) if each.words == words]
    return one
