"""What a house cost to get and to make ready, what of it was borrowed, and what is one's own money in it.

By money: what was paid up to a day. What was owed before the first letting is cost of the house, as a landlord reckons
it, whatever the tax return calls it; later only what improved it. Knows no layout.
"""

from __future__ import annotations

from collections import defaultdict
from datetime import date

from ..book.world import Book
from ..ledger.rows import Row
from ..money import share
from ..record import record
from ..verdicts.catalogue import UNKNOWN, catalogue
from ..verdicts.loans import Loans
from ..verdicts.verdict import Cgt, Kind
from .accounts import EXPENSES, Accounts, nets_capital
from .base_cost import finished
from .figures import Figure, Trace, figure, together, total, trace
from .land_tax import is_land_tax

NO_MONEY = frozenset({"drove", "took home"})  # a trip in one's own car, a thing kept: no money moves
PAPERS = frozenset({"certified", "inspected", "tested"})
GIFT = frozenset({"inherited", "given"})
LABELS = {
    "price": "price of land and buildings",
    "value": "value when it came to you",
    "chattels": "carpets and the like in the price",
    "land_tax": "tax on the purchase",
    "fees": "fees of buying",
    "finished": "works that finished the purchase",
    "repairs": "repairs before the first let",
    "furnishing": "first furnishing and the like",
    "holding": "running costs before the first let",
    "open": "open questions before the first let",
    "improvements": "improvements",
    "sold": "less what was sold off it",
}


@record
class CostIn:
    """What went into a house. cost: by what it was for, in the order of LABELS; total: their sum, finance apart.

    finance: fees of the loan and interest before the first let. advances, repaid: loan capital that came and went.
    owed: what is still owed on loans, as far as told. cash: one's own money in it.
    """

    cost: tuple[Figure, ...]
    total: Figure
    finance: Figure
    advances: Figure
    repaid: Figure
    owed: Figure
    cash: Figure

    def of(self, slug: str) -> Figure:
        """One part of the cost, nil where nothing was told of it."""
        return next((f for f in self.cost if f.slug == slug), figure(slug, LABELS[slug], ()))


def cost_in(accounts: Accounts, house: str, day: date) -> CostIn:
    """What went into a house by a day."""
    first_let = letting_began(accounts, house)
    told: dict[str, list[Trace]] = defaultdict(list)
    loans = loans_of(accounts.book)
    for row in accounts.rows:
        moved = row.owed if row.verb in GIFT else row.paid
        if row.house == house and moved and moved <= day:
            slug = slug_of(accounts, row, first_let)
            pence = not_private(accounts, row, loans)
            if slug and pence:
                told[slug].append(trace(row, pence if row.way == "out" else -pence, moved))
    parts = (figure(slug, label, together(told[slug])) for slug, label in LABELS.items() if told[slug])
    cost = tuple(part for part in parts if part.pence)
    finance = figure("finance", "loan costs before the first let", together(told["finance"]))
    advances = figure(
        "advances", "borrowed", (*together(_minus(told["advances"])), *owed_at_first(accounts.book, house, day))
    )
    repaid = figure("repaid", "loan paid back", together(told["repaid"]))
    own = [part for part in cost if part.slug != "value"]
    cash = total("cash", "your own money in it", [*own, finance, advances, repaid], [1] * (len(own) + 1) + [-1, 1])
    return CostIn(cost, total("total", "total cost in", cost), finance, advances, repaid,
                  _owed(accounts, house, day, advances, repaid), cash)  # fmt: skip


def first_rent(accounts: Accounts, house: str) -> date | None:
    """The first day on which rent of a house came in."""
    return min((r.paid for r in accounts.rows if r.house == house and r.kind is Kind.INCOME and r.paid), default=None)


def letting_began(accounts: Accounts, house: str) -> date | None:
    """The first day a house was let as the book tells of its lets, else the day rent first came in."""
    return accounts.book.first_let(house) or first_rent(accounts, house)


def before_let(row: Row, first_let: date | None) -> bool:
    """Whether a row belongs to the time before the house was first let: owed then, or paid then where no bill says."""
    day = row.owed_or_paid
    return day is not None and (first_let is None or day < first_let)


def loans_of(book: Book) -> Loans:
    """What the loans of a book were spent on."""
    return Loans(book, lambda words, verb: catalogue().find(words, verb) or UNKNOWN)


