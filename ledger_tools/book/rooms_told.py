"""Rooms as a book tells them: those that lines and lets name are rooms of the house, and each is listed once.

Knows no tax, and not what is in a room.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..problems import Level, Place, Problem
from ..spelling import near
from .world import Book, Property

# Rooms of every house.
ROOMS_EVERYWHERE = frozenset({"whole house", "outside", "house", "everywhere"})


def rooms(book: Book) -> Iterator[Problem]:
    """Rooms named on a line or let in a tenancy are rooms of the house, where its rooms are told."""
    for entry in book.entries:
        for line in (entry, *entry.lines):
            if len(line.homes) != 1 or line is not entry and line.rooms == entry.rooms:
                continue
            for room in line.rooms:
                yield from _unlisted(book.properties[line.homes[0].house], room.text, room.place)
    for let in book.tenancies.values():
        house = book.properties.get(let.house)
        if house and let.room_place:
            yield from _unlisted(house, let.room, let.room_place, let=True)


def _unlisted(house: Property, room: str, place: Place, let: bool = False) -> Iterator[Problem]:
    known = {name.text for name in house.rooms}
    everywhere = frozenset() if let else ROOMS_EVERYWHERE
    if not known or room in known | everywhere:
        return
    found = [] if room[-1:].isdigit() else near(room, known | everywhere)  # "room 4" is no slip for "room 3"
    other = "." if let else ", or write `in whole house` or `in outside`."
    yield Problem(
        "unknown-room", Level.ERROR, f'{house.full} has no room called "{room}".',
        (place.mark("not one of its rooms"), house.place.mark("its rooms are told here")),
        f"Did you mean {' or '.join(found)}?" if found
        else f"Its rooms are {', '.join(sorted(known))}. Add it to the `rooms` line of {house.name}{other}",
    )  # fmt: skip


def rooms_twice(book: Book) -> Iterator[Problem]:
    """A room is listed once: two rooms of one kind have names of their own."""
    for house in book.properties.values():
        first: dict[str, Place] = {}
        for room in house.rooms:
            if room.text not in first:
                first[room.text] = room.place
                continue
            tell = " correct the number of the other."
            if not room.text[-1:].isdigit():
                tell = f", if there are two, tell them apart, such as `front {room.text}` and `back {room.text}`."
            yield Problem(
                "room-twice", Level.DOUBT, f"The rooms of {house.name} have {room.text} twice.",
                (room.place.mark("again here"), first[room.text].mark("first here")),
                f"Take one of the two out; or{tell}",
            )  # fmt: skip
