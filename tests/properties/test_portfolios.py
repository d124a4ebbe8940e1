"""Made-up portfolios: houses add up to the business, owners to the house, the two ways of accounting to the same whole.

The people, houses and sums are made up by the test.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from datetime import date, timedelta
from itertools import product

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from ledger_tools.book.build import build
from ledger_tools.days import TaxYear, day_words
from ledger_tools.ledger.rows import Row
from ledger_tools.money import pounds
from ledger_tools.problems import Level
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.figures import Figure
from ledger_tools.statements.profit import HouseProfit, profit
from ledger_tools.statements.year_end import year_end

RELAXED = settings(
    deadline=None, max_examples=40, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)
PEOPLE = ("una", "bram", "cleo")
HOUSES = ("ash-1", "bay-2", "cove-3")
START, END = date(2023, 4, 6), date(2026, 4, 5)
DAYS = st.integers(0, (END - START).days).map(lambda days: START + timedelta(days))
SUMS = st.integers(1, 900_000)
COSTS = (
    "repaired gutters {}, worn out",
    "replaced boiler {}, modern equivalent, broken",
    "replaced kitchen {}, better",
    "replaced worktop {}",
    "installed outside tap {}",
    "replaced sofa {}, same again £90.00, used by tenant",
    "paid landlord insurance {}",
    "paid loan interest {} to fen",
    "paid private {}",
    "bought ladder {}",
)
INCOMES = (
    "received rent {}", "received lease premium {} for 1 Jan 2024 to 31 Dec 2033",
     "received refund {} for gutters", "received insurance {} for lost rent",
)  # fmt: skip


@st.composite
def shares(draw: st.DrawFn) -> str:
    """Who owns a house: one, two or three people in whole percents that make 100."""
    names = draw(st.lists(st.sampled_from(PEOPLE), min_size=1, max_size=3, unique=True))
    cuts = sorted(draw(st.lists(st.integers(1, 99), min_size=len(names) - 1, max_size=len(names) - 1, unique=True)))
    parts = [b - a for a, b in zip([0, *cuts], [*cuts, 100], strict=True)]
    return " and ".join(f"{name} {part}%" for name, part in zip(names, parts, strict=True))


@st.composite
def portfolios(draw: st.DrawFn) -> str:
    """Three people, one to three houses with owners that may change on a day, and lines of all kinds."""
    text = 'lender fen "Fen Lending"\n'
    married = draw(st.booleans())
    for name in PEOPLE:
        text += f'landlord {name} "{name.title()} Vane"\n    accounting {draw(st.sampled_from(["cash", "accruals"]))}\n'
        text += "    married to bram\n" if name == "una" and married else ""
    houses = HOUSES[: draw(st.integers(1, 3))]
    for house in houses:
        text += f'property {house} "{house.title()}"\n    bought 1 Jun 2020 for £90,000\n    as bought lettable\n'
        text += f"    price normal\n    owners {draw(shares())}\n"
        for day in sorted(draw(st.lists(DAYS, max_size=2, unique=True))):
            text += f"    owners {draw(shares())} from {day_words(day)}\n"
        let_from = date(2020, 7, 1) if draw(st.booleans()) else draw(DAYS)
        text += f"tenancy t-{house} at {house}\n    periodic from {day_words(let_from)}\n    rent £500 a month\n"
    for _ in range(draw(st.integers(1, 12))):
        text += draw(lines(houses)) + "\n"
    return text


@st.composite
def lines(draw: st.DrawFn, houses: tuple[str, ...]) -> str:
    """One dated line: of one house or spread over all, paid at once or a bill paid in part later."""
    day, amount = draw(DAYS), draw(SUMS)
    said = draw(st.sampled_from((*COSTS, *INCOMES)))
    split = f" across {' and '.join(houses)}" if len(houses) > 1 and draw(st.booleans()) else ""
    where = split or f" at {draw(st.sampled_from(houses))}"
    what, comma, facts = said.partition(",")
    line = f"{day_words(day)} {what.format(pounds(amount))}{where}{comma}{facts}"
    line += ", split equally" if split else ""
    if draw(st.booleans()) and not said.startswith(("received", "paid private")) and amount > 1:
        part = draw(st.integers(1, amount))
        line = on_account(line) + f", paid {day_words(day + timedelta(draw(st.integers(0, 400))))} {pounds(part)}"
    return line


def on_account(line: str) -> str:
    """A line of money as a bill that is paid another day; any other line may be one as it stands."""
    return line.replace(" paid ", " billed ").replace(" to fen", " by fen")


def worked(text: str) -> Accounts:
    book = build({"made.book": text})
    assert [p.headline for p in book.problems if p.level is Level.ERROR] == [], text
    return Accounts(book)


def sums(statements: list[HouseProfit]) -> dict[str, tuple[int, int]]:
    """Money and tax by line, over all these statements."""
    found: dict[str, tuple[int, int]] = defaultdict(lambda: (0, 0))
    for s in statements:
        for line in (*s.income, s.open_in, *s.expenses, s.finance, s.works, s.open, s.result):
            money, tax = found[line.slug]
            found[line.slug] = (money + line.money.pence, tax + line.tax.pence)
    return {slug: both for slug, both in found.items() if any(both)}


def every(accounts: Accounts) -> Iterator[tuple[str, TaxYear, list[tuple[Row, date]]]]:
    """The rows of every year on both bases."""
    for basis in ("cash", "accruals"):
        for year, rows in accounts.by_year(basis).items():
            yield basis, year, rows


def lost(figure: Figure) -> int:
    """Pence of a figure that none of its lines tells of."""
    return figure.pence - sum(trace.pence for trace in figure.trail)


@RELAXED
@given(portfolios())
def test_houses_add_up_to_the_business(text: str) -> None:
    accounts = worked(text)
    for year in accounts.book.years:
        each = [profit(accounts, house, year) for house in accounts.book.properties]
        whole = profit(accounts, "", year)

        assert sums(each) == sums([whole])
        assert not any(lost(f) for s in each for line in (*s.income, *s.expenses) for f in (line.money, line.tax))


@RELAXED
@given(portfolios())
def test_all_money_that_moved_stands_somewhere_on_the_statement(text: str) -> None:
    accounts = worked(text)
    for year in accounts.book.years:
        s = profit(accounts, "", year)
        moved = (r for r in accounts.rows if r.paid and r.paid in accounts.house_period(r.house, year))
        net = sum(r.pence if r.way == "in" else -r.pence for r in moved)

        assert s.result.money.pence + sum(figure.pence for figure in s.below) == net


@RELAXED
@given(portfolios())
def test_owners_add_up_to_the_house_and_every_row_is_somebodys(text: str) -> None:
    """In all years together: who first let on 1 to 5 April counts those days with the next (ITTOIA 2005 s. 275C)."""
    accounts = worked(text)
    for basis in ("cash", "accruals"):
        years = {later for year in accounts.by_year(basis) for later in (year, year.next)}
        mine: dict[int, int] = defaultdict(int)
        for owner, year in product(accounts.book.landlords, years):
            for row, day, pence in accounts.of_owner(owner, year, basis):
                mine[id(row)] += pence

                assert accounts.year_of(owner, day) == year
        assert mine == {id(row): row.pence for rows in accounts.by_year(basis).values() for row, _ in rows}


@RELAXED
@given(portfolios())
def test_every_penny_is_posted_twice_and_counts_in_one_year_of_each_basis(text: str) -> None:
    accounts = worked(text)
    paid = sum(row.pence for row in accounts.rows if row.counts)
    owed = sum(row.pence for row in accounts.accrued if row.owed)
    by_basis = {"cash": 0, "accruals": 0}
    for basis, _, rows in every(accounts):
        by_basis[basis] += sum(row.pence for row, _ in rows)

    assert sum(accounts.balance.values()) == 0
    assert by_basis == {"cash": paid, "accruals": owed}


@RELAXED
@given(portfolios())
def test_the_pages_of_all_owners_hold_what_the_houses_brought_for_tax(text: str) -> None:
    """Where all account alike, box by box: what the owners' rents and costs come to is the business's."""
    # The property allowance, which frees small rents by itself, is declined: costs stand in their boxes then.
    declined = "".join(f"\n    declines property allowance in {year}" for year in worked(text).book.years)
    text = text.replace("accounting accruals", "accounting cash")
    accounts = worked(text.replace("    accounting cash", "    accounting cash" + declined))
    for year in accounts.book.years:
        if any(accounts.period(owner, year) != year.period for owner in accounts.book.landlords):
            continue  # a house goes by the tax year, an owner who first let on 1 to 5 April does not
        owners = year_end(accounts, year).owners
        boxes = [b for o in owners for b in o.boxes if b.number in ("20", "24", "25", "36")]
        whole = sums([profit(accounts, "", year)])
        told = {
            "20": whole.get("rent", (0, 0))[1] + whole.get("other_income", (0, 0))[1],
            "24": whole.get("premises", (0, 0))[1],
            "25": whole.get("repairs", (0, 0))[1],
            "36": whole.get("domestic", (0, 0))[1],
        }

        found = {n: sum(b.figure.pence for b in boxes if b.number == n) for n in told}
        below = {said[:6] for owner in owners for said in owner.notes if "below nil" in said}
        if not below:
            assert found == told
        elif below <= {
            "Box 24",
            "Box 25",
            "Box 36",
        }:  # what came back beyond a cost stands in box 20: the profit is the same
            assert found["20"] - found["24"] - found["25"] - found["36"] == (
                told["20"] - told["24"] - told["25"] - told["36"]
            )
