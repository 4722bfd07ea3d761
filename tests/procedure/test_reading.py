"""Values to models: each misfit is told in TOML's words, at its place, all of a file at once."""

from __future__ import annotations

import re
from enum import StrEnum
from typing import Annotated, Any, Literal

import pytest
import tomli_w
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import AfterValidator, Field, model_validator

from benchcheck.procedure.finding import Finding, Place, Severity
from benchcheck.procedure.misfits import misfits
from benchcheck.procedure.model import Procedure
from benchcheck.procedure.reading import Read, read_model
from benchcheck.procedure.source import Source, read
from benchcheck.procedure.table import Table


class OddError(ValueError):
    """A validator's own complaint."""


def even(number: int) -> int:
    if number % 2:
        raise OddError(f"{number} is odd; write an even number")
    return number


def careless(text: str) -> str:
    return str(int(text))


class Colour(StrEnum):
    RED = "red"
    GREEN = "green"


class Leaf(Table):
    """`[[leaf]]`: a leaf of the tree."""

    id: str = Field(pattern="^[a-z]+$", max_length=8, description="its name")
    from_: str | tuple[str, str] = Field(default="stem", alias="from", description="where it grows")
    count: Annotated[int, Field(ge=1, le=9)] = 1
    length: Annotated[float, Field(gt=0, lt=100)] = 1.0
    colour: Colour = Field(default=Colour.GREEN, strict=False)
    edge: Literal["smooth", "toothed"] = "smooth"
    shows: str | dict[str, str] | None = None
    marks: dict[str, int] = Field(default={})
    pairs: Annotated[int, AfterValidator(even)] = 2
    code: Annotated[str, AfterValidator(careless)] = "1"
    falls: bool = False


class Root(Table):
    """`[root]`: what holds the tree."""

    depth: float

    @model_validator(mode="after")
    def _deep_enough(self) -> Root:
        if self.depth < 1:
            raise OddError("so shallow a root holds nothing; write at least 1")
        return self


class Tree(Table):
    format: Literal[1] = 1
    root: Root | None = None
    leaf: tuple[Leaf, ...]


def source_of(text: str) -> Source:
    source = read(text.encode(), "tree.toml")
    assert isinstance(source, Source), source
    return source


def good(text: str) -> Read[Tree]:
    result = read_model(source_of(text), Tree)
    assert isinstance(result, Read), result
    return result


def faults(text: str) -> list[Finding]:
    result = read_model(source_of(text), Tree)
    assert isinstance(result, list)
    return result


def test_a_good_file_is_read_into_its_model() -> None:
    tree = good('[[leaf]]\nid = "a"\nfrom = ["stem", "twig"]\nlength = 2\ncolour = "red"\n').model
    assert tree.leaf[0] == Leaf(id="a", from_=("stem", "twig"), length=2, colour=Colour.RED)
    assert hash(tree.leaf[0].from_)


def test_tables_know_their_places() -> None:
    read = good('[[leaf]]\nid = "a"\n[[leaf]]\n  id = "b"\n  from = ["x", "y"]\n  marks = { m = 1 }\n')
    leaf = read.model.leaf[1]
    assert leaf.path == ("leaf", 1)
    assert read.place(leaf) == Place("tree.toml", 3, 3)
    assert read.place(leaf, "id") == Place("tree.toml", 4, 8)
    assert read.place(leaf, "id", key=True) == Place("tree.toml", 4, 3)
    assert read.place(leaf, "from", 1) == read.place(leaf, "from_", 1) == Place("tree.toml", 5, 16)
    assert read.place(leaf, "marks", "m") == Place("tree.toml", 6, 17)
    assert read.place(leaf, "falls") == read.place(leaf), "what is left out is placed at its table"
    assert read.place(read.model) == Place("tree.toml", 1, 1)


def test_asking_for_the_place_of_a_key_that_no_file_can_have_is_a_mistake() -> None:
    read = good('[[leaf]]\nid = "a"\n')
    with pytest.raises(KeyError):
        read.place(read.model.leaf[0], "form")


