"""A letter to the council about an empty home, from the facts of its statement. Knows no layout, signs nothing.

It asks only for what is due on every answer to what the book leaves open.
"""

from __future__ import annotations

from datetime import date

from ..book.world import Book, Property, Tenancy
from ..days import Period, day_words, period_words
from ..money import pounds
from ..record import record
from ..taxes.council.charges import LIVED
from ..taxes.council.compare import Reason
from ..taxes.council.years import DAY
from .void_notes import CLAIMS
from .void_parts import BillRow, Claim, Void


@record
class Code:
    """A reason code: in words, what the letter asks, and what to send with it."""

    label: str
    ask: str
    send: tuple[str, ...] = ()


LET = ("the tenancy agreement", "the inventory at check-in or check-out", "meter readings")
WORKS = ("a schedule of the works", "quotes and invoices", "a surveyor's report", "photographs before and after")
OFFER = (
    "the agent's contract",
    "the listing with its first date",
    "rents of like homes",
    "the energy rating",
)
WORKS_WORDS = "major works"  # in the reason of an exemption
ESTATE = ("the death certificate", "the grant of probate, once there is one")
EMPTY = ("dated photographs of the empty rooms", "meter readings")
# What an exemption or an exception from the premium is shown by: words of its reason, what to send; the last for any.
BY_CLASS = (
    ("the market", OFFER), ("died", ESTATE), ("valuation list", ("the letter of the valuation office",)),
    (WORKS_WORDS, WORKS), ("Empty and unfurnished since", EMPTY), ("", ("what shows that the class fits",)),
)  # fmt: skip

CODES = {
    "date-start": Code(
        "charged before it was yours", "begin my account on {after}, not on {since}",
        ("the completion statement", "the date of the entry in the Land Registry"),
    ),
    "date-end": Code("charged after it was let or sold", "end my account on {before}", LET),
    "wrong-party": Code("somebody else answers", "charge {days} to the person who answers for them", LET),
    "discount-missing": Code("a reduction was left out", "take off what is let off for {days}", EMPTY),
    "discount-already-used": Code("less was charged than is due", "", ()),
    "class-d-refused": Code("works were left out", "treat it as under major works for {days}", WORKS),
    "premium-too-early": Code(
        "a premium not yet due", "take the premium off for {days}", ("what shows when it was last lived in",)
    ),
    "premium-step": Code(
        "the wrong step of the premium", "charge the right step for {days}", ("what shows when it was last lived in",)
    ),
    "exception-missing": Code("an exception was left out", "charge no premium for {days}"),
    "exempt-class": Code("an exemption was left out", "treat it as exempt for {days}"),
    "residents": Code(
        "the discount for those who live there was left out", "take off what is let off for {days}",
        ("the names of all adults who live there", "proof of each who does not count, such as a student's certificate"),
    ),
    "furnished-status": Code(
        "taken as furnished or not", "correct it for {days}", ("dated photographs", "the invoice of the removal")
    ),
    "year-amount": Code("the wrong charge of the year", "use the charge of this band and year", ()),
    "days-in-year": Code("a year of the wrong length", "divide by the days of the year in question", ()),
    "projection": Code("things changed after it came", "work the bill out anew from {since}", LET),
    "unexplained": Code("it cannot be followed", "tell me how the bill was made up, day by day", ()),
    "unknown-scheme": Code("it cannot be checked", "", ()),
}  # fmt: skip


@record
class Letter:
    """A letter: who it goes to and about what; its paragraphs; what is asked, with reasons; what to send with it.

    works: whether it says that the home needed major works.
    """

    to: str
    sender: str
    day: date
    subject: str
    opening: tuple[str, ...]
    asks: tuple[str, ...]
    closing: tuple[str, ...]
    evidence: tuple[str, ...]
    warnings: tuple[str, ...]
    works: bool


