"""Rent a room, which is not worked out: what an owner told of it stands as told, and a note says what is left to do.

Knows no layout. Sources: SA105 boxes 4 and 37; ITTOIA 2005 ss. 784-802.
"""

from __future__ import annotations

from collections.abc import Mapping

from .. import law
from ..book.world import Landlord
from ..days import TaxYear
from ..money import pounds
from .figures import Trace

RENTS, FREE = "rent_a_room_rents", "rent_a_room"


def told_free(landlord: Landlord, year: TaxYear) -> dict[str, list[Trace]]:
    """By category the sum that an owner tells as free of tax in a year; nothing where none is told."""
    pence = landlord.rent_a_room.get(year)
    if not pence:
        return {}
    return {FREE: [Trace(landlord.place.short, year.period.first, "rent a room, as told", pence, -1)]}


def rent_a_room_told(landlord: Landlord, year: TaxYear, sums: Mapping[str, int]) -> str:
    """What to know where rent a room is claimed for a year, beside sums in pence by category; "" where it is not."""
    if year not in landlord.rent_a_room:
        return ""
    limit, rents, free = law.figure("property.rent_a_room_limit", year).pence, sums.get(RENTS, 0), sums.get(FREE, 0)
    said = f"Rent a room, claimed for {year}, is not worked out here."
    if not free:
        return (
            f"{said} If your lodgers paid no more than {pounds(limit)} in the year (half of it where somebody else has "
            "rent from the home too), put X in box 4 and leave what they paid, and what it cost you, out of the boxes. "
            "If they paid more, the part that is free of tax belongs in box 37: add it to that line, as `claims rent a "
            f"room £… in {year}`."
        )
    odd = []
    if free > limit:
        odd.append(f"the law frees {pounds(limit)} at most")
    if free > rents:
        odd.append(f"your book tells {pounds(rents)} of rent from lodgers (`received lodger rent £…`)")
    if odd:
        return f"{said} Not to be sent like this: {pounds(free)} is told as free of tax, but {' and '.join(odd)}."
    return f"{said} Box 37 holds the {pounds(free)} that you tell; no cost of the lodgers' rooms comes off beside it."
