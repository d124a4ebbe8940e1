"""The made-up houses that the examples of rules happen in, by name, and the people about them.

Mill Lane and its people are invented. Knows no rule.
"""

from __future__ import annotations

from ..record import record

PEOPLE = """
landlord asha "Asha Merrick"
    accounting cash
supplier cobb "Cobb & Daughter"
agent lowe "Lowe Lettings"
lender fen "Fen Building Society"
council wold "Wold Council"
"""

# Let from 1 Sep 2018, so that in 2025 it has long been let; it could be let as bought.
LET = """
property mill-3 "3 Mill Lane, Wold"
    nation england
    bought 10 Jun 2018 for £120,000
    as bought lettable
    price normal
    left by seller piano
tenancy okoye at mill-3
    tenants "B. Okoye"
    periodic from 1 Sep 2018
    rent £700 a month
"""
UNLET = LET.split("tenancy")[0]
DOCK = 'property dock-9 "9 Dock Road"\n    bought 1 May 2025 for £90,000\n    as bought {}\n    price normal\n'


def fresh(state: str = "", price: str = "", got: str = "bought 10 Jun 2025 for £120,000", more: str = "") -> str:
    """A house got in June 2025 and first let on 1 Oct 2025, in this state and at this price."""
    told = [f"    as bought {state}"] if state else []
    told += [f"    price {price}"] if price else []
    told += [f"    {line}" for line in more.split("; ") if line]
    fields = "\n".join(told)
    return f"""
property mill-3 "3 Mill Lane, Wold"
    {got}
{fields}
tenancy okoye at mill-3
    tenants "B. Okoye"
    periodic from 1 Oct 2025
    rent £700 a month
"""


@record
class House:
    """Where an example happens: in words that end in a colon, and as the blocks of a book."""

    words: str
    book: str


NEW = "In a house bought in June 2025{}, and let from October 2025:"
HOME = fresh(got="bought 10 Jun 2015 for £120,000", more="own home from 10 Jun 2015 to 30 Jun 2025")
HOUSES = {
    "let": House("In a house let since 2018, which was fit to let when bought:", LET),
    "fair": House(NEW.format(", fit to let, at a full price"), fresh("lettable", "normal")),
    "lettable": House(NEW.format(", fit to let, with nothing said about the price"), fresh("lettable")),
    "lettable and cheap": House(NEW.format(", fit to let, at a cut price"), fresh("lettable", "reduced")),
    "unfit": House(NEW.format(", not fit to let"), fresh("not lettable", "normal")),
    "condemned": House(
        NEW.format(", not fit to let owing to its roof and wiring"), fresh("not lettable owing to roof and wiring")
    ),
    "unfit and cheap": House(NEW.format(", not fit to let, at a cut price"), fresh("not lettable", "reduced")),
    "for a while": House(
        NEW.format(", fit to let only for a while, at a cut price"), fresh("lettable for a while", "reduced")
    ),
    "overdue": House(
        NEW.format(", fit to let only until its roof would have to be done, as the buyer knew"),
        fresh("lettable for a while owing to roof", "normal"),
    ),
    "cheap": House(NEW.format(", at a price cut for its state"), fresh("", "reduced")),
    "unknown": House(NEW.format(", with nothing said about its state"), fresh()),
    "inherited": House(
        "In a house inherited in June 2025, with nothing said about its state, and let from October 2025:",
        fresh(got="inherited 10 Jun 2025 at £120,000"),
    ),
    "first let for two years": House(
        "In a house bought in June 2025 and let for the first time from October 2025, for two years:",
        fresh("lettable", "normal").replace("periodic from 1 Oct 2025", "from 1 Oct 2025 to 30 Sep 2027"),
    ),
    "void": House(
        "In a house let from 2018 to May 2025, empty since and offered to let:",
        LET.replace("    left by", "    marketed to let from 1 Jun 2025\n    left by") + "    ended 31 May 2025\n",
    ),
    "let, nothing told": House(
        "In a house let since 2018, with nothing said about its state or price:",
        LET.replace("    as bought lettable\n    price normal\n", ""),
    ),
    "never let": House("In a house bought in 2018 and never let yet:", UNLET),
    "let since 2009": House("In a house let since 2009:", LET.replace("2018", "2009")),
    "let after years": House(
        "In a house bought in 2010 and first let in September 2018:",
        UNLET.replace("2018", "2010") + LET[LET.index("tenancy") :],
    ),
    "own home first": House("In a house that was your home until June 2025, and let from October 2025:", HOME),
    "own home until June": House("In a house that was your home until June 2025, and let from October 2025:", HOME),
    "own home between lets": House(
        "In a house let until December 2024, which was your home from January to May 2025:",
        LET.replace("    left by", "    own home from 1 Jan 2025 to 31 May 2025\n    left by")
        + "    ended 31 Dec 2024\n",
    ),
    "lease": House(
        "In a house taken in June 2025 on a lease of 14 years, to be put right, and let from October 2025:",
        fresh("not lettable", "normal", more="leasehold 14 years from 10 Jun 2025, to be put right"),
    ),
    "lodger": House(
        "In a house where you live and let a room since 2018:",
        LET.replace("    left by", "    own home from 10 Jun 2018\n    left by"),
    ),
    "sold": House(
        "In a house let from 2018 to May 2025, and sold in September 2025:",
        LET.replace("    as bought", "    sold 1 Sep 2025 for £200,000\n    as bought") + "    ended 31 May 2025\n",
    ),
    "let again": House(
        "In a house let since 2018, but for June and July 2025:",
        LET + "    ended 31 May 2025\n" + 'tenancy bell at mill-3\n    tenants "A. Bell"\n'
        "    periodic from 1 Aug 2025\n    rent £700 a month\n",
    ),
    "moved into": House(
        "In a house let from 2018 to May 2025, and your home since August 2025:",
        LET.replace("    left by", "    own home from 1 Aug 2025\n    left by") + "    ended 31 May 2025\n",
    ),
    "second house": House(
        "Where you let one house since 2018 (mill-3), and bought another fit to let in May 2025 (dock-9):",
        LET + DOCK.format("lettable"),
    ),
    "another's house": House(
        "Where Asha lets one house since 2018 (mill-3), and Ben bought another fit to let in May 2025 (dock-9):",
        ('landlord ben "Ben Merrick"\n' + LET).replace("    price normal\n", "    price normal\n    owners asha\n")
        + DOCK.format("lettable")
        + "    owners ben\n",
    ),
    "fit and unfit": House(
        "Where you let one house since 2018 (mill-3), and bought another not fit to let in May 2025 (dock-9):",
        LET + DOCK.format("not lettable"),
    ),
}
