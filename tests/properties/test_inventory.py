"""Whatever is bought, replaced, moved and sold, the inventory adds up and does not depend on the order of the lines."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from ledger_tools.book.build import build
from ledger_tools.verdicts.catalogue import catalogue
from ledger_tools.verdicts.history import History
from ledger_tools.verdicts.inventory import Inventory, Lot

HOUSES = """
property mill-3 "3 Mill Lane"
    bought 10 Jun 2018 for £120,000
    left by seller 2 beds and lamp
property dock-9 "9 Dock Road"
    bought 10 Jun 2018 for £90,000
    sold 1 Dec 2025 for £99,000
tenancy okoye at mill-3
    tenants "B. Okoye"
    from 1 Sep 2020 to 31 Aug 2022
"""
WHAT = st.sampled_from(
    ["bought", "replaced", "sold", "scrapped", "took home", "removed", "moved", "installed", "repaired", "rebuilt"]
)
THING = st.sampled_from(["bed", "2 beds", "lamp", "curtains", "old bed", "3 lamps", "shed"])
AFTER = st.sampled_from(["", " in back bedroom", " to dock-9"])
FACT = st.sampled_from(
    ["", ", left by seller", ", used by tenant", ", taken out earlier", ", old one moved to dock-9", ", old one kept",
     ", old one sold £3.00"]
)  # fmt: skip
LINES = st.lists(st.tuples(st.integers(1, 12), st.integers(2019, 2026), WHAT, THING, AFTER, FACT), max_size=12)


def lines_of(told: list[tuple[int, int, str, str, str, str]]) -> list[str]:
    """Dated lines, each on a day of its own; the facts only where the verb takes them."""
    out = []
    for i, (month, year, verb, thing, after, fact) in enumerate(told):
        day = f"{i + 1} {'Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec'.split()[month - 1]} {year}"
        where = after if after != " to dock-9" or verb == "moved" else ""
        facts = fact if verb == "replaced" or "old one" not in fact else ""
        out.append(f"{day} {verb} {thing}{where} £9.00 at mill-3{facts}\n")
    return out


def made(lines: list[str]) -> Inventory:
    return History(build({"a.book": HOUSES + "".join(lines)}), catalogue()).inventory


def number(lots: tuple[Lot, ...]) -> Counter[tuple[object, ...]]:
    """How many of each thing came and went how and when, as far as they are counted."""
    found: Counter[tuple[object, ...]] = Counter()
    for lot in lots:
        found[lot.house, lot.key, lot.room, lot.came, lot.since, lot.how, lot.went, lot.tenant] += int(lot.count or 0)
    return found


@settings(max_examples=150, deadline=None)
@given(LINES)
def test_every_lot_came_before_it_went_and_holds_something(told: list[tuple[int, int, str, str, str, str]]) -> None:
    things = made(lines_of(told))

    for lot in things.lots:
        assert lot.count is None or lot.count > Fraction(0), lot
        assert (lot.went is None) == (lot.how == "")
        assert not (lot.since and lot.went) or lot.since.first <= lot.went.last, lot
        assert lot.tenant is not False or not lot.tenant_told
        assert lot.earlier is None or lot.came == "moved"
    for slip in things.slips:
        assert slip.house in ("mill-3", "dock-9")


@settings(max_examples=100, deadline=None)
@given(LINES)
def test_the_order_of_the_lines_does_not_matter(told: list[tuple[int, int, str, str, str, str]]) -> None:
    lines = lines_of(told)
    one, two = made(lines), made(lines[::-1])

    assert number(one.lots) == number(two.lots)
    assert [(s.what, s.house) for s in one.slips] == [(s.what, s.house) for s in two.slips]


@settings(max_examples=100, deadline=None)
@given(LINES)
def test_what_a_line_put_or_took_is_among_the_lots(told: list[tuple[int, int, str, str, str, str]]) -> None:
    lines = lines_of(told)
    things = made(lines)
    known = {repr(lot) for lot in things.lots}

    for order in range(len(lines)):
        for house in ("mill-3", "dock-9"):
            for lot in (*things.put(house, order), *things.taken(house, order)):
                assert repr(lot) in known
