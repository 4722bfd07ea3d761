"""State and event give a state; nothing else may make one.

Each event is carried out on the assembly as it says, then whatever lost what it leaned on is void: a seat
that is gone, a ring that is out, a group that is loose. The fold refuses nothing: what is in the record
has happened.

What each kind of event does is a case in the module of its group, which is named as in `events` and stands
below; a kind without a case only counts as the latest event. What every event does is in `folding`.
"""

from __future__ import annotations

# isort: off
from benchcheck.session.fold import (
    answers as answers,
    building as building,
    closing as closing,
    departures as departures,
    presence as presence,
    text as text,
    tightening as tightening,
)
from benchcheck.session.fold.answers import (
    HOLD_SINCE as HOLD_SINCE,
    HOLD_STARTED as HOLD_STARTED,
    RUNNING_TORQUE as RUNNING_TORQUE,
)
from benchcheck.session.fold.folding import (
    beginning as beginning,
    fold as fold,
    folded as folded,
)
