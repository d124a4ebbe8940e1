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
