"""The bench's numbers without a procedure: torque and preload, a pattern, a wrench, an O-ring.

The same answers, in the same words, as the commands of those names give. Each is a row of fields; what makes
no sense is said and asked again. Only what a calculation needs is loaded, when it is asked for.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from benchcheck.mechanics.wrench import Wrench
from benchcheck.screens.inquiry import Flow, Item
from benchcheck.screens.keys import Deed
from benchcheck.screens.text_pages import text_pages

BACK = "back to the numbers, nothing is written"


@dataclass(frozen=True)
class Field:
    """One thing to type."""

    name: str
    ask: str
    example: str
    needed: bool = True


@dataclass(frozen=True)
class Calculation:
    """A row of fields, and what makes an answer of them; it raises ValueError with one sentence to show."""

    words: str
    verb: str
    fields: tuple[Field, ...]
    answer: Callable[[dict[str, str]], str]


def numbers(wrenches: tuple[Wrench, ...], today: date) -> Flow[None]:
    """Choose what to work out, over and over, until Esc."""
    calculations = _calculations(wrenches, today)
    while True:
        chosen = yield Item(
            "numbers",
            "What is to be worked out?",
            "asks what it needs",
            choices=tuple(each.words for each in calculations),
            escape="back to the open pumps",
        )
        yield from _worked_out(calculations[chosen.index])


def _worked_out(calculation: Calculation) -> Flow[None]:
    """Ask each field, then show the answer, page by page."""
    typed: dict[str, str] = {}
    said = ""
    while True:
        for field in calculation.fields:
            reply = yield _field(calculation, field, typed.get(field.name, ""), said)
            if reply.deed is Deed.ELSE:
                return
            typed[field.name] = reply.text.strip()
            said = ""
        try:
            text = calculation.answer({name: value for name, value in typed.items() if value})
        except ValueError as refusal:
            said = str(refusal)
            continue
        lines = text.rstrip().splitlines()
        yield from text_pages(calculation.verb, [lines], "to the numbers")
        return


def _field(calculation: Calculation, field: Field, text: str, said: str) -> Item:
    return Item(
        calculation.verb,
        field.ask,
        "goes on" if field.needed else "goes on; nothing typed means: not known",
        field=field.name,
        may_be_empty=not field.needed,
        lines=(("such as", field.example),),
        again=frozenset({Deed.ELSE}),
        escape=BACK,
        text=text,
        said=said,
    )


def _calculations(wrenches: tuple[Wrench, ...], today: date) -> tuple[Calculation, ...]:
    return (
        Calculation(
            "torque: what it makes of a screw's preload",
            "torque",
            (
                Field("thread", "The thread of the screw.", "5/16-18 UNC, M8, M8x1"),
                Field("grade", "The property class or grade of the screw.", "8.8, SAE J429 8, A4-70"),
                Field("torque", "The torque, with its unit.", "16 lbf·ft, 20 Nm"),
                Field("within", "Its tolerance, if there is one.", "10 %, 2 lbf·ft", needed=False),
                Field("K", "The nut factor, if the procedure gives one.", "0.15", needed=False),
                Field(
                    "threads",
                    "Otherwise the condition of the threads.",
                    "dry, oiled, zinc-plated",
                    needed=False,
                ),
            ),
            _torque,
        ),
        Calculation(
            "pattern: in which order positions are tightened",
            "pattern",
            (
                Field("circle", "How many positions on a circle? Empty: a rectangle.", "8", needed=False),
                Field("rows", "Rows and columns of a rectangle, if it is one.", "2x4", needed=False),
                Field("rounds", "The rounds, as shares of the target.", "30, 70, 100", needed=False),
            ),
            _pattern,
        ),
        Calculation(
            "wrench: which one reaches a torque, and what goes on it",
            "wrench",
            (
                Field("torque", "The torque at the screw, with its unit.", "16 lbf·ft, 20 Nm"),
                Field("within", "Its tolerance.", "10 %, 2 lbf·ft"),
            ),
            lambda typed: _wrench(typed, wrenches, today),
        ),
        Calculation(
            "O-ring: its size, what it is taken for, its fit",
            "ring",
            (
                Field("size", "The dash number of the ring.", "-151"),
                Field("gland", "The gland, if it is to be fitted.", "bore 2.250, depth 0.081", needed=False),
                Field("rubber", "Its rubber, if that is asked about.", "NBR, FKM, EPDM", needed=False),
                Field(
                    "fluid", "The fluid or lubricant, if that is asked about.", "mineral oil", needed=False
                ),
            ),
            _o_ring,
        ),
    )


def _torque(typed: dict[str, str]) -> str:
    from benchcheck.mechanics.units import parse_number
    from benchcheck.report import torques, torques_as_text

    answer = torques.answer(
        typed["thread"],
        typed["grade"],
        torque=typed["torque"],
        tolerance=typed.get("within"),
        nut_factor=float(parse_number(typed["K"])) if "K" in typed else None,
        condition=typed.get("threads"),
    )
    return torques_as_text.as_text(answer)


def _pattern(typed: dict[str, str]) -> str:
    from benchcheck.mechanics.pattern import PatternError
    from benchcheck.report import patterns

    circle = typed.get("circle")
    if circle is not None and not (circle.isascii() and circle.isdigit() and len(circle) < 5):
        raise PatternError(f'found "{circle[:20]}", expected how many positions: type a whole number')
    answer = patterns.answer(
        circle=int(circle) if circle is not None else None,
        rectangle=typed.get("rows") if circle is None else None,
        rounds=typed.get("rounds"),
    )
    return patterns.as_text(answer)


def _wrench(typed: dict[str, str], wrenches: tuple[Wrench, ...], today: date) -> str:
    from benchcheck.report import wrenches as report

    return report.as_text(report.answer(wrenches, typed["torque"], typed["within"], on=today))


def _o_ring(typed: dict[str, str]) -> str:
    from benchcheck.report import o_rings

    fluids = [typed["fluid"]] if "fluid" in typed else []
    answer = o_rings.answer(
        typed["size"], gland=typed.get("gland"), material=typed.get("rubber"), fluids=fluids
    )
    return o_rings.as_text(answer)
