"""The inventory: what came, what went, what a line took; and the doubts where the book contradicts itself."""

from __future__ import annotations

from datetime import date

import pytest

from ledger_tools.book.build import build
from ledger_tools.verdicts.catalogue import catalogue
from ledger_tools.verdicts.checks import doubts
from ledger_tools.verdicts.history import History
from ledger_tools.verdicts.inventory import Inventory, Lot

from .books import LET, PEOPLE, book, fresh

DOCK = 'property dock-9 "9 Dock Road"\n    bought 1 May 2019 for £90,000\n    left by seller 3 beds and curtains\n'
TWO = LET + DOCK


def things(lines: str, house: str = LET) -> Inventory:
    return History(book(lines, house), catalogue()).inventory


def told(lot: Lot) -> str:
    """A lot in a line: "2 bed in back bedroom, bought 4 Mar 2024, sold 5 Mar 2025"."""
    where = f" in {lot.room}" if lot.room else ""
    came = f", {lot.came or 'untold'} {lot.since or ''}".rstrip()
    went = f", {lot.how} {lot.went}" if lot.went else ""
    count = "some" if lot.count is None else str(lot.count)
    return f"{count} {lot.key}{where}{came}{went}"


def lots(lines: str, house: str = LET, of: str = "mill-3", key: str = "") -> list[str]:
    return [told(lot) for lot in things(lines, house).of(of) if key in ("", lot.key) and lot.key != "piano"]


