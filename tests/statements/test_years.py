"""Years, owners and ways of accounting: what goes in which box of whose pages, and what the notes say."""

from __future__ import annotations

from datetime import date

import pytest

from ledger_tools.book.build import build
from ledger_tools.days import TaxYear
from ledger_tools.problems import Level
from ledger_tools.render.year_end import page
from ledger_tools.statements.accounts import Accounts
from ledger_tools.statements.base_cost import base_cost
from ledger_tools.statements.profit import profit
from ledger_tools.statements.stake import Stakes
from ledger_tools.statements.year_end import OwnerYear, year_end

HOUSE = """
property a "1 A Street"
    bought 1 May 2015 for £100,000
    as bought lettable
    price normal
tenancy t at a
    tenants "T. Enant"
    periodic from 1 Jun 2015
    rent £500 a month, first due 1 Jun 2015
"""


def owners(text: str, year: int) -> dict[str, OwnerYear]:
    book = build({"a.book": text})
    assert [p.headline for p in book.problems if p.level is Level.ERROR] == []
    return {o.owner: o for o in year_end(Accounts(book), TaxYear(year)).owners}


def boxes(owner: OwnerYear) -> dict[str, str]:
    """Box → exact pounds and pence."""
    return {b.number: f"{b.figure.pence / 100:.2f}" for b in owner.boxes}


def typed(owner: OwnerYear) -> dict[str, int]:
    return {b.number: b.pounds for b in owner.boxes}


# ── boxes ────────────────────────────────────────────────────────────────────────────────────────────────────────


def test_rent_given_back_comes_off_the_rents() -> None:
    text = f'landlord x "X"{HOUSE}1 Jul 2025 received rent £1,000.00 from t\n9 Jul 2025 repaid rent £100.00 to t\n'

    assert boxes(owners(text, 2025)["x"])["20"] == "900.00"


def test_income_is_rounded_down_and_costs_up_once_a_box() -> None:
    """SAM121370: £2,567.99 of income is £2,567, £1,485.01 of costs £1,486."""
    text = (
        f'landlord x "X"{HOUSE}1 Jul 2025 received rent £2,567.99 from t\n'
        '2 Jul 2025 paid insurance £1,000.00 to "I"\n3 Jul 2025 paid insurance £485.01 to "I"\n'
    )

    assert typed(owners(text, 2025)["x"]) == {"20": 2567, "24": 1486, "38": 1081, "40": 1081}


@pytest.mark.parametrize(
    "year, in_26, in_44",
    [(2016, "1000.00", None), (2017, "750.00", "250.00"), (2018, "500.00", "500.00"), (2019, "250.00", "750.00"),
     (2020, None, "1000.00"), (2025, None, "1000.00")],
)  # fmt: skip
def test_finance_costs_leave_the_profit_step_by_step(year: int, in_26: str | None, in_44: str | None) -> None:
    """ITTOIA 2005 s. 272A: three quarters deductible in 2017-18, half in 2018-19, a quarter in 2019-20, then none."""
    text = f'landlord x "X"{HOUSE}loan n on a\n1 Jul {year} paid loan interest £1,000.00 to n\n'
    found = boxes(owners(text, year)["x"])

    assert (found.get("26"), found.get("44")) == (in_26, in_44)


def test_a_refund_above_what_was_paid_stands_in_box_20_with_its_lines() -> None:
    text = (
        f'landlord x "X"{HOUSE}1 Jul 2025 received rent £2,000.00 from t\n2 Jul 2025 paid insurance £50.00 to "I"\n'
        '3 Jul 2025 received refund £450.50 from "I" for insurance\n'
    )
    found = {b.number: b for b in owners(text, 2025)["x"].boxes}

    assert "24" not in found and found["20"].pounds == 2_400
    assert [t.pence for t in found["20"].figure.trail] == [2_000_00, -50_00, 450_50]


def test_a_loss_is_carried_through_years_and_used_against_the_first_profit() -> None:
    text = (
        f'landlord x "X"\n    loss £100 brought into 2022-23\n    declines property allowance in 2023-24\n'
        f"    declines property allowance in 2024-25{HOUSE}"
        '1 Jul 2022 repaired tap £300.00 by "P", worn out\n'
        "1 Jul 2023 received rent £150.00 from t\n1 Jul 2024 received rent £1,000.00 from t\n"
    )
    pages = {year: typed(owners(text, year)["x"]) for year in (2022, 2023, 2024)}

    assert (pages[2022]["41"], pages[2022]["43"]) == (300, 400)
    assert (pages[2023]["39"], pages[2023]["40"], pages[2023]["43"]) == (150, 0, 250)
    assert (pages[2024]["39"], pages[2024]["40"]) == (250, 750) and "43" not in pages[2024]


@pytest.mark.parametrize("rent, allowance, profit_", [("567.50", 567, 0), ("1,400.00", 1000, 400)])
def test_the_allowance_takes_the_place_of_costs_and_makes_no_loss(rent: str, allowance: int, profit_: int) -> None:
    """ITTOIA 2005 s. 783BH, 783BI."""
    text = (
        f'landlord x "X"\n    claims property allowance in 2025-26{HOUSE}1 Jul 2025 received rent £{rent} from t\n'
        '2 Jul 2025 paid insurance £300.00 to "I"\nloan n on a\n1 Jul 2025 paid loan interest £100.00 to n\n'
    )
    found = typed(owners(text, 2025)["x"])

    assert (found["20.1"], found["38"]) == (allowance, profit_)
    assert not {"24", "41", "43", "44"} & set(found)
    assert not note(text, 2025, "loan costs count")


