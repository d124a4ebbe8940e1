"""What holds between the years of made-up books: what one leaves the next takes up, days between years, quarters in a
year, and the two ways of accounting over a whole life.

The people, houses and sums are made up by the test.
"""

from __future__ import annotations

import re
from collections import defaultdict
from datetime import date, timedelta

from hypothesis import HealthCheck, example, given, note, settings
from hypothesis import strategies as st

from ledger_tools import law
from ledger_tools.days import Period, TaxYear, day_words, months_after
from ledger_tools.money import pounds
from ledger_tools.statements.accounts import INCOME, Accounts, tax_sign
from ledger_tools.statements.brought import brought
from ledger_tools.statements.owner_pages import totals, traces
from ledger_tools.statements.quarter import quarter
from ledger_tools.statements.year_end import OwnerYear, year_end
from tests.properties.test_portfolios import COSTS, END, PEOPLE, START, on_account, portfolios, worked

RELAXED = settings(
    deadline=None, max_examples=20, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)
YEAR = TaxYear(2025)
ALL_YEARS = [TaxYear(start) for start in range(2023, 2027)]  # those with dated lines, and one more


def typed(owner: OwnerYear | None, number: str) -> int:
    """The whole pounds of a box; nil where it is empty."""
    return sum(box.pounds for box in owner.boxes if box.number == number) if owner else 0


def pages_of(accounts: Accounts, owner: str) -> dict[TaxYear, OwnerYear | None]:
    found = {year: {o.owner: o for o in year_end(accounts, year).owners} for year in ALL_YEARS}
    return {year: owners.get(owner) for year, owners in found.items()}


def under_landlords(text: str, lines: str) -> str:
    """The book with some lines more under every landlord; nobody takes the property allowance, which stands in place of
    costs and of what they leave."""
    declined = "".join(f"    declines property allowance in {year}\n" for year in ALL_YEARS)
    return re.sub(r"(?m)^landlord .*\n", lambda found: found.group() + declined + lines, text)


# ── what is carried on ───────────────────────────────────────────────────────────────────────────────────────────


@RELAXED
@given(portfolios())
def test_a_loss_left_in_one_year_comes_into_the_next_and_is_used_once(text: str) -> None:
    accounts = worked(text)
    for owner in PEOPLE:
        left = 0
        for year, pages in pages_of(accounts, owner).items():
            used = typed(pages, "39")

            assert brought(accounts, owner, year).loss.pence == left * 100
            assert used == min(left, typed(pages, "38"))  # in full, as far as there is a profit (PIM4205)
            left += typed(pages, "41") - used
            assert (pages.loss_on if pages else 0) == typed(pages, "43") == left


@RELAXED
@given(portfolios(), st.integers(0, 90_000))
def test_finance_costs_left_in_one_year_come_into_the_next_and_earn_once(text: str, other: int) -> None:
    """With the other income of every year told, so that what each year's reduction rests on is known."""
    accounts = worked(
        under_landlords(text, "".join(f"    other income {pounds(other * 100)} in {y}\n" for y in ALL_YEARS))
    )
    for owner in PEOPLE:
        left = 0
        for pages in pages_of(accounts, owner).values():
            assert typed(pages, "45") * 100 == left
            relief = pages.in_tax.estimate.relief if pages and pages.in_tax.estimate else None
            costs, used = typed(pages, "44") * 100, relief.used if relief else 0

            assert 0 <= used <= min(costs + left, typed(pages, "40") * 100)  # ITTOIA 2005 s. 274AA
            left += costs - used
            assert (relief.left if relief else 0) == left


# ── 5 and 6 April ────────────────────────────────────────────────────────────────────────────────────────────────

LAST, FIRST = YEAR.before.period.last, YEAR.period.first
WHOLE = f'{day_words(START)} noted "the first line"\n{day_words(END)} noted "the last"\n'  # rent is worked out between
MOVED = (*(line for line in COSTS if "worktop" not in line), "received rent {}", "received insurance {} for lost rent")