COMINGS = {
    "bought": ("4 Mar 2024 bought 4 chairs £90.00, none before", ["4 chair, bought 4 Mar 2024"]),
    "part of the house": ("4 Mar 2024 installed oven £90.00, none before", []),
    "built in by nature, loose by the line": (
        "4 Mar 2024 installed oven £90.00, none before, loose",
        ["1 oven, installed 4 Mar 2024"],
    ),
    "an outbuilding and kit": (
        "4 Mar 2024 installed greenhouse in garden £90.00, none before\n5 Mar 2024 bought ladder £40.00",
        ["1 greenhouse in garden, installed 4 Mar 2024", "1 ladder, bought 5 Mar 2024"],
    ),
    "replaced": (
        "4 Mar 2024 bought sofa £90.00\n4 Mar 2025 replaced sofa £99.00",
        ["1 sofa, bought 4 Mar 2024, replaced 4 Mar 2025", "1 sofa, replaced 4 Mar 2025"],
    ),
    "replaced, and nobody told how the old one came": (
        "4 Mar 2025 replaced sofa £99.00",
        ["1 sofa, untold, replaced 4 Mar 2025", "1 sofa, replaced 4 Mar 2025"],
    ),
    "left by the seller, told on the line": (
        "4 Mar 2025 replaced sofa £99.00, left by seller",
        ["1 sofa, left by seller 10 Jun 2018, replaced 4 Mar 2025", "1 sofa, replaced 4 Mar 2025"],
    ),
    "a word about the old one makes installed a replacement": (
        "4 Mar 2024 bought sofa £90.00\n4 Mar 2025 installed sofa £99.00, like for like",
        ["1 sofa, bought 4 Mar 2024, replaced 4 Mar 2025", "1 sofa, replaced 4 Mar 2025"],
    ),
    "a part put right moves nothing": (
        "4 Mar 2024 bought sofa £90.00\n4 Mar 2025 replaced part of sofa £9.00\n5 Mar 2025 repaired sofa £9.00",
        ["1 sofa, bought 4 Mar 2024"],
    ),
    "the old one kept": (
        "4 Mar 2024 bought sofa £90.00\n4 Mar 2025 replaced sofa £99.00, old one kept",
        ["1 sofa, bought 4 Mar 2024", "1 sofa, replaced 4 Mar 2025"],
    ),
    "moved to its own house": (
        "4 Mar 2024 bought sofa £90.00\n4 Mar 2025 replaced sofa £99.00, old one moved to mill-3",
        ["1 sofa, bought 4 Mar 2024", "1 sofa, replaced 4 Mar 2025"],
    ),
    "one of several": (
        "4 Mar 2024 bought 3 beds £90.00\n4 Mar 2025 replaced bed £99.00",
        ["2 bed, bought 4 Mar 2024", "1 bed, bought 4 Mar 2024, replaced 4 Mar 2025", "1 bed, replaced 4 Mar 2025"],
    ),
    "three with two": (
        "4 Mar 2024 bought 3 beds £90.00\n4 Mar 2025 replaced 3 beds with 2 £99.00",
        ["3 bed, bought 4 Mar 2024, replaced 4 Mar 2025", "2 bed, replaced 4 Mar 2025"],
    ),
    "with another kind": (
        "4 Mar 2024 bought washing machine £90.00\n4 Mar 2025 replaced washing machine with washer dryer £99.00",
        ["1 washing machine, bought 4 Mar 2024, replaced 4 Mar 2025", "1 washer dryer, replaced 4 Mar 2025"],
    ),
    "with a part of the house": (
        "4 Mar 2024 bought cooker £90.00\n4 Mar 2025 replaced cooker with oven £99.00",
        ["1 cooker, bought 4 Mar 2024, replaced 4 Mar 2025"],
    ),
    "the oldest goes first": (
        "4 Mar 2023 bought bed £90.00\n4 Mar 2024 bought bed £90.00\n4 Mar 2025 sold bed £9.00",
        ["1 bed, bought 4 Mar 2023, sold 4 Mar 2025", "1 bed, bought 4 Mar 2024"],
    ),
    "the one of the room goes first": (
        "4 Mar 2023 bought bed in back bedroom £90.00\n4 Mar 2024 bought bed in front bedroom £90.00\n"
        "4 Mar 2025 replaced bed in front bedroom £99.00",
        [
            "1 bed in back bedroom, bought 4 Mar 2023",
            "1 bed in front bedroom, bought 4 Mar 2024, replaced 4 Mar 2025",
            "1 bed in front bedroom, replaced 4 Mar 2025",
        ],
    ),
    "another room's is not the old one": (
        "4 Mar 2023 bought bed in back bedroom £90.00\n4 Mar 2025 replaced bed in front bedroom £99.00",
        [
            "1 bed in back bedroom, bought 4 Mar 2023",
            "1 bed in front bedroom, untold, replaced 4 Mar 2025",
            "1 bed in front bedroom, replaced 4 Mar 2025",
        ],
    ),
    "carried to another room": (
        "4 Mar 2023 bought bed in back bedroom £90.00\n4 Mar 2025 moved bed in front bedroom",
        ["1 bed in front bedroom, bought 4 Mar 2023"],
    ),
    "sold days after it was replaced": (
        "4 Mar 2024 bought sofa £90.00\n4 Mar 2025 replaced sofa £99.00\n9 Mar 2025 sold sofa £9.00",
        ["1 sofa, bought 4 Mar 2024, sold 4 Mar 2025", "1 sofa, replaced 4 Mar 2025"],
    ),
    "sold long after": (
        "4 Mar 2024 bought sofa £90.00\n4 Mar 2025 replaced sofa £99.00\n9 Jun 2025 sold sofa £9.00",
        ["1 sofa, bought 4 Mar 2024, replaced 4 Mar 2025", "1 sofa, replaced 4 Mar 2025, sold 9 Jun 2025"],
    ),
    "sold just before": (
        "4 Mar 2024 bought sofa £90.00\n4 Mar 2025 sold sofa £9.00\n9 Mar 2025 replaced sofa £99.00",
        ["1 sofa, bought 4 Mar 2024, sold 4 Mar 2025", "1 sofa, replaced 9 Mar 2025"],
    ),
    "the old one carried off": (
        "4 Mar 2024 bought sofa £90.00\n4 Mar 2025 replaced sofa £99.00\n"
        "5 Mar 2025 removed old sofa £20.00, goes with sofa",
        ["1 sofa, bought 4 Mar 2024, removed 4 Mar 2025", "1 sofa, replaced 4 Mar 2025"],
    ),
    "carried off, and no word that it is the old one": (
        "4 Mar 2024 bought sofa £90.00\n4 Mar 2025 replaced sofa £99.00\n5 Mar 2025 removed sofa £20.00",
        ["1 sofa, bought 4 Mar 2024, removed 4 Mar 2025", "1 sofa, replaced 4 Mar 2025"],
    ),
    "taken out earlier": (
        "4 Mar 2023 bought sofa £90.00\n4 Mar 2024 sold sofa £9.00\n4 Mar 2025 replaced sofa £99.00, taken out earlier",
        ["1 sofa, bought 4 Mar 2023, sold 4 Mar 2024", "1 sofa, replaced 4 Mar 2025"],
    ),
    "moved to where it is": (
        "4 Mar 2023 bought sofa in lounge £90.00\n4 Mar 2024 moved sofa to mill-3",
        ["1 sofa in lounge, bought 4 Mar 2023"],
    ),
    "the seller's sold, ours stays": (
        "4 Mar 2023 bought sofa £90.00\n4 Mar 2024 sold sofa £9.00, left by seller",
        ["1 sofa, bought 4 Mar 2023", "1 sofa, left by seller 10 Jun 2018, sold 4 Mar 2024"],
    ),
    "the old ones sold one by one": (
        "4 Mar 2024 bought 2 beds £90.00\n4 Mar 2025 replaced 2 beds £99.00\n9 Mar 2025 sold old bed £9.00\n"
        "10 Mar 2025 sold old bed £8.00",
        [
            "1 bed, bought 4 Mar 2024, sold 4 Mar 2025",
            "2 bed, replaced 4 Mar 2025",
            "1 bed, bought 4 Mar 2024, sold 4 Mar 2025",
        ],
    ),
    "part exchanged, scrapped, taken home": (
        "4 Mar 2024 bought sofa £90.00\n4 Mar 2025 replaced sofa £99.00, part exchange £5.00\n"
        "4 Mar 2024 bought desk £90.00\n4 Mar 2025 scrapped desk\n4 Mar 2024 bought lamp £9.00\n"
        "4 Mar 2025 took home lamp £2.00",
        [
            "1 sofa, bought 4 Mar 2024, given in part exchange 4 Mar 2025",
            "1 desk, bought 4 Mar 2024, scrapped 4 Mar 2025",
            "1 lamp, bought 4 Mar 2024, taken home 4 Mar 2025",
            "1 sofa, replaced 4 Mar 2025",
        ],
    ),
    "rebuilt and converted": (
        "4 Mar 2024 installed garage £9,000.00, none before\n4 Mar 2025 rebuilt garage £9,000.00\n"
        "4 May 2025 converted garage into bedroom £9,000.00",
        ["1 garage, installed 4 Mar 2024, rebuilt 4 Mar 2025", "1 garage, rebuilt 4 Mar 2025, converted 4 May 2025"],
    ),
}


