"""Signatures with people's own SSH keys, made and proved by `ssh-keygen`: open formats, no secret of ours.

What is signed is the seal line of an event, which stands for every byte above it. A signature lies beside its
record, as `<record>.<event>.sig`. No work ever waits for one: where none can be made, that is said, and no
more. Keys that would ask for a passphrase have to be with an agent.
"""

from __future__ import annotations

import contextlib
import os
import re
import shutil
import subprocess
import tempfile
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from benchcheck.session.verification import OutsideSeal

if TYPE_CHECKING:
    from benchcheck.procedure.registers import PeopleRegister

NAMESPACE = "benchcheck-record"
"""What a signature is for: one that was made for anything else does not count."""
_TOOL = "ssh-keygen"
_SECONDS = 10
_FILE = re.compile(r"(.+)\.([1-9][0-9]{0,8})(?:-[2-9])?\.sig")
_KEY = re.compile(r"\s*([a-z0-9@.-]+)\s+([A-Za-z0-9+/=]+)(?:\s.*)?", re.DOTALL)


@dataclass(frozen=True, slots=True)
class Signature:
    """A signature that was looked at."""

    path: Path
    number: int
    """Of the event whose seal line it was made over."""
    name: str = ""
    """Whose key of the register made it; empty if none of them did."""
    doubt: str = ""
    """Why it proves nothing; empty if it does."""
    fits: bool = True
    """Whether it is a signature over that seal line at all, as far as that could be seen."""


def seal_line(seal: str) -> bytes:
    """The last line of an event, as it stands in the record."""
    return f'chain = "sha256:{seal}"\n'.encode()


def sign(
    record: Path, number: int, seal: str, people: PeopleRegister, names: Iterable[str]
) -> tuple[str, ...]:
    """Sign an event's seal for each of the people who have a key in the register.

    Returns what came of it, in a sentence for each. Raises nothing: a signature that fails is only told.
    """
    told: list[str] = []
    for name in dict.fromkeys(names):
        person = people.find(name)
        if person is None or person.public_key is None:
            continue
        try:
            path = _signed(record, number, seal, person.public_key)
            told.append(f"Signed with the key of {person.name}: {path.name}.")
        except (OSError, ValueError, RuntimeError, subprocess.SubprocessError) as why:
            told.append(f"Not signed with the key of {person.name}: {_in_words(why)}.")
    return tuple(told)


def signatures(record: Path, seals: Sequence[str], people: PeopleRegister | None) -> tuple[Signature, ...]:
    """The signatures beside a record, each weighed against the seal of its event.

    Parameters: the seals of all good events in hexadecimal, event n at n - 1; the people whose keys count.
    """
    return tuple(_weighed(path, number, seals, people) for number, path in signature_files(record))


def as_outside_seals(found: Iterable[Signature], seals: Sequence[str]) -> tuple[OutsideSeal, ...]:
    """What signatures know of the seals: one that fits none contradicts the record."""
    known = []
    for each in found:
        if not each.fits:
            known.append(OutsideSeal(each.number, "", f"The signature {each.path.name}"))
        elif not each.doubt:
            known.append(
                OutsideSeal(
                    each.number, seals[each.number - 1], f"The seal signed with the key of {each.name}"
                )
            )
    return tuple(known)


# ---------------------------------------------------------------------- making


def _signed(record: Path, number: int, seal: str, public_key: str) -> Path:
    with tempfile.TemporaryDirectory() as folder:
        data, public = Path(folder, "seal"), Path(folder, "key.pub")
        data.write_bytes(seal_line(seal))
        public.write_text(f"{public_key.strip()}\n", "utf-8")
        private = _private_half(public_key) or public  # of a public key, an agent has the other half
        _run("sign", "-f", str(private), "-n", NAMESPACE, str(data))
        content = Path(folder, "seal.sig").read_bytes()
    return _kept(record, number, content)


def _kept(record: Path, number: int, content: bytes) -> Path:
    """Put the signature beside the record, never over another one."""
    from benchcheck.store.disk import write_new

    for ending in ("", *(f"-{count}" for count in range(2, 10))):
        path = record.with_name(f"{record.name}.{number}{ending}.sig")
        with contextlib.suppress(FileExistsError):
            write_new(path, content)
            _files_of.cache_clear()
            return path
    raise ValueError("there are nine signatures of this event already")


