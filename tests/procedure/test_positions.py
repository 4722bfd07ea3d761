"""The place of every key and value: proved by reading the text between two offsets again."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from datetime import date, datetime, time
from typing import Any

import pytest
import tomli_w
from hypothesis import given, settings
from hypothesis import strategies as st

from benchcheck.procedure.positions import declared_twice, locate, tokenise, too_deep
from benchcheck.procedure.source import read
from benchcheck.procedure.table import Path


def paths_of(value: object, path: Path = ()) -> Iterator[tuple[Path, object]]:
    if path:
        yield path, value
    if isinstance(value, dict):
        for key, item in value.items():
            yield from paths_of(item, (*path, key))
    elif isinstance(value, list):
        for index, item in enumerate(value):
            yield from paths_of(item, (*path, index))


def prove(text: str) -> None:
    """Every path of the document is placed, no other is, and each value is found where it is placed."""
    data = tomllib.loads(text)
    positions = locate(text, tokenise(text))
    expected = dict(paths_of(data))
    assert positions.keys() == expected.keys()
    for path, (key, start, end) in positions.items():
        if start < end:
            assert tomllib.loads("x=" + text[start:end])["x"] == expected[path]
        else:
            assert isinstance(expected[path], dict | list), "only what has a header has no value of its own"
        if isinstance(path[-1], str):
            assert _name_at(text, key) == path[-1]


def _name_at(text: str, offset: int) -> str:
    token = next(token for token in tokenise(text) if token.start == offset)
    (name,) = tomllib.loads(f"{text[token.start : token.end]} = 1")
    return name


words = st.text(st.characters(blacklist_categories=("Cs", "Cc")), max_size=6)
bare_words = st.text("abz019_-", min_size=1, max_size=4)
keys = st.one_of(bare_words, words)
scalars = st.one_of(
    words,
    st.text("a\"'\\\n\t =#[]{},.", max_size=8),
    st.integers(-(10**12), 10**12),
    st.floats(allow_nan=False, allow_infinity=False),
    st.booleans(),
    st.dates(date(1900, 1, 1)),
    st.times(),
    st.datetimes(datetime(1900, 1, 1)),
)
values = st.recursive(
    scalars,
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(keys, inner, max_size=3)),
    max_leaves=12,
)
documents = st.dictionaries(keys, values, max_size=5)


@settings(max_examples=40, deadline=None)
@given(documents, st.booleans())
def test_documents_as_a_writer_lays_them_out(document: dict[str, Any], multiline: bool) -> None:
    prove(tomli_w.dumps(document, multiline_strings=multiline).replace("\r\n", "\n"))


def by_hand(draw: st.DrawFn, value: object) -> str:
    """A value as a person might write it: any of the string forms, blanks, remarks and line breaks."""
    blank = draw(st.sampled_from(["", " ", "\t"]))
    if isinstance(value, str):
        forms = [tomli_w.dumps({"x": value}).strip().removeprefix("x = ")]
        if not set(value) & set("'\n\r") and value.isprintable():
            forms.append(f"'{value}'")
        if "'''" not in value and not value.endswith("'") and value.isprintable():
            forms.append(f"'''\n{value}'''")
        if value.isprintable():
            escaped = value.replace("\\", "\\\\").replace('"""', '""\\"')
            forms.append(f'"""\\\n   {escaped}"""' if value[:1].strip() else f'"""{escaped}"""')
        return draw(st.sampled_from(forms))
    if isinstance(value, list):
        gap = draw(st.sampled_from(["", " ", "\n  ", " # a remark, with ] and ' in it\n"]))
        comma = draw(st.sampled_from(["", ","])) if value else ""
        return f"[{gap}" + f",{gap}".join(by_hand(draw, item) for item in value) + comma + f"{gap}]"
    if isinstance(value, dict):
        pairs = [f"{_key(key)}{blank}={blank}{by_hand(draw, item)}" for key, item in value.items()]
        return "{" + blank + ", ".join(pairs) + blank + "}"
    return tomli_w.dumps({"x": value}).strip().removeprefix("x = ")


def _key(key: str) -> str:
    return tomli_w.dumps({key: 1}).strip().removesuffix(" = 1")


@st.composite
def handwritten(draw: st.DrawFn) -> str:
    lines: list[str] = []
    for name, table in draw(st.dictionaries(bare_words, documents, max_size=4)).items():
        form = draw(st.sampled_from(["header", "array", "inline", "dotted", "deep header"]))
        if form == "inline" or (form == "dotted" and not table):
            lines.insert(0, f"{name} = {by_hand(draw, table)}")
        elif form == "dotted":
            dotted = [
                f"{name} . {_key(key)} = {by_hand(draw, value)} # dotted" for key, value in table.items()
            ]
            lines[:0] = dotted
        else:
            body = [f"{_key(key)} = {by_hand(draw, value)}" for key, value in table.items()]
            if form == "array":
                lines += [
                    f"[[{name}]]",
                    *body,
                    f" [[ {name} ]] # again",
                    *body,
                    f"[{name}.'one.more']",
                    *body,
                ]
            elif form == "deep header":
                lines += [f'[{name}."on the way".last]', *body, f"[{name}]", "after = 1"]
            else:
                lines += [f"[{name}]", *body]
    return "\n".join(lines)


