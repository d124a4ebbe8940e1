"""Published and worked sums of the trade (practice.toml, each with its source) against what the tool says of a book."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from ledger_tools.book.build import build
from ledger_tools.days import TaxYear, day_words
from ledger_tools.money import pence, plain, pounds
from ledger_tools.problems import Level
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.delay import DayCost
from ledger_tools.statements.deposit_rules import cap
from ledger_tools.statements.diary import Diary, diary
from ledger_tools.statements.due_days import due_days
from ledger_tools.statements.profit import profit
from ledger_tools.statements.rents import rents
from ledger_tools.statements.schedule import schedules
from ledger_tools.verdicts.agents import agent_doubts
from ledger_tools.verdicts.lives import fair, lives

DATA = tomllib.loads(Path(__file__).with_name("practice.toml").read_text(encoding="utf-8"))
Lines = Sequence[str]
SUM = r"£([\d,]+\.\d\d)"


def book(text: str, nation: str = "england", house: str = "", heads: str = "") -> Accounts:
    made = build({"a.book": f'landlord x "X"\n{heads}property a "1 A Street"\n    nation {nation}\n{house}{text}'})
    assert [p.headline for p in made.problems if p.level is Level.ERROR] == []
    return Accounts(made)


def let(*fields: str) -> str:
    said = "".join(f"    {field}\n" for field in fields)
    return f'tenancy t at a\n    tenants "T. Enant"\n    periodic from 1 Jun 2021\n{said}at a\n'


# ── a day of delay ───────────────────────────────────────────────────────────────────────────────────────────────


def cost(rent: str, council: str = "", standing: str = "", lent: str = "", rate: str = "") -> DayCost:
    heads = house = lines = ""
    if council:
        house = "    council wold, band B\n"
        heads = f'council wold "Wold Council"\nscheme wold 2025-26\n    charge band B {council}\n'
    if lent:
        heads += f'loan moor on a from "Moor Bank"\n    rate {rate} from 1 Mar 2025\n'
        lines += f"1 Mar 2025 borrowed {lent} from moor for purchase\n"
    if standing:
        lines += f'1 Apr 2025 paid standing charge {standing} to "Tidal" for 1 Apr 2025 to 30 Apr 2025\n'
    plan = f'schedule a "ready to let"\n    target let from 1 Jul 2025 at {rent}\nat a\n'
    return schedules(book(plan + lines, house=house, heads=heads).book, "a", date(2025, 5, 1))[0].cost


def day(**given: str) -> dict[str, str]:
    found = cost(**given)
    return {part.label: plain(part.pence) for part in found.parts} | {"together": plain(found.pence)}


def sooner(dearer: str, days: int, house: dict[str, str]) -> str:
    return plain(days * cost(**house).pence - pence(dearer))


# ── agents ───────────────────────────────────────────────────────────────────────────────────────────────────────


def banked(terms: str, net: int, lines: list[str]) -> Accounts:
    statement = "".join(f"    {line}\n" for line in lines)
    heads = f'agent quay "Quay Lets"\n    charges {terms}\n'
    return book(let() + f"5 Jun 2025 banked {pounds(net)} from quay\n{statement}", heads=heads)


def statement(terms: str, rent: str, lines: list[str] | None = None, vat: bool = False) -> dict[str, str]:
    """What the tool says the statement should hold; it is asked with a commission of one pound, which is too little."""
    taken, on_top = 1_00, ", plus vat £0.20" if vat or "plus vat" in terms else ""
    works = sum(pence(found.replace(",", "")) for line in lines or [] for found in re.findall(SUM, line))
    net = pence(rent) - taken - (20 if on_top else 0) - works
    told = [f"received rent {pounds(pence(rent))} from t", f"paid management fee {pounds(taken)}{on_top}"]
    accounts = banked(terms, net, [*told, *(lines or [])])
    (found,) = [p for p in agent_doubts(accounts.book) if p.code == "fee-off"]
    fee = re.search(rf"comes to {SUM}(?:, plus vat {SUM})?", found.headline)
    right = re.search(rf"{SUM} was to be banked", found.help)
    assert fee and right
    income = next(figure for figure in profit(accounts, "a", TaxYear(2025)).income if figure.slug == "rent")
    made = {"fee": fee[1], "vat": fee[2] or "", "banked": right[1], "income": plain(income.money.pence)}
    return {name: said.replace(",", "") for name, said in made.items()}


def works(terms: str, line: str) -> dict[str, str]:
    """The charge and the sum of the works that the tool names, where the agent added one pound."""
    told = ["received rent £950.00 from t", f"{line}, plus agent's charge £1.00"]
    (found,) = agent_doubts(banked(terms, 950_00 - 361_00, told).book)
    charge = re.search(rf"comes to {SUM}", found.headline)
    together = re.search(rf"the works come to {SUM}", found.help)
    assert charge and together
    return {"charge": charge[1], "together": together[1]}


# ── days ─────────────────────────────────────────────────────────────────────────────────────────────────────────


def watch(on: date, lines: Lines, fields: Lines, nation: str) -> Diary:
    text = let(*fields) if fields else ""
    return diary(book(text + "".join(f"{line}\n" for line in lines), nation), ["a"], True, on, 60)


def days(on: date, kind: str, lines: Lines = (), let: Lines = (), nation: str = "england") -> list[str]:
    found = watch(on, lines, let, nation)
    return [day_words(r.day) for r in (*found.overdue, *found.due) if r.kind == kind]


def overdue(on: date, kind: str, lines: list[str]) -> list[str]:
    return [day_words(r.day) for r in watch(on, lines, [], "england").overdue if r.kind == kind]


def rise(on: date, let: list[str]) -> list[str]:
    found = watch(on, [], ["rent £900 a month", *let], "england").may
    said = [re.search(r"a higher rent from (\d+ \w+ \d+)", r.what) for r in found if r.kind == "rise"]
    return [one[1] for one in said if one]


# ── deposits, miles, records ─────────────────────────────────────────────────────────────────────────────────────


def most_deposit(rent: str) -> str:
    found = cap(book(let(f"rent {rent}")).book.tenancies["t"], "england", date(2025, 6, 1))
    assert found
    return plain(found.pence)


def over_deposit(rent: str, deposit: str) -> str:
    fields = (f"rent {rent}", f"deposit {pounds(pence(deposit))}, received 28 May 2021, protected 1 Jun 2021")
    notes = rents(book(let(*fields)), "a", date(2025, 6, 30)).lets[0].deposit_notes
    said = [found[1] for note in notes if (found := re.search(rf"this is {SUM} more", note))]
    return said[0] if said else ""


def fair_wear(price: str, life: int, years: int) -> str:
    assert lives()["carpet"] == life
    return plain(fair(pence(price), life, 12 * years))


def left_to_landlord(kept: str, carpet: str) -> str:
    fields = ("rent £600 a month", "deposit £600, received 28 May 2021, protected 1 Jun 2021", "ended 31 May 2025")
    lines = (
        f'9 Jun 2025 replaced carpet {pounds(pence(carpet))} from "Floor Hall", like for like, used by tenant\n'
        f"9 Jun 2025 kept deposit {pounds(pence(kept))} from t for carpet\n"
    )
    result = profit(book(let(*fields) + lines), "a", TaxYear(2025)).result
    return plain(-result.money.pence)


def miles(trips: int, miles: int, day: str) -> str:
    lines = "".join(f'{day} drove {miles} miles "to the house and back, trip {i}"\n' for i in range(trips))
    accounts = book(let() + lines)
    return plain(sum(row.pence for row in accounts.rows if row.verb == "drove"))


def records(year: int) -> str:
    (kept,) = [due.days for due in due_days(TaxYear(year)) if due.what == "keep_records"]
    return day_words(kept[0])


WORKS: dict[str, Callable[..., Any]] = {
    "day": day, "sooner": sooner, "statement": statement, "works": works, "days": days, "overdue": overdue,
    "rise": rise, "most deposit": most_deposit, "over deposit": over_deposit, "fair wear": fair_wear, "miles": miles,
    "left to landlord": left_to_landlord, "records": records,
}  # fmt: skip


@pytest.mark.parametrize("case", DATA["case"], ids=lambda case: case["id"])
def test_published(case: dict[str, Any]) -> None:
    assert WORKS[case["work"]](**case["given"]) == case["gives"]


@pytest.mark.parametrize("case", DATA["wrong"], ids=lambda case: case["id"])
def test_printed_and_wrong(case: dict[str, Any]) -> None:
    found = WORKS[case["work"]](**case["given"])

    assert found == case["gives"]
    assert {name: found[name] for name in case["printed"]} != case["printed"]


@pytest.mark.parametrize("case", DATA["wrong"], ids=lambda case: case["id"])
def test_a_statement_made_as_printed_is_doubted(case: dict[str, Any]) -> None:
    printed, given = case["printed"], case["given"]
    vat = f", plus vat £{printed['vat']}" if "vat" in printed else ""
    told = [f"received rent £{given['rent']} from t", f"paid management fee £{printed['fee']}{vat}"]
    found = agent_doubts(banked(given["terms"], pence(printed["banked"]), told).book)

    assert [problem.code for problem in found] == ["fee-off"]


def test_every_case_names_its_source_and_no_id_twice() -> None:
    ids = [case["id"] for case in DATA["case"]]

    assert len(set(ids)) == len(ids) == 24
    assert all(case["source"] and case["weight"] and case["read"] for case in DATA["case"])
    assert all(case["source"] and case["why"] for case in DATA["wrong"])
