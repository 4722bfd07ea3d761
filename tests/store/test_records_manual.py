"""The manual of records: its example is a good record, and its commands check one as it says."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from benchcheck.session.record import check_value, read
from benchcheck.store.signature import NAMESPACE, seal_line
from tests.session.samples import closed_record, event, record_bytes, seals_of

MANUAL = (Path(__file__).parents[2] / "sessions" / "README.md").read_text("utf-8")


def shown(language: str, words: str = "") -> str:
    """The one example in this language with these words in it."""
    (example,) = (
        each for each in re.findall(rf"```{language}\n(.*?)```", MANUAL, re.DOTALL) if words in each
    )
    return str(example)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    path = tmp_path / "SN 1.toml"
    path.write_bytes(closed_record())
    return path


def checked_by_shell(path: Path, number: int) -> tuple[str, str]:
    """The seal that the shown commands work out for an event, and the one that they find there."""
    output = subprocess.run(
        ["sh", "-eu", "-c", shown("sh", "sha256sum")],
        env={"record": str(path), "event": str(number), "PATH": "/usr/bin:/bin", "LC_ALL": "C"},
        capture_output=True,
        text=True,
        check=True,
    ).stdout.splitlines()
    assert len(output) == 2
    return output[0].split()[0], output[1].removeprefix('chain = "sha256:').removesuffix('"')


def checked_by_python(path: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-I", "-c", shown("python"), str(path)], capture_output=True, text=True, check=False
    )


def test_the_record_shown_is_a_good_one_and_its_check_value_is_the_one_named() -> None:
    record = read(shown("toml").encode())
    assert record.damage is None and not record.torn
    assert len(record.events) == 1
    assert f"`{check_value(record.chain.last_seal)}`" in MANUAL


def test_the_commands_shown_check_each_seal(path: Path) -> None:
    for seal in seals_of(path.read_bytes()):
        assert checked_by_shell(path, seal.number) == (seal.hexadecimal, seal.hexadecimal)


def test_the_commands_shown_count_bytes_not_letters(path: Path) -> None:
    path.write_bytes(record_bytes(event(1, note="µm, 3 °C, помпа"), event(2)))
    for seal in seals_of(path.read_bytes()):
        assert checked_by_shell(path, seal.number) == (seal.hexadecimal, seal.hexadecimal)


def test_the_commands_shown_find_a_change(path: Path) -> None:
    path.write_bytes(path.read_bytes().replace(b"number = 2", b"number = 7"))
    worked_out, found = checked_by_shell(path, 1)
    assert worked_out == found
    for number in (2, 3, 5):
        worked_out, found = checked_by_shell(path, number)
        assert worked_out != found


def test_the_python_shown_checks_all_seals(path: Path) -> None:
    good = checked_by_python(path)
    assert (good.returncode, good.stdout) == (0, "5 events, all seals fit\n")
    path.write_bytes(path.read_bytes().replace(b"number = 2", b"number = 7"))
    bad = checked_by_python(path)
    assert bad.returncode == 1
    assert bad.stderr == "event 2 or something above it was changed\n"


@pytest.mark.skipif(shutil.which("ssh-keygen") is None, reason="ssh-keygen is not installed")
def test_a_signature_is_proved_as_the_manual_shows(path: Path, tmp_path: Path) -> None:
    key = tmp_path / "key"
    subprocess.run(["ssh-keygen", "-q", "-t", "ed25519", "-N", "", "-f", str(key)], check=True)
    line = tmp_path / "line"
    line.write_bytes(seal_line(seals_of(path.read_bytes())[3].hexadecimal))
    sign = ["ssh-keygen", "-q", "-Y", "sign", "-f", str(key), "-n", NAMESPACE, str(line)]
    subprocess.run(sign, check=True, capture_output=True)
    shutil.copy(f"{line}.sig", f"{path}.4.sig")
    public = key.with_suffix(".pub").read_text("utf-8").strip()

    def proved(event: int) -> bool:
        done = subprocess.run(
            ["sh", "-u", "-c", shown("sh", "ssh-keygen").replace("ssh-ed25519 AAAA…", public)],
            env={"record": str(path), "event": str(event), "PATH": "/usr/bin:/bin", "LC_ALL": "C"},
            capture_output=True,
            check=False,
            cwd=tmp_path,
        )
        return done.returncode == 0

    assert proved(4)
    shutil.copy(f"{line}.sig", f"{path}.3.sig")
    assert not proved(3)
