"""A small pump that the tests of references break: every kind of table, and nothing wrong with it."""

from __future__ import annotations

from benchcheck.procedure.model import Procedure
from benchcheck.procedure.reading import Read, read_model
from benchcheck.procedure.source import Source, read

SMALL_PUMP = """\
format = 1
must_face = [{ part = "lip", end = "mouth", toward = "top", because = "it faces the oil" }]
must_line_up = [{ part = "cap", mark = "dot", toward = "notch", because = "the ports meet" }]
stack = [{ on = "body", from = "top", order = ["cap", "lip", "shaft"] }]

[procedure]
id = "small"
title = "Small pump"
revision = "A"
status = "draft"
author = "A. Template"
models = ["XMPL-S"]
variants = ["R", "L"]
main = "body"

[[caution]]
signal = "CAUTION"
text = "The spring is under load."
before = ["cap-in"]

[[part]]
id = "body"
ends = ["top", "bottom"]
marks = { notch = 0 }

[[part]]
id = "shaft"
ends = ["thread", "keyway"]
into = "body"
from = ["top", "bottom"]
shows = { R = "thread", L = "keyway" }
under = "guard"

[[part]]
id = "guard"
into = "shaft"
from = "thread"
temporary = true

[[part]]
id = "lip"
ends = ["mouth", "back"]
seen.mouth = "the garter spring"
into = "body"
from = "top"

[[part]]
id = "cap"
ends = ["face", "rear"]
marks = { dot = 0 }
into = "body"
from = "top"
shows = "face"
lines_up = { dot = "body: notch" }
holds = ["lip"]

[[part]]
id = "plug"
into = "body"
from = "side"
for = ["L"]

[[groove]]
id = "G1"
in = "cap"
where = "rear face"
against = ["body"]
face = "rear"
takes = { R = "-110", L = "-111" }
material = "NBR"
gland = { bore = "0.500 in", depth = "0.080 in" }

[[fasteners]]
id = "F1"
into = "body"
from = "top"
holds = ["cap"]
screws = [{ item = "M5 x 12", at = [1, 2], for = ["R"] }, { item = "M5 x 16" }]
layout = { circle = 4, seen_from = "top" }
order = [1, 3, 2, 4]
rounds = ["50 %", "100 %"]
torque = { target = "5 N·m", tolerance = "10 %" }
crowfoot = { at = [4], extension = "30 mm" }
threadlocker = { strength = "low", amount = "1 drop", where = "tip", handling = "10 min", cure = "3 h" }
again = { after = "4 h", before = "run" }

[[clock]]
id = "soak"
starts = "cap-in"
least = "5 min"
bars = ["run", "release"]

[kit]
holds = [{ ring = "-110", count = 2 }, { part = "lip" }]

[[step]]
id = "identify"
phase = "intake"
act = "check"
ask = [{ what = "stamp", one_of = ["R", "L"], sets = "variant" }]

[[step]]
id = "open"
phase = "teardown"
act = "remove"
off = ["F1", "cap", "G1", "lip"]
ask = [{ what = "turns", unit = "turns", keep = "turns" }]

[[step]]
id = "judge"
phase = "inspection"
act = "check"
ask = [{ what = "lip", one_of = ["good", "worn"], good = ["good"], sets = "lip", outside = "back to cap" }]

[[step]]
id = "press-off"
phase = "inspection"
act = "do"
text = "Press the old lip out."
if = { lip = "worn" }

[[step]]
id = "shaft-in"
parts = ["guard", "shaft"]

[[step]]
id = "lip-in"
part = "lip"
after = ["shaft-in"]

[[step]]
id = "cap-in"
part = "cap"
rings = ["G1"]

[[step]]
id = "F1-1"
act = "tighten"
group = "F1"
round = 1

[[step]]
id = "look"
act = "measure"
of = ["cap", "G1", "F1"]
ask = [{ what = "turns", unit = "turns", as = "turns", of = ["cap"] }]
outside = "again"

[[step]]
id = "cure"
phase = "test"
act = "wait"
clock = "F1 cure"

[[step]]
id = "run"
phase = "test"
act = "test"
ask = [{ what = "leak", max = "2 drops/min", proves = { R = ["0 drops/min", "1 drops/min"] } }]

[[step]]
id = "sign"
phase = "release"
act = "sign"

[[silence]]
rule = "torque-low"
at = "F1"
reason = "The body is soft."
"""


def read_procedure(text: str) -> Read[Procedure]:
    """The text as a procedure; it must have the right shape."""
    source = read(text.encode(), "small.toml")
    assert isinstance(source, Source), source
    result = read_model(source, Procedure)
    assert isinstance(result, Read), result
    return result