@RELAXED
@given(portfolios(), st.sampled_from(MOVED), st.integers(1, 900_000))
def test_a_line_moved_over_the_end_of_a_year_moves_to_the_other_and_changes_nothing_else(
    text: str, said: str, amount: int
) -> None:
    """Where the house was let before, and nobody's share changes on the day, which would change more than the year."""
    text = re.sub(r"(?m)^(tenancy t-ash-1 .*\n    periodic from) .*$", r"\1 1 Jul 2020", text)
    text = re.sub(rf"(?m)^(    owners .* from) {day_words(FIRST)}$", r"\1 1 Apr 2025", text)
    what, comma, facts = said.partition(",")
    line = f"{what.format(pounds(amount))} at ash-1{comma}{facts}"
    early, late = (worked(f"{text}{WHOLE}{day_words(day)} {line}\n") for day in (LAST, FIRST))
    source = f"made.book:{(text + WHOLE).count(chr(10)) + 1}"
    note(f"{text}… {line}")
    for owner in PEOPLE:
        was, now = ({y: _apart(one, owner, y, source) for y in ALL_YEARS} for one in (early, late))

        assert {year: rest for year, (_, rest) in was.items()} == {year: rest for year, (_, rest) in now.items()}
        assert was[YEAR.before][0] == now[YEAR][0]
        assert all(was[year][0] == {} for year in ALL_YEARS if year != YEAR.before)
        assert all(now[year][0] == {} for year in ALL_YEARS if year != YEAR)


def _apart(accounts: Accounts, owner: str, year: TaxYear, source: str) -> tuple[dict[str, int], dict[str, int]]:
    """What one line of the book comes to in a year by category, and what all others do."""
    lines = traces(accounts, owner, year)
    mine = {name: sum(t.pence for t in found if t.source == source) for name, found in lines.items()}
    return _less(mine, {}), _less(totals(lines), mine)


def _less(one: dict[str, int], two: dict[str, int]) -> dict[str, int]:
    left = {name: one.get(name, 0) - two.get(name, 0) for name in {*one, *two}}
    return {name: pence for name, pence in left.items() if pence}


# ── quarters ─────────────────────────────────────────────────────────────────────────────────────────────────────


MORE_WENT_BACK = (  # una leaves accruals in 2025-26 with half of a year's rent owed: her box 20 is below nil
    'lender fen "Fen Lending"\nlandlord una "Una Vane"\n    accounting cash\n    married to bram\n'
    'landlord bram "Bram Vane"\n    accounting accruals\nlandlord cleo "Cleo Vane"\n    accounting cash\n'
    'property ash-1 "Ash-1"\n    bought 1 Jun 2020 for £90,000\n    as bought lettable\n    price normal\n'
    "    owners una 1% and bram 99%\n    owners una 100% from 7 Apr 2024\n"
    "tenancy t-ash-1 at ash-1\n    periodic from 1 Jul 2020\n    rent £500 a month\n"
    "6 Apr 2023 repaired gutters £0.01 at ash-1, worn out\n"
)


INTEREST_OWED = MORE_WENT_BACK.replace("    accounting cash\n", "    accounting accruals\n").replace(
    "6 Apr 2023 repaired gutters £0.01 at ash-1, worn out\n",  # of a bill of two pence one is owed for ever
    "6 Apr 2023 billed loan interest £0.02 by fen at ash-1, paid 7 Apr 2023 £0.01\n",
)


WAYS = (  # a change of the way of accounting; accounts that end when calendar quarters do
    "", "    accounting cash from 2025-26\n", "    accounting accruals from 2025-26\n",
    "    calendar quarters from 2024-25\n    accounts to 31 march from 2024-25\n",
    "    accounts to 31 march from 2025-26\n",
)  # fmt: skip


