"""What must never decide: how big a sum is, what a builder or the landlord calls the work, and what is noted beside it.

BIM35450, BIM35475 and BIM46950: repairs stay repairs however long put off and however large. BIM46900 and BIM46905:
what the work is called, and how the accounts show it, makes no difference.
"""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from ledger_tools.book.build import build
from ledger_tools.book.entries import Entry, Extra
from ledger_tools.verdicts.engine import judge
from ledger_tools.verdicts.verdict import Part

from .test_engine import HOUSES, MONEY, WORKS, line

pounds = st.integers(100, 90_000)
LABELS = ["renewal", "refurbishment", "capital improvement", "maintenance, all of it repair", "modernised throughout"]


def sized(entry: Entry, amount: int, inside: int) -> Entry:
    """The line with this price, and with sums inside and on top of it in proportion."""

    def extra(found: Extra) -> Extra:
        return replace(found, amount=amount * inside // 100)

    facts = entry.facts
    facts = replace(
        facts,
        of_which=tuple(extra(x) for x in facts.of_which),
        plus=tuple(extra(x) for x in facts.plus),
        improvement=facts.improvement and extra(facts.improvement),
        same_again=facts.same_again and amount * inside // 100,
        part_exchange=None,
        old_one=None,
    )
    return replace(entry, amount=amount, facts=facts)


def answers(entry: Entry, house: str) -> list[list[tuple[object, ...]]]:
    """The sort of each part of its verdict and of the other answer, without the sums."""
    base = build({"any.book": 'landlord asha "Asha Merrick"\n' + house})
    (verdict,) = judge(replace(base, entries=(entry,)))

    def sorts(parts: tuple[Part, ...]) -> list[tuple[object, ...]]:
        return [(p.kind, p.category, p.cgt) for p in parts]

    return [sorts(verdict.parts), sorts(verdict.other)]


works = line("works", WORKS) | line("money", MONEY)


@settings(max_examples=200, deadline=None)
@given(works, pounds, st.integers(2, 5000), st.integers(1, 60), st.sampled_from(HOUSES))
def test_the_size_of_the_sum_decides_nothing(entry: Entry, amount: int, times: int, inside: int, house: str) -> None:
    small = sized(entry, amount * 100, inside)
    large = sized(entry, amount * 100 * times, inside)

    assert answers(small, house) == answers(large, house)


@settings(max_examples=200, deadline=None)
@given(works, st.sampled_from(LABELS), st.sampled_from(LABELS), st.sampled_from(LABELS), st.sampled_from(HOUSES))
def test_what_it_is_called_decides_nothing(entry: Entry, note: str, because: str, says: str, house: str) -> None:
    plain = sized(entry, 90_000, 10)
    told = replace(plain, note=note, facts=replace(plain.facts, because=(because,), says=(says,)))

    assert answers(plain, house) == answers(told, house)