def evidence(code: str, words: str = "") -> tuple[str, ...]:
    """What to send with a reason of this code; of an exemption or exception it hangs on the class its words tell."""
    if code == "projection" and any(said in words for said in ("lived there", "goes on", "ran on", "held it")):
        return LET
    if code == "projection" and "sold" in words:
        return CODES["date-start"].send
    if code in ("exception-missing", "exempt-class", "projection"):
        return next(send for said, send in BY_CLASS if said in words)
    return CODES[code].send if code in CODES else ()


def letter(book: Book, made: Void) -> Letter | None:
    """The letter that the statement leads to; None where there is nothing to ask of the council."""
    asks: list[str] = []
    proofs: list[str] = []
    works = False
    held = [bill for bill in made.bills if _certain(bill) and bill.too_much > 0 and not made.repaid]
    for bill in held:
        for reason in bill.reasons:
            if reason.code in CODES and CODES[reason.code].ask and reason.pence > 0:
                asks.append(_ask(reason, book.properties[made.house]))
                proofs += evidence(reason.code, reason.words)
                works = works or reason.code == "class-d-refused" or WORKS_WORDS in reason.words
    open_claims = [c for c in made.claims if not c.answer and not _in_bill(made, c)]
    for claim in open_claims:
        asks.append(_claimed(claim))
        proofs += _proofs(claim)
        works = works or "works" in claim.what
    if not asks:
        return None
    house = book.properties[made.house]
    return Letter(
        made.council_full or "The council", " and ".join(made.landlords), made.on,
        f"Council tax, {made.full}" + (f", band {house.band.upper()}" if house.band else ""),
        tuple(_facts(book, made)), tuple(asks), tuple(_closing(made, held)), tuple(dict.fromkeys(proofs)),
        tuple(note for note in made.notes if note.startswith("Mind what is said")), works,
    )  # fmt: skip


def _papers(house: Property, span: Period) -> list[str]:
    """What the book names as telling the states of the house in these days."""
    within = [s for s in house.spells if s.since <= span.last and (s.until is None or s.until >= span.first)]
    return [said for spell in within for said in spell.says]


def _certain(bill: BillRow) -> tuple[Reason, ...]:
    """The reasons that hold whatever is open: none where they rest on the answers that suit."""
    return bill.reasons if bill.should is None or bill.should == bill.most else ()


def _in_bill(made: Void, claim: Claim) -> bool:
    """Whether a bill has been held against those days already."""
    return any(b.days and b.days.overlap(claim.days) and b.explained for b in made.bills)


def _claimed(claim: Claim) -> str:
    """What the letter asks before any bill is held against those days."""
    what, _, why = claim.what.partition(": ")
    asked = "charge no premium" if what == "no premium" else f"give {claim.what}"
    why = f"{why[:1].upper()}{why[1:]}." if why else _mine(claim.why)
    worth = f", worth {pounds(claim.pence)}" if claim.pence else ""
    law = f" ({claim.law})" if claim.law else ""
    return f"Please {asked} for {period_words(claim.days)}{law}{worth}. {why}".rstrip()


def _proofs(claim: Claim) -> tuple[str, ...]:
    """What to send with a claim."""
    if claim.what.startswith("no premium") or claim.what == CLAIMS["exempt"]:
        return evidence("exempt-class", claim.why or claim.what)
    if "works" in claim.what:
        return evidence("class-d-refused")
    return evidence("residents") if claim.what == CLAIMS[LIVED] else evidence("discount-missing")


def _ask(reason: Reason, house: Property) -> str:
    days = reason.days
    after = house.got.day if house.got and days.last < house.got.day else days.last + DAY
    before = min(days.first, house.sold.day) - DAY if house.sold else days.first - DAY
    words = CODES[reason.code].ask.format(
        days=period_words(days), since=day_words(days.first), after=day_words(after), before=day_words(before)
    )
    law = "" if not reason.law or reason.law.startswith("the council") else f" ({reason.law})"
    if reason.code == "unexplained":
        return f"Please {words}: by my reckoning it is {pounds(reason.pence)} too much, and I cannot follow it."
    return f"Please {words}{law}. {_mine(reason.words)} This comes to {pounds(reason.pence)}."


