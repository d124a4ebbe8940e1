"""What the commands choose and how they end: years, houses, options, status, and the keys of their JSON."""

from __future__ import annotations

import json
import re
from datetime import date
from pathlib import Path
from typing import Any

import click
import pytest
from click.testing import CliRunner, Result

from ledger_tools.book.build import build
from ledger_tools.commands import cli
from ledger_tools.commands.audit import book_and_item
from ledger_tools.commands.opening import choose_houses, choose_year

TWO = """
landlord x "X"
property a "1 A Street"
    bought 1 May 2015 for £100,000
    as bought lettable
    price normal
tenancy t at a
    tenants "T. Enant"
    periodic from 1 Jun 2015
    rent £500 a month
property b "2 B Street"
    bought 1 May 2016 for £50,000
    as bought lettable
    price normal
tenancy u at b
    tenants "U. Sher"
    periodic from 1 Jun 2016
    rent £400 a month
1 Jul 2025 received rent £500.00 from t
1 Jul 2025 received rent £400.00 from u
"""
WORKS = (
    'at a\n2 Jul 2025 repaired tap £60.00 by "P", worn out\n3 Jul 2025 paid carpet £70.00 to "C"\n'
    'at b\n2 Jul 2025 replaced kitchen £3,000.00 by "P"\n'
)
DOUBT = 'at a\n1 Apr 2015 repaired gate £20.00 by "P", worn out\n'  # before the house was ours


def run(folder: Path, text: str, *words: str) -> Result:
    """A command with a book of this text; nothing but a status may come of it."""
    (folder / "a.book").write_text(text, encoding="utf-8")
    result = CliRunner().invoke(cli, [words[0], str(folder), *words[1:]])
    if result.exception and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result


# ── years ────────────────────────────────────────────────────────────────────────────────────────────────────────

LINE = '{} paid insurance £9.00 to "I" at a\n'


def year(*days: str, text: str | None = None, on: date = date(2026, 11, 25)) -> str:
    return str(choose_year(build({"a.book": 'property a "A"\n' + "".join(map(LINE.format, days))}), text, on))


def test_the_last_year_of_the_book_that_has_ended_is_chosen() -> None:
    days = ("1 Jul 2023", "1 Jul 2024", "1 Jul 2025")

    assert year(*days) == "2025-26"
    assert year(*days, on=date(2026, 4, 6)) == "2025-26"
    assert year(*days, on=date(2026, 4, 5)) == "2024-25"  # its last day has not passed
    assert year("1 Jul 2022", "1 Jul 2024", on=date(2024, 4, 6)) == "2023-24"  # a year without lines between others


def test_the_first_year_where_none_has_ended_and_the_day_s_where_there_are_no_lines() -> None:
    assert year("1 Jul 2025", "1 Jul 2026", on=date(2025, 8, 1)) == "2025-26"
    assert year(on=date(2025, 4, 5)) == "2024-25"
    assert year(on=date(2025, 4, 6)) == "2025-26"


@pytest.mark.parametrize("text", ["2024-25", "24-25", "2024/25", "2024-2025", " 2024-25 "])
def test_a_year_is_read_as_people_write_it(text: str) -> None:
    assert year("1 Jul 2025", text=text) == "2024-25"


@pytest.mark.parametrize("text", ["2024", "2024-26", "2024-", "last", "1999-00", "2015-16", "2025-24"])
def test_a_year_that_is_none_or_is_not_held_is_refused(text: str) -> None:
    with pytest.raises(click.BadParameter):
        year("1 Jul 2025", text=text)
    assert year("1 Jul 2025", text="2016-17") == "2016-17"


def test_a_book_that_ended_before_the_first_year_held_says_so() -> None:
    with pytest.raises(click.BadParameter, match="2016-17"):
        year("1 Jul 2010")


# ── houses ───────────────────────────────────────────────────────────────────────────────────────────────────────


