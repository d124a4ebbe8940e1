"""The pages of `worth`, `rents`, `void`, `refurb`, `diary` and `next`: what their text says, with lines that add up."""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Iterator
from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path

import pytest
from click.testing import CliRunner

from ledger_tools.commands import cli
from ledger_tools.commands.output import Output
from ledger_tools.money import plain
from ledger_tools.render.page import Column, Page, Row, Section, Sum, Table
from ledger_tools.render.places import Places
from ledger_tools.render.sheets import as_csv, choose, lines

from .pages import HARBOUR, NASTY, ON, STATEMENTS, page, run
from .reading import Read

OURS = ("worth", "worth-harbour", "rents", "void", "void-harbour", "refurb", "diary", "next")
TOTALS = tuple(name for name in OURS if name != "diary")


def built(name: str, monkeypatch: pytest.MonkeyPatch) -> Page:
    """The page of a statement before it is drawn."""
    pages: list[Page] = []
    monkeypatch.setattr(Output, "page", lambda out, page, *_: pages.append(page))
    run(*STATEMENTS[name], "--format", "html")
    return pages[0]


def sums(found: Page) -> Iterator[Sum]:
    for _, table in found.tables():
        for row in table.rows:
            yield from (cell for cell in row.cells if isinstance(cell, Sum))


def table(name: str, *more: str) -> list[dict[str, str]]:
    """A statement as CSV, read again."""
    return list(csv.DictReader(io.StringIO(run(*STATEMENTS[name], "--format", "csv", *more))))


