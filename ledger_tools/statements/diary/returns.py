"""Returns, quarterly updates and payments of income tax of each owner. The book cannot tell what was sent, so each is
told until its day is over."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from ... import law
from ...days import TaxYear, day_words
from ..accounts import Accounts
from ..digital_duty import bound_from, receipts
from .reminder import Reminder, rule

ASK = "An adviser and the tax office decide."


def returns(accounts: Accounts, on: date, until: date) -> Iterator[Reminder]:
    """What every owner of the book has to send or pay from a day to another, both included."""
    for owner in accounts.book.landlords:
        years = [year for year, pence in receipts(accounts, owner).items() if pence > 0 and year.period.first <= on]
        if years:
            found = (*_yearly(accounts, owner, years), *_updates(accounts, owner, until))
            yield from (one for one in found if on <= one.day <= until)


def _yearly(accounts: Accounts, owner: str, years: list[TaxYear]) -> Iterator[Reminder]:
    """The dates of each year that had receipts; notice to the tax office only for the first of the book."""
    first = min(years)
    for year in years:
        said = f"the tax return of {year} online, and what is still to pay for that year"
        yield from _one(accounts, owner, year, "return", "deadlines.return_online", said)
        said = f"the tax return of {year}, if it goes on paper"
        yield from _one(accounts, owner, year, "paper-return", "deadlines.return_paper", said)
        if year == first:
            said = f"tell the tax office of the letting begun in {year}, unless it sends you a return anyway"
            yield from _one(accounts, owner, year, "notify", "deadlines.notify", said)
        following = year.next
        for topic, said in (("account_first", "first"), ("account_second", "second")):
            said = f"the {said} payment on account for {following}, where the tax of {year} asks for it"
            yield from _one(accounts, owner, following, topic.replace("_", "-"), f"deadlines.{topic}", said)


def _one(accounts: Accounts, owner: str, year: TaxYear, kind: str, topic: str, said: str) -> Iterator[Reminder]:
    try:
        held = law.due(topic, year)
    except law.NoFigure:
        return
    about = accounts.book.landlords[owner]
    shown = year.before if kind.startswith("account") else year
    ask = f"`year-end --year {shown}` works out what goes in and what there is to pay. {ASK}"
    yield Reminder(kind, held.day, "", owner, f"{about.full}: {said}", ask, str(year), rule(held),
                   (about.place.short,), untold=True)  # fmt: skip


def _updates(accounts: Accounts, owner: str, until: date) -> Iterator[Reminder]:
    """The quarterly updates of the years in which the receipts of the book make them a duty."""
    start = bound_from(accounts, owner)
    if start is None:
        return
    about = accounts.book.landlords[owner]
    for number in range(start.start, TaxYear.of(until).start + 1):
        year = TaxYear(number)
        for quarter in (1, 2, 3, 4):
            held = law.update(quarter, year)
            days = held.covers[about.quarters_in(year)]
            said = f"{about.full}: quarterly update {quarter} of {year}, to {day_words(days.last)}"
            ask = f"`quarter` makes it; an exemption frees from it. {ASK}"
            yield Reminder("update", held.day, "", owner, said, ask, f"{year} {quarter}", rule(held),
                           (about.place.short,), untold=True)  # fmt: skip
