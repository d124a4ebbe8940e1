"""Stage A, the sums that need a second look: interest, deposits paid out, trades, a car, the first letting's papers."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from ...book.advances import told_purpose
from ...days import Period, TaxYear, day_words
from ...money import pounds, share
from ..answer import Answer, Carved, Said, tidy
from ..case import Case, either
from ..following import like, outcomes, targets
from ..interest_grown import Grown
from ..offers import goes_with, rule_as
from ..registry import rule
from ..verdict import Confidence, Kind, Part

CLEAR, USUAL, ARGUABLE = Confidence.CLEAR, Confidence.USUAL, Confidence.ARGUABLE
PAYS = "paid, repaid, billed, charged"
FINANCE = "finance_residential"
PRIVATELY = "BIM45690; BIM45700; BIM45715"


# ── borrowed money ───────────────────────────────────────────────────────────────────────────────────────────────


def told(case: Case, name: str) -> int:
    """Pence told inside the sum under a name of the catalogue."""
    return sum(x.amount for x in case.facts.of_which if case.history.known(x.what, "paid").name == name)


def by_use(case: Case, interest: int) -> tuple[tuple[Part, ...], tuple[Part, ...]]:
    """So many pence of interest by what the loan was spent on; the second answer where some of it is told nowhere."""
    use = case.history.loans.use(case.line)
    whole = (Part(interest, Kind.RUNNING, FINANCE),)
    already = any(fact.what == "private" for fact in case.facts.of_which)
    if already or not (use.private or use.untold):
        return whole, ()
    letting, private, untold = share(interest, [use.letting, use.private, use.untold])
    kept = (Part(letting, Kind.RUNNING, FINANCE), Part(private, Kind.PRIVATE))
    likelier = tidy((*kept, Part(untold, Kind.RUNNING, FINANCE)))
    return likelier, tidy((*kept, Part(untold, Kind.PRIVATE))) if untold else ()


def why(case: Case) -> str:
    """Which of a loan's money counts, in one sentence."""
    use = case.history.loans.use(case.line)
    if use.untold:
        advances = " and ".join(
            f"{pounds(pence)} of what was borrowed on {entry.day} ({entry.source})"
            for entry, pence in case.history.loans.untold(case.line)
        )
        private = "Part of the loan was spent privately, and your" if use.private else "Your"
        return (
            f"{private} book does not say what became of {advances}: add `for purchase` to that line if it bought the "
            "house, or tell it under it, as `spent £… on …`. Only interest on what went into the letting counts; it "
            "lowers the tax bill at the basic rate and does not come off the rents."
        )
    return "Part of the loan was spent privately, so that part of the interest is private, in proportion."


@rule(
    "A",
    "interest-inside",
    "ITTOIA 2005 s.272A, s.274A",
    CLEAR,
    "read",
    verbs=PAYS,
    step="split",
    flips=("the lender's statement tells another sum",),
    keep=("the lender's yearly statement",),
)
def interest_inside(case: Case) -> Said:
    """The interest told inside a payment to a lender."""
    interest = min(told(case, "mortgage interest"), case.amount)
    capital = min(told(case, "loan capital"), case.amount)
    if case.thing.name == "mortgage payment" and capital and not interest:
        interest = case.amount - capital
    if not interest or not (case.thing.kind == "finance" or case.thing.name == "loan capital"):
        return None
    parts, cautious = by_use(case, interest)
    says = "Of a payment to a lender only the interest counts."
    if len(parts) > 1 or cautious:
        says += " " + why(case)
    return Carved(parts, says, cautious=cautious, ask=asked(case, cautious))


def asked(case: Case, cautious: tuple[Part, ...]) -> tuple[str, ...]:
    """What settles interest on money of untold use: the line that borrowed it, with what for; or a ruling."""
    if not cautious:
        return ()
    advances = case.history.loans.untold(case.line)
    if len(advances) > 1:
        return (", of which private £…", *rule_as("running cost"))
    return (*(line for entry, _ in advances for line in told_purpose(entry)), ", of which private £…")


