"""Bytes to values: what cannot be read is said with its place, whatever the bytes are."""

from __future__ import annotations

import codecs
import tomllib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchcheck.procedure.characters import clean, steering_characters
from benchcheck.procedure.finding import Finding, Place, Severity
from benchcheck.procedure.source import SIZE_LIMIT, Source, read


def good(content: bytes | str) -> Source:
    source = read(content if isinstance(content, bytes) else content.encode(), "pump.toml")
    assert isinstance(source, Source), source
    return source


def bad(content: bytes | str) -> Finding:
    """The one error of a file."""
    findings = read(content if isinstance(content, bytes) else content.encode(), "pump.toml")
    assert isinstance(findings, list)
    (error,) = [finding for finding in findings if finding.severity is Severity.ERROR]
    return error


def test_values_have_places() -> None:
    source = good('format = 1\n[[part]]\nid = "body"\n[[part]]\n  id = "shaft" # long\n')
    assert source.data["part"][1] == {"id": "shaft"}
    assert source.place(("part", 1, "id")) == Place("pump.toml", 5, 8)
    assert source.place(("part", 1, "id"), key=True) == Place("pump.toml", 5, 3)
    assert source.line(5) == '  id = "shaft" # long'
    assert source.raw(("part", 1, "id")) == '"shaft"'


def test_what_is_missing_is_placed_at_what_is_around_it() -> None:
    source = good('[[part]]\nid = "body"\nask = [{ what = "gap" }]\n')
    assert source.place(("part", 0, "into")) == Place("pump.toml", 1, 3)
    assert source.place(("part", 0, "ask", 0, "unit")) == Place("pump.toml", 3, 8)
    assert source.place(("part", 7, "id")) == Place("pump.toml", 1, 3)
    assert source.place(()) == Place("pump.toml", 1, 1)
    assert source.place(("step",)) == Place("pump.toml", 1, 1)


def test_lines_beyond_the_file_are_empty() -> None:
    source = good("a = 1")
    assert (source.line(0), source.line(1), source.line(2)) == ("", "a = 1", "")


def test_windows_line_ends_and_byte_order_mark_shift_no_place() -> None:
    source = good(codecs.BOM_UTF8 + b'a = 1\r\nb = "x"\r\n')
    assert source.place(("a",), key=True) == Place("pump.toml", 1, 1)
    assert source.place(("b",)) == Place("pump.toml", 2, 5)
    assert source.line(1) == "a = 1"


@pytest.mark.parametrize(
    ("content", "rule", "line", "column", "words"),
    [
        (b"", "empty-file", 1, 1, "nothing"),
        (b"# only a remark\n\n", "empty-file", 1, 1, "remarks"),
        (b"x" * 50_000_000, "file-too-long", 1, 1, "1 MB"),
        (b'a = 1\nb = "\xb5m"', "not-utf-8", 2, 6, "0xB5"),
        (codecs.BOM_UTF8 + b'a = "\xb5m"', "not-utf-8", 1, 6, "0xB5"),
        ('ä = 1\n"é" = "'.encode() + b"\xff", "not-utf-8", 2, 8, "0xFF"),
        ("a = 1".encode("utf-16"), "not-utf-8", 1, 1, "UTF-16"),
        ("a = 1".encode("utf-16-le"), "not-utf-8", 1, 1, "UTF-16"),
        ("a = 1".encode("utf-16-be"), "not-utf-8", 1, 1, "UTF-16"),
        (b"a = 1\nb = 2" + b"\0" * 512, "not-text", 2, 6, "power cut"),
        (b"\0" * 512, "not-text", 1, 1, "null"),
        (b"a = 1\rb = 2\r", "old-line-ends", 1, 1, "carriage return"),
        (b"a = " + b"[" * 100_000, "nested-too-deep", 1, 37, "32 levels"),
        (b"a = " + b"[" * 5_000 + b"]" * 5_000, "nested-too-deep", 1, 37, "32 levels"),
        (b"a = " + b"{a=" * 100_000, "nested-too-deep", 1, 101, "32 levels"),
        (b"a." * 100_000 + b"a = 1", "nested-too-deep", 1, 64, "32 levels"),
        (b"[" + b"a." * 100_000 + b"a]", "nested-too-deep", 1, 65, "32 levels"),
        (b"a = 1\nb = " + b"9" * 5_000, "number-too-large", 2, 5, "digits"),
        (b"a = 1\nb = 0x" + b"f" * 5_000, "number-too-large", 2, 5, "digits"),
        (b"a = [1, 99999999999999999999]", "number-too-large", 1, 9, "digits"),
        (b'"a\\u001b" = 1', "control-character", 1, 1, "U+001B (escape)"),
    ],
)
def test_files_that_cannot_be_read(content: bytes, rule: str, line: int, column: int, words: str) -> None:
    finding = bad(content)
    assert (finding.rule, finding.place) == (rule, Place("pump.toml", line, column))
    assert words in finding.message
    assert finding.remedy.endswith(".")


