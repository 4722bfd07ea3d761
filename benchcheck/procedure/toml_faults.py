"""What is wrong with a text that is not TOML, in an author's words.

The standard parser says where it gave up. Each function here looks at that spot for one slip of the hand
(a decimal comma, a missing quote, a table written twice) and says what was found and what to write. The
parser's own sentences never reach a person.
"""

from __future__ import annotations

import re
import tomllib
import unicodedata
from collections.abc import Callable
from dataclasses import dataclass

from benchcheck.procedure.characters import name_of
from benchcheck.procedure.finding import Finding, Place, Severity
from benchcheck.procedure.positions import Token, declared_twice
from benchcheck.procedure.wording import shortened, spelled


@dataclass(frozen=True, slots=True)
class Spot:
    """Where the parser gave up: the piece `here`, the one `before`, and the `bracket` that is open."""

    text: str
    offset: int
    complaint: str
    here: Token
    before: Token
    bracket: Token | None

    @property
    def found(self) -> str:
        return _shown(self.text[self.here.start : self.here.end])

    @property
    def value(self) -> str:
        """What was written as a value around the spot: up to the line's end or what closes it."""
        start = max(self.text.rfind(mark, 0, self.offset) for mark in "=\n[{,") + 1
        end = re.compile(r"[\n,\]}#]|$").search(self.text, self.offset)
        return self.text[start : end.start() if end else None].strip()


Slip = tuple[int, str, str]
"""The offset to point at, what is wrong, and the remedy."""


def explain(
    text: str, tokens: list[Token], error: tomllib.TOMLDecodeError, place: Callable[[int], Place]
) -> Finding:
    """The finding for a text the standard parser refuses; `place` turns an offset into a place."""
    offset = _offset(text, str(error))
    twice = declared_twice(text, tokens)
    if twice and twice.second <= offset:
        return Finding(
            "key-written-twice",
            Severity.ERROR,
            place(twice.second),
            f"`{spelled(twice.path)}` is written twice: here, and first at {place(twice.first)}.",
            "Keep one of the two, or join them.",
        )
    spot = _spot(text, tokens, offset, str(error))
    at, message, remedy = next(slip for look in _LOOKS if (slip := look(spot)))
    return Finding("not-toml", Severity.ERROR, place(at), message, remedy)


def _offset(text: str, complaint: str) -> int:
    match = re.search(r"at line (\d+), column (\d+)", complaint)
    if match is None:
        return len(text)
    line, column = int(match[1]), int(match[2])
    start = 0
    for _ in range(line - 1):
        start = text.index("\n", start) + 1
    return start + column - 1


def _spot(text: str, tokens: list[Token], offset: int, complaint: str) -> Spot:
    end = Token("end", len(text), len(text))
    before = Token("\n", 0, 0)
    here = end
    open_brackets: list[Token] = []
    for token in tokens:
        if token.end > offset:
            here = token
            break
        if token.kind in ("[", "{"):
            open_brackets.append(token)
        elif token.kind in ("]", "}") and open_brackets:
            open_brackets.pop()
        before = token
    return Spot(text, offset, complaint, here, before, open_brackets[-1] if open_brackets else None)


def _shown(text: str) -> str:
    if not text:
        return "the end of the file"
    if text == "\n":
        return "the end of the line"
    return f"`{shortened(text)}`"


def _missing_closing_quote(spot: Spot) -> Slip | None:
    for token in (spot.here, spot.before):
        if token.kind == "broken" and token.start <= spot.offset:
            quote = spot.text[token.start]
            mark = quote * 3 if spot.text.startswith(quote * 3, token.start) else quote
            return (
                token.start,
                f"The text that begins here has no closing {mark} .",
                f"Write {mark} where it ends.",
            )
    return None


def _bad_escape(spot: Spot) -> Slip | None:
    for token in (spot.here, spot.before):
        if token.kind != "string" or spot.text[token.start] == "'" or token.end < spot.offset:
            continue
        for match in re.finditer(r"\\([\s\S])", spot.text[token.start : token.end]):
            at = token.start + match.start()
            if _ESCAPE.match(spot.text, at):
                continue
            code = re.match(r"\\(?:e|x([0-9A-Fa-f]{2}))", spot.text[at : at + 4])
            if code:
                message = f"`{code[0]}` came with TOML 1.1; this file is read as TOML 1.0."
                return at, message, f"Write \\u00{code[1] or '1b'}."
            if match[1] in "uU":
                number = re.compile(r"\\[uU][0-9A-Fa-f]{0,8}").match(spot.text, at)
                message = f"`{number[0] if number else ''}` is the number of no character."
                return at, message, "Write \\u and the four digits of one, or the character itself."
            return (
                at,
                f"`\\{_one_line(match[1])}`: a backslash in a text begins a special character.",
                "Write \\\\ for a backslash, or put the text between single quotes: '…'.",
            )
    return None


_ESCAPE = re.compile(
    r'\\(?:[btnfr"\\]|u(?![dD][89a-fA-F])[0-9A-Fa-f]{4}|U000[0-9A-Fa-f]{5}|U0010[0-9A-Fa-f]{4}|[ \t]*\n)'
)


