"""Whole lines told in other words: the line to paste, or what is said where something is lacking or it belongs elsewhere."""

# ruff: noqa: E501 (a row of the table stands on one line)

from __future__ import annotations

import pytest

from ledger_tools.language.blocks import Block
from ledger_tools.language.mending import mistakes
from ledger_tools.language.mistakes.ways import _ways, told_another_way
from ledger_tools.language.reading import read
from ledger_tools.language.spot import Spot

HEADS = {
    "loan": "loan castle-1 on elm-9 from castle\n    ",
    "property": 'property elm-9 "9 Elm Road"\n    ',
    "tenancy": "tenancy dray at elm-9\n    ",
    "landlord": 'landlord paul "Paul Marsh"\n    ',
    "dated": "1 Sep 2025 ",
    "first column": "",
}
PUT = (
    ("loan", "balance of £72,000 as at 5/4/2025", "owed £72,000 on 5 Apr 2025"),
    ("loan", "interest rate 5% from 1st April 2019", "rate 5% from 1 Apr 2019"),
    ("loan", "fixed at 5 % from 1 Apr 2019 until 31 Mar 2024", "rate 5% from 1 Apr 2019 to 31 Mar 2024"),
    ("loan", "5% fixed from 1 Apr 2019", "rate 5% from 1 Apr 2019"),
    ("loan", "repayments £450 pcm", "monthly £450"),
    ("loan", "interest only mortgage", "interest only"),
    ("loan", "capital and interest", "repayment"),
    ("loan", "term 25 years", "# term 25 years"),
    ("loan", "rate 0.95% a month from 17 Sep 2024", "rate 11.4% from 17 Sep 2024"),
    ("loan", "repayment over 25 years", "repayment"),
    ("first column", "schedule works at tanner-22", 'schedule tanner-22 "works"'),
    ("dated", "claimed exemption from empty premium from quarrel, major works", '1 Sep 2025 claimed exemption from quarrel, because "empty premium, major works"'),
    ("property", "purchased on 3 May 2019 at 140000", "bought 3 May 2019 for £140,000"),
    ("property", "bought for £140,000 on 3 May 2019", "bought 3 May 2019 for £140,000"),
    ("property", "inherited from mum 10 Mar 2009 worth £142,000", "inherited 10 Mar 2009 at £142,000"),
    ("property", "gifted 10 Mar 2009 valued at £142,000", "given 10 Mar 2009 at £142,000"),
    ("property", "worth £190,000 on 3 May 2024", "valued 3 May 2024 at £190,000"),
    ("property", "england", "nation england"),
    ("property", "vacant from 3 May 2019", "empty since 3 May 2019"),
    ("property", "3 bedrooms", "# 3 bedrooms"),
    ("property", "leasehold, 99 years from 1 Jun 1988", "leasehold 99 years from 1 Jun 1988"),
    ("tenancy", "tenant: Peter Dray and Ann Dray", 'tenants "Peter Dray" and "Ann Dray"'),
    ("tenancy", "rent: 850/month from 1 Sep 2025", "rent £850 a month from 1 Sep 2025"),
    ("tenancy", 'deposit 950 held with "Deposit Shield"', 'deposit £950, with "Deposit Shield"'),
    ("tenancy", "deposit £950 protected with Deposit Shield on 3 Sep 2025", 'deposit £950, with "Deposit Shield", protected 3 Sep 2025'),
    ("tenancy", "deposit of £950 received 1 Sep 2025", "deposit £950, received 1 Sep 2025"),
    ("tenancy", "deposit taken 950", "deposit £950"),
    ("tenancy", "no deposit", "# no deposit"),
    ("tenancy", "1 Sep 2025 to 31 Aug 2026", "from 1 Sep 2025 to 31 Aug 2026"),
    ("tenancy", "fixed 12 months from 1 Mar 2025", "from 1 Mar 2025 to 28 Feb 2026"),
    ("tenancy", "fixed for 2 years from 1 Mar 2025", "from 1 Mar 2025 to 28 Feb 2027"),
    ("property", "bought 3 May 2019 for £140,000, at auction", "bought 3 May 2019 for £140,000"),
    ("property", "bought 3 May 2019 for £140,000, at auction, additional dwelling", "bought 3 May 2019 for £140,000, additional dwelling"),
    ("property", 'price reduced because "damp and no boiler"', 'price reduced, because "damp and no boiler"'),
    ("property", "price reduced by £9,000 due to damp and roof", "price reduced by £9,000 owing to damp and roof"),
    ("property", 'as bought not lettable because "no boiler"', 'as bought not lettable, because "no boiler"'),
    ("dated", "paid solicitor £420.00 to bell, possession notice for pike", '1 Sep 2025 paid solicitor £420.00 to bell for eviction, because "possession notice for pike"'),
    ("dated", 'cleared rubbish left by the old tenant £150.00 by "Tip Top"', '1 Sep 2025 cleared rubbish £150.00 by "Tip Top", because "left by the old tenant"'),
    ("dated", "returned internal doors £65.00 from yard", "1 Sep 2025 received credit £65.00 from yard for internal doors"),
    ("dated", "returned doors, credited £65.00 by yard", "1 Sep 2025 received credit £65.00 from yard for doors"),
    ("dated", "credited £65.00 by yard", "1 Sep 2025 received credit £65.00 from yard"),
    ("dated", 'credit note £65 from "Yard & Co" for doors', '1 Sep 2025 received credit £65 from "Yard & Co" for doors'),
    ("dated", "credited £65.00 by yard against invoice BY-4 for doors", "1 Sep 2025 received credit £65.00 from yard against invoice BY-4 for doors"),
    ("dated", "credited doors £65.00 by yard", "1 Sep 2025 received credit £65.00 from yard for doors"),
    ("tenancy", "6 month AST from 1 Sep 2025", "from 1 Sep 2025 to 28 Feb 2026"),
    ("tenancy", "from 31 Aug 2025 for 6 months", "from 31 Aug 2025 to 27 Feb 2026"),
    ("tenancy", "start date: 1/9/25", "from 1 Sep 2025"),
    ("tenancy", "rolling since 1 Sep 2025", "periodic from 1 Sep 2025"),
    ("landlord", "wife jean", "married to jean"),
    ("landlord", "salary £31,400 in 2025-26", "other income £31,400 in 2025-26"),
    ("landlord", "cash basis", "accounting cash"),
    ("landlord", "basic rate taxpayer", "# basic rate taxpayer"),
    ("dated", "rent received 850 from dray", "1 Sep 2025 received rent £850 from dray"),
    ("dated", "received £850 rent from dray", "1 Sep 2025 received rent £850 from dray"),
    ("dated", "council tax 1,200 paid", "1 Sep 2025 paid council tax £1,200"),
    ("dated", "council tax 1,200", "1 Sep 2025 paid council tax £1,200"),
    ("dated", "took out a mortgage of £80,000 from castle", "1 Sep 2025 borrowed £80,000 from castle"),
    ("dated", "took out mortgage £80,000", "1 Sep 2025 borrowed £80,000"),
    ("dated", 'bought sofa £449 from "Sofa Shed" as old one was worn out', '1 Sep 2025 replaced sofa £449 from "Sofa Shed", worn out'),
    ("dated", "bought a new kettle £20 because the old one broke", "1 Sep 2025 replaced kettle £20, broken"),
    ("dated", "new washing machine £310 as old one died", "1 Sep 2025 replaced washing machine £310, broken"),
    ("dated", "replaced sofa £550, old one torn", "1 Sep 2025 replaced sofa £550, worn out"),
    ("dated", "replaced wiring £550 by volt, old one condemned", "1 Sep 2025 replaced wiring £550 by volt, broken"),
    ("dated", "kept £200 from dray's deposit for damage", "1 Sep 2025 kept deposit £200 from dray for damage"),
    ("dated", "plumber fixed leaking tap £75", '1 Sep 2025 repaired leaking tap £75 by "plumber"'),
    ("dated", "paid council tax £318.40 to fenbury while empty", "1 Sep 2025 paid council tax £318.40 to fenbury"),
    ("dated", "refund council tax £76.20 from fenbury", "1 Sep 2025 received refund £76.20 from fenbury for council tax"),
    ("dated", "received refund £76.20 council tax from fenbury", "1 Sep 2025 received refund £76.20 from fenbury for council tax"),
    ("dated", "received £76.20 refund of council tax", "1 Sep 2025 received refund £76.20 for council tax"),
    ("dated", "kept £180 of deposit from hobbs", "1 Sep 2025 kept deposit £180 from hobbs"),
    ("dated", "damp proofing front wall £460 by drywall", '1 Sep 2025 treated damp £460 "front wall" by drywall'),
    ("loan", "term 20 years", "# term 20 years"),
    ("property", "probate granted 20 Jun 2024", "probate 20 Jun 2024"),
    ("property", "bought at auction, damp and no kitchen", "# bought at auction, damp and no kitchen"),
    ("tenancy", "left 28 Feb 2026", "moved out 28 Feb 2026"),
    ("tenancy", "then rolling", "# then rolling"),
    ("tenancy", "deposit £700 in the DPS 10 Sep 2025", 'deposit £700, with "DPS", protected 10 Sep 2025'),
    ("tenancy", "rent £110 pw, bills included", "rent £110 a week, includes council tax and water and gas and electricity"),
    ("tenancy", "DSS tenant, rent paid by council every 4 weeks", "# DSS tenant, rent paid by council every 4 weeks"),
    ("landlord", "state pension £11,900 in 2025-26", "other income £11,900 in 2025-26"),
    ("dated", "plumber £220 to fit bathroom", '1 Sep 2025 fitted bathroom £220 by "plumber"'),
    ("dated", "paid dk £60 to repair the gutters", "1 Sep 2025 repaired gutters £60 by dk"),
    ("dated", "paid dk's invoice 118 £740", "1 Sep 2025 paid £740 to dk against invoice 118"),
    ("dated", "paid invoice 118 £740 to dk", "1 Sep 2025 paid £740 to dk against invoice 118"),
    ("dated", "deposit returned to dray £960", "1 Sep 2025 repaid deposit £960 to dray"),
    ("dated", "lad to help £100 cash", "1 Sep 2025 paid labour £100"),
    ("dated", "tip run 12 miles", '1 Sep 2025 drove 12 miles "tip run"'),
    ("tenancy", "all bills included", "# all bills included"),
    ("dated", "paid accountant £960 across all houses", "1 Sep 2025 paid accountant £960 across all, split equally"),
    ("dated", "paid insurance £2,140 across all my houses, due 9 Sep 2025", "1 Sep 2025 paid insurance £2,140 across all, split equally, due 9 Sep 2025"),
    ("first column", "I am Paul Marsh", 'landlord marsh "Paul Marsh"'),
)  # fmt: skip
SAID = (
    ("dated", "sold the flat for £171,000 to P. Avery", "belongs-elsewhere", "`sold 1 Sep 2025 for £171,000`"),
    ("dated", "inherited half the flat from mum worth £118,000", "belongs-elsewhere", "`inherited 1 Sep 2025 at £118,000`"),
    ("loan", "owed £72,000", "line-unfinished", "`owed £72,000 on …`"),
    ("property", "target let 1 Mar 2025", "belongs-elsewhere", "`target let from 1 Mar 2025 at £… a month`"),
    ("loan", "borrowed £80,000 on 3 Apr 2019", "belongs-elsewhere", "`3 Apr 2019 borrowed £80,000 from castle for purchase`"),
    ("loan", "£60,000 borrowed Mar 2020", "belongs-elsewhere", "`Mar 2020 borrowed £60,000 from castle for purchase`"),
    ("loan", "amount £80,000", "belongs-elsewhere", "under `at elm-9`"),
    ("loan", "started 3 Apr 2019", "belongs-elsewhere", "`3 Apr 2019 borrowed £… from castle for purchase`"),
    ("loan", "fixed at 5%", "line-unfinished", "`rate 5% from …`"),
    ("loan", "5%", "line-unfinished", "`rate 5% from …`"),
    ("loan", "lender Castle Building Society", "belongs-elsewhere", '`loan castle-1 on elm-9 from "Castle Building Society"`'),
    ("loan", "secured on oak-4", "belongs-elsewhere", "`loan castle-1 on oak-4 from castle`"),
    ("property", "bought 2019 for 140000", "line-unfinished", "`bought 1 Jan 2019 for £140,000`"),
    ("property", "bought for £140,000 in May 2019", "line-unfinished", "`bought 1 May 2019 for £140,000`"),
    ("property", "bought 3/3/2023 for £155,000 plus stamp duty £4,650", "belongs-elsewhere", "`3 Mar 2023 paid stamp duty £4,650`"),
    ("property", "rent 900 a month from 1/4/2023, tenant Jo Hale", "belongs-elsewhere", "`tenancy hale at elm-9`"),
    ("first column", "rent 900 a month from 1/4/2023, tenant Jo Hale", "belongs-elsewhere", '`tenants "Jo Hale"`, `from 1 Apr 2023`'),
    ("property", "purchase price £140,000", "line-unfinished", "`bought … for £140,000`"),
    ("property", "bought 3 May 2019", "line-unfinished", "`bought 3 May 2019 for £…`"),
    ("property", "inherited 10 Mar 2009", "line-unfinished", "`inherited 10 Mar 2009 at £…`"),
    ("property", "band C", "line-unfinished", "`council …, band C`"),
    ("property", "unfurnished", "line-unfinished", "`unfurnished from …`"),
    ("property", "let from 1 Sep 2025", "belongs-elsewhere", "`tenancy … at elm-9`"),
    ("property", "rent £850 pcm", "belongs-elsewhere", "`rent £850 a month`"),
    ("property", "tenant Peter Dray", "belongs-elsewhere", '`tenants "Peter Dray"`'),
    ("property", "mortgage £80,000 from castle", "belongs-elsewhere", "`loan castle-1 on elm-9 from castle`"),
    ("property", "stamp duty £5,000", "belongs-elsewhere", "`… paid stamp duty £5,000`"),
    ("tenancy", "let to Peter Dray from 1 Sep 2025", "belongs-elsewhere", '`tenants "Peter Dray"` and `from 1 Sep 2025`'),
    ("tenancy", "rent £850 a month due 1st", "line-unfinished", "`rent £850 a month, first due …`"),
    ("tenancy", "ends 31 Aug 2026", "belongs-elsewhere", "`from … to 31 Aug 2026`"),
    ("landlord", "salary £31,400", "line-unfinished", "`other income £31,400 in …`"),
    ("dated", "rent 850", "belongs-elsewhere", "`1 Sep 2025 received rent £850 from …` if it came"),
    ("dated", "agent fee 10%", "belongs-elsewhere", "`charges 10% of rent`"),
    ("dated", "bought for £140,000", "belongs-elsewhere", "`bought 1 Sep 2025 for £140,000`"),
    ("dated", "new tenant Peter Dray £850 pcm", "belongs-elsewhere", "`rent £850 a month`"),
    ("dated", "house let", "belongs-elsewhere", "`from 1 Sep 2025`"),
    ("dated", "deposit 950 held with the scheme", "belongs-elsewhere", "`deposit £950, received …"),
    ("dated", "insurance £240 a year", "line-unfinished", "`1 Sep 2025 paid insurance £240 for 1 Sep 2025 to …`"),
    ("dated", 'replaced boiler £900 by "Warmfix", as bought lettable', "belongs-elsewhere", "indented line under its heading: `as bought lettable`"),
    ("dated", "replaced boiler £900, price normal", "belongs-elsewhere", "`price normal`"),
    ("dated", "paid mortgage fee £999.00 added to loan", "belongs-elsewhere", "`1 Sep 2025 borrowed £999.00 from … for mortgage fee` and `1 Sep 2025 paid mortgage fee £999.00 to …`"),
    ("dated", "paid mortgage £383.50 every month", "belongs-elsewhere", "one line a month"),
    ("dated", "received rent £610 from hobbs monthly", "belongs-elsewhere", "`1 Sep 2025 received rent £610 from hobbs`"),
    ("dated", "banked £699.60 from hearth, rent £795 less 12% fee", "belongs-elsewhere", "`received rent £795 from …`, with the tenancy's name, and `paid management fee £95.40`"),
    ("dated", "damp proofing front wall and replastered £1,460.00 by drywall", "belongs-elsewhere", "`1 Sep 2025 invoiced £1,460.00 by drywall`"),
    ("loan", "£100,000 at 4.75% interest only", "belongs-elsewhere", "`rate 4.75% from …`, with the first day of this rate; `owed £100,000 on …`"),
    ("loan", "£60,000 interest only at 5.1%", "belongs-elsewhere", "`rate 5.1% from …`"),
    ("property", "bought 14 Feb 2020 for £118,000 plus £3,540 stamp duty", "belongs-elsewhere", "`14 Feb 2020 paid stamp duty £3,540`"),
    ("loan", "repayment mortgage, 20 years left, £84,000 owed", "belongs-elsewhere", "`owed £84,000 on …`"),
    ("loan", "fixed 5.4% until Aug 2027", "line-unfinished", "`rate 5.4% from …`"),
    ("property", "HMO, 4 rooms", "line-unfinished", "`hmo from …`"),
    ("dated", "deposit returned to dray £960, kept £250 for carpet stain", "belongs-elsewhere", '`1 Sep 2025 kept deposit £250 from dray, because "carpet stain"`'),
    ("dated", "received deposit £1,325 from sana, held by swift", "belongs-elsewhere", "`deposit £1,325, received 1 Sep 2025, with swift`"),
    ("dated", "swift £1,150 less £138 less VAT £27.60 = £984.40", "belongs-elsewhere", "`paid management fee £138, plus vat £27.60`"),
    ("dated", 'paid gas certs £420 for 6 houses to "Flue Check"', "belongs-elsewhere", "`across all`"),
    ("dated", "HMRC £640", "belongs-elsewhere", "leave the line out"),
    ("dated", "took £5,000 out", "belongs-elsewhere", "leave the line out"),
    ("dated", "DD MARLOW END DC £142.00", "line-unfinished", '`paid … £142.00 to "MARLOW END DC"`'),
    ("dated", "BGC HALE LETTINGS £642.00", "line-unfinished", "`banked £642.00 from …`"),
    ("loan", "4.75% interest only", "belongs-elsewhere", "`rate 4.75% from …`, with the first day of this rate, and `interest only`"),
    ("property", "inherited June 2012 at £96,000", "line-unfinished", "`inherited 1 Jun 2012 at £96,000`"),
    ("property", "inherited 2012", "line-unfinished", "`inherited 1 Jan 2012 at £…`"),
    ("property", "leasehold, 99 years from 1988", "line-unfinished", "`leasehold 99 years from 1 Jan 1988`"),
    ("property", "leasehold 99 years from Jun 1988", "line-unfinished", "`leasehold 99 years from 1 Jun 1988`"),
    ("first column", 'agent quay "Quay Lettings" 10%', "belongs-elsewhere", "`charges 10% of rent`"),
    ("first column", "tenants: Peter Dray", "belongs-elsewhere", "`tenancy dray at`"),
    ("first column", "bought 3 May 2019 for £140,000", "belongs-elsewhere", "four blanks"),
    ("first column", "elm-9 1 Sep 2025 received rent £850.00", "belongs-elsewhere", "`1 Sep 2025 received rent £850.00`"),
)  # fmt: skip


