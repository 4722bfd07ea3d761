"""The single faults that the model of a pump can express: one thing wrong, all else done with care.

Pure. A fault says in which act it is made and, where the pump itself differs by it, how: `true` turns the
assembly that the record has into the one on the bench. Which there are is in `every_fault.py`; what a person
then sees, and whether the procedure catches it, is worked out by the session. All others take them from here.
"""

from __future__ import annotations

from benchcheck.assembly.faults.facts import AnotherVariant as AnotherVariant
from benchcheck.assembly.faults.facts import CutShort as CutShort
from benchcheck.assembly.faults.facts import FactOutside as FactOutside
from benchcheck.assembly.faults.facts import OutOfOrder as OutOfOrder
from benchcheck.assembly.faults.facts import TooLate as TooLate
from benchcheck.assembly.faults.fault import Fault as Fault
from benchcheck.assembly.faults.parts import LeftOut as LeftOut
from benchcheck.assembly.faults.parts import LeftOver as LeftOver
from benchcheck.assembly.faults.parts import LikeExchanged as LikeExchanged
from benchcheck.assembly.faults.parts import NotHome as NotHome
from benchcheck.assembly.faults.parts import OldForNew as OldForNew
from benchcheck.assembly.faults.parts import OtherEnd as OtherEnd
from benchcheck.assembly.faults.parts import Reversed as Reversed
from benchcheck.assembly.faults.parts import ToolLeftInside as ToolLeftInside
from benchcheck.assembly.faults.parts import Turned as Turned
from benchcheck.assembly.faults.rings import AnotherRing as AnotherRing
from benchcheck.assembly.faults.rings import AnotherScrew as AnotherScrew
from benchcheck.assembly.faults.rings import TwoInOne as TwoInOne
from benchcheck.assembly.faults.rings import screws_of as screws_of
from benchcheck.assembly.faults.tightening import AnotherWrench as AnotherWrench
from benchcheck.assembly.faults.tightening import InRound as InRound
from benchcheck.assembly.faults.tightening import PositionOutOfTurn as PositionOutOfTurn
from benchcheck.assembly.faults.tightening import PositionSkipped as PositionSkipped
from benchcheck.assembly.faults.tightening import RoundLeftOut as RoundLeftOut
from benchcheck.assembly.faults.tightening import RunningTorque as RunningTorque
from benchcheck.assembly.faults.tightening import TorqueReading as TorqueReading
from benchcheck.assembly.faults.tightening import TurnReading as TurnReading
from benchcheck.assembly.faults.tightening import TurnSkipped as TurnSkipped