def _one_line(character: str) -> str:
    return "" if character == "\n" else character


def _odd_space(spot: Spot) -> Slip | None:
    character = spot.text[spot.offset : spot.offset + 1]
    if character and character != " " and unicodedata.category(character) == "Zs":
        return spot.offset, f"Found {name_of(character)}.", "Write an ordinary space instead."
    return None


def _curly_quotes(spot: Spot) -> Slip | None:
    if spot.here.kind in ("word", "other") and spot.text[spot.here.start] in "“”„‟‘’‚«»":
        return (
            spot.here.start,
            f"Found the quote {spot.text[spot.here.start]} .",
            'Write straight quotes: "…".',
        )
    return None


def _inline_table_over_lines(spot: Spot) -> Slip | None:
    if spot.bracket is None or spot.bracket.kind != "{":
        return None
    if spot.here.kind == "\n":
        return (
            spot.bracket.start,
            "A table between { and } stands on one line; this one goes on to the next.",
            "Write it on one line, or as a table with a header of its own.",
        )
    if spot.here.kind == "}" and spot.before.kind == ",":
        return spot.before.start, "Found a comma before the closing }.", "Leave out the last comma."
    return None


def _decimal_comma(spot: Spot) -> Slip | None:
    line_start = spot.text.rfind("\n", 0, spot.offset) + 1
    if spot.bracket is not None and spot.bracket.kind == "[":
        return None
    for match in re.finditer(r"=[ \t]*([+-]?\d+),(\d+)", spot.text[line_start : spot.offset + 20]):
        comma = line_start + match.start(2) - 1
        if comma <= spot.offset <= line_start + match.end() + 1:
            return comma, "Found a comma in a number.", f"Write a decimal point: {match[1]}.{match[2]}"
    return None


def _missing_value(spot: Spot) -> Slip | None:
    if spot.before.kind == "=" and spot.here.kind in ("\n", "end", ",", "}"):
        return (
            spot.before.start,
            "There is no value after the = sign.",
            "Write the value, or leave the key out.",
        )
    return None


def _comment_sign(spot: Spot) -> Slip | None:
    start = spot.text[spot.offset : spot.offset + 2]
    if start == "//" or start[:1] == ";":
        return spot.offset, f"Found {start.strip(' =')} .", "Begin a remark with # ."
    return None


def _bare_value(spot: Spot) -> Slip | None:
    in_value = spot.before.kind == "=" or spot.text.rfind("=", 0, spot.offset) > spot.text.rfind(
        "\n", 0, spot.offset
    )
    in_array = spot.bracket is not None and spot.bracket.kind == "[" and spot.before.kind in ("[", ",", "\n")
    if spot.here.kind not in ("word", ".", "other") or not (in_value or in_array):
        return None
    value = spot.value
    if spot.before.kind in ("string", "]", "}") or re.search(r"\w\s*=", value) or _NUMBERS.fullmatch(value):
        return None
    at = spot.text.rfind(value, 0, spot.offset + len(value))
    written = shortened(value)
    for pattern, message, remedy in _BARE_VALUES:
        if re.fullmatch(pattern, value, re.IGNORECASE):
            return at, message.format(written), remedy.format(written, written.lower())
    quoted = written.replace('"', '\\"')
    return at, f"{_shown(value)} is neither a number nor a text between quotes.", f'Write "{quoted}".'


_NUMBERS = re.compile(r"[+-]?\d[\d.]*(\s+[+-]?\d[\d.]*)+")


_BARE_VALUES = (
    (r"true|false", "Found `{0}`.", "Write {1}, in small letters."),
    (r"yes|on", "Found `{0}`.", 'Write true, or "{0}" between quotes if it is a text.'),
    (r"no|off", "Found `{0}`.", 'Write false, or "{0}" between quotes if it is a text.'),
    (r"(.*[ t])?\d\d:\d\d", "The time `{0}` has no seconds.", "Write the seconds too: {0}:00"),
    (r"\d+[-./]\d+[-./]\d+.*", "`{0}` is no date of the calendar.", "Write year-month-day, as 2026-03-02."),
    (
        r"[+-]?0\d+",
        "The number `{0}` begins with a zero.",
        'Leave out the zero, or write "{0}" if it is a text.',
    ),
    (
        r"[+-]?(\.\d+|\d+\.)",
        "The number `{0}` has no digit on one side of its point.",
        "Write one there, as in 0.5.",
    ),
)


def _quote_inside_text(spot: Spot) -> Slip | None:
    if (
        spot.before.kind == "string"
        and spot.here.kind in ("word", "string")
        and spot.before.end == spot.here.start
    ):
        return (
            spot.before.end - 1,
            f"The text ends here, and {spot.found} follows.",
            'For a quote inside a text write \\" .',
        )
    return None


