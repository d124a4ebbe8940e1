"""How a sum of several houses is shared: by the percentages told, equally, by rent or by price. Exact fractions."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from fractions import Fraction

from .entries import Name
from .world import Property, Rent, Tenancy

# How many times a year each rent falls due; 365 days make 52 1/7 weeks.
TIMES_A_YEAR = {
    "a week": Fraction(365, 7), "a fortnight": Fraction(365, 14), "every 4 weeks": Fraction(365, 28),
    "a month": Fraction(12), "a quarter": Fraction(4), "a year": Fraction(1),
}  # fmt: skip


class CannotSplit(Exception):
    """The book does not say enough to share a sum; with a code, what is wrong, and the words that mend it."""

    def __init__(self, code: str, headline: str, help: str) -> None:
        super().__init__(headline)
        self.code, self.headline, self.help = code, headline, help


def fractions(
    told: Sequence[tuple[Name, Fraction | None]],
    split: str,
    houses: Mapping[str, Property],
    tenancies: Mapping[str, Tenancy],
    day: date,
) -> list[Fraction]:
    """The part of each house, adding up to 1; raises CannotSplit where the book does not tell them."""
    if not told:
        return []
    percents = [fraction for _, fraction in told if fraction is not None]
    if percents:
        return _percentages(told, percents)
    if not split:
        first = " and ".join(name.text for name, _ in told)
        raise CannotSplit(
            "shares-needed", "It is not said how this is shared between the houses.",
            f"Say `across {told[0][0].text} 60% and …`, or add `, split equally` after `across {first}`; "
            "`split by rent` and `split by price` work too.",
        )  # fmt: skip
    if split == "split equally":
        weights = [Fraction(1)] * len(told)
    elif split == "split by price":
        weights = [Fraction(got.amount) if (got := houses[n.text].got) else Fraction(0) for n, _ in told]
    else:
        weights = [rent_a_year(n.text, tenancies.values(), day) for n, _ in told]
    if not all(weights):
        missing = next(name.text for (name, _), w in zip(told, weights, strict=True) if not w)
        what = "price" if split == "split by price" else f"rent on {day}"
        raise CannotSplit(
            "split-unknown", f"Your book tells no {what} for {missing}, so this cannot be shared that way.",
            "Give percentages instead, such as `across a 60% and b 40%`, or `, split equally`.",
        )  # fmt: skip
    return [w / sum(weights) for w in weights]


def _percentages(told: Sequence[tuple[Name, Fraction | None]], percents: list[Fraction]) -> list[Fraction]:
    if len(percents) < len(told):
        missing = next(name.text for name, fraction in told if fraction is None)
        raise CannotSplit(
            "shares-mixed", f"Some houses have a percentage and {missing} has none.",
            "Give each house a percentage, or none of them and add `, split equally`.",
        )  # fmt: skip
    if sum(percents) != 1:
        raise CannotSplit(
            "shares-not-whole", f"The shares come to {_percent(sum(percents, Fraction(0)))}, not 100%.",
            "Change them so that they add up to 100%.",
        )  # fmt: skip
    return percents


def _percent(fraction: Fraction) -> str:
    number = fraction * 100
    return f"{number.numerator}%" if number.denominator == 1 else f"{round(number, 2)}%"


def rent_on(tenancy: Tenancy, day: date) -> Rent | None:
    """The rent a tenancy bears on a day."""
    found = None
    for rent in sorted(tenancy.rents, key=lambda r: r.since or date.min):
        if rent.since is None or rent.since <= day:
            found = rent
    return found


def runs_on(tenancy: Tenancy, day: date) -> bool:
    """Whether a let runs on a day."""
    first, last = tenancy.first_day, tenancy.last_day
    return first is not None and first <= day and (last is None or day <= last)


def rent_a_year(house: str, tenancies: Iterable[Tenancy], day: date) -> Fraction:
    """The yearly rent, in pence, of the lets of a house that run on a day."""
    total = Fraction(0)
    for tenancy in tenancies:
        rent = rent_on(tenancy, day) if tenancy.house == house and runs_on(tenancy, day) else None
        if rent is not None:
            total += rent.amount * TIMES_A_YEAR[rent.every]
    return total


def held(house: Property, day: date) -> bool:
    """Whether a house was ours on a day; where no date is told, it is taken as ours."""
    return (house.got is None or house.got.day <= day) and (house.sold is None or day <= house.sold.day)
