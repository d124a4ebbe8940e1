"""Which faults the words of a survey, a legal pack or the landlord name, and what they therefore decide."""

from __future__ import annotations

import pytest

from ledger_tools.verdicts.catalogue import catalogue
from ledger_tools.verdicts.history import History
from ledger_tools.verdicts.papers import price_faults, state_faults

from .books import book, fresh, last, short

DAMP = "4 Jul 2025 treated damp in lounge £780.00"


@pytest.mark.parametrize(
    ("words", "faults"),
    [
        ("auction legal pack, damp and no boiler", ("damp", "boiler")),
        ("damp, roof and wiring", ("damp", "roof", "wiring")),
        ("no boiler", ("boiler",)),
        ("dry rot and woodworm", ("rot", "woodworm")),
        ("damp in the kitchen and no boiler", ("damp", "boiler")),  # the kitchen is where, and no fault
        ("no damp or rot, wiring condemned", ("wiring",)),  # what is not there is no fault
        ("no boiler and damp throughout", ("boiler", "damp")),
        ("free of woodworm and rot", ()),
        ("kitchen tired", ("kitchen",)),
    ],
)
def test_every_fault_that_the_words_name_is_read(words: str, faults: tuple[str, ...]) -> None:
    told = book("", fresh(f'not lettable, says "{words}"', f'reduced, because "{words}"'))
    house, history = told.properties["mill-3"], History(told, catalogue())

    assert state_faults(history, house) == price_faults(history, house) == faults


def test_damp_named_by_the_legal_pack_came_with_the_house() -> None:
    named = fresh('not lettable, says "legal pack, damp and no boiler"', "reduced")
    other = fresh('not lettable, says "legal pack, no boiler"', "reduced")

    assert short(last(DAMP, named).parts) == "780.00 purchase"
    assert short(last(DAMP, other).parts) == "780.00 open repairs [acquisition]"


def test_why_a_price_was_cut_is_read_like_what_it_was_owing_to() -> None:
    prices = ('reduced, because "damp and no boiler"', "reduced owing to damp", "reduced")

    assert [short(last(DAMP, fresh("", price)).parts) for price in prices] == [
        "780.00 purchase",
        "780.00 purchase",
        "780.00 open repairs [acquisition]",
    ]


def test_why_a_house_could_not_be_let_is_read_too() -> None:
    told, not_told = (fresh(f"not lettable{why}", "normal") for why in (', because "no boiler"', ', because "empty"'))
    tap = "4 Jul 2025 replaced kitchen £900.00, like for like"

    assert short(last(tap, told).parts) == "900.00 open repairs [acquisition]"  # another fault is named
    assert short(last(tap, not_told).parts) == "900.00 purchase"
