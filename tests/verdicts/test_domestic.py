"""Loose items by the text of the law: what the old one was, what it brought, and what comes of it later.

Sums and houses are our own; the paragraph a case rests on stands beside it.
"""

from __future__ import annotations

from dataclasses import dataclass

import pytest

from ledger_tools.explain.houses import HOUSES
from ledger_tools.verdicts.catalogue import catalogue
from ledger_tools.verdicts.checks import doubts
from ledger_tools.verdicts.history import History
from ledger_tools.verdicts.verdict import Kind

from .books import LET, PEOPLE, book, fresh, last, short, verdicts

ACCRUALS = PEOPLE.replace("accounting cash", "accounting accruals")
TWO = (
    LET + 'property dock-9 "9 Dock Road"\n    bought 1 May 2019 for £90,000\n    as bought lettable\n    price normal\n'
)
# Let for a year, then empty for good.
ONCE = LET.replace("periodic from 1 Sep 2018", "periodic from 1 Sep 2018\n    ended 31 Aug 2019").replace(
    "    left by", "    marketed to let from 1 Sep 2019\n    left by"
)
# Then the owner's own home, until a new let is sought; and let again after that.
BACK = ONCE.replace("    price normal\n", "    price normal\n    own home from 1 Oct 2019 to 28 Feb 2025\n", 1)
AGAIN = BACK.replace("to 28 Feb 2025", "to 28 Feb 2023") + (
    'tenancy lund at mill-3\n    tenants "P. Lund"\n    periodic from 1 Apr 2023\n    rent £500 a month\n'
)
NOTE = "counted here once"


@dataclass(frozen=True)
class D:
    """The lines, what the last of them comes to, and what the path must say, or must not."""

    lines: str
    parts: str
    house: str = LET
    people: str = PEOPLE
    other: str = ""
    says: str = ""
    never: str = ""
    ask: str = ""
    sure: str = ""


