"""What people mistype, and what they are told: the code, the place, and the line they may paste."""

# ruff: noqa: E501 (a row of the table stands on one line)

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from ledger_tools.language.blocks import Block, cut, plain
from ledger_tools.language.grammar import words
from ledger_tools.language.mistakes import RECOGNISERS
from ledger_tools.language.mistakes.dates import near_months
from ledger_tools.language.mistakes.sums import meant_sums
from ledger_tools.language.mistakes.tables import PLAIN_ENGLISH, VERB_TURNS, next_words
from ledger_tools.language.near import nearest
from ledger_tools.language.reading import read
from ledger_tools.language.spot import Spot
from ledger_tools.language.wording import problem
from ledger_tools.problems import Level, Problem
from tests.language.walk import reachable

D = "9 Jun 2025 "
PROPERTY = 'property mill-3 "3 Mill Lane"\n    '
TENANCY = "tenancy osei at mill-3\n    "
SCHEME = "scheme fenbury 2025-26\n    "
SCHEDULE = 'schedule mill-3 "ready to let"\n    '
LANDLORD = 'landlord nell "Nell Ashdown"\n    '

# text; code; the marked text; the corrected line, or None where nobody can know it; a word of the help
ROWS: list[tuple[str, str, str, str | None, str]] = [
    # verbs and headings
    (D + "replaced windows £90.00, single glazing to double glazing", "unknown-fact", "single glazing to double glazing", D + 'replaced windows £90.00, because "single glazing to double glazing"', "because"),
    (D + "claimed insurance £90.00 from pell, for burst pipe", "unknown-fact", "for burst pipe", D + 'claimed insurance £90.00 from pell, because "burst pipe"', "because"),
    (D + "replaced door £90.00, half of it to us", "unknown-fact", "half of it to us", D + 'replaced door £90.00, because "half of it to us"', "because"),
    (D + "repalced boiler £90.00", "unknown-verb", "repalced", D + "replaced boiler £90.00", "replaced"),
    (D + "recieved rent £850.00 from osei", "unknown-verb", "recieved", D + "received rent £850.00 from osei", "received"),
    (D + "invoice £90.00 by larkin", "unknown-verb", "invoice", D + "invoiced £90.00 by larkin", "invoiced"),
    (D + "zzyx boiler £90.00", "unknown-verb", "zzyx", None, "as a verb"),
    (D + "resurfaced path £90.00", "unknown-verb", "resurfaced", D + "replaced path surface £90.00", "replaced"),
    (D + "rewired kitchen £900.00 by volt", "unknown-verb", "rewired", D + "replaced wiring in kitchen £900.00 by volt", "wiring"),
    (D + "replastered front bedroom £90.00", "unknown-verb", "replastered", D + "replaced plaster in front bedroom £90.00", ""),
    (D + "repointed chimney £90.00", "unknown-verb", "repointed", D + "repaired chimney pointing £90.00", "pointing"),
    (D + "refurbished kitchen £900.00", "unknown-verb", "refurbished", None, "a line for each"),
    (D + "fixed tap in kitchen £90.00", "unknown-verb", "fixed", D + "repaired tap in kitchen £90.00", "repaired"),
    (D + "got rent 650", "unknown-verb", "got rent", D + "received rent £650", "pound sign"),
    (D + "got 650 from tenant", "unknown-verb", "got", None, "received rent £650 from tenant"),
    (D + "got £650.00 off bell", "unknown-verb", "got", None, "received deposit £650.00 from bell"),
    (D + "collected rent 650", "unknown-verb", "collected rent", D + "received rent £650", "pound sign"),
    (D + "spent 40 on keys", "unknown-verb", "spent", D + "paid keys £40", "sum after it"),
    (D + "received rent £650 off osei", "other-word", "off", D + "received rent £650 from osei", "from"),
    (D + "banked £506.00 from hale\n    commission £57.50", "verb-missing", "commission £57.50", "    paid commission £57.50", "kept back"),
    (D + "invoiced £9.00\n    replaced hob £9.00\n    improvement £4.00", "belongs-elsewhere", "improvement £4.00", "        improvement £4.00", "further"),
    (D + "invoiced £9.00\n    replaced hob £9.00\n    old one sold £4.00 to volt", "belongs-elsewhere", "old one sold £4.00", "        old one sold £4.00 to volt", "further"),
    (D + "invoiced £9.00\n    same again £4.00", "belongs-elsewhere", "same again £4.00", None, "the line it is of"),
    (D + "banked £506.00 from hale\n    less fee £57.50", "verb-missing", "less fee £57.50", "    paid management fee £57.50", "kept back"),
    (D + "banked £506.00 from hale\n    rent £575 reid", "verb-missing", "rent £575", "    received rent £575 from reid", "came in"),
    (D + "banked £506.00 from hale\n    VAT £11.50", "verb-missing", "VAT £11.50", None, "`, plus vat £11.50`"),
    (D + "banked £506.00 from hale\n    agents repair £19.00", "verb-missing", "agents repair £19.00", None, "`repaired … £19.00`"),
    (D + "paid insurance £248.00 annual premium", "unknown-fact", "annual premium", D + 'paid insurance £248.00, because "annual premium"', "because"),
    (D + "received rent £650.00 from osei cash", "unknown-fact", "cash", D + 'received rent £650.00 from osei, because "cash"', "because"),
    (D + "banked £506.00 from hale\n    balance carried £13.20", "verb-missing", "balance carried £13.20", None, "bank what came"),
    (D + "repaired gate £9.00, hinges £8.40 from volt", "belongs-elsewhere", "hinges £8.40 from volt", None, "`9 Jun 2025 bought hinges £8.40 from volt`"),
    (D + "repaired roof £1,300.00, solicitor £1,200, agent £2,085", "belongs-elsewhere", "solicitor £1,200", None, "`9 Jun 2025 paid solicitor £1,200`"),
    (D + "paid cleaning £87.00 to volt, after repairs", "unknown-fact", "after repairs", D + 'paid cleaning £87.00 to volt, because "after repairs"', "photo"),
    (D + "insurance paid out £500 for ceiling", "verb-first", "insurance", D + "received insurance £500 for ceiling", "the verb"),
    (D + "lowe moved out owing £595", "belongs-elsewhere", "lowe moved out", None, "`moved out 9 Jun 2025`"),
    (D + "paid architect £300.00, goes with roof", "belongs-elsewhere", "goes with", D + "paid architect £300.00 for roof", "behind"),
    (D + "billed skip £90.00 by dk, goes with roof", "belongs-elsewhere", "goes with", D + "billed skip £90.00 by dk for roof", "behind"),
    (D + 'probate solicitor £2,300 to "Kemble Law"', "verb-missing", "probate", D + 'paid probate solicitor £2,300 to "Kemble Law"', ""),
    (D + "frobwick £40.00 to volt, due 9 Jul 2025", "unknown-verb", "frobwick", D + "paid frobwick £40.00 to volt, due 9 Jul 2025", ""),
    (TENANCY + "from 3 Oct 2024 to 2 Apr 2025\n    rent £1,050 a month due on the 1st", "other-word", "rent £1,050 a month due on the 1st", "    rent £1,050 a month, first due 1 Nov 2024", ""),
    (TENANCY + "periodic from 1 Oct 2024\n    rent £1,050 pcm, due 1st", "other-word", "rent £1,050 pcm, due 1st", "    rent £1,050 a month, first due 1 Oct 2024", ""),
    (PROPERTY + "sole owner", "line-unfinished", "sole owner", None, "`owners paul` for one"),
    (PROPERTY + "joint owners", "line-unfinished", "joint owners", None, "`owners paul 50% and jean 50%` for two"),
    (PROPERTY + "owners ivan 99% and carol 1%, form 17 sent 2 Dec 2018", "belongs-elsewhere", "form 17 sent 2 Dec 2018", None, "`form 17 signed …, sent 2 Dec 2018`"),
    (D + "hung 5 doors £310.00 from volt", "unknown-verb", "hung", None, "`installed 5 doors` if there was none"),
    (D + "kite-2 fee for new fixed rate £999.00", "unknown-verb", "kite-2", None, "as a verb"),
    (D + "smart meter fitted free", "verb-first", "smart meter", D + "fitted smart meter", "the verb"),
    (D + "bank interest £3.20", "verb-missing", "bank interest", None, "`received bank interest £3.20 from …`"),
    (D + "accountant's bill £300.00", "verb-missing", "accountant's bill", D + "paid accountant £300.00", ""),
    (D + "bought kettle £61.00 sea-11", "missing-word", "sea-11", D + "bought kettle £61.00 at sea-11", "behind at"),
    (D + "painted hall, paint £31.00", "belongs-elsewhere", "paint £31.00", None, "`9 Jun 2025 bought paint £31.00`"),
    (D + "called out volt, blocked drain £90.00", "unknown-verb", "called out", None, "`cleared drain £90.00 by …`"),
    (D + "plumber £60.00", "verb-missing", "plumber", None, '`repaired … £60.00 by "plumber"`'),
    (D + "decorator £900.00, due 9 Jul 2025", "verb-missing", "decorator", None, '`decorated … £900.00 by "decorator"`'),
    (D + "gaz rewired the house £3,100", "verb-first", "gaz", D + "replaced wiring in house £3,100 by gaz", "the verb"),
    (D + "Gaz Pickup fixed tap £30.00, worn out", "verb-first", "Gaz Pickup", D + 'repaired tap £30.00 by "Gaz Pickup", worn out', "the verb"),
    (D + "got locks changed £65.00 by volt", "verb-first", "got locks", D + "replaced locks £65.00 by volt", "the verb"),
    (D + "knackered boiler ripped out", "verb-first", "knackered boiler", D + "removed knackered boiler", "the verb"),
    (D + "insurance renewed £261.00", "verb-missing", "insurance renewed", D + "paid insurance £261.00", "paid insurance"),
    (D + "new sofa and 2 beds £840.00 from volt", "unknown-verb", "new", None, "`replaced sofa and 2 beds £840.00 from volt` if"),
    (D + "frobwick £40.00, volt", "unknown-verb", "frobwick", None, "`paid frobwick £40.00`"),
    (D + "frobwick £40.00 from volt", "unknown-verb", "frobwick", None, "`bought frobwick £40.00 from volt` if it was only bought"),
    (D + "frobwick £40.00 by volt", "unknown-verb", "frobwick", None, "`repaired frobwick £40.00 by volt`"),
    (D + "frobwick £40.00 + £8.00 to volt", "unknown-verb", "frobwick", None, "`paid … £… to volt`"),
    (D + "rewired £900.00", "unknown-verb", "rewired", D + "replaced wiring £900.00", "wiring"),
    (D + "repaired window £65.00 by volt, broken by the tenant", "unknown-fact", "broken by the tenant", D + "repaired window £65.00 by volt, tenant damage", "who did the work"),
    (D + "fixed boiler 3 hrs me £40.00", "unknown-verb", "fixed", D + "repaired boiler 3 hrs me £40.00", "repaired"),
    (D + "cleared house 14 hours own labour", "other-word", "14 hours own labour", D + "cleared house, own labour 14 hours", "never a cost"),
    (D + "removed old wiring, 9 hours", "other-word", "9 hours", D + "removed old wiring, own labour 9 hours", "never a cost"),
    (D + "decorated hall £90.00 6.5 hrs by volt", "other-word", "6.5 hrs", D + "decorated hall £90.00 by volt, own labour 6.5 hours", "never a cost"),
    (D + "decorated hall £90.00, own labour 1 hr", "other-word", "own labour 1 hr", D + "decorated hall £90.00, own labour 1 hour", "never a cost"),
    (D + "repaired tap £90.00, 2 days own labour", "other-word", "2 days own labour", D + 'repaired tap £90.00, own labour, because "2 days"', "never a cost"),
    (D + "hired sander £90.00, 2 days", "unknown-fact", "2 days", D + 'hired sander £90.00, because "2 days"', "because"),
    (D + "bought paint 3 tins £40.00", "unknown-fact", "3 tins", D + 'bought paint £40.00, because "3 tins"', "because"),
    (D + "received insurance £520.00 from safe, excess £100.00", "unknown-fact", "excess £100.00", D + 'received insurance £520.00 from safe, because "excess £100.00"', "because"),
    (D + "paid council tax £486.00 to aldmere, empty premium", "unknown-fact", "empty premium", D + 'paid council tax £486.00 to aldmere, because "empty premium"', "because"),
    (D + "bought television £210.00, lounge", "missing-word", "lounge", D + "bought television £210.00 in lounge", "without the comma"),
    (D + "replaced carpets in hall, lounge, landing £90.00 from volt, worn out", "join-with-and", ",", D + "replaced carpets in hall and lounge and landing £90.00 from volt, worn out", "and"),
    (D + "told council aldmere the house is empty", "needs-quotes", "the house is empty", D + 'told aldmere "the house is empty"', "one word"),
    (D + "reroofed £9,000.00", "unknown-verb", "reroofed", D + "replaced roof £9,000.00", "roof"),
    (D + "payed insurance £640.00", "unknown-verb", "payed", D + "paid insurance £640.00", "paid"),
    (D + "repaird tap £30.00", "unknown-verb", "repaird", D + "repaired tap £30.00", "repaired"),
    (D + "got boiler serviced £90.00", "verb-first", "got boiler", D + "serviced boiler £90.00", "verb"),
    (D + "refunded fan £84.50 from volt", "unknown-verb", "refunded", D + "received refund £84.50 from volt for fan", "repaid"),
    (D + "paid service charge £1,980.00, of which £1,250.00 new roof", "other-word", "£1,250.00 new roof", D + "paid service charge £1,980.00, of which new roof £1,250.00", "comes first"),
    (D + "paid fine £300.00 to fenbury, no licence", "unknown-fact", "no licence", D + 'paid fine £300.00 to fenbury, because "no licence"', "your own"),
    (D + "paid mortgage fee £999.00 and survey", "word-out-of-place", "and", None, "who it was paid to"),
    (D + "paid ground rent £90.00 to larkin and volt", "word-out-of-place", "and", None, "to larkin for Jun 2025"),
    (D + "paid rewire £900.00 to volt, worn out", "belongs-elsewhere", "worn out", None, "`9 Jun 2025 replaced rewire £900.00 by volt, worn out`"),
    (D + "paid rewire £900.00 to volt, old one condemned", "belongs-elsewhere", "old one", None, "`9 Jun 2025 replaced rewire £900.00 by volt, broken`"),
    (D + "paid insurance £900.00 to volt, chapel-1", "missing-word", "chapel-1", D + "paid insurance £900.00 to volt at chapel-1", "behind at"),
    (D + "paid rewiring £900.00 at mill-3, required by volt", "belongs-elsewhere", "required", None, "begins with what was done"),
    (D + "refunded deposit £900.00 to osei", "unknown-verb", "refunded", D + "repaid deposit £900.00 to osei", "received refund"),
    (D + "boiler replaced £90.00", "verb-first", "boiler", D + "replaced boiler £90.00", "verb"),
    (D + "I replaced boiler £90.00", "verb-first", "I", D + "replaced boiler £90.00", "verb"),
    (D + "rent £850.00 from osei", "verb-missing", "rent", D + "received rent £850.00 from osei", "received"),
    (D + "£90.00 to larkin", "verb-missing", "£90.00", None, "paid"),
    ('propery mill-3 "3 Mill Lane"', "unknown-heading", "propery", 'property mill-3 "3 Mill Lane"', "property"),
    ('house mill-3 "3 Mill Lane"', "other-word", "house", 'property mill-3 "3 Mill Lane"', "property"),
    ("Mill-3", "unknown-heading", "Mill-3", None, "heading"),
    # things
    (D + "replaced in kitchen £90.00", "thing-missing", "in", None, "comes straight after"),
    (D + "decorated room 2 £90.00", "thing-missing", "room 2", None, "`walls in room 2`"),
    (D + "repaired radiator bedroom 2 £90.00", "missing-word", "bedroom 2", D + "repaired radiator in bedroom 2 £90.00", "in"),
    ("tenancy osei at mill-3, room 1", "belongs-elsewhere", "room 1", "tenancy osei at mill-3\n    room 1", "`room 1`"),
    ("tenancy osei in front bedroom at mill-3", "belongs-elsewhere", "front bedroom", "tenancy osei at mill-3\n    room front bedroom", "indented"),
    (D + "replaced", "thing-missing", "", None, "comes straight after"),
    (D + "replaced £90.00 boiler by larkin", "thing-missing", "£90.00", D + "replaced boiler £90.00 by larkin", "amount after"),
    (D + "repaired water damage £90.00", "reserved-words", "water damage", None, ", water damage"),
    (D + 'replaced "boiler" £90.00', "no-quotes", '"boiler"', D + "replaced boiler £90.00", "away"),
    (D + "replaced 3 windows of 8 £90.00", "count-behind", "8", D + "replaced 3 of 8 windows £90.00", "then the thing"),
    (D + "replaced 3 of windows £90.00", "count-behind", "windows", D + "replaced 3 windows £90.00", "3 of 8 windows"),
    # amounts and other figures
    (D + "replaced boiler in kitchen 2310.00", "amount-needs-pound", "2310.00", D + "replaced boiler in kitchen £2,310.00", "£"),
    (D + "replaced boiler in kitchen 2 310", "amount-needs-pound", "2 310", D + "replaced boiler in kitchen £2,310", "£"),
    (D + "replaced boiler 1250", "amount-needs-pound", "1250", D + "replaced boiler £1,250", "£"),
    (LANDLORD + "other income 31,400 in 2025-26", "amount-needs-pound", "31,400", "    other income £31,400 in 2025-26", "£"),
    (D + "received refund -£84.50 from volt", "negative-amount", "-£84.50", None, "`repaid refund £84.50 to volt`"),
    (D + "received refund £-84.50 from volt", "negative-amount", "£-84.50", None, "`received refund £84.50 from volt`"),
    (D + "paid (£90.00) to volt", "negative-amount", "(£90.00)", D + "paid £90.00 to volt", "`received £90.00 from volt`"),
    (D + "replaced boiler £1.5", "amount-unclear", "£1.5", D + "replaced boiler £1.50", "£1.50"),
    (D + "replaced boiler £1,23", "amount-unclear", "£1,23", None, '"£1.23" or "£123"'),
    (D + "replaced boiler £1,23.00", "amount-unclear", "£1,23.00", D + "replaced boiler £123.00", "£123.00"),
    (D + "replaced boiler £2k", "amount-unclear", "£2k", D + "replaced boiler £2,000", "£2,000"),
    (D + "replaced boiler £1 000.00", "amount-unclear", "£1 000.00", D + "replaced boiler £1,000.00", "comma"),
    (D + "replaced boiler £1 ,952.00", "amount-unclear", "£1 ,952.00", D + "replaced boiler £1,952.00", "comma"),
    (D + "replaced boiler 5£85.00", "amount-unclear", "5£85.00", None, "before all figures"),
    (D + "replaced boiler £", "amount-missing", "£", None, "figures"),
    (D + "replaced boiler $90.00", "foreign-money", "$90.00", None, "was EUR 43.00"),
    (D + "replaced boiler €90.00", "foreign-money", "€90.00", None, "was EUR 43.00"),
    (D + "replaced boiler 90.00 EUR", "foreign-money", "90.00 EUR", None, "was EUR 43.00"),
    (D + "bought lamp £36.12, was €43.00", "foreign-money", "€43.00", D + "bought lamp £36.12, was EUR 43.00", "EUR"),
    (D + "bought lamp £36.12, was 43.00", "foreign-money", "43.00", None, "EUR"),
    (SCHEDULE + "contingency 12", "number-needs-unit", "12", None, "12% or £12"),
    (PROPERTY + "owners nell 90 and joel 10%", "percent-needs-sign", "90", "    owners nell 90% and joel 10%", "sign"),
    ('agent quayside "Q"\n    charges 10 percent of rent', "percent-needs-sign", "10 percent", "    charges 10% of rent", "sign"),
    (SCHEME + "empty free for one month", "number-in-letters", "one", "    empty free for 1 month", "1"),
    (D + "drove 18miles", "missing-blank", "18miles", D + "drove 18 miles", "figure"),
    # dates and years
    ("2 Jum 2025 replaced boiler £90.00", "no-such-month", "Jum", "2 Jun 2025 replaced boiler £90.00", '"Jun" or "Jul"'),
    ("Jum 2014 installed conservatory £90.00", "no-such-month", "Jum", "Jun 2014 installed conservatory £90.00", "Jul"),
    (D + "paid £90.00 to volt for Agu 2025", "no-such-month", "Agu", D + "paid £90.00 to volt for Aug 2025", "Aug"),
    ("06/13/2025 paid £9.00 to volt", "no-such-month", "06/13/2025", "13 Jun 2025 paid £9.00 to volt", "day comes before"),
    ("09/06/25 replaced boiler £90.00", "two-digit-year", "09/06/25", "9 Jun 2025 replaced boiler £90.00", "in full"),
    ("9 Jun 25 replaced boiler £90.00", "two-digit-year", "9 Jun 25", "9 Jun 2025 replaced boiler £90.00", "in full"),
    ("30 Feb 2025 replaced boiler £90.00", "no-such-day", "30 Feb 2025", None, "paper"),
    ("9 Jun 9999 replaced boiler £90.00", "no-such-day", "9999", None, "paper"),
    ("Jun 1066 replaced boiler £90.00", "no-such-day", "1066", None, "paper"),
    ("2025-02-30 replaced boiler £90.00", "no-such-day", "2025-02-30", None, "paper"),
    ("9 Jun replaced boiler £90.00", "date-needs-year", "9 Jun", None, "year"),
    ("9.6.2025 replaced boiler £90.00", "date-unclear", "9.6.2025", "9 Jun 2025 replaced boiler £90.00", "letters"),
    ("June 9 2025 replaced boiler £90.00", "date-unclear", "June 9 2025", "9 Jun 2025 replaced boiler £90.00", "first"),
    ("2014 installed conservatory £90.00", "date-unclear", "2014", None, "month"),
    ("16 ul 2025 paid £9.00 to volt", "no-such-month", "ul", "16 Jul 2025 paid £9.00 to volt", "Jul"),
    ("9 Jun 205 paid £9.00 to volt", "two-digit-year", "9 Jun 205", None, "in full"),
    ("1 8Mar 2025 paid £9.00 to volt", "date-unclear", "1", None, "letters"),
    (D + "received rent £9.00 from osei for 15 2024 to 14 Aug 2024", "date-unclear", "15 2024", None, "letters"),
    (D + "received rent £9.00 from osei for Dec 023", "two-digit-year", "Dec 023", None, "in full"),
    ("scheme fenbury 2025-27", "year-unclear", "2025-27", "scheme fenbury 2025-26", '"2025-26" or "2026-27"'),
    ("scheme fenbury 2025/26", "year-unclear", "2025/26", "scheme fenbury 2025-26", "April"),
    ("scheme fenbury 2025", "year-unclear", "2025", "scheme fenbury 2025-26", "April"),
    (D + "billed council tax £90.00 for 23 May 2025", "period-open", "23 May 2025", None, "last day"),
    (D + "billed council tax £90.00 for 23 May 2025 – 31 Mar 2026", "dash-between-dates", "–",
     D + "billed council tax £90.00 for 23 May 2025 to 31 Mar 2026", "to"),
    (D + "billed council tax £90.00 for 23 May 2025-31 Mar 2026", "dash-between-dates", "-",
     D + "billed council tax £90.00 for 23 May 2025 to 31 Mar 2026", "to"),
    (D + "billed council tax £90.00 from 23 May 2025 to 31 Mar 2026", "wrong-word", "from",
     D + "billed council tax £90.00 for 23 May 2025 to 31 Mar 2026", "for"),
    (D + "replaced boiler £90.00 on 9 Jun 2025", "date-out-of-place", "on", None, "begins the line"),
    # facts
    (D + "replaced boiler £90.00, modern equivelant", "unknown-fact", "modern equivelant",
     D + "replaced boiler £90.00, modern equivalent", "modern equivalent"),
    (D + "replaced boiler £90.00 by larkin modern equivelant", "unknown-fact", "modern equivelant",
     D + "replaced boiler £90.00 by larkin, modern equivalent", "comma"),
    (D + "repaired roof £90.00, strom damage", "unknown-fact", "strom damage", D + "repaired roof £90.00, storm damage", "storm"),
    (D + "repaired roof £90.00, xyzzy", "unknown-fact", "xyzzy", D + 'repaired roof £90.00, because "xyzzy"', "worn out"),
    (D + "replaced boiler £90.00 by larkin like for like", "missing-comma", "like for like",
     D + "replaced boiler £90.00 by larkin, like for like", "comma"),
    (D + "replaced boiler £90.00 plus vat £18.00", "missing-comma", "plus", D + "replaced boiler £90.00, plus vat £18.00", ""),
    (TENANCY + "rent £850 a month first due 4 Aug 2025", "missing-comma", "first due",
     "    rent £850 a month, first due 4 Aug 2025", "comma"),
    (PROPERTY + "council fenbury band B", "missing-comma", "band", "    council fenbury, band B", "comma"),
    (D + "received rent £90.00 from osei, like for like", "belongs-elsewhere", "like for like", None, "Leave it out"),
    (D + "replaced boiler £90.00, first due 1 Aug 2025", "belongs-elsewhere", "first due", None, "Leave it out"),
    (PROPERTY + "rent £9 a month", "belongs-elsewhere", "rent £9 a month", None, "`rent £9 a month` indented under it"),
    (LANDLORD + "incme £90 in 2025-26", "unknown-field", "incme", "    other income £90 in 2025-26", "other income"),
    ("thing stone trough is gardn", "unknown-word", "gardn", "thing stone trough is garden", "garden"),
    # little words
    (D + "repaired roof £90.00 inn kitchen", "unknown-word", "inn", D + "repaired roof £90.00 in kitchen", "in"),
    (D + "converted loft itno 2 bedrooms £9.00", "unknown-word", "itno", D + "converted loft into 2 bedrooms £9.00", "into"),
    (D + "banked £90.00 quayside, number 7", "missing-word", "quayside", None, "by quayside"),
    (D + "paid £90.00 tolarkin", "missing-blank", "tolarkin", D + "paid £90.00 to larkin", "to"),
    ("loan wharf onmill-3", "missing-blank", "onmill-3", "loan wharf on mill-3", "on"),
    (D + "paid £90.00 to larkin against inovice 71", "unknown-word", "inovice", D + "paid £90.00 to larkin against invoice 71", ""),
    ("tenancy osei mill-3", "missing-word", "mill-3", "tenancy osei at mill-3", "at"),
    (PROPERTY + "bought 23 May 2025 £146,000", "missing-word", "£146,000", "    bought 23 May 2025 for £146,000", "for"),
    (D + "booked larkin 16 Jun 2025", "missing-word", "16 Jun 2025", D + "booked larkin for 16 Jun 2025", "for"),
    (D + "paid £90.00 to volt invoice 71", "missing-word", "invoice", D + "paid £90.00 to volt against invoice 71", "against"),
    (D + "paid £90.00 to volt against 71", "missing-word", "71", None, '"invoice 71"'),
    (SCHEDULE + "kitchen\n        1 replace boiler £90", "missing-word", "kitchen", "    in kitchen", "in"),
    (PROPERTY + "empty from 30 Apr 2025", "wrong-word", "from", "    empty since 30 Apr 2025", "since"),
    (D + "replaced oven £350.00, old one sold for £30.00", "extra-word", "for", D + "replaced oven £350.00, old one sold £30.00", ""),
    (TENANCY + "moved out on 10 Feb 2026", "extra-word", "on", "    moved out 10 Feb 2026", "away"),
    (TENANCY + "rent £925, first due 4 Aug 2025", "how-often", ",", "    rent £925 a month, first due 4 Aug 2025", "a week"),
    (TENANCY + "rent £925", "how-often", "", "    rent £925 a month", "a week"),
    (TENANCY + "rent £925 monthly", "other-word", "monthly", "    rent £925 a month", "a month"),
    (TENANCY + "rent £215 per week", "other-word", "per week", "    rent £215 a week", "a week"),
    # names and quotes
    (D + "replaced boiler £90.00 by, like for like", "name-missing", ",", None, "short name"),
    (D + "replaced boiler £90.00 by Kestrel Heating", "name-needs-quotes", "Heating",
     D + 'replaced boiler £90.00 by "Kestrel Heating"', "quotes"),
    (D + "paid £90.00 to Ridge & Sons, number 7", "name-needs-quotes", "& Sons", D + 'paid £90.00 to "Ridge & Sons", number 7', ""),
    (D + "bought lamp £9.00 from the shop", "name-needs-quotes", "shop", D + 'bought lamp £9.00 from "the shop"', "quotes"),
    ("at mill 3", "name-one-word", "mill 3", "at mill-3", "hyphen"),
    ('landlord "Nell Ashdown"', "name-one-word", '"Nell Ashdown"', 'landlord nell "Nell Ashdown"', "one word"),
    (D + "replaced boiler £90.00, receipt b.pdf", "needs-quotes", "b.pdf", D + 'replaced boiler £90.00, receipt "b.pdf"', "quotation"),
    (D + "replaced boiler £90.00, because the old one leaked", "needs-quotes", "the old one leaked",
     D + 'replaced boiler £90.00, because "the old one leaked"', "quotation"),
    (D + "noted met him", "needs-quotes", "met him", D + 'noted "met him"', "quotation"),
    (D + "told seller collect it", "needs-quotes", "collect it", D + 'told seller "collect it"', "quotation"),
    (TENANCY + "tenants Ama Osei and Jo Bell", "needs-quotes", "Ama Osei and Jo Bell",
     '    tenants "Ama Osei" and "Jo Bell"', "quotation"),
    (D + 'replaced boiler £90.00 by "Kestrel Heating, receipt "b.pdf"', "quote-open", '"',
     D + 'replaced boiler £90.00 by "Kestrel Heating", receipt "b.pdf"', "same line"),
    (D + 'replaced boiler £90.00 by "Kestrel Heating', "quote-open", '"',
     D + 'replaced boiler £90.00 by "Kestrel Heating"', "same line"),
    (D + "paid £90.00 to 'Jon Wells'", "single-quotes", "'Jon Wells'", D + 'paid £90.00 to "Jon Wells"', "double"),
    # signs
    (D + "replaced boiler £90.00.", "full-stop", ".", D + "replaced boiler £90.00", "away"),
    (D + "replaced boiler £90.00, like for like.", "full-stop", ".", D + "replaced boiler £90.00, like for like", "away"),
    (D + "replaced boiler £90.00; like for like", "semicolon", ";", D + "replaced boiler £90.00, like for like", "comma"),
    (D[:-1] + ": replaced boiler £90.00", "colon", ":", D + "replaced boiler £90.00", "away"),
    ("Jun 2014 - installed conservatory £9.00", "dash", "-", "Jun 2014 installed conservatory £9.00", "away"),
    (D + "replaced boiler & tank £90.00", "and-sign", "&", D + "replaced boiler and tank £90.00", "and"),
    (D + "replaced boiler/tank £90.00", "slash", "/", D + "replaced boiler and tank £90.00", "and"),
    (D + "replaced boiler (old) £90.00", "brackets", "(old)", D + 'replaced boiler "old" £90.00', "quotation"),
    (D + "replaced boiler £90.00 // note", "note-mark", "// ", D + "replaced boiler £90.00 # note", "#"),
    (D + "replaced boiler £90.00#note", "note-mark", "#", D + "replaced boiler £90.00 #note", "blank"),
    (D + "replaced boiler! £90.00", "stray-sign", "!", D + "replaced boiler £90.00", "away"),
    (D[:-1] + ", replaced boiler £9.00", "stray-comma", ",", D + "replaced boiler £9.00", "away"),
    (D + "replaced boiler £9.00, chosen,, loose", "stray-comma", ",", D + "replaced boiler £9.00, chosen, loose", "away"),
    (D + "replaced boiler £9.00,", "stray-comma", ",", D + "replaced boiler £9.00", "away"),
    (PROPERTY + "owners nell 90%, joel 10%", "join-with-and", ",", "    owners nell 90% and joel 10%", "and"),
    (PROPERTY + "rooms hall and kitchen", "join-with-comma", "and", "    rooms hall, kitchen", "comma"),
    (SCHEME + "empty free for 1 month, 25% off", "join-with-then", ",", "    empty free for 1 month then 25% off", "then"),
    # lines
    ("replaced gutters £90.00", "date-missing", "replaced", None, "date first"),
    ("rent £925 a month", "needs-indent", "rent", "    rent £925 a month", "blanks"),
    ("    9 Jun 2025 paid £9.00 to volt", "dated-line-indented", "9 Jun 2025", "9 Jun 2025 paid £9.00 to volt", "blanks"),
    (D + "invoiced £90.00 by volt\n    2 Jul 2025 paid £9.00", "dated-line-indented", "2 Jul 2025", "2 Jul 2025 paid £9.00", ""),
    ("at mill-3\n    2 Jul 2025 paid £9.00 to volt", "dated-line-indented", "2 Jul 2025", "2 Jul 2025 paid £9.00 to volt", ""),
    ("    worn out", "nothing-above", "worn", None, "first column"),
    ("at mill-3\n    rooms hall", "nothing-below", "rooms", None, "first column"),
    (D + "replaced boiler £90.00\n    replaced tap £9.00", "job-under-work", "replaced", D + "replaced tap £9.00", "own date"),
    (D + "replaced boiler £90.00\n    worn out\n        loose", "too-deep", "loose", "    loose", "indentation"),
    (SCHEDULE + "in kitchen\n        replace boiler £90", "priority-missing", "replace", "        1 replace boiler £90", "figure"),
    (SCHEDULE + "in kitchen\n    1 replace boiler £90", "needs-deeper-indent", "1", "        1 replace boiler £90", "blanks"),
    (SCHEDULE + "in kitchen\n        1 rewire £90", "unknown-verb", "rewire", "        1 replace wiring £90", "`replace wiring`"),
    (SCHEDULE + "in kitchen\n        1 rewire the kitchen £90 by volt", "unknown-verb", "rewire", "        1 replace wiring £90 by volt", "room above"),
    (SCHEDULE + "in kitchen\n        1 rewired £90", "unknown-verb", "rewired", "        1 replace wiring £90", "`replace wiring`"),
    (SCHEDULE + "in kitchen\n        3 skim £90", "unknown-verb", "skim", "        3 repair plaster £90", "`repair plaster`"),
    (SCHEDULE + "in kitchen\n        3 paint walls £90", "unknown-verb", "paint", "        3 decorate walls £90", "`decorate`"),
    (SCHEDULE + "in kitchen\n        3 fit carpet £90", "unknown-verb", "fit", "        3 install carpet £90", "`install`"),
    (SCHEDULE + "in kitchen\n        1 replaced boiler £90", "unknown-verb", "replaced", "        1 replace boiler £90", "replace"),
    (SCHEDULE + "in kitchen\n        2 extractor fan £90", "job-without-verb", "extractor fan", None, "`install extractor fan`"),
    (SCHEDULE + "in kitchen\n        2 new boiler £90", "job-without-verb", "new boiler", None, "`replace boiler`"),
    (SCHEDULE + "in kitchen\n        1 asbestos survey £90", "job-without-verb", "asbestos survey", None, "`inspect asbestos`"),
    ('property mill-3 "3 Mill Lane"\n    as bought not lettable, owing to boiler', "stray-comma", ",", "    as bought not lettable owing to boiler", "comma away"),
    (SCHEDULE + "1 replace boiler £90", "job-without-room", "1 replace", "    in whole house\n        1 replace boiler £90", "`in whole house`"),
    (SCHEDULE + "replace boiler £90", "job-without-room", "replace", "    in whole house\n        1 replace boiler £90", "`in whole house`"),
    # no English word is taken for a slip in another one
    (D + 'refund £30.00 from "Carpet Loft"', "verb-missing", "refund", D + 'received refund £30.00 from "Carpet Loft"', "received refund"),
    (D + "refund £30.00", "verb-missing", "refund", None, "`repaid refund £30.00 to …`"),
    (D + "council tax refund £40.00 from fenbury", "verb-missing", "council tax refund",
     D + "received refund for council tax £40.00 from fenbury", "received refund for council tax"),
    (D + "insurance £90.00 by volt", "verb-missing", "insurance", D + "paid insurance £90.00 to volt", "paid insurance"),
    (D + "insurance £90.00 from volt", "verb-missing", "insurance", None, "`received insurance £90.00 from …`"),
    (D + "boiler service £90.00 by volt", "verb-missing", "boiler service", D + "serviced boiler £90.00 by volt", "serviced"),
    (D + "rent -£312.00 from osei", "verb-missing", "rent", None, "`repaid rent £312.00 to …`"),
    (D + "£90.00 from osei", "verb-missing", "£90.00", None, "`received £90.00 from osei`"),
    (D + "replaced door £200.00, fire door required", "unknown-fact", "fire door required",
     D + 'replaced door £200.00, required, because "fire door required"', "fact by itself"),
    (D + "repaired tap £80.00, not quite closing", "unknown-fact", "not quite closing",
     D + 'repaired tap £80.00, because "not quite closing"', "because"),
    (D + "repaired roof £80.00, storm dammage", "unknown-fact", "storm dammage", D + "repaired roof £80.00, storm damage", "storm"),
    (D + "replaced hob £80.00 by volt, required by law", "unknown-fact", "required by law",
     D + 'replaced hob £80.00 by volt, required, because "required by law"', "because"),
    (D + "replaced hob £80.00 by volt, broken beyond repair", "unknown-fact", "broken beyond repair",
     D + 'replaced hob £80.00 by volt, broken, because "broken beyond repair"', "because"),
    (D + "replaced hob £80.00, tenant damaged it", "unknown-fact", "tenant damaged it",
     D + 'replaced hob £80.00, tenant damage, because "tenant damaged it"', "because"),
    (D + "new hob £80.00", "unknown-verb", "new", None, "`installed hob £80.00`"),
    (D + "paid £90.00 Dave for tap", "missing-word", "Dave", None, "to Dave"),
    (D + "replaced oven £400.00 including delivery £20.00 by volt", "other-word", "including delivery £20.00",
     D + "replaced oven £400.00 by volt, of which delivery £20.00", "of which"),
    (D + "replaced oven £400.00 inc delivery", "other-word", "inc delivery", None, "of which delivery £…"),
    (D + "serviced boiler £90.00 & issued paper", "word-out-of-place", "&", None, "serviced boiler £90.00 by"),
    (D + "paid £90.00 towards volt", "word-out-of-place", "towards", None, "paid £90.00"),
    # verbs of other trades
    (D + "mowed lawn £30.00", "unknown-verb", "mowed lawn", D + "paid gardening £30.00", "paid gardening"),
    (D + 'mowed lawn £30.00 by "Green & Sons"', "unknown-verb", "mowed lawn", D + 'paid gardening £30.00 to "Green & Sons"', "paid"),
    (D + "mowed front lawn £30.00", "unknown-verb", "mowed", D + 'paid gardening "mowed front lawn" £30.00', "paid gardening"),
    (D + "cut the grass £30.00", "unknown-verb", "cut the grass", D + "paid gardening £30.00", "paid gardening"),
    (D + "cut keys £9.00", "unknown-verb", "cut keys", D + "bought keys £9.00", "bought keys"),
    (D + "regrouted tiles £60.00", "unknown-verb", "regrouted", D + "repaired tiles £60.00", "repaired"),
    (D + "knocked down the shed £90.00", "unknown-verb", "knocked down", D + "removed whole shed £90.00", "removed whole"),
    (D + "topped up oil £300.00", "unknown-verb", "topped up", D + "paid oil £300.00", "paid"),
    (D + "returned deposit £900.00 to osei", "unknown-verb", "returned deposit", D + "repaid deposit £900.00 to osei", "repaid"),
    (D + "returned fan £30.00 to volt", "unknown-verb", "returned", None, "`received credit £30.00 from … against invoice …`"),
    (D + "got rent £850.00 from osei", "unknown-verb", "got rent", D + "received rent £850.00 from osei", "received rent"),
    (D + "got paint £24.00 from volt", "unknown-verb", "got", D + "bought paint £24.00 from volt", "bought"),
    (D + "reclaimed council tax £40.00 from fenbury", "unknown-verb", "reclaimed",
     D + "received refund for council tax £40.00 from fenbury", "received refund for"),
    (D + "sent £40.00 to volt", "unknown-verb", "sent", D + "paid £40.00 to volt", "which way"),
    (D + "collected £40.00 from osei", "unknown-verb", "collected", D + "received £40.00 from osei", "which way"),
    (D + "transferred £40.00", "unknown-verb", "transferred", None, "received £40.00 from"),
    (D + "spent £40.00 on paint", "unknown-verb", "spent", D + "paid paint £40.00", "straight after paid"),
    (D + "withheld £40.00", "unknown-verb", "withheld", None, "`paid management fee £40.00`"),
    (D + "tarmacked drive £900.00", "unknown-verb", "tarmacked", None, "replaced drive"),
    (D + "topped up the meter", "unknown-verb", "topped up", None, "The sum goes with it"),
    (D + "repair tap £90.00", "unknown-verb", "repair", D + "repaired tap £90.00", "repaired"),
    (D + "wibbled tap £31.00", "unknown-verb", "wibbled", None, "`replaced tap £31.00`"),
    (D + "Larkin phoned about damp", "unknown-verb", "Larkin", None, '`noted "Larkin phoned about damp"`'),
    (D + "Dave repaired tap £80.00, worn out", "verb-first", "Dave", D + 'repaired tap £80.00 by "Dave", worn out', "verb"),
    (D + "osei paid rent £850.00", "verb-first", "osei", None, "`received rent £850.00 from osei`"),
    (D + "rent paid £850.00 by osei", "verb-first", "rent", None, "`received rent £850.00"),
    (D + "rent received £850.00", "verb-first", "rent", D + "received rent £850.00", "verb"),
    # what the block of a tenancy holds, and one's own time
    (D + "tenant left", "belongs-elsewhere", "tenant left", None, "`moved out 9 Jun 2025`"),
    (D + "Osei moved out", "belongs-elsewhere", "Osei moved out", None, "`moved out 9 Jun 2025`"),
    (D + "protected deposit £980.00", "belongs-elsewhere", "protected deposit", None,
     "`deposit £980.00, received …, protected 9 Jun 2025`"),
    (D + "rent increase £950 from 1 Sep 2025", "belongs-elsewhere", "rent increase", None,
     "`rent £950 a month from 1 Sep 2025, notice 9 Jun 2025`"),
    (D + "Osei gave notice", "belongs-elsewhere", "Osei gave notice", None, "`notice 9 Jun 2025 by tenant`"),
    (D + "served notice on osei", "belongs-elsewhere", "served notice", None, "`notice 9 Jun 2025 by landlord`"),
    (D + "let to osei from 1 Sep 2025", "belongs-elsewhere", "let", None, "`from 1 Sep 2025`"),
    (D + "my own labour £200.00", "verb-missing", "my own labour", None, "lines of their own"),
    # clauses in other words
    (D + "paid interest £310.00 on wharf", "wrong-word", "on", D + "paid interest £310.00 to wharf", "to wharf"),
    (D + "paid insurance £310.00 on mill-3", "wrong-word", "on", None, "at mill-3"),
    (D + "bought wood, screws and nails", "join-with-and", ",", D + "bought wood and screws and nails", "and"),
    (D + "bought wood, screws, nails and glue £30.00 from volt", "join-with-and", ",",
     D + "bought wood and screws and nails and glue £30.00 from volt", "and"),
    (D + "repaired tap, kitchen £90.00", "unknown-fact", "kitchen", None, "in kitchen"),
    (D + "paid insurance £80.00 at elm-9 and oak-4", "wrong-word", "at elm-9 and oak-4",
     D + "paid insurance £80.00 across elm-9 and oak-4, split equally", "across"),
    (D + "paid insurance £80.00 at elm-9, oak-4", "wrong-word", "at elm-9, oak-4",
     D + "paid insurance £80.00 across elm-9 and oak-4, split equally", "across"),
    (D + "paid insurance £80.00 across elm-9, oak-4 to volt, number 7", "join-with-and", "oak-4",
     D + "paid insurance £80.00 across elm-9 and oak-4 to volt, split equally, number 7", "split equally"),
    (D + "paid insurance £80.00 across elm-9 60%, oak-4 40%", "join-with-and", "oak-4 40%",
     D + "paid insurance £80.00 across elm-9 60% and oak-4 40%", "percentage"),
    (D + 'invoiced £960.00 by "Ridge & Sons", invoice 118', "other-word", "invoice 118",
     D + 'invoiced £960.00 by "Ridge & Sons", number 118', "number 118"),
    (D + "billed council tax £210.00 by fenbury, 12 May 2025 to 30 Jun 2025", "missing-word", "12 May 2025 to 30 Jun 2025",
     D + "billed council tax £210.00 by fenbury for 12 May 2025 to 30 Jun 2025", "for"),
    (D + "received rent £850.00 from osei for Jun 2025 to Aug 2025", "wrong-word", "Jun 2025 to Aug 2025",
     D + "received rent £850.00 from osei for 1 Jun 2025 to 31 Aug 2025", "31 Aug 2025"),
    (D + "drove 22 miles to view the house", "needs-quotes", "to view the house", D + 'drove 22 miles "to view the house"', "trip"),
    (D + "drove 22 miles, to view the house", "needs-quotes", "to view the house", D + 'drove 22 miles "to view the house"', "trip"),
    (D + "repaired tap £80.00 by volt and larkin", "word-out-of-place", "and", None, "tap £80.00 by volt, number 71"),
    # what is inside a sum
    (D + "paid £108.00 including vat to volt", "other-word", "including vat", D + "paid £108.00 to volt", "the sum tells it"),
    (D + "repaired tap £108.00 incl vat by volt", "other-word", "incl vat", D + "repaired tap £108.00 by volt", "of which vat"),
    (D + "repaired tap £108.00 inc. VAT", "other-word", "inc. VAT", D + "repaired tap £108.00", "of which vat"),
    (D + "repaired tap £108.00 incl. £18.00 vat by volt", "other-word", "incl. £18.00 vat",
     D + "repaired tap £108.00 by volt, of which vat £18.00", "of which vat £18.00"),
    (D + "repaired tap £90.00 + vat by volt", "other-word", "+ vat", None, "plus vat"),
    (D + "paid £80.00 + £16.00 to volt", "and-sign", "£80.00 + £16.00", D + "paid £96.00 to volt", '"plus … £16.00"'),
    (D + "paid £80.00 plus £16.00 vat to volt", "and-sign", "£80.00 plus £16.00", D + "paid £80.00 to volt, plus vat £16.00", "plus vat"),
    (D + "paid phone £22.00, 30% business", "unknown-fact", "30% business", D + "paid phone £22.00, of which private £15.40", "private"),
    (D + "paid phone £22.00, private half", "unknown-fact", "private half", D + "paid phone £22.00, of which private £11.00", "private"),
    (D + "paid phone £22.00, private", "unknown-fact", "private", None, "of which private £…"),
    (D + "invoiced £960.00 by volt, 5% retention", "other-word", "5% retention", D + "invoiced £960.00 by volt, retention 5%", ""),
    # minus signs
    (D + "banked -£312.00 from quayside", "negative-amount", "-£312.00", None, "`paid £312.00 to quayside`"),
    (D + "paid -£312.00 to volt", "negative-amount", "-£312.00", D + "paid £312.00 to volt", "`received £312.00 from volt`"),
    (D + "paid refund -£312.00 to volt", "negative-amount", "-£312.00", None, "`received refund £312.00 from volt`"),
    (D + "invoiced -£50.00 by volt", "negative-amount", "-£50.00", None, "`received refund £50.00 from volt`"),
    # pasted from elsewhere
    ("09/06/2025\tDave Smee\tTap repair\t80.00", "spreadsheet-row", "09/06/2025\tDave Smee\tTap repair\t80.00", None,
     '`9 Jun 2025 paid £80.00 to "Dave Smee", because "Tap repair"`'),
    ("9 Jun 2025\tDave\trepaired tap\t80.00", "spreadsheet-row", "9 Jun 2025\tDave\trepaired tap\t80.00",
     D + 'repaired tap £80.00 by "Dave"', "sentence"),
    ("09/06/2025,Dave Smee,Tap repair,-80.00", "spreadsheet-row", "09/06/2025,Dave Smee,Tap repair,-80.00", None, "with a verb"),
    ("09/06/25;received rent;osei;850.00", "spreadsheet-row", "09/06/25;received rent;osei;850.00",
     D + 'received rent £850.00 from "osei"', "sentence"),
    ("Date\tDescription\tAmount", "spreadsheet-row", "Date\tDescription\tAmount", None, "Leave it out"),
    ("- 9 Jun 2025 replaced boiler £90.00", "dash", "-", D + "replaced boiler £90.00", "away"),
    ("• 9 Jun 2025 replaced boiler £90.00", "stray-sign", "•", D + "replaced boiler £90.00", "away"),
    ("* 9 Jun 2025 replaced boiler £90.00", "stray-sign", "*", D + "replaced boiler £90.00", "away"),
    (D + "invoiced £90.00 by volt\n    - replaced tap £90.00", "dash", "-", "    replaced tap £90.00", "away"),
    # headings and owners in another order
    ("loan castle-1 from castle at elm-9", "other-word", "loan castle-1 from castle at elm-9", "loan castle-1 on elm-9 from castle", "behind on"),
    ("mortgage on elm-9", "other-word", "mortgage on elm-9", "loan loan-1 on elm-9", "any other will do"),
    ("mortgage £80,000 from Castle at elm-9", "other-word", "mortgage £80,000 from Castle at elm-9", 'loan castle-1 on elm-9 from "Castle"', "borrowed £80,000 from"),
    ("loan elm-9 from castle", "line-unfinished", "loan elm-9 from castle", None, "`loan castle-1 on elm-9 from castle` if elm-9 is the house"),
    ("tenant Peter Dray at elm-9", "other-word", "tenant Peter Dray at elm-9", "tenancy dray at elm-9", '`tenants "Peter Dray"`'),
    ('tenant "Lee Moss" quay-5', "other-word", 'tenant "Lee Moss" quay-5', "tenancy moss at quay-5", '`tenants "Lee Moss"`'),
    ("landlord sam Sam Okell", "needs-quotes", "Sam Okell", 'landlord sam "Sam Okell"', "round it"),
    (D + "new carpet in lounge 310.00", "unknown-verb", "new", None, "`replaced carpet in lounge £310.00` if it took the place"),
    ("let elm-9 to dray", "other-word", "let elm-9 to dray", "tenancy dray at elm-9", "behind at"),
    ("property 2 Birch Way, Anytown", "name-one-word", "property 2 Birch Way, Anytown", 'property birch-2 "2 Birch Way, Anytown"', "one word"),
    ("landlord Paul Marsh", "name-one-word", "landlord Paul Marsh", 'landlord paul "Paul Marsh"', "full name"),
    (PROPERTY + "owned by paul 50%, jean 50%", "other-word", "owned by paul 50%, jean 50%", "    owners paul 50% and jean 50%", "joined by and"),
    (PROPERTY + "owner paul 50% jean 50%", "other-word", "owner paul 50% jean 50%", "    owners paul 50% and jean 50%", "joined by and"),
    (PROPERTY + "50% paul 50% jean", "other-word", "50% paul 50% jean", "    owners paul 50% and jean 50%", "joined by and"),
    (PROPERTY + "owned equally by paul and jean from 3 May 2019", "other-word", "owned equally by paul and jean from 3 May 2019", "    owners paul and jean from 3 May 2019", "alike"),
    (PROPERTY + "joint with jean", "line-unfinished", "joint with jean", None, "owners paul 50% and jean 50%"),
    # a year is part of two tax years
    ("2014 extended kitchen £9,000.00", "date-unclear", "2014", None, "before 6 Apr 2014, write `Jan 2014 extended kitchen £9,000.00`"),
    ("summer 2014 extended kitchen £9,000.00", "date-unclear", "summer 2014", None, "`Jun 2014 extended kitchen £9,000.00`"),
    (D + "had boiler serviced £90.00", "verb-first", "had boiler", D + "serviced boiler £90.00", "verb"),
    # all else
    ('property mill-3\n    rooms hall', "line-unfinished", "", None, "address comes next"),
    (D + "replaced boiler £90.00, treat as repair", "line-unfinished", "", None, "needs its reason"),
    (PROPERTY + "nation britain", "word-out-of-place", "britain", None, "wales"),
    ("at the flat", "word-out-of-place", "flat", None, "complete"),
]  # fmt: skip

