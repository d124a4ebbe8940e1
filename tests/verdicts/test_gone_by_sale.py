"""What ends an improvement before a sale: the same thing replaced or taken out, never new units in a room."""

from __future__ import annotations

import pytest

from .books import short, verdicts


@pytest.mark.parametrize("changed", ["altered kitchen and hall", "extended kitchen", "altered bathroom"])
def test_new_units_are_not_the_end_of_the_new_shape_of_a_room(changed: str) -> None:
    room = changed.split()[1]
    shape, units = verdicts(
        f"4 Mar 2019 {changed} £1,450.00 by cobb\n4 Mar 2021 replaced {room} £4,000.00, like for like, worn out"
    )

    assert short(shape.parts) == "1450.00 improvement"
    assert short(units.parts) == "4000.00 repair"


@pytest.mark.parametrize(
    ("first", "later"),
    [
        ("installed kitchen £1,450.00, none before", "replaced kitchen £4,000.00, like for like"),
        ("altered stairs £1,450.00", "replaced stairs £4,000.00, like for like"),
        ("extended garage £1,450.00", "removed garage £400.00"),
        ("extended house £1,450.00", "removed house £400.00"),
    ],
)
def test_the_same_thing_replaced_or_taken_out_ends_it(first: str, later: str) -> None:
    gone, _ = verdicts(f"4 Mar 2019 {first}\n4 Mar 2021 {later}")

    assert short(gone.parts) == "1450.00 improvement [none]"