def _header(spot: Spot) -> Slip | None:
    line_start = spot.text.rfind("\n", 0, spot.offset) + 1
    line = spot.text[line_start : spot.offset]
    if spot.here.kind == "]" and re.fullmatch(r"\s*\[{1,2}[^\[\]]+\]{1,2}\s*", line):
        return spot.offset, "The header is closed with one ] too many.", _HEADER_REMEDY
    nameless = re.compile(r"[ \t]*\[{1,2}[ \t]*\]").match(spot.text, line_start)
    if nameless and spot.offset < nameless.end():
        return spot.offset, "The header has no name.", _HEADER_REMEDY
    if re.fullmatch(r"\s*\[{1,2}[^\[\]=]+", line) and spot.here.kind == "word":
        return (
            spot.offset,
            "The name in this header has a blank in it.",
            'Put it between quotes: ["two words"].',
        )
    bracket = spot.bracket
    if bracket is None:
        return None
    line_start = spot.text.rfind("\n", 0, bracket.start) + 1
    if spot.text[line_start : bracket.start].strip(" \t[") == "":
        return bracket.start, "The header of this table is not closed.", _HEADER_REMEDY
    return None


_HEADER_REMEDY = "Write [name], or [[name]] for one of several."


def _unclosed_bracket(spot: Spot) -> Slip | None:
    bracket = spot.bracket
    if bracket is None:
        return None
    closing = {"[": "]", "{": "}"}[bracket.kind]
    open_array = bracket.kind == "[" and "=" in spot.value
    if spot.here.kind == "end" or open_array:
        return bracket.start, f"The {bracket.kind} here is never closed.", f"Write {closing} where it ends."
    if spot.here.kind in ("]", "}") and spot.here.kind != closing:
        message = f"Found {spot.found}, but what is open here was opened with {bracket.kind} ."
        return spot.offset, message, f"Write {closing} first."
    return None


def _stray_equals(spot: Spot) -> Slip | None:
    if spot.here.kind == "word" and spot.before.kind == "=":
        if re.compile(r"\s*=").match(spot.text, spot.here.end):
            message = f"Found the key {spot.found} where the value of another one belongs."
            return spot.offset, message, "Write the value, or one key and its value a line."
        return None
    if spot.here.kind != "=":
        return None
    if spot.before.kind == "=":
        return spot.offset, "Found a second = sign.", "Write one = between a key and its value."
    if spot.before.kind in ("\n", "{", ","):
        return spot.offset, "There is no key before the = sign.", "Write the key before it."
    return None


def _missing_comma(spot: Spot) -> Slip | None:
    if spot.bracket is None or spot.text.rfind("=", 0, spot.offset) < spot.text.rfind(
        "\n", 0, spot.bracket.start
    ):
        return None
    if spot.before.kind in ("string", "word", "]", "}") and spot.here.kind in ("string", "word", "[", "{"):
        return spot.offset, f"Found {spot.found} without a comma before it.", "Write a comma between the two."
    return None


def _key_without_equals(spot: Spot) -> Slip | None:
    if "=" in spot.text[spot.text.rfind("\n", 0, spot.offset) + 1 : spot.offset] and spot.bracket is None:
        return None
    if spot.text[spot.offset : spot.offset + 1] == ":" or (spot.before.kind == "word" and ":" in spot.found):
        return spot.offset, "Found a colon after a key.", "Write = between a key and its value."
    word = spot.text[spot.here.start : spot.here.end]
    if spot.here.kind in ("word", "other") and not re.fullmatch(r"[A-Za-z0-9_-]+", word):
        return (
            spot.here.start,
            f"The key {spot.found} has more than letters a to z, digits, - and _.",
            f'Put it between quotes: "{word}" = …',
        )
    if spot.before.kind in ("word", "string") and "=" in spot.complaint:
        return spot.offset, f"Found {spot.found} after a key.", "Write = and a value after the key."
    return None


def _table_without_key(spot: Spot) -> Slip | None:
    if spot.here.kind == "{" and spot.before.kind == "\n" and spot.bracket is None:
        return spot.offset, "Found a table between { and } without a key before it.", "Write key = { … }."
    return None


def _two_on_a_line(spot: Spot) -> Slip | None:
    if spot.bracket is None and spot.before.kind in ("string", "word", "]", "}") and spot.here.kind != "end":
        return (
            spot.offset,
            f"Found {spot.found} after the end of the value.",
            "Write one key and its value a line.",
        )
    return None


def _something_else(spot: Spot) -> Slip:
    return (
        spot.offset,
        f"Found {spot.found}, and cannot make sense of it.",
        'Write lines of the form key = "text", key = 16, or [table].',
    )


_LOOKS: tuple[Callable[[Spot], Slip | None], ...] = (
    _missing_closing_quote,
    _bad_escape,
    _odd_space,
    _curly_quotes,
    _decimal_comma,
    _inline_table_over_lines,
    _missing_value,
    _comment_sign,
    _bare_value,
    _quote_inside_text,
    _header,
    _stray_equals,
    _unclosed_bracket,
    _missing_comma,
    _key_without_equals,
    _table_without_key,
    _two_on_a_line,
    _something_else,
)
