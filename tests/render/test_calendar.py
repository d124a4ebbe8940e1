"""The calendar file of `diary`, by the open iCalendar standard (RFC 5545); read back with the library that wrote it."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner

from ledger_tools.commands import cli

BOOK = (
    'landlord x "X"\nproperty a "1 A Street"\n    nation england\n'
    "10 Feb 2026 certified gas safety £70.00\n3 Mar 2022 certified electrical safety £70.00\n"
)
ASKED = ["diary", "a.book", "--on", "2026-11-25", "--weeks", "26", "--format", "ics"]


def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, text: str = BOOK) -> str:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "a.book").write_text(text, encoding="utf-8")
    result = CliRunner().invoke(cli, ASKED)
    assert result.exit_code == 0, result.output
    return result.stdout_bytes.decode("utf-8")


def test_an_event_a_date(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    icalendar = pytest.importorskip("icalendar")
    events = icalendar.Calendar.from_ical(run(tmp_path, monkeypatch)).walk("VEVENT")

    assert [(event.decoded("dtstart"), str(event["summary"])) for event in events] == [
        (date(2027, 2, 10), "a: gas record runs out"), (date(2027, 3, 3), "a: wiring report runs out"),
    ]  # fmt: skip
    assert all("as held on 25 Nov 2026" in str(event["description"]) for event in events)


def test_events_keep_their_identity_when_lines_move(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    icalendar = pytest.importorskip("icalendar")

    def identities(text: str) -> list[str]:
        return [str(e["uid"]) for e in icalendar.Calendar.from_ical(run(tmp_path, monkeypatch, text)).walk("VEVENT")]

    before = identities(BOOK)
    assert len(set(before)) == 2
    assert identities("# a note on top\n\n" + BOOK) == before
    assert identities(BOOK.replace("10 Feb", "11 Feb"))[0] != before[0]


def test_without_the_library_it_says_what_to_run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "icalendar", None)
    monkeypatch.chdir(tmp_path)
    (tmp_path / "a.book").write_text(BOOK, encoding="utf-8")
    result = CliRunner().invoke(cli, ASKED)

    assert result.exit_code == 1
    assert "pip install 'landlord-books[calendar]'" in result.output
