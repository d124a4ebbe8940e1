"""Sales of a house: the owner's year, the day of the contract, what may be tried. The houses are invented."""

from __future__ import annotations

from datetime import date

import pytest

from ledger_tools.book.build import build
from ledger_tools.book.world import Book
from ledger_tools.days import TaxYear
from ledger_tools.problems import Level
from ledger_tools.render.base_cost import as_json, text
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.base_cost import BaseCost, base_cost
from ledger_tools.statements.sold import OwnerGain, Sale
from ledger_tools.statements.year_end import year_end

OWNER = 'landlord x "X"\n    other income £30,000 in 2025-26\n    other income £30,000 in 2023-24\n'
LATE = date(2026, 4, 5)


def house(name: str, bought: int, sold: str, more: str = "") -> str:
    """A house of X, bought in 2015; sold: its line without `sold`, if any."""
    line = f"    sold {sold}\n" if sold else ""
    return (
        f'property {name} "{name.upper()}"\n    bought 1 May 2015 for £{bought:,}\n    as bought lettable\n'
        f"    price normal\n    owners x 100%\n{more}{line}"
    )


def book(*houses: str) -> Book:
    made = build({"x.book": OWNER + "".join(houses)})
    assert [p.headline for p in made.problems if p.level is Level.ERROR] == []
    return made


def sold(made: Book, name: str = "a", on: date = LATE, price: int | None = None) -> Sale:
    sale = base_cost(made, name, on, price).sale
    assert sale is not None
    return sale


def owner(sale: Sale) -> OwnerGain:
    (one,) = sale.owners
    return one


def tax(sale: Sale) -> int:
    (answer,) = owner(sale).taxes
    return answer.tax


EXCHANGED = "    exchanged 20 Mar 2024\n"
A = house("a", 100_000, "10 Jan 2026 for £150,000")
B = house("b", 100_000, "10 Feb 2026 for £151,000")
LOSS = house("c", 200_000, "10 Dec 2025 for £160,000")


def test_a_loss_of_a_year_whose_exempt_amount_is_not_held_is_brought_on() -> None:
    """£8,000 lost in 2018-19; £50,000 won in 2025-26 less £3,000 and £8,000 is £39,000."""
    early = house("c", 200_000, "10 Dec 2018 for £192,000")
    sale = sold(book(A, early))

    assert owner(sale).charge.taxable == 39_000_00  # type: ignore[union-attr]
    assert "before 2020-21 are not held here" in " ".join(sale.notes)
    assert "are not held here" not in " ".join(sold(book(A)).notes)


def test_a_gain_of_such_a_year_is_taken_to_have_used_earlier_losses() -> None:
    lost, won = house("c", 200_000, "10 Dec 2017 for £192,000"), house("d", 100_000, "10 Dec 2018 for £109,000")

    assert owner(sold(book(A, lost, won))).charge.taxable == 47_000_00  # type: ignore[union-attr]


def test_one_exempt_amount_and_one_band_for_all_sales_of_a_year() -> None:
    """£50,000 and £51,000 less a loss of £40,000 and £3,000 free: £58,000. Income of £30,000 less £12,570 leaves
    £20,270 of the band: £3,648.60 at 18% and £37,730 at 24%, £9,055.20."""
    made = book(A, B, LOSS)

    assert {tax(sold(made, name)) for name in "abc"} == {3_648_60 + 9_055_20}
    assert [p.house for p in owner(sold(made)).others] == ["c", "b"]


def test_a_sale_tried_out_comes_on_top_of_those_that_were() -> None:
    made = book(house("a", 100_000, ""), B)

    assert owner(sold(made, price=150_000_00)).others[0].house == "b"
    charge = owner(sold(made, price=150_000_00)).charge
    assert charge is not None and charge.taxable == 98_000_00


def test_a_loss_of_an_earlier_year_comes_off_down_to_the_exempt_amount_and_the_page_says_on_what_terms() -> None:
    early = house("c", 200_000, "10 Dec 2023 for £160,000")
    sale = sold(book(A, early))
    charge = owner(sale).charge
    assert charge is not None

    assert (charge.taxable, charge.losses_used, charge.losses_left) == (7_000_00, 40_000_00, 0)
    assert any("losses of £40,000.00 on earlier sales" in note for note in sale.notes)
    assert any("left for later years" in note for note in sold(book(early), "c").notes)
    assert not any("earlier sales" in note for note in sold(book(A)).notes)


