"""May this act be done now? If not: why, where, and what mends it.

Pure: looks at the assembly before and after the act, and returns refusals, never raises them. Whether a
person can take a refusal over stands in the refusal. The checker is this same guard, run on a file's
steps. What may be asked of it is named here.
"""

from __future__ import annotations

from benchcheck.assembly.guard.fasteners import may_loosen as may_loosen
from benchcheck.assembly.guard.fasteners import may_start as may_start
from benchcheck.assembly.guard.fasteners import may_tighten as may_tighten
from benchcheck.assembly.guard.fasteners import next_position as next_position
from benchcheck.assembly.guard.in_the_way import buried as buried
from benchcheck.assembly.guard.in_the_way import left_loose as left_loose
from benchcheck.assembly.guard.parts import comes_out_under as comes_out_under
from benchcheck.assembly.guard.parts import may_install as may_install
from benchcheck.assembly.guard.parts import may_remove as may_remove
from benchcheck.assembly.guard.release import stands_against_release as stands_against_release
from benchcheck.assembly.guard.rings import grooves_closing as grooves_closing
from benchcheck.assembly.guard.rings import may_fit as may_fit
from benchcheck.assembly.guard.rings import may_lift as may_lift
