"""The command `tidy`: what it prints, what it writes, and what it leaves alone."""

from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from ledger_tools.commands import tidy as command
from ledger_tools.language.tidy import TidyRefused

MESSY = "9 Jun 2025 Paid water £ 3 to “Tidal”\n"
TIDY = '9 Jun 2025   paid       water £3 to "Tidal"\n'


def _tidy(*arguments: object) -> Result:
    return CliRunner().invoke(command.tidy, [str(argument) for argument in arguments], catch_exceptions=False)


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """A file that is not tidy."""
    place = tmp_path / "a.book"
    place.write_bytes(MESSY.encode())
    return place


def _only(folder: Path) -> list[str]:
    return sorted(os.listdir(folder))


def test_a_file_is_tidied_in_place(book: Path) -> None:
    result = _tidy(book)

    assert (result.exit_code, result.stdout, result.stderr) == (0, f"tidied {book}\n", "")
    assert book.read_bytes() == TIDY.encode()
    assert _only(book.parent) == ["a.book"]


def test_a_tidy_file_is_not_written_again(book: Path) -> None:
    book.write_bytes(TIDY.encode())
    before = book.stat()
    result = _tidy(book)

    assert (result.exit_code, result.output) == (0, "")
    assert (book.stat().st_ino, book.stat().st_mtime_ns) == (before.st_ino, before.st_mtime_ns)


def test_the_folder_one_is_in_is_meant_where_none_is_named(book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (book.parent / "tidy.book").write_bytes(TIDY.encode())
    monkeypatch.chdir(book.parent)

    assert _tidy().stdout == "tidied a.book\n"
    assert book.read_bytes() == TIDY.encode()


def test_check_changes_nothing_and_says_which(book: Path) -> None:
    (book.parent / "tidy.book").write_bytes(TIDY.encode())
    result = _tidy("--check", book.parent)

    assert (result.exit_code, result.stdout) == (1, f"would tidy {book}\n")
    assert book.read_bytes() == MESSY.encode()
    assert _tidy("--check", book.parent / "tidy.book").exit_code == 0


def test_diff_changes_nothing_and_shows_the_lines(book: Path) -> None:
    book.write_bytes(b"# a\r\n" + MESSY.replace("\n", "\r\n").encode().rstrip())
    before = book.read_bytes()
    result = _tidy("--diff", book)

    assert result.exit_code == 0
    assert result.stdout.split("\n") == [
        f"--- {book}", f"+++ {book} (tidied)", "@@ -1,2 +1,2 @@", " # a", f"-{MESSY.rstrip()}",
        "\\ No newline at end of file", f"+{TIDY.rstrip()}", "",
    ]  # fmt: skip
    assert book.read_bytes() == before
    assert _tidy("--diff", "--check", book).exit_code == 1


def test_line_ends_and_the_mark_in_front_are_kept(book: Path) -> None:
    book.write_bytes(b"\xef\xbb\xbf" + (MESSY * 2).replace("\n", "\r\n").encode())
    _tidy(book)

    assert book.read_bytes() == b"\xef\xbb\xbf" + (TIDY * 2).replace("\n", "\r\n").encode()


def test_permissions_are_kept(book: Path) -> None:
    book.chmod(0o640)
    _tidy(book)

    assert stat.S_IMODE(book.stat().st_mode) == 0o640


def test_a_link_stays_a_link_and_its_target_is_tidied(book: Path, tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    link = tmp_path / "elsewhere" / "b.book"
    link.symlink_to(book)

    assert _tidy(link, book).stdout == f"tidied {link}\n"
    assert link.is_symlink()
    assert book.read_bytes() == TIDY.encode()


def test_a_file_changed_meanwhile_is_left_to_whoever_changed_it(book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def slow(text: str) -> str:
        book.write_bytes(b"# mine\n")
        return TIDY

    monkeypatch.setattr(command, "laid_out", slow)
    result = _tidy(book)

    assert result.exit_code == 1 and "changed by someone else" in result.stderr
    assert book.read_bytes() == b"# mine\n"
    assert _only(book.parent) == ["a.book"]


def test_a_change_of_the_same_size_and_time_is_seen_too(book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    about = book.stat()

    def slow(text: str) -> str:
        book.write_bytes(MESSY.replace("3", "4").encode())
        os.utime(book, ns=(about.st_atime_ns, about.st_mtime_ns))
        return TIDY

    monkeypatch.setattr(command, "laid_out", slow)

    assert _tidy(book).exit_code == 1
    assert book.read_bytes() == MESSY.replace("3", "4").encode()


@pytest.mark.parametrize("step", ["fsync", "replace"])
def test_a_failure_while_writing_leaves_the_old_file_whole(
    book: Path, step: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, step, full)
    result = _tidy(book)

    assert result.exit_code == 1 and "No space left on device" in result.stderr
    assert book.read_bytes() == MESSY.encode()
    assert _only(book.parent) == ["a.book"]


def test_the_file_is_never_half_written(book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    seen = []
    real = os.replace

    def look(old: str, new: Path) -> None:
        seen.append((Path(old).parent == book.parent, Path(old).read_bytes(), book.read_bytes()))
        real(old, new)

    monkeypatch.setattr(os, "replace", look)
    _tidy(book)

    assert seen == [(True, TIDY.encode(), MESSY.encode())]


def test_a_write_protected_file_is_left_alone(book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "access", lambda *_: False)  # the superuser may write to everything
    result = _tidy(book)

    assert result.exit_code == 1 and "may not write" in result.stderr
    assert book.read_bytes() == MESSY.encode()


@pytest.mark.skipif(hasattr(os, "geteuid") and os.geteuid() == 0, reason="the superuser may read everything")
def test_a_file_that_may_not_be_read_is_told_with_the_status_of_a_faulty_book(book: Path) -> None:
    book.chmod(0)
    result = _tidy(book)

    assert result.exit_code == 1 and "may not open" in result.stderr


def test_what_cannot_be_read_is_told_and_does_not_stop_the_rest(book: Path) -> None:
    (book.parent / "b.book").write_bytes(b"# \x92\n")
    (book.parent / "c.book").write_bytes(b"\0")
    result = _tidy(book.parent, book.parent / "no.book")

    assert result.exit_code == 1
    assert result.stdout == f"tidied {book}\n"
    for words in ("Windows-1252", "not a text file", "There is no"):
        assert words in result.stderr
    assert "Traceback" not in result.output


def test_blocks_that_do_not_read_are_left_and_named(book: Path) -> None:
    broken = "repalced  boiler\n\tbroken  \n"
    book.write_bytes((MESSY + broken).encode())
    result = _tidy(book)

    assert result.exit_code == 0
    assert "line 2 does not read" in result.stderr
    assert book.read_bytes() == (TIDY + broken).encode()


def test_a_refusal_leaves_the_file_and_names_the_place(book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(text: str) -> str:
        raise TidyRefused(7, "its layout would read as something else")

    monkeypatch.setattr(command, "laid_out", refuse)
    result = _tidy(book)

    assert result.exit_code == 1 and f"{book}:7: left as it is" in result.stderr
    assert book.read_bytes() == MESSY.encode()


def test_a_mistyped_option_is_the_status_2() -> None:
    assert _tidy("--chekc").exit_code == 2
