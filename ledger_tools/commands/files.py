"""Finds the files of a book and reads them as text, or says in plain words why it cannot.

Knows nothing of what a book says, nor how a problem is drawn.
"""

from __future__ import annotations

import codecs
import os
import stat
from pathlib import Path

from ..problems import Level, Mark, Problem

SUFFIX = ".book"
MANIFEST = "manifest-of-this-pack.json"  # what tells a pack of a year, which holds a copy of its book
MOST_FILES = 10_000
MOST_BYTES = 50_000_000
LONGEST_LINE = 100_000  # characters

_WIDE = (  # the longer sign first: that of UTF-32 begins with that of UTF-16
    (codecs.BOM_UTF32_LE, "UTF-32"),
    (codecs.BOM_UTF32_BE, "UTF-32"),
    (codecs.BOM_UTF16_LE, "UTF-16"),
    (codecs.BOM_UTF16_BE, "UTF-16"),
)
_SAVE_AS = 'In your editor choose "Save as", pick the encoding UTF-8 and save it under the same name.'


class Unreadable(Exception):
    """A file or folder that cannot be taken as a book; `problem` says why and what to do."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(problem.headline)
        self.problem = problem


def shown(path: str | os.PathLike[str]) -> str:
    """A path for people; bytes of its name that are no text come out as "?"."""
    return os.fsencode(path).decode("utf-8", "replace").replace("\ufffd", "?")


def _unreadable(code: str, headline: str, help: str, *marks: Mark) -> Unreadable:
    return Unreadable(Problem(code, Level.ERROR, headline, marks, help))


# ── finding ──────────────────────────────────────────────────────────────────────────────────────────────────────


def book_files(path: str | os.PathLike[str]) -> list[Path]:
    """The files of a book: the file itself, or every .book file in the folder and the folders in it, sorted.

    What begins with a dot is passed over, and so are packs of a year that stand in the folder, with their copies of the
    book; a file reached in two ways counts once. Raises Unreadable where there is
    no such file or folder, where it may not be opened, and where a folder holds no book or far too many.
    """
    place = Path(path)
    try:
        about = place.stat()
    except (OSError, ValueError) as error:
        raise _unopened(place, error) from None
    if stat.S_ISREG(about.st_mode):
        if place.suffix.lower() != SUFFIX:
            help = f"A book is a text file whose name ends in {SUFFIX}; rename it if that is what it is."
            raise _unreadable("not-a-book", f'"{shown(place)}" is not a book.', help)
        return [place]
    if not stat.S_ISDIR(about.st_mode):
        raise _unreadable("not-a-book", f'"{shown(place)}" is neither a file nor a folder.', "Name a .book file.")
    found = _search(place)
    if not found:
        help = f"A book is a text file whose name ends in {SUFFIX}. Name the folder that holds yours."
        raise _unreadable("no-books", f'There is no {SUFFIX} file in the folder "{shown(place)}".', help)
    return found


def _search(top: Path) -> list[Path]:
    found: list[Path] = []
    folders = [top]
    met: set[tuple[int, int]] = set()  # files and folders by device and number: links may lead round in a ring
    while folders:
        folder = folders.pop()
        try:
            about = folder.stat()
            if (about.st_dev, about.st_ino) in met:
                continue
            met.add((about.st_dev, about.st_ino))
            names = sorted(os.listdir(folder))
            if MANIFEST in names and folder != top:
                continue
        except OSError as error:
            raise _unopened(folder, error) from None
        for name in names:
            place = folder / name
            if name.startswith("."):
                continue
            if os.path.isdir(place):
                folders.append(place)
            elif name.lower().endswith(SUFFIX):
                found.append(place)
        if len(found) > MOST_FILES:
            help = "Name the folder of the book itself."
            headline = f'There are more than {MOST_FILES:,} {SUFFIX} files in the folder "{shown(top)}".'
            raise _unreadable("too-many-books", headline, help)
    return _once(sorted(found, key=lambda place: place.parts))


def _once(files: list[Path]) -> list[Path]:
    """The files without those that are another one under a second name; a link that leads nowhere stays, to be told."""
    met: set[tuple[int, int]] = set()
    kept = []
    for place in files:
        try:
            about = place.stat()
        except OSError:
            kept.append(place)
            continue
        if (about.st_dev, about.st_ino) not in met:
            met.add((about.st_dev, about.st_ino))
            kept.append(place)
    return kept


def _unopened(place: Path, error: OSError | ValueError) -> Unreadable:
    name = shown(place)
    if isinstance(error, PermissionError):
        help = "Its permissions keep you out; give yourself leave to read it."
        return _unreadable("no-permission", f'You may not open "{name}".', help)
    if isinstance(error, FileNotFoundError | NotADirectoryError):
        if place.is_symlink():
            help = "The file it leads to was moved or deleted."
            return _unreadable("no-such-file", f'"{name}" is a link that leads nowhere.', help)
        return _unreadable("no-such-file", f'There is no "{name}".', "Check the spelling and the folder you are in.")
    reason = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
    return _unreadable("not-opened", f'"{name}" cannot be opened.', f"The computer says: {reason}.")


# ── reading ──────────────────────────────────────────────────────────────────────────────────────────────────────


def read_book(path: str | os.PathLike[str]) -> str:
    """The text of a file of the book, its line ends as they are. Raises Unreadable where it is no text in UTF-8."""
    return decode(path, read_bytes(path))


def read_bytes(path: str | os.PathLike[str]) -> bytes:
    """What is in the file. Raises Unreadable where it is missing, shut, no plain file or far too big."""
    place = Path(path)
    try:
        if not stat.S_ISREG(place.stat().st_mode):  # a pipe would keep us waiting for ever
            raise _unreadable("not-a-book", f'"{shown(place)}" is not a file.', f"Name a {SUFFIX} file.")
        with place.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        raise _unopened(place, error) from None
    if len(data) > MOST_BYTES:
        help = "A book of a whole working life is smaller than that: is this the right file?"
        raise _unreadable("too-big", f'"{shown(place)}" is larger than {MOST_BYTES // 1_000_000} MB.', help)
    return data


def decode(path: str | os.PathLike[str], data: bytes) -> str:
    """The bytes of a file as text, without a UTF-8 mark in front. Raises Unreadable where they are none."""
    name = shown(path)
    for sign, wide in _WIDE:
        if data.startswith(sign):
            raise _unreadable("wrong-encoding", f'"{name}" is saved as {wide}; a book is saved as UTF-8.', _SAVE_AS)
    if (nil := data.find(0)) >= 0:
        help = f"It holds a nil byte at place {nil + 1:,}, which no text does. {_SAVE_AS}"
        raise _unreadable("not-text", f'"{name}" is not a text file.', help)
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise _wrong_encoding(name, bytes(error.object), error.start) from None
    _refuse_long_lines(name, text)
    return text


def _wrong_encoding(name: str, data: bytes, start: int) -> Unreadable:
    """Which byte is the first that is no UTF-8, where it stands, and what it was most likely meant to be."""
    before = data[:start].replace(b"\r\n", b"\n").replace(b"\r", b"\n")
    head = before.rfind(b"\n") + 1
    rest = data[start:].replace(b"\r", b"\n").partition(b"\n")[0]
    left, right = before[head:].decode("utf-8"), rest.decode("cp1252", "replace")
    column = len(left) + 1
    mark = Mark(name, before.count(b"\n") + 1, column, column + 1, left + right)
    bad = f"At {mark.place} the first byte that is not UTF-8 is {data[start]:02X}"
    sign = _as_windows(data[start : start + 1])
    if sign is None:
        help = f"{bad}. {_SAVE_AS} Type the signs that come out wrong anew."
        return _unreadable("wrong-encoding", f'"{name}" is not saved as UTF-8.', help, mark)
    bad += f', in Windows-1252 the sign "{sign}"'
    if before.isascii() and _as_windows(data) is not None:
        help = f"{bad}. Open the file as Windows-1252. {_SAVE_AS}"
        headline = f'"{name}" looks saved as Windows-1252; a book is saved as UTF-8.'
        return _unreadable("wrong-encoding", headline, help, mark)
    help = f"{bad}. What stands before it is UTF-8: type that sign anew. {_SAVE_AS}"
    return _unreadable("wrong-encoding", f'"{name}" is saved partly as UTF-8, partly as something else', help, mark)


def _as_windows(data: bytes) -> str | None:
    """The bytes as the code page of Western Windows; None where it has no sign for one of them."""
    try:
        return data.decode("cp1252")
    except UnicodeDecodeError:
        return None


def _refuse_long_lines(name: str, text: str) -> None:
    if len(text) <= LONGEST_LINE:
        return
    for number, line in enumerate(text.replace("\r\n", "\n").replace("\r", "\n").split("\n"), 1):
        if len(line) > LONGEST_LINE:
            mark = Mark(name, number, LONGEST_LINE + 1, LONGEST_LINE + 2)
            help = "No line of a book is that long: is this the right file?"
            raise _unreadable(
                "long-line", f'line {number:,} of "{name}" has more than {LONGEST_LINE:,} characters', help, mark
            )