def test_a_small_gain_uses_no_earlier_loss() -> None:
    early = house("c", 200_000, "10 Dec 2023 for £160,000")
    charge = owner(sold(book(house("a", 100_000, "10 Jan 2026 for £102,000"), early))).charge

    assert charge is not None and (charge.losses_used, charge.losses_left) == (0, 40_000_00)


def test_year_rates_and_exempt_amount_follow_the_contract_and_the_report_the_sale() -> None:
    """Contract 20 Mar 2024: £6,000 free, 18% and 28%. £44,000, of which £20,270 at 18% and £23,730 at 28%."""
    told = sold(book(house("a", 100_000, "10 Apr 2024 for £150,000", EXCHANGED)))
    untold = sold(book(house("a", 100_000, "10 Apr 2024 for £150,000")))

    assert (str(told.year), tax(told)) == ("2023-24", 3_648_60 + 6_644_40)
    assert str(untold.year) == "2024-25" and any("Your book does not tell it" in note for note in untold.notes)
    assert not any("Your book does not tell it" in note for note in told.notes)
    assert told.report_by == untold.report_by == date(2024, 6, 9)


def test_a_year_that_still_runs_is_marked() -> None:
    def marked(on: date) -> bool:
        return any("can change the tax" in note for note in sold(book(A), on=on).notes)

    assert marked(date(2026, 1, 10)) and marked(date(2026, 4, 4)) and not marked(LATE)


@pytest.mark.parametrize("until, said", [("1 Sep 2019", True), ("31 Aug 2019", False)])
def test_what_was_let_while_it_was_the_home_is_told(until: str, said: bool) -> None:
    let = 'tenancy t at a\n    tenants "T. Enant"\n    periodic from 1 Sep 2019\n    rent £500 a month\n'
    made = book(house("a", 100_000, "10 Jan 2026 for £150,000", f"    own home from 1 May 2015 to {until}\n"), let)

    assert any("lettings relief" in note for note in sold(made).notes) is said


# ── shares that passed ───────────────────────────────────────────────────────────────────────────────────────────

PASSED = (
    "    owners x 50% and y 50%\n    owners x 75% and y 25% from 1 Oct 2024\n{more}at a\n"
    '1 Mar 2016 extended kitchen £10,000.00 by "B", chosen\n'
    '1 Mar 2025 extended lounge £8,000.00 by "B", chosen\n'
)


def passed(told: str = "", more: str = "", passing: str = PASSED, houses: str = "", people: str = "") -> Book:
    """The house of X and Y; told: under X, more: under the house, then other houses and people."""
    head = house("a", 100_000, "").replace("    owners x 100%\n", "")
    whole = f'landlord x "X"\n{told}landlord y "Y"\n{people}{houses}{head}{passing.format(more=more)}'
    made = build({"x.book": whole})
    assert [p.headline for p in made.problems if p.level is Level.ERROR] == []
    return made


def gains_of(sale: Sale) -> dict[str, int]:
    return {o.owner: o.part.disposal.gain for o in sale.owners}


def test_what_a_sister_got_counts_at_its_value_and_what_she_passed_on_is_told_in_the_other_s_year() -> None:
    """TCGA 1992 ss. 17, 18. By hand: to October 2024 each half had cost £55,000. At £180,000 the 25% passed on at
    £45,000 had cost £27,500: £17,500 won. Of £240,000 X has £180,000 less £55,000, £45,000 and £6,000 (three quarters
    of the lounge): £74,000; Y £60,000 less £27,500 and £2,000: £30,500."""
    made = passed(more="    valued 1 Oct 2024 at £180,000\n")
    record = base_cost(made, "a", date(2026, 3, 1), 240_000_00)

    assert record.sale and gains_of(record.sale) == {"x": 74_000_00, "y": 30_500_00}
    (given,) = record.passed_on
    assert (given.price, gains_of(given), str(given.year)) == (45_000_00, {"y": 17_500_00}, "2024-25")
    (y,) = given.owners
    assert y.charge and (y.charge.exempt_used, y.charge.taxable) == (3_000_00, 14_500_00)
    assert [t.tax for t in y.taxes] == [3_480_00, 2_610_00]  # 24% or 18%: what else she earns is not told
    year = year_end(Accounts(made), TaxYear(2024))
    pages = {o.owner: " ".join(o.notes) for o in year.owners}
    assert "you passed on 25% of a" in pages["y"]
    assert [due.days for due in year.due if "the part of a passed on" in due.says] == [(date(2024, 11, 30),)]  # 60 days
    assert "you passed on" not in pages["x"]


