"""How far the law behind a statement was checked, and what it is not."""

from __future__ import annotations

from datetime import date

from .. import law
from ..days import TaxYear, day_words

NOT_HANDLED = (
    "Not worked out here: rent a room above its limit, lets abroad, holiday lets up to 2024-25, partnerships and "
    "companies."
)
NO_ADVICE = "This is no tax advice: an adviser and the tax office decide."


def checked(year: TaxYear) -> str:
    """What to print under the pages of a year."""
    until, pages = law.checked_up_to(), law.pages_checked_up_to()
    text = (
        f"Figures of law checked up to {day_words(until)}, the boxes up to {pages}; their wording was compared with "
        f"the pages of {law.form_last_seen()}, so hold it against the form of your year."
    )
    if year.period.last > until or year > pages:
        text += f" {year} goes beyond that: treat it as unchecked."
    return f"{text} {NOT_HANDLED} {NO_ADVICE}"


def council_checked() -> str:
    """What to print under anything that speaks of council tax."""
    until = law.checked_until("council")
    return (
        f"Classes, ceilings and time limits of council tax law checked up to {day_words(until)}; the percentages are "
        "your council's own, as your book tells them. This is no advice: the council and the tribunal decide."
    )


def checked_shortly(day: date | None = None) -> str:
    """What to print under anything else that speaks of tax, on a day."""
    until = law.checked_up_to()
    beyond = f" {day_words(day)} goes beyond that: treat the figures as unchecked." if day and day > until else ""
    return f"Law checked up to {day_words(until)}.{beyond} {NO_ADVICE}"
