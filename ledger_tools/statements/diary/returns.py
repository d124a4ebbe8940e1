"""Returns, quarterly updates and payments of income tax of each owner. The book cannot tell what was sent, so each is
told until its day is over."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date

from ... import law
from ...days import TaxYear, day_words
from ...money import pounds
from ..accounts import Accounts
from ..digital_duty import bound_from, receipts
from ..year_end import year_end
from .reminder import Reminder, rule

ASK = "An adviser and the tax office decide."


def returns(accounts: Accounts, on: date, until: date) -> Iterator[Reminder]:
    """What every owner of the book has to send or pay from a day to another, both included."""
    for owner in accounts.book.landlords:
        gross = receipts(accounts, owner)
        years = [year for year, pence in gross.items() if pence > 0 and year.period.first <= on]
        if years:
            yield from _yearly(accounts, owner, years, on, until)
            yield from (one for one in _updates(accounts, owner, gross, until) if on <= one.day <= until)


# kind, topic of law, whether it is told of the year after the one whose tax it rests on, words
DATES = (
    ("return", "deadlines.return_online", False, "the tax return of {year} online, and what is still to pay for it"),
    ("paper-return", "deadlines.return_paper", False, "the tax return of {year}, if it goes on paper"),
    ("notify", "deadlines.notify", False, "tell the tax office of the letting begun in {year}, unless it knows of it"),
    ("account-first", "deadlines.account_first", True, "the first payment on account for {year}"),
    ("account-second", "deadlines.account_second", True, "the second payment on account for {year}"),
)  # fmt: skip


def _yearly(accounts: Accounts, owner: str, years: list[TaxYear], on: date, until: date) -> Iterator[Reminder]:
    """The dates of each year that had receipts; notice to the tax office only for the first of the book."""
    about = accounts.book.landlords[owner]
    for kind, topic, following, words in DATES:
        for year in [min(years)] if kind == "notify" else years:
            named = year.next if following else year
            held = _held(topic, named)
            if held is None or not on <= held.day <= until:
                continue
            sums = _sums(accounts, owner, year, kind)
            if sums == (0,) and following:
                continue  # the tax of the year asks for none
            said = f"{about.full}: {words.format(year=named)}{_so_much(sums, following)}"
            ask = f"`year-end --year {year}` works it out. {ASK}"
            yield Reminder(kind, held.day, "", owner, said, ask, str(named), rule(held), (about.place.short,),
                           untold=True)  # fmt: skip


def _held(topic: str, year: TaxYear) -> law.DueDay | None:
    try:
        return law.due(topic, year)
    except law.NoFigure:
        return None


def _sums(accounts: Accounts, owner: str, year: TaxYear, kind: str) -> tuple[int, ...]:
    """What is to pay by the estimate of a year, in pence: one sum, or the least and the most where the book cannot tell
    how the tax on the other income is paid; nothing where there is no estimate."""
    if kind not in ("return", "account-first", "account-second"):
        return ()
    number = {"account-first": 0, "account-second": 1}.get(kind)
    try:
        pages = next((one for one in year_end(accounts, year).owners if one.owner == owner), None)
    except law.NoFigure:  # a year before the first pages held, whose return day is held all the same
        pages = None
    ways = pages.in_tax.to_pay if pages else ()
    if number is None:
        found = {max(way.last.pence, 0) for way in ways}
    else:
        found = {way.on_account[number].pence if way.on_account else 0 for way in ways}
    return tuple(sorted({min(found), max(found)})) if found else ()


def _so_much(sums: tuple[int, ...], on_account: bool) -> str:
    """A sum in words, or two where it depends on how the tax on the other income is paid."""
    if not sums:
        return ", where the tax of the year before asks for it" if on_account else ""
    if sums == (0,):
        return ": nothing by the estimate"
    said = f": {pounds(sums[0])}"
    if len(sums) == 2:
        said += f" to {pounds(sums[1])}, by how the tax on your other income is paid"
    return said if on_account else f"{said}, less what you paid on account for it"


def _updates(accounts: Accounts, owner: str, gross: Mapping[TaxYear, int], until: date) -> Iterator[Reminder]:
    """The quarterly updates of the years in which the receipts of the book make them a duty."""
    start = bound_from(accounts, owner, gross)
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
