"""A letter to the council about an empty home, from the facts of its statement. Knows no layout, signs nothing.

It asks only for what is due on every answer to what the book leaves open.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from ..book.world import Book
from ..days import Period, day_words
from ..money import pounds
from .void import BillRow, Claim, Reason, Void

# For each reason: what is asked, and what to send with it.
ASKS = {
    "date-start": ("begin my account on {after}", ("the completion statement", "the date of the Land Registry entry")),
    "date-end": ("end my account on {before}", ("the tenancy agreement", "the check-in list and meter readings")),
    "wrong-party": (
        "send the bill for {days} to the tenant", ("the tenancy agreement", "the notice or surrender, or that there was none"),
    ),
    "discount-missing": ("take the reduction off for {days}", ("dated photographs of the empty rooms", "meter readings")),
    "class-d-refused": (
        "treat it as needing or undergoing major works for {days}",
        ("a schedule of the works", "quotes and invoices", "a surveyor's or engineer's report", "photographs before and after"),
    ),
    "premium-too-early": ("take the premium off for {days}", ("what shows when it was last lived in and furnished",)),
    "premium-step": ("charge the right step of the premium for {days}", ("what shows when it was last lived in",)),
    "exception-missing": (
        "apply the exception from the premium for {days}",
        ("the agent's contract", "the listing with its first date", "rents or prices of like homes", "the energy certificate"),
    ),
    "exempt-class": ("treat it as exempt for {days}", ("what shows the facts of the class",)),
    "furnished-status": ("correct how it was furnished for {days}", ("dated photographs", "the removal invoice")),
    "year-amount": ("charge the band of this home for the year", ("the entry in the valuation list",)),
    "days-in-year": ("divide the year's charge by the days of the year", ()),
    "projection": ("work the bill out anew from {since}, as things have changed", ("the tenancy agreement",)),
    "unexplained": ("say how the bill was made up, day by day", ()),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Letter:
    """A letter: who it goes to and about what; its paragraphs; what is asked, with reasons; what to send with it."""

    to: str
    sender: str
    day: date
    subject: str
    opening: tuple[str, ...]
    asks: tuple[str, ...]
    closing: tuple[str, ...]
    evidence: tuple[str, ...]
    warnings: tuple[str, ...]


def evidence(code: str) -> tuple[str, ...]:
    """What to send with a reason of this code."""
    return ASKS[code][1] if code in ASKS else ()


def letter(book: Book, made: Void) -> Letter | None:
    """The letter that the statement leads to; None where there is nothing to ask of the council."""
    asks: list[str] = []
    proofs: list[str] = []
    for bill in made.bills:
        for reason in bill.reasons:
            if reason.code in ASKS and (reason.pence > 0 or reason.code == "unexplained"):
                asks.append(_ask(bill, reason))
                proofs += evidence(reason.code)
    open_claims = [c for c in made.claims if not c.answer and not _in_bill(made, c)]
    for claim in open_claims:
        worth = f", worth {pounds(claim.pence)}" if claim.pence else ""
        law = f" ({claim.law})" if claim.law else ""
        asks.append(f"Please give {claim.what} for {claim.days}{law}{worth}.")
        proofs += evidence(_code(claim))
    if not asks:
        return None
    house = book.properties[made.house]
    proofs += [f"“{said}”" for said in house.empty_says] if house.empty_since else []
    again = [b for b in made.bills if b.should is not None and b.too_much > 0 and not b.replaced]
    return Letter(
        made.council_full or "The council", " and ".join(made.landlords), made.on,
        f"Council tax, {made.full}" + (f", band {house.band.upper()}" if house.band else ""),
        tuple(_facts(book, made)), tuple(asks), tuple(_closing(made, again)), tuple(dict.fromkeys(proofs)),
        tuple(note for note in made.notes if note.startswith("Mind what is said")),
    )  # fmt: skip


def _in_bill(made: Void, claim: Claim) -> bool:
    """Whether a bill has been held against those days already."""
    return any(b.days and b.days.overlap(claim.days) and b.should is not None for b in made.bills)


def _code(claim: Claim) -> str:
    if "premium" in claim.what:
        return "exception-missing"
    return "class-d-refused" if "works" in claim.what else "discount-missing"


def _ask(bill: BillRow, reason: Reason) -> str:
    days = reason.days
    words = ASKS[reason.code][0].format(
        days=days, since=day_words(days.first), after=_next(days), before=_before(days),
    )  # fmt: skip
    law = f" ({reason.law})" if reason.law else ""
    worth = f" This comes to {pounds(reason.pence)}." if reason.pence > 0 else ""
    why = reason.words.replace("It was not yours yet", "It was not mine yet").replace("and you answer", "and I answer")
    return f"Please {words}. {why}{law}{worth}"


def _next(days: Period) -> str:
    from datetime import timedelta

    return day_words(days.last + timedelta(days=1))


def _before(days: Period) -> str:
    from datetime import timedelta

    return day_words(days.first - timedelta(days=1))


def _facts(book: Book, made: Void) -> list[str]:
    """The facts the letter rests on, as the book tells them."""
    house = book.properties[made.house]
    out = [f"I write about the council tax of {made.full}."]
    if house.got:
        out.append(f"I completed its purchase on {day_words(house.got.day)}." if house.got.how == "bought"
                   else f"It was {house.got.how} to me on {day_words(house.got.day)}.")  # fmt: skip
    if house.empty_since:
        out.append(f"It has been empty since {day_words(house.empty_since)}." if not _let_since(book, made)
                   else f"It became empty on {day_words(house.empty_since)}.")  # fmt: skip
    for let in sorted((t for t in book.tenancies.values() if t.house == made.house and t.first_day),
                      key=lambda t: t.first_day or date.min):  # fmt: skip
        last = let.last_day
        if let.first_day and let.first_day <= made.span.last and (last is None or last >= made.span.first):
            who = " and ".join(let.tenants) or "a tenant"
            end = f" to {day_words(last)}" if last else ""
            out.append(f"It is let to {who} from {day_words(let.first_day)}{end}." if last is None
                       else f"It was let to {who} from {day_words(let.first_day)}{end}.")  # fmt: skip
    for bill in made.bills:
        if bill.reasons and bill.days:
            out.append(f"Your bill of {day_words(bill.day)} asks {pounds(bill.billed)} for {bill.days}.")
    return out


def _let_since(book: Book, made: Void) -> bool:
    house = book.properties[made.house]
    lets = [t.first_day for t in book.tenancies.values() if t.house == made.house and t.first_day]
    return any(house.empty_since and day > house.empty_since for day in lets)


def _closing(made: Void, again: list[BillRow]) -> list[str]:
    out = []
    for bill in again:
        should = pounds(bill.should or 0)
        out.append(f"By my reckoning the bill of {day_words(bill.day)} should be {should} in place of {pounds(bill.billed)}.")
    if again:
        out.append("Please send a corrected bill, and repay or credit what has been paid too much.")
    if made.nation in ("england", "wales"):
        out.append("If you do not agree, please treat this letter as a grievance under section 16 of the Local Government "
                   "Finance Act 1992 and give me your reasons in writing.")  # fmt: skip
    else:
        out.append("If you do not agree, please give me your reasons in writing, and how I may appeal.")
    return out
