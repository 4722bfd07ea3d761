"""Writing files so that they are there, whole, after a power cut; and saying why they could not be.

What is written, and where, is for the callers. Nothing here knows of records or procedures.
"""

from __future__ import annotations

import errno
import os
from pathlib import Path

_REASONS = {
    errno.ENOSPC: "the disk is full; free some space, then try again",
    errno.EDQUOT: "this user's share of the disk is used up; free some space, then try again",
    errno.EFBIG: "the file would become larger than this system allows",
    errno.EROFS: "the disk is read-only",
    errno.EACCES: "this user has no right to do that there",
    errno.EPERM: "this user has no right to do that there",
    errno.ENOENT: "it is not there, or its folder is gone",
    errno.ENOTDIR: "its folder is gone",
    errno.ESTALE: "its folder is gone",
    errno.EISDIR: "it is a folder",
    errno.EIO: "the disk reports an error; have the disk looked at",
    errno.EEXIST: "there is a file of that name already",
    errno.ENAMETOOLONG: "the name is too long",
}


class StoreFault(Exception):
    """The disk did not do what was asked; the message says so in one sentence for a person."""


def fault(what: str, error: OSError) -> StoreFault:
    """`what` ("The record X was not written") and the reason, as one sentence."""
    reason = _REASONS.get(error.errno or 0) or error.strerror or type(error).__name__
    return StoreFault(f"{what}: {reason}.")


def sync_folder(folder: Path) -> None:
    """Make the names in a folder survive a power cut.

    Raises OSError.
    """
    descriptor = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
    try:
        os.fsync(descriptor)
    except OSError as error:
        # Some file systems have no such thing for folders; what they hold is then as safe as they make it.
        if error.errno != errno.EINVAL:
            raise
    finally:
        os.close(descriptor)


def read_file(path: Path) -> bytes:
    """The bytes of a file.

    Raises StoreFault.
    """
    try:
        return path.read_bytes()
    except OSError as error:
        raise fault(f"{path} cannot be read", error) from error


def make_folder(folder: Path) -> None:
    """Make a folder, and those above it, unless they are there.

    Raises StoreFault.
    """
    try:
        if not folder.is_dir():
            folder.mkdir(parents=True, exist_ok=True)
            sync_folder(folder.parent)
    except OSError as error:
        raise fault(f"The folder {folder} cannot be made", error) from error


def write_new(path: Path, data: bytes) -> None:
    """Write a file that must not exist yet, and sync it; on failure nothing of it stays.

    Raises OSError; FileExistsError if there is a file of that name.
    """
    descriptor = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL | os.O_CLOEXEC, 0o644)
    try:
        write_all(descriptor, data)
        os.fsync(descriptor)
        sync_folder(path.parent)
    except OSError:
        path.unlink(missing_ok=True)
        raise
    finally:
        os.close(descriptor)


def write_whole(path: Path, data: bytes) -> None:
    """Put a file in place at one stroke: whoever reads finds the old one, or none, or the whole new one.

    Raises OSError.
    """
    unfinished = path.with_name(f".{path.name}.{os.getpid()}")
    unfinished.unlink(missing_ok=True)
    write_new(unfinished, data)
    try:
        unfinished.replace(path)
        sync_folder(path.parent)
    except OSError:
        unfinished.unlink(missing_ok=True)
        raise


def write_all(descriptor: int, data: bytes) -> None:
    """Write in one call, and count: a short write means that the disk has no room for the rest.

    Raises OSError.
    """
    if os.write(descriptor, data) != len(data):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
