"""The figures of law: that every data file is sound, and that single values agree with their sources."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterator
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from ledger_tools import law
from ledger_tools.days import Period, TaxYear
from ledger_tools.law import load

Entry = dict[str, Any]

UNITS = {
    "GBP", "GBP a year", "GBP a mile", "miles a year", "share", "share on top", "years", "months", "weeks", "days",
    "points", "bands", "day of the year", "parts", "energy band", "people",
}  # fmt: skip
STATUSES = {"law", "announced", "draft", "practice"}
NATIONS = {"England", "Wales", "Scotland", "Northern Ireland"}
VALUE_KEYS = {
    "from", "amount", "bands", "parts", "month_day", "years_after", "standard", "calendar", "source", "at", "read",
    "status", "note", "why_not_6_april", "contract_before", "choice",
}  # fmt: skip
SOURCE_KINDS = {"act", "regulations", "manual", "page", "form", "secondary"}
# The day the sources were gone through; nothing can have been read later than the files say today.
READ_ON = date(2026, 11, 25)

VALUES = [(topic, entry) for topic in load.topics() for entry in load.table(topic)["value"]]
VALUE_IDS = [f"{topic}-{entry['from']}" for topic, entry in VALUES]
PAGES = load.table("property_pages")

every_topic = pytest.mark.parametrize("topic", load.topics())
every_value = pytest.mark.parametrize(("topic", "entry"), VALUES, ids=VALUE_IDS)


def ask(topic: str, on: date | TaxYear) -> law.Dated:
    """Whatever a topic holds, asked through the public door."""
    entry = load.table(topic)["value"][0]
    if "amount" in entry:
        return law.figure(topic, on)
    if "bands" in entry:
        return law.schedule(topic, on)
    if "parts" in entry:
        return law.parts(topic, on)
    return law.due(topic, on if isinstance(on, TaxYear) else TaxYear.of(on))


def starts_before_its_source(entry: Entry, source: Entry) -> bool:
    """An Act may reach back to the start of the tax year it was made in, no further."""
    return "made" in source and entry["from"] < TaxYear.of(source["made"]).period.first


# ---- every data file is sound


def test_nothing_got_lost() -> None:
    """The counts change only when somebody adds or takes away a figure, and then here too."""
    assert len(load.topics()) == 183
    assert len(VALUES) == 275


@every_topic
def test_head_of_file(topic: str) -> None:
    held = load.table(topic)
    assert set(held) == {"about", "unit", "applies", "where", "value", "known"}
    assert held["unit"] in UNITS
    assert held["about"].endswith(".")
    assert held["where"] and set(held["where"]) <= NATIONS
    assert set(held["known"]) == {"until"}
    assert held["known"]["until"] > held["value"][-1]["from"]


@every_topic
def test_values_ascend_and_differ(topic: str) -> None:
    entries = load.table(topic)["value"]
    starts = [entry["from"] for entry in entries]
    assert starts == sorted(set(starts))
    told = ("amount", "bands", "month_day", "years_after", "source")  # the same sum on other authority is another entry
    what = [[entry.get(key) for key in told] for entry in entries]
    assert all(one != other for one, other in zip(what, what[1:], strict=False))


@every_value
def test_value_is_whole(topic: str, entry: Entry) -> None:
    assert set(entry) <= VALUE_KEYS
    assert sum(key in entry for key in ("amount", "bands", "parts", "month_day")) == 1
    assert entry["status"] in STATUSES
    assert entry["at"]
    assert entry.get("read", READ_ON) <= READ_ON


@every_value
def test_amounts_are_decimal_text(topic: str, entry: Entry) -> None:
    """Amounts are text, never floats; shares lie from nil to one."""
    rows = entry.get("bands", [entry])
    texts = [row[key] for row in rows for key in ("amount", "rate", "to") if key in row]
    assert all(isinstance(text, str) and Decimal(text) >= 0 for text in texts)
    if load.table(topic)["unit"] in ("share", "bands"):
        shares = [Decimal(row[key]) for row in rows for key in ("amount", "rate") if key in row]
        assert shares and all(0 <= share <= 1 for share in shares)


@every_value
def test_bands_rise(topic: str, entry: Entry) -> None:
    bands = entry.get("bands")
    if bands is None:
        assert "bands" not in load.table(topic)["unit"]
        return
    ends = [Decimal(row["to"]) for row in bands[:-1]]
    rates = [Decimal(row["rate"]) for row in bands]
    assert "to" not in bands[-1]
    assert ends == sorted(set(ends)) and rates == sorted(set(rates))
    assert len({row["name"] for row in bands}) == len(bands)


@every_value
def test_source_is_listed(topic: str, entry: Entry) -> None:
    assert entry["source"] in load.table("sources")


@every_value
def test_starts_on_6_april_or_says_why(topic: str, entry: Entry) -> None:
    assert (entry["from"].month, entry["from"].day) == (4, 6) or entry["why_not_6_april"]


@every_value
def test_starts_not_before_its_source(topic: str, entry: Entry) -> None:
    assert not starts_before_its_source(entry, load.source(entry["source"]))


def test_a_start_before_its_source_would_be_seen() -> None:
    act = {"made": date(2017, 11, 16)}
    assert starts_before_its_source({"from": date(2005, 4, 6)}, act)
    assert starts_before_its_source({"from": date(2017, 4, 5)}, act)
    assert not starts_before_its_source({"from": date(2017, 4, 6)}, act)


@every_value
def test_second_hand_values_do_not_claim_to_be_read(topic: str, entry: Entry) -> None:
    assert not (load.source(entry["source"])["kind"] == "secondary" and "read" in entry)


def test_sources_are_whole_and_used() -> None:
    held = load.table("sources")
    used = {entry["source"] for _, entry in VALUES}
    used |= {entry["source"] for entry in PAGES["box"]}
    used |= {PAGES["holiday"]["source"], PAGES["digital"]["source"], PAGES["form"]["rounding_source"]}
    assert set(held) == used
    for entry in held.values():
        assert set(entry) <= {"title", "kind", "made", "url", "copy"}
        assert entry["kind"] in SOURCE_KINDS
        assert ("made" in entry) == (entry["kind"] in ("act", "regulations"))


# ---- what the room answers, and when it will not


@every_topic
def test_nothing_before_the_first_value(topic: str) -> None:
    first = law.began(topic)
    assert ask(topic, first).since == first
    with pytest.raises(law.NoFigure, match=r"before .*; you asked about"):
        ask(topic, first - timedelta(days=1))


@every_topic
def test_beyond_known_until_is_answered_and_flagged(topic: str) -> None:
    until = load.table(topic)["known"]["until"]
    inside, beyond = ask(topic, until), ask(topic, until + timedelta(days=1))
    assert inside.checked == (inside.citation.read is not None)
    assert not beyond.checked
    assert beyond.caution
    assert beyond.since == inside.since
    assert beyond.known_until == until


@every_value
def test_unread_values_are_flagged(topic: str, entry: Entry) -> None:
    answer = ask(topic, entry["from"])
    assert answer.checked == ("read" in entry)
    assert answer.caution == ("" if "read" in entry else "not read at its source")


def test_the_caution_names_the_last_day() -> None:
    late = law.figure("mileage.car_first", date(2031, 7, 1))
    assert late.value == Decimal("0.55")
    assert late.caution == "not checked beyond 5 Apr 2027"


def test_checked_up_to_is_the_earliest_end() -> None:
    assert law.checked_up_to() == date(2027, 4, 5)


def test_unknown_topics_and_wrong_doors() -> None:
    with pytest.raises(KeyError):
        law.figure("mileage.bicycle", date(2025, 5, 1))
    with pytest.raises(KeyError):
        law.figure("../figures", date(2025, 5, 1))
    with pytest.raises(TypeError):
        law.figure("income_tax.bands", date(2025, 5, 1))
    with pytest.raises(TypeError):
        law.schedule("mileage.car_first", date(2025, 5, 1))
    with pytest.raises(ValueError, match="not a sum in whole pence"):
        _ = law.figure("mileage.first_band", TaxYear(2025)).pence
    with pytest.raises(ValueError, match="not a sum in whole pence"):
        _ = law.figure("finance.share_deductible", TaxYear(2018)).pence
    with pytest.raises(ValueError, match="not a whole number"):
        _ = law.figure("mileage.car_first", TaxYear(2025)).whole


@pytest.fixture
def made_up_room(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """A room with one invented topic that changes in mid-year and whose second value is only announced."""
    (tmp_path / "toll").mkdir()
    (tmp_path / "sources.toml").write_text('[act]\ntitle = "Toll Act 2001"\nkind = "act"\n')
    head = 'about = "A toll."\nunit = "GBP"\napplies = "day"\nwhere = ["Wales"]\n'
    cited = 'source = "act"\nat = "s. 1"\nread = 2026-11-25\n'
    value = '[[value]]\nfrom = {}\namount = "{}"\nstatus = "{}"\n' + cited
    one, two = value.format("2010-04-06", "1.00", "law"), value.format("2012-10-01", "2.50", "announced")
    (tmp_path / "toll" / "bridge.toml").write_text(head + one + two + "[known]\nuntil = 2014-04-05\n")
    load.table.cache_clear()
    monkeypatch.setattr(load, "FOLDER", tmp_path)
    yield tmp_path
    load.table.cache_clear()


def test_a_change_within_the_year_must_be_asked_by_day(made_up_room: Path) -> None:
    assert law.figure("toll.bridge", TaxYear(2011)).pence == 100
    assert law.figure("toll.bridge", date(2012, 9, 30)).pence == 100
    assert law.figure("toll.bridge", date(2012, 10, 1)).pence == 250
    with pytest.raises(ValueError, match="changed within 2012-13"):
        law.figure("toll.bridge", TaxYear(2012))


def test_announced_is_said(made_up_room: Path) -> None:
    announced = law.figure("toll.bridge", TaxYear(2013))
    assert (announced.status, announced.caution) == ("announced", "announced, not yet law")


# ---- single values against their sources


@pytest.mark.parametrize(
    ("year", "share"),
    # GOV.UK "Tax relief for residential landlords: how it's worked out"; ITTOIA 2005 s. 272A
    [(2016, "1"), (2017, "0.75"), (2018, "0.5"), (2019, "0.25"), (2020, "0"), (2026, "0")],
)
def test_finance_costs_still_deductible(year: int, share: str) -> None:
    assert law.figure("finance.share_deductible", TaxYear(year)).value == Decimal(share)


def test_finance_cost_reduction() -> None:
    """20% up to 2026-27 (ITTOIA 2005 s. 274AA), 22% after (Finance Act 2026 Sch. 1 para. 40)."""
    assert law.figure("finance.reduction_rate", date(2027, 4, 5)).value == Decimal("0.20")
    later = law.figure("finance.reduction_rate", date(2027, 4, 6))
    assert (later.value, later.checked) == (Decimal("0.22"), True)
    assert str(later.citation) == "Finance Act 2026, Sch. 1 para. 40"
    with pytest.raises(law.NoFigure):
        law.figure("finance.reduction_rate", TaxYear(2016))


def test_allowance_and_limits() -> None:
    """ITTOIA 2005 ss. 783BD-783BI, 271A; HMRC's software makers' guide of 9 June 2026 for £90,000."""
    assert law.figure("property.income_allowance", TaxYear(2017)).pence == 1_000_00
    assert law.figure("property.cash_basis_limit", TaxYear(2025)).pence == 150_000_00
    assert law.figure("property.consolidated_limit", TaxYear(2023)).pence == 85_000_00
    assert law.figure("property.consolidated_limit", TaxYear(2024)).pence == 90_000_00
    for topic in ("property.income_allowance", "property.cash_basis_limit"):
        with pytest.raises(law.NoFigure):
            law.figure(topic, TaxYear(2016))


def test_mileage() -> None:
    """ITTOIA 2005 s. 94F; 55p from 2026-27 by BIM75005 (21 May 2026). 100 miles came to £45.00 before."""
    car = {year: law.figure("mileage.car_first", TaxYear(year)).value for year in (2017, 2025, 2026)}
    assert car == {2017: Decimal("0.45"), 2025: Decimal("0.45"), 2026: Decimal("0.55")}
    assert 100 * car[2025] == Decimal("45.00")
    assert law.figure("mileage.car_after", TaxYear(2026)).value == Decimal("0.25")
    assert law.figure("mileage.motorcycle", TaxYear(2026)).value == Decimal("0.24")
    assert law.figure("mileage.first_band", TaxYear(2026)).whole == 10_000
    with pytest.raises(law.NoFigure):
        law.figure("mileage.car_first", date(2017, 4, 5))


def test_years_and_days_of_rules() -> None:
    """ITTOIA 2005 s. 57 and PIM2505; PIM2510 (a rule of thumb); ITA 2007 s. 837; ITTOIA 2005 s. 311A."""
    day = date(2025, 6, 1)
    assert law.figure("property.pre_letting_years", day).whole == 7
    gap = law.figure("property.void_gap_years", day)
    assert (gap.whole, gap.status) == (3, "practice")
    assert law.figure("property.form_17_days", day).whole == 60
    assert law.began("property.domestic_items_share") == date(2016, 4, 6)
    assert law.figure("records.years", TaxYear(2025)).whole == 5


@pytest.mark.parametrize(
    ("year", "basic_to", "higher_to"),
    # GOV.UK, Income Tax rates and allowances, current and past
    [
        # before 2020-21 read in part: PIM4487, HMRC's calculator, a printed working of five years
        (2016, 32_000, 150_000),
        (2017, 33_500, 150_000),
        (2018, 34_500, 150_000),
        (2019, 37_500, 150_000),
        (2020, 37_500, 150_000),
        (2021, 37_700, 150_000),
        (2022, 37_700, 150_000),
        (2023, 37_700, 125_140),
        (2024, 37_700, 125_140),
        (2025, 37_700, 125_140),
        (2026, 37_700, 125_140),
    ],
)
def test_main_bands(year: int, basic_to: int, higher_to: int) -> None:
    held = law.schedule("income_tax.bands", TaxYear(year))
    assert held.checked == (year >= 2020)
    assert [(b.name, b.rate, b.to) for b in held.bands] == [
        ("basic", Decimal("0.20"), basic_to),
        ("higher", Decimal("0.40"), higher_to),
        ("additional", Decimal("0.45"), None),
    ]


def test_personal_allowance_and_where_it_is_gone() -> None:
    """GOV.UK: £12,500, then £12,570; gone from £125,000 and £125,140. Frozen to 2030-31 (FA 2026). Before: HMRC's
    calculator (2016-17, 2019-20), a GOV.UK example (2017-18), PIM4487 (2018-19)."""
    for year, allowance, gone in [
        (2016, 11_000, 122_000), (2017, 11_500, 123_000), (2018, 11_850, 123_700), (2019, 12_500, 125_000),
        (2020, 12_500, 125_000), (2021, 12_570, 125_140), (2026, 12_570, 125_140),
    ]:  # fmt: skip
        held = law.figure("income_tax.personal_allowance", TaxYear(year)).value
        start = law.figure("income_tax.allowance_taper_start", TaxYear(year)).value
        taken = law.figure("income_tax.allowance_taper_share", TaxYear(year)).value
        assert held == allowance
        assert start + held / taken == gone
    assert law.figure("income_tax.personal_allowance", TaxYear(2030)).checked
    assert not law.figure("income_tax.personal_allowance", TaxYear(2031)).checked


def test_property_rates_from_2027_28() -> None:
    """Finance Act 2026 ss. 5-8 and Sch. 1: 22%, 42%, 47%."""
    held = law.schedule("income_tax.bands_property", TaxYear(2027))
    assert [band.rate for band in held.bands] == [Decimal("0.22"), Decimal("0.42"), Decimal("0.47")]
    assert held.band("basic").to == 37_700
    assert "Scotland" not in load.table("income_tax.bands_property")["where"]
    with pytest.raises(law.NoFigure):
        law.schedule("income_tax.bands_property", TaxYear(2026))


SCOTLAND = {
    # Limits of taxable income and rates: gov.scot and mygov.scot for 2023-24 to 2025-26; the rest as cited.
    2020: "19 2085, 20 12658, 21 30930, 41 150000, 46",
    2021: "19 2097, 20 12726, 21 31092, 41 150000, 46",
    2022: "19 2162, 20 13118, 21 31092, 41 150000, 46",
    2023: "19 2162, 20 13118, 21 31092, 42 125140, 47",
    2024: "19 2306, 20 13991, 21 31092, 42 62430, 45 125140, 48",
    2025: "19 2827, 20 14921, 21 31092, 42 62430, 45 125140, 48",
    2026: "19 3967, 20 16956, 21 31092, 42 62430, 45 125140, 48",
}


@pytest.mark.parametrize("year", SCOTLAND)
def test_scottish_bands(year: int) -> None:
    held = law.schedule("income_tax.bands_scotland", TaxYear(year))
    shown = ", ".join(f"{band.rate * 100:.0f} {band.to or 0:.0f}".removesuffix(" 0") for band in held.bands)
    assert shown == SCOTLAND[year]
    assert held.checked == (year not in (2020, 2021, 2026))


@pytest.mark.parametrize(
    ("year", "names", "gross"),
    [
        # HMRC, Scottish Income Tax annual report 2023: income before the allowance
        (2022, ("starter", "basic", "intermediate"), (14_732, 25_688, 43_662)),
        # Starting points published with the Scottish Budget 2026 to 2027
        (2026, ("starter", "basic"), (16_537, 29_526)),
    ],
)
def test_scottish_limits_before_the_allowance(year: int, names: tuple[str, ...], gross: tuple[int, ...]) -> None:
    held = law.schedule("income_tax.bands_scotland", TaxYear(year))
    allowance = law.figure("income_tax.personal_allowance", TaxYear(year)).value
    assert tuple((held.band(name).to or 0) + allowance for name in names) == gross
    with pytest.raises(KeyError):
        held.band("additional")


@pytest.mark.parametrize(
    ("topic", "year", "day"),
    [
        ("deadlines.notify", 2025, date(2026, 10, 5)),  # TMA 1970 s. 7
        ("deadlines.return_paper", 2025, date(2026, 10, 31)),  # SAM61220
        ("deadlines.return_online", 2025, date(2027, 1, 31)),  # SAM60080
        ("deadlines.account_first", 2025, date(2026, 1, 31)),  # SAM1010
        ("deadlines.account_second", 2025, date(2026, 7, 31)),  # SAM1010
        ("deadlines.allowance_election", 2025, date(2028, 1, 31)),  # ITTOIA 2005 s. 783BJ, PIM4440
        ("deadlines.cash_basis_election", 2025, date(2028, 1, 31)),  # ITTOIA 2005 s. 271A(10), (11)
        # HMRC's example files of 15 July 2026: the 5th for 2025-26; SI 2026/336 regs. 11-14: the 7th after
        ("digital.update_1", 2025, date(2025, 8, 5)),
        ("digital.update_4", 2025, date(2026, 5, 5)),
        ("digital.update_1", 2026, date(2026, 8, 7)),
        ("digital.update_2", 2026, date(2026, 11, 7)),
        ("digital.update_3", 2026, date(2027, 2, 7)),
        ("digital.update_4", 2026, date(2027, 5, 7)),
    ],
)
def test_due_days(topic: str, year: int, day: date) -> None:
    assert law.due(topic, TaxYear(year)).day == day


def test_records_are_kept_to_a_day() -> None:
    """TMA 1970 s. 12B: 2025-26 to 31 January 2032; a printed example has 2016-17 to 31 January 2023."""
    assert law.records_until(TaxYear(2025)).day == date(2032, 1, 31)
    assert law.records_until(TaxYear(2016)).day == date(2023, 1, 31)


@pytest.mark.parametrize(
    ("number", "standard", "calendar"),
    [
        (1, date(2026, 7, 5), date(2026, 6, 30)),
        (2, date(2026, 10, 5), date(2026, 9, 30)),
        (3, date(2027, 1, 5), date(2026, 12, 31)),
        (4, date(2027, 4, 5), date(2027, 3, 31)),
    ],
)
def test_what_quarterly_updates_cover(number: int, standard: date, calendar: date) -> None:
    """SI 2026/336 regs. 11 to 13: each begins with the year and ends with its quarter."""
    found = law.update(number, TaxYear(2026))

    assert found.covers["standard"] == Period(date(2026, 4, 6), standard)
    assert found.covers["calendar"] == Period(date(2026, 4, 1), calendar)
    assert found.day == law.due(f"digital.update_{number}", TaxYear(2026)).day


def test_payments_on_account() -> None:
    """SAM1010, SAM1110: half each; none under £1,000 or over 80% taxed at source."""
    year = TaxYear(2025)
    assert law.figure("payments.on_account_part", year).value == Decimal("0.5")
    assert law.figure("payments.on_account_minimum", year).pence == 1_000_00
    assert law.figure("payments.on_account_at_source", year).value == Decimal("0.8")


def test_digital_income_limit() -> None:
    """SI 2026/336 regs. 22, 23, 27."""
    limits = [law.figure("digital.income_limit", TaxYear(year)).pence for year in (2026, 2027, 2028)]
    assert limits == [50_000_00, 30_000_00, 20_000_00]


def test_rates_and_days_of_gains() -> None:
    """HMRC's calculator; FA 2023 s. 8; Finance (No. 2) Act 2024 s. 6; FA 2025 s. 7; FA 2019 Sch. 2, FA 2022 s. 23."""
    exempt = [law.figure("gains.exempt_amount", TaxYear(year)).pence for year in (2020, 2022, 2023, 2024, 2026)]
    assert exempt == [12_300_00, 12_300_00, 6_000_00, 3_000_00, 3_000_00]
    above = [law.figure("gains.residential_above", TaxYear(year)).value for year in (2023, 2024, 2026)]
    assert above == [Decimal("0.28"), Decimal("0.24"), Decimal("0.24")]
    assert law.figure("gains.residential_in_band", TaxYear(2026)).value == Decimal("0.18")
    for topic, before, after in [("in_band", "0.10", "0.18"), ("above", "0.20", "0.24")]:
        assert law.figure(f"gains.other_{topic}", date(2024, 10, 29)).value == Decimal(before)
        assert law.figure(f"gains.other_{topic}", date(2024, 10, 30)).value == Decimal(after)
    assert law.figure("gains.report_days", date(2021, 10, 26)).whole == 30
    assert law.figure("gains.report_days", date(2021, 10, 27)).whole == 60
    assert law.figure("gains.lettings_cap", TaxYear(2025)).pence == 40_000_00
    last = [law.figure("gains.final_period_months", TaxYear(year)) for year in (2019, 2020)]
    assert [(held.whole, held.checked) for held in last] == [(18, False), (9, True)]


