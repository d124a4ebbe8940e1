"""Money as whole pence: reading, writing, sharing without losing one. Knows nothing of books or tax."""

from __future__ import annotations

import math
from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache


@lru_cache(maxsize=1 << 14)  # the same rents and fees come back month after month
def pence(text: str) -> int:
    """Read pounds written as digits ("1,234", "1234.50") into whole pence.

    Raises ValueError where the text is not a sum with no or two decimals.
    """
    whole, dot, small = text.replace(",", "").partition(".")
    if not whole.isdigit() or not whole.isascii() or (dot and not (len(small) == 2 and small.isdigit())):
        raise ValueError(text)
    return int(whole) * 100 + (int(small) if small else 0)


def pounds(amount: int) -> str:
    """Write pence for people: "£1,234.50", "-£3.00"."""
    sign = "-" if amount < 0 else ""
    return f"{sign}£{abs(amount) // 100:,}.{abs(amount) % 100:02d}"


def per_cent(rate: Fraction) -> str:
    """Write a rate in per cent for people: "10%", "20.4%"."""
    return f"{(Decimal(rate.numerator) / Decimal(rate.denominator)).normalize():f}%"


def plain(amount: int) -> str:
    """Write pence for programs: "1234.50", "-3.00"."""
    sign = "-" if amount < 0 else ""
    return f"{sign}{abs(amount) // 100}.{abs(amount) % 100:02d}"


def decimals(value: Fraction | Decimal, places: int) -> str:
    """A number for people with so many decimals, halves away from nil: "7.6", "-0.10"."""
    whole = round_half_up(Fraction(value) * 10**places)
    digits = f"{abs(whole):0{places + 1}d}"
    cut = len(digits) - places
    return ("-" if whole < 0 else "") + digits[:cut] + ("." + digits[cut:] if places else "")


def percent(share: Fraction | Decimal, places: int) -> str:
    """A share of one as a percentage with so many decimals: "7.6%"."""
    return decimals(Fraction(share) * 100, places) + "%"


def rate_words(rate: Fraction | Decimal) -> str:
    """A rate in per cent without needless decimals: "5.2%", "5%"."""
    return decimals(rate, 6).rstrip("0").rstrip(".") + "%"


def decimal(amount: int) -> Decimal:
    """Pence as exact pounds with two decimals."""
    return Decimal(amount).scaleb(-2)


def share(amount: int, weights: Sequence[int | Fraction], turn: int = 0) -> list[int]:
    """Split pence in proportion to weights; the parts always add up to the whole.

    Largest remainder: every part gets its whole pence, the pennies left over go to the largest
    fractions. Where two are equal the earlier part comes first, or with `turn` that many parts
    later, round and round: who shares many sums gives each its own turn. Negative amounts mirror
    positive ones. Weights must not be negative and not all nil (ValueError).
    """
    if len(weights) == 1 and weights[0].numerator > 0:
        return [amount]
    whole = math.lcm(*(w.denominator for w in weights))
    sizes = [w.numerator * (whole // w.denominator) for w in weights]
    total = sum(sizes)
    if total <= 0 or min(sizes) < 0:
        raise ValueError("weights must be positive")
    parts = [abs(amount) * size // total for size in sizes]
    left = abs(amount) - sum(parts)
    odd = [abs(amount) * size % total for size in sizes]
    for i in sorted(range(len(parts)), key=lambda i: (-odd[i], (i - turn) % len(parts)))[:left]:
        parts[i] += 1
    return [-p for p in parts] if amount < 0 else parts


def round_half_up(value: Fraction | Decimal | int) -> int:
    """The nearest whole number, halves away from nil."""
    value = Fraction(value)
    whole = (abs(value.numerator) * 2 + value.denominator) // (2 * value.denominator)
    return -whole if value < 0 else whole


def down_to_pound(amount: Fraction | Decimal | int) -> int:
    """Pence down to whole pounds, in pence: 12.99 becomes 12.00, -12.01 becomes -13.00."""
    return math.floor(Fraction(amount) / 100) * 100


def up_to_pound(amount: Fraction | Decimal | int) -> int:
    """Pence up to whole pounds, in pence: 12.01 becomes 13.00, -12.99 becomes -12.00."""
    return math.ceil(Fraction(amount) / 100) * 100
