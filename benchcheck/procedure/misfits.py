"""Why a file's values do not fit a model: the library's errors, told again in an author's words.

Each error is told by its type, in TOML's names of types, with what was found, what was expected and the
nearest known word. Neither a sentence of the library nor a Python type name reaches a person; what a
validator of ours says of a value, it says in its own sentence.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime, time
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.shape import description_at, keys_at, tables_at, words_at
from benchcheck.procedure.source import Source
from benchcheck.procedure.table import Path, Table
from benchcheck.procedure.wording import listed, nearest, shortened, spelled


@dataclass(frozen=True)
class Misfit:
    """One error: its type, the path it is about, what stands there, and the error's own numbers and words.

    Where a value may be of several types, `union` is the path of that value and `branch` the type tried.
    """

    kind: str
    path: Path
    found: Any
    context: Mapping[str, Any]
    union: Path | None = None
    branch: str = ""


@dataclass(frozen=True)
class Scene:
    """What a teller may look at: the file and the model it should fit."""

    source: Source
    model: type[Table]

    def name(self, path: Path) -> str:
        return f"`{spelled(path)}`" if path else "the file"

    def purpose(self, path: Path) -> str:
        """What is expected at `path`, as a remedy."""
        description = description_at(self.model, path)
        return (
            f"Expected here: {description}." if description else "Write another value, or leave the key out."
        )


Told = tuple[str, str, str]
"""Rule, message and remedy of a finding."""


def misfits(source: Source, model: type[Table], error: ValidationError) -> list[Finding]:
    """All that keeps the values of `source` from being a `model`."""
    scene = Scene(source, model)
    all_misfits = [_misfit(source.data, each) for each in error.errors(include_url=False)]
    newer = [each for each in all_misfits if _is_newer_format(each)]
    if newer:  # then nothing else that is said about the file can be trusted
        all_misfits = newer
    paired = _spelled_wrong(_last_missing_item(_one_branch(all_misfits)))
    return [_finding(scene, misfit) for misfit in paired]


def _finding(scene: Scene, misfit: Misfit) -> Finding:
    rule, message, remedy = _TELLERS.get(misfit.kind, _anything_else)(scene, misfit)
    at_key = misfit.kind in ("extra_forbidden", "missing")
    place = scene.source.place(misfit.path, key=at_key)
    return Finding(rule, Severity.ERROR, place, message[0].upper() + message[1:], remedy)


def _misfit(data: Any, error: ErrorDetails) -> Misfit:
    """The error with its path in the file: the names of types among its keys drop out."""
    kind, found = error["type"], data
    path: Path = ()
    union, branch = None, ""
    for index, part in enumerate(error["loc"]):
        if _has(found, part):
            path, found = (*path, part), found[part]
        elif kind == "missing" and index == len(error["loc"]) - 1:
            path = (*path, part)
        elif union is None:
            union, branch = path, str(part)
    return Misfit(kind, path, found, error.get("ctx", {}), union, branch)


def _has(container: Any, part: str | int) -> bool:
    if isinstance(container, list):
        return isinstance(part, int) and part < len(container)
    return isinstance(container, dict) and part in container


def _one_branch(misfits: list[Misfit]) -> list[Misfit]:
    """Where several types were tried on one value, only the errors of the one that was meant.

    Meant is the first for which the value has the right type; if there is none, one error names them all.
    """
    tried: dict[Path, dict[str, list[Misfit]]] = {}
    for misfit in misfits:
        if misfit.union is not None:
            tried.setdefault(misfit.union, {}).setdefault(misfit.branch, []).append(misfit)
    kept = [misfit for misfit in misfits if misfit.union is None]
    for union, branches in tried.items():
        wrong_types = [
            branch[0] for branch in branches.values() if branch[0].path == union and branch[0].kind in _TYPES
        ]
        meant = [branch for branch in branches.values() if branch[0] not in wrong_types]
        if meant:
            kept += meant[0]
        else:
            names = dict.fromkeys(_TYPES[wrong.kind] for wrong in wrong_types)
            kept.append(replace(wrong_types[0], context={"expected": listed(names)}))
    return kept


def _last_missing_item(misfits: list[Misfit]) -> list[Misfit]:
    """Of the items that an array lacks, only the last: it tells how many there should be."""
    last: dict[Path, Misfit] = {}
    others = []
    for misfit in misfits:
        if misfit.kind == "missing" and isinstance(misfit.path[-1], int):
            array = misfit.path[:-1]
            last[array] = replace(
                misfit, kind="item_missing", path=array, context={"needed": misfit.path[-1] + 1}
            )
        else:
            others.append(misfit)
    return [*others, *last.values()]


def _spelled_wrong(misfits: list[Misfit]) -> list[Misfit]:
    """An unknown key that is like a missing one of its table stands for it: one error instead of two."""
    missing: dict[Path, dict[str, Misfit]] = {}
    for misfit in misfits:
        if misfit.kind == "missing":
            missing.setdefault(misfit.path[:-1], {})[str(misfit.path[-1])] = misfit
    kept = []
    for misfit in misfits:
        if misfit.kind == "extra_forbidden":
            lacking = missing.get(misfit.path[:-1], {})
            meant = nearest(str(misfit.path[-1]), lacking)
            if meant:
                del lacking[meant]
                misfit = replace(misfit, context={"meant": meant})
        kept.append(misfit)
    still_missing = {misfit.path for table in missing.values() for misfit in table.values()}
    return [misfit for misfit in kept if misfit.kind != "missing" or misfit.path in still_missing]


def _is_newer_format(misfit: Misfit) -> bool:
    return (
        misfit.path == ("format",)
        and misfit.kind == "literal_error"
        and isinstance(misfit.found, int)
        and misfit.found > 1
    )


# What follows tells one type of error each: it gets the scene and the error, and gives rule, message, remedy.


def _missing(scene: Scene, misfit: Misfit) -> Told:
    *table, key = misfit.path
    description = description_at(scene.model, misfit.path)
    remedy = f"Write `{key}`: {description}." if description else f"Write `{key}`."
    return "key-missing", f"{scene.name(tuple(table))} has no `{key}`.", remedy


def _item_missing(scene: Scene, misfit: Misfit) -> Told:
    has = len(scene.source.value(misfit.path))
    message = f"{scene.name(misfit.path)} has {has} of the {misfit.context['needed']} values it needs."
    return "array-too-short", message, scene.purpose(misfit.path)


def _unknown_key(scene: Scene, misfit: Misfit) -> Told:
    *table, key = misfit.path
    known = keys_at(scene.model, tuple(table))
    written = scene.source.value(tuple(table))
    meant = misfit.context.get("meant") or nearest(str(key), [each for each in known if each not in written])
    message = f"`{shortened(str(key))}` is not known in {scene.name(tuple(table))}"
    if meant:
        return (
            "key-unknown",
            f"{message}; did you mean `{meant}`?",
            f"Write `{meant}`, or one of {listed(known)}.",
        )
    return "key-unknown", f"{message}.", f"Known here: {', '.join(known)}."


_TYPES = {
    "string_type": "a string",
    "int_type": "an integer",
    "int_from_float": "an integer",
    "float_type": "a number",
    "bool_type": "a boolean",
    "tuple_type": "an array",
    "dict_type": "a table",
    "model_type": "a table",
    "model_attributes_type": "a table",
    "date_type": "a date",
    "datetime_type": "a date with a time",
    "time_type": "a time",
}


def _wrong_type(scene: Scene, misfit: Misfit) -> Told:
    expected = misfit.context.get("expected") or _TYPES[misfit.kind]
    message = f"{scene.name(misfit.path)} is {_found(scene, misfit)}; expected {expected}."
    return "value-of-wrong-type", message, _other_type(scene, misfit, expected)


def _other_type(scene: Scene, misfit: Misfit, expected: str) -> str:
    """How to write what stands there as what is expected."""
    raw, found = shortened(scene.source.raw(misfit.path)), misfit.found
    if "array" in expected and isinstance(found, dict) and not raw:
        return f"Write the header with two brackets: [[{misfit.path[-1]}]]."
    if "table" in expected and isinstance(found, list) and not raw.startswith("["):
        return f"Write the header with single brackets: [{misfit.path[-1]}]."
    if "string" in expected and isinstance(found, bool | int | float | date | time):
        return f'Write "{raw}" between quotes.'
    if "array" in expected and isinstance(found, str | bool | int | float | dict) and raw:
        return f"Write it between brackets: [{raw}]."
    if "boolean" in expected:
        return "Write true or false, without quotes."
    if expected in ("an integer", "a number") and isinstance(found, str):
        number = re.fullmatch(r"\s*([+-]?\d+(?:\.\d+)?)\s*", found)
        return f"Write {number[1]} without quotes." if number else "Write a number, without quotes."
    if expected == "an integer" and isinstance(found, float):
        return "Write a whole number."
    if "date" in expected:
        return "Write year-month-day without quotes, as 2026-03-02."
    return scene.purpose(misfit.path)


def _found(scene: Scene, misfit: Misfit) -> str:
    for kinds, name in _NAMES:
        if isinstance(misfit.found, kinds):
            raw = shortened(scene.source.raw(misfit.path))
            return f"{name} {raw}" if raw and not isinstance(misfit.found, list | dict) else name
    return "something else"


_NAMES: tuple[tuple[Any, str], ...] = (
    (str, "the string"),
    (bool, "the boolean"),
    (int, "the integer"),
    (float, "the float"),
    (datetime, "the date-time"),
    (date, "the date"),
    (time, "the time"),
    (list, "an array"),
    (dict, "a table"),
)


def _unknown_word(scene: Scene, misfit: Misfit) -> Told:
    words = words_at(scene.model, misfit.path)
    if _is_newer_format(misfit):
        message = f"the file is written in format {misfit.found}; this program reads format {listed(words)}."
        return "newer-format", message, "Read it with a newer version of this program."
    meant = nearest(str(misfit.found), words)
    message = f"{scene.name(misfit.path)} is {_found(scene, misfit)}; expected {listed(words)}."
    return (
        "word-unknown",
        message,
        f"Write {_like(misfit.found, meant)}." if meant else scene.purpose(misfit.path),
    )


def _like(found: object, word: str) -> str:
    return f'"{word}"' if isinstance(found, str) else word


def _form(scene: Scene, misfit: Misfit) -> Told:
    message = (
        f"{scene.name(misfit.path)} is {_found(scene, misfit)}; a name begins with a letter or digit, "
        "and goes on with letters a to z, digits, full stops, hyphens and underscores."
    )
    proposal = re.sub(r"[^A-Za-z0-9._-]+", "-", misfit.found).strip("-._")
    return "name-malformed", message, f'Write for example "{proposal[:40] or "part-1"}".'


def _bound(words: str, limit: str) -> Callable[[Scene, Misfit], Told]:
    def tell(scene: Scene, misfit: Misfit) -> Told:
        what = f"{words} {misfit.context[limit]}"
        message = f"{scene.name(misfit.path)} is {_found(scene, misfit)}; expected {what}."
        return "value-out-of-range", message, f"Write {what}."

    return tell


def _length(words: str, limit: str, unit: str) -> Callable[[Scene, Misfit], Told]:
    def tell(scene: Scene, misfit: Misfit) -> Told:
        what = f"{words} {misfit.context[limit]} {unit}"
        has = len(misfit.found)
        message = f"{scene.name(misfit.path)} has {has} {unit}; expected {what}."
        rule = "array" if isinstance(misfit.found, list) else "text"
        return f"{rule}-too-{'long' if words == 'at most' else 'short'}", message, f"Write {what}."

    return tell


def _not_finite(scene: Scene, misfit: Misfit) -> Told:
    message = f"{scene.name(misfit.path)} is {_found(scene, misfit)}; expected a finite number."
    return "value-out-of-range", message, "Write a number."


def _own_sentence(scene: Scene, misfit: Misfit) -> Told:
    error = misfit.context.get("error")
    if type(error) is ValueError or not isinstance(error, ValueError):
        return _anything_else(scene, misfit)
    is_about_table = isinstance(misfit.found, dict) and tables_at(scene.model, misfit.path)
    if not isinstance(misfit.found, str) and not is_about_table:
        message = f"{scene.name(misfit.path)} is {_found(scene, misfit)}; expected a string."
        return "value-of-wrong-type", message, "Write the value and its unit between quotes."
    sentence = str(error).rstrip(".")
    return "value-not-understood", f"{scene.name(misfit.path)}: {sentence}.", scene.purpose(misfit.path)


def _anything_else(scene: Scene, misfit: Misfit) -> Told:
    message = f"{scene.name(misfit.path)} is {_found(scene, misfit)}, which cannot stand here."
    return "value-not-understood", message, scene.purpose(misfit.path)


_TELLERS: dict[str, Callable[[Scene, Misfit], Told]] = {
    **dict.fromkeys(_TYPES, _wrong_type),
    "missing": _missing,
    "item_missing": _item_missing,
    "extra_forbidden": _unknown_key,
    "literal_error": _unknown_word,
    "enum": _unknown_word,
    "string_pattern_mismatch": _form,
    "string_too_long": _length("at most", "max_length", "characters"),
    "string_too_short": _length("at least", "min_length", "characters"),
    "too_long": _length("at most", "max_length", "values"),
    "too_short": _length("at least", "min_length", "values"),
    "greater_than": _bound("more than", "gt"),
    "greater_than_equal": _bound("at least", "ge"),
    "less_than": _bound("less than", "lt"),
    "less_than_equal": _bound("at most", "le"),
    "finite_number": _not_finite,
    "value_error": _own_sentence,
}
