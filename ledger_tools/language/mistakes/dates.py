"""Recognises mistakes in dates and tax years. Knows how they are written, not what they mean."""

from __future__ import annotations

import calendar
import re

from ...days import EARLIEST, LATEST, MONTHS, TaxYear, day_words
from ...problems import Problem
from ...spelling import distance
from ..lexer import read_date
from ..spot import Spot, listed

_NUMERIC = re.compile(r"(\d{1,4})([./-])(\d{1,2})\2(\d{1,4})(?![\w/])")
_IN_WORDS = re.compile(
    r"(\d{1,2})(?:st|nd|rd|th)?[ .-]*(?:of )?([A-Za-z]{2,9})(?![^\W\d_])[.,]?(?:[ -]*'?(\d{4}|\d\d)\b)?", re.I
)
_MONTH_FIRST = re.compile(r"([A-Za-z]{3,9})\.? +(\d{1,2})(?:st|nd|rd|th)?,? +(\d{4})\b", re.I)
_MONTH_ALONE = re.compile(r"([A-Za-z]{3,9})\.?[ -]+'?(\d{4}|\d\d)\b", re.I)
_FULL_MONTHS = tuple(name.lower() for name in calendar.month_name[1:])


def near_months(word: str) -> list[str]:
    """The months a word may mean, as three letters, nearest first; a right one is alone."""
    low = word.lower().rstrip(".")
    if any(low == month or (low == month[:3]) or (low == "sept" and month[0] == "s") for month in _FULL_MONTHS):
        return [low[:3].capitalize()]
    far = [(min(distance(low, m), distance(low, m[:3])), place) for place, m in enumerate(_FULL_MONTHS)]
    best = min(slips for slips, _ in far)
    allowed = 1 if len(low) < 6 else 2
    return [MONTHS[place] for slips, place in far if slips == best] if best <= allowed else []


def read_loosely(typed: str, *, iso: bool = False) -> str:
    """Words that are a day and no more, however typed, as the book writes it (or as 2025-06-09); "" for others."""
    if short := re.fullmatch(r"(\d{1,2}[/.-]\d{1,2}[/.-])(\d\d)", typed):
        typed = f"{short[1]}20{short[2]}"
    if numbers := re.fullmatch(r"(\d{1,2})[/.-](\d{1,2})[/.-](\d{4})", typed):
        typed = "/".join(numbers.groups())
    elif said := re.fullmatch(r"(\d{1,2})(?:st|nd|rd|th)?[ -]+(?:of )?([A-Za-z]{3,9})\.?,?[ -]+(\d{4})", typed, re.I):
        typed = " ".join(said.groups())
    elif not re.fullmatch(r"\d{4}-\d\d-\d\d", typed):
        return ""
    try:
        day = read_date(typed)
    except (ValueError, KeyError):
        return ""
    return day.isoformat() if iso else day_words(day)


def _exists(year: int, month: int, day: int) -> bool:
    return 1 <= month <= 12 and 1 <= year <= 9999 and 1 <= day <= calendar.monthrange(year, month)[1]


def _awaits_date(spot: Spot) -> bool:
    return not spot.unfinished and bool(spot.accepts & {"DATE", "MONTH"})


_YEAR_LAST = re.compile(r"[^\n,£\"]{0,16}?\b(\d{4})\b")


def year_out_of_reach(spot: Spot) -> Problem | None:
    """A date in year 0001 or 9999: right as a date, but no day of a landlord's."""
    match = _YEAR_LAST.match(spot.text, spot.start)
    if match is None or not _awaits_date(spot) or EARLIEST <= int(match[1]) <= LATEST:
        return None
    return spot.error(
        "no-such-day",
        f"The year {match[1]} cannot be meant: a book speaks of the years {EARLIEST} to {LATEST}.",
        label="which year?",
        at=match.span(1),
        help="Look at the paper it came from and give the year it says.",
    )


def date_in_figures(spot: Spot) -> Problem | None:
    """09/06/25, 9.6.2025, 30/02/2025, 06/13/2025."""
    match = _NUMERIC.match(spot.text, spot.start)
    if match is None or not _awaits_date(spot):
        return None
    typed, sign = match[0], match[2]
    first, middle, last = int(match[1]), int(match[3]), int(match[4])
    iso = len(match[1]) == 4
    year, month, day = (first, middle, last) if iso else (last, middle, first)
    short = not iso and len(match[4]) < 4
    full = year + 2000 if short else year
    if not iso and month > 12 and _exists(full, day, month):
        return _date(
            spot,
            match.end(),
            "no-such-month",
            f'There is no month {month}, so "{typed}" is not a date.',
            "The day comes before the month.",
            f"{month} {MONTHS[day - 1]} {full}",
        )
    if not _exists(full, month, day):
        return _no_such_day(spot, match.end(), typed, full, month)
    meant = f"{day} {MONTHS[month - 1]} {full}"
    if short:
        return _date(
            spot,
            match.end(),
            "two-digit-year",
            f'The year of "{typed}" needs all four digits.',
            f'Write the month in letters and the year in full: "{meant}", if that is the day.',
            meant,
        )
    if sign in ".-" or len(match[3]) < 2 or len(match[1]) < 2:
        return _date(
            spot,
            match.end(),
            "date-unclear",
            f'"{typed}" is not written as a date of the book.',
            f'Write the month in letters: "{meant}".',
            meant,
        )
    return None


