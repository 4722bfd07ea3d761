"""Everything that can happen to a pump on the bench, one class a kind, in groups that belong together.

Here is the one place they are taken from. A new kind is a class in its group, its name below, a case in
the module of the same name in `fold`, and a row in the manual of records.
"""

from __future__ import annotations

# In the order of the work, which the manual of records and the columns of a CSV file follow.
# isort: off
from benchcheck.session.events.event import (
    KINDS as KINDS,
    Event as Event,
    UnknownEvent as UnknownEvent,
    from_table as from_table,
    ActEvent as ActEvent,
    stamped as stamped,
)
from benchcheck.session.events.presence import (
    Opened as Opened,
    SignedOn as SignedOn,
    SignedOff as SignedOff,
    Stopped as Stopped,
    TakenUp as TakenUp,
    ReadAgain as ReadAgain,
    ClockWentBack as ClockWentBack,
    CardLeft as CardLeft,
    TakenOver as TakenOver,
)
from benchcheck.session.events.text import (
    WorkHalted as WorkHalted,
    HaltLifted as HaltLifted,
    ProcedureDiffers as ProcedureDiffers,
    StayedOn as StayedOn,
    MovedOn as MovedOn,
)
from benchcheck.session.events.building import (
    WorkTurned as WorkTurned,
    RingFitted as RingFitted,
    RingLifted as RingLifted,
    GrooveFound as GrooveFound,
    PartInstalled as PartInstalled,
    PartRemoved as PartRemoved,
    PartReplaced as PartReplaced,
)
from benchcheck.session.events.tightening import (
    GroupLoosened as GroupLoosened,
    GroupStarted as GroupStarted,
    WrenchTaken as WrenchTaken,
    PositionTightened as PositionTightened,
    PositionTurned as PositionTurned,
    PositionChecked as PositionChecked,
    PositionDisposed as PositionDisposed,
    PositionRepaired as PositionRepaired,
    TighteningTrouble as TighteningTrouble,
    WrenchChanged as WrenchChanged,
    InstrumentDoubted as InstrumentDoubted,
)
from benchcheck.session.events.answers import (
    Answered as Answered,
    GaugeTaken as GaugeTaken,
    GaugeChanged as GaugeChanged,
    Measured as Measured,
    Told as Told,
    Counted as Counted,
    Done as Done,
    Witnessed as Witnessed,
    WaitOver as WaitOver,
    Signed as Signed,
)
from benchcheck.session.events.departures import (
    Deviation as Deviation,
    LeftOut as LeftOut,
    Disposed as Disposed,
    Corrected as Corrected,
    WentBack as WentBack,
    Remark as Remark,
)
from benchcheck.session.events.closing import (
    Closed as Closed,
    Judged as Judged,
)
