"""A box of the tax return walked back: the lines that make it with what each was judged to be and why, or the boxes it
is worked out from, and how it was rounded. Knows no layout.
"""

from __future__ import annotations

from collections.abc import Iterator

from .. import law
from ..days import TaxYear
from ..record import record
from ..verdicts.verdict import Fired, deciding
from .accounts import Accounts
from .brought import brought
from .figures import Trace
from .year_end import BoxLine, OwnerYear, year_end

ROUNDED = {
    law.Rounding.DOWN: "down to whole pounds, as income is",
    law.Rounding.UP: "up to whole pounds, as costs and reliefs are",
    law.Rounding.NONE: "",
}
# How boxes that hold no lines of their own come out of others.
WORKED_OUT = {
    "38": "It is what these boxes come to together, in whole pounds:",
    "39": "It is the loss brought into the year ({loss}), as far as the profit of box 38 takes it up.",
    "40": "It is box 38 less box 39.",
    "41": "These boxes come out below nil by this much, in whole pounds:",
    "43": "It is the loss brought into the year ({loss}), less what box 39 used, and the loss of the year in box 41.",
    "45": "It is the finance costs that earned no reduction in earlier years ({finance}).",
    "20.1": "It is the allowance of the year, but no more than the income.",
}


@record
class Step:
    """A line of the book in the figure: the owner's part of it, what the whole line comes to, and the rules that
    decided (none where no verdict was needed)."""

    trace: Trace
    whole: int | None
    reasons: tuple[Fired, ...]


@record
class WalkBack:
    """One box of one owner. `how` says how a box without lines is worked out; `parts` are the boxes it stands on, each
    with 1 where it adds and -1 where it takes off."""

    owner: str
    full: str
    year: TaxYear
    basis: str
    box: BoxLine
    steps: tuple[Step, ...]
    how: str
    parts: tuple[tuple[int, BoxLine], ...]
    rounded: str
    source: str


def walk_back(accounts: Accounts, year: TaxYear, number: str) -> tuple[WalkBack, ...]:
    """The box of every owner whose pages have it. law.NoFigure where that year's pages have no such box."""
    form = law.box(number, year)
    found = ((owner, box) for owner in year_end(accounts, year).owners for box in owner.boxes if box.number == number)
    return tuple(_walked(accounts, owner, year, box, form) for owner, box in found)


def _walked(accounts: Accounts, owner: OwnerYear, year: TaxYear, box: BoxLine, form: law.Box) -> WalkBack:
    how, parts = ("", ()) if box.number not in WORKED_OUT else _worked_out(accounts, owner, year, box.number)
    steps = () if how else tuple(_steps(accounts, box))
    rounded = ROUNDED[form.rounding]
    return WalkBack(owner.owner, owner.full, year, owner.basis, box, steps, how, parts, rounded, form.source)


def _steps(accounts: Accounts, box: BoxLine) -> Iterator[Step]:
    for trace in box.figure.trail:
        verdict = accounts.verdicts[trace.verdict] if trace.verdict >= 0 else None
        item = verdict.item if verdict else None  # a trip has no sum of its own
        whole = item.amount if item and item.amount and item.amount != abs(trace.pence) else None
        yield Step(trace, whole, deciding(verdict)[0] if verdict else ())


def _worked_out(
    accounts: Accounts, owner: OwnerYear, year: TaxYear, number: str
) -> tuple[str, tuple[tuple[int, BoxLine], ...]]:
    filled = {box.number: box for box in owner.boxes}
    way = -1 if number == "41" else 1  # a loss is what its boxes come to below nil
    parts = [(way * sign, filled[n]) for n, sign in filled[number].adds]
    if number == "43":
        parts = [(sign, filled[n]) for sign, n in ((-1, "39"), (1, "41")) if n in filled]
    came = brought(accounts, owner.owner, year)
    how = WORKED_OUT[number].format(loss=came.loss.source or "none", finance=came.finance.source or "none")
    return how, tuple(parts)