@pytest.mark.parametrize("asked", COMINGS)
def test_what_came_and_what_went(asked: str) -> None:
    lines, wanted = COMINGS[asked]
    assert lots(lines) == wanted


def test_some_of_what_nobody_counted_leaves_the_rest() -> None:
    assert lots("4 Mar 2025 replaced curtains in lounge £90.00 at dock-9", TWO, "dock-9", "curtain") == [
        "some curtain, left by seller 1 May 2019",
        "some curtain in lounge, left by seller 1 May 2019, replaced 4 Mar 2025",
        "some curtain in lounge, replaced 4 Mar 2025",
    ]
    assert lots("4 Mar 2025 sold curtains £9.00 at dock-9", TWO, "dock-9", "curtain") == [
        "some curtain, left by seller 1 May 2019, sold 4 Mar 2025",
    ]


def test_a_thing_moved_stands_in_its_new_house_with_its_past() -> None:
    moved = things(
        "4 Mar 2020 bought sofa £300.00\n4 Mar 2025 replaced sofa £400.00, old one moved to dock-9\n"
        "5 Mar 2025 moved desk to dock-9",
        TWO,
    )
    sofa, desk = (next(lot for lot in moved.of("dock-9") if lot.key == key) for key in ("sofa", "desk"))
    assert (told(sofa), told(desk)) == ("1 sofa, moved 4 Mar 2025", "1 desk, moved 5 Mar 2025")
    assert sofa.earlier and sofa.earlier.to == "dock-9" and sofa.bought and sofa.bought.day == date(2020, 3, 4)
    assert sofa.whose == "ours" and sofa.tenant is True  # dock-9 was never let, but a tenant of mill-3 had it
    assert desk.whose == "" and desk.bought is None
    assert moved.moved_in("dock-9", "sofa", date.max) and not moved.moved_in("dock-9", "sofa", date.min)