WASHER = "4 Mar 2025 replaced washing machine with washer dryer £350.00, same again £220.00, used by tenant"
SOFA = "4 Mar 2024 replaced sofa with sofa bed £500.00, same again £400.00, used by tenant\n"
CASES: dict[str, D] = {
    # s.311A(11): cost £P, received £T; the cap is on P, and T comes off what is left
    "part exchange where the cap bites": D(
        WASHER + ", part exchange £40.00", "180.00 replaced + 130.00 none + 40.00 ignored"
    ),
    "part exchange where it does not": D(
        "4 Mar 2025 replaced sofa £480.00, like for like, used by tenant, part exchange £60.00",
        "420.00 replaced + 60.00 ignored",
    ),
    "the old one brought more than the relief": D(
        "4 Mar 2025 replaced sofa £480.00, same again £50.00, used by tenant, old one sold £80.00",
        "400.00 none + 80.00 ignored",
    ),
    # small things of the bathroom: the first is provided for good, the next is upkeep
    "a first shower curtain": D("4 Mar 2025 bought shower curtain £9.00", "9.00 none"),
    "another shower curtain": D(
        "4 Mar 2024 bought shower curtain £9.00\n4 Mar 2025 bought shower curtain £9.00", "9.00 running repairs"
    ),
    "a shower curtain replaced": D("4 Mar 2025 replaced shower curtain £9.00", "9.00 running repairs"),
    "a first bulb": D("4 Mar 2025 bought bulbs £9.00", "9.00 running repairs"),
    # s.311A(13): due or to somebody near makes no difference
    "sold to somebody near": D(
        WASHER + ', old one sold £30.00 to "my sister"', "190.00 replaced + 130.00 none + 30.00 ignored"
    ),
    # s.311A(10): what it cost to get it there is added, on top or inside
    "delivery on top": D(WASHER + "\n    plus delivery £30.00", "250.00 replaced + 130.00 none"),
    "delivery inside": D(WASHER + "\n    of which delivery £30.00", "250.00 replaced + 100.00 none"),
    "nothing but delivery inside": D(WASHER + "\n    of which delivery £350.00", "220.00 replaced + 130.00 none"),
    "delivery and no price": D(
        "4 Mar 2025 replaced sofa, same again £220.00, used by tenant\n    plus delivery £30.00", "30.00 replaced"
    ),
    # E6
    "two old ones for one new": D(
        "4 Mar 2025 replaced fridge and freezer with fridge freezer £420.00, like for like, used by tenant",
        "420.00 replaced",
        says="all the old ones together",
    ),
    "one old one for one new": D(
        "4 Mar 2025 replaced fridge with fridge freezer £420.00, same again £240.00, used by tenant",
        "240.00 replaced + 180.00 none",
        never="all the old ones together",
    ),
    # E7: the inventory knows what came when, and which lets ran while it was there
    "bought by us, and a let ran": D(
        "4 Mar 2019 bought sofa £300.00, none before\n4 Mar 2021 replaced sofa £400.00, like for like",
        "400.00 replaced",
        ONCE,
    ),
    "bought by us after the last let": D(
        "4 Mar 2020 bought sofa £300.00, none before\n4 Mar 2021 replaced sofa £400.00, like for like",
        "400.00 open domestic",
        ONCE,
        other="400.00 replaced",
        says="no let ran while it was here",
        ask=", used by tenant",
    ),
    "one that a tenant had and one that none had": D(
        "4 Mar 2019 bought sofa £300.00, none before\n4 Mar 2020 bought sofa £300.00\n"
        "4 Mar 2021 replaced 2 sofas £800.00, like for like",
        "800.00 open domestic",
        ONCE,
        other="800.00 replaced",
        says="came on 4 Mar 2020",
    ),
    "told that a tenant had it": D(
        "4 Mar 2020 bought sofa £300.00, none before\n4 Mar 2021 replaced sofa £400.00, like for like, used by tenant",
        "400.00 replaced",
        ONCE,
    ),
    "nobody told how the old one came, in a house let before": D(
        "4 Mar 2021 replaced sofa £400.00, like for like", "400.00 replaced", ONCE
    ),
    "nobody told, and no let before": D(
        "4 Jul 2025 replaced sofa £400.00, like for like",
        "400.00 open domestic",
        fresh("lettable", "normal"),
        other="400.00 replaced",
        says="Whose was it?",
    ),
    "left by the seller, and a let ran": D(
        "4 Mar 2025 replaced piano £400.00, like for like", "400.00 replaced", LET
    ),
    # E7 flips only where a tenant used that very one: whoever lived there since may have brought it
    "nobody told, and the owner lived here since the last let": D(
        "4 Mar 2025 replaced cooker £400.00, like for like",
        "400.00 open domestic",
        BACK,
        other="400.00 pending domestic",
        says="Whose was it?",
        ask=", used by tenant",
    ),
    "the owner's own, who lived here since the last let": D(
        "4 Mar 2025 replaced cooker £400.00, like for like, ours before",
        "400.00 open domestic",
        BACK,
        other="400.00 pending domestic",
        says="was your own, and your book tells of no tenant who used it",
    ),
    "the owner lived here, and it was let again since": D(
        "4 Mar 2025 replaced cooker £400.00, like for like", "400.00 replaced", AGAIN
    ),
    # E11: what is fixed and no plant may be a furnishing all the same; an oven is plant
    "a fitted wardrobe for a loose one": D(
        "4 Mar 2025 replaced wardrobe with fitted wardrobe £720.00, same again £220.00, used by tenant",
        "220.00 open domestic [enhancement] + 500.00 open [enhancement]",
        other="220.00 replaced + 500.00 none",
        never="Even as a furnishing",
    ),
    "shutters for curtains, with no price of an equal": D(
        "4 Mar 2025 replaced curtains with shutters £720.00, used by tenant",
        "720.00 open domestic [enhancement]",
        other="720.00 replaced",
        says="Even as a furnishing no more comes off",
    ),
    "an oven for a cooker": D("4 Mar 2025 replaced cooker with oven £720.00, used by tenant", "720.00 improvement"),
    # D4: the word "loose" speaks, and settles a doubtful thing only as is usual
    "the first blinds, called loose": D("4 Mar 2025 installed blinds £88.00, loose, none before", "88.00 none",
                                        sure="usual"),
    "the first sofa": D("4 Mar 2025 installed sofa £88.00, none before", "88.00 none", sure="clear"),
    # E10: it costs nothing in its new house; what is bought there later is no first one for certain
    "replaced in the house it was moved to": D(
        "4 Mar 2020 replaced sofa £400.00, like for like, used by tenant, old one moved to dock-9\n"
        "4 Mar 2025 replaced sofa £450.00 at dock-9, like for like",
        "450.00 replaced",
        TWO.replace('property dock-9', 'tenancy lund at dock-9\n    tenants "P. Lund"\n    periodic from 1 Jun 2019\n'
                    "    rent £500 a month\nproperty dock-9"),
    ),
    "bought beside one that was moved there": D(
        "4 Mar 2020 moved sofa to dock-9\n4 Mar 2025 bought sofa £450.00 at dock-9",
        "450.00 open domestic",
        TWO,
        other="450.00 replaced",
    ),
    # s.307E: what had relief is income when it goes, as far as it had it
    "relieved in full and sold": D(
        "4 Mar 2020 replaced sofa £400.00, like for like, used by tenant\n4 Mar 2025 sold sofa £60.00",
        "60.00 income other_income",
    ),
    "relieved in part and sold": D(
        SOFA + "4 Mar 2025 sold sofa bed £50.00", "40.00 income other_income + 10.00 capital sum"
    ),
    "relieved in part and taken home at its worth": D(
        SOFA + "4 Mar 2025 took home sofa bed £50.00",
        "40.00 income other_income + 10.00 capital sum",
        says="what it was worth",
    ),
    "relieved, moved to another let, sold there": D(
        "4 Mar 2020 replaced sofa £400.00, like for like, used by tenant\n4 Mar 2023 moved sofa to dock-9\n"
        "4 Mar 2025 sold sofa £60.00 at dock-9",
        "60.00 income other_income",
        TWO,
    ),
    "the first one never had relief, though its successor had": D(
        "4 Mar 2020 bought 2 sofas £800.00, none before\n"
        "4 Mar 2021 replaced sofa £400.00, like for like, old one scrapped\n4 Mar 2025 sold sofa £60.00",
        "60.00 capital sum",
    ),
    "whether it had relief is open": D(
        "4 Mar 2020 replaced sofa £400.00, used by tenant\n4 Mar 2025 sold sofa £60.00",
        "60.00 open",
        other="60.00 capital sum",
        says="open with it",
    ),
    "relieved, on accruals": D(
        "4 Mar 2020 replaced sofa £400.00, like for like, used by tenant\n4 Mar 2025 sold sofa £60.00",
        "60.00 open",
        people=ACCRUALS,
        other="60.00 capital sum",
    ),
    # s.307E(14): counted once, in the relief for the new one
    "its successor takes the price of one that had relief": D(
        "4 Mar 2020 replaced sofa £400.00, like for like, used by tenant\n"
        "4 Mar 2025 replaced sofa £450.00, like for like, old one sold £50.00",
        "400.00 replaced + 50.00 ignored",
        says=NOTE,
    ),
    "its successor takes the price of one whose relief is open": D(
        "4 Jul 2018 replaced sofa £400.00, like for like, ours before\n"
        "4 Mar 2025 replaced sofa £450.00, like for like, old one sold £50.00",
        "400.00 replaced + 50.00 ignored",
        says="relief too is open (mill.book:",
        never="own cost had relief too; its",
    ),
    "sold on a line of its own when replaced": D(
        "4 Mar 2020 replaced sofa £400.00, like for like, used by tenant\n"
        "4 Mar 2025 replaced sofa £450.00, like for like\n9 Mar 2025 sold old sofa £50.00",
        "50.00 nets domestic",
        says=NOTE,
    ),
    "its successor takes the price of one that had relief, on accruals": D(
        "4 Mar 2020 replaced sofa £400.00, like for like, used by tenant\n"
        "4 Mar 2025 replaced sofa £450.00, like for like, old one sold £50.00",
        "400.00 replaced + 50.00 ignored",
        people=ACCRUALS,
        never=NOTE,
    ),
    "the price of one that never had relief": D(
        "4 Mar 2020 bought sofa £400.00, none before\n"
        "4 Mar 2025 replaced sofa £450.00, like for like, old one sold £50.00",
        "400.00 replaced + 50.00 ignored",
        never=NOTE,
    ),
}  # fmt: skip


