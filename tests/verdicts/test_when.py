"""Whose cost it is and when it counts: what others bore, what comes between lets. Mill Lane is invented."""

from __future__ import annotations

from datetime import date

import pytest

from ledger_tools.book.build import build
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.stake import Stakes
from ledger_tools.verdicts.engine import judge
from ledger_tools.verdicts.verdict import Verdict

from .books import LET, fresh, last, short, verdicts


@pytest.mark.parametrize("payer", ["the executors", "the seller"])
def test_what_somebody_else_bore_counts_nowhere_here_and_may_count_for_the_estate(payer: str) -> None:
    """F1 of the rules in words: who spends it may claim it."""
    house = fresh("lettable", "normal", "inherited 10 Jun 2025 at £120,000, with tenant in")
    house = house.replace("1 Oct 2025", "1 Feb 2019")
    found = last(f'4 Jul 2025 repaired gutters £90.00 by cobb, worn out, paid by "{payer}"', house)
    (said,) = [fired.says for fired in found.path if fired.slug == "someone-else-paid"]

    assert short(found.parts) == "90.00 none" and not found.arguable
    assert ("their own return" in said) is (payer == "the executors")


ENDED = LET + "    ended 31 May 2025\n"
AGAIN = 'tenancy bell at mill-3\n    tenants "A. Bell"\n    periodic from 1 Sep 2025\n    rent £700 a month\n'


def spell(words: str) -> str:
    """The house whose let has ended, with a line more."""
    return ENDED.replace("    left by", f"    {words}\n    left by")


@pytest.mark.parametrize(
    ("house", "line", "parts"),
    [
        (ENDED, "4 Jul 2025 repaired gutters £90.00", "90.00 open repairs"),
        (ENDED, '4 Jul 2025 repaired gutters £90.00, because "we have moved back in"', "90.00 open repairs"),
        (
            spell("marketed to let from 1 Jan 2020 to 1 Feb 2020"),
            "4 Jul 2025 repaired gutters £90.00",
            "90.00 open repairs",
        ),
        (spell("marketed to let from 1 Jun 2025"), "4 Jul 2025 repaired gutters £90.00", "90.00 repair"),
        (spell("works from 1 Jun 2025 to 1 Aug 2025"), "4 Jul 2025 repaired gutters £90.00", "90.00 repair"),
        (ENDED + AGAIN, "4 Jul 2025 repaired gutters £90.00", "90.00 repair"),
        (ENDED, "2 Jun 2025 paid advertising £30.00\n4 Jul 2025 repaired gutters £90.00", "90.00 repair"),
        (ENDED, "4 Jul 2025 repaired gutters £90.00, tenant damage", "90.00 repair"),
        (ENDED, "4 Jul 2025 paid landlord insurance £90.00", "90.00 open premises"),
        (ENDED, "4 Jul 2025 paid accountant £90.00", "90.00 running professional"),
        (ENDED, "4 Jul 2025 paid eviction fees £90.00 to \"Shaw & Pell\"", "90.00 running professional"),
    ],
)
def test_a_void_is_one_where_the_book_tells_that_the_house_is_to_be_let(house: str, line: str, parts: str) -> None:
    """PIM2510: less than three years, and trying to carry on, is no stop; that it was tried is to be told."""
    assert short(last(line, house).parts) == parts


NOTICE = '    notice 1 Apr 2025 by landlord, because "the house is to be sold"\n'


@pytest.mark.parametrize("line", ["certified energy performance £60.00", "paid council tax £60.00 to wold"])
def test_that_a_house_is_to_be_sold_holds_for_what_it_costs_empty_too(line: str) -> None:
    """The same question before a sale as after it, whether work on the house or the council's bill."""
    found = last(f"4 Jul 2025 {line}", ENDED + NOTICE)

    assert found.answers[1] == "no relief: it counts nowhere" and "The notice of" in found.path[-1].says


def test_what_the_ended_let_left_to_do_is_no_work_to_sell() -> None:
    lines = "1 Jun 2025 kept deposit £60.00 from okoye for cleaning\n4 Jun 2025 cleaned house £60.00"

    assert short(last(lines, ENDED + NOTICE).parts) == "60.00 running services"


def test_an_offer_that_may_be_for_a_sale_is_not_left_unsaid() -> None:
    found = last("4 Jul 2025 repaired gutters £90.00", spell("marketed from 1 Jun 2025"))

    assert found.arguable and "nor whether it was marketed from 1 Jun 2025 to let or for sale" in found.path[-1].says


