"""Printing and reading lines, with signals held back while something is being written to disk.

Whoever talks need not know whether a terminal, a pipe or a test is at the other end. What goes wrong there
comes as one of three exceptions; what is said, and when, is for the callers.
"""

from __future__ import annotations

import contextlib
import os
import select
import shutil
import signal
import textwrap
from collections.abc import Iterator, Sequence
from types import FrameType
from typing import Protocol, TextIO

from benchcheck.procedure.characters import clean

WIDTH = 78
LONGEST = 1000
"""A line longer than this [characters] is no answer: something was pasted."""
FAREWELL = 2.0
"""How long the last words wait for whoever reads them [s]: a terminal may be frozen."""
LOOKS_BESIDE = 1.0
"""How often what speaks beside the keyboard is looked for while nobody types [s]."""
_UNREADABLE = "\ufffd"
_KEPT = "\u00a0"
"""Stands for a blank at which no line is broken."""


class EndOfInput(Exception):
    """There is no more to read."""


class OutputGone(Exception):
    """Nobody can read what is printed any more: the terminal or the pipe is closed."""


class Signalled(Exception):
    """The system asks the program to end."""

    def __init__(self, number: int) -> None:
        super().__init__(signal.Signals(number).name)
        self.number = number


class Beside(Protocol):
    """What may speak beside the keyboard."""

    @property
    def talks(self) -> bool: ...
    def fileno(self) -> int: ...  # below 0: nothing to wait for
    def said(self) -> tuple[str, ...]: ...


