"""What a lawyer, or another adviser, was paid for, as far as a line tells. Knows no rule.

By the purpose told first, by the landlord's other words where they are plain, else by the day.
"""

from __future__ import annotations

import re
from datetime import timedelta

from .case import Case

LAW_FOR = {  # purposes that the catalogue does not know, or not as what a lawyer is for
    "sale": "selling",
    "remortgage": "loan",
    "renewal": "tenant",
    "tenancy": "tenant",
    "tenant": "tenant",
    "lease renewal": "tenant",
    "tenancy agreement": "tenant",
}
AGAINST_TENANTS = ("possession", "evict", "bailiff", "arrears", "section 21", "section 8")  # in a purpose
EVICTS = (*AGAINST_TENANTS, "court", "notice")  # in other words, which only hint; common practice, no source
ABOUT = timedelta(days=62)  # of the day a house was got: a lawyer paid then hardly spoke of a tenant
KINDS_FOR = {"purchase": "buying", "capital": "selling", "finance": "loan"}


def law_for(case: Case) -> str:
    """What a lawyer, or a fee, was for, by the purpose told: buying, selling, a loan, a tenant; "" where not plain."""
    purpose = case.line.purpose.lower()
    known = case.history.known(purpose, "paid") if purpose else None
    if any(word in purpose for word in AGAINST_TENANTS):
        return "tenant"
    return LAW_FOR.get(purpose) or (KINDS_FOR.get(known.kind, "") if known else "")


OF_A_TENANT = frozenset({"tenant", "tenants", "tenancy", "tenancies"})
OF_A_DEAL = frozenset({"buy", "buying", "purchase", "sale", "sell", "selling", "surrender", "vacant", "lease"})


def words_of_a_tenant(case: Case) -> str:
    """The landlord's reason, where it speaks of a tenant and of no deal in the house; nothing about the day it was got,
    when a tenant may have been part of the deal."""
    for reason in case.facts.because if not near_the_deal(case) and case.let_before else ():
        words = set(re.findall(r"[a-z]+", reason.lower()))
        if words & OF_A_TENANT and not words & OF_A_DEAL:
            return reason
    return ""


def near_the_deal(case: Case) -> bool:
    """Whether the day lies about that on which the house was got or sold."""
    days = (deal.day for deal in (case.place.got, case.place.sold) if deal) if case.place else ()
    return any(abs(case.day - day) <= ABOUT for day in days)


def likely_law(case: Case) -> tuple[str, ...]:
    """What a lawyer may have been for, the likeliest first: by the landlord's own words, else by the day."""
    said = " ".join((case.name, case.line.note, *case.facts.because)).lower()
    bought = " for probate" if case.got_how == "inherited" else " for purchase"
    got = case.place.got if case.place else None
    about = got is not None and abs(case.day - got.day) <= ABOUT
    ways = [" for tenancy", " for eviction", bought if about else " for purchase"]
    if any(word in said for word in EVICTS):
        ways.insert(0, ways.pop(1))
    elif about:
        ways.insert(0, ways.pop())
    return tuple(ways)
