"""Each answer in a landlord's words: its short name, the same that `treat as` uses, and what becomes of the money."""

from __future__ import annotations

from ..verdicts.verdict import ON_A_RETURN, Cgt, Kind, Part

PLAIN = {
    Kind.RUNNING: "running cost",
    Kind.REPAIR: "repair",
    Kind.DOMESTIC: "item replaced",
    Kind.IMPROVEMENT: "improvement",
    Kind.ACQUISITION: "purchase cost",
    Kind.NO_RELIEF: "no relief",
    Kind.ARGUABLE: "open",
    Kind.PENDING: "waiting",
    Kind.PRIVATE: "private",
    Kind.NETS: "off a cost",
    Kind.INCOME: "income",
    Kind.CAPITAL_RECEIPT: "capital sum",
    Kind.IGNORED: "neither cost nor income",
}
EFFECT = {
    Kind.RUNNING: "comes off the rents",
    Kind.REPAIR: "comes off the rents",
    Kind.DOMESTIC: "comes off the rents",
    Kind.IMPROVEMENT: "counts when the house is sold",
    Kind.ACQUISITION: "counts when the house is sold",
    Kind.NO_RELIEF: "counts nowhere",
    Kind.ARGUABLE: "undecided; counts nowhere until it is settled",
    Kind.PENDING: "comes off once the letting begins",
    Kind.PRIVATE: "counts nowhere",
    Kind.NETS: "money in that makes a cost smaller",
    Kind.INCOME: "income of the letting",
    Kind.CAPITAL_RECEIPT: "no rent; may count as a gain",
    Kind.IGNORED: "counts neither in a year nor at a sale",
}
# Answers that need another word than their kind's: the cost of borrowing for a dwelling, of selling it, and what was
# capital and of which nothing is left for the gain.
FINANCE = ("finance cost", "lowers the tax bill at the basic rate")
SELLING = ("cost of selling", "counts when the house is sold")
NOTHING_LEFT = ("improvement, nothing left of it", "counts nowhere")
BY_RETURN = ("on a return already", "came off there, and counts nowhere else")


def plain(part: Part) -> str:
    """The answer of a part in a word or two."""
    return _other(part)[0] or PLAIN[part.kind]


def effect(part: Part) -> str:
    """What becomes of the money of a part."""
    return _other(part)[1] or EFFECT[part.kind]


def _other(part: Part) -> tuple[str, str]:
    if part.kind is Kind.RUNNING and part.category == "finance_residential":
        return FINANCE
    if part.kind is Kind.ACQUISITION and part.cgt is Cgt.DISPOSAL:
        return SELLING
    if part.kind is Kind.IMPROVEMENT and part.cgt is Cgt.NONE:
        return NOTHING_LEFT
    if part.kind is Kind.IGNORED and part.category == ON_A_RETURN:
        return BY_RETURN
    return ("", "")


TAXED = frozenset({Kind.RUNNING, Kind.REPAIR, Kind.DOMESTIC, Kind.ARGUABLE, Kind.NETS, Kind.INCOME})

assert set(PLAIN) == set(EFFECT) == set(Kind)
