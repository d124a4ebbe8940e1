"""Money of a house before it was got: what can come before and what cannot."""

from __future__ import annotations

import pytest

from ledger_tools.book.build import build
from ledger_tools.problems import Level
from ledger_tools.verdicts.checks import doubts

HOUSE = """\
landlord x "X"
property a "1 A Street"
    bought 11 Feb 2019 for £176,000
property b "2 B Street"
    bought 1 May 2010 for £90,000
at a
"""


def told(line: str) -> bool:
    found = [p for p in doubts(build({"a.book": f"{HOUSE}{line}\n"})) if p.code == "before-bought"]
    assert all(p.level is Level.DOUBT for p in found)
    return bool(found)


@pytest.mark.parametrize(
    "what", ["cleaning £60.00", "council tax £60.00", "gas £60.00", "service charge £60.00", "gardening £60.00"]
)
def test_what_running_a_house_costs_does_not_come_before_it_is_yours(what: str) -> None:
    assert told(f"14 Sep 2015 paid {what}")
    assert told(f"10 Feb 2019 paid {what}")
    assert not told(f"11 Feb 2019 paid {what}")
    assert not told(f"Feb 2019 paid {what}")  # a month that reaches that day
    assert not told(f"14 Sep 2015 paid {what} at b")
    assert told(f"14 Sep 2015 paid {what} across a and b, split equally")


@pytest.mark.parametrize(
    "what",
    ["survey", "legal fees", "search fee", "auction fee", "stamp duty", "arrangement fee", "parking", "training",
     "skip", "deposit", "tenant find fee"],
)  # fmt: skip
def test_what_buying_or_looking_costs_does(what: str) -> None:
    assert not told(f"14 Jan 2019 paid {what} £60.00")


def test_a_house_is_insured_from_the_contract_on_but_not_for_years() -> None:
    assert not told("14 Jan 2019 paid landlord insurance £210.00")
    assert told("14 Jan 2016 paid landlord insurance £210.00")


def test_rent_does_not_come_before_either_and_a_ruling_is_left_alone() -> None:
    assert told('14 Jan 2018 received rent £500.00 from "T. Enant"')
    assert not told('14 Sep 2015 paid cleaning £60.00, treat as purchase cost because "agreed with the seller"')
