"""The command: results on standard output, refusals on standard error, nothing heavy loaded."""

from __future__ import annotations

import argparse
import json
import subprocess
import sys

import pytest

from benchcheck.commands import oring


def run(*words: str) -> int:
    parser = argparse.ArgumentParser(prog="benchcheck oring")
    oring.arguments(parser)
    return oring.run(parser.parse_args(words))


def test_text(capsys: pytest.CaptureFixture[str]) -> None:
    assert run("-151", "--groove", "groove OD 3.200, depth 0.077") == 0
    said = capsys.readouterr()
    assert "It fits." in said.out and said.err == ""


def test_json(capsys: pytest.CaptureFixture[str]) -> None:
    assert run("151", "--json", "--rubber", "NBR", "--fluid", "oil", "--fluid", "water") == 0
    said = json.loads(capsys.readouterr().out)
    assert said["size"] == "-151"
    assert [one["fluid"] for one in said["fluids"]] == ["mineral oil", "water"]


@pytest.mark.parametrize(
    "words", [["-179"], ["151", "--groove", "deep"], ["151", "--rubber", "wood"], ["151", "--fluid", "oil"]]
)
def test_nonsense_is_refused_in_one_sentence(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert run(*words) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.startswith("benchcheck oring: ") and said.err.count("\n") == 1


def test_nothing_heavy_is_loaded() -> None:
    program = (
        "import argparse, sys\n"
        "from benchcheck.commands import oring\n"
        "parser = argparse.ArgumentParser()\n"
        "oring.arguments(parser)\n"
        "registered = set(sys.modules)\n"
        "oring.run(parser.parse_args(['151']))\n"
        "assert not any(name.startswith('benchcheck.mechanics') for name in registered), registered\n"
        "assert not {'textual', 'rich', 'pint', 'pydantic'} & set(sys.modules)\n"
    )
    subprocess.run([sys.executable, "-c", program], check=True, capture_output=True)