@pytest.mark.parametrize(
    ("topic", "value"),
    # SAM61230 to SAM61250: returns and tax before the points
    [
        ("return_fixed", "100"), ("return_daily", "10"), ("return_daily_after", "3"), ("return_daily_days", "90"),
        ("return_second_after", "6"), ("return_third_after", "12"), ("return_share", "0.05"), ("return_least", "300"),
        ("payment_share", "0.05"), ("payment_first_after", "30"), ("payment_second_after", "6"),
        ("payment_third_after", "12"),
    ],
)  # fmt: skip
def test_penalties_before_the_points(topic: str, value: str) -> None:
    assert law.figure(f"penalties.{topic}", TaxYear(2025)).value == Decimal(value)


@pytest.mark.parametrize(
    ("topic", "value"),
    # Finance Act 2021 Schs. 24, 26
    [
        ("threshold_annual", "2"), ("threshold_quarterly", "4"), ("penalty", "200"), ("expiry_months", "24"),
        ("reset_months_annual", "24"), ("reset_months_quarterly", "12"), ("reset_look_back", "24"),
        ("added_on_joining", "2"), ("payment_grace_days", "15"), ("payment_second_days", "30"),
    ],
)  # fmt: skip
def test_points(topic: str, value: str) -> None:
    assert law.figure(f"points.{topic}", TaxYear(2026)).value == Decimal(value)


