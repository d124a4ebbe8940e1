"""Notes on what comes into an owner's year and goes on from it: losses and finance costs. Knows no layout."""

from __future__ import annotations

from ... import law
from ...days import TaxYear
from ...money import pounds
from ...taxes.income.allowance import How
from ...taxes.income.basis import basis
from ...verdicts.verdict import Kind
from ..brought import brought
from ..loan_ceiling import ceiling_note
from ..stopped import stopped, stopped_told
from .about import About
from .missing import silent


def _still_open(a: About, kind: str) -> str:
    """That open questions of the years which a sum brought in comes from, one after the other, can change it."""
    year = a.year
    open_: list[str] = []
    while (carried := brought(a.accounts, a.owner, year).of(kind)).pence and carried.worked_out:
        year = year.before
        if _open_in(a, year):
            open_.insert(0, str(year))
    if not open_:
        return ""
    whose = "that year" if len(open_) == 1 else "those years"
    return f" Open questions of {' and '.join(open_)} can still change it: settle them with the pages of {whose}."


def _open_in(a: About, year: TaxYear) -> bool:
    if not any(verdict.arguable for verdict in a.accounts.verdicts):
        return False
    way = basis(a.accounts.book, a.owner, year)
    return any(row.kind is Kind.ARGUABLE for row, _, _ in a.accounts.of_owner(a.owner, year, way))


def _loss_brought(a: About) -> str:
    loss = a.came.loss
    if not loss.pence:
        return ""
    said = f"Loss of {pounds(loss.pence)} brought into {a.year}, {loss.source}."
    said += _still_open(a, "loss")
    years = sorted({str(one.year) for one in silent(a) if one.year.start < a.year.start})
    if years:
        said += (
            f" Do not rely on it: the rent of {' and '.join(years)} is not all in your book, as the pages of "
            f"{'that year' if len(years) == 1 else 'those years'} say, so the true loss is smaller, or none."
        )
    return said


def _at_odds(a: About) -> str:
    """Where the book tells another sum than its own lines make."""
    words = {"a loss": a.came.loss, "unused finance costs": a.came.finance}
    odd = [
        f"{what} of {pounds(told.pence)} brought into {a.year}, {told.source}, but the lines of {a.year.before} make "
        f"it {pounds(told.follows)}"
        for what, told in words.items()
        if told.follows is not None
    ]
    if not odd:
        return ""
    return f"At odds: {' and '.join(odd)}. What your book tells is used here; put right whichever is wrong."


def _older_losses(a: About) -> str:
    first = law.began("property.domestic_items_share")
    told = a.accounts.book.landlords[a.owner].losses
    start, begun, years = TaxYear.of(first), a.accounts.begun(a.owner), a.accounts.book.years
    if begun and begun < start.period.first and years and years[0] < start and not told:
        return (
            f"Your letting began before {start}, the first year worked out here. If a loss was left then, tell it: "
            f"`loss £… brought into {start}`."
        )
    return ""


def _finance(a: About) -> str:
    if "44" not in a.pages.boxes:
        return ""
    return "Box 44 is not deducted from the rents: it earns a tax reduction at the basic rate."


def _ceiling(a: About) -> str:
    if a.pages.how is not How.COSTS:
        return ""
    return ceiling_note(a.accounts, a.owner, a.year)


def _finance_brought(a: About) -> str:
    came, before = a.came.finance, a.year.before
    told = f"`unused finance costs £… brought into {a.year}`"
    if came.pence and a.pages.how is How.COSTS:
        said = f"Box 45: finance costs of {pounds(came.pence)} that earned no reduction yet, {came.source}."
        return said + _still_open(a, "finance")
    if came.untold:
        years = " and ".join(f"`other income £… in {year}`" for year in came.untold)
        return (
            f"Box 45: finance costs that earned no reduction up to {before} belong there. How much that is depends on "
            f"what else you earned: add {years}, or {told}."
        )
    if came.chosen:
        return (
            f"Box 45: what became of finance costs from before {came.chosen}, when the property allowance was claimed, "
            f"is not worked out here. If any are left, add {told}."
        )
    return ""


def _stopped(a: About) -> str:
    if not stopped(a.accounts, a.owner, a.year):
        return ""
    left = brought(a.accounts, a.owner, a.year.next)
    return stopped_told(a.accounts, a.owner, a.year, left.loss.pence, left.finance.pence)


NOTES = (_loss_brought, _at_odds, _older_losses, _finance, _ceiling, _finance_brought, _stopped)