def spot(under: str, line: str) -> Spot:
    text = HEADS[under] + line
    stop = read(text).stop
    assert stop is not None, f"this reads: {text!r}"
    return Spot(stop, Block(text, 1), "my.book")


@pytest.mark.parametrize("under, typed, line", PUT)
def test_the_line_of_the_book_is_put(under: str, typed: str, line: str) -> None:
    found = told_another_way(spot(under, typed))
    assert found is not None and found.fix is not None
    assert found.fix.line.strip() == line
    if not line.startswith("#"):
        head = "" if under in ("dated", "first column") else HEADS[under]
        assert read(head + line).stop is None


@pytest.mark.parametrize("under, typed, code, said", SAID)
def test_what_is_lacking_is_told_and_not_made_up(under: str, typed: str, code: str, said: str) -> None:
    found = told_another_way(spot(under, typed))
    assert found is not None
    assert (found.code, found.fix) == (code, None)
    assert said in found.help


def test_every_way_speaks_for_a_row() -> None:
    speaking = set()
    for under, typed, *_ in (*PUT, *SAID):
        plain = typed.replace(":", "")
        speaking |= {next((way.typed.pattern for way in _ways()[under] if way.typed.fullmatch(plain)), "")}
    assert [way.typed.pattern for ways in _ways().values() for way in ways if way.typed.pattern not in speaking] == []


def test_a_line_that_cannot_be_mended_hides_no_other() -> None:
    text = "loan castle-1 on elm-9 from castle\n    owed £72,000\n    colour blue\n    rate 5%\n    term 25 years"
    found = mistakes(Block(text, 1), "my.book")
    assert [(problem.code, problem.marks[0].line) for problem in found] == [
        ("line-unfinished", 2), ("unknown-field", 3), ("line-unfinished", 4), ("other-word", 5),
    ]  # fmt: skip


def test_what_hangs_on_a_line_that_cannot_be_mended_is_passed_over_with_it() -> None:
    text = 'property elm-9 "9 Elm Road"\n    colour blue,\n        and green\n    england'
    found = mistakes(Block(text, 1), "my.book")
    assert [problem.marks[0].line for problem in found] == [2, 4]