def _mine(words: str) -> str:
    """The reason as the landlord would say it."""
    for yours, mine in (("was not yours", "was not mine"), ("and you answer", "and I answer"), ("You lived", "I lived"),
                        ("The council granted", "You granted")):  # fmt: skip
        words = words.replace(yours, mine)
    return words


def _facts(book: Book, made: Void) -> list[str]:
    """The facts the letter rests on, as the book tells them."""
    house = book.properties[made.house]
    out = [f"I write about the council tax of {made.full}."]
    if house.got:
        day = day_words(house.got.day)
        how = {"bought": "completed its purchase", "inherited": "inherited it", "given": "was given it"}
        out.append(f"I {how[house.got.how]} on {day}.")
    if house.empty_since:
        out.append(f"It became empty on {day_words(house.empty_since)}.")
    if house.sold and house.sold.day <= made.on:
        out.append(f"I sold it on {day_words(house.sold.day)}.")
    told = [*(house.empty_says if house.empty_since else ()), *_papers(house, made.span)]
    if told:
        out.append(f"I know this from: {'; '.join(f'“{said}”' for said in dict.fromkeys(told))}.")
    lets = [t for t in book.tenancies.values() if t.house == made.house and t.first_day]
    out += [_let(t, made.on) for t in sorted(lets, key=lambda t: t.first_day or date.min) if _within(t, made.span)]
    for bill in made.bills:
        if bill.reasons and bill.days:
            out.append(f"Your bill of {day_words(bill.day)} asks {pounds(bill.billed)} for {bill.days}.")
    return out


def _within(let: Tenancy, span: Period) -> bool:
    first, last = let.first_day, let.last_day
    return first is not None and first <= span.last and (last is None or last >= span.first)


def _let(let: Tenancy, on: date) -> str:
    who = " and ".join(let.tenants) or "a tenant"
    assert let.first_day is not None
    since = day_words(let.first_day)
    if let.first_day > on:
        return f"It is to be let to {who} from {since}."
    if let.last_day is None:
        return f"It has been let to {who} from {since}."
    left = f", who left on {day_words(let.moved_out)}" if let.moved_out and let.moved_out != let.ended else ""
    return f"It was let to {who} from {since} to {day_words(let.last_day)}{left}."


def _closing(made: Void, again: list[BillRow]) -> list[str]:
    out = [_reckoned(bill) for bill in again]
    if again:
        out.append("Please send a corrected bill, and repay or credit what has been paid too much.")
    if again and made.balance and made.balance > 0:
        back = f" and you repaid {pounds(made.back.pence)}" if made.back.pence else ""
        out.append(f"I have paid {pounds(made.paid.pence)}{back}, so {pounds(made.balance)} is to come back.")
    if not made.bills:  # no grievance before a bill
        out.append("If you do not agree, please give me your reasons in writing.")
    elif made.nation in ("england", "wales"):
        out.append(
            "If you do not agree, please treat this letter as a grievance under section 16 of the Local Government "
            "Finance Act 1992 and give me your reasons in writing."
        )
    else:
        out.append("If you do not agree, please give me your reasons in writing, and tell me how I may appeal.")
    return out


def _reckoned(bill: BillRow) -> str:
    """What a bill should be; where it asks too little for some days, that too, so that the sums asked for add up."""
    sums = f"{pounds(bill.should or 0)} in place of {pounds(bill.billed)}"
    said = f"By my reckoning the bill of {day_words(bill.day)} should be {sums}."
    less = [reason for reason in bill.reasons if reason.pence < 0 and reason.code != "rounding"]
    if less:
        each = " and ".join(f"{pounds(-reason.pence)} for {period_words(reason.days)}" for reason in less)
        said += f" That counts against me what it asks too little: {each}."
    pennies = sum(reason.pence for reason in bill.reasons if reason.code == "rounding")
    return f"{said} Rounding accounts for {pounds(abs(pennies))}." if pennies else said
