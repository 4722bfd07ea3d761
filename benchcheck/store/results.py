"""Files that a command writes its result to, as a person names them: never over what the program works by."""

from __future__ import annotations

from pathlib import Path

from benchcheck.store.disk import StoreFault, fault, write_whole

_NOT_OVERWRITTEN = b"format = "


def why_not_over(path: Path) -> str:
    """Why a file must not be written over: empty if it may."""
    if path.is_dir():
        return f"{path} is a folder; name a file in it."
    try:
        with path.open("rb") as file:
            ours = file.read(len(_NOT_OVERWRITTEN)) == _NOT_OVERWRITTEN
    except OSError:
        return ""  # it is not there yet; whatever else is wrong is said when it is written
    return f"{path} holds a record, a procedure or a register; name another file." if ours else ""


def write_result(path: Path, text: str) -> None:
    """Write a result at one stroke. Raises StoreFault, also where the file must not be written over."""
    if why := why_not_over(path):
        raise StoreFault(why)
    try:
        write_whole(path, text.encode("utf-8", "replace"))
    except OSError as error:
        raise fault(f"{path} was not written", error) from error
