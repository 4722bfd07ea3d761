"""Words that a procedure may only take from a short list."""

from __future__ import annotations

from enum import StrEnum

SIDE = "side"  # a place reached across the axis: nothing along the axis stands in its way


class Status(StrEnum):
    DRAFT = "draft"
    RELEASED = "released"
    WITHDRAWN = "withdrawn"


class Phase(StrEnum):
    INTAKE = "intake"
    TEARDOWN = "teardown"
    INSPECTION = "inspection"
    REASSEMBLY = "reassembly"
    TEST = "test"
    RELEASE = "release"


class Signal(StrEnum):
    """Signal words, in the order ANSI Z535 ranks them."""

    DANGER = "DANGER"
    WARNING = "WARNING"
    CAUTION = "CAUTION"
    NOTICE = "NOTICE"


class SingleUse(StrEnum):
    FITTED = "once fitted"
    DISTURBED = "once disturbed"
    RUN = "once run"


class Fit(StrEnum):
    SLIDE = "slide"
    PRESS = "press"
    HEAT = "heat"


class StepAct(StrEnum):
    """What a step does to the model of the pump."""

    INSTALL = "install"
    REMOVE = "remove"
    START = "start"
    TIGHTEN = "tighten"
    MEASURE = "measure"
    CHECK = "check"
    DO = "do"
    WAIT = "wait"
    TEST = "test"
    SIGN = "sign"