NEVER = re.compile(r"syntax|unexpected|illegal|invalid|token|terminal|pars(e|er|ing)|[A-Z]{3,}_|__", re.I)


def told(text: str) -> tuple[Problem, Block]:
    reading = read(text)
    assert reading.stop is not None, f"this reads: {text!r}"
    block = Block(text, 7)
    return problem(reading.stop, block, "diary.book"), block


@pytest.mark.parametrize("text, code, marked, line, help", ROWS, ids=[row[0][-45:] for row in ROWS])
def test_a_mistake_is_told(text, code, marked, line, help) -> None:
    found, _ = told(text)
    first = found.marks[0]
    assert found.code == code
    assert found.level is Level.ERROR
    assert first.text[first.column - 1 : first.end - 1] == marked
    assert (found.fix.line if found.fix else None) == line
    assert help in found.help


@pytest.mark.parametrize("text", [row[0] for row in ROWS], ids=[row[0][-45:] for row in ROWS])
def test_what_is_told_is_fit_to_read(text) -> None:
    found, block = told(text)
    assert re.fullmatch(r"[A-Z\"£$(].*[.?]", found.headline)
    assert found.help[-1] in ".?…" or "For example" in found.help
    assert not NEVER.search(found.headline + found.help)
    assert found.marks[0].file == "diary.book"
    lines = text.split("\n")
    for mark in found.marks:
        assert mark.text == lines[mark.line - block.line]


