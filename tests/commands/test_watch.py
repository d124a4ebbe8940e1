"""`watch` in a process of its own, with saves as editors make them."""

from __future__ import annotations

import os
import queue
import signal
import subprocess
import sys
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner

from ledger_tools.commands import cli
from ledger_tools.commands.files import MANIFEST

from ..render.reading import Read
from .test_pack import BOOK

SOON, QUIET = 60.0, 3.0  # seconds: how long to wait for something, and how long for nothing


@pytest.fixture
def book(tmp_path: Path) -> Path:
    (tmp_path / "b").mkdir()
    (tmp_path / "b" / "a.book").write_text(BOOK, encoding="utf-8")
    return tmp_path / "b" / "a.book"


class Watching:
    """The command, and the lines it prints."""

    def __init__(self, book: Path, folder: Path, *more: str) -> None:
        command = ["watch", str(book), "--output", str(folder), "--year", "2025-26", "--on", "2026-11-25", *more]
        self.process = subprocess.Popen(
            [sys.executable, "-m", "ledger_tools", *command], stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
            text=True,
        )  # fmt: skip
        self._lines: queue.Queue[str] = queue.Queue()
        threading.Thread(target=self._read, daemon=True).start()

    def _read(self) -> None:
        assert self.process.stdout is not None
        for line in self.process.stdout:
            self._lines.put(line)

    def line(self, wait: float = SOON) -> str:
        """The next line; "" where none comes."""
        try:
            return self._lines.get(timeout=wait)
        except queue.Empty:
            return ""


@pytest.fixture
def watching(book: Path, tmp_path: Path) -> Iterator[Watching]:
    pytest.importorskip("watchfiles", reason="watching needs watchfiles (the extra watch)")
    made = Watching(book.parent, tmp_path / "out")
    yield made
    made.process.kill()
    made.process.wait()


def save(book: Path, text: str) -> None:
    """As editors do: a new file beside the old one takes its name."""
    beside = book.with_name(f"{book.name}.new~")
    beside.write_text(text, encoding="utf-8")
    os.replace(beside, book)


def test_pages_follow_the_book(watching: Watching, book: Path, tmp_path: Path) -> None:
    profit, first = tmp_path / "out" / "pages" / "profit-mill-3.html", tmp_path / "out" / "index.html"
    assert watching.line().startswith("Watching") and watching.line().startswith("Drawn:")
    assert "£90.00" in profit.read_text(encoding="utf-8")
    assert "Errors in the book" not in first.read_text(encoding="utf-8")

    save(book, BOOK.replace("£90.00", "£95.00"))
    assert watching.line().startswith("Drawn:")
    assert "£95.00" in profit.read_text(encoding="utf-8")

    for number in range(5):
        save(book, BOOK.replace("£90.00", f"£9{number}.50"))
    assert watching.line().startswith("Drawn:") and watching.line(QUIET) == ""
    assert "£94.50" in profit.read_text(encoding="utf-8")

    (book.parent / "notes.txt").write_text("nothing of the book", encoding="utf-8")
    assert watching.line(QUIET) == ""

    save(book, BOOK + "4 Jun 2025 repaired\n")
    assert watching.line().startswith("The book has 1 error")
    for page in (profit, first):
        text = page.read_text(encoding="utf-8")
        assert Read(text).wrong == [] and "What was repaired?" in text and "from the last time it had none" in text
    assert "£94.50" in profit.read_text(encoding="utf-8")

    save(book, BOOK)
    assert watching.line().startswith("Drawn:")
    assert "What was repaired?" not in first.read_text(encoding="utf-8")

    watching.process.send_signal(signal.SIGINT)
    assert watching.line() == "No longer watching.\n" and watching.process.wait(SOON) == 0
    assert not list(tmp_path.rglob("*.part"))


def test_a_book_that_begins_with_errors_gets_its_pages_when_they_are_mended(book: Path, tmp_path: Path) -> None:
    pytest.importorskip("watchfiles", reason="watching needs watchfiles (the extra watch)")
    book.write_text("property\n", encoding="utf-8")
    watching = Watching(book, tmp_path / "out")
    try:
        watching.line()
        assert watching.line().startswith("The book has")
        text = (tmp_path / "out" / "index.html").read_text(encoding="utf-8")
        assert Read(text).wrong == [] and "Error:" in text and "last time" not in text
        assert sorted(os.listdir(tmp_path / "out")) == ["index.html"]

        save(book, BOOK)
        assert watching.line().startswith("Drawn:")
        assert (tmp_path / "out" / "pages" / "profit-mill-3.html").exists()
    finally:
        watching.process.kill()
        watching.process.wait()


def test_a_page_that_has_no_place_any_more_goes(book: Path, tmp_path: Path) -> None:
    from datetime import date

    from ledger_tools.commands.watch import Drawn

    drawn = Drawn(book, tmp_path, None, date(2026, 11, 25))
    drawn.anew()
    assert (tmp_path / "pages" / "rents-mill-3.html").exists()
    save(book, "".join(line for line in BOOK.splitlines(True) if "tenan" not in line.lower() and "rent" not in line
                       and "periodic" not in line))  # fmt: skip
    drawn.anew()
    assert not (tmp_path / "pages" / "rents-mill-3.html").exists()
    assert (tmp_path / "pages" / "profit-mill-3.html").exists()


def watch(book: Path, folder: Path, *more: str) -> str:
    result = CliRunner().invoke(cli, ["watch", str(book), "--output", str(folder), *more])
    assert result.exit_code == 1
    return result.output


def test_a_folder_with_something_in_it_is_left_alone(book: Path, tmp_path: Path) -> None:
    pytest.importorskip("watchfiles", reason="watching needs watchfiles (the extra watch)")
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "letter.txt").write_text("dear", encoding="utf-8")

    assert "add `--force`" in watch(book, tmp_path / "mine")
    (tmp_path / "mine" / MANIFEST).write_text("{}", encoding="utf-8")
    assert "stays as it is" in watch(book, tmp_path / "mine", "--force")
    assert sorted(os.listdir(tmp_path / "mine")) == ["letter.txt", MANIFEST]


def test_without_the_library_the_message_tells_how_to_get_it(
    book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "watchfiles", None)

    assert "pip install 'landlord-books[watch]'" in watch(book, tmp_path / "out")
    assert not (tmp_path / "out").exists()
