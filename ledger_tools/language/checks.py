"""Checks what parses but cannot be meant: clauses said twice, facts at odds on one line, periods turned round.

Looks at one block at a time and knows nothing of other blocks, of what things are, or of tax.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from datetime import date
from fractions import Fraction
from typing import Any

from ..days import day_words
from ..money import pounds
from ..problems import Fix, Level, Problem
from .blocks import Block, mark
from .odds import odds, plain_with
from .page import Page
from .records import Clause, Piece, Statement

# Clauses and facts that a line holds once, and what each is called. What is not named here may be said again: what
# comes on top or is inside (plus, of which), proofs, reasons, causes, links, notes, part payments, dates of plans.
ONCE = {
    "where": "place", "price": "amount", "who": "name of another party", "when": "period", "home": "house",
    "shares": "list of houses", "against": "paper it is set against", "purpose": "purpose", "by_trade": "trade",
    "change": "word of more or less", "compared": "comparison with the old one", "was_there": "word on what was there",
    "fixing": "word on how it is fixed", "same_again": "price of an equal one", "part_exchange": "part exchange",
    "old_one": "fate of the old one", "improvement": "improvement part", "own_labour": "own labour",
    "part_of": "schedule it is part of", "shared": "shared", "treat_as": "ruling of your own", "number": "number",
    "returned": "year it was returned in", "retention": "retention", "was": "foreign sum", "split": "way of sharing",
    "due": "due date", "expires": "day it runs out", "fixed_price": "fixed price", "provisional": "provisional",
    "needs": "list of what it needs", "takes": "time it takes", "ahead": "time to book ahead",
    "new_layout": "new layout", "given_up": "given up",
    "paid_by": "name of who paid it", "called": "word on what the home was called", "energy_band": "energy band",
    "found": "word on what a report found",
    # fields of headings
    "nation": "nation", "council_band": "council", "rooms": "list of rooms",
    "as_bought": "state as bought", "price_was": "word on the price", "leasehold": "lease", "form_17": "form 17",
    "tenants": "list of tenants", "term": "term", "periodic": "first day of a periodic tenancy", "room_let": "room",
    "married": "spouse", "target": "target", "contingency": "contingency", "loan_kind": "kind of loan",
    "trade": "trade of the firm", "first_due": "first day rent is due", "held_with": "holder of the deposit",
    "notice_given": "day of notice", "died": "day of death", "probate": "day of probate", "let_kind": "kind of let",
    "rolls_on": "way it goes on", "empty_since": "first empty day",
}  # fmt: skip

# Kinds that hold one of each of their words: one deposit and one holding deposit, bought once and sold once.
ONCE_A_WORD = {
    "bought": "deal", "got_free": "deal", "deposit": "deposit", "came_and_went": "day", "plan_date": "day",
    "deposit_date": "day", "deal_fact": "fact of the deal",
}  # fmt: skip

# Fields of headings that hold from a day or a tax year, or on it: one of each at a time, or one of the two would give
# way without a word.
ONCE_A_TIME = {
    "accounting": "way of accounting", "lives": "nation you live in", "quarters": "kind of quarters",
    "accounts_to": "last day of accounts", "owners": "list of owners", "valued": "value", "rate": "rate",
    "owed": "sum owed", "rent": "rent", "arrears": "sum of arrears",
}  # fmt: skip

# Fields that a second line may give another reason for.
OWING_TO = ("as_bought", "price_was")

# Saying the very same of these again adds nothing, and is most often a line copied twice.
SAME_AGAIN = (
    "other_income", "brought_in", "lodgers", "receipt", "cause", "follows", "note", "reason", "plus", "of_which",
    "paid_on",
)  # fmt: skip

# A nearer word wins over the same kind of fact on the head line of a bill.
INHERITED = ("compared", "cause", "was_there")

# Parts of an amount that are told of it.
INSIDE = ("of_which", "improvement")

# What most often is meant for the line above it, where it stands behind a line of a bill without going further in.
OF_ONE_LINE = (*INHERITED, *INSIDE, "treat_as")

_PERIODS = ("when", "rent_free", "spell", "exempt", "term", "rate")
_COINS = frozenset(("pounds", "pound", "quid", "gbp", "pence", "p", "euros", "euro", "dollars", "dollar"))


_nothing_to_say: set[str] = set()  # of the blocks of these shapes, as their days and sums make no difference
MOST_SHAPES = 20_000


def doubled(statement: Statement, block: Block, file: str, shape: str = "") -> list[Problem]:
    """All that a statement says twice or at odds with itself, in the order of its text. shape: of its reading."""
    if shape in _nothing_to_say:
        return []
    if _plain(statement):
        if shape and len(_nothing_to_say) < MOST_SHAPES:
            _nothing_to_say.add(shape)
        return []
    page = Page(block, file)
    found = [*_statement(page, statement), *_nearer(page, statement), *_behind(page, statement)]
    return sorted(found, key=lambda problem: problem.order)


# Clauses that no check below has anything to say about, where a line holds each kind once: most lines are of these.
_PLAIN = frozenset(
    "day things swap where price who purpose home note against paper compared cause fixing same_again own_labour "
    "shared due expires number reason receipt returned change plus was_there".split()
)
# Beside "none before" on a first one, these are at odds with nothing.
_FIRST = frozenset("day things where price who home note was_there own_labour number reason receipt plus".split())


def _plain(statement: Statement) -> bool:
    """Whether one look shows that there is nothing to say."""
    seen: set[str] = set()
    verb = statement.head[0].value if statement.head and statement.kind in ("works", "job") else ""
    for clause in statement.clauses:
        kind = clause.kind
        if kind in seen or kind not in _PLAIN:
            return False
        seen.add(kind)
        if kind == "things" and any(len(thing.values) > 1 for thing in clause.values):
            return False
        if kind == "cause" and clause.values[0].value == "chosen":
            return False
        if kind in _WITH_VERB and not plain_with(verb, kind, clause.values[0].value):
            return False
    if "swap" in seen and "compared" in seen:
        return False
    if "was_there" in seen and (statement.head[0].value not in ("installed", "added", "bought") or not seen <= _FIRST):
        return False
    if statement.kind not in _PLAIN_STATEMENTS or statement.below and not seen.isdisjoint(OF_ONE_LINE):
        return False
    return all(map(_plain, statement.below))


_WITH_VERB = frozenset(("compared", "cause", "was_there", "same_again"))
_PLAIN_STATEMENTS = frozenset("works job money part bill spent plan told answer noted trip at party".split())


def _statement(page: Page, statement: Statement, above: Statement | None = None) -> Iterator[Problem]:
    yield from _twice(page, statement.clauses)
    yield from odds(page, statement, above)
    yield from _periods(page, statement)
    yield from _percentages(page, statement.clauses)
    yield from _parts(page, statement.clauses)
    yield from _coins(page, statement.clauses)
    for below in statement.below:
        yield from _statement(page, below, statement)


# ── said twice ───────────────────────────────────────────────────────────────────────────────────────────────────


def _twice(page: Page, clauses: Sequence[Any]) -> Iterator[Problem]:
    first: dict[object, Clause] = {}
    for clause in clauses:
        if not isinstance(clause, Clause):
            continue
        if clause.kind in ONCE or clause.kind in ONCE_A_WORD:
            word = str(clause.values[0].value) if clause.kind in ONCE_A_WORD else ""
            earlier = first.setdefault((clause.kind, word), clause)
            if earlier is not clause and not _adds_why(page, earlier, clause):
                yield _doubled(page, earlier, clause, word)
        elif clause.kind in ONCE_A_TIME:
            earlier = first.setdefault((clause.kind, _since(clause)), clause)
            if earlier is not clause:
                yield _doubled(page, earlier, clause, "")
        elif clause.kind in SAME_AGAIN and first.setdefault(clause.meaning, clause) is not clause:
            if (said := ("told", clause.meaning)) in first:
                continue  # once is enough, however often it was pasted
            first[said] = clause
            yield Problem(
                "said-twice", Level.DOUBT, f"A line says the same twice: {page.text(clause)}.",
                (page.mark(clause, "again here"), page.mark(first[clause.meaning], "said here")),
                help="Leave one of the two out, unless both are meant.",
            )  # fmt: skip
        yield from _twice(page, clause.values)


def _since(clause: Clause) -> object:
    """The day or tax year from which a field holds; None where it tells none."""
    return next((v.value for v in clause.values if isinstance(v, Piece) and v.type in ("DATE", "TAXYEAR")), None)


def _adds_why(page: Page, earlier: Clause, clause: Clause) -> bool:
    """Whether a field tells once more of the same state, or of the same cut, what it was owing to: by another paper, or
    by your own word beside one. A second sum would be at odds with the first."""
    if clause.kind not in OWING_TO or not any(_kind(value) in ("things", "owing_only") for value in clause.values):
        return False
    return _without_sum(page, earlier) == page.text(clause.values[0]).lower()


def _without_sum(page: Page, clause: Clause) -> str:
    return page.text(clause.values[0]).lower().split(" by ")[0]


def _kind(value: Clause | Piece) -> str:
    return value.kind if isinstance(value, Clause) else ""


def _doubled(page: Page, earlier: Clause, clause: Clause, word: str) -> Problem:
    called = ONCE.get(clause.kind) or ONCE_A_TIME.get(clause.kind)
    called = called or f"{ONCE_A_WORD[clause.kind]} {word}".removesuffix(f" {ONCE_A_WORD[clause.kind]}")
    one, other = page.text(earlier), page.text(clause)
    help, fix = "Leave one of the two out.", None
    if clause.kind in ONCE_A_TIME:
        called = f"{called} at a time"
        help = "Leave one of the two out, or give it the day or the tax year from which it holds."
    if clause.kind == "price":
        help = 'One line has one amount: what comes on top begins with "plus", what is inside with "of which".'
    elif clause.kind == "where":
        help = f'Several rooms are joined by "and": in {one} and {other}.'
    elif clause.kind == "who":
        help = "A line names one other party; what someone else had goes on a line of its own."
        if fix := _left_by(page, earlier):
            help = "What somebody left or did is no party of the line: tell it in your own words, behind the rest."
    says = f"{one} and {other}" if one.lower() != other.lower() else f"{one}, twice"
    return Problem(
        "doubled", Level.ERROR, f"There can be only one {called} here, and your book gives two: {says}.",
        (page.mark(clause, "and here"), page.mark(earlier, "said here")), help=help, fix=fix,
    )  # fmt: skip


_DONE_BY = re.compile(
    r"[ \t]+(?P<said>(?:left|dumped|abandoned|broken|smashed|damaged|spoilt|ruined|caused|burnt|cracked)"
    r"(?: behind| there)?[ \t]+by[ \t]+(?:(?:the|my|our|old|last|outgoing|previous|former) )*"
    r"(?:tenants?|lodgers?|sellers?|owners?))\b",
    re.I,
)  # fmt: skip


def _left_by(page: Page, who: Clause) -> Fix | None:
    """cleared rubbish left by tenant £150.00 by "Tip Top": the line with those words behind its end, as a reason."""
    text = page.block.text
    end = text.find("\n", who.end_pos)
    end = len(text) if end < 0 else end
    found = next((m for m in _DONE_BY.finditer(text, text.rfind("\n", 0, who.start_pos) + 1, end)
                  if m.start() < who.start_pos < m.end()), None)  # fmt: skip
    if found is None or "#" in text[found.end() : end]:
        return None
    rest = f'{text[found.end() : end].rstrip()}, because "{found["said"]}"'
    return Fix(mark(page.file, page.block, found.start(), end), rest)


def _nearer(page: Page, statement: Statement) -> Iterator[Problem]:
    """A fact on a line below that differs from its head line wins; the reader is told."""
    for line in statement.below:
        for kind in INHERITED:
            above = [c for c in statement.clauses if c.kind == kind]
            here = [c for c in line.clauses if c.kind == kind]
            if not above or not here or {c.meaning for c in here} & {c.meaning for c in above}:
                continue
            yield Problem(
                "nearer-fact", Level.NOTE, f'"{page.text(here[0])}" holds for this line, not "{page.text(above[0])}".',
                (page.mark(here[0], "holds here"), page.mark(above[0], "holds for the other lines")),
                help="The nearer fact wins over the one on the head line. Nothing needs to be done if that is meant.",
            )  # fmt: skip


def _behind(page: Page, statement: Statement) -> Iterator[Problem]:
    """A fact behind a line of a bill that does not go further in: it is of the bill, and seldom meant so."""
    for clause in statement.clauses if statement.below else ():
        if clause.kind not in OF_ONE_LINE:
            continue
        above = [line for line in statement.below if line.start_pos < clause.start_pos]
        begun = page.block.text.rfind("\n", 0, clause.start_pos) + 1
        lead = page.block.text[begun : clause.start_pos]
        words = lead.rpartition(",")[2].lstrip()  # "treat as" and "of which" are no piece of their clause
        said = words + page.text(clause)
        spot = page.file, page.block, clause.start_pos - len(words), clause.end_pos
        if clause.kind in INSIDE:
            what = f"This is told of the bill, and a part is only read on the line it is of: {said}."
        elif above and len(statement.below) > 1:
            what = f"This holds for every line of the bill, not only for the line above it: {said}."
        else:
            continue
        marks = [mark(*spot, "of the whole bill")]
        help = "Put it on the line it is of, after a comma."
        fix = None
        if above:
            marks.append(page.mark(above[-1], "the line above it"))
            help = "Indent it further if it is of the line above it."
            if clause.kind not in INSIDE:
                help = f"{help[:-1]}; put it on the first line of the bill if it is of all of them."
            if "," not in lead:
                fix = Fix(mark(*spot), f"    {words}{page.block.text[clause.start_pos : clause.end_pos]}")
        yield Problem("of-the-bill", Level.DOUBT, what, tuple(marks), help=help, fix=fix)


# ── periods and figures ──────────────────────────────────────────────────────────────────────────────────────────


def _periods(page: Page, statement: Statement) -> Iterator[Problem]:
    yield from _turned(page, statement.head if statement.kind == "booking" else ())
    for clause in statement.clauses:
        if clause.kind in _PERIODS:
            yield from _turned(page, clause.values)


def _turned(page: Page, values: Sequence[Any]) -> Iterator[Problem]:
    days = [v for v in values if isinstance(v, Piece) and v.type == "DATE"]
    if len(days) != 2:
        return
    first, last = days
    start: date = first.value
    end: date = last.value
    if end >= start:
        return
    between = page.block.text[first.end_pos : last.start_pos]
    meant = f"{page.text(last)}{between}{page.text(first)}"
    whole = mark(page.file, page.block, first.start_pos, last.end_pos)
    yield Problem(
        "period-turned", Level.ERROR, f"A period ends before it begins: {day_words(end)} is before {day_words(start)}.",
        (page.mark(last, "ends here"), page.mark(first, "begins here")),
        help="Give the earlier day first, or correct the year.", fix=None if "\n" in between else Fix(whole, meant),
    )  # fmt: skip


def _percentages(page: Page, clauses: Sequence[Any]) -> Iterator[Problem]:
    for clause in clauses:
        if not isinstance(clause, Clause):
            continue
        if clause.kind in ("discount", "retention", "contingency"):
            for piece in clause.values:
                if isinstance(piece, Piece) and piece.type == "PERCENT" and Fraction(piece.value) > 100:
                    yield _too_much(page, piece)
        if clause.kind in ("shares", "owners"):
            yield from _shares(page, clause)


def _parts(page: Page, clauses: Sequence[Any]) -> Iterator[Problem]:
    """Parts inside of an amount that come to more than all of it, with what is on top."""
    told: dict[str, list[Clause]] = {}
    for clause in clauses:
        if isinstance(clause, Clause) and clause.kind in ("price", "plus", *INSIDE):
            told.setdefault(clause.kind, []).append(clause)
    price, parts = told.get("price", []), [part for kind in INSIDE for part in told.get(kind, ())]
    whole, inside = sum(map(_amount, (*price, *told.get("plus", ())))), sum(map(_amount, parts))
    if price and inside > whole:
        yield Problem(
            "part-over-whole", Level.ERROR, f"The parts come to {pounds(inside)}, the whole to {pounds(whole)}.",
            (*(page.mark(part, "inside of it") for part in parts), page.mark(price[0], "the whole")),
            help="Look for a slip in the figures. What comes on top of an amount begins with \"plus\".",
        )  # fmt: skip


def _amount(clause: Clause) -> int:
    return sum(int(v.value) for v in clause.values if isinstance(v, Piece) and v.type == "AMOUNT")


def _too_much(page: Page, piece: Piece) -> Problem:
    return Problem(
        "percent-over-100", Level.ERROR, f"{page.text(piece)} is more than the whole.",
        (page.mark(piece, "over 100%"),),
        help="Look for a slip in the figure: no part is more than 100%.",
    )  # fmt: skip


def _shares(page: Page, clause: Clause) -> Iterator[Problem]:
    """Nobody stands twice in a list of shares. That they make the whole is for those who know all owners and houses."""
    names: dict[str, Clause] = {}
    for part in clause.values:
        if not isinstance(part, Clause) or part.kind != "part_share":
            continue
        earlier = names.setdefault(str(part.values[0].value), part)
        if earlier is not part:
            yield Problem(
                "share-twice", Level.ERROR, f"{page.text(part.values[0])} stands twice in one list of shares.",
                (page.mark(part, "again here"), page.mark(earlier, "named here")),
                help="Name each one once, with its whole share.",
            )  # fmt: skip


def _coins(page: Page, clauses: Sequence[Clause]) -> Iterator[Problem]:
    """paid 90 pounds to volt: a sum in words reads as a count of things."""
    things = [v for clause in clauses if clause.kind == "things" for v in clause.values if isinstance(v, Clause)]
    for thing in things:
        count, name = thing.values[0], thing.values[-1]
        if not isinstance(count, Clause) or len(count.values) != 1 or count.values[0].type != "NUMBER":
            continue
        if str(name.value) not in _COINS:
            continue
        pounds = str(name.value) in ("pounds", "pound", "quid", "gbp")
        fix = Fix(page.mark(thing), f"£{count.values[0].value}") if pounds else None
        yield Problem(
            "amount-needs-pound", Level.ERROR, f'"{page.text(thing)}" is money in words, and an amount needs its £.',
            (page.mark(thing, "an amount?"),), help="Write the sign and the figures: £90.00.", fix=fix,
        )  # fmt: skip
