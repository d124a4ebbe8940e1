"""What the answers about a house rest on is told with its place, and what the book does not tell is said too."""

from __future__ import annotations

import pytest

from ledger_tools.book.build import build
from ledger_tools.render import audit as render
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.audit import audit
from ledger_tools.statements.house_facts import house_facts

PEOPLE = 'landlord wren "Wren Ode"\n    married to joel from 2 May 2010\nlandlord joel "Joel Ode"\n'
HOUSE = """property quay-2 "2 Quay, Wold"
    bought 1 May 2024 for £98,000, empty when bought, of which chattels £900
    owners wren 60% and joel 40%
    owners wren 75% and joel 25% from 1 Aug 2025, says "deed"
    form 17 signed 1 Aug 2025, sent 9 Aug 2025
    as bought lettable for a while owing to roof, says "survey: roof near its end"
    price reduced by £8,000, says "agent", receipt "offer.pdf"
    price reduced owing only to roof
    leasehold 99 years from 1 Jan 1990, to be put right
    left by seller fridge and curtains
    works from 2 May 2024 to 9 Jun 2024
tenancy bell at quay-2
    tenants "B. Bell"
    from 1 Jul 2024 to 30 Jun 2025
    ended 30 Jun 2025
    rent £600 a month
at quay-2
4 May 2024 repaired roof £90.00
"""


def accounts(text: str = PEOPLE + HOUSE) -> Accounts:
    book = build({"a.book": text})
    assert not [p for p in book.problems if p.level == "error"], book.problems
    return Accounts(book)


def told(text: str = PEOPLE + HOUSE) -> list[tuple[str, str, str]]:
    made = accounts(text)
    return [(f.about, f.words, f.source) for f in house_facts(made, made.book.properties["quay-2"])]


def line(words: str, text: str = PEOPLE + HOUSE) -> str:
    """The place of the first line that begins so."""
    return f"a.book:{next(n for n, typed in enumerate(text.splitlines(), 1) if typed.strip().startswith(words))}"


@pytest.mark.parametrize(
    ("about", "words", "typed"),
    [
        ("got", "bought 1 May 2024 for £98,000.00, empty when bought, of which chattels £900.00", "bought"),
        ("owned by", "Wren Ode 60% and Joel Ode 40%", "owners wren 60%"),
        ("owned by", 'Wren Ode 75% and Joel Ode 25% from 1 Aug 2025, says "deed"', "owners wren 75%"),
        ("form 17", "signed 1 Aug 2025, sent 9 Aug 2025", "form 17"),
        ("as bought", 'lettable for a while owing to roof, says "survey: roof near its end"', "as bought"),
        ("price", 'reduced by £8,000.00, says "agent"', "price reduced by"),
        ("price", "reduced owing only to roof; the book names no paper", "price reduced owing"),
        ("leasehold", "99 years from 1 Jan 1990, to be put right", "leasehold"),
        ("left there", "fridge and curtains", "left by"),
        ("meanwhile", "works from 2 May 2024 to 9 Jun 2024", "works"),
        ("first let", "bell from 1 Jul 2024 to 30 Jun 2025", "tenancy bell"),
        ("papers", "receipt offer.pdf", "price reduced by"),
    ],
)
def test_each_fact_has_its_words_and_its_place(about: str, words: str, typed: str) -> None:
    assert (about, words, line(typed)) in told()


def test_whose_income_it_is_stands_there_only_while_that_is_not_as_it_is_owned() -> None:
    taxed = [words for about, words, _ in told() if about == "taxed on"]

    assert len(taxed) == 1 and taxed[0].startswith("Wren Ode 50% and Joel Ode 50%")
    assert "836" in taxed[0] and " from " not in taxed[0] and " to 31 Jul 2025" in taxed[0]
    apart = PEOPLE.replace("    married to joel from 2 May 2010\n", "") + HOUSE.replace("    form 17", "    # form 17")
    assert not [words for about, words, _ in told(apart) if about == "taxed on"]