def test_houses_are_all_or_the_one_named() -> None:
    book = build({"a.book": TWO})

    assert choose_houses(book, None) == ["a", "b"]
    assert choose_houses(book, "B") == ["b"]
    with pytest.raises(click.BadParameter, match="It has a, b"):
        choose_houses(book, "saltmarsh")


def test_profit_of_one_house_of_several_is_that_house_alone(tmp_path: Path) -> None:
    def houses(*words: str) -> list[tuple[str | None, str]]:
        told = json.loads(run(tmp_path, TWO, "profit", "--format", "json", "--year", "2025-26", *words).stdout)
        return [(h["property"], h["result"]["money"]) for h in told["houses"]]

    assert houses() == [("a", "500.00"), ("b", "400.00"), (None, "900.00")]
    assert houses("--property", "b") == [("b", "400.00")]
    one = TWO[: TWO.index("property b")] + "1 Jul 2025 received rent £500.00 from t\n"
    told = json.loads(run(tmp_path, one, "profit", "--format", "json", "--year", "2025-26").stdout)
    assert [h["property"] for h in told["houses"]] == ["a"]


def test_a_house_the_book_does_not_have_is_refused_with_a_near_one(tmp_path: Path) -> None:
    for command in ("profit", "audit"):
        result = run(tmp_path, TWO.replace("property b ", "property mill-3 ").replace("at b", "at mill-3"), command,
                     "--property", "mil-3")  # fmt: skip

        assert result.exit_code == 2
        assert "Did you mean mill-3?" in result.output


def audited(folder: Path, *words: str) -> list[str]:
    told = json.loads(run(folder, TWO + WORKS, "audit", "--format", "json", *words).stdout)
    return [item["things"][0] for item in told["items"]]


def test_audit_shows_works_or_all_or_only_what_is_open(tmp_path: Path) -> None:
    assert audited(tmp_path) == ["tap", "kitchen", "carpet"]  # a money line too, where it is open
    assert audited(tmp_path, "--all") == ["rent", "rent", "tap", "kitchen", "carpet"]
    assert audited(tmp_path, "--open") == ["kitchen", "carpet"]
    assert audited(tmp_path, "--open", "--property", "a") == ["carpet"]
    assert audited(tmp_path, "--property", "b") == ["kitchen"]


def test_audit_shows_a_line_of_several_houses_under_each(tmp_path: Path) -> None:
    shared = '2 Jul 2025 paid insurance £9.00 to "I" across a and b, split equally\n'

    for house in "ab":
        told = json.loads(run(tmp_path, TWO + shared, "audit", "--all", "--format", "json", "--property", house).stdout)
        assert [i["things"] for i in told["items"]] == [["rent"], ["insurance"]]


def test_audit_of_nothing_says_so(tmp_path: Path) -> None:
    assert "Nothing of that kind" in run(tmp_path, TWO, "audit", "--open").output


@pytest.mark.parametrize(
    ("words", "book", "item"),
    [
        ((), ".", ""),
        (("lets",), "lets", ""),  # a folder that is there
        (("lets/a.book",), "lets/a.book", ""),
        (("lets", "tap"), "lets", "tap"),
        (("lets", "fridge", "freezer"), "lets", "fridge freezer"),
        (("lets", "a.book:12"), "lets", "a.book:12"),
        (("12",), ".", "12"),  # nothing of that name is there, so it is an item
        ((":12",), ".", ":12"),
        (("a.book:12",), ".", "a.book:12"),
        (("fridge", "freezer"), ".", "fridge freezer"),
        (("lets/a.book:12",), "lets", "lets/a.book:12"),  # its folder is the book
        (("nowhere.book",), "nowhere.book", ""),  # can be nothing but a book, so it is missed as one
        (("no/where",), "no/where", ""),
    ],
)
def test_which_book_and_which_item_is_meant(
    words: tuple[str, ...], book: str, item: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "lets").mkdir()
    (tmp_path / "lets" / "a.book").write_text(TWO, encoding="utf-8")
    monkeypatch.chdir(tmp_path)

    assert book_and_item(words) == (Path(book), item)


