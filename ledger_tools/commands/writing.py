"""Writes a file whole or not at all, and never over another one unless told. Knows nothing of what is in it."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import IO


class NotWritten(Exception):
    """A file could not be written, or had better not be; its text says why."""


def write_whole(target: Path, data: bytes, force: bool = False) -> None:
    """Put the data into a file at once. NotWritten where one is there and `force` is not set, or it cannot be."""
    save_whole(target, lambda out: out.write(data), force)


def save_whole(target: Path, saves: Callable[[IO[bytes]], object], force: bool = False) -> None:
    """The same with a function that writes into the open file it is given."""
    beside = ""
    try:
        handle, beside = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name[:100]}.", suffix=".part")
        with os.fdopen(handle, "w+b") as out:
            saves(out)
            out.flush()
            os.fsync(out.fileno())
        os.chmod(beside, usual_rights())
        if force:
            os.replace(beside, target)
            beside = ""
        else:
            _put(beside, target)
    except FileExistsError:
        raise NotWritten("it is there already and was left alone; add `--force` to write over it") from None
    except OSError as error:
        raise NotWritten(f"it could not be written ({error.strerror or error})") from None
    finally:
        if beside:
            with suppress(OSError):
                os.unlink(beside)
    settle(target.parent)


def _put(beside: str, target: Path) -> None:
    """Give the file its name, unless another has it. FileExistsError where one does."""
    try:
        os.link(beside, target)
    except FileExistsError:
        raise
    except OSError:  # a disk that knows no second names: the name is taken first, then filled
        os.close(os.open(target, os.O_WRONLY | os.O_CREAT | os.O_EXCL))
        os.replace(beside, target)


def usual_rights() -> int:
    """The rights a new file of this user has; a temporary one has fewer."""
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask


def settle(folder: Path) -> None:
    """Have the folder written out too, so that a power cut leaves the old file or the new. Not every system can."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
