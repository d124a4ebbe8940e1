"""Every statement of a tax year, worked out one after the other: whole for a workbook, and cut into pages of their own.

Knows which statements a year has and what their files are called; nothing of folders, nor how a page is drawn.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property

from ..days import TaxYear
from ..record import record
from ..render.page import Page
from ..statements.accounts import Accounts, up_to
from .opening import Opened, so_far


@record
class YearPage:
    """A page of its own: the first part of the name of its file, whom or what it is about, and for the tax office the
    body that its service takes ("" where there is none). open: how many open questions it is there to tell."""

    file: str
    of: str
    page: Page
    body: str = ""
    open: int = 0

    @property
    def title(self) -> str:
        """What it tells, without whom it is about."""
        return self.page.title.removesuffix(f": {self.of}")


@record
class Statement:
    """One statement with its pages; `whole` is what goes into a workbook, None where another statement has it all."""

    pages: tuple[YearPage, ...]
    whole: Page | None


@dataclass(frozen=True)
class Year:
    """What every statement is worked out from. day: the last of the year, or today while it is running."""

    opened: Opened
    year: TaxYear
    on: date

    @property
    def day(self) -> date:
        return min(self.on, self.year.period.last)

    @property
    def so_far(self) -> str:
        """What to say of its figures while it is running."""
        return so_far(self.year, str(self.year), self.on)

    @property
    def houses(self) -> list[str]:
        """Those that were got by the day, and not sold before the year began."""
        told = self.opened.book.properties.values()
        return [
            h.name for h in told
            if not (h.got and h.got.day > self.day) and not (h.sold and h.sold.day < self.year.period.first)
        ]  # fmt: skip

    @cached_property
    def then(self) -> Accounts:
        """The accounts of the book as it stood at the end of the day."""
        book = up_to(self.opened.book, self.day)
        same = len(book.entries) == len(self.opened.book.entries)
        return self.opened.accounts if same else Accounts(book)


def statements(opened: Opened, year: TaxYear, on: date) -> Iterator[Statement]:
    """All of them in the order in which people read them; each is worked out when it is asked for."""
    about = Year(opened, year, on)
    for work_out in WAYS:
        made = work_out(about)
        if made.pages:
            yield made


# ── one statement each ───────────────────────────────────────────────────────────────────────────────────────────


def _year_end(a: Year) -> Statement:
    from ..render.year_end import page
    from ..statements.year_end import year_end

    made = year_end(a.opened.accounts, a.year, a.on)
    whole = replace(page(made, a.so_far), title=f"The tax return for {a.year}")
    alone = ((o, page(replace(made, owners=(o,)), a.so_far)) for o in made.owners)
    pages = (_one("year-end", o.owner, o.full, replace(said, title=whole.title)) for o, said in alone)
    return Statement(tuple(pages), whole)


def _quarters(a: Year) -> Statement:
    from .. import law
    from ..render import quarter as render
    from ..statements import quarter as work_out
    from ..statements.checked import checked_shortly

    accounts, pages = a.opened.accounts, []
    for owner, landlord in a.opened.book.landlords.items():
        try:
            updates = [work_out.quarter(accounts, owner, a.year, number, on=a.on) for number in (1, 2, 3, 4)]
        except law.NoFigure:  # no updates in that year
            return Statement((), None)
        for number, made in enumerate(updates, 1):
            if updates[-1].fields:  # where nothing has happened yet, rents of nil are sent
                body = "" if made.refusals else render.body_text(made.body)
                pages.append(_one(f"update-{number}", owner, landlord.full, render.page(made, checked_shortly()), body))
        yearly = work_out.yearly(accounts, owner, a.year)
        if yearly.fields:
            body = "" if yearly.refusals or not yearly.body else render.body_text(yearly.body)
            said = render.yearly_page(yearly, checked_shortly())
            pages.append(_one("update-yearly", owner, landlord.full, said, body))
    return Statement(tuple(pages), _joined("Digital updates", pages))


def _profit(a: Year) -> Statement:
    from ..render.profit import page
    from ..statements.checked import checked_shortly
    from ..statements.months import months
    from ..statements.profit import profit

    names = [*a.houses, *([""] if len(a.houses) > 1 else [])]
    made = [profit(a.opened.accounts, name, a.year, a.on) for name in names]
    pages = [
        _one("profit", s.house or "all-houses", s.full,
             page([s], checked_shortly(), True, [months(a.opened.accounts, s)], a.so_far))
        for s in made
    ]  # fmt: skip
    return Statement(tuple(pages), _joined(f"Profit of {a.year}", pages))


def _audit(a: Year, only_open: bool = False) -> Statement:
    from ..render import audit as render
    from ..render.conflicts import sections
    from ..statements.audit import audit, items
    from ..statements.chosen import Wanted, choose
    from ..verdicts.conflicts import conflicts

    accounts = a.opened.accounts
    wanted = Wanted(only_open=only_open, year=a.year)
    found = choose(accounts.book, list(items(accounts)), wanted)
    told = () if only_open else conflicts(accounts.book, accounts.verdicts)
    page = render.page(audit(accounts, found), sections(told))
    if only_open:
        return Statement((YearPage("open-questions", ALL, replace(page, title=OPEN), open=len(found)),), None)
    return Statement((YearPage("works", ALL, replace(page, title=f"Repair or improvement? Works of {a.year}")),), page)


ALL = "All houses"
OPEN = "Open questions, with what would settle them"


def _open(a: Year) -> Statement:
    return _audit(a, only_open=True)


def _base_cost(a: Year) -> Statement:
    from ..render.base_cost import page
    from ..statements.base_cost import of_accounts
    from ..statements.checked import checked_shortly

    accounts, checked = a.then, checked_shortly(a.day)
    made = [of_accounts(accounts, name, a.day) for name in a.houses]
    pages = [_one("base-cost", r.house, r.full, page([r], checked)) for r in made]
    return Statement(tuple(pages), page(made, checked))


def _void(a: Year) -> Statement:
    from ..render.void_page import page
    from ..statements.checked import council_checked
    from ..statements.void import void

    made = [void(a.opened.book, name, a.on, a.year) for name in a.houses]
    made = [v for v in made if v.rows or v.bills]
    pages = [_one("council-tax", v.house, v.full, page([v], council_checked())) for v in made]
    return Statement(tuple(pages), page(made, council_checked()))


def _rents(a: Year) -> Statement:
    from ..render.rents_page import page
    from ..statements.rents import rents

    accounts = a.then
    made = [r for r in (rents(accounts, name, a.day) for name in a.houses) if r.lets or r.unplaced]
    return Statement(tuple(_one("rents", r.house, r.full, page([r])) for r in made), page(made))


def _worth(a: Year) -> Statement:
    from ..render.worth_page import page
    from ..statements.worth import worth

    accounts = a.then
    made = [worth(accounts, name, a.day) for name in a.houses]
    return Statement(tuple(_one("worth", w.house, w.full, page([w])) for w in made), page(made))


WAYS: tuple[Callable[[Year], Statement], ...] = (
    _year_end, _quarters, _profit, _audit, _open, _base_cost, _void, _rents, _worth,
)  # fmt: skip


# ── names ────────────────────────────────────────────────────────────────────────────────────────────────────────


def _one(what: str, name: str, of: str, page: Page, body: str = "") -> YearPage:
    """A page about one house or owner, which its title names."""
    return YearPage(f"{what}-{file_name(name)}", of, replace(page, title=f"{page.title}: {of}"), body)


def _joined(title: str, pages: Sequence[YearPage]) -> Page | None:
    """The sections of pages put together as one."""
    if not pages:
        return None
    sections = tuple(section for each in pages for section in each.page.sections)
    return replace(pages[0].page, title=title, sections=sections)


MOST = 60  # signs of a name that a file is called by
APART = re.compile(r"[^a-z0-9.]+")


def file_name(words: str) -> str:
    """Words as a name that every system takes for a file: small letters without accents, digits, dots and hyphens.

    What is none of these becomes a hyphen, so that two names can come out the same: see `Names`.
    """
    bare = unicodedata.normalize("NFKD", words).encode("ascii", "ignore").decode("ascii").lower()
    return APART.sub("-", bare)[:MOST].strip("-.") or "unnamed"


class Names:
    """Names of files that were given, none of them twice."""

    def __init__(self) -> None:
        self._given: set[str] = set()

    def give(self, first: str, ending: str) -> str:
        """The name with its ending, or with the next number between them where it was given before."""
        name, number = f"{first}{ending}", 1
        while name in self._given:
            number += 1
            name = f"{first}-{number}{ending}"
        self._given.add(name)
        return name
