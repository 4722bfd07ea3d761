"""The command line: its own options, the command that is called, and how the program ends.

Only what `--version` and `--help` need is imported up here: a person waits for them. What a command does
stands in its module, what the application does in `screens` and `lines`.
"""

from __future__ import annotations

import argparse
import contextlib
import os
import sys
from functools import partial

from benchcheck import __version__, commands, terminal
from benchcheck.exit_status import ExitStatus, of_signal

TYPE_CHECKING = False  # typing itself would cost a fifth of what --version may take
if TYPE_CHECKING:
    from pathlib import Path
    from typing import NoReturn

_HELP_WIDTH = 78
_USAGE = """benchcheck [--workspace FOLDER] [--plain] [--light] [--lines]
       benchcheck COMMAND ...
       benchcheck COMMAND --help"""


def main(words: list[str] | None = None) -> int:
    """Do what the words of the command line ask, and return the exit status.

    No fault leaves it as a traceback.
    """
    if reconfigure := getattr(sys.stdin, "reconfigure", None):
        reconfigure(errors="replace")
    terminal.spell_out_what_cannot_be_shown((sys.stdout, sys.stderr))
    try:
        try:
            status = _run(sys.argv[1:] if words is None else words)
        except SystemExit as leaving:  # how argparse ends after --help, and after a usage error
            status = int(leaving.code or 0)
        if sys.stdout is not None:
            sys.stdout.flush()
    except BrokenPipeError:
        # Whoever read the output has seen enough of it.
        _let_go_of_output()
        status = _by_signal("SIGPIPE")
    except KeyboardInterrupt:
        status = _by_signal("SIGINT")
    except Exception as error:
        status = _say_unexpected(error)
    return int(status)


def _by_signal(name: str) -> int:
    import signal

    return of_signal(signal.Signals[name])


def _run(words: list[str]) -> int:
    own_words, command_words = _split(words)
    args = _own_parser().parse_args(own_words)
    if args.version:
        print(f"benchcheck {__version__}")
        return ExitStatus.GOOD
    if not command_words:
        return _open_application(args)
    name, *rest = command_words
    if name not in commands.names():
        return _refuse(_unknown(name))
    from importlib import import_module

    command = import_module(f"benchcheck.commands.{name}")
    parser = _Parser(
        prog=f"benchcheck {name}",
        description=f"{command.HELP[0].upper()}{command.HELP[1:]}.",
        allow_abbrev=False,
    )
    command.arguments(parser)
    return int(command.run(parser.parse_args(rest, args)))


def _split(words: list[str]) -> tuple[list[str], list[str]]:
    """The program's own options, and the command with all that follows it."""
    at = 0
    while at < len(words) and words[at].startswith("-"):
        at += 2 if words[at] == "--workspace" else 1
    return words[:at], words[at:]


class _Parser(argparse.ArgumentParser):
    """Says what is wrong with the words of the command line without what in them would steer a terminal."""

    def error(self, message: str) -> NoReturn:
        from benchcheck.procedure.characters import clean

        super().error(clean(message))


class _OwnParser(_Parser):
    """Lists the commands when help is asked for, and only then."""

    def format_help(self) -> str:
        names = commands.names()
        width = max(map(len, names))
        self.epilog = "\n".join(
            ["commands:", *(f"  {name:{width}}  {commands.help_of(name)}" for name in names)]
        )
        return super().format_help()


def _own_parser() -> argparse.ArgumentParser:
    parser = _OwnParser(
        prog="benchcheck",
        usage=_USAGE,
        description="Rebuild a pump at the bench, step by step, and keep a record that can be trusted.",
        # Without a width argparse loads what measures the terminal, for --version too.
        formatter_class=partial(argparse.RawDescriptionHelpFormatter, width=_HELP_WIDTH),
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="store_true", help="say which version this is")
    parser.add_argument(
        "--workspace",
        metavar="FOLDER",
        type=_path,
        help="folder with procedures/ and sessions/ (this one, if left out)",
    )
    parser.add_argument("--plain", action="store_true", help="draw with ASCII characters only")
    parser.add_argument("--light", action="store_true", help="draw dark letters on a light ground")
    parser.add_argument("--lines", action="store_true", help="ask and answer line by line, without a screen")
    return parser


def _path(word: str) -> Path:
    from pathlib import Path

    return Path(word)


def _unknown(name: str) -> str:
    from difflib import get_close_matches

    known = commands.names()
    like = get_close_matches(name, known, n=1)
    hint = f"did you mean {like[0]}?" if like else f"the commands are {', '.join(known)}."
    return f"there is no command {name!r}; {hint}"


def _open_application(args: argparse.Namespace) -> int:
    from pathlib import Path

    folder = (args.workspace or Path()).absolute()
    if not folder.is_dir():
        return _refuse(f"there is no folder {folder}; name one with procedures/ and sessions/, or make it.")
    if args.lines:
        if sys.stdin is None:
            return _refuse("standard input is closed, so nothing can be answered.")
        from benchcheck import lines

        return lines.run(folder, sys.stdin, sys.stdout)
    if obstacle := _why_no_screen():
        return _refuse(f"{obstacle}; with --lines it asks and answers line by line.")
    from benchcheck.screens import app
    from benchcheck.store.workspace import Workspace

    return app.run(Workspace(folder), plain=args.plain, light=args.light)


def _why_no_screen() -> str | None:
    # The screen is drawn on standard error, so that the output of the program can be sent elsewhere.
    for stream, name in ((sys.__stdin__, "input"), (sys.__stderr__, "error")):
        if stream is None or not stream.isatty():
            return f"standard {name} is no terminal, so the screen cannot be used"
    if os.environ.get("TERM", "dumb") == "dumb":
        return "this terminal cannot move its cursor (TERM is dumb or not set), so the screen cannot be drawn"
    return None


def _refuse(sentence: str) -> ExitStatus:
    from benchcheck.saying import refuse

    return refuse("benchcheck", sentence)


def _say_unexpected(error: Exception) -> ExitStatus:
    try:
        from benchcheck.store.fault_log import write_down

        where = f"what happened is written down in {write_down(error)}"
    except Exception as second:  # the fault may be that nothing can be imported, or written
        where = f"it could not be written down ({type(second).__name__})"
    what = error.strerror if isinstance(error, OSError) and error.strerror else type(error).__name__
    with contextlib.suppress(OSError):
        print(
            f"benchcheck: a fault of the program ended it ({what}). What was confirmed is saved; {where}.",
            file=sys.stderr,
        )
    _let_go_of_output()
    return ExitStatus.UNEXPECTED


def _let_go_of_output() -> None:
    """Give standard output an end that takes everything: the interpreter flushes it once more at its end."""
    with contextlib.suppress(OSError, AttributeError, ValueError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, sys.stdout.fileno())
        os.close(nowhere)
