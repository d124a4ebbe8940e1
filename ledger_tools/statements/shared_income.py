"""Whose the income of a house is in an owner's year: the parts held, and what to say of half and half between spouses.

Knows no page and no box.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from fractions import Fraction

from ..book.world import Property
from ..days import Period, TaxYear, day_before, day_words
from ..taxes.income.owners import form_17_late, late_forms
from .accounts import Accounts
from .passings import percent


def fractions(accounts: Accounts, owner: str, house: str, year: TaxYear) -> set[Fraction]:
    """The shares an owner had in a house during a year, on its first and last day held and whenever they changed."""
    about = accounts.book.properties[house]
    held = _held_in(about, year)
    if held is None:
        return set()
    changes = [o.since for o in about.owners if o.since] + [signed for signed, _ in about.form_17]
    days = {held.first, held.last, *(day for day in changes if day in held)}
    return {dict(accounts.shares(house, day)).get(owner, Fraction(0)) for day in days}


def income_shared(accounts: Accounts, owner: str, year: TaxYear) -> str:
    """Forms that came too late, of the owner's houses; then houses shared half and half that are not owned so, as they
    stood on the last day of the year on which they were held; then parts of the income that changed in the year."""
    late = {
        house.name: f"{house.name}: {form_17_late(signed, sent)}"
        for house, signed, sent in late_forms(accounts.book)
        if signed <= year.period.last and any(fractions(accounts, owner, house.name, year))
    }
    said = list(late.values())
    for name, house in accounts.book.properties.items():
        held = _held_in(house, year)
        if held is None:
            continue
        owned = dict(accounts.book.owners_on(name, held.last)).get(owner)
        taxed = dict(accounts.shares(name, held.last)).get(owner)
        if owned and owned != taxed and name not in late:
            form = "in force" if house.form_17 else "told"
            said.append(
                f"{name}: the rent {_of_both(taxed)}is shared half and half between spouses, though you own "
                f"{percent(owned)}, for no Form 17 is {form} (ITA 2007 ss. 836, 837)."
            )
        said += [
            f"{name}: your part of its income is {_part(after)} from {day_words(day)} and was {_part(before)} "
            "before; each line counts by the part of its day."
            for day, before, after in _parts_changed(accounts, owner, name, held)
        ]
    return " ".join(said)


def _of_both(taxed: Fraction | None) -> str:
    """Of which part of a house a half is taxed, where somebody else has a share beside the two; "" where nobody has."""
    both = 2 * (taxed or Fraction(0))
    return "" if both in (0, 1) else f"of the {percent(both)} that they hold together "


def _part(part: Fraction) -> str:
    return percent(part) if part else "none"


def _held_in(house: Property, year: TaxYear) -> Period | None:
    """The days of a year on which a house was held, the day it was sold among them; None where there are none."""
    first = max(year.period.first, house.got.day if house.got else date.min)
    last = min(year.period.last, house.sold.day if house.sold else date.max)
    return Period(first, last) if first <= last else None


def _parts_changed(
    accounts: Accounts, owner: str, house: str, held: Period
) -> Iterator[tuple[date, Fraction, Fraction]]:
    """The days on which the owner's part of a house's income changed, what it was before and since."""
    for day in accounts.share_changes(house):
        if held.first < day <= held.last:
            both = (day_before(day), day)
            before, after = (dict(accounts.shares(house, one)).get(owner, Fraction(0)) for one in both)
            if before != after:
                yield day, before, after
