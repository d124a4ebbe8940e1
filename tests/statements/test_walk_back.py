"""A box walked back: its steps add up to it, and so do the boxes it stands on."""

from __future__ import annotations

from pathlib import Path

import pytest

from ledger_tools import law
from ledger_tools.book.build import build
from ledger_tools.days import TaxYear
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.walk_back import WORKED_OUT, walk_back
from ledger_tools.statements.year_end import year_end

SAMPLES = Path(__file__).parents[2] / "sample_books"


@pytest.mark.parametrize(
    ("name", "year"), [("saltmarsh", 2025), ("harbour", 2023), ("harbour", 2024), ("harbour", 2025)]
)
def test_every_box_is_made_of_its_lines_or_of_other_boxes(name: str, year: int) -> None:
    texts = {p.name: p.read_text(encoding="utf-8") for p in sorted((SAMPLES / name).glob("*.book"))}
    accounts, checked = Accounts(build(texts)), 0
    for owner in year_end(accounts, TaxYear(year)).owners:
        for box in owner.boxes:
            (found,) = (w for w in walk_back(accounts, TaxYear(year), box.number) if w.owner == owner.owner)
            if box.number in ("38", "40", "41"):
                sign = -1 if box.number == "41" else 1
                assert sign * sum(s * b.pounds for s, b in found.parts) == box.pounds
            elif box.number not in WORKED_OUT:
                assert sum(step.trace.pence for step in found.steps) == box.figure.pence
                assert all(step.reasons for step in found.steps if step.trace.verdict >= 0)
            checked += 1

    assert checked > 8


def test_a_box_the_year_does_not_have() -> None:
    with pytest.raises(law.NoFigure):
        walk_back(Accounts(build({"a.book": 'landlord x "X"\n'})), TaxYear(2016), "20.1")


def test_a_trip_has_no_sum_of_its_own_to_be_a_part_of() -> None:
    text = (
        'landlord x "X"\nproperty a "A"\n    bought 1 Jun 2020 for £90,000\nat a\n1 Jun 2025 received rent £6,000.00\n'
        "2 Jun 2025 drove 22 miles\n"
    )
    (found,) = walk_back(Accounts(build({"a.book": text})), TaxYear(2025), "29")

    assert [(step.trace.pence, step.whole) for step in found.steps] == [(9_90, None)]
