"""Rules that differ by nation: the figure that held in one nation on a day. Knows no book and no rule."""

from __future__ import annotations

from datetime import date

from ledger_tools.law.figures import Figure, NoFigure, figure
from ledger_tools.law.load import table, topics


def in_nation(topic: str, nation: str, on: date) -> Figure | None:
    """The number that held in a nation ("england", … "northern ireland") on a day; None where none is held.

    A rule of one nation has a topic of its own, named with the nation at its end; else the topic says where it holds.
    """
    own = f"{topic}_{nation.replace(' ', '_')}"
    name = own if own in topics() else topic
    if name not in topics() or nation not in {where.lower() for where in table(name)["where"]}:
        return None
    try:
        return figure(name, on)
    except NoFigure:
        return None