@settings(max_examples=40, deadline=None)
@given(handwritten())
def test_documents_as_a_person_lays_them_out(text: str) -> None:
    prove(text)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "# nothing but a remark",
        "a = 1.5 # one value, three pieces",
        "a = 1979-05-27 07:32:00.5-07:00",
        "a = [[1, 2], [[]], []]",
        "a.b.c = 1\na.b.d = 2\n[x]\na.b = 1",
        "[[a]]\n[[a.b]]\nc = 1\n[[a.b]]\nc = 2\n[[a]]\n[a.d]\ne = 1",
        "a = '''x''''",
        'a = """x"""""',
        'a = """\\"""" # a remark',
        "3.14 = 'three, then fourteen'",
        "'' = ''",
        "a = { b.c = 1, b.d = { e = [ { f = 1 } ] } }",
        "[a.b]\nc = 1\n[a]\nd = 1",
    ],
)
def test_documents_that_trip_scanners(text: str) -> None:
    prove(text)


def test_places_of_a_small_procedure() -> None:
    text = 'format = 1\n[[part]]\nid = "body"\n[[part]]\n  id = "shaft" # long\n'
    positions = locate(text, tokenise(text))
    assert positions["format",] == (0, 9, 10)
    assert positions["part",].key == text.index("part")
    assert positions["part", 1].key == text.rindex("part")
    start = text.index('"shaft"')
    assert positions["part", 1, "id"] == (start - 5, start, start + 7)


@pytest.mark.parametrize(
    ("text", "path", "first", "second"),
    [
        ("a = 1\na = 2", ("a",), 0, 6),
        ("[a]\n[a]", ("a",), 1, 5),
        ("a = []\n[[a]]", ("a",), 0, 9),
        ("a = {b = 1}\n[a.b]", ("a",), 0, 13),
        ("[[a]]\n[a]", ("a",), 2, 7),
        ("[a]\n[[a]]", ("a",), 1, 6),
        ("a.b = 1\na = 2", ("a",), 0, 8),
        ("a = 1\na.b = 2", ("a",), 0, 6),
        ("x = { a = 1, 'a' = 2 }", ("x", "a"), 6, 13),
        ("[[s]]\nid = 1\n[[s]]\nid = 1\nid = 2", ("s", 1, "id"), 19, 26),
    ],
)
def test_both_places_of_what_is_declared_twice(text: str, path: Path, first: int, second: int) -> None:
    with pytest.raises(tomllib.TOMLDecodeError):
        tomllib.loads(text)
    assert declared_twice(text, tokenise(text)) == (path, first, second)


@settings(max_examples=200, deadline=None)
@given(st.text("ab=.,[]{}\"'\\\n #1", max_size=30))
def test_broken_texts_are_scanned_to_an_end(text: str) -> None:
    twice = declared_twice(text, tokenise(text))
    assert twice is None or twice.first < twice.second


@settings(max_examples=100, deadline=None)
@given(documents)
def test_nothing_is_said_twice_of_a_right_document(document: dict[str, Any]) -> None:
    text = tomli_w.dumps(document)
    assert declared_twice(text, tokenise(text)) is None


def test_depth_is_counted_over_brackets_and_dots() -> None:
    assert too_deep(tokenise("a = " + "[" * 32 + "]" * 32)) is None
    assert too_deep(tokenise("a = " + "[" * 33 + "]" * 33)) == 4 + 32
    assert too_deep(tokenise(".".join("a" * 32) + " = 1")) is None
    assert too_deep(tokenise(".".join("a" * 33) + " = 1")) == 63
    assert too_deep(tokenise("a = '" + "[" * 99 + "'  # " + "." * 99)) is None


PIECES = st.sampled_from(
    ["[" * 12, "{" * 12, "]", "}", "a." * 12, "\n", "=", ",", '"', '"""', "'", "#", "\\", "a"]
)


@given(st.lists(PIECES, max_size=30).map("".join))
def test_what_is_too_deep_is_refused_for_that_whatever_else_is_wrong(text: str) -> None:
    said = read(text.encode(), "x.toml")
    refused = isinstance(said, list) and "nested-too-deep" in {each.rule for each in said}
    assert refused == (too_deep(tokenise(text)) is not None)


def test_times_are_one_value() -> None:
    assert tomllib.loads("a = 07:32:00")["a"] == time(7, 32)
    prove("a = 07:32:00\nb = [07:32:00, 08:00:00]")
