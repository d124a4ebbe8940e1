"""A leaseholder's share of the block: what is told apart is certain enough, what is not told carries its question."""

from __future__ import annotations

from ledger_tools.verdicts.verdict import Confidence

from .books import last


def test_a_service_charge_asks_for_its_part_that_was_new_and_moves_no_figure() -> None:
    verdict = last("4 Mar 2025 paid service charge £900.00")

    assert verdict.confidence is Confidence.USUAL
    assert "something new in the building?" in verdict.path[-1].says
    assert any("improvement £…" in change for change in verdict.would_change)


def test_a_ground_rent_asks_nothing() -> None:
    verdict = last("4 Mar 2025 paid ground rent £900.00")

    assert verdict.confidence is Confidence.CLEAR
    assert "something new" not in " ".join(fired.says for fired in verdict.path)


def test_insulation_like_the_old_is_a_repair_that_sources_differ_on() -> None:
    assert last("4 Mar 2025 replaced loft insulation £500.00, like for like").confidence is Confidence.USUAL
    assert last("4 Mar 2025 replaced gutters £500.00, like for like").confidence is Confidence.CLEAR
