"""`tidy`: puts the layout of a book right, in place, without ever losing a byte of it."""

from __future__ import annotations

import codecs
import difflib
import hashlib
import os
import shutil
import tempfile
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

import click

from ..language.tidy import TidyRefused, unread
from ..language.tidy import tidy as laid_out
from ..problems import Problem
from .files import Unreadable, book_files, decode, read_bytes, shown
from .writing import NotWritten, settle


class Draft(NamedTuple):
    """A file as it was read, and what tidy would make of it."""

    path: Path  # as found
    target: Path  # where the links in it lead
    stamp: tuple[int, int, str]
    sign: bytes  # what some editors put in front of a file in UTF-8, if this one has it
    old: str
    new: str
    left: list[int]  # first lines of the blocks that do not read

    @property
    def changed(self) -> bool:
        """Whether tidy would change the file."""
        return self.old != self.new


@click.command()
@click.argument("paths", nargs=-1, metavar="[BOOK]...", type=click.Path(readable=False, path_type=Path))
@click.option("--check", is_flag=True, help="Change nothing; say which files would change.")
@click.option("--diff", is_flag=True, help="Change nothing; show the lines that would change.")
@click.pass_context
def tidy(context: click.Context, paths: tuple[Path, ...], check: bool, diff: bool) -> None:
    """Put the layout of a book right.

    BOOK is a .book file or a folder, the folder you are in if left out. Dates and verbs are lined up, blanks and
    capitals set right. Nothing is sorted, no comment is lost, and the book means what it meant before. A block
    that does not read is left as it is.

    The status is 1 where a file could not be read or written, and with --check where one would change.
    """
    failed = would_change = False
    files, problems = _files(paths or (Path("."),))
    for problem in problems:
        failed = True
        _tell(problem)
    for path in files:
        try:
            draft = _draft(path)
            if diff:
                _show(draft)
            if draft.changed and not (check or diff):
                _write(draft)
            if draft.changed and not diff:
                click.echo(f"{'would tidy' if check else 'tidied'} {shown(path)}")
            would_change |= draft.changed
            _tell_left(draft)
        except Unreadable as error:
            failed = True
            _tell(error.problem)
        except TidyRefused as error:
            failed = True
            click.echo(f"{shown(path)}:{error.line}: left as it is: {error.why}", err=True)
            click.echo("    This is a fault of tidy, not of your book; please report it with these lines.", err=True)
        except NotWritten as error:
            failed = True
            click.echo(f"{shown(path)}: left as it is: {error}", err=True)
    context.exit(1 if failed or (check and would_change) else 0)


def _files(paths: tuple[Path, ...]) -> tuple[list[Path], list[Problem]]:
    """The files meant, each once, and what was wrong with the paths."""
    files: dict[Path, Path] = {}  # by where they lead
    problems = []
    for path in paths:
        try:
            for file in book_files(path):
                files.setdefault(Path(os.path.realpath(file)), file)
        except Unreadable as error:
            problems.append(error.problem)
    return list(files.values()), problems


def _draft(path: Path) -> Draft:
    target = Path(os.path.realpath(path))
    before = _times(target)
    data = read_bytes(path)
    old = decode(path, data)
    new = laid_out(old)
    stamp = (*before, hashlib.sha256(data).hexdigest())
    sign = codecs.BOM_UTF8 if data.startswith(codecs.BOM_UTF8) else b""
    return Draft(path, target, stamp, sign, old, new, unread(old))


def _times(target: Path) -> tuple[int, int]:
    try:
        about = target.stat()
    except OSError:  # reading it tells the reason
        return (0, 0)
    return (about.st_mtime_ns, about.st_size)


# ── writing ──────────────────────────────────────────────────────────────────────────────────────────────────────


def _write(draft: Draft) -> None:
    """Put the new text in place of the old, whole or not at all."""
    target = draft.target
    if not os.access(target, os.W_OK):
        raise NotWritten("you may not write to it")
    beside = ""
    try:
        handle, beside = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name[:100]}.", suffix=".part")
        with os.fdopen(handle, "wb") as out:
            out.write(draft.sign + draft.new.encode("utf-8"))
            out.flush()
            os.fsync(out.fileno())
        _keep_owner(target, beside)
        shutil.copymode(target, beside)
        if _stamp(target) != draft.stamp:
            raise NotWritten("it was changed by someone else while it was being tidied; run tidy again")
        os.replace(beside, target)
        beside = ""
    except OSError as error:
        raise NotWritten(f"it could not be written ({error.strerror or error})") from None
    finally:
        if beside:
            with suppress(OSError):
                os.unlink(beside)
    settle(target.parent)


def _stamp(target: Path) -> tuple[int, int, str]:
    return (*_times(target), hashlib.sha256(target.read_bytes()).hexdigest())


def _keep_owner(target: Path, beside: str) -> None:
    """Where one user tidies another's file; without the right to it the file becomes one's own, as with any editor."""
    if hasattr(os, "chown"):
        about = target.stat()
        with suppress(OSError):
            os.chown(beside, about.st_uid, about.st_gid)


# ── telling ──────────────────────────────────────────────────────────────────────────────────────────────────────


def _show(draft: Draft) -> None:
    """The lines that would change, in the usual form with - and +."""
    name = shown(draft.path)
    for line in difflib.unified_diff(_lines(draft.old), _lines(draft.new), name, f"{name} (tidied)"):
        click.echo(line, nl=not line.endswith("\n"))
        if not line.endswith("\n"):
            click.echo("\\ No newline at end of file")


def _lines(text: str) -> list[str]:
    """The lines with their ends; a carriage return is shown only where not all lines have one."""
    if text.count("\r") == text.count("\n") == text.count("\r\n"):
        text = text.replace("\r\n", "\n")
    lines = text.replace("\r", "␍").split("\n")
    return [f"{line}\n" for line in lines[:-1]] + ([lines[-1]] if lines[-1] else [])


def _tell_left(draft: Draft) -> None:
    if draft.left:
        places = ", ".join(map(str, draft.left[:10])) + (" …" if len(draft.left) > 10 else "")
        where = f"line {places}" if len(draft.left) == 1 else f"lines {places}"
        click.echo(f"{shown(draft.path)}: what begins on {where} does not read and was left as it is", err=True)


def _tell(problem: Problem) -> None:
    click.echo(problem.headline, err=True)
    if problem.help:
        click.echo(f"    {problem.help}", err=True)
