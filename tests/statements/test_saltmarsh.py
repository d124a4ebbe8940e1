"""The sample house against a working done by hand (saltmarsh_by_hand.md tells it line by line; here the arithmetic).

Sums are pounds as the hand wrote them down; they come from reading the book, not from running the tool.
"""

from __future__ import annotations

from decimal import Decimal
from functools import cache
from pathlib import Path

import pytest

from ledger_tools.book.build import build
from ledger_tools.days import TaxYear
from ledger_tools.money import decimal
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.profit import profit
from ledger_tools.statements.year_end import OwnerYear, year_end
from ledger_tools.verdicts.verdict import Kind

BOOK = Path(__file__).parents[2] / "sample_books" / "saltmarsh"
YEAR = TaxYear(2025)


@cache
def accounts() -> Accounts:
    return Accounts(build({p.name: p.read_text(encoding="utf-8") for p in sorted(BOOK.glob("*.book"))}))


@cache
def imogen() -> OwnerYear:
    (owner,) = year_end(accounts(), YEAR).owners
    return owner


def d(text: str) -> Decimal:
    return Decimal(text)


# Box 20: nine rents of 925 less 125 still owed, the tenants' share of a burnt carpet, and what the insurer paid for
# tiles (ITTOIA 2005 s. 106: a receipt, not off the repair).
RENTS = 9 * d("925") - d("125")
BOX_20 = RENTS + d("60") + d("280")

# Box 24: insurance, water, energy, and the council tax that was left after the refund.
BOX_24 = d("286") + d("58.20") + d("63.40") + (d("179.92") + d("181.00") - d("132.09"))

# Box 25. Invoice 2214: the scaffold of 448 follows gutters 560 and tap 140, so gutters bear 560 + 448 x 560/700.
GUTTERS = d("560") + d("448") * 560 / 700
BOX_25 = (
    (d("2310") - d("38"))  # boiler, less the copper from it
    + d("90")  # bathroom floorboards
    + d("96.40")  # lounge, paint
    + d("28")  # kitchen tap
    + (d("60") + d("180") + d("55"))  # invoice 118
    + d("54.20")  # front bedroom, paint
    + d("75")  # three sockets
    + d("270") * 2 / 3  # two radiators of three
    + (d("38") + d("45"))  # lounge floorboards and the sander
    + GUTTERS
    + d("45")  # window
    + d("24")  # front door lock
    + d("75")  # tap
    + d("64")  # back door lock
    + d("380")  # roof tiles
    + d("60")  # fence
)

# Box 27: 10 % of the rents and VAT on it; finding the tenants; the inventory.
BOX_27 = RENTS / 10 * d("1.2") + d("150") * d("1.2") + d("60") * d("1.2")
BOX_28 = d("160") + d("110") + d("110")
BOX_29 = (d("75") + d("180") + d("65")) + d("95") + (5 * 18 + 22 + 18) * d("0.45")
BOX_36 = (min(d("350"), d("220")) + d("100") - d("30")) + d("150")
BOX_44 = 10 * d("474.50") + d("995") + d("180")

BY_HAND = {
    "20": (BOX_20, 8540), "24": (BOX_24, 637), "25": (BOX_25, 4740), "27": (BOX_27, 1236), "28": (BOX_28, 380),
    "29": (BOX_29, 474), "36": (BOX_36, 440), "44": (BOX_44, 5920),
}  # fmt: skip


def test_the_working_agrees_with_the_page_it_is_told_on() -> None:
    page = (Path(__file__).parent / "saltmarsh_by_hand.md").read_text(encoding="utf-8")

    for number, (exact, _) in BY_HAND.items():
        assert f"{exact:,.2f}" in page, number


@pytest.mark.parametrize("number", BY_HAND)
def test_every_box_agrees_with_the_hand_to_the_penny(number: str) -> None:
    box = next(b for b in imogen().boxes if b.number == number)
    exact, pounds = BY_HAND[number]

    assert decimal(box.figure.pence) == exact
    assert box.pounds == pounds


def test_the_profit_agrees_with_the_hand() -> None:
    boxes = {b.number: b for b in imogen().boxes}
    costs = BOX_24 + BOX_25 + BOX_27 + BOX_28 + BOX_29 + BOX_36

    assert BOX_20 - costs == d("634.07")
    assert decimal(boxes["38"].figure.pence) == BOX_20 - costs
    assert boxes["38"].pounds == 8540 - (637 + 4740 + 1236 + 380 + 474 + 440) == 633
    assert boxes["40"].pounds == 633
    assert set(boxes) == {*BY_HAND, "38", "40"}
    assert dict(imogen().ticks) == {"1": "1"}


def test_what_is_open_is_not_deducted_and_named() -> None:
    found = {(i.trace.words.split(",")[0], decimal(i.trace.pence)) for i in imogen().open}

    assert found == {
        ("replaced worktop", d("410")), ("replaced cooker", d("329")), ("installed smoke alarms", d("46")),
    }  # fmt: skip
    assert all(len(i.answers) == 2 for i in imogen().open)


def left_out(kind: Kind) -> Decimal:
    """What was left out of the pages of both years the book touches; the survey was paid in 2024-25."""
    years = [o for y in (YEAR.before, YEAR) for o in year_end(accounts(), y).owners]
    return decimal(sum(i.trace.pence for o in years for i in o.left_out if i.kind is kind))


def test_what_counts_at_the_sale_agrees_with_the_hand() -> None:
    tap = d("140") + d("448") * 140 / 700
    improvements = (
        (d("420") - d("150"))  # loft insulation less the grant
        + (d("84.50") - d("84.50") + d("92"))  # the fan that went back, and the one that stayed
        + d("95")  # two more sockets
        + d("270") / 3  # the third radiator
        + d("395")  # a better shower
        + tap
    )

    assert left_out(Kind.IMPROVEMENT) == improvements == d("1171.60")
    bought = d("146000") - d("900") + d("480") + (d("1140") + d("228") + d("312") + d("110")) + d("7657")
    assert left_out(Kind.ACQUISITION) == bought
    # The first fridge and washing machine, the carpets in the price, and what the washer dryer does more.
    assert left_out(Kind.NO_RELIEF) == d("279") + d("150") + d("900") + (d("350") - d("220"))
    assert left_out(Kind.CAPITAL_RECEIPT) == d("240") + d("60")


def test_the_trial_balance_is_nil() -> None:
    assert sum(accounts().balance.values()) == 0
    assert sum(abs(v) for v in accounts().balance.values()) > 0


def test_the_profit_statement_agrees_with_the_boxes() -> None:
    statement = profit(accounts(), "saltmarsh-14", YEAR)
    costs = BOX_24 + BOX_25 + BOX_27 + BOX_28 + BOX_29 + BOX_36

    assert decimal(statement.result.tax.pence) == BOX_20 - costs
    assert decimal(next(i for i in statement.income if i.slug == "rent").money.pence) == RENTS
    assert decimal(statement.finance.money.pence) == BOX_44
    assert (statement.days_held, statement.days_let) == (318, 245)