def test_before_the_cash_basis_the_pages_are_by_what_was_owed() -> None:
    text = f'landlord x "X"{HOUSE}1 Jul 2016 received rent £500.00 from t\n'

    assert owners(text, 2016)["x"].basis == "accruals"
    assert owners(text.replace("2016", "2017"), 2017)["x"].basis == "cash"


# ── owners ───────────────────────────────────────────────────────────────────────────────────────────────────────

COUPLE = 'landlord x "X"\n    married to y\nlandlord y "Y"\nlandlord z "Z"\n'


def rents(people: str, owned: str, days: tuple[str, ...] = ("1 Jul 2025",)) -> dict[str, str]:
    house = HOUSE.replace("    as bought", f"    {owned}\n    as bought")
    text = people + house + "".join(f"{day} received rent £1,000.00 from t\n" for day in days)
    return {name: boxes(o)["20"] for name, o in owners(text, 2025).items()}


def test_spouses_have_half_each_whatever_they_own() -> None:
    """ITA 2007 s. 836."""
    assert rents(COUPLE, "owners x 90% and y 10%") == {"x": "500.00", "y": "500.00"}


def test_spouses_share_only_their_own_part_with_a_third_owner() -> None:
    assert rents(COUPLE, "owners x 60% and y 20% and z 20%") == {"x": "400.00", "y": "400.00", "z": "200.00"}


def test_form_17_counts_from_its_day_where_it_was_sent_in_time() -> None:
    """ITA 2007 s. 837: notice within 60 days beginning with the declaration, so day 60 is 28 August for 30 June."""
    owned = "owners x 90% and y 10%\n    form 17 signed 30 Jun 2025, sent {}"
    days = ("29 Jun 2025", "30 Jun 2025")

    assert rents(COUPLE, owned.format("28 Aug 2025"), days) == {"x": "1400.00", "y": "600.00"}
    assert rents(COUPLE, owned.format("29 Aug 2025"), days) == {"x": "1000.00", "y": "1000.00"}


def test_a_late_form_17_and_a_split_for_want_of_one_are_told() -> None:
    """ITA 2007 s. 837: day 60 of 1 September is 30 October."""

    def said(owned: str) -> tuple[str, ...]:
        house = HOUSE.replace("    as bought", f"    {owned}\n    as bought")
        return owners(COUPLE + house + "1 Jul 2025 received rent £2,000.00 from t\n", 2025)["x"].notes

    form = "owners x 90% and y 10%\n    form 17 signed 1 Sep 2025, sent {}"
    assert any("had to have it by 30 Oct 2025: it is void" in one for one in said(form.format("31 Oct 2025")))
    assert not any("Form 17" in one for one in said(form.format("30 Oct 2025")))
    assert any("though you own 90%, for no Form 17 is told" in one for one in said("owners x 90% and y 10%"))
    assert not any("Form 17" in one for one in said("owners x 50% and y 50%"))


def test_form_17_ends_where_the_shares_change() -> None:
    owned = "owners x 90% and y 10%\n    owners x 80% and y 20% from 1 Aug 2025"
    owned += "\n    form 17 signed 1 Jun 2025, sent 2 Jun 2025"

    assert rents(COUPLE, owned, ("1 Jul 2025", "1 Aug 2025")) == {"x": "1400.00", "y": "600.00"}


def test_sisters_have_what_they_own_and_change_with_it() -> None:
    owned = "owners x 50% and z 50%\n    owners x 25% and z 75% from 1 Oct 2025"

    assert rents(COUPLE, owned, ("30 Sep 2025", "1 Oct 2025")) == {"x": "750.00", "z": "1250.00"}


def test_box_3_is_ticked_where_any_day_of_the_year_was_joint() -> None:
    house = HOUSE.replace("    as bought", "    owners x 50% and z 50%\n    owners x from 1 Oct 2025\n    as bought")
    found = owners(COUPLE + house + "1 Jul 2025 received rent £1,000.00 from t\n", 2025)

    assert [dict(o.ticks).get("3") for o in found.values()] == ["X", "X"]
    assert [dict(o.ticks)["1"] for o in found.values()] == ["1", "1"]


# ── which way of accounting ──────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(
    "owned, told, way",
    [
        ("owners x 50% and y 50%", "", "accruals"),
        (
            "owners x 50% and y 50%",
            "    accounting cash\n",
            "accruals",
        ),  # the law has the last word, and a note says so
        ("owners x 50% and y 50%\n    form 17 signed 1 Jun 2015, sent 2 Jun 2015", "", "cash"),
        ("owners x 50% and z 50%", "", "cash"),
        ("owners x 50% and y 50% from 6 Apr 2026", "", "cash"),
    ],
)
def test_the_spouse_of_one_who_accounts_by_what_is_owed_must_too(owned: str, told: str, way: str) -> None:
    """ITTOIA 2005 s. 271A, condition C: half and half under ITA 2007 s. 836, and the other one on accruals."""
    people = f'landlord x "X"\n{told}landlord y "Y"\n    married to x\n    accounting accruals\nlandlord z "Z"\n'
    owned = owned if "from" not in owned else f"owners x\n    {owned}"
    text = people + HOUSE.replace("    as bought", f"    {owned}\n    as bought")
    found = owners(text + "1 Jul 2025 received rent £2,000.00 from t\n", 2025)["x"]

    assert found.basis == way
    assert any("condition C" in said for said in found.notes) == (way == "accruals")
    if way == "accruals":
        assert typed(found)["20"] == 3000  # half of twelve months at £500


