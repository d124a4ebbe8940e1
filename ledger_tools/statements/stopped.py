"""Whether an owner's letting has stopped for good, as far as a book can tell: no house is left. Knows no layout.

A letting between tenants has not stopped (PIM2510); whether one with houses left has, only its owner knows.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from ..book.world import Book, Property
from ..days import TaxYear, day_before, day_words
from ..money import pounds
from .accounts import Accounts
from .passings import died


def stopped(accounts: Accounts, owner: str, year: TaxYear) -> date | None:
    """The day on which the last house left an owner's hands by the end of a year; None where one is left or there was
    none."""
    last, book = accounts.period(owner, year).last, accounts.book
    houses = book.properties.values()
    if any(_holds(book, owner, about, last) for about in houses):
        return None
    return max((day for about in houses for day in _parted(book, owner, about, last)), default=None)


def _holds(book: Book, owner: str, about: Property, day: date) -> bool:
    return not (about.sold and about.sold.day <= day) and owner in dict(book.owners_on(about.name, day))


def _parted(book: Book, owner: str, about: Property, last: date) -> Iterator[date]:
    """The days up to a last one on which an owner had a house, or a share in it, no longer."""
    changes = {*(o.since for o in about.owners if o.since), *([about.sold.day] if about.sold else [])}
    for day in sorted(day for day in changes if date.min < day <= last):
        if _holds(book, owner, about, day_before(day)) and not _holds(book, owner, about, day):
            yield day


def stopped_told(accounts: Accounts, owner: str, year: TaxYear, loss: int, finance: int) -> str:
    """What to know of the year in which the last house went: box 2, and the pence left over that nothing can take up;
    "" where a house is left."""
    day = stopped(accounts, owner, year)
    if day is None:
        return ""
    dead = died(accounts.book, owner)
    said = (
        f"Your last house went on {day_words(day)}, so X stands in box 2: letting has stopped. Take it out if you let "
        "again next year."
        if dead is None
        else f"The last house of these pages went on {day_words(day)}, so X stands in box 2."
    )
    left = [f"the loss of {pounds(loss)}"] if loss else []
    left += [f"finance costs of {pounds(finance)} that earned no reduction"] if finance else []
    if left:
        goes_on = "" if dead else ", unless the same business goes on"
        kept = f"can be set against nothing{goes_on} (ITA 2007 s. 118)."
        said += f" Then {' and '.join(left)} {kept}"
    return said