def test_a_house_is_nobody_to_be_paid_but_a_place_to_move_to() -> None:
    assert book("4 Mar 2025 moved sofa to dock-9", TWO).problems == ()
    assert [p.code for p in book("4 Mar 2025 moved sofa to dok-9", TWO).problems] == ["unknown-name"]
    assert [p.code for p in book("4 Mar 2025 paid insurance £9.00 to dock-9", TWO).problems] == ["unknown-name"]


def test_what_is_in_a_house_goes_with_it_and_what_went_before_does_not() -> None:
    sold = LET.replace("    price normal", "    price normal\n    sold 4 May 2025 for £150,000")
    assert lots("4 Mar 2020 bought sofa £300.00\n5 Mar 2020 bought bed £90.00\n4 Mar 2025 scrapped bed", sold) == [
        "1 sofa, bought 4 Mar 2020, sold with the house 4 May 2025",
        "1 bed, bought 5 Mar 2020, scrapped 4 Mar 2025",
    ]


@pytest.mark.parametrize(
    "lines, house, tenant, whose",
    [
        ("4 Mar 2024 bought sofa £90.00", LET, True, "ours"),
        ("4 Mar 2018 bought sofa £90.00\n4 Aug 2018 sold sofa £9.00", LET, False, "ours"),
        ("4 Mar 2018 bought sofa £90.00\n1 Sep 2018 sold sofa £9.00", LET, False, "ours"),
        ("4 Mar 2018 bought sofa £90.00\n2 Sep 2018 sold sofa £9.00", LET, True, "ours"),
        ("4 Mar 2025 sold sofa £9.00, left by seller", LET, True, "the seller's"),
        ("4 Mar 2025 sold sofa £9.00, ours before", LET, None, "ours"),
        ("4 Mar 2025 replaced sofa £9.00, used by tenant", LET, True, ""),
        ("4 Jul 2025 bought sofa £90.00\n4 Aug 2025 sold sofa £9.00", fresh(), False, "ours"),
        ("4 Mar 2020 bought sofa £90.00", LET + "    ended 4 Mar 2020\n", False, "ours"),
        ("3 Mar 2020 bought sofa £90.00", LET + "    ended 4 Mar 2020\n", True, "ours"),
    ],
)
def test_whether_a_tenant_had_it(lines: str, house: str, tenant: bool | None, whose: str) -> None:
    sofa = next(lot for lot in things(lines, house).lots if lot.key == "sofa")
    assert (sofa.tenant, sofa.whose) == (tenant, whose)