def date_in_words(spot: Spot) -> Problem | None:
    """2 Jum 2025, 9 Jun 25, 9 Jun, 30 Feb 2025, Jun 9 2025, 9-Jun-2025."""
    if not _awaits_date(spot):
        return None
    if match := _MONTH_FIRST.match(spot.text, spot.start):
        months = near_months(match[1])
        if len(months) == 1:
            meant = f"{int(match[2])} {months[0]} {match[3]}"
            return _date(
                spot,
                match.end(),
                "date-unclear",
                f'In "{match[0]}" the month comes before the day.',
                f'The day comes first: "{meant}".',
                meant,
            )
    match = _IN_WORDS.match(spot.text, spot.start)
    if match is None or "DATE" not in spot.accepts:
        return _month_alone(spot) or _no_month(spot)
    typed, day, months, year = match[0].rstrip(" -,."), int(match[1]), near_months(match[2]), match[3]
    if not months:
        return _not_a_month(spot, match) if year or spot.last is None else _no_month(spot)
    end = spot.start + len(typed)
    if year is None and (digits := re.compile(r"[ -]*\d+").match(spot.text, match.end())):
        return _odd_year(spot, spot.start, digits.end())
    if year is None:
        return spot.error(
            "date-needs-year",
            f'The date "{typed}" needs its year.',
            at=(spot.start, end),
            label="which year?",
            help=f'Write the year in full: "{day} {months[0]} 2025", say.',
        )
    full = int(year) + (2000 if len(year) == 2 else 0)
    if match[2].lower()[:3] != months[0].lower() or len(months) > 1:
        return _misspelt(spot, match, months, f"{day} {{}} {full}")
    month = MONTHS.index(months[0]) + 1
    if not _exists(full, month, day):
        return _no_such_day(spot, end, typed, full, month)
    meant = f"{day} {months[0]} {full}"
    if spot.text[end : end + 1] in ("-", "–", "/") and spot.mend(spot.start, end + 1, f"{meant} to "):
        return spot.error(
            "dash-between-dates",
            "The two ends of a period are joined by to, not by a dash.",
            at=(end, end + 1),
            label="to",
            help='Write "to" between the two dates.',
            fix=spot.mend(spot.start, end + 1, f"{meant} to "),
        )
    if len(year) == 2:
        return _date(
            spot,
            end,
            "two-digit-year",
            f'The year of "{typed}" needs all four digits.',
            f'Write the year in full: "{meant}", if that is the day.',
            meant,
        )
    return _date(
        spot,
        end,
        "date-unclear",
        f'"{typed}" is not written as a date of the book.',
        f'Write it with blanks: "{meant}".',
        meant,
    )


def _month_alone(spot: Spot) -> Problem | None:
    match = _MONTH_ALONE.match(spot.text, spot.start)
    months = near_months(match[1]) if match else []
    if match is None or not months:
        if spot.last is None:
            return _year_alone(spot)
        year = re.compile(r"((?:19|20)\d\d)\b(?![-/])").match(spot.text, spot.start)
        if year and not spot.accepts & {"NUMBER", "TAXYEAR", "AMOUNT"}:
            return spot.error(
                "date-unclear",
                f'"{year[1]}" alone is too little for a date.',
                label="which month?",
                help=f'The month and the year are enough: "Jun {year[1]}", say.',
            )
        return None
    year_text = match[2] if len(match[2]) == 4 else f"20{match[2]}"
    if "MONTH" not in spot.accepts:
        return spot.error(
            "date-unclear",
            f'"{match[0]}" gives no day, and one is needed here.',
            label="which day?",
            at=(spot.start, match.end()),
            help=f'Write the day in front: "1 {match[0]}", say.',
        )
    if match[1].lower()[:3] != months[0].lower() or len(months) > 1:
        return _misspelt(spot, match, months, f"{{}} {year_text}", group=1)
    return _date(
        spot,
        match.end(),
        "two-digit-year",
        f'The year of "{match[0]}" needs all four digits.',
        "Write the year in full.",
        f"{months[0]} {year_text}",
    )


_ABOUT = (
    r"(?:(?:in|during|around|about|circa|c|approx|approximately|early|mid|late|spring|summer|autumn|winter"
    r"|(?:the )?(?:start|beginning|middle|end) of)\b[. -]*)*"
)


def _year_alone(spot: Spot) -> Problem | None:
    """2014 extended kitchen £9,000.00: a year is part of two tax years, so which it was is asked, not taken."""
    found = re.compile(rf"{_ABOUT}((?:19|20)\d\d)(?![\w/-])", re.I).match(spot.text, spot.start)
    if found is None:
        return None
    year = int(found[1])
    before, after = TaxYear(year - 1), TaxYear(year)
    rest = spot.text[found.end() : spot.tail].strip() or "…"
    return spot.error(
        "date-unclear",
        f'"{found[0]}" alone is too little for a date: a part of it is in the tax year {before}, the rest in {after}.',
        at=found.span(),
        label="which month?",
        help=f"A month is enough. If it was before {day_words(after.period.first)}, write `Jan {year} {rest}`; "
        f"if it was later, `Jun {year} {rest}`; or the month it was, if you know it.",
    )


