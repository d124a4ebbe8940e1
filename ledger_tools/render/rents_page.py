"""The rents of houses as a page: the words of their text, with the lines behind every sum. No arithmetic."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..book.arrears import OwedRun, RentAccount
from ..book.deposits import DepositAccount
from ..book.entries import Entry
from ..statements.audit import words
from ..statements.figures import Trace
from ..statements.rents import Asked, HouseRents, LetRents
from . import rents as said
from .page import Block, Column, Item, Items, Notes, Page, Row, Section, Sum, Table, Words

WHAT = (Column("what"), Column("sum", right=True))
OWED = (Column("of"), Column("days", right=True), Column("still owed", right=True))


def page(houses: Sequence[HouseRents]) -> Page:
    """House by house, let by let."""
    return Page("rents", "Who owes rent, and since when", tuple(map(_house, houses)), said.footer(houses))


def _house(house: HouseRents) -> Section:
    blocks: list[Block] = [] if house.lets else [Words(said.NO_LET)]
    blocks += [_let(house, made) for made in house.lets]
    blocks += [Words(said.unplaced(receipt)) for receipt in house.unplaced]
    return Section(said.title(house), tuple(blocks))


def _let(house: HouseRents, made: LetRents) -> Section:
    name = said.let_title(made)
    blocks: list[Block] = [Words(said.NOT_BEGUN)] if made.rent is None else list(_rent(house, made, made.rent))
    told = ", ".join(said.deposit_told(made.deposit))
    blocks.append(Words(f"{told[0].upper()}{told[1:]}."))
    if rows := tuple(_moved(made.deposit)):
        blocks.append(Table("deposit", f"{house.full}, {name}: the deposit", WHAT, rows, unheaded=True))
    blocks += [Notes(made.deposit_notes)] if made.deposit_notes else []
    if made.asked:
        blocks.append(Section("asked of the tenant", (Items(tuple(map(_asked, made.asked))),)))
    return Section(name, tuple(blocks))


def _rent(house: HouseRents, made: LetRents, rent: RentAccount) -> Iterator[Block]:
    name, place = said.let_title(made), made.let.place.short
    lines = {
        "carried": (Trace(place, rent.since, "owed when the book began", rent.carried, -1),),
        "due": tuple(Trace(place, due.day, f"rent of {due.period}", due.pence, -1) for due in rent.due),
        "came": tuple(_line(receipt.line, receipt.pence) for receipt in rent.came),
        "lost": tuple(_line(receipt.line, receipt.pence) for receipt in rent.lost),
    }
    told = said.rent_rows(rent)
    signs = {"carried": 1, "due": 1, "came": -1, "lost": -1, "ahead": 1}
    adds = tuple((slug, signs[slug]) for slug, _, _ in told if slug in signs)
    rows = (
        Row((label, Sum(pence, adds=adds)), slug, "total") if slug == "owed"
        else Row((label, Sum(pence, lines.get(slug, ()))), slug)
        for slug, label, pence in told
    )  # fmt: skip
    yield Table("rent", f"{house.full}, {name}: rent", WHAT, tuple(rows), unheaded=True)
    if rent.owed:
        of = tuple(Row((said.owed_of(OwedRun((o,))), str(o.late(rent.on)), Sum(o.pence))) for o in rent.owed)
        yield Table("arrears", f"{house.full}, {name}: still owed", OWED, of)
    for sentence in (*([] if rent.came else [said.no_rent(rent)]), *said.at_odds(rent)):
        yield Words(sentence)


def _line(entry: Entry, pence: int) -> Trace:
    return Trace(entry.source, entry.day.first, words(entry), pence, -1)


def _moved(account: DepositAccount) -> Iterator[Row]:
    """What came of a deposit, what was kept and given back, and what is held; nothing where none came."""
    if not account.received:
        return
    yield Row(("received", Sum(account.received, _came(account))), "received")
    parts = [("kept", account.kept), ("repaid", account.repaid)]
    for name, entries in parts:
        lines = tuple(_line(entry, entry.total) for entry in entries)
        if lines:
            yield Row((name, Sum(sum(t.pence for t in lines), lines)), name)
    adds = (("received", 1), *((name, -1) for name, entries in parts if entries))
    yield Row(("held", Sum(account.held, adds=adds)), "held", "total")


def _came(account: DepositAccount) -> tuple[Trace, ...]:
    """The headings that tell of a deposit; no lines where dated ones stand in their place, with other sums."""
    told = [one for one in (account.told, account.holding) if one and one.received and one.received <= account.on]
    traces = tuple(
        Trace(one.place.short, one.received, "holding deposit" if one.holding else "deposit", one.amount, -1)
        for one in told if one.received
    )  # fmt: skip
    return traces if sum(t.pence for t in traces) == account.received else ()


def _asked(asked: Asked) -> Item:
    wear = said.wear_told(asked)
    sums = ((Sum(asked.pence, (_line(asked.line, asked.pence),)), said.how_asked(asked)),)
    told = (("fair wear", wear),) if wear else ()
    return Item(asked.line.source, asked.what or "rent or other sums", sums, told, str(asked.line.day))