def test_a_house_let_by_its_rents_alone() -> None:
    house = LET.split("tenancy")[0]
    made = things(
        '4 Mar 2020 bought sofa £90.00\n4 Mar 2024 received rent £90.00 from "B"\n4 Mar 2025 sold sofa £5.00', house
    )
    assert [lot.tenant for lot in made.lots if lot.key == "sofa"] == [True]


def test_of_what_several_houses_share_nobody_knows_how_many_are_in_each() -> None:
    lines = "4 Mar 2024 bought 3 lamps £90.00 across mill-3 and dock-9, split equally"
    assert lots(lines, TWO, "dock-9", "lamp") == ["some lamp, bought 4 Mar 2024"] == lots(lines, TWO, "mill-3", "lamp")


def test_only_a_sale_or_scrap_brings_money() -> None:
    made = things(
        "4 Mar 2024 bought sofa £90.00\n4 Mar 2025 replaced sofa £99.00\n5 Mar 2025 removed old sofa £20.00\n"
        '4 Mar 2024 bought desk £90.00\n4 Mar 2025 sold desk £9.00 to "a neighbour"\n'
        '4 Mar 2024 bought lamp £9.00\n4 Mar 2025 replaced lamp £9.00, old one sold £1.00 to "Sam"'
    )
    assert [(lot.key, lot.brought, lot.to) for lot in made.lots if lot.how] == [
        ("sofa", 0, ""), ("desk", 900, "a neighbour"), ("lamp", 100, "Sam"),
    ]  # fmt: skip


def test_what_a_line_took_and_put() -> None:
    made = things("4 Mar 2024 bought sofa £90.00\n4 Mar 2025 replaced sofa £99.00")
    assert [told(lot) for lot in made.taken("mill-3", 1)] == ["1 sofa, bought 4 Mar 2024, replaced 4 Mar 2025"]
    assert [told(lot) for lot in made.put("mill-3", 1)] == ["1 sofa, replaced 4 Mar 2025"]
    assert made.taken("mill-3", 0) == () == made.put("dock-9", 1)


def test_here_on_a_day() -> None:
    sofa = next(lot for lot in things("4 Mar 2024 bought sofa £90.00\n4 Mar 2025 sold sofa £9.00").lots if lot.line)
    days = (date(2024, 3, 3), date(2024, 3, 4), date(2025, 3, 3), date(2025, 3, 4))
    assert [sofa.here_on(day) for day in days] == [False, True, True, False]


# ── doubts ───────────────────────────────────────────────────────────────────────────────────────────────────────

