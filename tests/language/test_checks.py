"""What a line says twice or at odds with itself is told, with both places; what may be said again is not."""

# ruff: noqa: E501 (a row of the table stands on one line)

from __future__ import annotations

import pytest

from ledger_tools.language.blocks import Block
from ledger_tools.language.checks import doubled
from ledger_tools.language.reading import STATEMENTS, read
from ledger_tools.problems import Level, Problem

D = "9 Jun 2025 "
TWO = D + "invoiced £9.00\n    replaced hob £5.00\n    replaced tap £4.00"


def told(text: str) -> list[Problem]:
    reading = read(text)
    assert reading.statement is not None, reading.stop
    return doubled(reading.statement, Block(text, 3), "diary.book")


def marked(found: Problem) -> list[str]:
    return [mark.text[mark.column - 1 : mark.end - 1] for mark in found.marks]


# text; code; level; what is marked, the wrong place first
ROWS = [
    (D + "replaced boiler £90.00 £80.00", "doubled", Level.ERROR, ["£80.00", "£90.00"]),
    (D + "replaced boiler £90.00, £80.00", "doubled", Level.ERROR, ["£80.00", "£90.00"]),
    (D + "replaced boiler in kitchen in hall £9.00", "doubled", Level.ERROR, ["hall", "kitchen"]),
    ('property mill-3 "x"\n    price reduced by £9\n    price normal', "doubled", Level.ERROR, ["normal", "reduced by £9"]),
    ('property mill-3 "x"\n    price reduced by £9\n    price reduced by £8 owing to roof', "doubled", Level.ERROR,
     ["reduced by £8 owing to roof", "reduced by £9"]),
    ('property mill-3 "x"\n    as bought not lettable\n    as bought lettable for a while owing to roof', "doubled",
     Level.ERROR, ["lettable for a while owing to roof", "not lettable"]),
    (D + "replaced boiler £9.00 by volt by larkin", "doubled", Level.ERROR, ["by larkin", "by volt"]),
    (D + "replaced boiler £9.00 by volt from larkin", "doubled", Level.ERROR, ["from larkin", "by volt"]),
    (D + "paid rates £9.00 for Jun 2025 for Jul 2025", "doubled", Level.ERROR, ["Jul 2025", "Jun 2025"]),
    (D + "replaced boiler £9.00 at mill-3 at quay-2", "doubled", Level.ERROR, ["quay-2", "mill-3"]),
    (D + "replaced boiler £9.00, like for like, better", "doubled", Level.ERROR, ["better", "like for like"]),
    (D + "installed hob £9.00, none before, used by tenant", "doubled", Level.ERROR, ["used by tenant", "none before"]),
    (D + "installed hob £9.00, built in\n    loose", "doubled", Level.ERROR, ["loose", "built in"]),
    (D + "invoiced £9.00, number 71, number 72", "doubled", Level.ERROR, ["72", "71"]),
    (D + "varied quote Q-1 £9.00 more less", "doubled", Level.ERROR, ["less", "more"]),
    (D + "ordered sink, promised 1 Jul 2025, promised 2 Jul 2025", "doubled", Level.ERROR,
     ["promised 2 Jul 2025", "promised 1 Jul 2025"]),
    ('schedule mill-3 "x"\n    in hall\n        1 replace door £90 £80', "doubled", Level.ERROR, ["£80", "£90"]),
    ('property mill-3 "x"\n    nation england\n    nation wales', "doubled", Level.ERROR, ["wales", "england"]),
    ('property mill-3 "x"\n    bought 1 May 2025 for £9\n    bought 2 May 2025 for £9', "doubled", Level.ERROR,
     ["bought 2 May 2025 for £9", "bought 1 May 2025 for £9"]),
    ("tenancy osei at mill-3\n    deposit £9\n    deposit £8", "doubled", Level.ERROR, ["deposit £8", "deposit £9"]),
    ("tenancy osei at mill-3\n    rent £9 a month, first due 1 Jul 2025, first due 2 Jul 2025", "doubled", Level.ERROR,
     ["2 Jul 2025", "1 Jul 2025"]),
    (D + 'replaced hob £9.00, receipt "a.pdf", receipt "a.pdf"', "said-twice", Level.DOUBT, ['receipt "a.pdf"'] * 2),
    (D + "replaced hob £9.00, worn out, worn out", "said-twice", Level.DOUBT, ["worn out", "worn out"]),
    (D + "installed hob £9.00, none before, like for like", "facts-at-odds", Level.ERROR, ["like for like", "none before"]),
    (D + "installed hob £9.00, old one scrapped, none before", "facts-at-odds", Level.ERROR, ["none before", "scrapped"]),
    (D + "replaced hob £9.00, none before", "verb-at-odds", Level.DOUBT, ["replaced", "none before"]),
    (D + "installed hob £9.00, chosen, required", "facts-at-odds", Level.ERROR, ["required", "chosen"]),
    (D + "replaced hob £9.00, worn out, chosen", "facts-at-odds", Level.DOUBT, ["chosen", "worn out"]),
    (D + "quoted hob £9.00, fixed price, provisional", "facts-at-odds", Level.ERROR, ["provisional", "fixed price"]),
    (D + "paid rates £9.00 across mill-3 60% and quay-2 40%, split equally", "facts-at-odds", Level.ERROR,
     ["split equally", "mill-3 60% and quay-2 40%"]),
    (D + "paid rates £9.00 across mill-3 60% and mill-3 40%", "share-twice", Level.ERROR, ["mill-3 40%", "mill-3 60%"]),
    (D + "paid rates £9.00 for 5 Aug 2025 to 1 Aug 2025", "period-turned", Level.ERROR, ["1 Aug 2025", "5 Aug 2025"]),
    (D + "booked volt for 5 Aug 2025 to 1 Aug 2025", "period-turned", Level.ERROR, ["1 Aug 2025", "5 Aug 2025"]),
    ('property mill-3 "x"\n    furnished from 5 Aug 2025 to 1 Aug 2025', "period-turned", Level.ERROR,
     ["1 Aug 2025", "5 Aug 2025"]),
    ("tenancy osei at mill-3\n    rent free 5 Aug 2025 to 1 Aug 2025", "period-turned", Level.ERROR,
     ["1 Aug 2025", "5 Aug 2025"]),
    (D + "granted 150% off council tax by fenbury", "percent-over-100", Level.ERROR, ["150%"]),
    (D + "invoiced £9.00, retention 500%", "percent-over-100", Level.ERROR, ["500%"]),
    (D + "paid 90 pounds to volt", "amount-needs-pound", Level.ERROR, ["90 pounds"]),
    (D + "invoiced £9.00, worn out\n    replaced hob £9.00, broken", "nearer-fact", Level.NOTE, ["broken", "worn out"]),
    (D + "invoiced £9.00, like for like\n    replaced hob £9.00, better", "nearer-fact", Level.NOTE, ["better", "like for like"]),
    (D + "replaced hob £9.00, of which tape £9.01", "part-over-whole", Level.ERROR, ["tape £9.01", "£9.00"]),
    (D + "replaced hob £9.00, plus vat £1.80, of which tape £6.00, improvement £5.00", "part-over-whole", Level.ERROR,
     ["tape £6.00", "£5.00", "£9.00"]),
    (TWO + '\n    treat as repair because "x"', "of-the-bill", Level.DOUBT, ['treat as repair because "x"', "replaced tap £4.00"]),
    (TWO + "\n    like for like", "of-the-bill", Level.DOUBT, ["like for like", "replaced tap £4.00"]),
    (TWO + '\n    number "a, b", worn out', "of-the-bill", Level.DOUBT, ["worn out", "replaced tap £4.00"]),
    (TWO + "\n    of which private £2.00", "of-the-bill", Level.DOUBT, ["of which private £2.00", "replaced tap £4.00"]),
    (D + "invoiced £9.00, of which private £2.00\n    replaced hob £9.00", "of-the-bill", Level.DOUBT,
     ["of which private £2.00"]),
    (D + "paid £9.00 to volt, improvement £2.00\n    replaced hob £9.00", "of-the-bill", Level.DOUBT,
     ["improvement £2.00"]),
]  # fmt: skip