@pytest.mark.parametrize("asked", CASES)
def test_a_loose_item(asked: str) -> None:
    case = CASES[asked]
    verdict = last(case.lines, case.house, case.people)
    path = " ".join(fired.says for fired in verdict.path)

    assert short(verdict.parts) == case.parts, [f"{f.slug}: {f.says}" for f in verdict.path]
    assert short(verdict.other) == case.other
    assert case.says in path
    assert not case.never or case.never not in path
    assert case.ask in ("", *verdict.ask)
    assert case.sure in ("", verdict.confidence)


MOVED = "4 Jul 2025 replaced sofa £480.00, like for like, used by tenant, old one moved to dock-9"
WORTH = "took home sofa £60.00"


@pytest.mark.parametrize("day", ["4 Jul 2025", "9 Jul 2025"])
def test_what_an_item_was_worth_that_left_for_another_owner_counts_on_a_line_of_its_own(day: str) -> None:
    """ITTOIA 2005 s.307E(2)-(13): its worth is income as far as its price came off; the new one counts whole."""
    house = HOUSES["another's house"].book
    first = "4 Jul 2019 replaced sofa £300.00, like for like, used by tenant"
    found = verdicts(f"{first}\n{MOVED}\n{day} {WORTH}", house)
    never = verdicts(f"4 Jul 2019 bought sofa £300.00\n{MOVED}\n{day} {WORTH}", house)

    assert [short(v.parts) for v in found[1:]] == ["480.00 replaced", "60.00 income other_income"]
    assert [short(v.parts) for v in never[1:]] == ["480.00 replaced", "60.00 capital sum"]