def test_paying_late_costs_more_from_2025_26() -> None:
    """FA 2021 Sch. 26 paras. 5, 8, 10; SI 2025/589 leaves the tax of 2024-25 alone."""
    for topic, before, after in [("first", "0.02", "0.03"), ("second", "0.02", "0.03"), ("yearly", "0.04", "0.10")]:
        values = [law.figure(f"points.payment_{topic}_share", TaxYear(year)).value for year in (2024, 2025, 2026)]
        assert values == [Decimal(before), Decimal(after), Decimal(after)]


@pytest.mark.parametrize(
    ("day", "rate"),
    # GOV.UK, estimate your penalty for late returns and payments (21 August 2026)
    [
        (date(2022, 1, 3), "2.60"), (date(2022, 1, 4), "2.75"), (date(2023, 8, 21), "7.50"),
        (date(2023, 8, 22), "7.75"), (date(2025, 4, 5), "7.00"), (date(2025, 4, 6), "8.50"), (date(2026, 1, 9), "7.75"),
    ],
)  # fmt: skip
def test_interest_moves_by_the_day(day: date, rate: str) -> None:
    assert law.figure("interest.late_payment", day).value * 100 == Decimal(rate)
    assert not law.figure("interest.late_payment", date(2026, 8, 22)).checked


