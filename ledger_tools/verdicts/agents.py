"""Agents' statements held against what the agent charges: commission, the VAT on it, what is added to works.

Knows no tax but the rate of VAT. Either way of rounding half a penny is right. A statement without a commission is not
judged: the agent may take it elsewhere.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction
from math import ceil, floor

from ..book.entries import Entry, Extra
from ..book.rents import dues, is_rent, let_of
from ..book.sums_told import lines_come_to
from ..book.world import Book, Charge, Party
from ..days import months_after
from ..money import per_cent, pounds, round_half_up
from ..problems import Level, Problem
from .catalogue import catalogue

FEES = frozenset({"management fee", "commission"})
ADDED = ("charge", "fee", "commission", "mark", "handling", "supervis")  # words of what is added to works


def agent_doubts(book: Book) -> list[Problem]:
    """Doubts "fee-off" and "works-charge-off" about the statements of agents whose charges the book tells."""
    seen: set[tuple[str, date]] = set()
    found: list[Problem] = []
    for entry in book.entries:
        agent = book.parties.get(entry.who.name) if entry.verb == "banked" and entry.who else None
        if agent is None or not agent.charges or not entry.lines:
            continue
        vat = _vat(entry.day.first)
        for charge in agent.charges:
            if charge.of in ("rent", "rent due"):
                base = _collected(entry) if charge.of == "rent" else _fell_due(book, entry, seen)
                found += _fee(entry, agent, charge, base, vat)
            elif charge.of == "works":
                found += _works(entry, agent, charge, vat)
    return found


def _vat(day: date) -> Fraction:
    from .. import law  # only a book with such a statement pays for it

    try:
        return Fraction(law.figure("vat.standard_rate", day).value)
    except law.NoFigure:
        return Fraction(0)


def _collected(entry: Entry) -> int:
    """The rent of a statement, less what went back."""
    signs = {"received": 1, "repaid": -1}
    return sum(signs.get(line.verb, 0) * line.total for line in entry.lines if is_rent(line))


def _fell_due(book: Book, entry: Entry, seen: set[tuple[str, date]]) -> int | None:
    """The rent due for the days of a statement's rents, each sum in one statement only; None where no days are told."""
    total = 0
    for line in entry.lines:
        if line.verb != "received" or not is_rent(line):
            continue
        let = book.tenancies.get(let_of(book, entry, line))
        if let is None or line.period is None:
            return None
        for due in dues(let, months_after(line.period.last, 12)):
            if due.period.overlap(line.period) and (let.name, due.day) not in seen:
                seen.add((let.name, due.day))
                total += due.pence
    return total


@dataclass(slots=True)
class _Taken:
    """What a statement takes for something: without VAT, the VAT, and the lines."""

    net: int = 0
    vat: int = 0
    lines: list[Entry] = field(default_factory=list)


def _commission(entry: Entry) -> _Taken:
    taken = _Taken()
    for line in entry.lines:
        thing = catalogue().find(line.thing, line.verb)
        if line.verb in ("paid", "charged") and thing and thing.name in FEES and line.amount:
            vat = sum(extra.amount for extra in line.facts.plus if _is_vat(extra))
            taken.net, taken.vat = taken.net + line.total - vat, taken.vat + vat
            taken.lines.append(line)
    return taken


def _is_vat(extra: Extra) -> bool:
    return "vat" in extra.what.lower().split()


def _either(exact: Fraction) -> tuple[int, int]:
    return floor(exact), ceil(exact)


def _fee(entry: Entry, agent: Party, charge: Charge, base: int | None, vat: Fraction) -> Iterator[Problem]:
    taken = _commission(entry)
    if not taken.lines or not base or base < 0:
        return
    exact, on_top = base * charge.percent / 100, "vat" in charge.plus.lower()
    total = taken.net + taken.vat
    if on_top:
        split = taken.net in _either(exact) and taken.vat in _either(taken.net * vat)
        if split or not taken.vat and total in _either(exact * (1 + vat)):
            return
    elif total in _either(exact):
        return
    fee = round_half_up(exact if on_top else exact / (1 + vat) if taken.vat else exact)
    tax = round_half_up(fee * vat) if on_top else round_half_up(exact) - fee
    of = "of the rent that came in" if charge.of == "rent" else "of the rent that fell due"
    right = f"{pounds(fee)}" + (f", plus vat {pounds(tax)}" if tax else "")
    net = lines_come_to(entry) + total - fee - tax
    line = taken.lines[0]
    said = f"{pounds(taken.net)}" + (f" and VAT {pounds(taken.vat)}" if taken.vat else "")
    yield Problem(
        "fee-off", Level.DOUBT,
        f"{agent.full} took {said} as commission; {per_cent(charge.percent)} {of}, {pounds(base)}, comes to {right}.",
        (line.place.mark(f"{pounds(abs(total - fee - tax))} {'more' if total > fee + tax else 'less'} than that"),
         charge.place.mark("the terms")),
        f"If the statement says so, ask the agent: by the terms {pounds(net)} was to be banked. If the terms have "
        "changed, or hold VAT already, put them right under the agent; if it is a slip, correct the line.",
    )  # fmt: skip


def _works(entry: Entry, agent: Party, charge: Charge, vat: Fraction) -> Iterator[Problem]:
    """What an agent adds to each trade's price; the trade's own price is the amount of the line, with its VAT."""
    for line in entry.lines:
        if line.kind != "works" or not line.amount or line.verb in ("sold", "scrapped"):
            continue
        added = [extra for extra in line.facts.plus if any(word in extra.what.lower() for word in ADDED)]
        base = line.total - sum(extra.amount for extra in added)
        exact = base * charge.percent / 100 * (1 + vat if "vat" in charge.plus.lower() else 1)
        found = sum(extra.amount for extra in added)
        if found in _either(exact):
            continue
        right = round_half_up(exact)
        if added:
            share = f"{per_cent(charge.percent)} comes to {pounds(right)}"
            headline = f"{agent.full} added {pounds(found)} to works of {pounds(base)}; {share}."
            help = f"By the terms the works come to {pounds(base + right)}. Ask the agent, or put the terms right."
        else:
            own = round_half_up(base / (1 + exact / base))
            rate = per_cent(charge.percent)
            headline = f"{agent.full} adds {rate} to works, and this line tells no charge of theirs."
            help = (
                f"If {pounds(base)} is the trade's own price, {pounds(right)} more may have been taken. If it holds "
                f"the charge, the trade's price was {pounds(own)}: write it so, with `plus agent's charge "
                f"{pounds(base - own)}`. The trade's invoice shows which."
            )
        yield Problem(
            "works-charge-off", Level.DOUBT, headline,
            (line.place.mark("what is in it?"), charge.place.mark("the terms")), help,
        )  # fmt: skip
