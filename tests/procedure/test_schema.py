"""The schema for editors: it takes every procedure of this shop, describes every key, and refuses a slip."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from benchcheck.procedure.schema import schema

PROCEDURES = sorted(Path("procedures").glob("xmpl-*.toml"))


def as_json(path: Path) -> Any:
    """The file as a JSON document, as an editor's language server sees it."""
    return json.loads(json.dumps(tomllib.loads(path.read_text("utf-8")), default=str))


def test_it_is_a_schema() -> None:
    jsonschema.Draft202012Validator.check_schema(schema())


@pytest.mark.parametrize("path", PROCEDURES, ids=lambda path: path.name)
def test_it_takes_the_procedures_of_this_shop(path: Path) -> None:
    jsonschema.validate(as_json(path), schema())


def test_it_refuses_a_key_that_is_not_known() -> None:
    document = as_json(PROCEDURES[0])
    document["part"][0]["colour"] = "grey"
    with pytest.raises(jsonschema.ValidationError, match="colour"):
        jsonschema.validate(document, schema())


def test_every_key_is_described() -> None:
    bare = [
        f"{name}.{key}"
        for name, table in schema()["$defs"].items()
        for key, value in table.get("properties", {}).items()
        if "description" not in value
    ]
    assert bare == []