SOLD = "4 Mar 2024 bought sofa £90.00\n4 Mar 2025 sold sofa £9.00\n"
DOUBTS = {
    "sold twice": (SOLD + "5 Mar 2025 sold sofa £9.00", "gone-already"),
    "scrapped after it was sold": (SOLD + "5 Mar 2025 scrapped sofa", "gone-already"),
    "moved away after it was sold": (SOLD + "5 Mar 2025 moved sofa to dock-9", "gone-already"),
    "the seller's, sold twice": (
        "4 Mar 2025 sold piano £9.00, left by seller\n5 Mar 2025 sold piano £9.00, left by seller",
        "gone-already",
    ),
    "the old one sold on its line and on one of its own": (
        "4 Mar 2025 replaced sofa £99.00, old one sold £9.00\n5 Mar 2025 sold old sofa £9.00",
        "gone-already",
    ),
    "more than there were": ("4 Mar 2024 bought 2 beds £90.00\n4 Mar 2025 sold 3 beds £9.00", "more-than-there-were"),
    "more replaced than there were": (
        "4 Mar 2024 bought 2 beds £90.00\n4 Mar 2025 replaced 3 beds £90.00",
        "more-than-there-were",
    ),
    "replaced long after it was sold": (SOLD + "5 Mar 2026 replaced sofa £99.00", "replaced-after-gone"),
    "replaced after it was moved away": (
        "4 Mar 2024 bought sofa £90.00\n4 Mar 2025 moved sofa to dock-9\n5 Mar 2026 replaced sofa £99.00",
        "replaced-after-gone",
    ),
    "two new ones for one old": (
        "4 Mar 2024 bought sofa £90.00\n4 Mar 2025 replaced sofa £99.00\n9 Mar 2025 replaced sofa £98.00",
        "replaced-twice",
    ),
    "moved nowhere": ("4 Mar 2025 replaced sofa £99.00, old one moved to dok-9", "moved-nowhere"),
    "taken home without its worth": (
        "4 Mar 2024 replaced sofa £99.00\n4 Mar 2025 took home sofa",
        "worth-missing",
    ),
    "replaced again when a part of the house had taken its place": (
        "4 Mar 2024 bought cooker £90.00\n4 Mar 2025 replaced cooker with oven £99.00\n"
        "9 Mar 2025 replaced cooker £98.00",
        "replaced-after-gone",
    ),
    "one sale for two replacements": (
        "4 Mar 2024 bought sofa £90.00\n4 Mar 2025 sold sofa £9.00\n9 Mar 2025 replaced sofa with armchair £99.00\n"
        "20 Mar 2025 replaced sofa £98.00",
        "replaced-after-gone",
    ),
    "none before, and there is one": (
        "4 Mar 2024 bought sofa in lounge £90.00\n4 Mar 2025 bought sofa in lounge £90.00, none before",
        "there-already",
    ),
    "none before in a house that has one": (
        "4 Mar 2024 replaced sofa £90.00\n4 Mar 2025 bought sofa £90.00, none before",
        "there-already",
    ),
    # and what looks like it
    "none before in another room": (
        "4 Mar 2024 bought bed in lounge £90.00\n4 Mar 2025 bought bed in back bedroom £90.00, none before",
        "",
    ),
    "none before, and the one before is sold": (SOLD + "5 Mar 2025 bought sofa £90.00, none before", ""),
    "two first ones of one day": (
        "4 Mar 2024 bought sofa £90.00, none before\n4 Mar 2024 bought sofa £80.00, none before",
        "",
    ),
    "one more": ("4 Mar 2024 bought sofa £90.00\n4 Mar 2025 bought sofa £90.00", ""),
    "a first set of what nobody counts": (
        "4 Mar 2024 bought crockery £90.00\n4 Mar 2025 bought crockery £90.00, none before",
        "",
    ),
    "curtains of one room after those of another": (
        "4 Mar 2024 bought curtains £90.00\n4 Mar 2025 replaced curtains £99.00\n9 Mar 2025 replaced curtains £98.00",
        "",
    ),
    "two bought, two sold": (
        "4 Mar 2024 bought 2 sofas £90.00\n"
        "4 Mar 2025 sold sofa £9.00\n"
        "5 Mar 2025 sold sofa £9.00",
        "",
    ),
    "bought again and sold": (SOLD + "5 Mar 2025 bought sofa £90.00\n6 Mar 2026 sold sofa £9.00", ""),
    "one that nobody counted": (
        "4 Mar 2025 sold curtains £9.00 at dock-9\n"
        "5 Mar 2025 sold curtains £9.00 at dock-9",
        "",
    ),
    "words for many": (
        "4 Mar 2024 bought crockery £90.00\n"
        "4 Mar 2025 sold crockery £9.00\n"
        "5 Mar 2025 sold crockery £9.00",
        "",
    ),
    "two of the seller's, told on the lines": (
        "4 Mar 2025 sold sofa £9.00, left by seller\n5 Mar 2025 sold sofa £9.00, left by seller",
        "",
    ),
    "another one of our own": (SOLD + "5 Mar 2025 sold sofa £9.00, ours before", ""),
    "replaced days after it was sold": (SOLD + "20 Mar 2025 replaced sofa £99.00", ""),
    "replaced sixty days after it was sold": (SOLD + "3 May 2025 replaced sofa £99.00", ""),
    "replaced sixty-one days after it was sold": (SOLD + "4 May 2025 replaced sofa £99.00", "replaced-after-gone"),
    "taken out earlier": (SOLD + "5 Mar 2026 replaced sofa £99.00, taken out earlier", ""),
    "one that a tenant used": (SOLD + "5 Mar 2026 replaced sofa £99.00, used by tenant", ""),
    "replaced again long after": (
        "4 Mar 2024 bought sofa £90.00\n4 Mar 2025 replaced sofa £99.00\n9 Aug 2025 replaced sofa £98.00",
        "",
    ),
    "replaced again because it broke": (
        "4 Mar 2024 bought sofa £90.00\n4 Mar 2025 replaced sofa £99.00\n9 Mar 2025 replaced sofa £98.00, broken",
        "",
    ),
    "two replaced, where nobody told how many there were": (
        "4 Mar 2025 replaced sofa £99.00\n9 Mar 2025 replaced sofa £98.00",
        "",
    ),
    "moved to a house that is there": ("4 Mar 2025 replaced sofa £99.00, old one moved to dock-9", ""),
    "moved there by a line": ("4 Mar 2024 bought sofa £90.00\n4 Mar 2025 moved sofa to dock-9", ""),
    "sold in the house it was moved to": (
        "4 Mar 2024 bought sofa £90.00\n4 Mar 2025 moved sofa to dock-9\n5 Mar 2026 sold sofa £9.00 at dock-9",
        "",
    ),
    "taken home at its worth": ("4 Mar 2024 replaced sofa £99.00\n4 Mar 2025 took home sofa £9.00", ""),
    "one that cost nothing, taken home": ("4 Mar 2024 replaced sofa\n4 Mar 2025 took home sofa", ""),
    "a first one taken home": ("4 Mar 2024 bought sofa £99.00\n4 Mar 2025 took home sofa", ""),
}  # fmt: skip


