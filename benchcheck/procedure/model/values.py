"""The types of single values: quantities of one kind, texts that say something, names."""

from __future__ import annotations

from functools import lru_cache
from typing import Annotated, Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, core_schema

from benchcheck.mechanics.units import Quantity, QuantityError, parse

# The types say themselves what the library should make of them: it is asked for each of some two hundred
# fields whenever the program starts, and finds it out from annotations five times as slowly.


class _QuantityOf:
    """A string with its unit, read into a `Quantity` of one kind (of any, for `kind` None)."""

    def __init__(self, kind: str | None, words: str) -> None:
        self.kind = kind
        self.words = words

    def read(self, value: object) -> Quantity:
        if isinstance(value, Quantity):
            return value
        if not isinstance(value, str):
            raise QuantityError(f'{value!r} has no unit; write a string with its unit, as in "16 lbf·ft"')
        return _parsed(value, self.kind)

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        as_text = core_schema.plain_serializer_function_ser_schema(
            str, return_schema=core_schema.str_schema()
        )
        return core_schema.no_info_plain_validator_function(self.read, serialization=as_text)

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        return {"type": "string", "description": self.words}


@lru_cache(maxsize=2000)
def _parsed(text: str, kind: str | None) -> Quantity:
    """The same few quantities stand in a file, and in a folder, many times."""
    return parse(text, kind)


Torque = Annotated[Quantity, _QuantityOf("torque", "a torque with its unit")]
Length = Annotated[Quantity, _QuantityOf("length", "a length with its unit")]
Angle = Annotated[Quantity, _QuantityOf("angle", "an angle with its unit")]
Pressure = Annotated[Quantity, _QuantityOf("pressure", "a pressure with its unit")]
Duration = Annotated[Quantity, _QuantityOf("time", "a time with its unit")]
Share = Annotated[Quantity, _QuantityOf("share", "a share in %")]
AnyQuantity = Annotated[Quantity, _QuantityOf(None, "a number with its unit")]


def _not_blank(text: str) -> str:
    if not text.strip():
        raise QuantityError("an empty text says nothing; write the words or leave the key out")
    return text


class _NotBlank:
    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_after_validator_function(_not_blank, core_schema.str_schema())


class _Name:
    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.str_schema(pattern=r"^[A-Za-z0-9][A-Za-z0-9._-]*$", max_length=40)


Text = Annotated[str, _NotBlank()]
Identifier = Annotated[str, _Name()]
ByVariant = Text | dict[str, Text]