@pytest.mark.parametrize(("rent", "over"), [("50,000.00", ()), ("50,000.01", ("x", "y"))])
def test_where_a_spouse_is_above_the_limit_of_the_cash_basis_it_is_closed_to_both(rent: str, over: tuple[str]) -> None:
    """S. 271A conditions B and C. Of £200,000 each has £100,000 for tax; X has the rent of another house besides."""
    other = HOUSE.replace("property a", "property b").replace("tenancy t at a", "tenancy u at b")
    text = (
        'landlord x "X"\n    married to y\nlandlord y "Y"\n'
        + HOUSE.replace("    as bought", "    owners x 60% and y 40%\n    as bought")
        + other.replace("    as bought", "    owners x 100%\n    as bought")
        + f"at a\n1 May 2025 received rent £200,000.00 from t\nat b\n1 May 2025 received rent £{rent} from u\n"
    )
    found = owners(text, 2025)

    assert tuple(name for name in "xy" if any("Not to be sent like this" in n for n in found[name].notes)) == over
    assert any("whose receipts are above" in n for n in found["y"].notes) is bool(over)


def test_a_bad_debt_comes_off_for_both_spouses_where_only_one_of_them_chose_to_account_by_what_is_owed() -> None:
    """ITTOIA 2005 s. 271A, condition C, and s. 35 through s. 272. By hand: twelve months at £500, less £300 lost, half
    each: £2,850."""
    people = 'landlord x "X"\nlandlord y "Y"\n    married to x\n    accounting accruals\n'
    text = people + HOUSE.replace("    as bought", "    owners x 50% and y 50%\n    as bought")
    lines = "1 Jul 2025 received rent £5,700.00 from t\n2 Jul 2025 wrote off rent £300.00 from t\n"
    near = pytest.approx(2850, abs=0.011)  # the odd penny of a month goes to one or the other

    for found in (owners(text + lines, 2025), owners(text.replace("    married to x\n", "") + lines, 2025)):
        assert [float(boxes(found[name])["38"]) for name in ("x", "y")] == [near, near]  # not married, x had half


@pytest.mark.parametrize(
    "purpose, way, profit",
    [
        ("rent", "accruals", "6000.00"),  # it pays rent that counted when it fell due
        ("cleaning", "accruals", "6900.00"),
        ("rent", "cash", "6000.00"),
        ("cleaning", "cash", "6000.00"),
    ],
)
def test_what_is_kept_of_a_deposit_for_rent_is_taxed_once(purpose: str, way: str, profit: str) -> None:
    """PIM1052, read; ITTOIA 2005 s. 275 on the rent. By hand: twelve months at £500, of which £5,100 came."""
    house = HOUSE + "    deposit £900, received 1 Jun 2015\n    moved out 5 Apr 2026\n    ended 5 Apr 2026\n"
    text = f'landlord x "X"\n    accounting {way}{house}1 Jul 2025 received rent £5,100.00 from t\n'
    found = owners(text + f"5 Apr 2026 kept deposit £900.00 from t for {purpose}\n", 2025)["x"]

    assert boxes(found)["38"] == profit


@pytest.mark.parametrize(
    "rent, first, said",
    [
        ("50,000.00", "1 Jan 2026", "above £39,041.09"),  # 95 days of 365
        ("39,041.09", "1 Jan 2026", ""),
        ("50,000.00", "1 Jun 2015", ""),
        ("150,000.01", "1 Jun 2015", "above £150,000.00"),
    ],
)
def test_the_limit_of_the_cash_basis_is_smaller_in_the_first_year(rent: str, first: str, said: str) -> None:
    """ITTOIA 2005 s. 271A, condition B: £150,000, in proportion for a part of a year."""
    house = HOUSE.replace("periodic from 1 Jun 2015", f"periodic from {first}").replace(", first due 1 Jun 2015", "")
    text = f'landlord x "X"{house}1 Feb 2026 received rent £{rent} from t\n'

    assert note(text, 2025, "the most for the cash basis") == bool(said)
    assert not said or note(text, 2025, said) and note(text, 2025, "`accounting accruals from 2025-26`")


# ── notes ────────────────────────────────────────────────────────────────────────────────────────────────────────


def note(text: str, year: int, words: str) -> bool:
    return any(words in said for said in owners(text, year)["x"].notes)


def test_unpaid_bills_are_told_by_the_owner_s_share_until_they_are_paid() -> None:
    house = HOUSE.replace("    as bought", "    owners x 50% and z 50%\n    as bought")
    house += "".join(f"1 Jul {year} received rent £9.00 from t\n" for year in (2025, 2026))
    bill = '1 Mar 2026 invoiced £300.00 by "B", number 7\n    repaired tap £300.00, worn out\n'
    paid = '1 May 2026 paid £300.00 to "B" against invoice 7\n'

    assert note(COUPLE + house + bill, 2025, "£150.00 was not paid")
    assert note(COUPLE + house + bill + paid, 2025, "£150.00 was not paid")
    assert not note(COUPLE + house + bill + paid, 2026, "was not paid")


