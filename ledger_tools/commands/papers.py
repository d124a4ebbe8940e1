"""Finds the receipts and photos that a book names, and keeps to the folders they may come from.

Knows nothing of what they prove, nor what becomes of them.
"""

from __future__ import annotations

import os
import stat
from collections.abc import Callable, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any, BinaryIO

import click

from ..record import record
from .opening import folder_of

THERE, MISSING, OUTSIDE, ON_PAPER = "there", "missing", "outside", "on paper"


@record
class Found:
    """What became of a name: "there" with the file it leads to, "missing", "outside" of the folders allowed, or "on
    paper" where it is no name of a file."""

    state: str
    file: Path | None = None


class Shelf:
    """Where the papers of a book may lie: in its own folder, and in folders that were allowed by name."""

    def __init__(self, book: Path, allowed: Sequence[Path] = (), base: Path | None = None) -> None:
        """base: the folder that the names of the book's files are seen from; the current one if left out."""
        self._folders = (folder_of(book), *allowed)
        self._roots = tuple(Path(os.path.realpath(folder)) for folder in self._folders)
        self._base = base or Path()

    def find(self, book_file: str, name: str) -> Found:
        """A file named in a book, seen from the folder of the book file that names it, else from those of the shelf.

        A way that leads out of them, by "..", from the root or through a link, is not followed.
        """
        try:
            ways = [folder / name for folder in ((self._base / book_file).parent, *self._folders)]
            ends = list(dict.fromkeys(Path(os.path.realpath(way)) for way in ways))
            inside = [end for end in ends if any(end.is_relative_to(root) for root in self._roots)]
            there = next((end for end in inside if end.exists()), None)
            if there is not None:
                return Found(THERE, there)
            return Found(OUTSIDE if not inside or any(end.exists() for end in ends) else MISSING)
        except (OSError, ValueError):  # a name that no file can have
            return Found(MISSING)

    def look(self, book_file: str, name: str) -> str:
        """What became of a name, in a word."""
        return self.find(book_file, name).state


def receipts_option(command: Callable[..., Any]) -> Callable[..., Any]:
    """--receipts-from FOLDER, as often as need be."""
    return click.option(
        "--receipts-from", "allowed", multiple=True, metavar="FOLDER",
        type=click.Path(path_type=Path, exists=True, file_okay=False),
        help="A folder outside the book's own that receipts and photos may come from; may be given again.",
    )(command)  # fmt: skip


def open_plain(file: Path) -> BinaryIO:
    """A file to read that is a plain one, and no link since it was found. OSError where it is not."""
    flags = os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
    handle = os.open(file, flags)
    try:
        if not stat.S_ISREG(os.fstat(handle).st_mode):  # a pipe would keep us waiting for ever
            raise OSError(0, "it is no plain file")
        return os.fdopen(handle, "rb")
    except BaseException:
        with suppress(OSError):
            os.close(handle)
        raise
