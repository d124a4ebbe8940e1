"""The numbers of a house against a working done by hand. The house, the people and the sums are made up."""

from __future__ import annotations

import json
from datetime import date
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from ledger_tools.book.build import build
from ledger_tools.commands.opening import open_book
from ledger_tools.days import Period, months_after
from ledger_tools.problems import Level
from ledger_tools.render.worth import as_json
from ledger_tools.render.worth import text as text_of
from ledger_tools.statements.accounts import Accounts, up_to
from ledger_tools.statements.figures import Figure
from ledger_tools.statements.worth import Worth, worth
from ledger_tools.statements.worth_year import Asked, Year

HEAD = """
landlord x "X"
council fen "Fen Borough"
scheme fen 2024-25
    charge band B £1,560.00
property a "1 A Street"
    nation england
    council fen, band B
    exchanged 1 Jun 2022
    bought 10 Jun 2022 for £100,000, additional dwelling, of which chattels £1,000
    as bought lettable
    price normal
    {more}
loan bank on a
    rate 5% from 10 Jun 2022
    interest only
"""
LET = """
tenancy t at a
    tenants "T. Enant"
    periodic from 1 Aug 2022
    rent £600 a month, first due 1 Aug 2022
    tenant pays council tax
"""
BOUGHT = """
at a
10 Jun 2022 borrowed £60,000.00 from bank for purchase
10 Jun 2022 paid stamp duty £2,970.00
10 Jun 2022 paid conveyancing £900.00
10 Jun 2022 paid arrangement fee £500.00 to bank
20 Jun 2022 replaced gutters £300.00, like for like, worn out
22 Jun 2022 installed outside tap £200.00, chosen, none before
24 Jun 2022 bought fridge £250.00, loose, none before
25 Jun 2022 paid landlord insurance £180.00
1 Jul 2022 paid loan interest £250.00 to bank
1 Jul 2022 drove 10 miles "to the house and back"
"""


def months(first: date, count: int) -> str:
    """Rent on the first of each month and interest on it."""
    out = []
    for number in range(count):
        day = months_after(first, number)
        out.append(f"{day} received rent £600.00 from t\n{day} paid loan interest £250.00 to bank\n")
    return "".join(out)


YEARS = months(date(2022, 8, 1), 24) + (
    "5 Aug 2022 paid landlord insurance £200.00\n6 Aug 2023 paid landlord insurance £200.00\n"
    "9 Mar 2024 replaced tap in kitchen £340.00, like for like, worn out\n"
)
DAY = date(2024, 7, 31)


def found(lines: str = BOUGHT + YEARS, day: date = DAY, more: str = "", let: str = LET, **asked: Any) -> Worth:
    book = build({"a.book": (HEAD.format(more=more) + let + lines).replace("    \n", "")})
    assert [p.headline for p in book.problems if p.level is Level.ERROR] == []
    return worth(Accounts(up_to(book, day)), "a", day, Asked(**asked))


def year(w: Worth, slug: str) -> Year:
    return next(each for each in w.years if each.slug == slug)


def ratios(y: Year) -> dict[str, Fraction | None]:
    return {r.slug: r.value for r in y.ratios}


def figures(w: Worth) -> list[Figure]:
    c = w.cost
    sums = [y.sums for y in w.years] + [e for _, e in w.earned]
    return [
        *c.cost, c.total, c.finance, c.advances, c.repaid, c.owed, c.cash, *w.empty_week,
        *(f for s in sums for f in (s.rent, s.costs, s.interest, s.left)), *(r.flows for r in w.rates),
        *(base for y in w.years for base in y.bases),
    ]  # fmt: skip


# ── what went into it ────────────────────────────────────────────────────────────────────────────────────────────