def test_rent_written_off_is_no_bill_and_no_cost() -> None:
    text = f'landlord x "X"{HOUSE}1 Jul 2025 received rent £1,500.00 from t\n2 Jul 2025 wrote off rent £300.00 from t\n'

    assert not note(text, 2025, "was not paid")
    assert boxes(owners(text, 2025)["x"]) == {"20": "1500.00", "38": "1500.00", "40": "1500.00"}
    # By what was owed: twelve months at £500 fell due, whatever came of them, less what was written off.
    assert boxes(owners(text.replace('"X"', '"X"\n    accounting accruals'), 2025)["x"])["38"] == "5700.00"


@pytest.mark.parametrize(
    "lines, year, words",
    [
        ("1 Jul 2025 received rent £150,000.01 from t\n", 2025, "above £150,000.00"),
        ("loan n on a\n1 Jul 2024 paid loan interest £9.00 to n\n1 Jul 2025 received rent £1,001.00 from t\n",
         2025, "Box 45"),
        ("1 Jul 2025 received rent £1.00 from t\n8 Apr 2026 banked £1.00 from \"A\"\n    received rent £1.00 from t\n",
         2025, "8 Apr 2026"),
        ('1 Jul 2025 received refund £9.00 from "I" for insurance\n', 2025, "below nil"),
    ],
)  # fmt: skip
def test_notes_speak_where_there_is_something_to_say(lines: str, year: int, words: str) -> None:
    assert note(f'landlord x "X"{HOUSE}{lines}', year, words)
    assert not note(f'landlord x "X"{HOUSE}1 Jul 2025 received rent £1.00 from t\n', year, words)


def test_a_year_without_any_let_and_a_change_of_accounting_are_told() -> None:
    ended = HOUSE + "    ended 31 May 2020\n"
    assert note(f'landlord x "X"{ended}1 Jul 2025 repaired tap £9.00 by "P", worn out\n', 2025, "None of the houses")
    changed = f'landlord x "X"\n    accounting accruals from 2025-26{HOUSE}'
    lines = "1 Jul 2024 received rent £9.00 from t\n1 Jul 2025 received rent £9.00 from t\n"
    assert note(changed + lines, 2025, "way of accounting changed")
    assert not note(changed + lines, 2024, "way of accounting changed")


def test_rent_without_a_tenancy_written_down_makes_a_let() -> None:
    """Boxes 1 and 3 of the pages; and nothing is said of letting that stopped."""
    house = '\nproperty a "1 A Street"\n    bought 1 May 2015 for £100,000\n    owners x 50% and z 50%\n'
    lines = '1 Jul 2025 received rent £900.00 from "T"\n1 Jul 2026 repaired tap £9.00 by "P", worn out\n'
    found = owners(COUPLE + house + lines, 2025)["x"]

    assert dict(found.ticks) == {"1": "1", "3": "X"}
    assert not any("None of the houses" in said for said in found.notes)
    assert dict(owners(COUPLE + house + lines, 2026)["x"].ticks)["1"] == "0"
    assert note(COUPLE + house + lines, 2026, "None of the houses")


def test_a_loss_of_old_is_asked_of_those_who_let_then() -> None:
    later = """property b "2 B Street"
    owners z
tenancy u at b
    tenants "U. Sher"
    periodic from 1 Jun 2021
at a
1 Jul 2015 received rent £500.00 from t
1 Jul 2025 received rent £2,000.00 from t
at b
2 Jul 2025 received rent £2,000.00 from u
"""
    text = 'landlord x "X"\nlandlord z "Z"\n' + HOUSE.replace("    as bought", "    owners x\n    as bought") + later
    found = owners(text, 2025)

    assert [any("began before 2016-17" in said for said in found[name].notes) for name in "xz"] == [True, False]


# ── profit ───────────────────────────────────────────────────────────────────────────────────────────────────────


def test_days_let_are_counted_within_the_days_held() -> None:
    text = f'landlord x "X"{HOUSE}    ended 30 Jun 2025\n1 Jul 2025 received rent £500.00 from t\n'
    statement = profit(Accounts(build({"a": text})), "a", TaxYear(2025))

    assert (statement.days_held, statement.days_let) == (365, 86)  # 6 April to 30 June


def test_an_old_one_sold_leaves_no_gap_in_money() -> None:
    text = (
        f'landlord x "X"{HOUSE}1 Jul 2025 replaced washing machine with washer dryer £350.00 from "V", used by tenant\n'
        '    plus delivery £100.00\n    same again £220.00\n    old one sold £30.00 to "N"\n'
    )
    worked = Accounts(build({"a": text}))
    money = sum(r.pence if r.way == "in" else -r.pence for r in worked.rows if r.paid and r.verdict >= -1 and r.thing
                not in ("purchase price",))  # fmt: skip

    assert money == -42_000
    assert sum(worked.balance.values()) == 0
    assert boxes(owners(text, 2025)["x"])["36"] == "290.00"


# ── the property income allowance, where it may do better ────────────────────────────────────────────────────────


