"""`benchcheck compare` from the command line: differences, inherited numbers, confirmations, the revision."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from benchcheck import cli
from benchcheck.exit_status import ExitStatus

GOOD = Path("procedures/xmpl-hc40-c.toml")


def revision(folder: Path, name: str, *replacements: tuple[str, str]) -> str:
    """Another text of the demonstration pump; its file."""
    text = GOOD.read_text("utf-8")
    for old, new in replacements:
        assert old in text, old
        text = text.replace(old, new, 1)
    path = folder / name
    path.write_text(text, "utf-8")
    return str(path)


def raised(letter: str, *unconfirmed: str) -> tuple[str, str]:
    told = f"\nunconfirmed = {json.dumps(unconfirmed)}" if unconfirmed else ""
    return 'revision = "C"', f'revision = "{letter}"{told}'


def test_a_changed_ring_is_told_with_what_a_session_could_keep(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    new = revision(tmp_path, "d.toml", raised("D"), ('takes = "-151"', 'takes = "-152"'))
    assert cli.main(["compare", str(GOOD), new]) == ExitStatus.GOOD
    said = capsys.readouterr().out
    assert said.startswith("xmpl-hc40: revision C -> D, raised\n")
    assert "  groove G4: takes -151 -> -152\n" in said
    assert "confirmations, all but:\n  fit-G4/fit:G4\n" in said
    assert cli.main(["compare", str(GOOD), new, "--json"]) == ExitStatus.GOOD
    told = json.loads(capsys.readouterr().out)
    assert told["raised"] is True and told["remark"] is None and told["to_confirm"] == []
    assert told["asked_again"]["-05"] == ["fit-G4/fit:G4"]
    assert "fit-G5/fit:G5" not in told["asked_again"]["-05"] and len(told["kept"]["-05"]) > 100


def test_inherited_numbers_are_told_until_they_are_confirmed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    first = revision(tmp_path, "d.toml", raised("D", "F1: torque", "F1: thread", "G4: takes"))
    assert cli.main(["compare", str(GOOD), first]) == ExitStatus.GOOD
    said = capsys.readouterr().out
    assert "still to be confirmed for this pump, and for practice only until then:\n" in said
    assert "  F1: torque, thread\n  G4: takes\n" in said
    second = revision(tmp_path, "e.toml", raised("E", "F1: thread"))
    assert cli.main(["compare", first, second, "--json"]) == ExitStatus.GOOD
    told = json.loads(capsys.readouterr().out)
    assert told["confirmed"] == ["F1: torque", "G4: takes"]
    assert told["to_confirm"] == ["F1: thread"]


@pytest.mark.parametrize(
    ("letter", "remark"),
    [
        ("C", "both say revision C: a change needs a new revision"),
        ("B", "revision B does not come after C: a change needs a raised revision"),
    ],
)
def test_a_revision_that_was_not_raised_is_a_finding(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], letter: str, remark: str
) -> None:
    new = revision(tmp_path, "new.toml", raised(letter), ('takes = "-151"', 'takes = "-152"'))
    assert cli.main(["compare", str(GOOD), new]) == ExitStatus.FINDINGS
    said = capsys.readouterr().out
    assert "NOT RAISED" in said and said.endswith(f"{remark}\n")


def test_a_file_that_cannot_be_read_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["compare", str(GOOD), str(tmp_path / "none.toml")]) == ExitStatus.UNUSABLE
    assert "none.toml cannot be read" in capsys.readouterr().err
