"""The manual for authors: every example is read, every key of every table is in it, and nothing else."""

from __future__ import annotations

import re
from enum import Enum
from pathlib import Path
from typing import Any, Literal, get_args, get_origin

import pytest

from benchcheck.procedure.model import Procedure
from benchcheck.procedure.reading import Read, read_model
from benchcheck.procedure.references import references
from benchcheck.procedure.registers import InstrumentRegister, PeopleRegister, ShopRegister
from benchcheck.procedure.source import Source, read
from benchcheck.procedure.table import Table
from tests.manual import FENCES, MANUAL, WHOLE, within_the_whole
from tests.procedure.test_reading import LEAVES
from tests.procedure.test_references import FAULTS
from tests.procedure.test_toml_faults import SLIPS

FRAGMENTS = [text for kind, text in FENCES if kind == ""]
REGISTERS: dict[str, type[Table]] = {
    "shop": ShopRegister,
    "instruments": InstrumentRegister,
    "people": PeopleRegister,
}


def read_as(model: type[Table], text: str) -> Read[Any]:
    source = read(text.encode(), "README.md")
    assert isinstance(source, Source), [finding.as_text() for finding in source]
    result = read_model(source, model)
    assert isinstance(result, Read), "\n".join(finding.as_text() for finding in result)
    return result


def test_the_whole_procedure_has_nothing_wrong() -> None:
    assert references(read_as(Procedure, WHOLE)) == []


@pytest.mark.parametrize("fragment", FRAGMENTS, ids=lambda text: " ".join(text.split()[:4]))
def test_each_piece_has_nothing_wrong_within_the_whole(fragment: str) -> None:
    findings = references(read_as(Procedure, within_the_whole(fragment)))
    assert [finding.as_text() for finding in findings] == []


@pytest.mark.parametrize(("kind", "text"), [fence for fence in FENCES if fence[0] in REGISTERS])
def test_the_registers_are_read(kind: str, text: str) -> None:
    read_as(REGISTERS[kind], text)


def test_every_fence_is_of_a_kind_that_is_tested() -> None:
    assert len(FENCES) == MANUAL.count("\n```toml")
    assert {kind for kind, _ in FENCES} == {"", "whole", *REGISTERS}


def tables_of(model: type[Table]) -> dict[str, type[Table]]:
    """Every table that a model can hold, by the key under which it stands."""
    found: dict[str, type[Table]] = {}
    for key, name in model.fields_by_key().items():
        for table in _tables_in(model.model_fields[name].annotation):
            found[key] = table
            found |= tables_of(table)
    return found


def _tables_in(annotation: Any) -> list[type[Table]]:
    if isinstance(annotation, type) and issubclass(annotation, Table):
        return [annotation]
    return [table for each in get_args(annotation) for table in _tables_in(each)]


def words_in(annotation: Any) -> list[str]:
    if get_origin(annotation) is Literal:
        return [str(each) for each in get_args(annotation)]
    if isinstance(annotation, type) and issubclass(annotation, Enum):
        return [str(member.value) for member in annotation]
    return [word for each in get_args(annotation) for word in words_in(each)]


MODELS: list[type[Table]] = [Procedure, *REGISTERS.values()]
TABLES = {key: table for model in MODELS for key, table in tables_of(model).items()}
# A section is headed by the key of its table: `[[part]]`, `[kit]`, `layout` of a group.
SECTIONS = {
    heading.strip("[]"): body
    for heading, body in re.findall(
        r"^#{2,4} `([^`]+)`[^\n]*\n(.*?)(?=^#{2,4} |\Z)", MANUAL, re.MULTILINE | re.DOTALL
    )
}


def test_every_table_has_a_section() -> None:
    assert SECTIONS.keys() == TABLES.keys()
    assert "`format = 1`" in MANUAL


@pytest.mark.parametrize("key", TABLES)
def test_every_key_is_explained_and_shown_and_no_other(key: str) -> None:
    table, section = TABLES[key], SECTIONS[key]
    rows = dict(re.findall(r"^\| `(\w+)` \| .* \| ([^|]+) \|$", section, re.MULTILINE))
    rows = {name: left_out for name, left_out in rows.items() if name not in words_in(_act_of(table))}
    assert rows.keys() == table.fields_by_key().keys()
    example = "".join(re.findall(r"```toml.*?```", section, re.DOTALL))
    for name, field_name in table.fields_by_key().items():
        field = table.model_fields[field_name]
        assert re.search(rf"\b{name}\b\"?( =|\.)", example), f"`{name}` is in no example of its section"
        assert rows[name].startswith("required") == field.is_required() or name in ("into", "from")
        for word in words_in(field.annotation):
            assert f"`{word}`" in MANUAL, f"{word} is a word of `{name}`"


def _act_of(table: type[Table]) -> Any:
    """The acts have a table of their own in the section on steps."""
    field = table.model_fields.get("act")
    return field.annotation if field else None


def test_the_findings_of_reading_are_all_listed() -> None:
    start, end = map(
        MANUAL.index, ("## What the check says of the file", "## What the check says of the pump")
    )
    listed = set(re.findall(r"`([a-z0-9]+(?:-[a-z0-9]+)+)`", MANUAL[start:end]))
    told = {leaf[1] for leaf in LEAVES} | {fault[2] for fault in FAULTS}
    told |= {"key-written-twice" if "twice" in slip[1] else "not-toml" for slip in SLIPS}
    assert told <= listed
    sources = "".join(
        path.read_text(encoding="utf-8")
        for path in (Path(__file__).parents[2] / "benchcheck" / "procedure").glob("*.py")
    )
    for rule in listed:
        kind, _, fault = rule.partition("-")
        assert f'"{rule}"' in sources or f"-{fault}" in sources, f"nothing says {rule}"
        assert kind
