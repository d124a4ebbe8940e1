"""What holds for every book: no traceback, no penny lost, order without meaning, parts that add up to wholes."""

from __future__ import annotations

import random
import re
from collections import defaultdict
from datetime import date
from functools import cache
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from ledger_tools.book.build import build
from ledger_tools.book.items import items
from ledger_tools.days import TaxYear
from ledger_tools.language.blocks import cut, plain
from ledger_tools.problems import Level
from ledger_tools.render import json_form
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.profit import profit
from ledger_tools.statements.year_end import year_end
from tests.language.generated import books
from tests.properties.test_portfolios import every

SAMPLES = Path(__file__).parents[2] / "sample_books"
RELAXED = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])


def sample(name: str) -> dict[str, str]:
    return {p.name: p.read_text(encoding="utf-8") for p in sorted((SAMPLES / name).glob("*.book"))}


@cache
def accounts(name: str) -> Accounts:
    return Accounts(build(sample(name)))


def figures(worked: Accounts, year: TaxYear) -> list[object]:
    """The figures of a year without the places they come from."""
    told = json_form.year_end(year_end(worked, year))
    return [
        (o["owner"], o["ticks"], [(b["box"], b["pounds"], b["amount"]) for b in o["boxes"]],
         sorted((i["words"], i["amount"]) for i in o["open"] + o["left_out"]), o["loss_carried_forward"])
        for o in sorted(told["owners"], key=lambda o: o["owner"])
    ]  # fmt: skip


# ── any text ─────────────────────────────────────────────────────────────────────────────────────────────────────


@RELAXED
@given(st.text(max_size=400))
def test_any_text_gives_a_book_or_problems(text: str) -> None:
    book = build({"any.book": text})

    assert book.entries or book.problems or not cut(plain(text)) or len(cut(plain(text))) >= 1


@RELAXED
@given(st.integers(0, 2**32), st.integers(1, 12))
def test_a_spoilt_book_gives_problems_and_figures_or_none(seed: int, slips: int) -> None:
    """Signs of a good book struck, doubled and swapped: whatever comes of it is told, never thrown."""
    chance = random.Random(seed)
    texts = sample("saltmarsh")
    name = chance.choice(sorted(texts))
    text = texts[name]
    for _ in range(slips):
        i = chance.randrange(len(text))
        instead = chance.choice(["", text[i] * 2, chance.choice('£,"#\n at.-%x9') + text[i]])
        text = text[:i] + instead + text[i + 1 :]
    book = build({**texts, name: text})
    for problem in book.problems:
        assert problem.headline and problem.marks
    if not any(p.level is Level.ERROR for p in book.problems):
        assert sum(Accounts(book).balance.values()) == 0


@RELAXED
@given(books())
def test_made_up_books_are_worked_out_without_a_traceback(text: str) -> None:
    book = build({"made.book": text})
    worked = Accounts(book)

    assert sum(worked.balance.values()) == 0
    for year in book.years[-1:]:
        if 2016 <= year.start <= 2027:
            year_end(worked, year)


# ── order ────────────────────────────────────────────────────────────────────────────────────────────────────────


def blocks_that_stand_alone(texts: dict[str, str]) -> list[str]:
    """All blocks of a book, each dated one with the heading it stands under."""
    found = []
    for text in texts.values():
        for block in cut(plain(text)):
            if block.text.lower().startswith("at "):
                continue
            dated = re.match(r"\d|[A-Z][a-z]{2} \d", block.text)
            found.append(f"at {block.at}\n{block.text}" if dated and block.at else block.text)
    return found


@settings(deadline=None, max_examples=8)
@given(st.integers(0, 2**32), st.integers(1, 4))
@pytest.mark.parametrize("name", ["saltmarsh", "harbour"])
def test_order_of_blocks_and_files_changes_nothing(name: str, seed: int, files: int) -> None:
    chance = random.Random(seed)
    stand_alone = blocks_that_stand_alone(sample(name))
    # Lines of one day keep their order: which of two payments of a day came first is told by it.
    headings = [b for b in stand_alone if not b.lstrip("at ")[:1].isdigit() and not b.startswith("at ")]
    dated = [b for b in stand_alone if b not in headings]
    chance.shuffle(headings)
    texts: dict[str, str] = defaultdict(str)
    for block in headings:
        texts[f"{chance.randrange(files)}.book"] += block + "\n"
    for block in dated:
        texts["diary.book"] += block + "\n"
    shuffled = Accounts(build(texts))

    assert not [p for p in shuffled.book.problems if p.level is Level.ERROR]
    assert figures(shuffled, TaxYear(2025)) == figures(accounts(name), TaxYear(2025))


