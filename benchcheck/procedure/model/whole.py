"""A whole procedure file."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from benchcheck.procedure.model.fasteners import Fasteners
from benchcheck.procedure.model.head import Caution, Head, Silence
from benchcheck.procedure.model.parts import Groove, MustFace, MustLineUp, Part, Stack
from benchcheck.procedure.model.steps import Clock, Kit, Step
from benchcheck.procedure.table import Table


class Procedure(Table):
    """A whole procedure file."""

    format: Literal[1] = Field(description="version of this format")
    procedure: Head
    caution: tuple[Caution, ...] = ()
    part: tuple[Part, ...]
    groove: tuple[Groove, ...] = ()
    must_face: tuple[MustFace, ...] = ()
    must_line_up: tuple[MustLineUp, ...] = ()
    stack: tuple[Stack, ...] = ()
    fasteners: tuple[Fasteners, ...] = ()
    clock: tuple[Clock, ...] = ()
    kit: Kit | None = None
    step: tuple[Step, ...]
    silence: tuple[Silence, ...] = ()