def test_a_file_of_just_the_limit_is_read() -> None:
    assert good(b"a = 1\n".ljust(SIZE_LIMIT, b"#")).data == {"a": 1}
    assert bad(b"a = 1\n".ljust(SIZE_LIMIT + 1, b"#")).rule == "file-too-long"


def test_control_characters_are_taken_out_and_said_with_their_first_place() -> None:
    source = good('title = "se\x1b[2Jal\u202e\u202e"\nid = "x" # \u200b\nok = 1')
    assert source.data == {"title": "se[2Jal", "id": "x", "ok": 1}
    first, second = source.findings
    assert (first.severity, first.place) == (Severity.WARNING, Place("pump.toml", 1, 12))
    assert "U+001B (escape) and 2 more" in first.message
    assert (second.rule, second.place) == ("control-character", Place("pump.toml", 2, 12))
    assert source.line(1) == 'title = "se[2Jal"'


def test_columns_are_those_of_the_file_on_disk() -> None:
    source = good("\x1b\x1ba = [1, \u202e2]\nb\x07 = 3")
    assert source.place(("a",), key=True) == Place("pump.toml", 1, 3)
    assert source.place(("a", 1)) == Place("pump.toml", 1, 12)
    assert source.place(("b",)) == Place("pump.toml", 2, 6)


def test_escaped_control_characters_are_taken_out_too() -> None:
    source = good('a = [{ text = "x\\u001b[2J\\r\\n\\ty\\u202E" }]')
    assert source.data == {"a": [{"text": "x[2J\n\ty"}]}
    (finding,) = source.findings
    assert finding.place == Place("pump.toml", 1, 15)
    assert "U+001B (escape), written as an escape" in finding.message


def test_many_lines_with_control_characters_are_counted() -> None:
    source = good("a = 1\n" + "# \x07\n" * 5_000)
    assert len(source.findings) == 11
    assert source.findings[-1].message.startswith("4990 more lines")
    assert source.findings[-1].place.line == 12


def test_texts_in_any_language_stay_as_they_are() -> None:
    texts = ("שפה אל השמן", "الشفة نحو الزيت", "می‌رود", "क्‍ष", "密封唇朝向油", "Dichtlippe zum Öl", "💧 é")
    source = good("\n".join(f'a{number} = "{text}"' for number, text in enumerate(texts)))
    assert tuple(source.data.values()) == texts
    assert source.findings == ()


def test_joiners_between_latin_letters_are_taken_out() -> None:
    assert clean("O-r\u200ding") == "O-ring"


def test_markup_is_only_text() -> None:
    markup = ["[/", "[OIL]", "[red]", "[@click=app.quit]x[/]", "<b>", "=1+1", "../../etc"]
    source = good("a = " + repr(markup))
    assert source.data == {"a": markup}
    assert source.findings == ()


@settings(max_examples=200, deadline=None)
@given(st.binary(max_size=60))
def test_any_bytes_give_values_or_findings(content: bytes) -> None:
    result = read(content, "pump.toml")
    if isinstance(result, Source):
        assert result.data
    else:
        assert any(finding.severity is Severity.ERROR for finding in result)
        assert all("Traceback" not in finding.as_text() for finding in result)


@settings(max_examples=300, deadline=None)
@given(st.text("ab=.,[]{}\"'\\\n #1:-é“\x1b", max_size=30))
def test_any_text_is_read_as_the_standard_library_reads_it(text: str) -> None:
    result = read(text.encode(), "pump.toml")
    try:
        expected = tomllib.loads(clean(text))
    except tomllib.TOMLDecodeError:
        assert isinstance(result, list)
        assert {finding.rule for finding in result} <= {"not-toml", "key-written-twice", "control-character"}
    else:
        assert isinstance(result, Source) == bool(expected)


@given(st.text(max_size=20))
def test_clean_text_is_clean(text: str) -> None:
    assert steering_characters(clean(clean(text))) == []
    assert set(clean(text)) <= set(text)
