"""Published figures and days of council tax (council.toml, each with its source) against what the tool works out."""

from __future__ import annotations

import tomllib
from datetime import date, timedelta
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from ledger_tools.book.build import build
from ledger_tools.book.world import Book
from ledger_tools.days import Period, TaxYear, day_words
from ledger_tools.money import plain, round_half_up
from ledger_tools.problems import Level
from ledger_tools.taxes.council.answers import Answers, every_way
from ledger_tools.taxes.council.bill import Worked, share_of_year, work_out
from ledger_tools.taxes.council.compare import bills, compare
from ledger_tools.taxes.council.facts import gather
from ledger_tools.taxes.council.liability import TENANT
from ledger_tools.taxes.council.years import days_of

DATA = tomllib.loads(Path(__file__).with_name("council.toml").read_text(encoding="utf-8"))


def book(case: dict[str, Any]) -> Book:
    """The book of a case. Mere House and its people are invented."""
    nation = case.get("nation", "england")
    out = ['landlord x "X. Mere"', 'council mere "Mere Council"', f"    nation {nation}"]
    for year, told in case["scheme"].items():
        charge, _, rules = told.partition(";")
        out += [f"scheme mere {year}", f"    charge band B £{charge}", *(_lines(rules))]
    out += ['property house "Mere House"', f"    nation {nation}", "    council mere, band B", *_lines(case["house"])]
    for name, told in case.get("let", {}).items():
        out += [f"tenancy {name} at house", f'    tenants "{name.upper()}"', "    rent £500 a month", *_lines(told)]
    made = build({"mere.book": "\n".join([*out, "at house", case.get("lines", "")]) + "\n"})
    assert [p.headline for p in made.problems if p.level is Level.ERROR] == []
    return made


def _lines(told: str) -> list[str]:
    return [f"    {line.strip()}" for line in told.replace("\n", ";").split(";") if line.strip()]


def ways(case: dict[str, Any], given: dict[str, str]) -> list[Worked]:
    """What comes out, for every answer to what the case leaves open."""
    made = book(case)
    first, last = (date.fromisoformat(day) for day in case["span"].split())
    facts = gather(made, "house")
    return [w for _, w in every_way(lambda a: work_out(facts, made.schemes, Period(first, last), a), given)]


def short(worked: Worked) -> list[str]:
    """The landlord's stretches as "days x share = pounds"."""
    return [
        f"{s.days.days} x {shown(s.due.factor)} = {plain(s.pence)}"
        for s in worked.segments
        if s.ours and s.due.factor is not None
    ]


def shown(share: Fraction) -> str:
    return f"{share.numerator / share.denominator:g}"


@pytest.mark.parametrize("case", DATA["case"], ids=lambda case: f"{case['id']} {case['source']}")
def test_published(case: dict[str, Any]) -> None:
    given = case.get("given", {})
    found = ways(case, given)

    assert found
    for worked in found:  # whatever is left open makes no difference
        assert worked.known
        if "days" in case:
            assert short(worked) == case["days"], [s.due.why for s in worked.segments]
        if "theirs" in case:
            assert sum(s.days.days for s in worked.segments if s.liable.party == TENANT) == case["theirs"]
        if "total" in case:
            assert plain(worked.pence) == case["total"], short(worked)
    if "other" in case:
        other = case["other"]
        assert {plain(w.pence) for w in ways(case, {**given, other["question"]: other["answer"]})} == {other["total"]}


@pytest.mark.parametrize("case", [case for case in DATA["case"] if "billed" in case], ids=lambda case: case["id"])
def test_bills(case: dict[str, Any]) -> None:
    told = case["billed"]
    days = Period(*(date.fromisoformat(day) for day in told["days"].split()))
    bill = f"{day_words(days.last)} billed council tax £{told['pounds']} by mere for {days}"
    made = book({**case, "lines": bill})
    found = compare(gather(made, "house"), made.schemes, bills(made, "house")[0], Answers())

    assert plain(found.too_much) == told["too_much"]
    assert found.reasons[0].code == told["says"]


@pytest.mark.parametrize("told", DATA["sum"], ids=lambda told: f"{told['id']} {told['source']}")
def test_sums(told: dict[str, Any]) -> None:
    """Exact days of the year in question, one rounding; what is printed otherwise is pennies or cannot be followed."""
    days, share = _span(told), Fraction(told.get("share", "1"))
    annual = int(Decimal(told["annual"]) * 100)

    assert plain(round_half_up(share_of_year(annual, days, share))) == told["pounds"]
    if "printed" in told:
        bill = f"{day_words(days.last)} billed council tax £{told['printed']} by mere for {days}"
        scheme = f"{told['annual']}; empty {(1 - share) * 100}% off; premium 0% after 1 year"
        house = "bought 1 Jan 2010 for £1; empty since 1 Jan 2010"
        made = book({"scheme": {told["year"]: scheme}, "house": house, "lines": bill})
        found = compare(gather(made, "house"), made.schemes, bills(made, "house")[0], Answers())
        assert [reason.code for reason in found.reasons] == [told["says"]]


def _span(told: dict[str, Any]) -> Period:
    """So many days from the first of June, or of April; the whole year where none are told."""
    year = days_of(TaxYear.read(told["year"]))
    count = told.get("days", year.days)
    first = date(year.first.year, 6, 1) if count == 30 else year.first
    return Period(first, first + timedelta(days=count - 1))


# Every case that was gathered; what tries them out stands in one of the lists of the file.
GATHERED = """
A01 A02 A04 A05 A07 A08 A10 A11 A13 A14 A16 A17 A19 A20
B01 B02 B04 B05 B07 B08 B10 B11 B13 B14 B16 B17 B19 B20 B22 B23 B25 B26 B28 B29 B31 B32 B34 B35
C01 C02 C04 C05 C07 C08 C10 C11 C13 C14 C16 C17 C19 C20 C22 C23 C25 C26 C28 C29 C31 C32 C34 C35 C36 C37 C38 C40 C41
""".split()


def test_every_case_that_was_gathered_is_tried() -> None:
    tried = {one["id"].rstrip("bcd") for one in (*DATA["case"], *DATA["sum"], *DATA["skipped"])}
    tried |= {one for held in DATA["elsewhere"] for one in held["ids"]}

    assert tried == set(GATHERED)
    assert all(held["why"] for held in DATA["skipped"])


@pytest.mark.parametrize(("one", "test"), [(one, held["test"]) for held in DATA["elsewhere"] for one in held["ids"]])
def test_what_is_held_elsewhere_is_there(one: str, test: str) -> None:
    assert one in (Path(__file__).parents[2] / test).read_text(encoding="utf-8")


def test_every_case_names_its_source_and_no_id_twice() -> None:
    cases = DATA["case"]

    assert all(case["source"] and case["status"] in ("published", "rule", "constructed") for case in cases)
    assert all((case["source"].startswith("ours")) == (case["status"] == "constructed") for case in cases)
    assert all(told["source"] for told in DATA["sum"])
    ids = [one["id"] for one in (*cases, *DATA["sum"], *DATA["skipped"])]
    assert len(set(ids)) == len(ids)