def _no_month(spot: Spot) -> Problem | None:
    """15 2024, 1 8Mar 2025: figures where only a date can stand, or that look like one."""
    match = re.compile(r"\d{1,2} +(?:19|20)\d\d\b").match(spot.text, spot.start)
    alone = spot.last is None or not spot.accepts - {"DATE", "MONTH"}
    if "DATE" not in spot.accepts or not (match or (alone and spot.typed[:1].isdigit())):
        return None
    return spot.error(
        "date-unclear",
        f'No date can be made out of "{match[0] if match else " ".join(spot.typed_words(2))}".',
        at=match.span() if match else None,
        label="which day?",
        help='Write the day, the month in letters and the year: "9 Jun 2025", say.',
    )


def _odd_year(spot: Spot, start: int, end: int) -> Problem:
    return spot.error(
        "two-digit-year",
        f'The year of "{spot.text[start:end]}" needs all four digits.',
        at=(start, end),
        label="which year?",
        help="Write the year in full.",
    )


def month_behind(spot: Spot) -> Problem | None:
    """for Jum 2025: a month that was read as a word, found when its year does not fit."""
    before = re.search(r"\b([A-Za-z]{2,9})\.? +$", spot.text[: spot.start])
    if before is None or not spot.typed.isdigit() or not (months := near_months(before[1])):
        return None
    if not re.fullmatch(r"(?:19|20)\d\d", spot.typed):
        return _odd_year(spot, before.start(1), spot.end) if months == [before[1][:3].capitalize()] else None
    fix = spot.mend(before.start(1), spot.end, f"{months[0]} {spot.typed}")
    return spot.error(
        "no-such-month",
        f'"{before[1]}" is not a month.',
        at=before.span(1),
        label="not a month",
        help=f"Did you mean {listed(months[:3])}?",
        fix=fix,
    )


def _date(spot: Spot, end: int, code: str, headline: str, help: str, meant: str) -> Problem:
    return spot.error(code, headline, at=(spot.start, end), help=help, fix=spot.mend(spot.start, end, meant))


def _not_a_month(spot: Spot, match: re.Match[str]) -> Problem:
    return spot.error(
        "no-such-month",
        f'"{match[2]}" is not a month.',
        at=match.span(2),
        label="not a month",
        help="Write the month as Jan, Feb, Mar, Apr, May, Jun, Jul, Aug, Sep, Oct, Nov or Dec.",
    )


def _misspelt(spot: Spot, match: re.Match[str], months: list[str], form: str, group: int = 2) -> Problem:
    fix = spot.mend(spot.start, match.end(), form.format(months[0]), certain=False)
    return spot.error(
        "no-such-month",
        f'"{match[group]}" is not a month.',
        at=match.span(group),
        label="not a month",
        help=f"Did you mean {listed(months[:3])}?",
        fix=fix,
    )


def _no_such_day(spot: Spot, end: int, typed: str, year: int, month: int) -> Problem:
    if not (1 <= month <= 12 and 1 <= year <= 9999):
        why = f"a year has no month {month}" if not 1 <= month <= 12 else f"there is no year {year}"
    else:
        why = f"{calendar.month_name[month]} {year} has {calendar.monthrange(year, month)[1]} days"
    return spot.error(
        "no-such-day",
        f'There is no day "{typed}": {why}.',
        at=(spot.start, end),
        label="no such day",
        help="Look at the paper it came from and give the day it says.",
    )


def tax_year(spot: Spot) -> Problem | None:
    """2025-27, 2025/26, 2025-2026, 25-26, 2025."""
    match = re.compile(r"(\d{4}|\d\d)(?:([-/–])(\d{4}|\d\d))?(?![\w/.,-])").match(spot.text, spot.start)
    if match is None or "TAXYEAR" not in spot.accepts or spot.unfinished:
        return None
    first = int(match[1]) + (2000 if len(match[1]) == 2 else 0)
    if match[3] is None and (len(match[1]) == 2 or not 1900 < first < 2200):
        return None
    year = f"{first}-{(first + 1) % 100:02d}"
    follows = match[3] is None or int(match[3]) % 100 == (first + 1) % 100
    if not follows:
        before = int(match[3]) % 100
        other = f"{first // 100 * 100 + before - 1}-{before:02d}"
        headline = f'The two years of "{match[0]}" do not follow each other.'
        help = f"A tax year or council year runs from April to April: {listed([year, other])}."
    else:
        headline = f'"{match[0]}" is not written as a tax year or council year.'
        help = f'Such a year runs from April to April and is written like "{year}".'
    return spot.error(
        "year-unclear", headline, at=match.span(), help=help, fix=spot.mend(match.start(), match.end(), year)
    )
