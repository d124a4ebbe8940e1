"""Fills a folder beside the place it will have, and gives it its name when it is whole: a failure leaves nothing half.

Knows nothing of what is in it, but that a folder which is replaced must be one of its own making.
"""

from __future__ import annotations

import hashlib
import os
import shutil
import tempfile
import zipfile
from collections.abc import Callable, Iterable
from contextlib import suppress
from pathlib import Path
from typing import IO, BinaryIO

from ..record import record
from .writing import NotWritten, save_whole, settle, usual_rights

CHUNK = 1 << 20
BEGAN = (1980, 1, 1, 0, 0, 0)  # the first moment a zip file knows; the true one would make no two alike


@record
class Written:
    """A file of the folder: its name with "/" between folders, its bytes, and their SHA-256 in hexadecimal."""

    name: str
    size: int
    sha256: str


class Filling:
    """A folder being filled. Used as a context: what was not put in place by its end is gone."""

    def __init__(self, target: Path) -> None:
        """NotWritten where nothing can be written beside the place."""
        self.target = target
        self.files: list[Written] = []
        try:
            self._here = Path(tempfile.mkdtemp(dir=target.parent, prefix=f".{target.name[:100]}.", suffix=".part"))
        except OSError as error:
            raise _why(error) from None

    def __enter__(self) -> Filling:
        return self

    def __exit__(self, *_: object) -> None:
        shutil.rmtree(self._here, ignore_errors=True)

    def write(self, name: str, pieces: Iterable[str]) -> Written:
        """A file of text, in UTF-8, piece by piece. NotWritten where the disk refuses."""
        return self._fill(name, (piece.encode("utf-8", "replace") for piece in pieces))

    def copy(self, name: str, source: BinaryIO) -> Written:
        """A file with the bytes of another. NotWritten where the disk refuses."""
        return self._fill(name, iter(lambda: source.read(CHUNK), b""))

    def save(self, name: str, saves: Callable[[IO[bytes]], None]) -> Written:
        """A file written by a function that is given it, open. NotWritten where the disk refuses."""
        with tempfile.TemporaryFile() as held:
            saves(held)
            held.seek(0)
            return self._fill(name, iter(lambda: held.read(CHUNK), b""))

    def _fill(self, name: str, chunks: Iterable[bytes]) -> Written:
        place, digest, size = self._here / name, hashlib.sha256(), 0
        try:
            place.parent.mkdir(parents=True, exist_ok=True)
            with place.open("xb") as out:
                for chunk in chunks:
                    out.write(chunk)
                    digest.update(chunk)
                    size += len(chunk)
                out.flush()
                os.fsync(out.fileno())
        except OSError as error:
            raise _why(error) from None
        self.files.append(Written(name, size, digest.hexdigest()))
        return self.files[-1]

    # ── in its place ─────────────────────────────────────────────────────────────────────────────────────────────

    def put(self, force: bool, ours: Callable[[Path], str]) -> None:
        """Give the folder its name. With `force` in the place of one that is there, unless `ours` says why not.

        NotWritten where one is there that is not to be replaced, or cannot be.
        """
        try:
            self._open_up()
            if self.target.is_symlink() or self.target.is_file():
                raise NotWritten("there is a file or a link of that name; name another folder")
            if not self.target.exists() or not any(self.target.iterdir()):
                with suppress(FileNotFoundError):
                    self.target.rmdir()
                os.rename(self._here, self.target)
            elif not force:
                raise NotWritten("it is there already and was left alone; add `--force` to replace a pack")
            elif reason := ours(self.target):
                raise NotWritten(reason)
            else:
                self._swap()
        except OSError as error:
            raise _why(error) from None
        settle(self.target.parent)

    def _swap(self) -> None:
        """Move the folder that is there aside, ours into its place, and only then throw the other away."""
        aside = Path(tempfile.mkdtemp(dir=self.target.parent, prefix=f".{self.target.name[:100]}.", suffix=".old"))
        old = aside / "old"
        os.rename(self.target, old)
        try:
            os.rename(self._here, self.target)
        except OSError:
            os.rename(old, self.target)
            aside.rmdir()
            raise
        shutil.rmtree(aside, ignore_errors=True)

    def _open_up(self) -> None:
        """The rights a new folder of this user has; a temporary one has fewer."""
        rights = usual_rights()
        os.chmod(self._here, rights | (rights & 0o444) >> 2)

    def put_zip(self, target: Path, top: str, force: bool) -> None:
        """The folder as one zip file, its files in order under the folder `top`, the same files always the same bytes.

        NotWritten where a file of the name is there and `force` is not set, or it cannot be written.
        """
        save_whole(target, lambda out: self._zip(out, top), force)

    def _zip(self, out: IO[bytes], top: str) -> None:
        with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=6) as made:
            for written in sorted(self.files, key=lambda written: written.name):
                part = zipfile.ZipInfo(f"{top}/{written.name}", BEGAN)
                part.compress_type, part.create_system = zipfile.ZIP_DEFLATED, 3
                part.external_attr = 0o644 << 16
                part.file_size = written.size
                with (self._here / written.name).open("rb") as body, made.open(part, "w") as into:
                    shutil.copyfileobj(body, into, CHUNK)


def _why(error: OSError) -> NotWritten:
    return NotWritten(f"it could not be written ({error.strerror or error})")
