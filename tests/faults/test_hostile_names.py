"""Hostile names of files and hostile words of the command line: no command hands them to the terminal."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from benchcheck import commands
from benchcheck.cli import main
from tests.pumps import ROOT

HOSTILE = "\x1b[2J\x1b]0;x\x07\x9b31m\x7f\u202e\u2066\u200b" + "e\u0301\u0301\u0301" + "密" * 40
# Controls of C0 and C1, what turns the direction of letters, and what has no width.
STEERS = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u200b\u202a-\u202e\u2066-\u2069\ufeff]")
PUMP = "xmpl-vv07-a.toml"

CALLS = {
    "check": [["procedures"], ["procedures", "--json"], [HOSTILE]],
    "compare": [["BAD", "GOOD"], ["BROKEN", "GOOD", "--json"], [HOSTILE, HOSTILE]],
    "explain": [[HOSTILE]],
    "new": [["--from", "BAD", "--author", HOSTILE, "-o", "made\x1b\x9b.toml"], ["--from", HOSTILE]],
    "oring": [[HOSTILE], ["151", "--rubber", HOSTILE], ["151", "--" + HOSTILE]],
    "pattern": [["--circle", HOSTILE], ["--rectangle", HOSTILE], ["--points", "BROKEN"]],
    "records": [[], ["--json"], ["--find", HOSTILE], ["--state", HOSTILE]],
    "rehearse": [["BROKEN"], [HOSTILE], ["GOOD", "BROKEN"]],
    "report": [
        ["sessions", "--as", "text"],
        ["sessions", "--as", "readings-csv"],
        [HOSTILE, "--as", "label"],
    ],
    "schema": [[], [HOSTILE]],
    "torque": [["--thread", HOSTILE, "--strength", HOSTILE, "--torque", HOSTILE]],
    "trace": [["--lot", HOSTILE, "--json"], ["--person", HOSTILE], ["--wrench", "TW-02", "--since", HOSTILE]],
    "trends": [[HOSTILE], ["xmpl-hc40", "--json"]],
    "verify": [["sessions"], ["sessions", "--json"], [HOSTILE], ["sessions", "--check-value", HOSTILE]],
    "wrench": [["--target", HOSTILE, "--tolerance", HOSTILE]],
}


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A workspace in which a procedure, a broken one and two records have names that steer a terminal."""
    folder = tmp_path_factory.mktemp("shop")
    (folder / "procedures").mkdir()
    (folder / "sessions").mkdir()
    for name in ("shop.toml", "people.toml", "instruments.toml", PUMP):
        shutil.copy(ROOT / "procedures" / name, folder / "procedures")
    text = (
        (folder / "procedures" / PUMP).read_text(encoding="utf-8").replace('title = "', f'title = "{HOSTILE}')
    )
    bad = (
        text.replace("xmpl-vv07", "xmpl-vv08")
        .replace("\x7f", "")
        .replace("\x1b", "\\u001B")
        .replace("\x07", "")
    )
    (folder / "procedures" / "bad\x1b[2J\x9b\u202e.toml").write_text(bad, encoding="utf-8")
    (folder / "procedures" / "broken\x9b.toml").write_text(f'a = "{HOSTILE}\n[[', encoding="utf-8")
    (folder / "sessions" / "x\x1b[2J\x9b.toml").write_text(f"format = 1\n{HOSTILE} = 3\n", encoding="utf-8")
    record = min((ROOT / "sessions").glob("*.toml"))
    shutil.copy(record, folder / "sessions" / "y\x1b\x9b\u202e.toml")
    return folder


def test_every_command_is_called() -> None:
    assert set(CALLS) == set(commands.names())


@pytest.mark.parametrize("name", sorted(CALLS))
def test_a_command_hands_nothing_to_the_terminal_that_steers_it(
    name: str, shop: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(shop)
    named = {"BAD": "procedures/bad\x1b[2J\x9b\u202e.toml", "BROKEN": "procedures/broken\x9b.toml"}
    named["GOOD"] = f"procedures/{PUMP}"
    for words in CALLS[name]:
        status = main(["--workspace", str(shop), name, *(named.get(word, word) for word in words)])
        said = capsys.readouterr()
        assert status != 70, said.err
        assert said.out or said.err
        assert not STEERS.findall(said.out) and not STEERS.findall(said.err), words


def test_nor_does_a_word_that_is_no_command(capsys: pytest.CaptureFixture[str]) -> None:
    for words in ([HOSTILE], [f"--{HOSTILE}"], ["--workspace", HOSTILE.replace("\x00", "")]):
        assert main(words) == 2
        assert not STEERS.findall(capsys.readouterr().err)
