"""Agents' statements held against the agent's terms. Firms are invented; each sum is worked out beside it."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from ledger_tools.book.build import build
from ledger_tools.money import pounds, round_half_up
from ledger_tools.problems import Level, Problem
from ledger_tools.verdicts.agents import agent_doubts

HEAD = 'property a "1 A Street"\ntenancy t at a\n    tenants "T. Enant"\n    periodic from 1 Jun 2025\n'
RENT = "    rent £950 a month\n"


def doubts(terms: str, *statements: str, rent: str = RENT) -> list[Problem]:
    charges = "".join(f"    charges {one}\n" for one in terms.split(" and "))
    made = build({"a.book": HEAD + rent + f'agent quay "Quay Lets"\n{charges}at a\n' + "".join(statements)})
    assert [p.headline for p in made.problems if p.level is Level.ERROR] == []
    return agent_doubts(made)


def statement(net: str, *lines: str, day: str = "5 Jun 2025") -> str:
    return f"{day} banked £{net} from quay\n" + "".join(f"    {line}\n" for line in lines)


CAME = "received rent £950.00 from t for Jun 2025"


@pytest.mark.parametrize(
    ("terms", "net", "lines"),
    [
        # 10% of 950 is 95, VAT 19; with a plumber of 120 there is 716 left
        ("10% of rent plus vat", "716.00",
         (CAME, "paid management fee £95.00, plus vat £19.00", 'repaired tap £120.00 by "Jon"')),
        # 12% with VAT in it: 100 and 20 of 1,000
        ("12% of rent", "880.00", ("received rent £1,000.00 from t", "paid management fee £100.00, plus vat £20.00")),
        ("12% of rent", "880.00", ("received rent £1,000.00 from t", "paid management fee £120.00")),
        ("10% of rent plus vat", "880.00", ("received rent £1,000.00 from t", "paid commission £120.00")),
        # a trade's 300 with VAT 60; 10% of 360 on top
        ("10% of works", "554.00",
         (CAME, "repaired gutters £300.00 by \"Jon\", plus vat £60.00, plus agent's charge £36.00")),
        ("20.4% of rent", "9552.00", ("received rent £12,000.00 from t", "paid management fee £2,448.00")),
        # half a penny either way: 10% of 950.05 is 95.005
        ("10% of rent", "855.05", ("received rent £950.05 from t", "paid management fee £95.00")),
        ("10% of rent", "855.04", ("received rent £950.05 from t", "paid management fee £95.01")),
        ("10% of rent plus vat", "950.00", (CAME,)),  # taken elsewhere
    ],
)  # fmt: skip
def test_statements_that_are_right(terms: str, net: str, lines: tuple[str, ...]) -> None:
    assert doubts(terms, statement(net, *lines)) == []


@pytest.mark.parametrize(
    ("terms", "net", "lines", "said"),
    [
        ("10% of rent plus vat", "830.00", (CAME, "paid management fee £100.00, plus vat £20.00"),
         ("£95.00, plus vat £19.00", "£836.00 was to be banked")),
        ("10% of rent plus vat", "836.01", (CAME, "paid management fee £95.00, plus vat £18.99"),
         ("£95.00, plus vat £19.00", "£836.00 was to be banked")),
        ("12% of rent", "856.00", ("received rent £1,000.00 from t", "paid management fee £120.00, plus vat £24.00"),
         ("£100.00, plus vat £20.00", "£880.00 was to be banked")),
        # a fee page that multiplies wrongly: 20.4% of 12,000 is 2,448, not 2,488
        ("20.4% of rent", "9512.00", ("received rent £12,000.00 from t", "paid management fee £2,488.00"),
         ("comes to £2,448.00", "£9,552.00 was to be banked")),
    ],
)  # fmt: skip
def test_a_commission_that_is_off(terms: str, net: str, lines: tuple[str, ...], said: tuple[str, str]) -> None:
    (found,) = doubts(terms, statement(net, *lines))

    assert (found.code, found.level) == ("fee-off", Level.DOUBT)
    assert said[0] in found.headline and said[1] in found.help
    assert len(found.marks) == 2


def test_commission_on_what_fell_due() -> None:
    """Of £950 due in June £600 came in time and £350 a month later: 10% of 950 once, in the first statement."""
    first = statement("505.00", "received rent £600.00 from t for Jun 2025", "paid management fee £95.00")
    late = ("received rent £350.00 from t for Jun 2025", "received rent £950.00 from t for Jul 2025")
    second = statement("1205.00", *late, "paid management fee £95.00", day="5 Jul 2025")
    double = statement("1170.00", *late, "paid management fee £130.00", day="5 Jul 2025")

    assert doubts("10% of rent due", first, second) == []
    assert [found.code for found in doubts("10% of rent due", first, double)] == ["fee-off"]
    assert len(doubts("10% of rent", first, second)) == 2, "of what came in it would be 60 and 130"


def test_works_with_the_agents_part_in_the_price() -> None:
    """396 is 360 and a tenth of it."""
    (untold,) = doubts("10% of works", statement("554.00", CAME, 'repaired gutters £396.00 by "Jon"'))
    wrong = 'repaired gutters £360.00 by "Jon", plus agent\'s charge £40.00'
    (other,) = doubts("10% of works", statement("550.00", CAME, wrong))

    assert untold.code == other.code == "works-charge-off"
    assert "£360.00" in untold.help and "`plus agent's charge £36.00`" in untold.help
    assert "£36.00" in other.headline and "£396.00" in other.help


def test_two_terms_of_one_agent() -> None:
    lines = (CAME, "paid management fee £100.00", 'repaired gutters £396.00 by "Jon"')
    found = doubts("10% of rent and 10% of works", statement("454.00", *lines))

    assert [problem.code for problem in found] == ["fee-off", "works-charge-off"]


@settings(deadline=None)
@given(st.integers(1, 500_000), st.integers(1, 300), st.booleans(), st.integers(-5_000, 5_000))
def test_a_commission_by_the_terms_is_never_doubted_and_another_always(
    rent: int, tenths: int, vat: bool, off: int
) -> None:
    """By thousandths of the rent, with VAT at 20% on top or without; two pence more or less are seen."""
    fee = round_half_up(Fraction(rent * tenths, 1000))
    tax = round_half_up(Fraction(fee, 5)) if vat else 0
    if fee + off < 1 or fee + tax + off > rent or fee < 1:
        return
    line = f"paid management fee {pounds(fee + off)}" + (f", plus vat {pounds(tax)}" if tax else "")
    terms = f"{tenths // 10}.{tenths % 10}% of rent" + (" plus vat" if vat else "")
    net = pounds(rent - fee - tax - off).removeprefix("£")
    found = doubts(terms, statement(net, f"received rent {pounds(rent)} from t", line))

    assert bool(found) == (abs(off) > 1) or abs(off) == 1


def test_an_agent_without_terms_is_not_judged() -> None:
    text = HEAD + RENT + 'agent quay "Quay Lets"\nat a\n' + statement("1.00", CAME, "paid management fee £949.00")

    assert agent_doubts(build({"a.book": text})) == []
