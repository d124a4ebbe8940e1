"""What a law or a licence asks for: the reason says in plain words why that alone makes no repair of it."""

from __future__ import annotations

import pytest

from .books import last, short

WHY = "does not decide"


@pytest.mark.parametrize(
    ("line", "parts"),
    [
        ("installed 3 smoke alarms £84.00, required", "84.00 open repairs [enhancement]"),
        ("installed mains alarm £84.00, required", "84.00 improvement"),
    ],
)
def test_something_new_that_was_ordered_says_why_that_makes_no_repair(line: str, parts: str) -> None:
    ordered, chosen = last(f"9 Apr 2025 {line}"), last(f"9 Apr 2025 {line.removesuffix(', required')}")

    assert short(ordered.parts) == short(chosen.parts) == parts
    assert any(WHY in fired.says and "Tax Bulletin 59" in fired.authority for fired in ordered.path)
    assert not any(WHY in fired.says for fired in chosen.path)


def test_what_takes_the_place_of_an_alarm_is_a_repair_as_the_reason_says() -> None:
    first = "9 Apr 2015 installed smoke alarm £28.00, required\n"
    again = last(f"{first}9 Apr 2025 replaced smoke alarm £28.00, like for like, required")

    assert short(again.parts) == "28.00 repair"


@pytest.mark.parametrize(
    ("line", "open_"),
    [
        ("installed 4 linked alarms £220.00, required", True),
        ("installed 4 battery linked alarms £220.00, required", True),
        ("installed 4 mains linked alarms £220.00, required", False),
        ("replaced 4 smoke alarms with linked alarms £220.00, required", False),
    ],
)
def test_linked_alarms_may_run_on_batteries(line: str, open_: bool) -> None:
    """Section 5 of the rules in words: mains alarms are capital, of the first battery ones opinions differ."""
    assert last(f"4 Mar 2025 {line}").arguable is open_


def test_a_first_one_that_was_ordered_asks_for_the_paper_that_orders_it() -> None:
    """C9 of the rules in words names the licence conditions as what to keep."""
    ordered, wanted = (last(f"4 Mar 2025 installed fire alarm £900.00{why}") for why in (", required", ""))

    assert any("BIM46920" in fired.authority for fired in ordered.path if fired.slug == "new-though-ordered")
    assert "the licence conditions or the notice" in ordered.keep
    assert "the licence conditions or the notice" not in wanted.keep
