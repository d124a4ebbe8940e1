"""Where a statement goes: the form by the name of the file, and never over a file that is there."""

from __future__ import annotations

import stat
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from ledger_tools.commands import cli, writing
from ledger_tools.commands.writing import NotWritten, write_whole

BOOK = 'landlord me "Me"\nproperty mill-3 "3 Mill Lane"\n    bought 1 May 2025 for £100,000\n'


@pytest.fixture
def book(tmp_path: Path) -> Path:
    (tmp_path / "a.book").write_text(BOOK, encoding="utf-8")
    return tmp_path / "a.book"


def run(book: Path, *arguments: str) -> Result:
    return CliRunner().invoke(cli, ["profit", str(book), "--on", "2026-11-25", *arguments])


@pytest.mark.parametrize(
    ("name", "begins"),
    [("a.html", "<!DOCTYPE html>"), ("a.csv", "\ufeffof,group,what"), ("a.json", "{"), ("a.txt", "3 Mill")],
)
def test_the_name_of_the_file_tells_the_form(book: Path, name: str, begins: str) -> None:
    result = run(book, "--output", str(book.parent / name))

    assert result.exit_code == 0 and result.stdout == "" and f'{name}".' in result.stderr
    assert (book.parent / name).read_text(encoding="utf-8").lstrip("\n").startswith(begins)


def test_a_form_that_is_named_goes_before_the_name_of_the_file(book: Path) -> None:
    run(book, "--output", str(book.parent / "a.html"), "--format", "json")

    assert (book.parent / "a.html").read_text(encoding="utf-8").startswith("{")


def test_to_a_terminal_it_is_text(book: Path) -> None:
    assert run(book).stdout.startswith("3 Mill Lane, tax year")


def test_what_is_written_is_what_is_printed(book: Path) -> None:
    for form in ("text", "html", "json"):
        run(book, "--output", str(book.parent / f"o.{form}"), "--format", form)
        assert (book.parent / f"o.{form}").read_text(encoding="utf-8") == run(book, "--format", form).stdout


def test_no_file_is_written_over_unless_told(book: Path) -> None:
    place = book.parent / "a.html"
    place.write_text("mine", encoding="utf-8")
    refused = run(book, "--output", str(place))

    assert refused.exit_code == 1 and "is there already and was left alone" in refused.output
    assert place.read_text(encoding="utf-8") == "mine"
    assert run(book, "--output", str(place), "--force").exit_code == 0
    assert place.read_text(encoding="utf-8").startswith("<!DOCTYPE")


def test_no_statement_goes_over_a_book_even_if_told(book: Path) -> None:
    refused = run(book, "--output", str(book), "--force")

    assert refused.exit_code == 1 and "is the name of a book" in refused.output
    assert book.read_text(encoding="utf-8") == BOOK


def test_a_file_that_cannot_be_written_is_told_in_words(book: Path) -> None:
    refused = run(book, "--output", str(book.parent / "no-such-folder" / "a.html"))

    assert refused.exit_code == 1 and "could not be written (No such file or directory)" in refused.output


def test_nothing_is_left_behind_where_writing_fails(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(writing.os, "fsync", full)
    with pytest.raises(NotWritten, match="No space left"):
        write_whole(tmp_path / "a", b"x")
    assert list(tmp_path.iterdir()) == []


def test_a_disk_without_second_names_keeps_the_promise(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuses(*_: object) -> None:
        raise PermissionError(1, "Operation not permitted")

    monkeypatch.setattr(writing.os, "link", refuses)
    write_whole(tmp_path / "a", b"x")
    with pytest.raises(NotWritten, match="there already"):
        write_whole(tmp_path / "a", b"y")
    assert (tmp_path / "a").read_bytes() == b"x" and [p.name for p in tmp_path.iterdir()] == ["a"]


def test_a_link_is_not_written_through(book: Path) -> None:
    (book.parent / "l.html").symlink_to(book)

    assert run(book, "--output", str(book.parent / "l.html")).exit_code == 1
    assert run(book, "--output", str(book.parent / "l.html"), "--force").exit_code == 0
    assert book.read_text(encoding="utf-8") == BOOK


def test_the_file_has_the_rights_of_any_new_one(tmp_path: Path) -> None:
    write_whole(tmp_path / "a", b"x")
    (tmp_path / "b").write_bytes(b"x")

    assert stat.S_IMODE((tmp_path / "a").stat().st_mode) == stat.S_IMODE((tmp_path / "b").stat().st_mode)


def test_a_workbook_needs_a_file_and_a_table_the_form_of_tables(book: Path) -> None:
    assert "add `--output FILE.xlsx`" in run(book, "--format", "xlsx").output
    assert "`--table` goes with `--format csv`" in run(book, "--table", "lines").output
    assert run(book, "--format", "xlsx").exit_code == run(book, "--table", "lines").exit_code == 2


def test_a_book_with_errors_writes_nothing(book: Path) -> None:
    book.write_text(BOOK + "nonsense here\n", encoding="utf-8")

    assert run(book, "--output", str(book.parent / "a.html")).exit_code == 1
    assert not (book.parent / "a.html").exists()


@pytest.mark.parametrize("command", ["next", "refurb"])
def test_that_nothing_is_planned_is_no_fault(book: Path, command: str) -> None:
    """Read as text it ends well and says how to begin; programs are given none; a page asked for is not there."""
    plain, data, page = (
        CliRunner().invoke(cli, [command, str(book), "--on", "2026-11-25", *form])
        for form in ((), ("--format", "json"), ("--format", "html"))
    )
    assert plain.exit_code == 0 and plain.stdout.startswith("There are no works planned") and not plain.stderr
    assert data.exit_code == 0 and '"schedules": []' in data.stdout
    assert page.exit_code == 1 and not page.stdout and "no works planned" in page.stderr
