"""The dated sums of a house from the day it was got, and the internal rate of return they make. Knows no layout.

Two rates: of the house, whoever paid for it (loans and their costs left out), and of one's own money (what was
borrowed comes in, interest and loan capital go out, what is still owed goes off at the end).
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from ..ledger.rows import Row
from ..record import record
from ..verdicts.verdict import Kind
from .accounts import Accounts
from .cost_in import GIFT, NO_MONEY, for_the_old_one, is_finance, loans_of, not_private, owed_at_first
from .earnings import starts_late
from .figures import Figure, Trace, figure, trace
from .rate import Rates, rates

HOUSE, OWN = "house", "own"
UNTOLD = "what was owed on the loan is told, and not when it was borrowed: add `borrowed £… from … for purchase`"
LABELS = {HOUSE: "on the house, loans left out", OWN: "on your own money"}


@record
class Rate:
    """An internal rate of return with its sums, what came in above nil; `why` says what is missing where rates is None.

    ends: "sold", or "value" where the last sum is only what the house is said to be worth.
    """

    slug: str
    label: str
    rates: Rates | None
    flows: Figure
    ends: str
    why: str = ""


def rates_of(accounts: Accounts, house: str, day: date, value: Figure | None, owed: Figure) -> tuple[Rate, ...]:
    """The rates of a house up to a day; the second only where a loan was told of."""
    about = accounts.book.properties[house]
    sold = about.sold is not None and about.sold.day <= day
    ends = "sold" if sold else "value"
    why = _missing(accounts, house, value)
    found = []
    for slug in (HOUSE, OWN):
        rows = [r for r in accounts.rows if r.house == house and _counts(accounts, r, day, slug)]
        untold = owed_at_first(accounts.book, house, day) if slug == OWN else ()
        if slug == OWN and not untold and not any(r.account == "loans" for r in rows):
            continue
        traces = list(_dated(accounts, rows))
        if value and not sold:
            traces.append(Trace(value.trail[0].source, day, value.label, value.pence, -1))
        if slug == OWN and owed.pence:
            last = about.sold.day if about.sold and sold else day
            traces.append(Trace(owed.trail[0].source, last, "loan still owed, paid off", -owed.pence, -1))
        flows = figure(slug, LABELS[slug], sorted(traces, key=lambda t: t.day))
        lacking = why or (UNTOLD if untold else "")
        worked = None if lacking else rates((t.day, t.pence) for t in flows.trail)
        found.append(Rate(slug, LABELS[slug], worked, flows, ends, lacking))
    return tuple(found)


def _missing(accounts: Accounts, house: str, value: Figure | None) -> str:
    if accounts.book.properties[house].got is None:
        return "what the house cost is not told: add `bought … for £…`"
    if starts_late(accounts, house):
        return "your book begins in mid-life: the rents and costs of the years before are not in it"
    if value is None:
        return "what it is worth is not told: add `valued DAY at £…` to the property, or ask with `--value`"
    return ""


def _counts(accounts: Accounts, row: Row, day: date, slug: str) -> bool:
    """Whether money moved for the house by that day. A gift counts at its value on the house, not as own money."""
    if row.verb in GIFT:
        return slug == HOUSE and row.owed is not None and row.owed <= day
    if row.paid is None or row.paid > day or row.verb in NO_MONEY or row.kind is Kind.PRIVATE:
        return False
    if row.account in ("tenants' deposits", "outside the figures") and row.verb != "sold":
        return for_the_old_one(accounts, row)
    return slug == OWN or not (row.account == "loans" or is_finance(accounts, row))


def _dated(accounts: Accounts, rows: list[Row]) -> Iterator[Trace]:
    loans = loans_of(accounts.book)
    for row in rows:
        moved = row.owed if row.verb in GIFT else row.paid
        pence = not_private(accounts, row, loans)
        if moved and pence:
            yield trace(row, pence if row.way == "in" else -pence, moved)