def test_days_and_years_of_digital_reporting() -> None:
    """SI 2026/336 regs. 9(2), 23, 24; the guide for software makers; Senedd motions for the Welsh rate."""
    assert law.figure("digital.early_days", TaxYear(2026)).whole == 10
    assert law.figure("digital.leave_years", TaxYear(2029)).whole == 3
    assert law.due("deadlines.amend_return", TaxYear(2026)).day == date(2029, 1, 31)
    assert law.figure("income_tax.welsh_rate", TaxYear(2026)).value == Decimal("0.10")


@pytest.mark.parametrize(
    ("topic", "nation", "day", "number"),
    [
        ("letting.gas_months", "wales", date(2025, 6, 1), 12),  # Gas Safe Register bulletin 055
        ("letting.wiring_months", "england", date(2025, 6, 1), 60),  # GOV.UK guide of 7 October 2021
        ("letting.wiring_months", "northern ireland", date(2025, 3, 31), None),  # SR 2024/201, from 1 April 2025
        ("letting.wiring_months", "northern ireland", date(2025, 4, 1), 60),
        ("letting.epc_months", "england", date(2025, 6, 1), 120),
        ("letting.epc_months", "scotland", date(2026, 10, 30), 120),
        ("letting.epc_months", "scotland", date(2026, 10, 31), 60),  # SSI 2025/417
        ("letting.deposit_days", "wales", date(2025, 6, 1), 30),  # pages of the deposit schemes
        ("letting.deposit_papers_days", "wales", date(2025, 6, 1), 30),  # as above
        ("letting.statement_days", "wales", date(2022, 11, 30), None),  # the Act came in on 1 December 2022
        ("letting.statement_days", "wales", date(2022, 12, 1), 14),  # from memory
        ("letting.statement_days", "england", date(2025, 6, 1), None),
        ("letting.deposit_days", "northern ireland", date(2025, 6, 1), 28),
        ("letting.deposit_days", "scotland", date(2025, 6, 1), None),  # counted in working days there
        ("letting.rent_rise_weeks", "england", date(2026, 4, 30), None),  # Renters' Rights Act 2025
        ("letting.rent_rise_weeks", "england", date(2026, 5, 1), 52),
        ("letting.rent_rise_weeks", "scotland", date(2026, 5, 1), None),
        ("letting.damp_inspect_working_days", "scotland", date(2026, 10, 6), 10),  # SSI 2026/173
        ("letting.registration_months", "scotland", date(2025, 6, 1), 36),  # two Scottish councils
        ("letting.no_such_rule", "england", date(2025, 6, 1), None),
    ],
)
def test_a_rule_of_letting_goes_by_nation(topic: str, nation: str, day: date, number: int | None) -> None:
    held = law.in_nation(topic, nation, day)
    assert (held.whole if held else None) == number