def test_tables_of_equal_contents_are_equal_wherever_they_stand() -> None:
    tree = good('[[leaf]]\nid = "a"\n[[leaf]]\nid = "a"\n[[leaf]]\nid = "b"\n').model
    assert tree.leaf[0] == tree.leaf[1] != tree.leaf[2]
    assert tree.leaf[0].path != tree.leaf[1].path


def test_warnings_of_the_source_are_kept() -> None:
    (warning,) = good('[[leaf]]\nid = "a" # \x1b\n').findings
    assert warning.rule == "control-character"
    assert [finding.rule for finding in faults("[[leaf]]\nid = 1 # \x1b\n")] == [
        "value-of-wrong-type",
        "control-character",
    ]


# One leaf in one line: what it says, then rule, the text at the fault's place, words of message and remedy.
LEAVES = [
    ('from = "x"', "key-missing", "leaf", "`leaf 1` has no `id`.", "Write `id`: its name."),
    ('id = "a"\nfal = true', "key-unknown", "fal", "did you mean `falls`?", "Write `falls`"),
    (
        'id = "a"\nweight = 3',
        "key-unknown",
        "weight",
        "`weight` is not known in `leaf 1`.",
        "id, from, count",
    ),
    ('id = "a"\nfrom_ = "x"', "key-unknown", "from_", "did you mean `from`?", "Write `from`"),
    ('idd = "a"', "key-unknown", "idd", "did you mean `id`?", "Write `id`"),
    (
        "id = 3",
        "value-of-wrong-type",
        "3",
        "is the integer 3; expected a string",
        'Write "3" between quotes.',
    ),
    ("id = 2026-03-02", "value-of-wrong-type", "2026", "the date 2026-03-02; expected a string", "quotes"),
    ("id = true", "value-of-wrong-type", "true", "is the boolean true; expected a string", "quotes"),
    ('id = ["a"]', "value-of-wrong-type", '["a"]', "is an array; expected a string", "its name"),
    ('id = "A b"', "name-malformed", '"A b"', "a name begins with", '"A-b"'),
    ('id = "abcdefghi"', "text-too-long", '"abc', "has 9 characters", "at most 8 characters"),
    ('id = "a"\ncount = "3"', "value-of-wrong-type", '"3"', "expected an integer", "Write 3 without quotes."),
    ('id = "a"\ncount = 1.5', "value-of-wrong-type", "1.5", "is the float 1.5", "whole number"),
    ('id = "a"\ncount = 0', "value-out-of-range", "0", "expected at least 1", "at least 1"),
    ('id = "a"\ncount = 10', "value-out-of-range", "10", "expected at most 9", "at most 9"),
    ('id = "a"\nlength = 0', "value-out-of-range", "0", "expected more than 0", "more than 0"),
    ('id = "a"\nlength = nan', "value-out-of-range", "nan", "the float nan; expected a finite", "number"),
    ('id = "a"\nlength = "x"', "value-of-wrong-type", '"x"', "expected a number", "without quotes"),
    ('id = "a"\ncolour = "gren"', "word-unknown", '"gren"', "expected red or green", 'Write "green".'),
    ('id = "a"\ncolour = 4', "word-unknown", "4", "the integer 4; expected red or green", "Write"),
    (
        'id = "a"\nedge = "Smooth"',
        "word-unknown",
        '"Smooth"',
        "expected smooth or toothed",
        'Write "smooth".',
    ),
    ('id = "a"\nfalls = "yes"', "value-of-wrong-type", '"yes"', "expected a boolean", "true or false"),
    ('id = "a"\nfalls = 1', "value-of-wrong-type", "1", "expected a boolean", "true or false"),
    ('id = "a"\nfrom = 3', "value-of-wrong-type", "3", "expected a string or an array", 'Write "3"'),
    ('id = "a"\nfrom = ["x"]', "array-too-short", '["x"]', "1 of the 2 values", "where it grows"),
    ('id = "a"\nfrom = []', "array-too-short", "[]", "0 of the 2 values", "where it grows"),
    ('id = "a"\nfrom = ["x", "y", "z"]', "array-too-long", '["x"', "has 3 values", "at most 2"),
    ('id = "a"\nfrom = ["x", 3]', "value-of-wrong-type", "3", "`leaf 1, from 2` is the integer 3", '"3"'),
    ('id = "a"\nshows = 3', "value-of-wrong-type", "3", "expected a string or a table", 'Write "3"'),
    ('id = "a"\nshows = { R = 3 }', "value-of-wrong-type", "3", "`leaf 1, shows, R` is the integer", '"3"'),
    ('id = "a"\nmarks = { m = "x" }', "value-of-wrong-type", '"x"', "`leaf 1, marks, m`", "without quotes"),
    ('id = "a"\nmarks = "m"', "value-of-wrong-type", '"m"', 'the string "m"; expected a table', "Write"),
    ('id = "a"\npairs = 3', "value-of-wrong-type", "3", "is the integer 3", "quotes"),
    ('id = "a"\ncode = "x"', "value-not-understood", '"x"', 'is the string "x", which cannot stand', "Write"),
]