def test_the_total_cost_by_what_it_was_for() -> None:
    cost = found().cost

    assert {f.slug: f.pence for f in cost.cost} == {
        "price": 99_000_00, "chattels": 1_000_00, "land_tax": 2_970_00, "fees": 900_00, "repairs": 300_00,
        "furnishing": 250_00, "holding": 180_00, "improvements": 200_00,
    }  # fmt: skip
    assert cost.total.pence == 104_800_00
    assert (cost.finance.pence, cost.advances.pence, cost.owed.pence) == (750_00, 60_000_00, 60_000_00)
    assert cost.cash.pence == 45_550_00


def test_capital_paid_back_is_own_money_and_what_was_borrowed_for_oneself_is_not_of_the_house() -> None:
    more = "1 Sep 2022 repaid loan £5,000.00 to bank\n1 Oct 2022 borrowed £8,000.00 from bank for private\n"
    cost = found(BOUGHT + YEARS + more).cost

    assert (cost.advances.pence, cost.repaid.pence) == (60_000_00, 5_000_00)
    assert (cost.owed.pence, cost.cash.pence) == (55_000_00, 50_550_00)


def test_what_is_told_as_owed_stands_in_place_of_what_went_before() -> None:
    let = "    owed £52,000 on 1 Jan 2024\n" + LET
    cost = found(BOUGHT + YEARS + "1 Feb 2024 repaid loan £1,000.00 to bank\n", let=let).cost

    assert (cost.owed.pence, cost.repaid.pence) == (51_000_00, 1_000_00)


def test_what_is_first_told_as_owed_stands_for_what_was_borrowed_where_that_is_not_told() -> None:
    let = "    owed £58,000 on 1 Jan 2023\n    owed £52,000 on 1 Jan 2024\n" + LET
    lines = BOUGHT.replace("10 Jun 2022 borrowed £60,000.00 from bank for purchase\n", "") + YEARS
    made = found(lines, let=let, value=120_000_00)

    assert (made.cost.advances.pence, made.cost.owed.pence) == (58_000_00, 52_000_00)
    assert made.cost.cash.pence == 45_550_00 + 2_000_00
    assert any("what was owed on 1 Jan 2023 stands for it" in note for note in made.notes)
    own = next(rate for rate in made.rates if rate.slug == "own")
    assert own.rates is None and "not when it was borrowed" in own.why
    assert not any("stands for it" in note for note in found(let=let).notes)


def test_what_an_old_one_brought_and_its_new_one_took_back_is_no_row_of_nil() -> None:
    more = "3 Mar 2024 replaced fridge £260.00, like for like, old one sold £30.00\n"

    assert "sold" not in {part.slug for part in found(BOUGHT + YEARS + more).cost.cost}


def test_later_lines_are_left_aside() -> None:
    assert found(BOUGHT + YEARS + "1 Aug 2024 installed conservatory £9,000.00, chosen\n") == found()


# ── a year of it ─────────────────────────────────────────────────────────────────────────────────────────────────


def test_a_year_as_collected_by_hand() -> None:
    y = year(found(), "collected")

    assert y.sums.days == Period(date(2023, 8, 1), DAY)
    assert (y.sums.rent.pence, y.sums.costs.pence, y.sums.interest.pence, y.sums.left.pence) == (
        7_200_00, 540_00, 3_000_00, 3_660_00,
    )  # fmt: skip
    assert ratios(y) == {
        "gross_price": Fraction(72, 1000),
        "net_price": Fraction(666, 10000),
        "after_interest_price": Fraction(366, 10000),
        "gross_total": Fraction(7200, 104800),
        "net_total": Fraction(6660, 104800),
        "on_cash": Fraction(3660, 45550),
        "payback": Fraction(45550, 3660),
        "cover": Fraction(12, 5),
    }
    assert y.break_even == 295_00