class Talk:
    """One conversation. A line that starts with blanks is indented, also where it wraps."""

    def __init__(self, source: TextIO, sink: TextIO) -> None:
        self.source, self.sink = source, sink
        if reconfigure := getattr(source, "reconfigure", None):
            reconfigure(errors="replace")
        self.width = min(WIDTH, shutil.get_terminal_size().columns - 1) if sink.isatty() else WIDTH
        self._interruptible = False
        self._pending: int | None = None

    def say(self, *texts: str) -> None:
        """Print texts, wrapped. Raises OutputGone, Signalled."""
        with self._at_the_terminal():
            for text in texts or ("",):
                for line in text.splitlines() or [""]:
                    self._print(*(wrapped(clean(line), self.width) or [""]))

    def ask(self, text: str, beside: Beside | None = None) -> str:
        """Print a question and read one line. Raises EndOfInput, OutputGone, Signalled.

        What comes beside the keyboard meanwhile is said, and the question again.
        """
        while True:
            with self._at_the_terminal():
                self._print(f"{clean(text)} ", end="", flush=True)
                said = self._wait(beside) if beside is not None else ()
                line = self._read() if not said else ""
            if said:
                self.say("", *said)
                continue
            answer = clean(line.removesuffix("\n").replace("\t", " "))
            if _UNREADABLE in answer:
                self.say("Some letters of that could not be read. Type it again.")
            elif len(answer) > LONGEST:
                self.say(f"That is longer than {LONGEST} letters, so it is not taken. Type it again.")
            else:
                return answer

    def yes(self, question: str) -> bool:
        """Ask until it is yes or no."""
        while True:
            match self.ask(f"{question} yes or no:").strip().casefold():
                case "yes" | "y":
                    return True
                case "no" | "n":
                    return False
            self.say("Type yes or no.")

    def pick(self, question: str, choices: Sequence[str]) -> int | None:
        """List the choices and ask until one is named, by number or by words of it; None if "?" is typed."""
        for number, choice in enumerate(choices, 1):
            self.say(f"{number}  {choice}")
        while True:
            chosen = " ".join(self.ask(question).split()).casefold()
            if chosen == "?":
                return None
            if chosen.isascii() and chosen.isdigit() and 1 <= int(chosen) <= len(choices):
                return int(chosen) - 1
            if (place := _named(chosen, choices)) is not None:
                return place
            last = f"1 to {len(choices)}" if len(choices) > 1 else "1"
            self.say(f'"{chosen}" is none of these: type {last}.' if chosen else f"Type {last}.")

    def farewell(self, text: str) -> None:
        """The last that is said. If nobody takes it, the output gets an end that takes everything."""
        signal.setitimer(signal.ITIMER_REAL, FAREWELL)
        try:
            self.say("", text)
            with self._at_the_terminal():
                self._print(end="", flush=True)
        except (OutputGone, Signalled):
            self._let_go()
        finally:
            signal.setitimer(signal.ITIMER_REAL, 0)

    @contextlib.contextmanager
    def signals(self) -> Iterator[None]:
        """SIGTERM, SIGHUP, SIGINT end the talk while it prints or reads, and never while it writes to disk.

        One that is ignored when the program starts (`nohup` does that) stays ignored.
        """
        numbers = [
            number
            for number in (signal.SIGTERM, signal.SIGHUP, signal.SIGINT, signal.SIGALRM)
            if signal.getsignal(number) is not signal.SIG_IGN
        ]
        before = [signal.signal(number, self._arrived) for number in numbers]
        try:
            yield
        finally:
            for number, handler in zip(numbers, before, strict=True):
                signal.signal(number, handler)

    def _arrived(self, number: int, frame: FrameType | None) -> None:
        if self._interruptible:
            self._interruptible = False
            raise Signalled(number)
        self._pending = number

    @contextlib.contextmanager
    def _at_the_terminal(self) -> Iterator[None]:
        self._interruptible = True
        try:
            if self._pending is not None:
                number, self._pending = self._pending, None
                raise Signalled(number)
            yield
        finally:
            self._interruptible = False

    def _print(self, *lines: str, end: str = "\n", flush: bool = False) -> None:
        try:
            for line in lines:
                print(line, file=self.sink, end=end)
            if flush:
                self.sink.flush()
        except OSError as error:
            raise OutputGone(os.strerror(error.errno or 0)) from error

    def _wait(self, beside: Beside) -> tuple[str, ...]:
        """Wait at a terminal for a line from a hand, or for what there is to say of what comes beside it."""
        while beside.talks and self.source.isatty():
            keyboard, other = self.source.fileno(), beside.fileno()
            ready, _, _ = select.select([keyboard, *([other] if other >= 0 else [])], [], [], LOOKS_BESIDE)
            if keyboard not in ready and (said := beside.said()):
                return said
            if keyboard in ready:
                break
        return ()

    def _read(self) -> str:
        try:
            line = self.source.readline()
        except OSError as error:  # a terminal that is gone says so only when it is read
            raise EndOfInput from error
        # A last line without its end was never finished: it is no answer.
        if not line.endswith("\n"):
            raise EndOfInput
        return line

    def _let_go(self) -> None:
        """The interpreter flushes its output once more as it ends, and would fail at that."""
        with contextlib.suppress(OSError, ValueError):
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, self.sink.fileno())
            os.close(nowhere)


def _named(words: str, choices: Sequence[str]) -> int | None:
    """The choice that reads like this, or the only one that holds these words."""
    lower = [choice.casefold() for choice in choices]
    if words in lower:
        return lower.index(words)
    holding = [place for place, choice in enumerate(lower) if len(words) > 2 and words in choice]
    return holding[0] if len(holding) == 1 else None


def kept(text: str) -> str:
    """The text as one that is not broken at its blanks."""
    return text.replace(" ", _KEPT)


def wrapped(line: str, width: int) -> list[str]:
    """A line in pieces that fit, hanging below its first word; sizes are not broken at their dashes."""
    indent = line[: len(line) - len(line.lstrip())]
    pieces = textwrap.wrap(
        line.strip(),
        max(width, 20),
        initial_indent=indent,
        subsequent_indent=f"{indent}  ",
        break_on_hyphens=False,
        break_long_words=False,
    )
    return [piece.replace(_KEPT, " ") for piece in pieces]
