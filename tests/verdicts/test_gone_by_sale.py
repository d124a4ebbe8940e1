"""What ends an improvement before a sale: the same thing replaced or taken out, never new units in a room."""

from __future__ import annotations

import pytest

from ledger_tools.verdicts.verdict import Kind

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


@pytest.mark.parametrize(
    ("new", "later", "gone"),
    [
        ("replaced kitchen £9,000.00, better", "2 Mar 2024 sold old kitchen £100.00", False),
        ("replaced kitchen £9,000.00, better", "2 Mar 2024 scrapped kitchen", False),
        ("replaced kitchen £9,000.00, better", "2 Mar 2024 removed old kitchen £90.00, goes with kitchen", False),
        ("replaced kitchen £9,000.00, better", "2 Mar 2030 replaced kitchen £100.00, like for like", True),
        ("rebuilt garage £9,000.00", "2 Mar 2024 removed garage £600.00, making way for garage", False),
        ("installed 6 radiators £3,000.00, none before", "2 Mar 2030 replaced radiator in hall £250.00, broken", False),
        ("installed 6 radiators £3,000.00, none before", "2 Mar 2030 replaced 6 radiators £250.00, broken", True),
        ("replaced windows £7,000.00, better", "2 Mar 2030 replaced window in hall £250.00, broken", False),
        ("replaced internal doors with fire doors £900.00", "2 Mar 2030 replaced fire door £90.00, broken", False),
    ],
)
def test_the_old_one_s_going_and_one_of_many_are_not_the_end_of_the_new(new: str, later: str, gone: bool) -> None:
    """H1 and H2 of the rules in words: what counts is whether it, or a part of it, is still there."""
    first = verdicts(f"1 Mar 2024 {new}\n{later}")[0]

    assert any(part.kind is Kind.IMPROVEMENT for part in first.parts)
    assert ("gone-by-sale" in [fired.slug for fired in first.path]) is gone
