"""The law room: dated figures with citations, and the property pages by year. Knows no book."""

from __future__ import annotations

from ledger_tools.law.figures import (
    Band,
    Citation,
    Dated,
    DueDay,
    Figure,
    NoFigure,
    Schedule,
    began,
    checked_up_to,
    due,
    figure,
    records_until,
    schedule,
)
from ledger_tools.law.load import topics
from ledger_tools.law.pages import (
    Box,
    Category,
    Kind,
    Rounding,
    box,
    box_for,
    categories,
    field_for,
    form_last_seen,
    pages,
    pages_checked_up_to,
)

__all__ = [
    "Band",
    "Box",
    "Category",
    "Citation",
    "Dated",
    "DueDay",
    "Figure",
    "Kind",
    "NoFigure",
    "Rounding",
    "Schedule",
    "began",
    "box",
    "box_for",
    "categories",
    "checked_up_to",
    "due",
    "field_for",
    "figure",
    "form_last_seen",
    "pages",
    "pages_checked_up_to",
    "records_until",
    "schedule",
    "topics",
]
