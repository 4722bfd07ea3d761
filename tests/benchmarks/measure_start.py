"""What a person waits for at the start, as ratios to a floor measured in the same run, and the memory of it.

Not collected by the tests. Run it with

    python -m tests.benchmarks.measure_start [TIMES]

Each start is a process of its own; compiled modules are used, as in an installed program.
"""

from __future__ import annotations

import os
import pty
import select
import signal
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

ROOT = Path(__file__).parents[2]
PROCEDURE = str(ROOT / "procedures" / "xmpl-hc40-c.toml")

ARGPARSE = [sys.executable, "-c", "import argparse"]
MODELS = [
    sys.executable,
    "-c",
    "import argparse, tomllib, pydantic\n"
    "for number in range(30):\n"
    "    fields = {f'field_{n}': (str, pydantic.Field(default='', description='x')) for n in range(10)}\n"
    "    pydantic.create_model(f'Model{number}', **fields)\n",
]
RECORD = [sys.executable, "-c", "import argparse, tomllib, hashlib, json, pathlib, tomli_w"]
BARE_APP = [
    sys.executable,
    "-c",
    "from textual.app import App\n"
    "from textual.widgets import Label\n"
    "class Bare(App):\n"
    "    def compose(self):\n"
    "        yield Label('first words')\n"
    "Bare().run()\n",
]


def benchcheck(*words: str) -> list[str]:
    return [sys.executable, "-m", "benchcheck", *words]


Measured = Callable[[], tuple[float, float]]
"""Seconds, and peak memory [MiB]."""


def ended(words: list[str]) -> Measured:
    """A program run to its end."""
    return lambda: to_its_end(words)


def painted(first: str, words: list[str]) -> Measured:
    """A program run until certain words are on the terminal."""
    return lambda: to_first_words(words, first.encode())


def to_its_end(words: list[str]) -> tuple[float, float]:
    start = time.perf_counter()
    process = os.posix_spawn(
        words[0],
        words,
        os.environ,
        file_actions=[(os.POSIX_SPAWN_OPEN, number, os.devnull, os.O_RDWR, 0) for number in range(3)],
    )
    _, _, usage = os.wait4(process, 0)
    return time.perf_counter() - start, usage.ru_maxrss / 1024


def to_first_words(words: list[str], first: bytes) -> tuple[float, float]:
    start = time.perf_counter()
    process, terminal = pty.fork()
    if process == 0:
        os.environ["TERM"] = "xterm-256color"
        os.execv(words[0], words)
    so_far = b""
    while first not in so_far:
        if not select.select([terminal], [], [], 20)[0]:
            raise TimeoutError(f"{first!r} was not painted")
        so_far += os.read(terminal, 65536)
    taken = time.perf_counter() - start
    os.kill(process, signal.SIGKILL)
    _, _, usage = os.wait4(process, 0)
    os.close(terminal)
    return taken, usage.ru_maxrss / 1024


def main(times: int, folder: str) -> None:
    """Measure, and print."""
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    os.chdir(ROOT)
    app = benchcheck("--workspace", folder)
    cases: list[tuple[str, Measured, str, Measured]] = [
        ("--version", ended(benchcheck("--version")), "import argparse", ended(ARGPARSE)),
        ("--help", ended(benchcheck("--help")), "import argparse", ended(ARGPARSE)),
        (
            "check FILE",
            ended(benchcheck("check", PROCEDURE)),
            "argparse, tomllib, 30 models",
            ended(MODELS),
        ),
        ("verify", ended(benchcheck("verify", folder)), "what reading a record needs", ended(RECORD)),
        (
            "first screen",
            painted("Benchcheck", app),
            "a bare application",
            painted("first words", BARE_APP),
        ),
    ]
    for name, ours, floor_name, floor in cases:
        ours(), floor()  # so that all is compiled, and in the system's cache
        pairs = [(ours(), floor()) for _ in range(times)]
        seconds, floor_seconds = (statistics.median(pair[at][0] for pair in pairs) for at in (0, 1))
        memory, floor_memory = (statistics.median(pair[at][1] for pair in pairs) for at in (0, 1))
        print(
            f"{name:14} {seconds / floor_seconds:5.2f} x {floor_name} ({floor_seconds * 1000:.0f} ms), "
            f"memory {memory / floor_memory:.2f} x {floor_memory:.0f} MiB"
        )


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as temporary:
        main(int(sys.argv[1]) if sys.argv[1:] else 15, temporary)