def test_without_that_value_no_gain_is_given_but_the_question() -> None:
    record = base_cost(passed(more="    valued 2 Oct 2024 at £180,000\n"), "a", date(2026, 3, 1), 240_000_00)

    assert record.sale and gains_of(record.sale) == {"y": 30_500_00}  # half of hers went, whatever it was worth
    assert [one.owner for one in record.sale.waiting] == ["x"]
    assert any("add `valued 1 Oct 2024 at £…`" in said for said in record.notes)


def test_between_spouses_a_share_passes_at_what_it_cost() -> None:
    """TCGA 1992 s. 58: X £180,000 less £82,500 and £6,000, Y £60,000 less £27,500 and £2,000."""
    record = base_cost(passed("    married to y\n"), "a", date(2026, 3, 1), 240_000_00)

    assert record.sale and gains_of(record.sale) == {"x": 91_500_00, "y": 30_500_00}
    assert "you passed on" not in str(year_end(Accounts(passed("    married to y\n")), TaxYear(2024)))


def test_what_was_passed_on_uses_up_the_exempt_amount_of_its_year() -> None:
    """Y won £17,500 on the part of October 2024 and £20,000 on her own house in February 2025: less £3,000, £34,500."""
    more = house("b", 100_000, "10 Feb 2025 for £120,000").replace("owners x", "owners y")
    made = passed(more="    valued 1 Oct 2024 at £180,000\n", houses=more)

    for record in (base_cost(made, "b", LATE).sale, *base_cost(made, "a", LATE).passed_on):
        assert record and record.owners[0].charge and record.owners[0].charge.taxable == 34_500_00
    (other,) = owner(sold(made, "b")).others
    assert (other.house, other.passed, other.left) == ("a", True, 17_500_00)


def test_a_loss_on_what_was_passed_on_comes_off_no_other_gain() -> None:
    """TCGA 1992 s. 18(3), from memory. The quarter that cost £27,500 was worth £20,000; £20,000 won on her own house
    less £3,000 leaves £17,000."""
    more = house("b", 100_000, "10 Feb 2025 for £120,000").replace("owners x", "owners y")
    made = passed(more="    valued 1 Oct 2024 at £80,000\n", houses=more)
    (given,) = base_cost(made, "a", LATE).passed_on

    assert gains_of(given) == {"y": -7_500_00} and owner(sold(made, "b")).others == ()
    assert owner(sold(made, "b")).charge.taxable == 17_000_00  # type: ignore[union-attr]
    assert any("to the same person only" in note for note in given.notes)


def test_what_was_passed_on_and_is_not_worked_out_is_told_beside_the_other_sales_of_that_year() -> None:
    more = house("b", 100_000, "10 Feb 2025 for £120,000").replace("owners x", "owners y")
    sale = sold(passed(houses=more), "b")

    assert any("the part of a passed on (1 Oct 2024) is not in it" in note for note in sale.notes)


def test_of_two_who_get_shares_on_one_day_the_spouse_has_the_cost_and_the_other_the_value() -> None:
    """TCGA 1992 ss. 58, 17, 18. X's half had cost £55,000: 20% goes to his wife W at 2/5 of that, £22,000, and 10% to
    Y at £18,000, which had cost £11,000, 1/5 of it: £7,000 won. Y then has £55,000 and £18,000; X 20% for £22,000. Of
    the lounge of £8,000 each has the part of the day. At £240,000: X £48,000 less £22,000 and £1,600; W the same; Y
    £144,000 less £73,000 and £4,800."""
    lines = PASSED.replace("owners x 75% and y 25%", "owners x 20% and y 60% and w 20%")
    made = passed("    married to w\n", "    valued 1 Oct 2024 at £180,000\n", passing=lines, people='landlord w "W"\n')
    record = base_cost(made, "a", date(2026, 3, 1), 240_000_00)

    assert [gains_of(given) for given in record.passed_on] == [{"x": 7_000_00}]
    assert record.sale and gains_of(record.sale) == {"x": 24_400_00, "w": 24_400_00, "y": 66_200_00}
    assert not record.sale.waiting


