"""From exact sums by category to the boxes of the UK property pages of one person and one year.

Each box is rounded once, to the landlord's advantage as the return allows: income down, expenses and reliefs up
(SAM121370); the totals are worked out from the rounded boxes, as the pages add them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field, replace
from decimal import Decimal

from ... import law
from ...days import TaxYear
from ...money import pounds
from ...record import record
from .allowance import How
from .finance_costs import split
from .losses import after_losses

RECEIPTS = ("income", "adjustment")  # of the allowance: balancing charges are among them (ITTOIA 2005 s. 783BD)


@record
class Filled:
    """One box: the exact pence that belong in it and the whole pounds to type."""

    number: str
    caption: str
    pence: int
    pounds: int


@record
class Pages:
    """The boxes of one person's pages, by number, and what goes on to the next year (pounds; finance costs pence)."""

    year: TaxYear
    boxes: Mapping[str, Filled]
    loss_on: int
    notes: tuple[str, ...] = field(default=())
    how: How = How.COSTS  # whether the property income allowance stands in place of the costs
    moved: Mapping[str, str] = field(default_factory=dict)  # a box whose sum came out below nil → the box that took it


def whole_pounds(pence: int, rounding: str) -> int:
    """Whole pounds of a box: income down, costs up. A negative total mirrors: it is rounded the other way."""
    if rounding == "up":
        return -(-pence // 100)
    return pence // 100


def fill(
    year: TaxYear,
    sums: Mapping[str, int],
    loss_brought: int = 0,
    finance_brought: int = 0,
    how: How = How.COSTS,
) -> Pages:
    """The boxes for one owner's share: `sums` are pence by category (income and expenses positive).

    `loss_brought` and `finance_brought` are pence brought into the year. With the property income allowance, whether
    it holds by itself or was claimed, no expense is deducted (ITTOIA 2005 s. 783BH) and no finance-cost reduction is
    given (s. 783BL).
    """
    pages = {box.number: box for box in law.pages(year)}
    pence: dict[str, int] = {}
    notes: list[str] = []
    for category, amount in sums.items():
        if category == "finance_residential":
            _finance(year, amount, pence)
        elif amount:
            number = law.box_for(category, year).number
            pence[number] = pence.get(number, 0) + amount
    if finance_brought and "45" in pages:
        pence["45"] = finance_brought
    moved, told = _below_nil(pence, pages)
    notes += told
    if how is not How.COSTS:
        _allowance(year, pence, pages)
        if how is How.PARTIAL:
            notes.append(
                "The property income allowance stands in place of all expenses and of the finance-cost reduction."
            )
    filled = {
        number: Filled(number, pages[number].caption, amount, whole_pounds(amount, pages[number].rounding))
        for number, amount in sorted(pence.items(), key=lambda kv: Decimal(kv[0]))
    }
    if "20.1" in filled:  # it makes no loss (s. 783BI)
        income = sum(box.pounds for number, box in filled.items() if pages[number].kind in RECEIPTS)
        filled["20.1"] = replace(filled["20.1"], pounds=min(filled["20.1"].pounds, income))
    profit = sum(pages[number].sign * box.pounds for number, box in filled.items())
    exact = sum(pages[number].sign * box.pence for number, box in filled.items())
    loss_on = _totals(filled, pages, profit, exact, loss_brought)
    return Pages(year, filled, loss_on, tuple(notes), how, moved)


def _finance(year: TaxYear, amount: int, pence: dict[str, int]) -> None:
    """Residential finance costs: the part the year still lets off the rents in box 26, the rest in box 44."""
    deducted, restricted = split(amount, year)
    if deducted:
        pence["26"] = pence.get("26", 0) + deducted
    if restricted:
        pence["44"] = pence.get("44", 0) + restricted


def _below_nil(pence: dict[str, int], pages: Mapping[str, law.Box]) -> tuple[dict[str, str], list[str]]:
    """Empty the boxes that come out below nil, for the form takes no minus; which box took the sum instead, and notes.

    A cost of which more came back than was paid is other income, income of which more went back than came another
    cost: the profit stays the same. Costs come first, so that the order of the sums changes nothing. Interest in box 44
    never came off the rents, so what came back is no income.
    """
    moved: dict[str, str] = {}
    notes: list[str] = []
    for number in sorted(pence, key=lambda n: (pages[n].kind == "income", Decimal(n))):
        if pence.get(number, 0) >= 0:
            continue
        back = -pence.pop(number)
        if number == "44":
            notes += _interest_back(back, pence)
            continue
        income = pages[number].kind == "income"
        moved[number] = "29" if income else "20"
        pence[moved[number]] = pence.get(moved[number], 0) + back
        more = "more went back than came in" if income else "more came back than was paid"
        notes.append(
            f"Box {number} would come out below nil by {pounds(back)}: {more}. The form takes no minus, so that sum "
            f"stands in box {moved[number]}; the profit is the same."
        )
    return moved, notes


def _interest_back(back: int, pence: dict[str, int]) -> list[str]:
    """Interest of which more came back than was paid: it lowers what is brought in; the rest belongs to the year before
    (no source read; the reduction was had then)."""
    lowered = min(back, pence.get("45", 0))
    if lowered:
        pence["45"] -= lowered
        if not pence["45"]:
            del pence["45"]
    said = (
        f"Box 44 would come out below nil by {pounds(back)}: more interest came back than was paid. The form takes no "
        "minus, and the interest earned a reduction of tax, so it is no income of box 20 either."
    )
    if lowered:
        said += f" {pounds(lowered)} of it is taken off box 45."
    if back > lowered:
        said += (
            f" {pounds(back - lowered)} lowers box 44 of the year in which you paid that interest: put that return "
            "right while it can be changed (`year-end` of that year tells the last day), or ask the tax office."
        )
    return [said]


def _allowance(year: TaxYear, pence: dict[str, int], pages: Mapping[str, law.Box]) -> None:
    """Put the allowance in the place of every expense and relief."""
    income = sum(amount for number, amount in pence.items() if pages[number].kind in RECEIPTS)
    for number in [n for n in pence if pages[n].kind in ("expense", "relief") or n in ("44", "45")]:
        del pence[number]
    if income > 0:
        pence["20.1"] = min(law.figure("property.income_allowance", year).pence, income)


def _totals(filled: dict[str, Filled], pages: Mapping[str, law.Box], profit: int, exact: int, loss_brought: int) -> int:
    """Fill boxes 38 to 43; returns the loss carried forward in whole pounds.

    Beside the pounds, worked out from the rounded boxes, stands what the exact sums would make.
    """
    brought = whole_pounds(loss_brought, "up")

    def put(number: str, pounds: int, pence: int | None = None) -> None:
        filled[number] = Filled(number, pages[number].caption, pounds * 100 if pence is None else pence, pounds)

    typed, meant = after_losses(profit, brought), after_losses(exact, loss_brought)
    if profit >= 0:
        put("38", profit, exact)
        if brought:
            put("39", typed.used, meant.used)
        put("40", typed.taxable, exact - meant.used)
    else:
        put("41", -profit, -exact)
    if typed.on:
        put("43", typed.on, meant.on)
    return typed.on
