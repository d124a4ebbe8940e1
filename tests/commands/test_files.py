"""Finding and reading the files of a book: every file there is, or plain words why not."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from ledger_tools.commands import files
from ledger_tools.commands.files import Unreadable, book_files, read_book

AS_ROOT = hasattr(os, "geteuid") and os.geteuid() == 0


def _problem(path: Path) -> tuple[str, str, str]:
    """Code, headline and help for a path that cannot be read."""
    with pytest.raises(Unreadable) as caught:
        for file in book_files(path):
            read_book(file)
    problem = caught.value.problem
    return problem.code, problem.headline, problem.help


def test_a_folder_gives_its_books_sorted_hidden_ones_left_out(tmp_path: Path) -> None:
    for name in ("b.book", "a/z.BOOK", "a/y.book", ".git/x.book", ".#b.book", "b.book~", "notes.txt"):
        place = tmp_path / name
        place.parent.mkdir(exist_ok=True)
        place.write_text("", encoding="utf-8")

    assert [str(p.relative_to(tmp_path)) for p in book_files(tmp_path)] == ["a/y.book", "a/z.BOOK", "b.book"]


def test_links_in_a_ring_end_and_a_file_counts_once(tmp_path: Path) -> None:
    (tmp_path / "in").mkdir()
    (tmp_path / "in" / "a.book").write_text("", encoding="utf-8")
    (tmp_path / "in" / "up").symlink_to(tmp_path)
    (tmp_path / "same.book").symlink_to(tmp_path / "in" / "a.book")

    assert len(book_files(tmp_path)) == 1


def test_a_file_may_be_named_itself(tmp_path: Path) -> None:
    place = tmp_path / "a.book"
    place.write_bytes(b"\xef\xbb\xbfat mill-3\r\n")

    assert book_files(place) == [place]
    assert read_book(place) == "at mill-3\r\n"


@pytest.mark.parametrize(
    ("data", "code", "words"),
    [
        (b"\xff\xfea\0t\0", "wrong-encoding", "UTF-16"),
        (b"\xff\xfe\0\0a\0\0\0", "wrong-encoding", "UTF-32"),
        (b"at mill-3\n\0\0", "not-text", "not a text file"),
        (b"at mill-3\n# it\x92s \xa34\n", "wrong-encoding", "Windows-1252"),
        ("# “é”".encode() + b" it\x92s\n", "wrong-encoding", "partly"),
        (b"\xef\xbb\xbf# \x92\n", "wrong-encoding", "Windows-1252"),
        (b"# \x81\n", "wrong-encoding", "not saved as UTF-8"),
        (b"# " + b"x" * 100_000, "long-line", "100,000"),
    ],
)
def test_what_is_no_text_in_utf_8_is_refused_in_words(tmp_path: Path, data: bytes, code: str, words: str) -> None:
    place = tmp_path / "a.book"
    place.write_bytes(data)

    found, headline, help = _problem(place)

    assert found == code
    assert words in headline and str(place) in headline
    assert help


def test_the_first_foreign_byte_is_shown_with_its_place_and_sign(tmp_path: Path) -> None:
    place = tmp_path / "a.book"
    place.write_bytes("# £4\r\n# “é”, it".encode() + b"\x92s \xa34\r\n")
    with pytest.raises(Unreadable) as caught:
        read_book(place)

    mark = caught.value.problem.marks[0]
    assert (mark.line, mark.column, mark.text) == (2, 10, "# “é”, it’s £4")
    assert "92" in caught.value.problem.help and "’" in caught.value.problem.help


def test_what_is_missing_or_no_book_is_refused_in_words(tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    (tmp_path / "notes.txt").write_text("x", encoding="utf-8")
    (tmp_path / "gone.book").symlink_to(tmp_path / "nowhere.book")
    (tmp_path / "ring.book").symlink_to(tmp_path / "ring.book")

    assert _problem(tmp_path / "no.book")[0] == "no-such-file"
    assert _problem(tmp_path / "notes.txt" / "no.book")[0] == "no-such-file"
    assert "leads nowhere" in _problem(tmp_path / "gone.book")[1]
    assert "leads nowhere" in _problem(tmp_path)[1]  # a part of the book is missing, and that is told
    assert _problem(tmp_path / "ring.book")[0] == "not-opened"
    assert _problem(tmp_path / "empty")[0] == "no-books"
    assert _problem(tmp_path / "notes.txt")[0] == "not-a-book"
    assert _problem(tmp_path / "a\0b.book")[0] == "not-opened"


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes here")
def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "a.book")

    assert _problem(tmp_path / "a.book")[0] == "not-a-book"
    assert _problem(tmp_path)[0] == "not-a-book"


@pytest.mark.skipif(AS_ROOT, reason="the superuser may open everything")
def test_what_may_not_be_opened_is_refused_in_words(tmp_path: Path) -> None:
    place = tmp_path / "a.book"
    place.write_text("", encoding="utf-8")
    place.chmod(0)

    assert _problem(place)[0] == "no-permission"


def test_no_permission_is_told_in_words(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    place = tmp_path / "a.book"
    place.write_text("", encoding="utf-8")

    def shut(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", shut)

    assert _problem(place)[0] == "no-permission"


def test_too_much_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("a.book", "b.book", "c.book"):
        (tmp_path / name).write_bytes(b"# 456789\n#")
    monkeypatch.setattr(files, "MOST_BYTES", 10)
    assert len([read_book(place) for place in book_files(tmp_path)]) == 3

    monkeypatch.setattr(files, "MOST_BYTES", 9)
    assert _problem(tmp_path)[0] == "too-big"

    monkeypatch.setattr(files, "MOST_FILES", 2)
    assert _problem(tmp_path)[0] == "too-many-books"