@rule(
    "A",
    "interest-and-capital",
    "ITTOIA 2005 s.272A, s.274A; BIM45820",
    CLEAR,
    "read",
    verbs=PAYS,
    flips=("the lender's statement tells another sum of interest",),
    keep=("the lender's yearly statement",),
)
def interest_and_capital(case: Case) -> Said:
    """A payment to a lender in one sum, of which only the interest counts."""
    if case.thing.name != "mortgage payment":
        return None
    if told(case, "mortgage interest") or told(case, "loan capital"):
        return Answer(case.all(Kind.IGNORED), "The rest of it pays back what was borrowed, which is no cost.")
    if case.history.loans.interest_only(case.line):
        parts, cautious = by_use(case, case.amount)
        says = "The loan is interest only, so all of it is interest."
        if len(parts) > 1 or cautious:
            says += " " + why(case)
        return Answer(parts, says, USUAL, cautious, ask=asked(case, cautious))
    most = case.history.loans.most_interest(case.line)
    interest = min(most.pence, case.amount) if most else case.amount
    if most and not interest:
        says = f"{grown_in_words(most)}, so this pays back what was borrowed, which is no cost."
        return Answer(case.all(Kind.IGNORED), says, USUAL)
    says = (
        "A mortgage payment is part interest, part capital paid back; only the interest counts, "
        "and your book does not say how much of it that is."
    )
    if most and interest < case.amount:
        says += f" {grown_in_words(most)}, so the rest pays back what was borrowed."
    return either(
        tidy((Part(interest, Kind.RUNNING, FINANCE), Part(case.amount - interest, Kind.IGNORED))),
        case.all(Kind.IGNORED),
        says,
        (", of which interest £…", ", of which capital £…"),
    )


def grown_in_words(most: Grown) -> str:
    """The most that can be interest, and why: the rate, since when, and what was told apart."""
    percent = f"{(Decimal(most.percent.numerator) / most.percent.denominator).normalize():f}%"
    apart = f", besides the {pounds(most.apart)} told apart," if most.apart else ""
    if not most.pence:
        return f"All interest that can have grown since {day_words(most.since)} at {percent} a year is told apart"
    return f"At {percent} a year no more than {pounds(most.pence)}{apart} can have grown since {day_words(most.since)}"


@rule(
    "A",
    "loan-spent-privately",
    PRIVATELY,
    CLEAR,
    "read",
    verbs=PAYS,
    flips=("an advance was spent on something other than you told",),
    keep=("bank statements that show where the money went",),
)
def loan_spent_privately(case: Case) -> Said:
    """Interest on a loan of which the book tells, or does not tell, that part went elsewhere."""
    if case.thing.name != "mortgage interest":
        return None
    parts, cautious = by_use(case, case.amount)
    if not cautious and len(parts) == 1 and parts[0].kind is Kind.RUNNING:
        return None
    return Answer(parts, why(case), None, cautious, ask=asked(case, cautious))


# ── the papers of a first letting ────────────────────────────────────────────────────────────────────────────────


def after(period: Period) -> date:
    """The day after a period."""
    return date.fromordinal(min(period.last.toordinal() + 1, date.max.toordinal()))


def years(period: Period) -> int:
    """How many complete years a period holds."""
    end = after(period)
    whole = end.year - period.first.year
    return whole - ((end.month, end.day) < (period.first.month, period.first.day))


def over_a_year(period: Period) -> bool:
    """Whether a period is longer than a year."""
    end = after(period)
    return years(period) > 1 or (years(period) == 1 and (end.month, end.day) != (period.first.month, period.first.day))


@rule(
    "A",
    "first-letting-papers",
    "HMRC property return help text; BIM46405",
    USUAL,
    "read",
    verbs="paid, billed, charged, invoiced",
    flips=("the first letting is for longer, or shorter, than your book tells",),
    keep=("the tenancy agreement",),
)
def first_letting_papers(case: Case) -> Said:
    """Legal fees and agreements for the first letting of a house: capital where it is for more than a year."""
    agreement = case.thing.name == "tenancy agreement" or (
        case.thing.name == "legal fees"
        and case.history.known(case.line.purpose, "paid").name in ("tenancy agreement", "letting fee")
    )
    finding = case.thing.name in ("letting fee", "tenant find fee")
    first = case.history.lets.first_let(case.house)
    if not (agreement or finding) or case.place is None or (first is not None and first < case.day):
        return None
    book = case.history.book
    tenancies = [t for t in book.lets_of(case.house) if first is not None and book.let_from(t) == first]
    term = case.line.period or next((t.term for t in tenancies if t.term), None)
    if term is not None and over_a_year(term):
        return Answer(
            case.no_relief,
            "For a first letting of more than a year this is the price of making the lease, so it does not come off.",
        )
    if term is not None or any(t.periodic for t in tenancies):
        return Answer(case.running, "For a first letting of no more than a year this is an ordinary cost.")
    if not agreement:
        return None
    return either(
        case.running,
        case.no_relief,
        "For a first letting of more than a year this is capital, and your book does not say how long it is for.",
        (" for … to …", "periodic from …"),
    )