def test_lines_in_any_order_make_the_same_year() -> None:
    dated = blocks_that_stand_alone(sample("saltmarsh"))
    backwards = Accounts(build({"a.book": "\n".join(reversed(dated))}))

    assert figures(backwards, TaxYear(2025)) == figures(accounts("saltmarsh"), TaxYear(2025))


# ── nothing lost ─────────────────────────────────────────────────────────────────────────────────────────────────

SUMS = st.integers(1, 500_000)


@RELAXED
@given(
    st.lists(SUMS, min_size=1, max_size=5), st.lists(SUMS, max_size=2), st.integers(0, 3), st.integers(1, 99),
    st.lists(st.integers(1, 100), min_size=0, max_size=4),
)  # fmt: skip
def test_a_bill_paid_in_parts_loses_no_penny(
    jobs: list[int], common: list[int], houses: int, percent: int, payments: list[int]
) -> None:
    total = sum(jobs) + sum(common)
    lines = [f"    replaced tap £{p // 100}.{p % 100:02d}, like for like, worn out" for p in jobs]
    lines += [f"    hired scaffold £{p // 100}.{p % 100:02d}, shared" for p in common]
    across = f" across a {percent}% and b {100 - percent}%" if houses else " at a"
    text = (
        'landlord x "X"\nproperty a "A"\nproperty b "B"\n'
        "tenancy t at a\n    periodic from 1 Jan 2025\n    rent £500 a month\n"
        f'1 Jun 2025 invoiced £{total // 100}.{total % 100:02d} by "B"{across}, number 7\n' + "\n".join(lines) + "\n"
    )
    paid = 0
    for i, weight in enumerate(payments):
        part = min(total * weight // 100, total - paid)
        if part:
            paid += part
            text += f'{i + 2} Jul 2025 paid £{part // 100}.{part % 100:02d} to "B" at a against invoice 7\n'
    worked = Accounts(build({"a.book": text}))

    assert not [p for p in worked.book.problems if p.level is Level.ERROR]
    assert sum(item.amount for item in items(worked.book)) == total
    assert sum(part.amount for verdict in worked.verdicts for part in verdict.parts) == total
    assert sum(row.pence for row in worked.rows) == total
    assert sum(row.pence for row in worked.rows if row.paid) == paid
    assert sum(worked.balance.values()) == 0
    assert worked.balance.get("money", 0) == -paid


@pytest.mark.parametrize("name", ["saltmarsh", "harbour"])
def test_houses_add_up_to_the_business(name: str) -> None:
    worked = accounts(name)
    for year in worked.book.years:
        each = [profit(worked, house, year) for house in worked.book.properties]
        whole = profit(worked, "", year)

        assert sum(s.result.money.pence for s in each) == whole.result.money.pence
        assert sum(s.result.tax.pence for s in each) == whole.result.tax.pence
        for figure in (f for s in each for line in (*s.income, *s.expenses) for f in (line.money, line.tax)):
            assert figure.pence == sum(t.pence for t in figure.trail)


@pytest.mark.parametrize("name", ["saltmarsh", "harbour"])
def test_owners_add_up_to_the_house(name: str) -> None:
    worked = accounts(name)
    checked = 0
    for basis, year, rows in every(worked):
        told: dict[int, int] = defaultdict(int)
        for owner in worked.book.landlords:
            for row, _, pence in worked.of_owner(owner, year, basis):
                told[id(row)] += pence
        for row, day in rows:
            if worked.shares(row.house, day):
                assert told[id(row)] == row.pence
                checked += 1

    assert checked > 100


@pytest.mark.parametrize("name", ["saltmarsh", "harbour"])
def test_sample_books_balance_and_are_sound(name: str) -> None:
    worked = accounts(name)

    assert [p for p in worked.book.problems if p.level is Level.ERROR] == []
    assert sum(worked.balance.values()) == 0
    assert int(worked.table["pence"].sum()) == sum(row.pence for row in worked.rows)
    assert str(worked.table["pence"].dtype) == "int64"


def test_sample_books_are_as_large_as_they_claim() -> None:
    assert len(accounts("saltmarsh").book.entries) >= 80
    harbour = accounts("harbour").book
    assert len(harbour.entries) >= 400
    assert len(harbour.properties) == 5
    assert {p.nation for p in harbour.properties.values()} == {"england", "wales", "scotland"}
    assert {TaxYear(2023), TaxYear(2024), TaxYear(2025)} <= set(harbour.years)
    assert min(e.day.first for e in harbour.entries) > date(1990, 1, 1)
