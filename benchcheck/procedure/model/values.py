"""The types of single values: quantities of one kind, texts that say something, names."""

from __future__ import annotations

from typing import Annotated

from pydantic import AfterValidator, BeforeValidator, Field, PlainSerializer, WithJsonSchema

from benchcheck.mechanics.units import Quantity, QuantityError, parse


def _reads(kind: str | None) -> BeforeValidator:
    """Reads a string with its unit into a `Quantity` of one kind (of any, for `kind` None)."""

    def read(value: object) -> Quantity:
        if isinstance(value, Quantity):
            return value
        if not isinstance(value, str):
            raise QuantityError(f'{value!r} has no unit; write a string with its unit, as in "16 lbf·ft"')
        return parse(value, kind)

    return BeforeValidator(read)


_AS_TEXT = PlainSerializer(str, return_type=str)


def _described(words: str) -> WithJsonSchema:
    return WithJsonSchema({"type": "string", "description": words})


Torque = Annotated[Quantity, _reads("torque"), _AS_TEXT, _described("a torque with its unit")]
Length = Annotated[Quantity, _reads("length"), _AS_TEXT, _described("a length with its unit")]
Angle = Annotated[Quantity, _reads("angle"), _AS_TEXT, _described("an angle with its unit")]
Pressure = Annotated[Quantity, _reads("pressure"), _AS_TEXT, _described("a pressure with its unit")]
Duration = Annotated[Quantity, _reads("time"), _AS_TEXT, _described("a time with its unit")]
Share = Annotated[Quantity, _reads("share"), _AS_TEXT, _described("a share in %")]
AnyQuantity = Annotated[Quantity, _reads(None), _AS_TEXT, _described("a number with its unit")]


def _not_blank(text: str) -> str:
    if not text.strip():
        raise QuantityError("an empty text says nothing; write the words or leave the key out")
    return text


Text = Annotated[str, AfterValidator(_not_blank)]
Identifier = Annotated[str, Field(pattern=r"^[A-Za-z0-9][A-Za-z0-9._-]*$", max_length=40)]
ByVariant = Text | dict[str, Text]
