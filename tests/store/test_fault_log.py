"""The log of faults: where it is, what is in it, and that it does not grow for ever."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchcheck import __version__
from benchcheck.store.fault_log import log_path, write_down


@pytest.fixture(autouse=True)
def state_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    return tmp_path / "state"


def fault(text: str) -> Exception:
    """An exception that was raised, from a function with something private in it."""

    def fail(serial: str) -> None:
        raise LookupError(text)

    try:
        fail("-".join(("SN", "4711")))
    except LookupError as error:
        return error
    raise AssertionError


def test_it_lies_where_the_user_keeps_such_things(
    state_home: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert log_path() == state_home / "benchcheck" / "log" / "faults.txt"
    monkeypatch.setenv("HOME", str(tmp_path))
    for nothing_usable in ("", "relative/path"):
        monkeypatch.setenv("XDG_STATE_HOME", nothing_usable)
        assert log_path() == tmp_path / ".local" / "state" / "benchcheck" / "log" / "faults.txt"


def test_each_fault_is_added_with_its_way_and_without_values(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.argv", ["benchcheck", "check", "a\nb\x1b"])
    assert write_down(fault("first")) == write_down(fault("second \ud800")) == log_path()
    text = log_path().read_text()
    assert text.index("LookupError: first") < text.index("LookupError: second")
    assert text.count(f"benchcheck {__version__}, Python ") == 2
    assert "in fail" in text and "called with: 'check' 'a\\nb\\x1b'" in text
    assert "SN-4711" not in text and "\x1b" not in text


def test_others_on_the_machine_cannot_read_it() -> None:
    assert write_down(fault("a")).parent.stat().st_mode & 0o077 == 0


def test_a_long_log_is_put_aside_once() -> None:
    path = write_down(fault("first"))
    for name in ("second", "third"):
        with path.open("a") as log:
            log.write("x" * 1_000_001)
        write_down(fault(name))
    before = path.with_name("faults-before.txt")
    assert "third" in path.read_text() and "second" not in path.read_text()
    assert "second" in before.read_text() and "first" not in before.read_text()
    assert {each.name for each in path.parent.iterdir()} == {"faults.txt", "faults-before.txt"}
