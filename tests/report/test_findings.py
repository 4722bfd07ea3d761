"""Findings with the line they are about: the mark stands under the place, whatever the line holds."""

from __future__ import annotations

import json

from hypothesis import given
from hypothesis import strategies as st

from benchcheck.procedure.finding import Finding, Place, Severity
from benchcheck.report.findings import as_json, as_text, silenced_as_text, summary


def finding(
    line: int, column: int, severity: Severity = Severity.ERROR, message: str = "There is no `bdy`."
) -> Finding:
    return Finding("part-unknown", severity, Place("a.toml", line, column), message, "Write `body`.")


def shown(content: str, line: int, column: int) -> list[str]:
    return as_text([finding(line, column)], {"a.toml": content.encode("utf-8", "surrogatepass")}).splitlines()


def test_the_line_is_shown_with_the_place_marked() -> None:
    assert shown('format = 1\ninto = "bdy"\n', 2, 8) == [
        "a.toml:2:8: error part-unknown: There is no `bdy`.",
        '    2 | into = "bdy"',
        "      |        ^",
        "    Write `body`.",
    ]


def test_the_mark_counts_cells_where_the_place_counts_letters() -> None:
    # A tab is shown as one cell; two cells each for the wide letters; none for the accent on its own.
    assert shown('\tb = "日本" x', 1, 11)[1:3] == ['    1 |  b = "日本" x', "      |" + " " * 13 + "^"]
    assert shown("e\u0301 = 1 x", 1, 8)[2] == "      |" + " " * 7 + "^"


def test_what_would_steer_the_terminal_is_shown_and_does_not() -> None:
    text = "\n".join(shown('a = "\x1b[2J\u202e" x\r\nb', 1, 13))
    assert 'a = "\ufffd[2J\ufffd" x\n' in text and "\x1b" not in text and "\r" not in text
    assert text.splitlines()[2].index("^") == text.splitlines()[1].index("x")
    steering = Finding("a", Severity.ERROR, Place("\x1b[2J.toml", 1, 1), "Found \x1b.", "Write \x1bit.")
    assert "\x1b" not in as_text([steering], {})


def test_a_long_line_is_cut_around_the_place() -> None:
    line = "x" * 300 + "HERE" + "y" * 300
    _, cut, mark, _ = shown(line, 1, 301)
    assert cut[mark.index("^") :].startswith("HERE")
    assert cut.startswith("    1 | …xx") and cut.endswith("yy…") and len(cut) < 120


def test_a_place_without_a_line_of_text_is_told_without_one() -> None:
    for content in ("", "\n\n", "one line", "\0\0\0\n\0\0"):
        assert len(shown(content, 2, 1)) == 2
    assert len(as_text([finding(1, 1)], {}).splitlines()) == 2


def test_colour_adds_nothing_but_colour() -> None:
    findings = [finding(1, 1, severity) for severity in Severity]
    contents = {"a.toml": b'into = "bdy"\n'}
    coloured = as_text(findings, contents, coloured=True)
    for code in ("\x1b[1;31m", "\x1b[1;33m", "\x1b[1;36m", "\x1b[0m"):
        assert code in coloured
        coloured = coloured.replace(code, "")
    assert coloured == as_text(findings, contents)


@given(st.text(), st.integers(1, 5), st.integers(1, 30))
def test_any_text_can_be_shown(content: str, line: int, column: int) -> None:
    text = shown(content.replace("\r", ""), line, column)
    assert len(text) in (2, 4)
    assert len(text) == 2 or text[2].endswith(" ^")


def test_summary() -> None:
    both = [finding(1, 1), finding(2, 1), finding(3, 1, Severity.WARNING), finding(4, 1, Severity.ADVICE)]
    assert summary(both, 3) == "2 errors, 1 warning, 1 piece of advice in 3 files."
    assert summary([], 1) == "Nothing found in 1 file."


def test_json_is_what_programs_were_promised() -> None:
    table = json.loads(json.dumps(as_json([finding(2, 8)], 3)))
    assert table == {
        "findings": [
            {
                "rule": "part-unknown",
                "severity": "error",
                "file": "a.toml",
                "line": 2,
                "column": 8,
                "message": "There is no `bdy`.",
                "remedy": "Write `body`.",
            }
        ],
        "silenced": [],
        "files": 3,
    }


def test_what_a_file_lets_stand_is_shown_with_its_reason() -> None:
    stands = [(finding(2, 8), "It is so on the \x1bdrawing.")]
    assert silenced_as_text(stands) == (
        "a.toml:2:8: silenced part-unknown: There is no `bdy`.\n    It is so on the drawing.\n"
    )
    assert as_json([], 1, stands)["silenced"] == [
        {**finding(2, 8).as_json(), "reason": "It is so on the \x1bdrawing."}
    ]
    assert summary([], 2, 1) == "Nothing found in 2 files; 1 finding silenced."