def test_where_several_give_and_several_get_and_two_are_spouses_nothing_is_made_up() -> None:
    lines = PASSED.replace("owners x 50% and y 50%", "owners x 50% and y 30% and w 10% and v 10%").replace(
        "owners x 75% and y 25%", "owners x 40% and y 20% and w 20% and v 20%"
    )
    people = 'landlord w "W"\nlandlord v "V"\n'
    made = passed("    married to w\n", "    valued 1 Oct 2024 at £180,000\n", passing=lines, people=people)
    record = base_cost(made, "a", date(2026, 3, 1), 240_000_00)

    assert record.passed_on == () and record.sale
    assert [one.owner for one in record.sale.waiting] == ["w", "v"]
    assert any("does not tell who gave to whom" in said for said in record.notes)


def test_an_improvement_taken_out_later_still_counted_when_a_share_was_passed_on() -> None:
    """A quarter of £100,000, of the £10,000 on the kitchen and of a conservatory of £4,000 that was there then: £28,500
    of £45,000."""
    lines = PASSED + '2 Mar 2016 installed conservatory £4,000.00\n5 May 2025 removed conservatory £300.00\n'
    made = passed(more="    valued 1 Oct 2024 at £180,000\n", passing=lines)
    (given,) = base_cost(made, "a", date(2026, 3, 1)).passed_on

    assert gains_of(given) == {"y": 16_500_00}


def test_the_report_runs_from_completion_and_the_year_goes_by_the_contract() -> None:
    """FA 2019 Sch. 2: 60 days after 10 April 2024; TCGA 1992 s. 28: the contract of 20 March is in 2023-24."""
    told = text([base_cost(book(house("a", 100_000, "10 Apr 2024 for £150,000", EXCHANGED)), "a", LATE)])
    untold = text([base_cost(book(house("a", 100_000, "10 Apr 2024 for £150,000")), "a", LATE)])

    said = " ".join(told.split())
    assert "by 9 Jun 2024: the days run from completion on 10 Apr 2024. The contract of 20 Mar 2024 puts" in said
    assert "the sale in 2023-24" in said and "if 10 Apr 2024" not in said
    assert "if 10 Apr 2024 is the day of completion" in " ".join(untold.split())


def test_what_was_passed_on_stands_in_every_form() -> None:
    record = base_cost(passed(more="    valued 1 Oct 2024 at £180,000\n"), "a", LATE)
    (shown,) = as_json([record])["houses"][0]["passed_on"]

    assert "25% passed on, 1 Oct 2024, worth £45,000.00" in text([record])
    assert (shown["owners"][0]["gain"], shown["report_by"]) == ("17500.00", "2024-11-30")


def test_what_came_by_a_death_counts_at_its_value_and_nobody_has_a_gain_though_they_were_married() -> None:
    """TCGA 1992 s. 62, from memory. X dies; his half comes to his wife at £90,000. Of £240,000 come off her own
    £55,000, those £90,000 and the £8,000 on the lounge: £87,000. Given in life: £240,000 less £118,000."""
    lines = PASSED.replace("owners x 75% and y 25% from 1 Oct 2024", "owners y 100% from 1 Oct 2024{death}")
    valued = "    valued 1 Oct 2024 at £180,000\n"

    def book_of(death: str, value: str) -> Book:
        return passed("    married to y\n", passing=lines.replace("{death}", death), more=value)

    def record(death: str, value: str = valued) -> BaseCost:
        return base_cost(book_of(death, value), "a", date(2026, 3, 1), 240_000_00)

    died, gave = record(", on death"), record("")
    assert died.sale and gains_of(died.sale) == {"y": 87_000_00} and died.passed_on == ()
    assert gave.sale and gains_of(gave.sale) == {"y": 122_000_00}
    assert any("came to Y from X, who had died" in said for said in died.notes)
    untold = record(", on death", "")
    assert untold.sale and [one.owner for one in untold.sale.waiting] == ["y"]
    assert any("as the probate papers have it" in said for said in untold.notes)
    assert "you passed on" not in str(year_end(Accounts(book_of(", on death", "")), TaxYear(2024)))
