"""The kinds of event as a table, made from their classes, for the manual of records.

Write it into the manual with

    python -m tests.session.event_catalogue
"""

from __future__ import annotations

import ast
import dataclasses
import inspect
from pathlib import Path

from benchcheck.session.events import KINDS, ActEvent, Event

MANUAL = Path(__file__).parents[2] / "sessions" / "README.md"
BEGINS = "<!-- the kinds of event, made by tests/session/event_catalogue.py -->"
ENDS = "<!-- end of the kinds of event -->"


def sentence(words: str | None) -> str:
    """A docstring on one line."""
    return " ".join((words or "").split())


def explained() -> dict[str, dict[str, str]]:
    """For each class, its fields that are explained where they are declared."""
    found: dict[str, dict[str, str]] = {}
    sources = {
        module: inspect.getsource(module) for module in map(inspect.getmodule, KINDS.values()) if module
    }
    for node in [node for source in sources.values() for node in ast.parse(source).body]:
        if isinstance(node, ast.ClassDef):
            fields = found.setdefault(node.name, {})
            for declared, words in zip(node.body, node.body[1:], strict=False):
                if (
                    isinstance(declared, ast.AnnAssign)
                    and isinstance(declared.target, ast.Name)
                    and isinstance(words, ast.Expr)
                    and isinstance(words.value, ast.Constant)
                ):
                    fields[declared.target.id] = sentence(str(words.value.value))
    return found


def own_keys(kind: type[Event]) -> list[str]:
    """The keys that a kind has beyond those of every event, or of every event of an act."""
    base = ActEvent if issubclass(kind, ActEvent) else Event
    common = {field.name for field in dataclasses.fields(base)}
    return [field.name for field in dataclasses.fields(kind) if field.name not in common]


def table() -> str:
    """The catalogue, as it stands in the manual."""
    words = explained()
    rows = ["| kind | of an act | what it says | its own keys |", "|---|---|---|---|"]
    for name, kind in KINDS.items():
        keys = [
            f"`{key}` ({words[kind.__name__][key].rstrip('.')})"
            if key in words[kind.__name__]
            else f"`{key}`"
            for key in own_keys(kind)
        ]
        of_act = "yes" if issubclass(kind, ActEvent) else ""
        rows.append(f"| `{name}` | {of_act} | {sentence(kind.__doc__)} | {', '.join(keys) or 'none'} |")
    return "\n".join(rows)


def main() -> None:
    """Write the catalogue into the manual."""
    manual = MANUAL.read_text("utf-8")
    before, rest = manual.split(BEGINS)
    _, after = rest.split(ENDS)
    MANUAL.write_text(f"{before}{BEGINS}\n\n{table()}\n\n{ENDS}{after}", "utf-8")


if __name__ == "__main__":
    main()