def test_one_item_in_the_current_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "a.book").write_text(TWO + WORKS, encoding="utf-8")
    monkeypatch.chdir(tmp_path)

    for words in (["tap"], ["22"], ["a.book:22"]):
        result = CliRunner().invoke(cli, ["audit", *words])
        assert result.exit_code == 0
        assert "repaired tap" in result.output and "There it stopped" in result.output
        told = json.loads(CliRunner().invoke(cli, ["audit", *words, "--format", "json"]).stdout)
        assert [item["things"] for item in told["items"]] == [["tap"]]
        assert told["items"][0]["asked"][0]["asked"][-1]["ends"] is True


def test_an_item_that_is_not_there_ends_with_status_2(tmp_path: Path) -> None:
    result = run(tmp_path, TWO + WORKS, "audit", "tapp")

    assert result.exit_code == 2
    assert "Did you mean tap?" in result.output


# ── status ───────────────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("command", ["audit", "profit", "year-end"])
def test_no_figures_of_a_book_with_errors_but_of_one_with_doubts(tmp_path: Path, command: str) -> None:
    wrong = run(tmp_path, TWO + "5 Jul 2025 paid insurance to t\n", command)
    doubtful = run(tmp_path, TWO + DOUBT, command)

    assert wrong.exit_code == 1
    assert wrong.stdout == ""
    assert "No figures while the book has errors" in wrong.stderr and "no £ here" in wrong.stderr
    assert doubtful.exit_code == 0 and doubtful.stdout


def test_errors_alone_are_printed_where_figures_are_refused(tmp_path: Path) -> None:
    result = run(tmp_path, f"{TWO}5 Jul 2025 paid insurance to t\n{DOUBT}", "profit")

    assert "before it was yours" not in result.output
    assert "before it was yours" in run(tmp_path, f"{TWO}5 Jul 2025 paid insurance to t\n{DOUBT}", "proof").output


@pytest.mark.parametrize("command", ["audit", "profit", "year-end", "proof"])
def test_where_there_is_no_book_every_command_ends_with_status_1(tmp_path: Path, command: str) -> None:
    for place in (tmp_path, tmp_path / "nowhere", tmp_path / "nowhere.book"):
        result = CliRunner().invoke(cli, [command, str(place)])

        assert result.exit_code == 1
        assert isinstance(result.exception, SystemExit)
        assert result.output.strip()


def test_no_book_is_told_as_json_too(tmp_path: Path) -> None:
    result = CliRunner().invoke(cli, ["proof", str(tmp_path), "--format", "json"])

    assert result.exit_code == 1
    assert len(json.loads(result.stdout)["problems"]) == 1


def test_proof_ends_with_status_1_only_where_there_are_errors(tmp_path: Path) -> None:
    assert run(tmp_path, TWO, "proof").exit_code == 0
    assert run(tmp_path, TWO + DOUBT, "proof").exit_code == 0
    assert run(tmp_path, TWO + "5 Jul 2025 paid insurance to t\n", "proof").exit_code == 1


def test_quiet_leaves_out_doubts_and_keeps_errors(tmp_path: Path) -> None:
    def codes(text: str, *words: str) -> list[str]:
        return [
            p["code"] for p in json.loads(run(tmp_path, text, "proof", "--format", "json", *words).stdout)["problems"]
        ]

    both = f"{TWO}5 Jul 2025 paid insurance to t\n{DOUBT}"
    assert {"no-amount", "before-bought"} <= set(codes(both))
    assert codes(both, "--quiet") == ["no-amount"]
    assert codes(TWO + DOUBT, "--quiet") == []
    assert run(tmp_path, both, "proof", "--quiet").exit_code == 1
    assert run(tmp_path, TWO + DOUBT, "proof", "--quiet").exit_code == 0