def allowance_note(more: str, rent: str = "5,000.00", year: int = 2025, head: str = "") -> str:
    text = f'landlord x "X"{head}{HOUSE}1 Jul {year} received rent £{rent} from t\n{more}'
    return next((n for n in owners(text, year)["x"].notes if "claims property allowance in" in n), "")


SMALL = """1 Jun 2017 received rent £{}.00 from t
1 Jul 2017 repaired gutters £5,000.00 by "B", worn out
1 Jun 2018 received rent £8,000.00 from t
1 Jul 2018 repaired gutters £4,000.00 by "B", worn out
"""


def test_tc_64_small_receipts_are_free_by_themselves_and_make_no_loss() -> None:
    """PIM4482 ("Xavier"), read: £1,000 and £5,000 of costs, then £8,000 and £4,000; nothing chosen."""
    text = f'landlord x "X"{HOUSE}{SMALL.format("1,000")}'

    assert typed(owners(text, 2017)["x"]) == {"20": 1000, "20.1": 1000, "38": 0, "40": 0}
    assert typed(owners(text, 2018)["x"]) == {"20": 8000, "25": 4000, "38": 4000, "40": 4000}
    assert note(text, 2017, "by 31 Jan 2020 and add `declines property allowance in 2017-18`")
    above = text.replace("£1,000.00 from t", "£1,000.01 from t")
    assert typed(owners(above, 2017)["x"])["41"] == 4000


def test_tc_64_whoever_declines_the_allowance_has_the_loss() -> None:
    """The same with the election of s. 783BJ: the loss of £4,000 takes up the next profit."""
    text = f'landlord x "X"\n    declines property allowance in 2017-18{HOUSE}{SMALL.format("1,000")}'

    assert typed(owners(text, 2017)["x"]) == {"20": 1000, "25": 5000, "41": 4000, "43": 4000}
    assert typed(owners(text, 2018)["x"]) == {"20": 8000, "25": 4000, "38": 4000, "39": 4000, "40": 0}
    assert note(text, 2017, "must reach the tax office by 31 Jan 2020")


def test_costs_without_any_receipts_make_a_loss() -> None:
    text = f'landlord x "X"{HOUSE}1 Jul 2025 repaired tap £50.00 by "P", worn out\n'

    assert typed(owners(text, 2025)["x"])["41"] == 50


def test_small_receipts_add_no_tax_and_the_estimate_says_where_real_costs_do_better() -> None:
    """£900 of rent against £100 of costs: no tax; with the real costs £800 would be taxed at 20%."""
    people = 'landlord x "X"\n    other income £30,000 in 2025-26'
    text = f'{people}{HOUSE}1 Jul 2025 received rent £900.00 from t\n2 Jul 2025 paid insurance £100.00 to "I"\n'
    found = owners(text, 2025)["x"].in_tax

    assert found.estimate and found.estimate.added == 0
    assert not any("would be" in said for said in found.notes)
    declined = owners(text.replace(" in 2025-26", " in 2025-26\n    declines property allowance in 2025-26"), 2025)[
        "x"
    ].in_tax
    assert declined.estimate and declined.estimate.added == 160_00
    assert any("were not declined the tax would be £160.00 less" in said for said in declined.notes)


def test_expenses_below_the_allowance_are_held_against_it() -> None:
    """ITTOIA 2005 s. 783BG-783BI; nothing is taken by itself, and nothing is said before 2017-18."""
    cost = '2 Jul {} paid insurance £{} to "I"\n'
    assert "profit would be £0.01 smaller" in allowance_note(cost.format(2025, "999.99"))
    assert allowance_note(cost.format(2025, "1,000.00")) == ""
    assert allowance_note(cost.format(2016, "900.00"), year=2016) == ""
    assert "smaller" in allowance_note(cost.format(2017, "900.00"), year=2017)
    assert allowance_note("", head="\n    claims property allowance in 2025-26") == ""


def test_the_reduction_that_the_allowance_would_cost_is_named() -> None:
    """ITTOIA 2005 s. 783BL."""
    loan = (
        "loan n on a\n1 Jun 2015 borrowed £9,000.00 from n for purchase\n1 Jul 2025 paid loan interest £100.00 to n\n"
    )
    assert "the reduction of 20% of £100.00 would be gone" in allowance_note(loan)


def test_totals_name_the_boxes_that_make_them() -> None:
    text = (
        f'landlord x "X"\n    loss £100 brought into 2024-25{HOUSE}'
        '1 Jul 2024 received rent £1,100.00 from t\n2 Jul 2024 paid insurance £300.00 to "I"\n'
        '2 Jul 2025 paid insurance £1,300.00 to "I"\n3 Jul 2025 received rent £1,100.00 from t\n'
    )
    for year, wanted in ((2024, {"38", "40"}), (2025, {"41"})):
        rows = {box.number: box for box in owners(text, year)["x"].boxes}
        assert {number for number, box in rows.items() if box.adds} == wanted
        for number in wanted:
            assert rows[number].pounds == sum(sign * rows[n].pounds for n, sign in rows[number].adds)
            assert rows[number].figure.pence == sum(sign * rows[n].figure.pence for n, sign in rows[number].adds)