def not_private(accounts: Accounts, row: Row, loans: Loans) -> int:
    """The pence of a row; of loan capital only the part of the loan that was not spent on private things."""
    if row.account != "loans" or row.verdict < 0:
        return row.pence
    line = accounts.verdicts[row.verdict].item.line
    use = loans.spent(line) if line.verb == "borrowed" else loans.use(line)
    return share(row.pence, [use.letting + use.untold, use.private])[0] if use.private else row.pence


def is_finance(accounts: Accounts, row: Row) -> bool:
    """Whether a row is interest or another cost of a loan."""
    if row.verdict < 0:
        return False
    if row.category.startswith("finance"):
        return True
    line = accounts.verdicts[row.verdict].item.line
    thing = catalogue().find(line.thing, line.verb)
    return thing is not None and thing.kind == "finance"


def for_the_old_one(accounts: Accounts, row: Row) -> bool:
    """Whether a row is the part of a new one's price that the sale of the old one bore: money that went out, though no
    cost in its verdict."""
    if row.verdict < 0 or row.kind is not Kind.IGNORED or row.way != "out":
        return False
    facts = accounts.verdicts[row.verdict].item.line.facts
    return facts.old_one is not None or bool(facts.part_exchange)


def slug_of(accounts: Accounts, row: Row, first_let: date | None) -> str:
    """What a row of a house was for: a key of LABELS, "finance", "advances", "repaid"; "" where it is no cost of it."""
    if row.verb in NO_MONEY or row.kind is Kind.PRIVATE or row.cgt is Cgt.DISPOSAL:
        return ""
    if row.account == "loans":
        return "repaid" if row.way == "out" else "advances"
    if for_the_old_one(accounts, row):
        return "sold"  # against what the old one brought: it makes the new one cheaper, and that is counted once
    if row.verdict < 0:
        return _of_heading(row)
    if row.kind is Kind.ACQUISITION or row.cgt is Cgt.ACQUISITION and row.kind is Kind.NETS:
        if is_land_tax(accounts, row.verdict):
            return "land_tax"
        return "finished" if finished(accounts, row) else "fees"
    if row.kind is Kind.IMPROVEMENT or nets_capital(row) and row.cgt is Cgt.ENHANCEMENT:
        return "improvements"
    if row.kind is Kind.NO_RELIEF or nets_capital(row):
        return "furnishing"
    if row.kind is Kind.CAPITAL_RECEIPT:
        return "sold"
    if not before_let(row, first_let):
        return ""
    if is_finance(accounts, row):
        return "finance"
    if row.kind is Kind.ARGUABLE:
        return "open"
    if row.kind in EXPENSES or row.kind is Kind.PENDING:
        line = accounts.verdicts[row.verdict].item.line
        return "repairs" if line.kind == "works" and line.verb not in PAPERS else "holding"
    return ""


def _of_heading(row: Row) -> str:
    if row.kind is Kind.ACQUISITION:
        return "value" if row.verb in GIFT else "price"
    if row.kind is Kind.NO_RELIEF:
        return "chattels"
    return "sold" if row.kind is Kind.IGNORED and row.verb == "sold" else ""  # an old one that was replaced


def owed_at_first(book: Book, house: str, day: date) -> tuple[Trace, ...]:
    """What the book first tells as owed on each loan of a house of which it tells no advance: it stands for that."""
    lent = {(e.who.name or e.who.full) for e in book.entries if e.verb == "borrowed" and e.who}
    return tuple(
        Trace(loan.place.short, on, f"owed to {loan.lender or loan.name}", pence, -1)
        for loan in book.loans.values()
        if loan.house == house and not lent & {loan.name, loan.lender}
        for on, pence in sorted(loan.owed)[:1]
        if on <= day
    )


def _minus(traces: list[Trace]) -> list[Trace]:
    return [Trace(t.source, t.day, t.words, -t.pence, t.verdict, t.counts) for t in traces]


def _owed(accounts: Accounts, house: str, day: date, advances: Figure, repaid: Figure) -> Figure:
    """What the loans on a house still stand at: advances less repayments, or what was told as owed."""
    traces: list[Trace] = []
    since = date.min
    for loan in accounts.book.loans.values():
        known = [(on, pence) for on, pence in loan.owed if on <= day] if loan.house == house else []
        if known:
            on, pence = max(known)
            since = max(since, on)
            traces.append(Trace(loan.place.short, on, f"owed to {loan.lender or loan.name}", pence, -1))
    moves = [*advances.trail, *_minus(list(repaid.trail))]
    return figure("owed", "still owed", (*traces, *(t for t in moves if t.day > since or since == date.min)))