@pytest.mark.parametrize("topic", ["letting.deposit_days", "letting.deposit_papers_days"])
def test_a_welsh_deposit_rests_on_the_welsh_act_since_it_came_in(topic: str) -> None:
    def act(nation: str, day: date) -> str:
        held = law.in_nation(topic, nation, day)
        return str(held.citation) if held else ""

    assert "Renting Homes (Wales) Act 2016" in act("wales", date(2022, 12, 1))
    assert "Housing Act 2004 s. 213" in act("wales", date(2022, 11, 30))
    assert "Housing Act 2004 s. 213" in act("england", date(2022, 12, 1))


def test_rules_of_letting_do_not_say_how_far_tax_was_checked() -> None:
    """They may move on any day, so each says itself how old it is."""
    for topic in load.topics():
        if topic.startswith("letting.") and topic != "letting.lowest_energy_band":
            assert load.table(topic)["applies"] == "each day"


# ---- the shape of the room


def test_the_room_imports_only_the_ground() -> None:
    allowed = ("ledger_tools.law", "ledger_tools.days", "ledger_tools.money", "ledger_tools.problems")
    for file in Path(law.__file__).parent.glob("*.py"):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf8"))):
            names = [node.module or ""] if isinstance(node, ast.ImportFrom) else []
            names += [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
            for name in names:
                assert not name.startswith("ledger_tools") or name.startswith(allowed), (file.name, name)


def test_no_file_is_read_before_a_figure_is_asked_for() -> None:
    code = (
        "from datetime import date; from ledger_tools import law; from ledger_tools.law import load;"
        "print(load.table.cache_info().currsize, load.topics.cache_info().currsize);"
        "law.figure('mileage.car_first', date(2025, 5, 1)); print(load.table.cache_info().currsize)"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    # Afterwards: the topic and the list of sources, nothing else.
    assert ran.stdout.split() == ["0", "0", "2"]