def test_less_rent_came_in_than_fell_due() -> None:
    """Twelve times £500 fall due from 1 May 2025 to 1 April 2026; two months came in."""

    def said(text: str, on: date | None = None) -> list[str]:
        book = build({"a.book": text})
        return [n for o in year_end(Accounts(book), TaxYear(2025), on).owners for n in o.notes if "fell due" in n]

    came = "1 May 2025 received rent £500.00 from t\n1 Jun 2025 received rent £500.00 from t\n"
    text = f'landlord x "X"{HOUSE}{came}'
    assert said(text)[0].startswith("In 2025-26 less rent came in than fell due: £1,000.00 of £6,000.00 at a.")
    assert said(text, date(2025, 6, 30)) == [], "what falls due later is not due yet"
    owed = text.replace('"X"', '"X"\n    accounting accruals from 2025-26')
    assert said(owed) == [], "there it counts as it falls due"
    shared = text.replace("price normal", "price normal\n    owners x 50% and y 50%")
    assert all("at a (for all its owners)" in note for note in said(f'landlord y "Y"\n{shared}'))
    assert len(said(f'landlord y "Y"\n{shared}')) == 2


def test_a_house_of_which_no_let_is_told() -> None:
    """Its half of a shared insurance comes off, so the page asks once; what answers the question silences it."""

    def asked(house: str = "", more: str = "") -> list[str]:
        lines = '3 Jul 2025 paid landlord insurance £612.00 to "I" across a and b, split equally\n'
        text = f'landlord x "X"{HOUSE}property b "2 B Street"\n    bought 1 May 2015 for £90,000\n{house}{more}at a\n'
        return [note for note in owners(text + lines, 2025)["x"].notes if "tells no let" in note]

    found = asked()
    assert len(found) == 1 and found[0].startswith("£306.00 of costs of b stand in the boxes")
    assert asked("    marketed to let from 1 Mar 2025\n") == []
    assert asked(more='tenancy u at b\n    tenants "U"\n    periodic from 1 Jun 2026\n') == []
    apart = 'at b\n3 Jul 2025 paid water £90.00 to "W", treat as private because "nobody rents it"\n'
    assert asked(more=apart) == found, "what is private is in no box"
    assert asked("    own home from 1 Mar 2025\n") == found, "that is no wish to let it"


# ── the end of a letting ─────────────────────────────────────────────────────────────────────────────────────────

GONE = HOUSE.replace("    as bought lettable\n", "    as bought lettable\n    sold 9 Dec 2025 for £150,000\n")
LAST = "1 Jul 2025 received rent £500.00 from t\n2 Jul 2025 repaired roof £900.00, worn out\n"
REAL = 'landlord x "X"\n    declines property allowance in 2025-26\n'


def test_box_2_is_ticked_in_the_year_the_last_house_goes_and_what_is_left_is_told() -> None:
    found = owners(REAL + GONE + LAST, 2025)["x"]

    assert dict(found.ticks)["2"] == "X"
    assert "last house went on 9 Dec 2025" in " ".join(found.notes)
    assert "the loss of £400.00 can be set against nothing" in " ".join(found.notes)
    assert "2" not in dict(owners(REAL + GONE + LAST + "1 Jul 2024 received rent £500.00 from t\n", 2024)["x"].ticks)


@pytest.mark.parametrize(
    "more", ["", 'property b "2 B Street"\n    bought 1 May 2015 for £1\n    as bought lettable\n    price normal\n']
)
def test_box_2_stays_empty_while_a_house_is_left(more: str) -> None:
    text = (
        REAL
        + (GONE if more else HOUSE)
        + more
        + LAST.replace("received rent", "received rent").replace("roof", "roof at a")
    )
    found = owners(text.replace("£500.00 from t", "£500.00 at a from t"), 2025)["x"]

    assert "2" not in dict(found.ticks)
    assert "last house" not in " ".join(found.notes)


def test_a_share_given_up_is_a_house_gone() -> None:
    two = (
        'landlord y "Y"\n'
        + REAL
        + HOUSE.replace(
            "    price normal\n", "    price normal\n    owners x 50% and y 50%\n    owners y 100% from 1 Jan 2026\n"
        )
    )
    found = owners(two + LAST, 2025)

    assert (dict(found["x"].ticks).get("2"), dict(found["y"].ticks).get("2")) == ("X", None)


def test_the_limit_of_the_cash_basis_is_cut_to_the_days_of_letting() -> None:
    """From 6 April to 9 December are 248 days: £150,000 × 248/365 is £101,917.80 (ITTOIA 2005 s. 271A)."""
    lines = "1 Jul 2025 received rent £{} from t\n"
    said = [
        " ".join(owners(REAL + GONE + lines.format(sum_), 2025)["x"].notes) for sum_ in ("101,917.81", "101,917.80")
    ]

    assert "above £101,917.80, the most for the cash basis for the 248 days" in said[0]
    assert "Not to be sent" not in said[1]


def test_a_book_without_a_landlord_has_nobody_whose_pages_they_are() -> None:
    lines = 'property a "A"\n    bought 1 Jun 2020 for £90,000\nat a\n1 Jun 2025 received rent £600.00\n'
    made = year_end(Accounts(build({"a.book": lines})), TaxYear(2025))
    named = year_end(Accounts(build({"a.book": 'landlord x "X"\n' + lines})), TaxYear(2025))

    assert made.owners == () and made.no_landlord and not named.no_landlord
    assert 'add `landlord NAME "Full Name"`' in page(made).sections[0].title