def test_proof_takes_the_day_it_is_given_as_today(tmp_path: Path) -> None:
    def future(on: str) -> bool:
        return "not-yet" in run(tmp_path, TWO, "proof", "--format", "json", "--on", on).stdout

    assert (future("2025-06-30"), future("2025-07-01"), future("1 Jul 2025")) == (True, False, False)
    assert run(tmp_path, TWO, "proof", "--on", "soon").exit_code == 2
    assert "1900 to 2200" in run(tmp_path, TWO, "proof", "--on", "9999-12-31").output


# ── JSON ─────────────────────────────────────────────────────────────────────────────────────────────────────────

PAGE = (Path(__file__).parents[2] / "DEVELOPERS.md").read_text(encoding="utf-8")
OF_JSON = " ".join(PAGE[PAGE.index("\n## JSON") : PAGE.index("\n## Release")].split())
SOMETIMES = {"counts"}  # a line of a figure that counts on another day than its own


def documented(pattern: str) -> set[str]:
    """The names in the first braces that a pattern of the page finds."""
    found = re.search(pattern, OF_JSON)
    assert found, pattern
    words = re.sub(r"\[\{.*?\}\]|\{[^{}]*\}|\"(profit|year-end)\"", "", found[1])
    return {word.strip().split(":")[0].strip('" ') for word in words.split(",")}


LINE_KEYS = documented(r"in a figure: `\{(.*?)\}`")


def figure_lines(value: Any) -> list[dict[str, Any]]:
    """Every line of the book in any figure."""
    if isinstance(value, list):
        return [line for part in value for line in figure_lines(part)]
    if isinstance(value, dict):
        return [*value.get("lines", ()), *(line for part in value.values() for line in figure_lines(part))]
    return []


def test_the_page_is_read_as_it_stands() -> None:
    assert {"source", "day", "words", "amount"} == LINE_KEYS
    assert "cautions" in documented(r"`year-end`: `\{(.*?)\}`;")


def test_proof_has_the_keys_of_the_page(tmp_path: Path) -> None:
    told = json.loads(
        run(tmp_path, TWO + DOUBT + "5 Jul 2025 paid insurance to t\n", "proof", "--format", "json").stdout
    )

    assert set(told) == {"problems"}
    for problem in told["problems"]:
        assert set(problem) == documented(r"\"problems\": \[\{(.*?)\}\]\}")
        assert all(set(mark) == documented(r"marks: \[\{(.*?)\}\]") for mark in problem["marks"])


def test_profit_has_the_keys_of_the_page(tmp_path: Path) -> None:
    told = json.loads(run(tmp_path, TWO + WORKS, "profit", "--format", "json", "--year", "2025-26").stdout)

    assert set(told) == {"statement", "houses"} and told["statement"] == "profit"
    for house in told["houses"]:
        assert set(house) == documented(r"\"houses\": \[\{(.*?)\}\]\}")
        for line in (*house["income"], *house["expenses"]):
            assert set(line) == documented(r"a line is `\{(.*?\}), tax") | {"tax"}
            assert set(line["money"]) == set(line["tax"]) == documented(r"tax: \{(.*?)\}")
    lines = figure_lines(told)
    assert lines and all(set(line) - SOMETIMES == LINE_KEYS for line in lines)


def test_year_end_has_the_keys_of_the_page(tmp_path: Path) -> None:
    told = json.loads(run(tmp_path, TWO + WORKS, "year-end", "--format", "json", "--year", "2025-26").stdout)

    assert set(told) == documented(r"`year-end`: `\{(.*?)\}`;")
    for owner in told["owners"]:
        assert set(owner) == documented(r"\"owners\": \[\{(.*?)\}\]")
        assert owner["boxes"] and owner["open"]
        assert all(set(box) == documented(r"a box is `\{(.*?)\}`") for box in owner["boxes"])
    lines = figure_lines(told)
    assert lines and all(set(line) - SOMETIMES == LINE_KEYS for line in lines)


def test_money_in_json_is_pounds_with_two_decimals_and_days_are_year_month_day(tmp_path: Path) -> None:
    told = json.loads(run(tmp_path, TWO + WORKS, "year-end", "--format", "json", "--year", "2025-26").stdout)

    for line in figure_lines(told):
        assert re.fullmatch(r"-?\d+\.\d\d", line["amount"])
        assert re.fullmatch(r"\d{4}-\d\d-\d\d", line["day"])
        assert re.fullmatch(r".*a\.book:\d+", line["source"])


