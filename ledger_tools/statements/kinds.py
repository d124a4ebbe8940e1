"""Each answer in a landlord's words: its short name, the same that `treat as` uses, and what becomes of the money."""

from __future__ import annotations

from ..verdicts.verdict import Kind, Part

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
    Kind.IGNORED: "moves nothing",
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
    Kind.IGNORED: "neither cost nor income",
}
FINANCE = ("finance cost", "lowers the tax bill at the basic rate")  # of a dwelling: no running cost like others


def plain(part: Part) -> str:
    """The answer of a part in a word or two."""
    return FINANCE[0] if _finance(part) else PLAIN[part.kind]


def effect(part: Part) -> str:
    """What becomes of the money of a part."""
    return FINANCE[1] if _finance(part) else EFFECT[part.kind]


def _finance(part: Part) -> bool:
    return part.kind is Kind.RUNNING and part.category == "finance_residential"


TAXED = frozenset({Kind.RUNNING, Kind.REPAIR, Kind.DOMESTIC, Kind.ARGUABLE, Kind.NETS, Kind.INCOME})

assert set(PLAIN) == set(EFFECT) == set(Kind)