@pytest.mark.parametrize("words", ["received insurance", "received compensation"])
def test_what_is_paid_for_damage_is_a_receipt_beside_the_whole_repair(words: str) -> None:
    """ITTOIA 2005 s. 106. By hand: £960 of rent and £1,500 recovered are £2,460, above the allowance of £1,000 (s.
    783BD), so £1,700 of repair counts and £760 is left; by the rent alone nothing would have been taxed."""
    lines = "1 May 2025 received rent £960.00 from t\n"
    lines += '1 May 2025 repaired roof tiles £1,700.00 by "B", storm damage\n'
    lines += f'2 May 2025 {words} £1,500.00 from "Fen Mutual" for roof tiles\n'
    found = boxes(owners(f'landlord x "X"{HOUSE}at a\n{lines}', 2025)["x"])

    assert found == {"20": "2460.00", "25": "1700.00", "38": "760.00", "40": "760.00"}


def test_an_open_sum_recovered_is_priced_as_it_counts_once_it_is_settled() -> None:
    """By hand: £900 of rent alone is below the allowance and free. With £600 recovered £1,500 came in, so the repair of
    £800 counts and £700 is taxed at 20%: £140. If the worktop was better both sums are capital, and nothing is."""
    head = f'landlord x "X"\n    other income £30,000 in 2025-26{HOUSE}at a\n1 May 2025 received rent £900.00 from t\n'
    lines = "2 May 2025 replaced worktop £800.00{}\n3 Aug 2025 received insurance £600.00 for worktop\n"

    def tax(words: str) -> int:
        made = owners(head + lines.format(words), 2025)["x"].in_tax.estimate
        return made.tax if made else -1

    money = owners(head + lines.format(""), 2025)["x"].open[1]
    assert money.worth and money.worth.tax == tax(", like for like") - tax(", better") == 140_00
    (stake,) = Stakes(Accounts(build({"a.book": head + lines.format("")}))).of([money.trace.verdict])
    assert stake.tax == 140_00


def test_the_limits_by_receipts_see_what_was_recovered_for_damage() -> None:
    """S. 271A condition B: £149,000 and £1,500 are above £150,000. SI 2026/336: £49,000 and £1,500 in 2024-25 are above
    £50,000."""
    tiles = '1 May {0} repaired roof tiles £1,700.00 by "B", storm damage\n'
    tiles += '2 May {0} received insurance £1,500.00 from "Fen Mutual" for roof tiles\n'
    house = f'landlord x "X"{HOUSE}at a\n'

    def said(year: int, rent: str, more: str, words: str) -> bool:
        return note(f"{house}1 May {year} received rent £{rent} from t\n{more.format(year)}", year, words)

    assert said(2025, "149,000.00", tiles, "receipts of £150,500.00 are above £150,000.00")
    assert not said(2025, "149,000.00", "", "the most for the cash basis")
    assert said(2024, "49,000.00", tiles, "Receipts of £50,500.00 in 2024-25 are above £50,000.00")
    assert not said(2024, "49,000.00", "", "keep digital records")


def test_half_and_half_is_told_in_the_years_a_house_is_held_and_from_when_a_form_17_changed_it() -> None:
    """ITA 2007 ss. 836, 837: half each until the day of the declaration, which reached the tax office in time."""
    people = 'landlord x "X"\n    married to y\nlandlord y "Y"\n'
    held = HOUSE.replace("    as bought", "    owners x 60% and y 40%\n{}    as bought")
    later = 'property b "2 B Street"\n    bought 1 May 2026 for £90,000\n    owners x 70% and y 30%\n'
    half = "half and half between spouses, though you own 60%"
    sold = people + held.format("    sold 30 Jan 2026 for £350,000\n") + later + "at a\n"
    lines = "1 Jul 2024 received rent £6,000.00 from t\n1 Jul 2025 received rent £6,000.00 from t\n"

    assert note(sold + lines, 2025, half)  # sold in the year
    assert not note(sold + lines, 2025, "you own 70%")  # not bought yet
    signed = people + held.format("    form 17 signed 1 Aug 2025, sent 2 Aug 2025\n") + lines
    assert note(signed, 2024, f"{half}, for no Form 17 is in force")
    assert note(signed, 2025, "60% from 1 Aug 2025 and was 50% before")
    assert not note(signed, 2025, half)


def test_what_declining_an_allowance_that_holds_by_itself_would_bring_is_told() -> None:
    """S. 783BF: £960 of rent is free; by the real costs £960 less £1,700 is a loss of £740; £50 of interest waits."""
    lines = '1 May 2025 received rent £960.00 from t\n1 May 2025 repaired roof tiles £1,700.00 by "B", storm damage\n'
    lines += "2 May 2025 paid loan interest £50.00\n"

    told = "would bring a loss of £740.00 to carry forward and finance costs of £50.00"
    assert note(f'landlord x "X"{HOUSE}at a\n{lines}', 2025, told)
    gained = '1 May 2025 received rent £960.00 from t\n1 May 2025 repaired roof tiles £700.00 by "B", storm damage\n'
    assert note(f'landlord x "X"{HOUSE}at a\n{gained}', 2025, "the profit would be £260.00")


