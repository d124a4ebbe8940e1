"""Income tax on non-savings income against published figures, and against figures worked out by hand from the law."""

from __future__ import annotations

from decimal import Decimal

import pytest

from ledger_tools import law
from ledger_tools.book.build import build
from ledger_tools.days import TaxYear
from ledger_tools.taxes.income.bands import income_tax, personal_allowance, rates


@pytest.mark.parametrize(
    ("income", "year", "nation", "tax"),
    [
        # An ACCA tuition question on a landlord: a salary of £80,000 and £10,700 of rents make £7,540 + £16,172.
        ("90700.00", 2022, "england", "23712.00"),
        # Worked out by hand from the published bands: £37,700 at 20%, the rest at 40%.
        ("57000.00", 2025, "england", "10232.00"),
        ("57000.00", 2025, "wales", "10232.00"),
        ("57000.00", 2025, "northern ireland", "10232.00"),
        # The same person in Scotland, slice by slice: 537.13 + 2,418.80 + 3,395.91 + 5,601.96.
        ("57000.00", 2025, "scotland", "11953.80"),
        # With the limits of 2026-27: 753.73 + 2,597.80 + 2,968.56 + 5,601.96.
        ("57000.00", 2026, "scotland", "11922.05"),
        # All the allowance is gone at £125,140, where the additional rate begins: 7,540 + 34,976, then 45%.
        ("125140.00", 2025, "england", "42516.00"),
        ("126140.00", 2025, "england", "42966.00"),
        # Until 2022-23 the additional rate began at £150,000.
        ("150000.00", 2022, "england", "52460.00"),
        ("151000.00", 2022, "england", "52910.00"),
        # Scotland's advanced rate begins at £62,430 of taxable income. By hand: 2,827 at 19%, 12,094 at 20%, 16,171 at
        # 21%, 31,338 at 42%, 25,000 at 45%: 537.13 + 2,418.80 + 3,395.91 + 13,161.96 + 11,250.00.
        ("100000.00", 2025, "scotland", "30763.80"),
        ("12570.00", 2025, "england", "0.00"),
        ("0.00", 2025, "england", "0.00"),
        ("-500.00", 2025, "england", "0.00"),
        # Half a penny goes up, once, at the end: £12,570.13 is 2.6p of tax; £12,570.02 is 0.4p.
        ("12570.13", 2025, "england", "0.03"),
        ("12570.02", 2025, "england", "0.00"),
    ],
)
def test_tax_on_an_income(income: str, year: int, nation: str, tax: str) -> None:
    assert income_tax(int(Decimal(income) * 100), TaxYear(year), nation) == int(Decimal(tax) * 100)


@pytest.mark.parametrize(
    ("income", "year", "left"),
    [
        # By hand from GOV.UK's rule, £1 for every £2 above £100,000: of £12,500 half of £10,000 is gone.
        (110_000_00, 2020, 7_500_00),
        (100_000_00, 2025, 12_570_00),
        (100_001_00, 2025, 12_570_00),  # half a pound is gone, and what is left is rounded up
        (100_002_00, 2025, 12_569_00),
        (125_140_00, 2025, 0),
        (200_000_00, 2025, 0),
    ],
)
def test_the_allowance_shrinks_above_a_limit(income: int, year: int, left: int) -> None:
    assert personal_allowance(income, TaxYear(year)) == left


def test_property_income_has_rates_of_its_own_from_2027() -> None:
    """FA 2026 Sch. 1: £17,430 of wages at 20%, then £15,000 of rents at 22%."""
    year = TaxYear(2027)

    assert income_tax(45_000_00, year, "england", 15_000_00) == 3_486_00 + 3_300_00
    assert income_tax(45_000_00, year, "england") == 3_486_00 + 3_000_00
    assert income_tax(45_000_00, TaxYear(2026), "england", 15_000_00) == 6_486_00


def test_wages_fill_the_bands_before_rents() -> None:
    """From 2027-28: £37,700 of wages fill the basic band, so rents above meet 42%."""
    assert income_tax(60_270_00, TaxYear(2027), "england", 10_000_00) == 7_540_00 + 4_200_00


def test_rates_by_nation() -> None:
    assert [str(rate) for rate in rates(TaxYear(2025), "england")] == ["0.20", "0.40", "0.45"]
    assert [str(rate) for rate in rates(TaxYear(2027), "wales")] == ["0.22", "0.42", "0.47"]
    assert [str(rate) for rate in rates(TaxYear(2025), "scotland")] == ["0.19", "0.20", "0.21", "0.42", "0.45", "0.48"]


def test_no_figure_before_the_first_year_held() -> None:
    with pytest.raises(law.NoFigure):
        income_tax(50_000_00, TaxYear(2015), "england")


def test_where_a_landlord_lives_from_a_year_on() -> None:
    text = 'landlord x "X"\n    lives in scotland from 2024-25\n    lives in wales\nlandlord y "Y"\n'
    people = build({"a.book": text}).landlords

    assert [people["x"].nation(TaxYear(year)) for year in (2023, 2024, 2025)] == ["wales", "scotland", "scotland"]
    assert people["y"].nation(TaxYear(2025)) == ""