@pytest.mark.parametrize("text, code, level, places", ROWS, ids=[row[0][-50:] for row in ROWS])
def test_what_is_at_odds_is_told_with_both_places(text, code, level, places) -> None:
    (found,) = told(text)
    assert (found.code, found.level, marked(found)) == (code, level, places)
    assert found.help and found.headline.endswith(".")


@pytest.mark.parametrize(
    "text",
    [
        D + "replaced hob £9.00, plus delivery £1.00, plus fitting £2.00, of which vat £1.00, of which tape £1.00",
        D
        + 'replaced hob £9.00, receipt "a.pdf", receipt "b.pdf", before "c.jpg", after "d.jpg", because "x", says "y"',
        D + "replaced hob £9.00, worn out, broken, goes with oven, making good after tiles",
        D + "invoiced £9.00, paid 1 Jul 2025 £4.00, paid 2 Jul 2025 £5.00",
        D + "ordered sink, promised 1 Jul 2025, arrived 2 Jul 2025",
        D + "replaced hob in kitchen and hall £9.00, same again £8.00, old one sold £1.00 to volt",
        D + "installed hob £9.00, none before, chosen",
        D + "replaced 2 pounds £9.00".replace("pounds", "ponds"),
        D + "invoiced £9.00, worn out\n    replaced hob £4.00, worn out\n    replaced tap £5.00, like for like",
        D + "paid rates £9.00 for 1 Aug 2025 to 1 Aug 2025",
        TWO + "\n        like for like",
        D + "replaced hob £9.00, plus vat £1.80, of which tape £6.00, improvement £4.80",
        TWO.replace("£9.00", '£9.00, treat as repair because "x"'),
        TWO + '\n    receipt "a.pdf", because "x"',
        D + 'invoiced £9.00\n    replaced hob £9.00\n    treat as repair because "x"',
        D + "paid rates £9.00 across mill-3 and quay-2, split equally",
        'property mill-3 "x"\n    owners nell 100%\n    owners nell 50% and joel 50% from 1 May 2025\n'
        "    bought 1 May 2025 for £9\n    sold 2 May 2026 for £9",
        'property mill-3 "x"\n    as bought not lettable, says "survey"\n    as bought not lettable owing to roof\n'
        '    price reduced by £9, says "survey"\n    price reduced owing only to roof\n    price reduced owing to damp',
        "tenancy osei at mill-3\n    rent £9 a month\n    rent £8 a month from 1 May 2026\n    deposit £9\n"
        "    holding deposit £2\n    moved in 1 May 2025\n    moved out 2 May 2026",
    ],
)
def test_what_may_be_said_again_is_left_alone(text) -> None:
    assert told(text) == []