def test_what_the_book_does_not_tell_is_said() -> None:
    bare = 'landlord wren "Wren Ode"\nproperty quay-2 "2 Quay"\n    bought 1 May 2024 for £98,000\n'
    facts = {about: words for about, words, _ in told(bare)}

    assert facts["as bought"] == "your book does not say"
    assert facts["price"] == "whether it was cut for the state of the house, your book does not say"
    assert facts["let"] == "your book tells of no let"
    assert facts["owned by"] == "Wren Ode 100%"


def test_a_let_that_began_with_the_house_is_counted_from_that_day() -> None:
    came = HOUSE.replace("empty when bought", "with tenant in")
    facts = [(about, words) for about, words, _ in told(PEOPLE + came)]

    assert ("first let", "counted from 1 May 2024, which is no first day of a tenancy in your book") in facts
    assert ("let", "bell from 1 Jul 2024 to 30 Jun 2025") in facts


def test_a_letting_that_only_a_return_tells_of_is_told_and_no_later_let_is_called_the_first() -> None:
    """The answers go by that return, so letting did not begin with the first tenancy of the book."""
    early = HOUSE.replace("bought 1 May 2024", "bought 1 May 2012")
    text = PEOPLE + early + "4 May 2019 replaced windows £900.00, like for like, already returned 2019-20\n"
    facts = told(text)

    said = "had begun by 5 Apr 2020, as the return for 2019-20 took a cost of this house off"
    assert ("letting", said, line("4 May 2019", text)) in facts
    assert ("let", "bell from 1 Jul 2024 to 30 Jun 2025", line("tenancy bell", text)) in facts
    assert "first let" not in [about for about, _, _ in facts]


@pytest.mark.parametrize(
    ("price", "words"),
    [
        ("", "whether it was cut for the state of the house, your book does not say"),
        ("    price normal\n", "normal; the book names no paper"),
    ],
)
def test_a_house_that_came_free_has_a_value_and_no_price(price: str, words: str) -> None:
    bare = f'landlord wren "Wren Ode"\nproperty quay-2 "2 Quay"\n    inherited 1 May 2024 at £98,000\n{price}'
    facts = {about: words for about, words, _ in told(bare)}

    assert facts["value"] == words and "price" not in facts


def test_what_stands_beside_a_value_is_said_where_the_book_does_not_tell_whether_it_was_cut() -> None:
    """B7 of the rules in words: for a house without a price the valuation's own wording is the evidence."""
    bare = 'landlord wren "Wren Ode"\nproperty quay-2 "2 Quay"\n    inherited 1 May 2024 at £98,000'
    bare += ', says "poor order"\n'
    cut, uncut = ({about: words for about, words, _ in told(bare + told_of)} for told_of in ("", "    price normal\n"))

    assert cut["value"].endswith('your book does not say; beside the value stands "poor order"')
    assert "poor order" not in uncut["value"]


def test_the_pages_and_the_data_carry_every_fact() -> None:
    made = audit(accounts())
    text, [house] = " ".join(render.text(made).split()), render.as_data(made)["houses"]
    [table] = [block for block in render.page(made).sections[0].blocks if getattr(block, "name", "") == "house"]

    for (about, words, source), fact, row in zip(told(), house["facts"], table.rows, strict=True):
        assert f"{about} {words}" in text and (not source or f"({source})" in text)
        assert fact == {"about": about, "words": words, "source": source or None}
        assert row.cells == (about, words, source)


def test_places_of_houses_in_another_folder_than_the_lines_are_written_whole() -> None:
    lines = HOUSE.rindex("at quay-2")
    book = build({"mine/house/a.book": PEOPLE + HOUSE[:lines], "mine/year/b.book": HOUSE[lines:]})
    text = render.text(audit(Accounts(book)))

    assert "(house/a.book:5)" in text and "year/b.book:2;" in text