@pytest.mark.parametrize(
    ("body", "rule", "at", "message", "remedy"), LEAVES, ids=[leaf[0] for leaf in LEAVES]
)
def test_misfits(body: str, rule: str, at: str, message: str, remedy: str) -> None:
    text = f"[[leaf]]\n{body}\n"
    (finding,) = faults(text)
    assert finding.rule == rule
    assert finding.severity is Severity.ERROR
    assert message in finding.message
    assert remedy in finding.remedy
    assert text.splitlines()[finding.place.line - 1][finding.place.column - 1 :].startswith(at)


def test_a_validators_own_sentence_is_shown() -> None:
    (finding,) = faults('root = { depth = 0.5 }\n[[leaf]]\nid = "a"\n')
    assert finding.message == "`root`: so shallow a root holds nothing; write at least 1."
    assert finding.place == Place("tree.toml", 1, 8)
    assert finding.remedy == "Expected here: what holds the tree."


def test_arrays_and_tables_mixed_up_are_told_by_their_headers() -> None:
    table, array = faults('[leaf]\nid = "a"\n[[root]]\ndepth = 1\n')
    assert (table.remedy, table.place.line) == ("Write the header with two brackets: [[leaf]].", 1)
    assert (array.remedy, array.place.line) == ("Write the header with single brackets: [root].", 3)
    (inline,) = faults('leaf = { id = "a" }\n')
    assert inline.remedy == 'Write it between brackets: [{ id = "a" }].'


def test_a_missing_table_says_what_it_is_for() -> None:
    (finding,) = faults("root = { depth = 1 }")
    assert (finding.message, finding.remedy) == (
        "The file has no `leaf`.",
        "Write `leaf`: a leaf of the tree.",
    )
    assert finding.place == Place("tree.toml", 1, 1)


def test_all_faults_of_a_file_come_at_once_in_order() -> None:
    findings = faults('[[leaf]]\nidd = "a"\ncount = 0\n[[leaf]]\nid = 4\nfrom = 3\n[root]\n')
    assert [(finding.rule, finding.place.line) for finding in findings] == [
        ("key-unknown", 2),
        ("value-out-of-range", 3),
        ("value-of-wrong-type", 5),
        ("value-of-wrong-type", 6),
        ("key-missing", 7),
    ]


def test_a_newer_format_is_one_finding_whatever_else_is_there() -> None:
    (finding,) = faults('format = 2\n[[leaf]]\nid = 4\nnews = "x"\n')
    assert (finding.rule, finding.place) == ("newer-format", Place("tree.toml", 1, 10))
    assert "format 2; this program reads format 1" in finding.message
    assert faults('format = 0\n[[leaf]]\nid = "a"\n')[0].rule == "word-unknown"
    assert faults('format = "1"\n[[leaf]]\nid = "a"\n')[0].rule == "word-unknown"