def test_a_fact_behind_a_line_of_a_bill_is_mended_by_going_further_in() -> None:
    (found,) = told(TWO + '\n    treat as repair because "x"')
    assert found.fix is not None and found.fix.line == '        treat as repair because "x"'
    assert told(f"{TWO}\n{found.fix.line}") == []


def test_a_turned_period_is_mended_by_turning_it() -> None:
    (found,) = told(D + "paid rates £9.00 for 5 Aug 2025 to 1 Aug 2025")
    assert found.fix is not None
    assert found.fix.line == D + "paid rates £9.00 for 1 Aug 2025 to 5 Aug 2025"
    assert told(found.fix.line) == []


def test_pounds_in_words_are_mended() -> None:
    (found,) = told(D + "paid 90 pounds to volt")
    assert found.fix is not None and found.fix.line == D + "paid £90 to volt"


def test_problems_come_in_the_order_of_the_text() -> None:
    found = told(D + "replaced hob £9.00 £8.00 in hall in loft, loose, built in")
    assert [p.marks[0].column for p in found] == sorted(p.marks[0].column for p in found)
    assert len(found) == 3


def test_kinds_that_are_checked_are_kinds_of_the_grammar() -> None:
    """A kind that the grammar no longer makes would be checked for ever without finding anything."""
    from ledger_tools.language import checks, odds
    from ledger_tools.language.tables import tables

    made = {name for _, _, _, name, *_ in tables().rules} - STATEMENTS
    named = {*checks.ONCE, *checks.ONCE_A_WORD, *checks.ONCE_A_TIME, *checks.SAME_AGAIN, *checks.INHERITED, *checks._PERIODS}
    named |= {kind for row in odds.AT_ODDS for kind, _ in (row.one, row.other)}
    named |= {kind for row in odds.VERB_ODDS for kind, _ in row.facts}
    assert named <= made