@RELAXED
@given(portfolios(), st.sampled_from(WAYS))
@example(MORE_WENT_BACK, "")
@example(INTEREST_OWED, "    accounting cash from 2025-26\n")
def test_the_quarters_add_up_to_the_year_box_by_box(text: str, words: str) -> None:
    """Each update holds the year so far: what it adds to the one before is what its own days hold, and all four
    together are the year's pages."""
    accounts = worked(under_landlords(text, words))
    note(words)
    for pages in year_end(accounts, YEAR).owners:
        lines = traces(accounts, pages.owner, YEAR)
        before: dict[str, int] = {}
        year_so_far: dict[str, int] = defaultdict(int)
        first = min(accounts.period(pages.owner, YEAR).first, YEAR.period.first)
        for number in (1, 2, 3, 4):
            update = quarter(accounts, pages.owner, YEAR, number)
            so_far = {f.figure.slug: f.figure.pence for f in update.fields} | {f.slug: f.pence for f in update.later}
            days = Period(first, update.update.period.last)
            for slug, found in lines.items():
                year_so_far[slug] += sum(t.pence for t in found if (t.counts or t.day) in days)
            own = {**year_so_far, "finance_brought": so_far.get("finance_brought", 0)}  # sent with the first, of no day
            if own.get("finance_residential", 0) < 0:  # the service takes no minus there: left out, and told
                del own["finance_residential"]

            assert _less(so_far, own) == {}
            first, before = days.last + timedelta(days=1), so_far
        boxes = {b.number: b.figure.pence for b in pages.boxes if b.number not in ("38", "39", "40", "41", "43")}
        told: dict[str, int] = defaultdict(int)
        for slug, pence in before.items():
            told[_box(slug)] += pence
        incomes = {box.number for box in law.pages(YEAR) if box.kind == "income"}
        for number in sorted(told, key=incomes.__contains__):  # the pages take no minus; costs are moved first
            if told[number] < 0:
                told["29" if number in incomes else "20"] -= told.pop(number)

        assert _less(told, boxes) == {}


@RELAXED
@given(portfolios())
def test_calendar_quarters_hold_every_day_once(text: str) -> None:
    """Two years of updates from 1 April 2025 hold what came and went in their days, whatever the pages' years are."""
    both = Period(date(2025, 4, 1), date(2027, 3, 31))
    accounts = worked(
        under_landlords(text, "    calendar quarters\n").replace("accounting accruals", "accounting cash")
    )
    for owner in PEOPLE:
        sent: dict[str, int] = defaultdict(int)
        for year in (YEAR, YEAR.next):
            update = quarter(accounts, owner, year, 4)
            for f in (*(field.figure for field in update.fields), *update.later):
                sent[f.slug] += f.pence if f.slug != "finance_brought" else 0
        own: dict[str, int] = defaultdict(int)
        for row, day in accounts.in_period("cash", both):
            kit = {"investment_allowance": "other", "balancing_charge": "other_income"}  # of one's own, by payment
            slug = kit.get(row.category, row.category)
            own[slug] += tax_sign(row) * accounts.parts(row, day).get(owner, 0)
        own.pop("", None)

        assert _less(sent, own) == {}


def _box(slug: str) -> str:
    return {"finance_residential": "44", "finance_brought": "45"}.get(slug) or law.box_for(slug, YEAR).number


# ── two ways of accounting ───────────────────────────────────────────────────────────────────────────────────────

BILLS = (
    "repaired gutters {}, worn out", "replaced boiler {}, modern equivalent, broken", "paid landlord insurance {}",
    "replaced sofa {}, like for like, used by tenant", "paid loan interest {} to fen",
)  # fmt: skip


