"""The days that follow from a tax year, against the places where they stand; and what a late return costs."""

from __future__ import annotations

import json
from datetime import date

import pytest

from ledger_tools.days import TaxYear
from ledger_tools.render import json_form, text
from ledger_tools.render import year_end as pages
from ledger_tools.statements.due_days import due_days, late
from ledger_tools.statements.year_end import year_end
from tests.ledger.books import work

RENT = "at a\n1 Jun 2025 received rent £500.00 from t\n"


@pytest.mark.parametrize(
    ("what", "days"),
    [
        ("pay_on_account", (date(2026, 1, 31), date(2026, 7, 31))),  # SAM1010: in the year, and after it
        ("tell_of_new_source", (date(2026, 10, 5),)),  # TMA 1970 s. 7: six months after the year
        ("return_on_paper", (date(2026, 10, 31),)),  # SAM61220
        ("return_online", (date(2027, 1, 31),)),  # SAM60080; the balance falls due the same day
        ("change_return", (date(2028, 1, 31),)),  # the service's guide: for twelve months
        ("keep_records", (date(2032, 1, 31),)),  # TMA 1970 s. 12B: the fifth anniversary of 31 January 2027
    ],
)
def test_the_days_of_2025_26(what: str, days: tuple[date, ...]) -> None:
    assert {due.what: due.days for due in due_days(TaxYear(2025))}[what] == days


def test_records_of_2016_17_are_kept_to_31_january_2023() -> None:
    """TMA 1970 s. 12B; a printed example has the same day."""
    assert {due.what: due.days for due in due_days(TaxYear(2016))}["keep_records"] == (date(2023, 1, 31),)


def test_how_long_a_return_may_be_changed_and_that_it_was_not_read_for_older_years() -> None:
    """TMA 1970 s. 9ZA (from memory): twelve months; read for the years of digital reporting only."""
    found = {year: {due.what: due for due in due_days(TaxYear(year))} for year in (2024, 2025)}

    assert [found[year]["change_return"].days for year in (2024, 2025)] == [(date(2027, 1, 31),), (date(2028, 1, 31),)]
    assert ["from memory" in found[year]["change_return"].says for year in (2024, 2025)] == [True, False]
    assert "from memory" not in found[2024]["return_online"].says


@pytest.mark.parametrize("year", [2016, 2025, 2026])
def test_every_day_names_where_it_stands_and_they_come_in_order(year: int) -> None:
    held = [due for due in due_days(TaxYear(year)) if due.days]

    assert [due.days[0] for due in held] == sorted(due.days[0] for due in held)
    assert all(due.source for due in held)


def test_what_a_late_return_costs() -> None:
    """SAM61230, SAM61240: £100; 90 days at £10; £300 at six and at twelve months: £1,600 where no tax is owed."""
    said = "A late return costs £100.00, after 12 months £1,600.00 or more, whether tax is owed or not."
    assert late(TaxYear(2025)) == said
    assert late(TaxYear(2026)).endswith("with quarterly updates, a point.")  # FA 2021 Sch. 24, by SI 2026/370


def page(year: int, rent_in: int) -> str:
    return text.draw(pages.page(year_end(work(RENT.replace("2025", str(rent_in))), TaxYear(year))))


def test_they_close_the_page_in_eight_lines_at_most() -> None:
    for year in (2024, 2025, 2026):
        section = page(year, year).partition("Days to keep for ")[2].partition("Figures of law")[0].splitlines()

        assert len([line for line in section if line]) == 8
        assert all(len(line) <= text.WIDTH for line in section)
    assert "Days to keep" not in page(2023, 2025)  # nothing to hand in


def test_they_stand_in_the_json() -> None:
    told = json.loads(json_form.dump(json_form.year_end(year_end(work(RENT), TaxYear(2025)))))

    assert told["due"][3] == {
        "what": "return_online", "days": ["2027-01-31"], "source": "HMRC Self Assessment Manual, SAM60080",
        "words": "send the return, if online, and pay what is still owed",
    }  # fmt: skip
    assert told["late"] == late(TaxYear(2025))