@pytest.mark.parametrize("row", [row for row in ROWS if row[3]], ids=[row[0][-45:] for row in ROWS if row[3]])
def test_the_corrected_line_mends_it(row) -> None:
    """Pasted over the wrong line, the block has no mistake at that place any more."""
    text = row[0]
    found, block = told(text)
    assert found.fix is not None
    lines = text.split("\n")
    at = found.fix.mark.line - block.line
    lines[at] = found.fix.line
    blocks = cut("\n".join(lines))
    stops = [(read(b.text).stop, b) for b in blocks]
    again = [problem(stop, b, "") for stop, b in stops if stop is not None]
    assert found.code not in [p.code for p in again]


def test_every_recogniser_speaks_for_a_row() -> None:
    speaking = set()
    for text, *_ in ROWS:
        stop = read(text).stop
        assert stop is not None
        spot = Spot(stop, Block(text, 1), "")
        speaking.add(next((recognise for recognise in RECOGNISERS if recognise(spot)), None))
    assert [recognise.__name__ for recognise in RECOGNISERS if recognise not in speaking] == []
    assert None in speaking, "some mistakes are left to the table of stops"


@pytest.mark.parametrize("typed", sorted({typed for turn in VERB_TURNS for typed in turn.typed}))
def test_a_verb_of_another_trade_never_turns_money_round(typed) -> None:
    """A line proposed reads, and sends the money where the little word says; where they are at odds, none is."""
    for joint, wrong in (("to", ("received", "banked", "borrowed")), ("from", ("paid", "repaid"))):
        text = f"{D}{typed} lamp £90.00 {joint} volt"
        if read(text).stop is None:
            continue
        found, _ = told(text)
        assert found.help
        if found.fix is not None and typed != "statement":
            assert read(found.fix.line).stop is None, found.fix.line
            assert found.fix.line.split()[3] not in wrong, found.fix.line


