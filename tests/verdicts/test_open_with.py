"""What is open only because another line is names that line, so that it is settled once and not apart from it."""

from __future__ import annotations

import pytest

from ledger_tools.explain.houses import HOUSES
from ledger_tools.verdicts.verdict import Confidence

from .books import LET, verdicts

HOME = HOUSES["own home first"].book


@pytest.mark.parametrize(
    ("lines", "house"),
    [
        ("3 Mar 2025 replaced boiler £3,150.00\n4 Mar 2025 repaired plaster £90.00, making good after boiler", LET),
        ("3 Mar 2025 replaced boiler £3,150.00\n4 Mar 2025 hired skip £90.00, goes with boiler", LET),
        ("4 Jul 2025 replaced sofa £700.00, like for like, ours before\n4 Mar 2026 took home sofa £350.00", HOME),
    ],
)
def test_what_is_open_with_another_line_names_it(lines: str, house: str) -> None:
    first, second = verdicts(lines, house)

    assert first.arguable and second.arguable
    assert f"({first.item.source})" in " ".join(fired.says for fired in second.path)


@pytest.mark.parametrize("follows", ["repaired plaster £90.00, making good after", "hired skip £90.00, goes with"])
def test_what_follows_a_ruled_line_says_so_and_is_no_open_question(follows: str) -> None:
    """One answer is never called arguable: the ruling decided it, and a reader is told that it did."""
    first, second = verdicts(
        f'3 Mar 2025 replaced boiler £3,150.00, treat as repair because "adviser"\n4 Mar 2025 {follows} boiler'
    )

    assert first.without is not None and first.without.arguable
    assert not second.arguable and second.confidence is Confidence.USUAL
    assert second.path[0].says.endswith(f"You ruled on that yourself ({first.item.source}).")


def test_what_follows_a_settled_line_names_none() -> None:
    first, second = verdicts(
        "3 Mar 2025 replaced boiler £3,150.00, like for like\n"
        "4 Mar 2025 repaired plaster £90.00, making good after boiler"
    )

    assert not second.arguable
    assert first.item.source not in " ".join(fired.says for fired in second.path)