TENANTS = frozenset({"tenant", "tenants", "tenancy", "bond", "security", "damage"})  # words of a tenant's deposit


# ── deposits, trades, cars ───────────────────────────────────────────────────────────────────────────────────────


@rule(
    "A",
    "paid-on-account",
    "common practice",
    ARGUABLE,
    "practice",
    verbs="paid, charged",
    flips=("it went to a tenant or a deposit scheme",),
    keep=("the order and its terms",),
)
def paid_on_account(case: Case) -> Said:
    """A deposit to somebody who is no tenant: part of the price of something."""
    who = case.line.who
    if case.thing.name != "deposit" or who is None or TENANTS & set(case.line.thing.lower().split()):
        return None
    book = case.history.book
    tenants = {name for t in book.tenancies.values() for name in (t.name, *t.tenants)}
    schemes = {d.held_with for t in book.tenancies.values() for d in t.deposits}
    party = book.parties.get(who.name)
    scheme = {"deposit", "deposits", "scheme"} & set(who.full.lower().split())
    if scheme or {who.name, who.full} & (tenants | schemes) or (party and party.kind == "agent"):
        return None
    if case.line.purpose:
        parts, cautious = like(case.amount, outcomes(case, targets(case, case.line.purpose)))
        if parts:
            says = f"Paid on account ({case.line.purpose}): it is judged with that work, on top of the sum told there."
            return Answer(parts, says, USUAL, cautious)
    return either(
        case.repair,
        case.improvement,
        "Paid to no tenant, so this is part of the price of something. If your book has the bill or the "
        "quote, write `against` and its number, and it counts there once; if not, say what it was for.",
        (" against invoice …", *(f" for {offer.removeprefix(', goes with ')}" for offer in goes_with(case))),
    )


TRADES = {
    "roofer": "roof", "plumber": "pipe", "electrician": "wiring", "plasterer": "plaster", "joiner": "door",
    "carpenter": "door", "locksmith": "lock", "gas engineer": "boiler", "heating engineer": "boiler",
    "glazier": "window", "tiler": "wall tiles", "bricklayer": "wall", "damp specialist": "damp",
    "carpet fitter": "carpet",
}  # fmt: skip


@rule(
    "A",
    "who-came-not-what",
    "common practice",
    ARGUABLE,
    "practice",
    verbs="paid, billed, charged, invoiced",
    flips=("you say what was done",),
    keep=("a bill that says what was done",),
)
def who_came_not_what(case: Case) -> Said:
    """A trade is named, not the work."""
    if case.thing.name != "trade":
        return None
    if case.line.purpose:
        parts, cautious = like(case.amount, outcomes(case, targets(case, case.line.purpose)))
        if parts:
            return Answer(parts, f"It is judged like the work it was for: {case.line.purpose}.", USUAL, cautious)
    done = case.line.purpose or next((t for word, t in TRADES.items() if word in case.line.thing.lower()), "…")
    return either(
        case.repair,
        case.improvement,
        f"This says who came ({case.what}), not what was done; write the work instead of the trade.",
        tuple(f"{verb} {done} {pounds(case.amount)}" for verb in ("repaired", "replaced", "installed")),
    )


@rule(
    "A",
    "miles-or-actual-costs",
    "ITTOIA 2005 s.94D-94G; PIM2220",
    CLEAR,
    "read",
    verbs="paid, billed, charged, invoiced, bought, serviced, repaired",
    flips=("the miles were driven in another car",),
    keep=("a note of which car the miles were driven in",),
)
def miles_or_actual_costs(case: Case) -> Said:
    """The running costs of a car in a year for which miles are claimed."""
    driven = TaxYear.of(case.day) in case.history.driven
    if case.thing.name != "fuel" or case.line.purpose == "private" or not driven:
        return None
    return either(
        case.all(Kind.RUNNING, "travel"),
        case.all(Kind.PRIVATE),
        "Your book claims miles in this tax year. The rate for a mile stands for all costs of that car or van, "
        "so it is one or the other, never both.",
        rule_as("running cost", "private"),
    )