@st.composite
def whole_lives(draw: st.DrawFn) -> str:
    """One house of two people, let once and left, every rent paid in the end and so every bill; the days as they fall.

    Rents and bills are late or early by up to half a year, insurance is for days to come.
    """
    part, rent, months = draw(st.integers(1, 99)), draw(st.integers(1, 300_000)), draw(st.integers(1, 20))
    since = date(2023, 4, 6) + timedelta(draw(st.integers(0, 300)))
    since = since.replace(day=min(since.day, 28))
    begins = [months_after(since, number) for number in range(months + 1)]
    text = (
        'lender fen "Fen Lending"\nlandlord una "Una Vane"\nlandlord bram "Bram Vane"\nproperty ash-1 "Ash-1"\n'
        "    bought 1 Jun 2020 for £90,000\n    as bought lettable\n    price normal\n"
        f"    owners una {part}% and bram {100 - part}%\ntenancy first at ash-1\n    periodic from {day_words(since)}\n"
        f"    rent {pounds(rent)} a month\n    ended {day_words(begins[-1] - timedelta(days=1))}\nat ash-1\n"
        f'6 Apr 2023 noted "the first line"\n1 May 2027 noted "the last"\n'
    )
    for begin in begins[:-1]:
        text += f"{day_words(begin + timedelta(draw(st.integers(-20, 180))))} received rent {pounds(rent)} from first\n"
    for _ in range(draw(st.integers(0, 6))):
        day = since + timedelta(draw(st.integers(0, 30 * months)))
        what, comma, facts = draw(st.sampled_from(BILLS)).partition(",")
        said = what.format(pounds(draw(st.integers(1, 900_000)))) + comma + facts
        if "insurance" in said and draw(st.booleans()):
            said += f" for {day_words(day)} to {day_words(day + timedelta(draw(st.integers(0, 400))))}"
        elif draw(st.booleans()):
            said = on_account(f" {said}").strip()
            said += f", paid {day_words(day + timedelta(draw(st.integers(0, 180))))}"
        text += f"{day_words(day)} {said}\n"
    return text


@RELAXED
@given(whole_lives())
def test_over_the_life_of_a_let_both_ways_count_the_same_in_other_years(text: str) -> None:
    """By category, where nothing is left unpaid (ITTOIA 2005 ss. 271D, 272): only the years differ."""
    by_way = {}
    for way in ("cash", "accruals"):
        accounts = worked(re.sub(r"(?m)^landlord .*\n", rf"\g<0>    accounting {way}\n", text))
        by_way[way] = [_life(accounts, owner) for owner in ("una", "bram")]
    note(text)
    cash, accruals = (
        {name: one.get(name, 0) + two.get(name, 0) for name in {*one, *two}} for one, two in by_way.values()
    )
    came = sum(pence_of(found) for found in re.findall(r"received rent (£\S+)", text))

    assert cash == accruals
    assert cash["rent"] == came
    for one, two in zip(*by_way.values(), strict=True):  # each owner's, but for a penny a sum that is shared by days
        assert all(abs(pence) <= text.count("\n") for pence in _less(one, two).values())


@RELAXED
@given(whole_lives(), st.sampled_from(["cash", "accruals"]), st.integers(2023, 2026))
def test_a_change_of_the_way_of_accounting_counts_everything_once(text: str, first: str, start: int) -> None:
    """Over the life of a let the profit is what it is by payment, and so are the finance costs (PIM1096;
    BIM72065-72072); out of the cash basis a class may differ, as one sum is spread over six years."""
    then = "cash" if first == "accruals" else "accruals"
    words = {"plain": "cash", "changed": f"{first}\n    accounting {then} from {TaxYear(start)}"}
    found = {}
    for name, way in words.items():
        accounts = worked(re.sub(r"(?m)^landlord .*\n", rf"\g<0>    accounting {way}\n", text))
        sums = [_life(accounts, owner) for owner in ("una", "bram")]
        found[name] = [_profit(each) for each in sums]
    note(text)
    together = {name: (sum(p for p, _ in each), sum(f for _, f in each)) for name, each in found.items()}

    assert together["plain"] == together["changed"]
    for one, two in zip(*found.values(), strict=True):  # each owner's, but for a penny a sum shared by days
        assert all(abs(a - b) <= text.count("\n") for a, b in zip(one, two, strict=True))


def _profit(sums: dict[str, int]) -> tuple[int, int]:
    """What sums by category come to: the profit, and the finance costs of dwellings."""
    finance = sums.get("finance_residential", 0)
    return sum(p if name in INCOME else -p for name, p in sums.items()) + finance, finance


def pence_of(words: str) -> int:
    return int(re.sub(r"\D", "", words))


def _life(accounts: Accounts, owner: str) -> dict[str, int]:
    """What each category comes to over all the years."""
    found: dict[str, int] = defaultdict(int)
    for year in [TaxYear(start) for start in range(2022, 2034)]:
        for category, pence in totals(traces(accounts, owner, year)).items():
            found[category] += pence
    return found
