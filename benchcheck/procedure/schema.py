"""The format of procedures as a JSON Schema: every key with its description.

For completion and typing slips in editors that read it. It knows shapes only: what a name refers to, and
whether the pump can be built so, is for `benchcheck check`.
"""

from __future__ import annotations

from typing import Any

from benchcheck.procedure.model import Procedure

DRAFT = "https://json-schema.org/draft/2020-12/schema"


def schema() -> dict[str, Any]:
    """The schema of a whole procedure file."""
    made = Procedure.model_json_schema(by_alias=True)
    made = {
        "$schema": DRAFT,
        "title": "A pump procedure",
        **{key: made[key] for key in made if key != "title"},
    }
    return made
