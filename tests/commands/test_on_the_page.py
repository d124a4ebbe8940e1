"""Every text a command prints, on every sample book and on one with very long names: it fits the page, its numbers line
up, and it reads the same in black and white.

A schedule fits a phone. What `proof` tells to write is not wrapped, so that it can be pasted.
"""

from __future__ import annotations

import re
import shlex
from datetime import date
from functools import cache
from pathlib import Path

import pytest
from click.testing import CliRunner

from ledger_tools.commands import COMMANDS, cli, opening
from ledger_tools.render.columns import WIDTH
from ledger_tools.render.phone import ACROSS

SAMPLES = Path(__file__).parents[2] / "sample_books"
BOOKS = {"saltmarsh": "saltmarsh-14", "harbour": "foundry-3", "councils": "kiln-8", "long names": "saltmarsh-14"}

# Names of the saltmarsh book and what stands for them in the book with long names.
LONG = {
    "14 Saltmarsh Lane, Wexcombe": "Apartment 14b, The Old Fishermen's Reading Room and Institute, Wexcombe-on-Marsh",
    "Wexcombe District Council": "The Metropolitan Borough Council of Wexcombe, Anytown and the Outlying Marshes",
    "Brightwater Plumbing & Heating": "Brightwater, Brightwater, Tidewell & Daughters, Plumbing and Heating Engineers",
    "Ridge & Sons": "Ridge, Ridge, Ridge & Sons, Builders and Decorators to the Gentry since 1887",
    "Dray's Trade Counter": "Dray's Trade Counter and Builders' Merchants (Wexcombe Quayside Branch, Dock Gate 4)",
    "Imogen Hartwell": "Imogen Philippa Alexandra Featherstonehaugh-Cholmondeley Hartwell",
    "ready to let": "everything that has to be done before anybody at all could be let in at the door",
    "front bedroom": "front bedroom over the old reading room",
    "seagate": "seagate-and-daughters-lettings-of-the-quay",
    "okafor": "okafor-and-lund-of-the-upper-marsh",
    "northgate": "northgate-mutual-building-society-of-wexcombe",
    "£146,000": "£1,146,000",
}

# Each command as people run it; {house} is a house of the book.
RUN = """
proof
tidy --check
next
next --on 2025-06-29
refurb
refurb --lines --on 2025-07-20
audit
audit --all
audit {book} boiler
inventory --gone
rents
rents --on 2026-01-31
diary --weeks 520
diary --on 2025-06-01
profit --year 2025-26 --lines
year-end --year 2025-26 --lines
quarter --year 2025-26 --owner {owner}
base-cost
base-cost --property {house} --price 1250000
worth --on 2026-04-05
worth --property {house} --value 160000 --rent 990 --rate 6.5 --stress 5.5 --cover 145 --empty 3 --price 140000
void
void --year 2025-26
void --letter --property {house}
consider --property {house} replace worktop in kitchen £400, like for like
explain modern equivalent
explain 2025-26 box-25 --book {book}
changes
worth --property nowhere
audit --verdict good
nonsense
""".strip().splitlines()


@cache
def printed(folder: str, house: str, owner: str) -> dict[str, list[str]]:
    """By command: the lines it prints, for a book in the folder we are in."""
    found = {}
    for line in RUN:
        name, *rest = shlex.split(line.format(book=folder, house=house, owner=owner), posix=True)
        named = folder in rest or name in ("explain", "changes", "nonsense")
        words = [name, *([] if named else [folder]), *rest]
        result = CliRunner().invoke(cli, words)
        if result.exception and not isinstance(result.exception, SystemExit):
            raise result.exception
        found[line] = result.output.splitlines()
    return found


@pytest.fixture(params=BOOKS)
def outputs(request: pytest.FixtureRequest, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> dict[str, list[str]]:
    name = str(request.param)
    folder = tmp_path / name.replace(" ", "-")
    folder.mkdir()
    for file in (SAMPLES / ("saltmarsh" if name == "long names" else name)).glob("*.book"):
        text = file.read_text(encoding="utf-8")
        for short, long in LONG.items() if name == "long names" else ():
            text = text.replace(short, long)
        (folder / file.name).write_text(text, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(opening, "today", lambda: date(2026, 11, 25))
    return printed(folder.name, BOOKS[name], "imogen")


WRITERS = {"new", "pack", "watch"}  # what they give goes into files


def test_every_command_is_run() -> None:
    assert {line.split()[0] for line in RUN} - {"nonsense"} == set(COMMANDS) - WRITERS


def test_it_says_something_of_each(outputs: dict[str, list[str]]) -> None:
    """Guards the tests below: at the most a few commands have nothing to say of a book."""
    refused = [line for line, lines in outputs.items() if len(lines) < 5]

    assert len(refused) < 12, refused


def test_no_line_is_wider_than_its_page(outputs: dict[str, list[str]]) -> None:
    wide = []
    for command, lines in outputs.items():
        page = ACROSS if command.startswith("next") and not lines[0].startswith(("Usage", "There")) else WIDTH
        kept = False  # what is to be written stands as it is
        for line in lines:
            kept = line.strip() == "Write:" or kept and line.startswith("      ")
            wide += [(command, line)] if len(line) > page and not kept else []

    assert wide == []


def test_nothing_is_told_by_colour_or_by_tabs(outputs: dict[str, list[str]]) -> None:
    steers = re.compile(r"[\x00-\x1f\x7f-\x9f]")

    assert [(c, line) for c, lines in outputs.items() for line in lines if steers.search(line)] == []


def test_no_line_ends_in_blanks(outputs: dict[str, list[str]]) -> None:
    assert [(c, line) for c, lines in outputs.items() for line in lines if line != line.rstrip()] == []


SUM = re.compile(r"(?<=  )[-+]?£[\d,]+\.\d\d$")


def test_sums_at_the_end_of_lines_stand_under_one_another(outputs: dict[str, list[str]]) -> None:
    """In a run of lines of one indentation; lines further in are words that go on, or what stands under a line."""
    off = []
    for command, lines in outputs.items():
        run: dict[int, int] = {}  # where sums end, by the indentation of their lines
        for line in [*lines, ""]:
            inset = len(line) - len(line.lstrip())
            run = {at: end for at, end in run.items() if line and at <= inset}
            if SUM.search(line):
                off += [(command, line)] if run.setdefault(inset, len(line)) != len(line) else []

    assert off == []
