"""The line that says what is being done: only on a terminal, only after a while, gone before anything is printed."""

from __future__ import annotations

import io
import sys
import time
from pathlib import Path
from types import SimpleNamespace

import pytest
from click.testing import CliRunner

from ledger_tools.commands import cli, progress
from ledger_tools.commands.progress import ERASE, Progress

SOON = 0.05


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.fixture
def terminal(monkeypatch: pytest.MonkeyPatch) -> Terminal:
    made = Terminal()
    monkeypatch.setattr(progress, "sys", SimpleNamespace(stderr=made))
    monkeypatch.setattr(progress, "PATIENCE", SOON)
    return made


def shown(terminal: Terminal, wait: float = 5.0) -> str:
    """What stands on the terminal once something does."""
    end = time.monotonic() + wait
    while not terminal.getvalue() and time.monotonic() < end:
        time.sleep(SOON / 5)
    return terminal.getvalue()


def test_what_takes_long_is_told_and_taken_away(terminal: Terminal) -> None:
    line = Progress()
    line.say("Reading …")
    assert terminal.getvalue() == ""
    assert shown(terminal) == f"{ERASE}Reading …"

    line.say("Writing …")
    line.done()
    line.done()
    assert terminal.getvalue() == f"{ERASE}Reading …{ERASE}Writing …{ERASE}"


def test_what_takes_no_time_is_not_told(terminal: Terminal) -> None:
    line = Progress()
    line.say("Reading …")
    line.done()
    time.sleep(3 * SOON)

    assert terminal.getvalue() == ""


def test_where_there_is_no_terminal_nothing_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    plain = io.StringIO()
    monkeypatch.setattr(progress, "sys", SimpleNamespace(stderr=plain))
    monkeypatch.setattr(progress, "PATIENCE", 0.0)
    line = Progress()
    line.say("Reading …")
    time.sleep(SOON)
    line.done()

    assert plain.getvalue() == ""


def test_a_long_name_stays_on_one_line_and_steers_nothing(terminal: Terminal) -> None:
    line = Progress()
    line.say("a\x1b[2J\n" + "b" * 500)
    told = shown(terminal)
    line.done()

    assert told.startswith(f"{ERASE}a·[2J·bbb") and len(told) < 200 and "\n" not in told


@pytest.mark.parametrize("command", [("profit", "--format", "json"), ("proof",)])
def test_the_line_is_gone_before_anything_is_printed(
    command: tuple[str, ...], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    told: list[str] = []
    for module in ("opening", "output", "proof"):
        __import__(f"ledger_tools.commands.{module}")
        for name in ("say", "done"):
            if hasattr(sys.modules[f"ledger_tools.commands.{module}"], name):
                monkeypatch.setattr(f"ledger_tools.commands.{module}.{name}", lambda *_, n=name: told.append(n))
    monkeypatch.setattr("click.echo", lambda *_, **__: told.append("printed"))
    (tmp_path / "a.book").write_text('landlord me "Me"\nproperty mill-3 "3 Mill Lane"\n', encoding="utf-8")
    CliRunner().invoke(cli, [command[0], str(tmp_path), *command[1:]])

    assert told.index("say") < told.index("done") < told.index("printed")