TWO = """\
landlord edwin "Edwin Marl"
    accounting cash
property kiln-5 "5 Kiln Lane, Osmere"
    bought 3 Mar 2015 for £150,000, main home
    own home from 3 Mar 2015 to 31 Jan 2024
property wharf-7 "Flat 7, The Wharf, Osmere"
    bought 2 Feb 2025 for £120,000{tenant}
    as bought lettable
    price normal
tenancy grove at kiln-5
    tenants "Ada Grove"
    periodic from 1 Jul 2024
    rent £900 a month
tenancy hale at wharf-7
    tenants "Sid Hale"
    periodic from 1 Jan 2023
    rent £700 a month
{over}at {at}
{line}
"""


def of_two(line: str, tenant: str = ", with tenant in", over: str = "", at: str = "kiln-5") -> Verdict:
    """The verdict of a line about one of two houses, the second of them bought after a tenancy in it had begun."""
    over = over and f"    {over}\n"
    return judge(build({"a.book": TWO.format(line=line, tenant=tenant, over=over, at=at)}))[-1]


@pytest.mark.parametrize("tenant", ["", ", with tenant in"])
def test_what_a_former_owner_let_begins_no_letting_of_mine(tenant: str) -> None:
    """F1: the business begins with one's own first letting (PIM2505), here 1 Jul 2024."""
    bath = of_two("5 Mar 2024 replaced bath £650.00, like for like, worn out", tenant)
    washer = of_two("5 Jun 2024 replaced washing machine £300.00, like for like, worn out", tenant)

    assert short(bath.parts) == "650.00 repair" and bath.when == date(2024, 7, 1)
    assert short(washer.parts) == "300.00 open domestic"  # E2 before the first letting is open


def test_a_let_that_was_over_before_the_house_was_mine_leaves_it_no_gap_between_lets() -> None:
    """F2: another house was let already; of this one nothing ended that was mine."""
    line = "4 Mar 2025 repaired gutters £90.00, broken"
    found = of_two(line, "", "ended 1 Dec 2024", "wharf-7")
    slugs = [fired.slug for fired in found.path]

    assert "void" not in slugs and "later-property" in slugs and found.when == date(2025, 3, 4)


def test_what_was_let_before_me_is_still_told_of_the_house() -> None:
    """B3: how long it had been let, by whom, speaks of its state when bought."""
    poor = TWO.replace("as bought lettable", "as bought not lettable")
    text = poor.format(line="4 Mar 2026 replaced roof £900.00, like for like", tenant="", over="", at="wharf-7")
    (said,) = [f.says for f in judge(build({"a.book": text}))[-1].path if f.slug == "not-usable-as-bought"]

    assert "12 months as yours and from 2023 under earlier owners" in said


RETURNED = """\
landlord asha "Asha Merrick"
    accounting cash
landlord ben "Ben Merrick"
    accounting cash
property quay-2 "2 Quay Steps"
    bought 1 May 2010 for £118,000
    as bought lettable
    price normal
    owners asha 50% and ben 50%
    own home from 1 May 2010 to 31 Aug 2019
property mill-5 "5 Mill Lane"
    bought 3 Jun 2017 for £90,000
    as bought lettable
    price normal
    owners ben 100%
tenancy bell at quay-2
    tenants "Jo Bell"
    periodic from 1 Oct 2021
    rent £875 a month
{other}at quay-2
20 Sep 2019  replaced  cooker £290.00, like for like, ours before
2 Nov 2019   replaced  gutters £300.00, like for like, worn out
{returned}2 Apr 2026   paid      landlord insurance £90.00
"""
OTHER = 'tenancy cole at mill-5\n    tenants "A. Cole"\n    periodic from 3 Jun 2017\n    rent £700 a month\n'
ON_A_RETURN = "2 Oct 2019   replaced  8 windows £4,100.00, modern equivalent, already returned 2019-20\n"


def years_of_stakes(other: str, returned: str) -> list[tuple[str, str, bool]]:
    """For whom, in which year, and whether out of time: what rides on the cooker."""
    accounts = Accounts(build({"a.book": RETURNED.format(other=other, returned=returned)}))
    return [(s.owner, str(s.year), s.too_late is not None) for s in Stakes(accounts).of([0])]


def test_a_part_that_counts_later_rides_in_the_year_when_it_counts() -> None:
    """F1: each owner's own letting begins with that owner's first let; 2021-22 can be claimed until 5 April 2026."""
    assert years_of_stakes(OTHER, "") == [("ben", "2019-20", True), ("asha", "2021-22", False)]
    assert years_of_stakes(OTHER, ON_A_RETURN) == [("asha", "2019-20", True), ("ben", "2019-20", True)]


