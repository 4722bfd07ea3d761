"""Which letters the terminal at hand can show, and how what it cannot show is written instead.

Python takes a locale without UTF-8 for one that has it, and changes its own environment to match. What the
terminal was set up for stands only in the environment that the program was started with. How screens and
reports are drawn in ASCII is their own business.
"""

from __future__ import annotations

import codecs
import os

TYPE_CHECKING = False  # typing itself would cost a fifth of what --version may take
if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from typing import TextIO

_LOCALE = ("LC_ALL", "LC_CTYPE", "LANG")
"""Variables that name the locale, the strongest first."""
_CONSOLES = ("linux", "vt", "cons", "ansi")
"""How the kinds of terminals are called that draw with one small font, whatever the locale says."""
_SPELLED_OUT = "benchcheck.spelled_out"


def started_with() -> Mapping[str, str]:
    """The environment the program was started with; where the system does not tell, the present one."""
    try:
        with open("/proc/self/environ", "rb") as file:
            entries = os.fsdecode(file.read()).split("\0")
    except OSError:
        return os.environ
    return dict(entry.split("=", 1) for entry in entries if "=" in entry)


def why_ascii(environment: Mapping[str, str], encoding: str | None = "utf-8") -> str:
    """Why a terminal gets ASCII only, as half a sentence; empty if it takes more.

    `environment` is that of its person, `encoding` that of the stream which writes to it.
    """
    kind = environment.get("TERM", "")
    if kind.startswith(_CONSOLES):
        return f"TERM={kind} has few letters"
    name = next((each for each in _LOCALE if environment.get(each)), None)
    if name is None:
        return "LANG is not set"
    value = environment[name]
    if not _is_utf8(value):
        return f"{name}={value} names no UTF-8"
    return "" if _is_utf8(encoding or "") else f"what is written to it is {encoding}"


def _is_utf8(name: str) -> bool:
    return "utf8" in name.lower().replace("-", "")


def spell_out_what_cannot_be_shown(streams: Iterable[TextIO | None]) -> None:
    """Let what is no letter in a stream's encoding be spelled out: no fault, and a question mark last.

    A terminal that gets ASCII only is written to in ASCII; a file or a pipe keeps its encoding.
    """
    codecs.register_error(_SPELLED_OUT, _spelled_out)
    for stream in streams:
        if (reconfigure := getattr(stream, "reconfigure", None)) is None:
            continue
        if stream is not None and stream.isatty() and why_ascii(started_with()):
            reconfigure(encoding="ascii", errors=_SPELLED_OUT)
        else:
            reconfigure(errors=_SPELLED_OUT)


def _spelled_out(error: UnicodeError) -> tuple[str, int]:
    """What to write in place of letters that an encoding has not."""
    from benchcheck.report.ascii_text import in_ascii

    assert isinstance(error, UnicodeEncodeError)
    before, after = error.object[: error.start], error.object[error.end : error.end + 1]
    text = in_ascii(error.object[error.start : error.end] + after)
    text = text[: len(text) - len(in_ascii(after))]
    return text.lstrip(" ") if before.endswith(" ") else text, error.end
