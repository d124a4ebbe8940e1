"""Whose income it is: the shares of a house on a day as income tax sees them. Source: ITA 2007 s. 836, 837.

Spouses or civil partners who live together and hold a house jointly are taxed half each on their joint part, whatever
their shares, unless a declaration (Form 17) is in force; everybody else by the share they own.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from fractions import Fraction

from ... import law
from ...book.couples import spouses
from ...book.world import Book, Property
from ...days import TaxYear, day_words
from ...problems import Level, Problem
from ...record import record


@record
class Shares:
    """Owners with fractions that add up to 1, and why they are so."""

    parts: tuple[tuple[str, Fraction], ...]
    why: str


def tax_shares(book: Book, house: str, day: date) -> Shares:
    """The shares of a house's income on a day. Empty where the book tells no owner."""
    owned = book.owners_on(house, day)
    couple = spouses(book, [name for name, _ in owned], day)
    if not couple:
        return Shares(owned, "by the shares owned")
    declared = _declared(book, house, day)
    if declared is not None:
        return Shares(owned, f"by the shares owned, as declared on Form 17 ({declared.isoformat()})")
    joint = {name: sum(f for other, f in owned if other in (name, couple[name])) for name in couple}
    parts = tuple((name, Fraction(joint[name]) / 2 if name in joint else fraction) for name, fraction in owned)
    return Shares(parts, "spouses half each of what they hold jointly (ITA 2007 s. 836), no Form 17 in force")


def halved_with(book: Book, owner: str, year: TaxYear) -> str:
    """The spouse with whom an owner is taxed half and half on a house at the beginning or end of a year; "" if none."""
    for house in book.properties.values():
        first = max(year.period.first, house.got.day if house.got else date.min)
        last = min(year.period.last, house.sold.day if house.sold else date.max)
        for day in (first, last) if first <= last else ():
            couple = spouses(book, [name for name, _ in book.owners_on(house.name, day)], day)
            if owner in couple and _declared(book, house.name, day) is None:
                return couple[owner]
    return ""


def last_day(signed: date) -> date:
    """The last day on which a declaration signed on a day may reach the tax office, the day of signing the first."""
    return signed + timedelta(days=law.figure("property.form_17_days", signed).whole - 1)


def in_time(signed: date, sent: date) -> bool:
    """Whether a declaration reached the tax office within the days allowed."""
    return signed <= sent <= last_day(signed)


def late_forms(book: Book) -> Iterator[tuple[Property, date, date]]:
    """Every Form 17 that is void because it came too late: the house, the day of signing, the day it was sent."""
    for house in book.properties.values():
        yield from ((house, signed, sent) for signed, sent in house.form_17 if not in_time(signed, sent))


def form_17_late(signed: date, sent: date) -> str:
    """Why a declaration is void and what to do, in plain words."""
    return (
        f"The Form 17 signed on {day_words(signed)} was sent on {day_words(sent)}, and the tax office had to have it "
        f"by {day_words(last_day(signed))}: it is void, and the rent stays half and half between you (ITA 2007 s. "
        "837). Sign a new one and send it in time; it counts from the day you sign it."
    )


def doubts(book: Book) -> list[Problem]:
    """Doubts "form-17-late" of a book: a declaration that came too late."""
    return [
        Problem(
            "form-17-late", Level.DOUBT, f"A Form 17 of {house.name} came too late and is void.",
            (house.place.mark("under this house"),), form_17_late(signed, sent),
        )
        for house, signed, sent in late_forms(book)
    ]  # fmt: skip


def _declared(book: Book, house: str, day: date) -> date | None:
    """The day of the declaration in force: it holds from its date until the shares change."""
    change = max((o.since for o in book.properties[house].owners if o.since and o.since <= day), default=date.min)
    good = [signed for signed, sent in book.properties[house].form_17 if signed <= day and in_time(signed, sent)]
    last = max(good, default=None)
    return last if last is not None and last >= change else None