def test_a_year_as_tried_by_hand() -> None:
    asked: dict[str, Any] = {"rent": 700_00, "rate": Fraction(6), "price": 120_000_00, "empty": Fraction(4)}
    w = found(**asked)
    y = year(w, "tried")

    assert (y.sums.rent.pence, y.sums.costs.pence, y.sums.interest.pence) == (7_753_85, 660_00, 3_600_00)
    assert {base.slug: base.pence for base in y.bases} == {"price": 120_000_00, "total": 125_400_00, "cash": 66_150_00}
    assert y.months == Fraction(12 * 48, 52)
    assert y.break_even == 384_59
    assert {f.slug: f.pence for f in w.empty_week} == {"rent": 161_54, "council_tax": 30_00, "interest": 69_23}
    assert year(w, "agreed") == year(found(), "agreed")


def test_a_part_of_a_year_is_scaled_up_and_said() -> None:
    w = found(BOUGHT + months(date(2022, 8, 1), 8), date(2023, 3, 7))
    y = year(w, "collected")

    assert y.sums.days.days == 219
    assert y.sums.rent.pence == 8 * 1_000_00  # 600 x 365 / 219
    assert any("scaled up" in note for note in w.notes)


def test_a_rate_of_less_than_a_year_is_told_as_such() -> None:
    lines = BOUGHT + months(date(2022, 8, 1), 10)

    assert any("364 days" in note for note in found(lines, date(2023, 6, 9), value=120_000_00).notes)
    assert not any("yours for" in note for note in found(lines, date(2023, 6, 10), value=120_000_00).notes)


def test_of_a_few_days_no_year_is_made() -> None:
    w = found(BOUGHT + months(date(2022, 8, 1), 3), date(2022, 10, 11))

    assert [y.slug for y in w.years] == ["agreed"] and not any("scaled up" in note for note in w.notes)
    assert "net_price" not in ratios(w.years[0]) and "on_cash" not in ratios(w.years[0])
    assert any("72 days" in said for said in w.gaps)


def test_where_the_lines_stop_the_year_stops_too() -> None:
    """The last line is of 1 July 2024; by 31 August two rents' time has passed at the least, by 30 August not."""
    late = found(day=date(2025, 6, 30))

    assert year(late, "collected").sums.days.last == date(2024, 7, 1)
    assert year(late, "collected").sums.rent.pence == year(found(day=date(2024, 7, 1)), "collected").sums.rent.pence
    assert late.all_earned and late.all_earned.days.last == date(2024, 7, 1)
    assert any("stop on 1 Jul 2024" in said for said in late.gaps)
    assert not any("stop on" in said for said in found(day=date(2024, 8, 30)).gaps)
    assert any("stop on" in said for said in found(day=date(2024, 9, 1)).gaps)
    over = found(day=date(2025, 6, 30), let=LET + "    moved out 31 Jul 2024\n")
    assert not any("stop on" in said for said in over.gaps), "nobody lives there, so nothing need come"


def test_a_cost_that_is_plainly_missing() -> None:
    bare = months(date(2022, 8, 1), 24)

    assert found().gaps == ()
    assert [said.split()[:2] for said in found(BOUGHT + bare).gaps] == [["No", "insurance"]]
    charge = "9 Mar 2024 paid service charge £700.00\n"
    assert found(BOUGHT + bare + charge).gaps == ()
    unpaid = "".join(line for line in YEARS.splitlines(True) if "loan interest" not in line)
    assert [said.split()[:3] for said in found(BOUGHT + unpaid).gaps] == [["£60,000.00", "is", "owed,"]]


def test_before_the_first_let_the_target_of_the_schedule_is_the_rent() -> None:
    plan = 'schedule a "ready"\n    target let from 1 Aug 2022 at £620 a month\n'
    w = found(BOUGHT, date(2022, 7, 15), let=plan)

    assert [(y.slug, y.label, y.sums.rent.pence) for y in w.years] == [("agreed", "as planned", 7_440_00)]
    assert "net_price" not in ratios(w.years[0])  # nothing is known of running costs
    assert w.all_earned is None