def test_a_change_of_basis_with_nothing_to_adjust_says_so() -> None:
    head = f'landlord x "X"\n    accounting cash\n    accounting accruals from 2025-26{HOUSE}'
    nothing = "1 May 2025 received rent £500.00 from t\n"
    owing = '1 Mar 2025 invoiced £400.00 by "B", number 7\n    repaired gutters £400.00, worn out\n'
    owing += '1 May 2025 paid £400.00 to "B" against invoice 7\n'

    assert note(head + nothing, 2025, "so nothing is adjusted for")
    assert note(head + nothing + owing, 2025, "is adjusted for, as far as")
    assert not note(head + nothing + owing, 2025, "so nothing is adjusted for")


def test_rounding_is_told_wherever_a_box_was_rounded() -> None:
    """SAM121370: £70.50 of interest is typed as £71, though no profit was rounded."""
    rent = "1 May 2025 received rent £5,000.00 from t\n"
    assert note(f'landlord x "X"{HOUSE}at a\n{rent}2 May 2025 paid loan interest £70.50\n', 2025, "rounded once")
    assert not note(f'landlord x "X"{HOUSE}at a\n{rent}2 May 2025 paid loan interest £70.00\n', 2025, "rounded once")


# ── capital ──────────────────────────────────────────────────────────────────────────────────────────────────────


def test_what_is_capital_goes_by_who_owns_the_house_though_spouses_share_its_rent_half_and_half() -> None:
    """ITA 2007 s. 836 is about income. By hand: 60% and 40% of £350,000, of £4,200 to sell it and of a £15,000
    extension; half and half of £6,000 of rent. The gain is reported by the 60th day after 30 January: 31 March (FA 2019
    Sch. 2)."""
    people = 'landlord x "X"\n    married to y\nlandlord y "Y"\n'
    held = "    owners x 60% and y 40%\n    exchanged 10 Dec 2025\n    sold 30 Jan 2026 for £350,000\n    as bought"
    lines = (
        "1 May 2025 received rent £6,000.00 from t\n"
        '2 May 2025 extended kitchen £15,000.00 by "B", chosen\n'
        '30 Jan 2026 paid estate agent £4,200.00 to "Agents"\n'
    )
    book = build({"a.book": people + HOUSE.replace("    as bought", held) + lines})
    assert [p.headline for p in book.problems if p.level is Level.ERROR] == []
    found = year_end(Accounts(book), TaxYear(2025))

    left = [{i.trace.words: (i.trace.pence, i.of_sale) for i in o.left_out} for o in found.owners]
    assert [boxes(o)["20"] for o in found.owners] == ["3000.00", "3000.00"]
    assert left == [
        {
            "extended kitchen, B": (kitchen, False),
            "paid estate agent, Agents": (agent, True),
            "sold sale price": (price, True),
        }
        for kitchen, agent, price in ((9_000_00, 2_520_00, 210_000_00), (6_000_00, 1_680_00, 140_000_00))
    ]
    whys = {i.trace.words: i.why for i in found.owners[0].left_out}
    assert "`base-cost`" in whys["sold sale price"]
    reported = [day for due in found.due if due.what == "report_gain" for day in due.days]
    assert reported == [date(2026, 3, 31)]
    assert [due.days[0] for due in found.due if due.days] == sorted(due.days[0] for due in found.due if due.days)
    assert "Costs of selling" in {line.label for line in profit(Accounts(book), "a", TaxYear(2025)).below}


def test_furniture_bought_with_the_house_is_not_said_to_count_when_it_is_sold() -> None:
    """Tax-free or not, furniture is no part of the gain on a house."""
    bought = "    bought 1 May 2025 for £100,000, of which chattels £2,000.00"
    house = HOUSE.replace("    bought 1 May 2015 for £100,000", bought).replace("1 Jun 2015", "1 Jun 2025")
    found = owners(f'landlord x "X"{house}1 Jul 2025 received rent £500.00 from t\n', 2025)["x"]
    whys = {i.trace.words: i.why for i in found.left_out}

    assert "when it is sold" in whys["bought purchase price"]
    assert "no part in the gain" in whys["bought chattels"]


def test_a_lease_granted_for_a_premium_lets_the_house_and_its_capital_part_is_a_part_disposal() -> None:
    """ITTOIA 2005 ss. 276-277: of £10,000 for 25 years (50 - 24)/50 is income, £5,200; £4,800 is capital."""
    other = 'property b "2 B Street"\n    bought 1 May 2015 for £90,000\n    as bought lettable\n    price normal\n'
    lines = "1 Jun 2025 received rent £500.00 from t\n"
    lines += f'{other}at b\n5 Jun 2025 received lease premium £10,000.00 from "G" for 5 Jun 2025 to 4 Jun 2050\n'
    text = f'landlord x "X"{HOUSE}at a\n{lines}'
    found = owners(text, 2025)["x"]

    assert boxes(found)["22"] == "5200.00"
    assert dict(found.ticks)["1"] == "2"
    assert dict(owners(text + "1 May 2026 received rent £500.00 from t at a\n", 2026)["x"].ticks)["1"] == "2"
    (left,) = [i for i in found.left_out if "premium" in i.trace.words]
    assert left.trace.pence == 4_800_00 and "part disposal" in left.why
    record = base_cost(build({"a.book": text}), "b", date(2026, 4, 5))
    assert any("£4,800.00 is a capital sum" in said and "part disposal" in said for said in record.notes)
