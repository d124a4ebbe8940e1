"""Nothing is typed twice: one line moves the schedule, the budget, the ledger, the verdict and the diary.

The house and its people are invented. Each output is asked of the command line before and after the line is written.
"""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path
from typing import Any

from click.testing import CliRunner

from ledger_tools.commands import cli

BOOK = """
landlord ines "Ines Harrow"
supplier volt "Volt Electrical"
    trade electrician
property kiln-7 "7 Kiln Lane, Wold"
    nation england
    exchanged 14 Feb 2025
    bought 1 Mar 2025 for £100,000, additional dwelling
    as bought lettable
    price normal
    rooms kitchen, lounge
schedule kiln-7 "ready to let"
    target let from 1 Jul 2025 at £600 a month
    contingency 10%
    in whole house
        1 certify electrical installation £180 by electrician
        2 replace gutters £600
    in lounge
        3 decorate walls £50, own labour

at kiln-7
1 Mar 2025  paid stamp duty £5,000.00
2 Apr 2025  decorated lounge £41.20 from "Paint Counter", own labour, worn out
"""
LINE = "9 Apr 2025  certified electrical installation £195.00 by volt, satisfactory, expires 8 Apr 2030\n"


def ask(folder: Path, *words: str) -> str:
    command = [words[0], str(folder), *words[1:], "--format", "json"]
    result = CliRunner().invoke(cli, command[:-2] if "csv" in words else command)
    assert result.exit_code == 0, result.output
    return str(result.stdout)


def outputs(folder: Path) -> dict[str, Any]:
    on = ("--on", "2025-04-30")
    asked = {
        "schedule": ("next", *on),
        "budget": ("refurb", *on),
        "verdict": ("audit",),
        "diary": ("diary", "--weeks", "300", *on),
        "worth": ("worth", *on),
    }
    told = {name: json.loads(ask(folder, *words)) for name, words in asked.items()}
    ledger = ask(folder, "profit", "--year", "2025-26", "--format", "csv", "--table", "money")
    return told | {"ledger": list(csv.DictReader(io.StringIO(ledger)))}


def dicts(told: Any) -> list[dict[str, Any]]:
    """Every object of a JSON form, however deep."""
    inner = told.values() if isinstance(told, dict) else told if isinstance(told, list) else ()
    return ([told] if isinstance(told, dict) else []) + [found for one in inner for found in dicts(one)]


def job(told: Any) -> dict[str, Any]:
    """What a statement says of the job that the line does."""
    return next(one for one in dicts(told) if one.get("job") == "certify electrical installation")


def moved(told: dict[str, Any]) -> dict[str, Any]:
    """What the line is to move, as each output tells it."""
    papers = told["schedule"]["schedules"][0]["certificates"]
    return {
        "schedule": (job(told["schedule"])["state"], [p["expires"] for p in papers if p["name"] == "wiring"]),
        "budget": (job(told["budget"])["billed"]["amount"], told["budget"]["schedules"][0]["total"]["forecast"]),
        "verdict": [i["parts"][0]["amount"] for i in told["verdict"]["items"] if i["verb"] == "certified"],
        "diary": [due["day"] for due in told["diary"]["due"] if due["kind"] == "paper"],
        "ledger": [(row["account"], row["sum"]) for row in told["ledger"] if row["verb"] == "certified"],
        "worth": told["worth"]["houses"][0]["total"]["amount"],
    }


def test_one_line_moves_all_of_them(tmp_path: Path) -> None:
    book = tmp_path / "kiln.book"
    book.write_text(BOOK, encoding="utf-8")
    before = moved(outputs(tmp_path))
    book.write_text(BOOK + LINE, encoding="utf-8")
    after = moved(outputs(tmp_path))

    assert before == {
        "schedule": ("to do", [None]), "budget": ("0.00", "821.20"), "verdict": [], "diary": [], "ledger": [],
        "worth": "105041.20",
    }  # fmt: skip
    assert after == {
        "schedule": ("done", ["2030-04-08"]), "budget": ("195.00", "836.20"), "verdict": ["195.00"],
        "diary": ["2030-04-08"], "ledger": [("before any letting", "195.00")], "worth": "105236.20",
    }  # fmt: skip


def test_the_line_is_where_each_of_them_says_it_is(tmp_path: Path) -> None:
    (tmp_path / "kiln.book").write_text(BOOK + LINE, encoding="utf-8")
    place = f"kiln.book:{len((BOOK + LINE).splitlines())}"

    for name, told in outputs(tmp_path).items():
        assert place in json.dumps(told), name