def _private_half(public_key: str) -> Path | None:
    """The private key that belongs to a public one, where it lies in the person's own folder of keys."""
    wanted = _KEY.fullmatch(public_key)
    if wanted is None:
        raise ValueError("the public key in the register is none")
    for path in sorted(Path.home().glob(".ssh/*.pub")):
        with contextlib.suppress(OSError, UnicodeDecodeError):
            there = _KEY.fullmatch(path.read_text("utf-8"))
            if there is not None and there.groups() == wanted.groups() and path.with_suffix("").is_file():
                return path.with_suffix("")
    return None


# ---------------------------------------------------------------------- proving


def signature_files(record: Path) -> tuple[tuple[int, Path], ...]:
    """The signatures beside a record, each with the number of its event."""
    return _files(record.parent).get(record.name, ())


@lru_cache(maxsize=4)
def _files_of(folder: Path, changed: int) -> dict[str, tuple[tuple[int, Path], ...]]:
    found: dict[str, list[tuple[int, Path]]] = {}
    for name in sorted(os.listdir(folder)):
        if match := _FILE.fullmatch(name):
            found.setdefault(match[1], []).append((int(match[2]), folder / name))
    return {record: tuple(sorted(paths)) for record, paths in found.items()}


def _files(folder: Path) -> dict[str, tuple[tuple[int, Path], ...]]:
    """The signatures in a folder by the record they lie beside, listed once for all its records."""
    try:
        return _files_of(folder, folder.stat().st_mtime_ns)
    except OSError:
        return {}


def _weighed(path: Path, number: int, seals: Sequence[str], people: PeopleRegister | None) -> Signature:
    if number > len(seals):
        return Signature(path, number, doubt="the record has no such event", fits=False)
    line = seal_line(seals[number - 1])
    try:
        try:
            _run("check-novalidate", "-n", NAMESPACE, "-s", str(path), data=line)
        except subprocess.CalledProcessError:
            return Signature(path, number, doubt="it does not fit that seal", fits=False)
        keys = [each for each in people.person if each.public_key] if people is not None else []
        with tempfile.TemporaryDirectory() as folder:
            for person in keys:
                allowed = Path(folder, "allowed")
                allowed.write_text(f"signer {(person.public_key or '').strip()}\n", "utf-8")
                with contextlib.suppress(subprocess.CalledProcessError):
                    _run(
                        "verify",
                        "-f",
                        str(allowed),
                        "-I",
                        "signer",
                        "-n",
                        NAMESPACE,
                        "-s",
                        str(path),
                        data=line,
                    )
                    return Signature(path, number, person.name)
    except (OSError, subprocess.SubprocessError) as why:
        return Signature(path, number, doubt=f"it could not be checked: {_in_words(why)}")
    return Signature(path, number, doubt="it was made with a key that no one in the register of people has")


def _run(deed: str, *words: str, data: bytes = b"") -> None:
    """Run the tool where it can ask nobody anything. Raises OSError, subprocess.SubprocessError."""
    tool = shutil.which(_TOOL)
    if tool is None:
        raise FileNotFoundError(f"{_TOOL} is not installed")
    subprocess.run(
        [tool, "-Y", deed, *words],
        input=data,
        capture_output=True,
        timeout=_SECONDS,
        check=True,
        start_new_session=True,  # without a terminal of its own it cannot ask for a passphrase
        env={**os.environ, "SSH_ASKPASS_REQUIRE": "never"},
    )


def _in_words(why: Exception) -> str:
    """What went wrong, in the tool's own last words where it had any."""
    if isinstance(why, subprocess.CalledProcessError):
        last = why.stderr.decode("utf-8", "replace").strip().splitlines()[-1:]
        return last[0].rstrip(".") if last else f"{_TOOL} ended with {why.returncode}"
    if isinstance(why, subprocess.TimeoutExpired):
        return f"{_TOOL} took longer than {_SECONDS} s"
    return str(why)
