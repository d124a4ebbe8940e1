"""Rent a room: where the lodgers paid no more than the limit, box 4; above it what an owner told stands as told.

Knows no layout. Sources: SA105 boxes 4 and 37; ITTOIA 2005 ss. 784-802 (from memory).
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from .. import law
from ..days import TaxYear
from ..ledger.rows import Row
from ..money import pounds
from ..taxes.income.basis import basis
from ..verdicts.verdict import Kind
from .accounts import INCOME, Accounts
from .figures import Trace

RENTS, FREE = "rent_a_room_rents", "rent_a_room"


def lodgers_told(accounts: Accounts, owner: str, year: TaxYear) -> dict[str, list[Trace]]:
    """By category what rent a room changes in an owner's year, with its day: all the lodgers' rents off again where box
    4 is ticked, or the sum that is told as free of tax."""
    landlord = accounts.book.landlords[owner]
    if pence := landlord.rent_a_room.get(year):
        return {FREE: [Trace(landlord.place.short, year.period.first, "rent a room, as told", pence, -1)]}
    if not box_4(accounts, owner, year):
        return {}
    free, rents = "rent of a lodger, free of tax by box 4", _rents(accounts, owner, year)
    return {RENTS: [Trace(row.source, day, free, -pence, row.verdict) for row, day, pence in rents]}


def box_4(accounts: Accounts, owner: str, year: TaxYear) -> bool:
    """Whether X belongs in box 4: the relief is claimed without a sum, and the lodgers paid no more than the limit."""
    told = accounts.book.landlords[owner].rent_a_room
    if year not in told or told[year]:
        return False
    return 0 < _paid(accounts, owner, year) <= _limit(accounts, owner, year)


def _rents(accounts: Accounts, owner: str, year: TaxYear) -> list[tuple[Row, date, int]]:
    """The rows of lodgers' rents with their day and the owner's part, what went back to them below nil."""
    found = []
    way = basis(accounts.book, owner, year)
    for row, day, pence in accounts.of_owner(owner, year, way):
        category, sign = accounts.counted(row, way)
        if category == RENTS and sign:
            found.append((row, day, sign * pence))
    return found


def _paid(accounts: Accounts, owner: str, year: TaxYear) -> int:
    return sum(pence for _, _, pence in _rents(accounts, owner, year))


def _shared(accounts: Accounts, owner: str, year: TaxYear) -> bool:
    """Whether one of the homes has another owner, who has rent from it too."""
    return any(len(accounts.shares(row.house, day)) > 1 for row, day, _ in _rents(accounts, owner, year))


def _limit(accounts: Accounts, owner: str, year: TaxYear) -> int:
    topic = "rent_a_room_shared" if _shared(accounts, owner, year) else "rent_a_room_limit"
    return law.figure(f"property.{topic}", year).pence


def rent_a_room_told(accounts: Accounts, owner: str, year: TaxYear, sums: Mapping[str, int]) -> str:
    """What to know where rent a room is claimed for a year, beside sums in pence by category; "" where it is not."""
    landlord = accounts.book.landlords[owner]
    if year not in landlord.rent_a_room:
        return ""
    if box_4(accounts, owner, year):
        return _within(accounts, owner, year)
    limit, rents, free = _limit(accounts, owner, year), sums.get(RENTS, 0), sums.get(FREE, 0)
    if not free and not rents:
        return (
            f"Rent a room is claimed for {year}, and your book holds no rent of lodgers: write down what they paid, as "
            "`received lodger rent £…`, though it be free of tax, so that box 4 or 37 can be filled."
        )
    if not free:
        return (
            f"Rent a room, claimed for {year}: your lodgers paid {pounds(rents)}, more than the {pounds(limit)} of box "
            "4. The part that is free of tax belongs in box 37, in place of every cost of their rooms: where that "
            f"serves you better than the costs do, add it to that line, as `claims rent a room {pounds(limit)} in "
            f"{year}`; else take the line out."
        )
    odd = []
    if free > limit:
        odd.append(f"the law frees {pounds(limit)} at most")
    if free > rents:
        odd.append(f"your book tells {pounds(rents)} of rent from lodgers (`received lodger rent £…`)")
    said = f"Rent a room, claimed for {year}, is taken as you tell it."
    if odd:
        return f"{said} Not to be sent like this: {pounds(free)} is told as free of tax, but {' and '.join(odd)}."
    return f"{said} Box 37 holds the {pounds(free)} that you tell; no cost of the lodgers' rooms comes off beside it."


def _within(accounts: Accounts, owner: str, year: TaxYear) -> str:
    """Beside an X in box 4: what was left out, and costs of the same homes that came off all the same."""
    paid, limit = pounds(_paid(accounts, owner, year)), pounds(_limit(accounts, owner, year))
    half = law.figure("property.rent_a_room_shared", year).pence
    which = (
        "the limit where somebody else has rent from the home too"
        if _shared(accounts, owner, year)
        else f"or {pounds(half)} if somebody else has rent from the home too"
    )
    said = (
        f"Rent a room, claimed for {year}: your lodgers paid you {paid}, which is not above {limit}, {which}; so X "
        "stands in box 4, and that rent is in no other box."
    )
    if costs := _costs(accounts, owner, year):
        said += (
            f" {pounds(costs)} of costs of the same home come off above: what of them was for the lodgers' rooms may "
            "not, so tell that part as `, of which private £…`."
        )
    return said


def _costs(accounts: Accounts, owner: str, year: TaxYear) -> int:
    """The owner's costs of the lodgers' homes that come off in a year, in pence."""
    homes, costs = {row.house for row, _, _ in _rents(accounts, owner, year)}, 0
    way = basis(accounts.book, owner, year)
    for row, _, pence in accounts.of_owner(owner, year, way):
        category, sign = accounts.counted(row, way)
        if row.house in homes and row.kind is not Kind.INCOME and category not in INCOME:
            costs += sign * pence
    return max(costs, 0)