def test_proof_holds_nothing_against_a_book_with_errors(tmp_path: Path) -> None:
    """What was told elsewhere is held against verdicts, and there are none while the book has errors."""
    told = (
        'property mill-3 "3 Mill Lane, Wold"\n    bought 10 Jun 2025 for £120,000\n    as bought lettable\n'
        "    price normal\n"
        '24 Jun 2025 claimed works discount from "Wold Council", called it unfit\n'
        "9 Jul 2025 replaced boiler £2,310.00, modern equivalent, worn out\n"
    )

    def codes(text: str) -> list[str]:
        return [p["code"] for p in json.loads(run(tmp_path, text, "proof", "--format", "json").stdout)["problems"]]

    assert codes(told) == ["said-unfit"]
    assert codes(told + "9 Jul 2025 paid insurance\n") == ["no-amount"]


def test_audit_tells_conflicts_of_the_houses_asked_for_as_data(tmp_path: Path) -> None:
    told = (
        'property mill-3 "3 Mill Lane, Wold"\n    bought 10 Jun 2025 for £120,000\n    as bought lettable\n'
        'property dock-9 "9 Dock Road"\n    bought 10 Jun 2025 for £90,000\nat mill-3\n'
        '24 Jun 2025 claimed works discount from "Wold Council", called it unfit, because "no heating"\n'
        '1 Jul 2025 refused works discount by "Wold Council"\n'
        "9 Jul 2025 replaced boiler £2,310.00, modern equivalent, worn out\n"
    )

    def conflicts(*words: str) -> list[dict[str, object]]:
        found: list[dict[str, object]] = json.loads(run(tmp_path, told, "audit", "--format", "json", *words).stdout)[
            "conflicts"
        ]
        return found

    (conflict,) = conflicts("--property", "mill-3")
    assert conflict["code"] == "said-unfit" and conflict["amount"] == "2310.00"
    assert conflict["said"]["words"] == "no heating" and conflict["said"]["answer"] == "refused"  # type: ignore[index]
    assert [item["amount"] for item in conflict["held_against"]] == ["2310.00"]  # type: ignore[attr-defined]
    assert conflicts("--property", "dock-9") == []


# ── new, and a sale that is considered ───────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(
    "typed, name, address",
    [
        ("14 Brick Street", "brick-14", "14 Brick Street"), ("Flat 2, Cedar Court", "flat-2", "Flat 2, Cedar Court"),
        ("mill 3", "mill-3", "mill 3"), ("The Old Mill", "old-mill", "The Old Mill"),
        ("mill-3", "mill-3", "Address, Town"),
    ],
)  # fmt: skip
def test_an_address_without_quotation_marks_gets_a_short_name(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, typed: str, name: str, address: str
) -> None:
    monkeypatch.chdir(tmp_path)
    assert CliRunner().invoke(cli, ["new", *typed.split()]).exit_code == 0
    text = (tmp_path / f"{name}.book").read_text(encoding="utf-8")
    assert f'property {name} "{address}"' in text
    assert build({"a.book": text}).problems == ()


@pytest.mark.parametrize(
    "typed, price",
    [("sell the house for £150,000", "150000"), ("sell house £90,500.00", "90500"), ("sell my flat", "…")],
)
def test_a_sale_that_is_considered_is_sent_to_the_command_for_it(tmp_path: Path, typed: str, price: str) -> None:
    said = run(tmp_path, TWO, "consider", typed)
    assert said.exit_code == 1
    assert f"landlord-books base-cost {tmp_path} --price {price}\n" in said.output


def test_a_loose_thing_that_is_sold_is_no_sale_of_the_house(tmp_path: Path) -> None:
    assert "base-cost" not in run(tmp_path, TWO, "consider", "sell house plant £9").output
