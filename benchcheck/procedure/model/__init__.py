"""What a procedure says, as frozen tables: the format of `procedures/*.toml`, version 1.

One class a table, one docstring a field: the same words become the manual's and the schema's. Only shapes
live here (which keys, which types, which words are known); whether names refer to something is
`references.py`, and whether the pump can be built this way is `checking`. A quantity is a string with its
unit. All others take the tables from here, whichever module they stand in.
"""

from __future__ import annotations

from benchcheck.procedure.model.fasteners import Again as Again
from benchcheck.procedure.model.fasteners import Crowfoot as Crowfoot
from benchcheck.procedure.model.fasteners import Fasteners as Fasteners
from benchcheck.procedure.model.fasteners import Friction as Friction
from benchcheck.procedure.model.fasteners import Layout as Layout
from benchcheck.procedure.model.fasteners import Prevailing as Prevailing
from benchcheck.procedure.model.fasteners import Screws as Screws
from benchcheck.procedure.model.fasteners import Tapped as Tapped
from benchcheck.procedure.model.fasteners import TargetTorque as TargetTorque
from benchcheck.procedure.model.fasteners import ThreadLocker as ThreadLocker
from benchcheck.procedure.model.fasteners import TurnOn as TurnOn
from benchcheck.procedure.model.head import Caution as Caution
from benchcheck.procedure.model.head import Head as Head
from benchcheck.procedure.model.head import Silence as Silence
from benchcheck.procedure.model.parts import Gland as Gland
from benchcheck.procedure.model.parts import Groove as Groove
from benchcheck.procedure.model.parts import MustFace as MustFace
from benchcheck.procedure.model.parts import MustLineUp as MustLineUp
from benchcheck.procedure.model.parts import Part as Part
from benchcheck.procedure.model.parts import Stack as Stack
from benchcheck.procedure.model.steps import Ask as Ask
from benchcheck.procedure.model.steps import Clock as Clock
from benchcheck.procedure.model.steps import Kit as Kit
from benchcheck.procedure.model.steps import KitLine as KitLine
from benchcheck.procedure.model.steps import Step as Step
from benchcheck.procedure.model.values import Angle as Angle
from benchcheck.procedure.model.values import AnyQuantity as AnyQuantity
from benchcheck.procedure.model.values import ByVariant as ByVariant
from benchcheck.procedure.model.values import Duration as Duration
from benchcheck.procedure.model.values import Identifier as Identifier
from benchcheck.procedure.model.values import Length as Length
from benchcheck.procedure.model.values import Pressure as Pressure
from benchcheck.procedure.model.values import Share as Share
from benchcheck.procedure.model.values import Text as Text
from benchcheck.procedure.model.values import Torque as Torque
from benchcheck.procedure.model.whole import Procedure as Procedure
from benchcheck.procedure.model.words import SIDE as SIDE
from benchcheck.procedure.model.words import Fit as Fit
from benchcheck.procedure.model.words import Phase as Phase
from benchcheck.procedure.model.words import Signal as Signal
from benchcheck.procedure.model.words import SingleUse as SingleUse
from benchcheck.procedure.model.words import Status as Status
from benchcheck.procedure.model.words import StepAct as StepAct