@pytest.mark.parametrize("name", TOTALS)
def test_a_figure_is_the_sum_of_its_lines(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    found = [cell for cell in sums(built(name, monkeypatch)) if cell.trail]

    assert found
    assert [cell for cell in found if cell.pence != sum(t.pence for t in cell.trail)] == []


@pytest.mark.parametrize("name", TOTALS)
def test_totals_name_the_rows_they_add(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    found = built(name, monkeypatch)

    assert any(cell.adds for cell in sums(found))
    for _, one in found.tables():
        rows = {row.key: row for row in one.rows if row.key}
        assert len(rows) == sum(bool(row.key) for row in one.rows)
        for row in one.rows:
            for i, cell in enumerate(row.cells):
                if isinstance(cell, Sum) and cell.adds:
                    parts = [(rows[key].cells[i], sign) for key, sign in cell.adds]
                    assert cell.pence == sum(sign * part.pence for part, sign in parts if isinstance(part, Sum))


@pytest.mark.parametrize("name", OURS)
def test_every_line_behind_a_figure_stands_in_the_book(name: str) -> None:
    read = Read(page(name))

    assert read.wrong == []
    assert not [tag for tag, _ in read.tags if tag in ("script", "link", "img")]
    assert len([link for link in read.links if link.startswith("#b")]) > 10


@pytest.mark.parametrize("name", OURS)
def test_the_workbook_reads_back_as_the_page(name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    openpyxl = pytest.importorskip("openpyxl", reason="workbooks need openpyxl (the extra xlsx)")
    run(*STATEMENTS[name], "--output", str(tmp_path / "a.xlsx"))
    found = built(name, monkeypatch)

    book = openpyxl.load_workbook(tmp_path / "a.xlsx")
    shown = [field.value for line in book[found.statement.capitalize()].iter_rows() for field in line]
    formulas = [value for value in shown if isinstance(value, str) and value.startswith("=ROUND(")]
    told = [cell for cell in sums(found) if cell.trail or cell.adds]
    assert len(formulas) == len(told)
    assert book["Lines"].max_row - 1 == len(list(lines(found)))


# ── each in its own words ────────────────────────────────────────────────────────────────────────────────────────


def test_what_went_into_a_house_is_what_the_json_says() -> None:
    told = json.loads(run(*STATEMENTS["worth"], "--format", "json"))["houses"][0]
    rows = {row["what"]: row["sum"] for row in table("worth")}

    assert rows["total cost in"] == told["total"]["amount"]
    assert rows["your own money in it"] == told["cash"]["amount"]
    years = {row["what"]: row for row in table("worth", "--table", "year")}
    assert [years["left over"][year["label"]] for year in told["years"]] == [year["left"] for year in told["years"]]


def test_a_ratio_tells_what_it_is_of_what() -> None:
    rows = {row["what"]: row for row in table("worth", "--table", "year")}
    bases = {row["what"]: row["sum"] for row in table("worth", "--table", "bases")}

    told = 0
    for what, row in rows.items():
        for column, said in re.findall(r"(Collected|As agreed|Tried): ([^:]*?)\.(?= [A-Z]|$)", row["note"]):
            if "over the months" in said:
                continue
            above, _, over = said.partition(", over ")
            first, *less = [Decimal(n.replace(",", "")) for n in re.findall(r"£([\d,.]+\d)", above)]
            base = Decimal(re.findall(r"£([\d,.]+\d)", over)[0].replace(",", ""))
            shown = row[column.lower()]
            share = (first - sum(less)) / base
            places = Decimal("0.1") if "cover" not in what else Decimal("0.01")
            value = share * 100 if shown.endswith("%") else share
            assert value.quantize(places, ROUND_HALF_UP) == Decimal(shown.removesuffix("%")), (what, said)
            assert "left over" in over or "interest" in over or f"{base:.2f}" in bases.values()
            told += 1
    assert told > 12


def test_the_capital_record_grows_to_what_it_is() -> None:
    arguments = ("base-cost", HARBOUR, *ON)
    told = {house["name"]: house["total"] for house in json.loads(run(*arguments, "--format", "json"))["houses"]}
    rows = list(csv.DictReader(io.StringIO(run(*arguments, "--format", "csv", "--table", "grew"))))

    last: dict[str, str] = {}
    for row in rows:
        before = Decimal(last.get(row["of"], "0"))
        assert Decimal(row["by its end"]) == before + Decimal(row["added"])
        last[row["of"]] = row["by its end"]
    assert len(last) >= 3
    for section, held in last.items():
        assert held == next(total for name, total in told.items() if section.startswith(name))


def test_years_of_houses_with_other_columns_line_up_by_name() -> None:
    left, right = Column("collected", right=True), Column("tried", right=True)
    tables = (
        Table("year", "A", (Column("what"), left), (Row(("rent", Sum(100))),)),
        Table("year", "B", (Column("what"), right, left), (Row(("rent", Sum(300), Sum(200))),)),
    )
    both = Page("t", "T", tuple(Section(one.title, (one,)) for one in tables), "")

    assert as_csv(choose(both, ()), Places({})).splitlines() == [
        "of,group,what,collected,tried,note", "A,,rent,1.00,,", "B,,rent,2.00,3.00,",
    ]  # fmt: skip


def test_rent_that_is_owed_is_what_the_json_says() -> None:
    houses = json.loads(run(*STATEMENTS["rents"], "--format", "json"))["houses"]
    told = [let["rent"] for house in houses for let in house["lets"] if let["rent"]]
    rows = table("rents")

    assert [row["sum"] for row in rows if row["what"] == "owed"] == [rent["owed"] for rent in told]
    arrears = table("rents", "--table", "arrears")
    assert [row["still owed"] for row in arrears] == [one["amount"] for rent in told for one in rent["arrears"]]


def test_council_tax_of_the_days_adds_up_to_what_is_owed() -> None:
    told = json.loads(run(*STATEMENTS["void"], "--format", "json"))["houses"][0]
    rows = table("void")

    days = [Decimal(row["amount"]) for row in rows[:-1] if row["amount"]]
    assert rows[-1]["amount"] == str(sum(days)) and sum(days) > 0
    assert f"You owe £{rows[-1]['amount']}" in run(*STATEMENTS["void"])
    assert told["bills"]


def test_a_letter_goes_into_a_file_as_text_and_in_no_other_form(tmp_path: Path) -> None:
    letter = (*STATEMENTS["void"], "--letter")
    run(*letter, "--output", str(tmp_path / "letter.txt"))

    assert (tmp_path / "letter.txt").read_text(encoding="utf-8") == run(*letter)
    refused = CliRunner().invoke(cli, [*letter, "--format", "html"])
    assert refused.exit_code == 2 and "The letter is text" in refused.output


def test_works_come_to_what_the_json_says() -> None:
    told = json.loads(run(*STATEMENTS["refurb"], "--format", "json"))["schedules"][0]
    jobs = table("refurb")
    totals = {row["what"]: row for row in table("refurb", "--table", "totals")}

    assert jobs[-1]["billed"] == told["total"]["billed"]
    assert sum(Decimal(row["billed"] or 0) for row in jobs[:-1]) == Decimal(told["total"]["billed"])
    assert totals["in all"]["when done"] == told["in_all_when_done"]


def test_dates_to_watch_are_those_of_the_json_with_what_to_do() -> None:
    told = json.loads(run(*STATEMENTS["diary"], "--format", "json"))
    rows = table("diary")

    every = [*told["overdue"], *told["due"], *told["could_be_done"]]
    assert [row["day"] for row in rows] == [one["day"] for one in every]
    assert all(row["note"].startswith(one["ask"]) for row, one in zip(rows, every, strict=True))
    assert {row["group"] for row in rows} <= {"overdue", "falls due", "could be done"}


def test_a_calendar_file_is_known_by_its_name(tmp_path: Path) -> None:
    pytest.importorskip("icalendar", reason="calendar files need icalendar (the extra calendar)")
    run(*STATEMENTS["diary"], "--output", str(tmp_path / "a.ics"))

    written = (tmp_path / "a.ics").read_text(encoding="utf-8")
    assert written.startswith("BEGIN:VCALENDAR") and "END:VCALENDAR" in written


def test_what_is_to_do_is_every_job_that_is_not_done() -> None:
    told = json.loads(run(*STATEMENTS["next"], "--format", "json"))["schedules"][0]
    rows = table("next")

    jobs = [job for room in told["rooms"] for job in room["jobs"]]
    waiting = [job for job in jobs if job["state"] not in ("done", "called off", "kept")]
    assert len(waiting) > 3
    assert all(any(job["job"] in row["job"] for row in rows) for job in waiting)
    delay = table("next", "--table", "delay")
    assert delay[-1]["a day"] == told["day_cost"]["amount"]


@pytest.mark.parametrize("command", ["worth", "rents", "void", "diary"])
def test_nasty_names_are_words(command: str, tmp_path: Path) -> None:
    (tmp_path / "n.book").write_text(NASTY, encoding="utf-8")
    read = Read(run(command, str(tmp_path), *ON, "--format", "html"))

    assert read.wrong == []
    assert not [tag for tag, _ in read.tags if tag in ("script", "img", "b")]


def test_a_line_that_a_sentence_names_leads_to_the_book_without_its_folder() -> None:
    text = page("void-harbour")

    assert "(sample_books" not in text and str(Path(HARBOUR).parent) not in text
    assert '(<a class="place" href="#b' in text


def test_lines_are_found_in_words_whatever_stands_around_them() -> None:
    places = Places({"x/a.book": "one\ntwo", "x/aa.book": "one"})

    assert places.short("see x/a.book:2, x/aa.book:1 and zx/a.book:2") == "see a.book:2, aa.book:1 and zx/a.book:2"
    assert [anchor for _, anchor in places.parts("x/a.book:2 or x/a.book:9") if anchor] == ["#b1-2"]
    assert Places({}).short("a.book:1") == "a.book:1"


def test_a_table_says_no_more_than_a_narrow_screen_holds() -> None:
    from ledger_tools.render.html import wide

    def made(count: int) -> Table:
        columns = (Column("what"), *(Column(f"c{i}", right=True) for i in range(count)))
        return Table("t", "T", columns, (Row(("a", *(Sum(123_456) for _ in range(count)))),))

    assert plain(123_456) == "1234.56" and not wide(made(2)) and wide(made(3))