def test_a_plain_word_is_not_taken_for_another() -> None:
    """Of the plain words that lie near one of the book, none is put in its place."""
    book = sorted({word for held in words().says.values() for word in held})
    near = [typed for typed in sorted(PLAIN_ENGLISH) if nearest([typed], book)]
    assert len(near) > 200
    for typed in near:
        for text in (f"{D}{typed} lamp £90.00", f"{D}repaired lamp £90.00, {typed} x"):
            if read(text).stop is not None:
                found, _ = told(text)
                assert "Did you mean" not in found.help, text


def test_a_misspelt_little_word_in_a_thing_is_left_to_the_names() -> None:
    assert read(D + "replaced boiler inn kitchen £90.00").stop is None


def test_a_mark_is_in_its_file_and_line() -> None:
    text = "# note\n\n" + D + "paid £9.00 to volt\n    worn out,\n      strom damage\n"
    (block,) = cut(text)
    stop = read(block.text).stop
    assert stop is not None
    first = problem(stop, block, "diary.book").marks[0]
    assert (first.line, first.column, first.end) == (4, 5, 13)


@pytest.mark.parametrize(
    "typed, months", [("Jum", ["Jun", "Jul"]), ("Sept", ["Sep"]), ("febuary", ["Feb"]), ("xyz", [])]
)
def test_near_months(typed, months) -> None:
    assert near_months(typed) == months


