"""CSV and workbooks: real numbers and days, totals that recalculate to the figures, words that are no formulas."""

from __future__ import annotations

import csv
import io
import json
import re
import shutil
import subprocess
import zipfile
from datetime import date, datetime
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from ledger_tools.commands.output import Output
from ledger_tools.render.page import Column, Page, Row, Section, Sum, Table
from ledger_tools.render.places import Places
from ledger_tools.render.sheets import NoSuchTable, as_csv, choose, words_only
from ledger_tools.statements.figures import Trace

from .pages import HARBOUR, NASTY, ON, SALTMARSH, STATEMENTS, packs, run

NOWHERE = Places({})


def sheet(*rows: Row) -> Page:
    """A page with one table."""
    return Page("t", "T", (Section("S", (Table("sums", "T", (Column("a"), Column("b", right=True)), rows),)),), "")


def table(name: str, *more: str) -> list[list[str]]:
    """A statement as CSV, read again."""
    return list(csv.reader(io.StringIO(run(*STATEMENTS[name], "--format", "csv", *more))))


@pytest.mark.parametrize("name", STATEMENTS)
def test_every_total_is_the_sum_of_the_rows_it_names(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    pages: list[Page] = []
    monkeypatch.setattr(Output, "page", lambda out, page, *_: pages.append(page))
    run(*STATEMENTS[name], "--format", "html")

    totals = 0
    for _, found in pages[0].tables():
        rows = {row.key: row for row in found.rows}
        for row in found.rows:
            for i, cell in enumerate(row.cells):
                if isinstance(cell, Sum) and cell.adds:
                    parts = [(rows[key].cells[i], sign) for key, sign in cell.adds]
                    assert cell.pence == sum(sign * part.pence for part, sign in parts if isinstance(part, Sum))
                    totals += 1
    assert totals or name not in ("profit", "profit-harbour", "year-end", "year-end-harbour", "base-cost")


# ── CSV ──────────────────────────────────────────────────────────────────────────────────────────────────────────


def test_the_first_table_comes_where_none_is_named() -> None:
    rows = table("profit")

    house = "14 Saltmarsh Lane, Wexcombe, tax year 2025-26"
    assert rows[0] == ["of", "group", "what", "in money", "for tax", "note"]
    assert [house, "came in", "Rents", "8200.00", "8200.00", ""] in rows
    assert rows[-1] == [house, "", "Result", "-7743.03", "634.07", ""]


def test_lines_of_a_figure_add_up_to_it() -> None:
    figures = {row[2]: Decimal(row[3]) for row in table("profit") if row[1] == "came in"}
    lines = table("profit", "--table", "lines")

    for name, total in figures.items():
        assert sum(Decimal(line[5]) for line in lines if line[1:3] == ["profit", name]) == total
    assert {len(line) for line in lines} == {8}
    assert date.fromisoformat(lines[1][3])


def test_every_sum_of_the_book_is_a_row_of_money() -> None:
    rows = table("profit", "--table", "money")
    bought = [row for row in rows if row[10] == "purchase price"]

    assert bought[0][:6] == ["saltmarsh-14", "2025-05-23", "2025-05-23", "2025-05-23", "out", "145100.00"]
    assert all(row[13].split(":")[1].isdecimal() for row in rows[1:])


def test_houses_of_one_statement_are_one_table() -> None:
    rows = table("profit-harbour")

    assert len({row[0] for row in rows[1:]}) > 2


def test_a_table_that_is_not_there_is_told_with_those_that_are() -> None:
    with pytest.raises(NoSuchTable, match='no table "boxes" here; there are sums, lines, money'):
        choose(sheet(Row(("b", Sum(1)))), (), "boxes")


@pytest.mark.parametrize(
    "sign", ["=cmd|' /C calc'!A1", "+44 1", "-2+3", "@SUM(A1)", "\t=1+1", " =1+1", "\n=1", "＝1+1", "'=1"]
)
def test_words_never_begin_a_formula(sign: str) -> None:
    told = words_only(sign)

    assert told.startswith("'") and not told.lstrip(" ·").startswith(("=", "+", "-", "@", "＝", "\t"))
    assert "\t" not in told and "\n" not in told


@pytest.mark.parametrize("words", ["Rents", "-", "25%", "a = b", "\U0001f469\u200d\U0001f373", "\u05d0"])
def test_other_words_stay_as_they_are(words: str) -> None:
    assert words_only(words) == words


def test_a_line_break_in_a_name_breaks_no_row() -> None:
    page = sheet(Row(("x\r\ny,z", Sum(-5))))

    assert as_csv(choose(page, ()), NOWHERE) == 'of,group,a,b,note\r\nS,,"x··y,z",-0.05,\r\n'


# ── workbooks ────────────────────────────────────────────────────────────────────────────────────────────────────


def written(folder: Path, *arguments: str, name: str = "a.xlsx") -> Path:
    """A workbook of a statement."""
    pytest.importorskip("openpyxl", reason="workbooks need openpyxl (the extra xlsx)")
    run(*arguments, "--output", str(folder / name))
    return folder / name


def opened(path: Path, values: bool = False) -> Any:
    from openpyxl import load_workbook

    return load_workbook(path, data_only=values)


def test_sums_are_numbers_days_are_days_and_totals_are_formulas(tmp_path: Path) -> None:
    book = opened(written(tmp_path, *STATEMENTS["profit"]))

    assert book.sheetnames == ["Profit", "Lines", "Money"]
    lines, money = book["Lines"], book["Money"]
    assert isinstance(lines["D2"].value, datetime) and isinstance(lines["F2"].value, int | float)
    assert isinstance(money["B2"].value, datetime) and isinstance(money["F2"].value, int | float)
    formulas = {row[0].value: row[1].value for row in book["Profit"].iter_rows() if row[1].data_type == "f"}
    assert formulas["Rents"].startswith("=ROUND(SUM(Lines!F") and formulas["Result"].startswith("=ROUND(+B")


def test_words_of_a_book_are_no_formulas(tmp_path: Path) -> None:
    (tmp_path / "n.book").write_text(NASTY, encoding="utf-8")
    ours = ("=ROUND(SUM(Lines!", "=ROUND(")
    for command in ("profit", "audit", "year-end", "base-cost"):
        book = opened(written(tmp_path, command, str(tmp_path), name=f"{command}.xlsx"))
        fields = [field for sheet in book for row in sheet.iter_rows() for field in row]
        assert all(str(field.value).startswith(ours) for field in fields if field.data_type == "f")
        nasty = [f for f in fields if isinstance(f.value, str) and f.value.startswith(("=cmd", "@SUM", "+44"))]
        assert all(field.data_type == "s" and field.quotePrefix for field in nasty)
        assert nasty or command == "year-end"


def test_signs_that_a_workbook_cannot_hold_become_dots(tmp_path: Path) -> None:
    from ledger_tools.render.workbook import workbook

    pytest.importorskip("openpyxl", reason="workbooks need openpyxl (the extra xlsx)")
    table = Table("t", "T", (Column("+a"),), (Row(("\x07=b" * 20_000,)),))
    page = Page("t", "T\x00\x1b", (Section("=S", (table,)),), "")
    (tmp_path / "a.xlsx").write_bytes(workbook(page, (), NOWHERE))

    values = [field.value for row in opened(tmp_path / "a.xlsx")["T"].iter_rows() for field in row if field.value]
    assert values[:3] == ["T··", "=S", "+a"] and values[3].startswith("·=b") and len(values[3]) == 32_767


def test_the_same_page_makes_the_same_bytes(tmp_path: Path) -> None:
    one = written(tmp_path, *STATEMENTS["year-end"], name="one.xlsx")
    two = written(tmp_path, *STATEMENTS["year-end"], name="two.xlsx")

    assert one.read_bytes() == two.read_bytes()
    with zipfile.ZipFile(one) as parts:
        assert {part.date_time for part in parts.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        assert b"20" not in b"".join(re.findall(rb">([^<]*)</dcterms", parts.read("docProps/core.xml")))


def test_a_figure_that_is_not_the_sum_of_its_lines_is_no_formula(tmp_path: Path) -> None:
    from ledger_tools.render.workbook import workbook

    pytest.importorskip("openpyxl", reason="workbooks need openpyxl (the extra xlsx)")
    trail = (Trace("a.book:1", date(2025, 5, 1), "paid", 100, -1),)
    page = sheet(Row(("part", Sum(50, trail)), "p"), Row(("whole", Sum(100, trail)), "w"))
    (tmp_path / "a.xlsx").write_bytes(workbook(page, (), NOWHERE))

    told = {row[0].value: row[1].value for row in opened(tmp_path / "a.xlsx")["T"].iter_rows(max_col=2)}
    assert told["part"] == 0.5 and told["whole"] == "=ROUND(SUM(Lines!F3:F3),2)"


def recalculated(path: Path) -> Any:
    """The workbook as LibreOffice saves it after working every formula out."""
    office = shutil.which("soffice")
    if office is None:
        pytest.skip("LibreOffice is not installed, so nothing recalculates the workbook")
    out = path.parent / "out"
    command = [office, f"-env:UserInstallation=file://{path.parent}/office", "--headless", "--convert-to", "xlsx",
               "--outdir", str(out), str(path)]  # fmt: skip
    subprocess.run(command, check=True, capture_output=True, timeout=180)
    return opened(out / path.name, values=True)


def pence(value: Any) -> int:
    return round(Decimal(str(value)) * 100)


def test_a_profit_recalculates_to_the_figures_of_the_json(tmp_path: Path) -> None:
    sheet = recalculated(written(tmp_path, *STATEMENTS["profit"]))["Profit"]
    told = json.loads(run(*STATEMENTS["profit"], "--format", "json"))["houses"][0]
    found: dict[str, tuple[Any, Any]] = {}
    for row in sheet.iter_rows(max_col=3, values_only=True):
        found.setdefault(str(row[0]), (row[1], row[2]))

    shown = [line for line in (*told["income"], *told["expenses"]) if line["label"] in found]
    assert len(shown) > 8
    for line in shown:
        money, tax = found[line["label"]]
        assert money == "-" or pence(money) == pence(line["money"]["amount"])
        assert tax in ("-", "see below") or pence(tax) == pence(line["tax"]["amount"])
    assert [pence(v) for v in found["Result"]] == [pence(told["result"][way]) for way in ("money", "tax")]


def test_a_year_end_recalculates_to_the_boxes_of_the_json(tmp_path: Path) -> None:
    sheet = recalculated(written(tmp_path, *STATEMENTS["year-end"]))["Year-end"]
    told = json.loads(run(*STATEMENTS["year-end"], "--format", "json"))["owners"][0]["boxes"]
    found = {row[0]: row[2:4] for row in sheet.iter_rows(max_col=4, values_only=True) if row[3] is not None}

    assert {box["box"] for box in told} >= {"20", "38", "40", "44"}
    for box in told:
        assert [pence(value) for value in found[box["box"]]] == [pence(box["amount"]), box["pounds"] * 100]


def test_a_capital_record_recalculates_to_the_total_of_the_json(tmp_path: Path) -> None:
    sheet = recalculated(written(tmp_path, *STATEMENTS["base-cost"]))["Base-cost"]
    told = json.loads(run(*STATEMENTS["base-cost"], "--format", "json"))["houses"][0]
    found = {str(row[0]): row[1] for row in sheet.iter_rows(max_col=2, values_only=True)}

    assert pence(found["The capital record"]) == pence(told["total"])
    assert pence(found["gain"]) == pence(told["sale"]["owners"][0]["gain"])
    assert pence(found["taxable"]) == pence(told["sale"]["owners"][0]["taxable"])


def test_the_workbook_of_a_pack_recalculates_to_the_figures_of_the_json(tmp_path: Path) -> None:
    pytest.importorskip("openpyxl", reason="workbooks need openpyxl (the extra xlsx)")
    shutil.copy(packs(tmp_path, "harbour")["harbour"] / "figures.xlsx", tmp_path / "a.xlsx")
    book = recalculated(tmp_path / "a.xlsx")

    def told(*arguments: str) -> Any:
        return json.loads(run(arguments[0], HARBOUR, *arguments[1:], "--format", "json"))

    def rows(sheet: str, wide: int) -> list[tuple[Any, ...]]:
        return list(book[sheet].iter_rows(max_col=wide, values_only=True))

    boxes = [(row[0], pence(row[2]), pence(row[3])) for row in rows("Year-end", 4) if row[3] is not None
             and str(row[0]).split(".")[0].isdigit() and row[2] is not None]  # fmt: skip
    owners = told("year-end", "--year", "2025-26", *ON)["owners"]
    wanted = [(b["box"], pence(b["amount"]), b["pounds"] * 100) for o in owners for b in o["boxes"]]
    assert boxes == wanted and len(boxes) > 20

    results = [(pence(row[1]), pence(row[2])) for row in rows("Profit", 3) if row[0] == "Result"]
    houses = told("profit", "--year", "2025-26", *ON)["houses"]
    assert results == [(pence(h["result"]["money"]), pence(h["result"]["tax"])) for h in houses] and len(houses) == 6

    records = [pence(row[1]) for row in rows("Base-cost", 2) if row[0] == "The capital record"]
    assert records == [pence(h["total"]) for h in told("base-cost", "--on", "2026-04-05")["houses"]]


def test_without_the_library_the_message_tells_how_to_get_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    import sys

    from click.testing import CliRunner

    from ledger_tools.commands import cli

    monkeypatch.setitem(sys.modules, "openpyxl", None)
    result = CliRunner().invoke(cli, ["profit", SALTMARSH, *ON, "--output", str(tmp_path / "a.xlsx")])

    assert result.exit_code == 1 and "pip install 'landlord-books[xlsx]'" in result.output
    assert not (tmp_path / "a.xlsx").exists()