@pytest.mark.parametrize(
    ("first", "most"),
    [("4 Jul 2019 replaced sofa £300.00, like for like, used by tenant\n", "£300.00"), ("", "£480.00")],
)
def test_no_more_is_open_than_the_old_one_was_worth_and_that_is_said(first: str, most: str) -> None:
    """The new one comes off whichever it is; where its worth is not told the sum that is open is a ceiling."""
    found = verdicts(first + MOVED, HOUSES["another's house"].book)[-1]
    [why] = [fired.says for fired in found.path if fired.slug == "to-another-owner"]

    assert f"as that is not told, {most} stands here, the most that it may come to." in why
    assert sum(p.amount for p in found.parts if p.kind is Kind.ARGUABLE) == int(most[1:4]) * 100


def test_it_left_once_only() -> None:
    made = book(f"4 Jul 2019 bought sofa £300.00\n{MOVED}\n4 Jul 2025 {WORTH}", HOUSES["another's house"].book)
    sofas = [lot for lot in History(made, catalogue()).inventory.lots if lot.key == "sofa"]

    assert [(lot.house, lot.how) for lot in sofas] == [("mill-3", "moved"), ("dock-9", ""), ("mill-3", "")]
    assert doubts(made) == []


def test_an_item_moved_to_the_owner_s_own_home_has_left_the_letting() -> None:
    """E10 of the rules in words speaks of another let of mine; E12 of what stops being used for a letting."""
    nook = 'property nook-5 "5 Nook"\n    bought 1 May 2018 for £90,000\n    own home from 1 May 2018\n'
    first = "4 Jul 2019 replaced bed £300.00, like for like, used by tenant\n"
    found = last(f"{first}4 Jul 2025 replaced bed £420.00, like for like, used by tenant, old one moved to nook-5",
                 LET + nook)  # fmt: skip

    assert found.arguable and any("your own home" in fired.says for fired in found.path)
    assert "swapped-between-houses" not in [fired.slug for fired in found.path]
