"""What of a typed command is the book and what the line; what a shell has taken from the line is put back."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from ledger_tools.commands import cli
from ledger_tools.commands.consider import _book_and_line


@pytest.mark.parametrize(
    "words, book, line",
    [
        (("replace", "boiler", "£90"), ".", "replace boiler £90"),
        (("mill.book", "replace", "boiler", "£90"), "mill.book", "replace boiler £90"),
        (("mill.book", "replace boiler £90, better"), "mill.book", "replace boiler £90, better"),
        (("replace boiler £90, better",), ".", "replace boiler £90, better"),
        (("there/mill", "replace", "boiler"), "there/mill", "replace boiler"),
        (("here", "replace", "boiler"), "here", "replace boiler"),
        (("replaced", "boiler"), ".", "replaced boiler"),
        (("09/06/2025", "replace", "boiler"), ".", "09/06/2025 replace boiler"),
        (("9", "Jun", "2025", "replace", "boiler"), ".", "9 Jun 2025 replace boiler"),
        (("replace", "hob", "by", "Ridge & Sons,", "better"), ".", 'replace hob by "Ridge & Sons", better'),
        (("replace", "hob", "by", "Ridge,", "better"), ".", "replace hob by Ridge, better"),
        (("replace", "hob", "because", 'the "old" one leaks'), ".", 'replace hob because the "old" one leaks'),
    ],
)  # fmt: skip
def test_the_book_and_the_line_are_told_apart(words, book, line, tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    for folder in ("here", "replaced"):  # a folder called like a verb is no book
        (tmp_path / folder).mkdir()

    assert _book_and_line(words) == (Path(book), line)


def test_the_folder_one_is_in_is_the_book_and_stays_as_it_is(tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    text = 'property mill-3 "3 Mill Lane, Anytown"\n'
    (tmp_path / "mill.book").write_text(text)

    result = CliRunner().invoke(cli, ["consider", "decorate", "hall", "£90", "--format", "json"])

    told = json.loads(result.output)
    assert result.exit_code == 0 and (told["what"], told["amount"]) == ("decorated hall", "90.00")
    assert (tmp_path / "mill.book").read_text() == text and len(list(tmp_path.iterdir())) == 1


def test_errors_come_as_data_too(tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "mill.book").write_text('property mill-3 "3 Mill Lane, Anytown"\n')

    result = CliRunner().invoke(cli, ["consider", "replace", "boiler", "90", "--format", "json"])

    (problem,) = json.loads(result.output)["problems"]
    assert result.exit_code == 1 and problem["marks"][0]["text"] == "replace boiler 90"


def test_a_folder_without_a_book_is_told(tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    result = CliRunner().invoke(cli, ["consider", "replace", "boiler", "£90"])

    assert result.exit_code == 1 and "There is no .book file" in result.output