def test_an_error_of_an_unknown_type_still_reads_as_ours() -> None:
    """Whatever the library adds one day, its sentence stays inside."""
    source = source_of('[[leaf]]\nid = "a"\n')

    class Unheard:
        def errors(self, **_: Any) -> list[dict[str, Any]]:
            return [{"type": "unheard_of", "loc": ("leaf", 0, "id"), "msg": "Input should be heard of"}]

    (finding,) = misfits(source, Tree, Unheard())  # type: ignore[arg-type]
    assert finding.message == '`leaf 1, id` is the string "a", which cannot stand here.'


def test_long_keys_and_values_are_cut() -> None:
    for finding in faults(
        "[[leaf]]\n" + "x" * 300_000 + " = 1\nid = 3\n[[leaf]]\nid = '" + "Y" * 300_000 + "'"
    ):
        assert len(finding.as_text()) < 600


MINIMAL: dict[str, Any] = {
    "format": 1,
    "procedure": {
        "id": "p",
        "title": "t",
        "revision": "A",
        "status": "draft",
        "author": "a",
        "models": ["m"],
        "main": "body",
    },
    "part": [
        {"id": "body", "ends": ["top", "bottom"]},
        {"id": "cap", "into": "body", "from": "top", "shows": {"R": "x"}, "marks": {"dot": 0}},
    ],
    "groove": [
        {"id": "G1", "in": "cap", "where": "outer", "against": ["body"], "takes": "-110", "material": "NBR"}
    ],
    "fasteners": [
        {
            "id": "F1",
            "into": "body",
            "from": "top",
            "layout": {"circle": 4},
            "torque": {"target": "16 N·m", "tolerance": "10 %"},
            "rounds": ["50 %", "100 %"],
        }
    ],
    "step": [{"id": "cap-in", "part": "cap", "ask": [{"what": "gap", "max": "0.1 mm"}]}],
}
LEAKS = re.compile(
    r"Input should|Field required|Extra inputs|Value error|\b(str|int|dict|tuple|list|bool|NoneType)\b"
    r"|valid (string|integer|tuple|dict)|pydantic|Traceback|<class|function-"
)
odd_values = st.one_of(
    st.sampled_from(["", "x y", "20,5 N·m", "Draft", "-1", "16 N·m"]),
    st.integers(-3, 400),
    st.floats(),
    st.booleans(),
    st.dates(),
    st.lists(st.sampled_from(["a", 1, True]), max_size=4),
    st.dictionaries(st.sampled_from(["id", "circle", "zz"]), st.sampled_from(["a", 2]), max_size=2),
)


def _spots(value: Any) -> list[tuple[Any, Any]]:
    """Every container of the document with one of its keys or indices."""
    entries = (
        value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    )
    return [spot for key, item in entries for spot in ((value, key), *_spots(item))]


@settings(max_examples=120, deadline=None)
@given(st.data())
def test_whatever_stands_anywhere_no_word_of_the_library_comes_through(data: st.DataObject) -> None:
    document = _copy(MINIMAL)
    for _ in range(data.draw(st.integers(1, 3))):
        container, key = data.draw(st.sampled_from(_spots(document)), label="spot")
        if data.draw(st.booleans(), label="rename") and isinstance(container, dict):
            container[data.draw(st.sampled_from(["ide", "form", "zzz"]))] = container.pop(key)
        else:
            container[key] = data.draw(odd_values, label="value")
    result = read_model(source_of(tomli_w.dumps(document)), Procedure)
    if isinstance(result, list):
        for finding in result:
            assert not LEAKS.search(finding.message + finding.remedy)
            assert finding.message.endswith((".", "?")) and finding.remedy.endswith(".")


def _copy(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _copy(item) for key, item in value.items()}
    return [_copy(item) for item in value] if isinstance(value, list) else value
