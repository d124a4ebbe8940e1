"""What the service would refuse in a body, by its own codes, beyond the bare form. Knows no book and no file.

Source: the rules and the schema that the tax authority publishes for the property service, version 6.0 (read 25 Nov
2026). The sums of a body are whole pence, so that too many decimals cannot arise.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date

from ... import law
from ...days import TaxYear, day_words
from ...record import record
from .quarters import Body, Update

MOST = 99_999_999_999_99  # pence: the largest sum a field takes
NEVER_BELOW_NIL = ("residentialFinancialCost", "residentialFinancialCostsCarriedForward", "amountClaimed")
BESIDE_TOTAL = ("consolidatedExpenses", *NEVER_BELOW_NIL, "rentARoom")
YEARS = range(1900, 2100)  # from memory; 1569 and 3490 are refused in its examples
VALUE = "FORMAT_VALUE"


@record
class Refusal:
    """Why the service would refuse a body: its own code where it has one, and plain words."""

    code: str
    says: str


def refusals(found: Body) -> tuple[Refusal, ...]:
    """What the service would refuse in the body of an update: an empty part, days, expenses told in both ways, sums
    below nil where none may be, sums too large."""
    return tuple((*_days(found), *_empty(found), *_both_ways(found), *_sums(found, "")))


def yearly_refusals(found: Body, year: TaxYear) -> tuple[Refusal, ...]:
    """The same of a yearly submission: the property income allowance beside other allowances, or above its limit."""
    allowances = _part(found, "ukProperty", "allowances")
    said = list((*_empty(found), *_sums(found, "")))
    claimed = allowances.get("propertyIncomeAllowance")
    if isinstance(claimed, int) and claimed > law.figure("property.income_allowance", year).pence:
        said.append(Refusal(VALUE, "The property income allowance is more than the law gives."))
    if claimed is not None and len(allowances) > 1:
        says = "With the property income allowance no other allowance can be claimed."
        said.append(Refusal("RULE_BOTH_ALLOWANCES_SUPPLIED", says))
    if claimed is not None and "privateUseAdjustment" in _part(found, "ukProperty", "adjustments"):
        says = "With the property income allowance no private use can be put right."
        said.append(Refusal("RULE_PROPERTY_INCOME_ALLOWANCE", says))
    return tuple(said)


def too_early(update: Update, on: date) -> tuple[Refusal, ...]:
    """The refusal of an update that is sent on a day before the first one allowed (SI 2026/336 reg. 9(2))."""
    if on >= update.early:
        return ()
    says = (
        f"It covers days up to {day_words(update.period.last)} and cannot be sent before {day_words(update.early)}, "
        "and then only if it is complete."
    )
    return (Refusal("RULE_EARLY_DATA_SUBMISSION_NOT_ACCEPTED", says),)


def _days(found: Body) -> Iterator[Refusal]:
    """Both days or neither, real ones, and in order."""
    told = [name for name in ("fromDate", "toDate") if name in found]
    if len(told) == 1:
        yield Refusal("RULE_MISSING_SUBMISSION_DATES", f"Only {told[0]} is told: both days or neither.")
    days = {}
    for name, code in (("fromDate", "FORMAT_FROM_DATE"), ("toDate", "FORMAT_TO_DATE")):
        if name in found:
            days[name] = _day(str(found[name]))
            if days[name] is None:
                yield Refusal(code, f"{name} is no day the service takes: {found[name]}.")
    first, last = days.get("fromDate"), days.get("toDate")
    if first and last and last < first:
        yield Refusal("RULE_TO_DATE_BEFORE_FROM_DATE", "toDate lies before fromDate.")


def _day(text: str) -> date | None:
    try:
        day = date.fromisoformat(text)
    except ValueError:
        return None
    return day if day.year in YEARS else None


def _empty(found: Body) -> Iterator[Refusal]:
    """A body, or a part of one, with nothing in it."""
    parts: list[tuple[str, object]] = [("the body", found), ("ukProperty", found.get("ukProperty", {}))]
    parts += [(name, part) for name, part in _part(found, "ukProperty").items() if isinstance(part, Mapping)]
    empty = [name for name, part in parts if not part]
    if empty:
        yield Refusal("RULE_INCORRECT_OR_EMPTY_BODY_SUBMITTED", f"Nothing is told in {empty[0]}.")


def _both_ways(found: Body) -> Iterator[Refusal]:
    expenses = _part(found, "ukProperty", "expenses")
    if "consolidatedExpenses" in expenses and any(name not in BESIDE_TOTAL for name in expenses):
        yield Refusal("RULE_BOTH_EXPENSES_SUPPLIED", "Expenses stand in one sum and one by one: only one way may be.")


def _part(found: Body, *names: str) -> Body:
    """The part of a body below some names; an empty one where there is none."""
    for name in names:
        inner = found.get(name, {})
        found = inner if isinstance(inner, dict) else {}
    return found


def _sums(found: Body, above: str) -> Iterator[Refusal]:
    for name, value in found.items():
        field = f"{above}.{name}" if above else name
        if isinstance(value, dict):
            yield from _sums(value, field)
        elif isinstance(value, int) and value < 0 and _never_below_nil(field):
            yield Refusal(VALUE, f"{field} comes out below nil, and the service takes none. {_instead(field)}")
        elif isinstance(value, int) and abs(value) > MOST:
            yield Refusal(VALUE, f"{field} is more than the service takes.")


def _instead(field: str) -> str:
    """What to do with a sum below nil where none may be."""
    if ".expenses." in field:
        return (
            "Leave it out: interest that came back belongs to the year in which you paid it; put that return right, "
            "or ask the tax office."
        )
    return "Leave it out, and send as much more under expenses.other: the profit is the same."


def _never_below_nil(field: str) -> bool:
    return ".expenses." not in field or field.rpartition(".")[2] in NEVER_BELOW_NIL