def test_the_quick_look_never_passes_over_what_the_checks_would_tell() -> None:
    """Every line of this file that has something to tell is looked at in full."""
    import re
    from pathlib import Path

    from ledger_tools.language import checks

    texts = re.findall(
        r'"((?:replaced|paid|bought|invoiced|installed)[^"]*)"', Path(__file__).read_text(encoding="utf-8")
    )
    told = 0
    for text in texts:
        reading = read(D + text.replace("\\n", "\n"))
        if reading.statement is None:
            continue
        page = checks.Page(Block(reading.text, 1), "x")
        problems = [*checks._statement(page, reading.statement), *checks._nearer(page, reading.statement)]
        told += bool(problems)
        assert not problems or not checks._plain(reading.statement)
    assert told > 10


def test_who_left_it_is_no_second_party_of_the_line() -> None:
    (found,) = told('9 Jun 2025 cleared rubbish left by tenant £150.00 by "Tip Top", receipt "box 1"')
    assert found.code == "doubled" and found.fix is not None
    meant = '9 Jun 2025 cleared rubbish £150.00 by "Tip Top", receipt "box 1", because "left by tenant"'
    assert found.fix.line == meant and told(meant) == []
    (plain,) = told('9 Jun 2025 cleared rubbish £150.00 by larkin by "Tip Top"')
    assert plain.fix is None


@pytest.mark.parametrize(
    ("head", "one", "other"),
    [
        ('landlord x "X"', "accounting cash from 2024-25", "accounting accruals from 2024-25"),
        ('landlord x "X"', "accounting cash", "accounting accruals"),
        ('landlord x "X"', "lives in scotland from 2025-26", "lives in england from 2025-26"),
        ('landlord x "X"', "standard quarters", "calendar quarters"),
        ('landlord x "X"', "accounts to 31 march from 2025-26", "accounts to 5 april from 2025-26"),
        ('property a "A"', "valued 1 May 2016 at £110,000", "valued 1 May 2016 at £120,000"),
        ('property a "A"', "owners x 60% and y 40% from 1 May 2016", "owners x 50% and y 50% from 1 May 2016"),
        ("loan big on a", "rate 4% from 1 May 2015", "rate 5% from 1 May 2015"),
        ("loan big on a", "owed £100 on 1 May 2016", "owed £200 on 1 May 2016"),
        ("tenancy t at a", "rent £600 a month from 1 Jun 2016", "rent £700 a month from 1 Jun 2016"),
        ("tenancy t at a", "arrears £100 on 1 Jun 2016", "arrears £200 on 1 Jun 2016"),
    ],
)
def test_what_holds_from_a_day_is_told_once_for_it(head: str, one: str, other: str) -> None:
    """One of the two counted and nobody knew which: the way of accounting of a year, the value of a day."""

    def codes(*lines: str) -> list[str]:
        return [p.code for p in told(head + "".join(f"\n    {line}" for line in lines))]

    assert codes(one, other) == ["doubled"]
    for old, new in (("2016", "2017"), ("2015", "2017"), ("2024-25", "2026-27"), ("2025-26", "2026-27")):
        if old in other:
            assert codes(one, other.replace(old, new)) == []  # another day or year: both hold, one after the other