@pytest.mark.parametrize(
    "typed, sums",
    [("1.5", ["£1.50"]), ("1,23", ["£1.23", "£123"]), ("1.234,56", ["£1,234.56"]), ("1.234", ["£1,234"]),
     ("1,000,00", ["£1,000.00", "£100,000"]), ("2,310.00", ["£2,310.00"]), ("90.0.0", [])],
)  # fmt: skip
def test_meant_sums(typed, sums) -> None:
    assert meant_sums(typed) == sums


# ── any text at all ──────────────────────────────────────────────────────────────────────────────────────────────

GOOD = sorted({row[3] if "\n" not in row[0] else row[0] for row in ROWS if row[3]})
BITS = [
    " ", ",", ".", '"', "\n", "\n    ", "\n        ", "£", "%", "9 Jun 2025", "30 Feb 2025", "2025-26", "£90.00", "-£9",
    "by", "in", "for", "at", "and", "to", "worn out", "like for like", "replaced", "rent", "#", "12", "€5", "(", "\t", "\x00",
]  # fmt: skip


@st.composite
def mutated(draw: st.DrawFn) -> str:
    """A line that reads, or nearly, with a few slips in it."""
    text = draw(st.sampled_from(GOOD))
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(text)))
        cut_off = draw(st.integers(0, 6))
        text = text[:at] + draw(st.sampled_from(["", *BITS])) + text[at + cut_off :]
    return text


def _all_told(text: str) -> None:
    for block in cut(plain(text)):
        reading = read(block.text)
        if reading.stop is None:
            continue
        assert reading.stop.accepts in reachable()
        assert next_words(reading.stop.accepts, "any") is not None
        found = problem(reading.stop, block, "a.book")
        assert found.headline and found.help and found.marks
        lines = block.text.split("\n")
        for mark in found.marks:
            assert mark.text == lines[mark.line - block.line]
            assert 1 <= mark.column <= mark.end <= len(mark.text) + 1
        if found.fix:
            assert found.fix.line != found.fix.mark.text


@settings(max_examples=400, deadline=None)
@given(mutated())
def test_a_line_with_slips_gives_a_problem(text) -> None:
    _all_told(text)


@settings(max_examples=300, deadline=None)
@given(st.text(max_size=80) | st.lists(st.sampled_from(BITS), max_size=12).map(" ".join))
def test_any_text_gives_a_problem(text) -> None:
    _all_told(text)
