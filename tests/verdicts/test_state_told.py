"""One note a house asks for its state and its price at once, and says how many sums hang on them."""

from __future__ import annotations

import pytest

from ledger_tools.book.build import build
from ledger_tools.render.text import settling
from ledger_tools.verdicts.state_told import faults_in_quotes, state_untold

WORKS = """at a
1 Jun 2025 replaced boiler £900.00, like for like, worn out
2 Jun 2025 replaced roof £9,000.00, like for like, worn out
3 Jun 2025 cleaned house £90.00
"""
LET = 'tenancy t at a\n    tenants "T"\n    from {}\n    rent £500 a month\n'


def notes(fields: str, got: str = "bought 1 May 2025 for £100,000", let: str = "1 Sep 2025") -> list[str]:
    head = f'landlord x "X"\nproperty a "1 A Street"\n    {got}\n{fields}'
    return [f"{p.headline} {p.help}" for p in state_untold(build({"a.book": head + LET.format(let) + WORKS}))]


def test_state_and_price_are_asked_for_together_with_what_hangs_on_them() -> None:
    (said,) = notes("")
    assert "2 sums, £9,900.00 together" in said
    assert "`as bought lettable`" in said and "`price normal`" in said


@pytest.mark.parametrize(
    "fields, asked",
    [
        ("    as bought lettable\n", "price normal"), ("    price normal\n", "as bought lettable"),
        ("    as bought lettable\n    price normal\n", ""), ("    as bought not lettable\n", ""),
    ],
)  # fmt: skip
def test_only_what_is_lacking_is_asked_for(fields: str, asked: str) -> None:
    found = notes(fields)
    assert bool(found) is bool(asked)
    for words in ("as bought lettable", "price normal"):
        assert (f"`{words}`" in "".join(found)) is (words == asked)


def test_of_a_house_that_had_no_price_its_value_is_asked_as_well() -> None:
    (said,) = notes("", "inherited 1 May 2025 at £100,000")
    assert "`as bought lettable`" in said and "if its value was cut for its state" in said
    (said,) = notes("    as bought lettable\n", "inherited 1 May 2025 at £100,000")
    assert "`as bought" not in said and "if its value was cut for its state" in said
    assert notes("    as bought lettable\n    price normal\n", "inherited 1 May 2025 at £100,000") == []


def test_a_house_let_for_years_before_its_works_is_not_asked_one_let_for_weeks_is() -> None:
    assert notes("", "bought 1 May 2022 for £100,000", let="1 May 2022") == []
    (said,) = notes("", let="1 May 2025")
    assert "2 sums, £9,900.00 together" in said


def test_where_no_let_is_told_for_years_the_book_is_asked_for_it() -> None:
    """A house bought in 2016 with lets from 2024: that its works were soon after its first let would be untrue."""
    (said,) = notes("", "bought 1 May 2016 for £100,000", let="1 May 2025")
    assert "no let before 1 May 2025" in said and "`tenancy … at a`" in said and "soon after" not in said
    assert "no let before" not in notes("")[0]


def test_what_settles_it_names_the_heading_and_both() -> None:
    said = settling(("as bought lettable", "as bought not lettable"))
    assert "under the heading of the house" in said and "`price normal`" in said
    assert "`price normal`" not in settling(("as bought lettable", ', treat as purchase cost because "…"'))


@pytest.mark.parametrize("words", ["old one scrapped", 'improvement £… "porch, wiring"'])
def test_what_a_line_can_say_once_is_written_in_place_of_it(words: str) -> None:
    """Beside what stands there it is an error (two fates, two improvement parts)."""
    said = settling((words, ', treat as repair because "…"'))

    assert f"write `{words}` in place of what the line says there" in said


def quoted(fields: str, got: str = "bought 1 May 2025 for £100,000", works: str = WORKS) -> list[str]:
    head = f'landlord x "X"\nproperty a "1 A Street"\n    {got}\n    price normal\n    {fields}\n'
    text = head + LET.format("1 Sep 2025") + works
    return [f"{p.headline} {p.help}" for p in faults_in_quotes(build({"a.book": text}))]


@pytest.mark.parametrize("words", ["no gas", "no running water", "no hot water", "the agent's letter"])
def test_what_is_wrong_in_quotes_that_name_nothing_is_asked_for_and_not_guessed(words: str) -> None:
    (said,) = quoted(f'as bought not lettable, says "{words}"')

    assert f'`as bought not lettable owing to boiler and roof, says "{words}"`' in said
    assert "all 2 jobs that put something right, £9,900.00 together" in said


def test_what_came_after_a_let_is_not_counted_with_it() -> None:
    """A job of which it is open whether the house was bought with it does not count as part of what the house cost."""
    later = WORKS + "1 Mar 2026 repaired gutter £95.00\n"
    (said,) = quoted('as bought not lettable, says "no gas"', works=later)
    assert "all 2 jobs" in said and "gutter" not in said


@pytest.mark.parametrize(
    "fields",
    ["as bought not lettable", 'as bought not lettable, says "no boiler"', 'as bought lettable, says "no gas"',
     'as bought not lettable owing to boiler, says "no gas"'],
)  # fmt: skip
def test_what_is_told_or_read_is_not_asked_for(fields: str) -> None:
    assert quoted(fields) == []


def test_of_a_single_job_or_a_house_that_came_free_it_is_not_asked() -> None:
    one = "at a\n1 Jun 2025 replaced boiler £900.00, like for like, worn out\n"

    assert quoted('as bought not lettable, says "no gas"', works=one) == []
    assert quoted('as bought not lettable, says "no gas"', "inherited 1 May 2025 at £100,000") == []
