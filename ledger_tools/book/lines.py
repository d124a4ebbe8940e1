"""From the syntax of a dated line to an Entry: each clause has one small function here. Knows no tax.

Names are looked up in an `Index`; what cannot be found is reported through it and the line is kept.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction
from typing import Any

from ..days import Period, TaxYear, month_period
from ..language.blocks import Block
from ..language.records import Clause, Piece, Statement
from ..problems import Place
from ..record import record
from .entries import (
    Becomes,
    Called,
    Day,
    Entry,
    Extra,
    Facts,
    Link,
    Name,
    OldOne,
    Paper,
    Proof,
    Retention,
    Ruling,
    Share,
    Thing,
    Who,
)

PLAIN_VERBS = {"mended": "repaired", "fitted": "installed", "painted": "decorated"}
_new: Any = tuple.__new__  # makes a place in half the time: a book has several to a line
_ARTICLE = re.compile(r"(?:the|an?|my|our|his|her|their)[ \t]+(?=\S)", re.I)


def bare(words: str) -> str:
    """Words without an article or a possessive in front: "the purchase" and "our purchase" are "purchase"."""
    found = _ARTICLE.match(words)
    return words[found.end() :] if found else words


@record
class Spot:
    """A block of a file, able to turn positions into places."""

    file: str
    block: Block

    def place(self, said: Any) -> Place:
        """The place of a piece, clause or statement."""
        block = self.block
        made: Place = _new(Place, (self.file, block.text, block.line, said.start_pos, said.end_pos))
        return made

    def name(self, piece: Piece) -> Name:
        """A piece of words as a Name."""
        return Name(bare(piece.value), self.place(piece))


@dataclass(slots=True)
class Draft:
    """An entry being gathered: the fields of Entry and of Facts told so far, and where it says it belongs."""

    spot: Spot
    told: dict[str, Any] = field(default_factory=dict)
    facts: dict[str, Any] = field(default_factory=dict)
    home: Name | None = None
    shares: tuple[tuple[Name, Fraction | None], ...] = ()
    shares_place: Place | None = None

    def add(self, key: str, value: Any) -> None:
        """Add to a fact that may be told more than once."""
        self.facts[key] = (*self.facts.get(key, ()), value)


def piece(clause: Clause | Statement, kind: str) -> Piece | None:
    """The first piece of a terminal among a clause's values or a statement's head."""
    values = clause.values if isinstance(clause, Clause) else clause.head
    return next((v for v in values if type(v) is Piece and v.type == kind), None)


def value(clause: Clause | Statement, kind: str) -> Any:
    """Its value, or None."""
    found = piece(clause, kind)
    return found.value if found else None


def things(spot: Spot, clause: Clause) -> tuple[Thing, ...]:
    """The things of a `things` clause."""
    found = []
    for part in clause.values:
        words = part.values[-1]
        if len(part.values) == 1:
            found.append(Thing(bare(words.value), spot.place(words)))
            continue
        counts = part.values[0].values
        numbers = [Fraction(p.value) for p in counts if p.type == "NUMBER"]
        found.append(Thing(
            bare(words.value), spot.place(words),
            count=numbers[0] if numbers else None,
            of=numbers[1] if len(numbers) > 1 else None,
            extent=next((p.value for p in counts if p.type == "EXTENT"), ""),
        ))  # fmt: skip
    return tuple(found)


def period(clause: Clause) -> Period | None:
    """The days of `for … to …`, `for Sep 2025`, `for 2025-26`; None where they run backwards."""
    first = clause.values[0]
    if first.type == "MONTH":
        return month_period(*first.value)
    if first.type == "TAXYEAR":
        return TaxYear.read(first.value).period
    last = clause.values[1].value
    return Period(first.value, last) if first.value <= last else None


def _words(clause: Clause) -> tuple[str, str]:
    return clause.values[0].value, clause.values[1].value


def _extra(d: Draft, clause: Clause) -> Extra:
    return Extra(
        bare(value(clause, "WORDS") or ""), value(clause, "AMOUNT"), value(clause, "STRING") or "", d.spot.place(clause)
    )


# ── clauses ──────────────────────────────────────────────────────────────────────────────────────────────────────


def _day(d: Draft, c: Clause) -> None:
    said = c.values[0]
    if said.type == "DATE":
        d.told["day"] = Day(said.value, said.value)
    else:
        month = month_period(*said.value)
        d.told["day"] = Day(month.first, month.last)


def _things(d: Draft, c: Clause) -> None:
    d.told["things"] = things(d.spot, c)


def _swap(d: Draft, c: Clause) -> None:
    d.told["becomes"] = becomes(d.spot, c)


def becomes(spot: Spot, clause: Clause) -> Becomes:
    """What a thing was replaced with or converted into."""
    word, said = clause.values
    if type(said) is Piece:
        return Becomes(word.value, count=Fraction(said.value))
    return Becomes(word.value, things(spot, said))


def _where(d: Draft, c: Clause) -> None:
    d.told["rooms"] = tuple(d.spot.name(p) for p in c.values)


def _price(d: Draft, c: Clause) -> None:
    d.told["amount"] = c.values[0].value


def _who(d: Draft, c: Clause) -> None:
    role, party = c.values
    d.told["who"] = party_of(d.spot, role.value, party)


def party_of(spot: Spot, role: str, party: Clause) -> Who:
    """The other party as told: a coined word, or quoted words."""
    said = party.values[0]
    coined = said.type == "NAME"
    return Who(role, said.value if coined else "", said.value, spot.place(said))


def _told_party(d: Draft, c: Clause) -> None:
    d.told["who"] = party_of(d.spot, "to", c)


def _when(d: Draft, c: Clause) -> None:
    d.told["period"] = period(c)


def _purpose(d: Draft, c: Clause) -> None:
    d.told["purpose"] = " and ".join(bare(word.value) for word in c.values)


def _home(d: Draft, c: Clause) -> None:
    d.home = d.spot.name(c.values[0])


def _shares(d: Draft, c: Clause) -> None:
    d.shares = tuple(shares(d.spot, c))
    d.shares_place = d.spot.place(c)


def shares(spot: Spot, clause: Clause | Statement) -> list[tuple[Name, Fraction | None]]:
    """Names with the shares told for them (per cent as a fraction of 1), from `part_share` clauses."""
    parts = clause.values if isinstance(clause, Clause) else clause.clauses
    found = []
    for part in parts:
        if isinstance(part, Clause) and part.kind == "part_share":
            percent = value(part, "PERCENT")
            found.append((spot.name(part.values[0]), Fraction(percent) / 100 if percent else None))
    return found


def _note(d: Draft, c: Clause) -> None:
    d.told["note"] = c.values[0].value


def _paper(d: Draft, c: Clause) -> None:
    d.told["paper"] = paper_of(d.spot, c)


def paper_of(spot: Spot, clause: Clause) -> Paper:
    """An invoice, quote or order by number."""
    kind, ref = clause.values
    return Paper(kind.value, str(ref.values[0].value), spot.place(clause))


def _against(d: Draft, c: Clause) -> None:
    _paper(d, c.values[0])


def _change(d: Draft, c: Clause) -> None:
    d.told["change"] = c.values[0].value


def _discount(d: Draft, c: Clause) -> None:
    d.told["discount"] = Fraction(c.values[0].value) / 100


def _class(d: Draft, c: Clause) -> None:
    d.told["council_class"] = c.values[0].value


# ── facts ────────────────────────────────────────────────────────────────────────────────────────────────────────


def _says_word(key: str) -> Callable[[Draft, Clause], None]:
    def put(d: Draft, c: Clause) -> None:
        d.facts[key] = c.values[0].value

    return put


def _flag(key: str) -> Callable[[Draft, Clause], None]:
    def put(d: Draft, c: Clause) -> None:
        d.facts[key] = True

    return put


def _cause(d: Draft, c: Clause) -> None:
    d.add("causes", c.values[0].value)


def _plus(d: Draft, c: Clause) -> None:
    d.add("plus", _extra(d, c))


def _of_which(d: Draft, c: Clause) -> None:
    d.add("of_which", _extra(d, c))


def _improvement(d: Draft, c: Clause) -> None:
    d.facts["improvement"] = _extra(d, c)


def _old_one(d: Draft, c: Clause) -> None:
    fate = c.values[0]
    if type(fate) is Piece:
        d.facts["old_one"] = OldOne(fate.value)
    elif fate.kind == "old_sold":
        party = next((v for v in fate.values if isinstance(v, Clause)), None)
        d.facts["old_one"] = OldOne("sold", value(fate, "AMOUNT"), str(party.values[0].value) if party else "")
    else:
        d.facts["old_one"] = OldOne("moved", 0, fate.values[0].value, d.spot.place(fate.values[0]))


def _own_labour(d: Draft, c: Clause) -> None:
    d.facts["own_labour"] = True
    hours = value(c, "NUMBER")
    d.facts["hours"] = Fraction(hours) if hours is not None else None


def _follows(d: Draft, c: Clause) -> None:
    d.add("links", Link(c.values[0].value, things(d.spot, c.values[1])))


def _retention(d: Draft, c: Clause) -> None:
    percent = value(c, "PERCENT")
    d.facts["retention"] = Retention(value(c, "AMOUNT"), Fraction(percent) if percent else None, value(c, "DATE"))


def _number(d: Draft, c: Clause) -> None:
    d.facts["number"] = str(c.values[0].values[0].value)


def _paid_on(d: Draft, c: Clause) -> None:
    d.add("paid", (value(c, "DATE"), value(c, "AMOUNT")))


def _paid_by(d: Draft, c: Clause) -> None:
    d.facts["payer"] = str(c.values[0].values[0].value)


def _was(d: Draft, c: Clause) -> None:
    text = c.values[0].value
    d.facts["was"] = (text[:3], text[3:].strip())


def _receipt(d: Draft, c: Clause) -> None:
    kind, *names = c.values
    for name in names:
        d.add("proofs", Proof(kind.value, name.value, d.spot.place(name)))


def _reason(d: Draft, c: Clause) -> None:
    word, said = _words(c)
    d.add(word, said)


def _treat_as(d: Draft, c: Clause) -> None:
    verdict, because = _words(c)
    d.facts["ruling"] = Ruling(verdict, because, d.spot.place(c))


def _called(d: Draft, c: Clause) -> None:
    word = c.values[0].value.removeprefix("called it ")
    named = things(d.spot, c.values[1]) if len(c.values) > 1 else ()
    d.facts["called"] = Called(word, named, d.spot.place(c))


def _returned(d: Draft, c: Clause) -> None:
    d.facts["returned"] = TaxYear.read(c.values[0].value)


def _plan_date(d: Draft, c: Clause) -> None:
    d.add("plan_dates", _words(c))


CLAUSES: dict[str, Callable[[Draft, Clause], None]] = {
    "day": _day, "things": _things, "swap": _swap, "where": _where, "price": _price, "who": _who,
    "party_name": _told_party, "when": _when, "purpose": _purpose, "home": _home, "shares": _shares,
    "note": _note, "paper": _paper, "against": _against, "change": _change, "discount": _discount,
    "class": _class, "compared": _says_word("compared"), "was_there": _says_word("was_there"), "cause": _cause,
    "fixing": _says_word("fixing"), "same_again": _says_word("same_again"),
    "part_exchange": _says_word("part_exchange"), "old_one": _old_one, "improvement": _improvement,
    "own_labour": _own_labour, "follows": _follows, "part_of": _says_word("part_of"),
    "shared": _flag("shared"), "retention": _retention, "plus": _plus, "of_which": _of_which, "number": _number,
    "due": _says_word("due"), "expires": _says_word("expires"), "paid_on": _paid_on, "was": _was,
    "split": _says_word("split"), "receipt": _receipt, "reason": _reason, "treat_as": _treat_as,
    "returned": _returned, "plan_date": _plan_date, "fixed_price": _flag("fixed_price"),
    "provisional": _flag("provisional"), "new_layout": _flag("new_layout"), "given_up": _flag("given_up"),
    "paid_by": _paid_by, "called": _called, "energy_band": _says_word("energy_band"), "found": _says_word("found"),
}  # fmt: skip

# A fact on the head line holds for every line under it, unless that line says otherwise.
INHERITED = ("compared", "was_there", "causes", "returned", "ruling", "part_of")


def draft(spot: Spot, statement: Statement) -> Draft:
    """Gather the clauses of a statement."""
    found = Draft(spot)
    for clause in statement.clauses:
        CLAUSES[clause.kind](found, clause)
    _head(found, statement)
    return found


def _head(d: Draft, statement: Statement) -> None:
    """The verb, and what a few verbs hold in front of their clauses."""
    kind = statement.kind
    first = statement.head[0] if statement.head else None
    if first and first.type.endswith(("_VERB", "INVOICED")):
        d.told["verb"] = PLAIN_VERBS.get(first.value, first.value)
    else:
        d.told["verb"] = {"booking": "booked", "trip": "drove"}.get(kind, kind)
    if kind == "trip":
        d.told["miles"] = Fraction(value(statement, "NUMBER"))
    elif kind == "noted":
        d.told["note"] = value(statement, "STRING")
    elif kind == "spent":
        d.told["amount"] = value(statement, "AMOUNT")
        d.told["note"] = value(statement, "STRING") or ""
    elif kind == "booking":
        days = [p.value for p in statement.head if p.type == "DATE"]
        d.told["period"] = Period(days[0], days[-1]) if days[0] <= days[-1] else None


NO_FACTS = Facts()
KINDS = {"job": "works", "part": "money"}

# Where a line belongs: the builder knows the houses, so it decides.
Belongs = Callable[[Draft, date, Entry | None], tuple[Share, ...]]


def entry(spot: Spot, statement: Statement, belongs: Belongs, known: Callable[[Who, str], Who]) -> Entry:
    """A dated statement as an Entry with its lines; `known` looks the other party up, `belongs` the house."""
    return _entry(spot, statement, belongs, known, None)


def _entry(
    spot: Spot, statement: Statement, belongs: Belongs, known: Callable[[Who, str], Who], above: Entry | None
) -> Entry:
    d = draft(spot, statement)
    if "who" in d.told:
        d.told["who"] = known(d.told["who"], d.told["verb"])
    if above is not None:
        d.told["day"] = above.day
        d.told.setdefault("rooms", above.rooms)
        d.told.setdefault("who", above.who)
        for key in INHERITED:
            inherited = getattr(above.facts, key)
            if inherited:
                d.facts.setdefault(key, inherited)
    d.told["place"] = spot.place(statement)
    d.told["kind"] = KINDS.get(statement.kind, statement.kind)
    d.told["facts"] = Facts(**d.facts) if d.facts else NO_FACTS
    d.told["homes"] = belongs(d, d.told["day"].first, above)
    made = Entry(**d.told)
    if not statement.below:
        return made
    lines = tuple(_entry(spot, line, belongs, known, made) for line in statement.below)
    return Entry(**d.told, lines=lines)
