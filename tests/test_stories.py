"""Each tests/stories/*.md is a story: files, then commands with exactly what they must print.

A fence ```` ```book mill.book ```` writes a file, a fence ```` ```console ```` holds `$ landlord-books …` lines with
their output; `[exit 1]` stands after an output whose status is not 0. The pages of `ledger_tools/explain/codes` are
stories too.
"""

from __future__ import annotations

import re
import shlex
from datetime import date
from importlib.resources import files
from pathlib import Path

import pytest
from click.testing import CliRunner

from ledger_tools.commands import cli, opening

HERE = Path(__file__).parent
FENCE = re.compile(r"^```(\S+)(?: (\S+))?\n(.*?)^```$", re.M | re.S)
SAMPLES = HERE.parent / "sample_books"


def stories() -> list[Path]:
    found = sorted((HERE / "stories").rglob("*.md"))
    pages = Path(str(files("ledger_tools"))) / "explain" / "codes"
    return [HERE.parent / "README.md", *found, *sorted(pages.glob("*.md"))]


def run(command: str) -> str:
    result = CliRunner().invoke(cli, shlex.split(command))
    if result.exception and not isinstance(result.exception, SystemExit):
        raise result.exception
    return f"$ landlord-books {command}\n{result.output}" + (f"[exit {result.exit_code}]\n" if result.exit_code else "")


def play(text: str) -> str:
    """The story as it goes now, in the folder we are in."""

    def one(fence: re.Match[str]) -> str:
        kind, name, body = fence.groups()
        if name:
            Path(name).parent.mkdir(parents=True, exist_ok=True)
            Path(name).write_text(body, encoding="utf-8")
        if kind != "console":
            return fence[0]
        commands = re.findall(r"^\$ landlord-books ?(.*)$", body, re.M)
        assert commands, "a console fence without a command"
        return "```console\n" + "".join(run(command) for command in commands) + "```"

    return FENCE.sub(one, text)


@pytest.mark.parametrize("story", stories(), ids=lambda p: p.stem)
def test_story(story: Path, request: pytest.FixtureRequest, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    text = story.read_text(encoding="utf-8")
    (tmp_path / "sample_books").symlink_to(SAMPLES)
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(opening, "today", lambda: date(2026, 11, 25))  # stories do not age

    now = play(text)

    if now != text and request.config.getoption("--accept"):
        story.write_text(now, encoding="utf-8")
    else:
        assert text == now