def test_with_no_rent_at_all_there_is_no_year() -> None:
    w = found(BOUGHT, date(2022, 7, 15), let="")

    assert w.years == () and any("--rent" in note for note in w.notes)
    assert [y.slug for y in found(BOUGHT, date(2022, 7, 15), let="", rent=650_00).years] == ["tried"]


def test_a_lenders_test_only_with_both_numbers_told() -> None:
    w = found(stress=Fraction(11, 2), cover=Fraction(145), rent=700_00)

    assert found().lending is None
    assert w.lending is not None
    assert (w.lending.rent_needed, w.lending.loan_possible) == (398_75, 105_329_15)


# ── what it brought, and the rate ────────────────────────────────────────────────────────────────────────────────


def test_tax_years_add_up_to_the_whole() -> None:
    w = found()

    assert [(str(y), e.left.pence) for y, e in w.earned] == [
        ("2022-23", 9 * 350_00 - 200_00), ("2023-24", 12 * 350_00 - 540_00), ("2024-25", 3 * 350_00),
    ]  # fmt: skip
    assert w.all_earned is not None
    assert sum(e.left.pence for _, e in w.earned) == w.all_earned.left.pence


def at_rate(flows: Figure, rate: Decimal) -> Decimal:
    first = flows.trail[0].day
    return sum((t.pence * (1 + rate) ** (Decimal(-(t.day - first).days) / 365) for t in flows.trail), Decimal(0))


def test_the_rate_makes_every_dated_sum_come_out_even() -> None:
    w = found(value=110_000_00)

    assert [r.slug for r in w.rates] == ["house", "own"]
    for rate in w.rates:
        assert rate.rates is not None and len(rate.rates.found) == 1
        assert abs(at_rate(rate.flows, rate.rates.found[0])) < 1
    house, own = (rate.flows.pence for rate in w.rates)
    assert w.all_earned is not None
    assert own == -w.cost.cash.pence + w.all_earned.left.pence + 110_000_00 - 60_000_00
    assert house == own + 60_000_00 - 60_000_00 + 750_00 + 24 * 250_00


def test_a_value_told_or_a_sale_ends_the_sums() -> None:
    told = found(more="valued 1 May 2024 at £108,000")
    sold = found(BOUGHT + YEARS + "1 Jul 2024 paid estate agent £1,200.00\n", more="sold 1 Jul 2024 for £115,000")

    assert told.value is not None and told.value.pence == 108_000_00
    assert sold.rates[0].ends == "sold"
    assert sold.rates[0].flows.pence == 115_000_00 - 1_200_00 - 104_800_00 + 14_400_00 - 740_00
    assert [y.slug for y in sold.years] == ["collected"]
    assert sold.all_earned is not None and sold.all_earned.days.last == date(2024, 7, 1)


def test_a_bill_paid_after_the_sale_still_counts() -> None:
    late = "15 Jul 2024 paid accountant £90.00\n"
    before = found(more="sold 1 Jul 2024 for £115,000").all_earned
    after = found(BOUGHT + YEARS + late, more="sold 1 Jul 2024 for £115,000").all_earned

    assert before is not None and after is not None
    assert (after.days.last, before.left.pence - after.left.pence) == (date(2024, 7, 15), 90_00)


def test_why_there_is_no_rate() -> None:
    late = found(BOUGHT + months(date(2023, 6, 1), 14), value=110_000_00)

    assert "valued DAY" in found().rates[0].why and found().rates[0].rates is None
    assert "mid-life" in late.rates[0].why and late.rates[0].rates is None
    assert any("1 Jun 2023" in note for note in late.notes)


