"""What was not paid of each bill on a day: its own open rows, less plain payments to or from the same party.

Knows nothing of boxes or owners. A plain payment pays the oldest bill of its party and house first (common practice,
no source).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from datetime import date

from .rows import Row


def open_bills(rows: Iterable[Row], on: date) -> dict[tuple[str, str], int]:
    """Pence left of every bill at the end of a day, by its line ("file:line") and house; what is paid is left out."""
    left: dict[tuple[str, str, str], list[tuple[date, str, int]]] = defaultdict(list)
    settled: dict[tuple[str, str, str], int] = defaultdict(int)
    for row in rows:
        key = (row.way, row.who, row.house)
        if row.owed is None:
            settled[key] += row.pence if row.paid and row.paid <= on else 0
        elif row.owed <= on and (row.paid is None or row.paid > on):
            left[key].append((row.owed, row.source, row.pence))
    found: dict[tuple[str, str], int] = defaultdict(int)
    for key, bills in left.items():
        money = settled[key]
        for _, source, pence in sorted(bills):
            paid = min(money, pence)
            money -= paid
            if paid < pence:
                found[source, key[2]] += pence - paid
    return dict(found)