def test_a_cost_on_a_return_tells_that_letting_had_begun() -> None:
    """What came off the return of 2019-20 belonged to a letting: nothing of before waits for the let of 2021."""
    cooker, _, gutters, _ = judge(build({"a.book": RETURNED.format(other="", returned=ON_A_RETURN)}))
    shared = judge(build({"a.book": RETURNED.format(other=OTHER, returned=ON_A_RETURN)}))[0]

    assert gutters.when == date(2020, 4, 5) and "came off the return of 2019-20" in gutters.path[-1].says
    assert "which by a return that it tells of lay in 2019-20" in shared.path[-1].says
    assert cooker.arguable and "2021" not in shared.path[-1].says


def test_a_part_that_waits_for_its_owner_rests_on_the_rule_about_costs_before_a_letting() -> None:
    """F1 of the rules in words; that the houses belong to different people is no doubt where it is what was said."""
    shared = judge(build({"a.book": RETURNED.format(other=OTHER, returned=ON_A_RETURN)}))[0]

    assert "s.57" in shared.path[-1].authority
    assert any("that owner let something earlier" in words for words in shared.would_change)


SECOND = """property dock-9 "9 Dock Road"
    bought 1 May 2025 for £90,000
    as bought lettable
    price normal
"""


@pytest.mark.parametrize(
    ("more", "later", "open_"),
    [
        ("", "4 Sep 2026 repaired gutters £90.00 at mill-3", True),
        ("", "4 Sep 2025 repaired gutters £90.00 at mill-3", False),  # its let may still come
        ("    works from 1 May 2025\n", "4 Sep 2026 repaired gutters £90.00 at mill-3", False),
        ("    marketed to let from 1 May 2026\n", "4 Sep 2026 repaired gutters £90.00 at mill-3", False),
    ],
)
def test_a_second_house_that_is_not_let_for_over_a_year_is_asked_about(more: str, later: str, open_: bool) -> None:
    """F2 and F3 of the rules in words: readying it is an ordinary cost, if it is meant for letting at all."""
    found = verdicts(f"4 Jul 2025 repaired gutters £90.00 at dock-9\n{later}", LET + SECOND + more)[0]

    assert found.arguable is open_ and ("marketed to let from …" in found.ask) is open_


OWN_HOME = "    own home from 1 Aug 2025 to 31 May 2026\n"
HOME = LET.replace("    left by", OWN_HOME + "    left by") + "    ended 31 May 2025\n"


@pytest.mark.parametrize(
    ("line", "comes"),
    [
        ("2 Jun 2026 paid council tax £300.00 for 1 Aug 2025 to 31 May 2026", "300.00 private"),
        ("2 Jun 2026 paid council tax £366.00 for 1 Jun 2025 to 1 Jun 2026", "304.00 private + 62.00 pending premises"),
        ("2 Sep 2025 paid council tax £300.00 for 1 Apr 2025 to 31 May 2025", "300.00 running premises"),
        ("2 Sep 2025 paid council tax £300.00", "300.00 private"),
    ],
)
def test_what_is_paid_for_days_is_private_for_those_on_which_it_was_the_owner_s_home(line: str, comes: str) -> None:
    """F5 and A2 of the rules in words; the day of payment says nothing of the days that were paid for."""
    assert short(last(line, HOME).parts) == comes


@pytest.mark.parametrize("days", ["17 Jul 2025 to 16 Aug 2025", "1 Jul 2025 to 31 Jul 2025"])
def test_no_answer_is_lost_where_it_was_the_owner_s_home_for_a_time(days: str) -> None:
    house = fresh("not lettable", "normal", more="own home from 1 Jul 2025 to 31 Jul 2025")
    found = last(f"2 Aug 2025 paid labour £310.00 for {days}", house)

    assert "private: nothing comes off" in found.answers[0]
    assert found.answers[1:] == (
        "an improvement: it counts when the house is sold",
        "part of what the house cost: it counts when the house is sold",
    )


@pytest.mark.parametrize(
    ("room", "line", "open_"),
    [
        ("    room back bedroom\n", "repaired roof £900.00", True),
        ("    room back bedroom\n", "repaired window in back bedroom £900.00", False),
        ("", "repaired roof £900.00", False),
    ],
)
def test_what_is_spent_on_a_home_with_a_lodger_is_for_both(room: str, line: str, open_: bool) -> None:
    """A2 of the rules in words: mixed use is private but for a separable part."""
    house = LET.replace("    left by", "    rooms hall, back bedroom\n    own home from 1 Jan 2024\n    left by")
    found = last(f"2 Jun 2025 {line}", house.rstrip() + "\n" + room)

    assert found.arguable is open_ and (", of which private £…" in found.ask) is open_