def test_a_gift_has_no_return_on_own_money() -> None:
    text = 'landlord x "X"\nproperty a "1 A Street"\n    inherited 10 Jun 2022 at £90,000\n' + LET
    book = build({"a.book": text + "at a\n" + "".join(months(date(2022, 8, 1), 24).splitlines(True)[::2])})
    w = worth(Accounts(book), "a", DAY, Asked(value=95_000_00))

    assert "on_cash" not in ratios(w.years[0])
    assert ratios(w.years[0])["gross_price"] == Fraction(7200, 90000)
    assert w.rates[0].rates is not None and w.rates[0].flows.trail[0].pence == -90_000_00
    assert "your own money in it" not in text_of([w]).partition("A year of it")[0]


# ── the trail ────────────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("sample", ["saltmarsh", "harbour"])
def test_in_the_sample_books_every_figure_is_its_lines_and_the_sums_agree(sample: str) -> None:
    day = date(2026, 4, 5)
    book = open_book(Path(__file__).parents[2] / "sample_books" / sample)
    accounts = Accounts(up_to(book, day))
    for house in book.properties:
        w = worth(accounts, house, day, Asked(value=200_000_00, empty=Fraction(3), price=150_000_00))
        for f in figures(w):
            assert f.pence == sum(t.pence for t in f.trail), (house, f.slug)
        if w.value and w.all_earned and len(w.rates) == 2:
            own = next(r for r in w.rates if r.slug == "own").flows.pence
            assert own == w.all_earned.left.pence - w.cost.cash.pence + w.value.pence - w.cost.owed.pence, house


def test_json_gives_money_as_text_and_a_line_for_every_sum() -> None:
    told = as_json([found(value=110_000_00, stress=Fraction(11, 2), cover=Fraction(145), rent=700_00)])
    house = json.loads(json.dumps(told))["houses"][0]

    assert house["total"]["amount"] == "104800.00"
    assert {line["source"] for line in house["total"]["lines"]} >= {"a.book:10", "a.book:26"}
    ratio = house["years"][0]["ratios"][0]
    assert (ratio["ratio"], ratio["of"], ratio["over"], ratio["value"]) == ("gross_price", ["rent"], "price", "7.20")
    assert house["land_tax"]["answers"][0]["payable"] == "2970.00" and house["land_tax"]["agrees"]
    assert house["land_tax"]["answers"][0]["law"][0]["source"]
    assert Decimal(house["rates"][0]["found"][0]) > 0


def test_open_costs_and_open_money_in_are_told_apart() -> None:
    """Replaced without a word on the old one £400, and insurance of £1,000 for nothing told: no net sum of £600."""
    more = "1 Apr 2024 replaced windows £400.00\n2 Apr 2024 received insurance £1,000.00 from \"Fen Mutual\"\n"
    w = found(BOUGHT + YEARS + more)
    left = w.years[0].sums.left.pence
    said = [note for note in w.notes if "`audit --open`" in note]

    assert [note.split(" (")[0] for note in said] == [
        "£400.00 of the running costs of a year is an open question", "£1,000.00 that came in is an open question"
    ]  # fmt: skip
    assert f"£{(left + 400_00) / 100:,.2f} if none of it does" in said[0]
    assert f"without it £{(left - 1_000_00) / 100:,.2f} is left over" in said[1]


def test_only_the_open_part_of_a_cost_is_called_open(monkeypatch: pytest.MonkeyPatch) -> None:
    """B10 and B7 of the rules in words: a share worn since is a repair, the rest of a house without a price is open."""
    deal = "bought 10 Jun 2022 for £100,000, additional dwelling, of which chattels £1,000"
    free = HEAD.replace(deal, "inherited 10 Jun 2022 at £100,000").replace("as bought", "as bought not")
    monkeypatch.setattr(f"{__name__}.HEAD", free.replace("    price normal\n", ""))
    lines = "1 Apr 2024 replaced windows £400.00, like for like, worn out, of which worn since bought £150.00\n"
    years = "".join(line for line in YEARS.splitlines(keepends=True) if "tap" not in line)
    [said] = [note for note in found(years + lines).notes if "`audit --open`" in note]

    assert said.startswith("£250.00 of the running costs")