@pytest.mark.parametrize("asked", DOUBTS)
def test_doubts_where_the_book_contradicts_itself(asked: str) -> None:
    lines, code = DOUBTS[asked]
    found = doubts(book(lines, TWO))

    assert [problem.code for problem in found] == ([code] if code else []), [p.headline for p in found]
    for problem in found:
        assert problem.marks[0].line == len((PEOPLE + TWO + lines).splitlines()) + 1


@pytest.mark.parametrize(
    ("lines", "told"),
    [
        ("4 Mar 2024 replaced sofa £99.00, like for like, used by tenant", True),
        ("4 Mar 2024 replaced sofa £99.00, like for like, used by tenant\n4 Mar 2026 sold sofa £9.00", False),
        ("4 Mar 2024 replaced sofa £99.00, like for like, used by tenant\n4 Mar 2026 scrapped sofa", False),
        ("4 Mar 2024 bought sofa £99.00, none before", False),
        ("4 Mar 2024 replaced shed £99.00, like for like", False),
        ("4 Mar 2027 replaced sofa £99.00, like for like, used by tenant", False),
    ],
)
def test_what_came_in_place_of_another_is_asked_about_where_the_house_is_sold_with_it(lines: str, told: bool) -> None:
    """ITTOIA 2005 s.307E: what a relieved item brings is income, also when it goes with the house."""
    house = LET.replace("    as bought", "    sold 1 Sep 2026 for £200,000\n    as bought")
    made = build({"mill.book": f"{house}at mill-3\n{lines}\n"})
    found = [problem for problem in doubts(made) if problem.code == "sold-with-the-house"]

    assert len(found) == told
    assert not told or "sofa" in found[0].headline and "`1 Sep 2026 sold sofa £40.00`" in found[0].help


def test_no_tenant_had_what_the_owners_run_their_lets_with() -> None:
    [ladder] = [lot for lot in things("4 Mar 2020 bought ladder £74.00").of("mill-3") if lot.key == "ladder"]

    assert ladder.tenant is False
