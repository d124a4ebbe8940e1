"""Losses of a letting business: set against its first later profit, the rest carried on. Knows no book.

Source: ITA 2007 s. 118; PIM4205. A loss set against other income (ITA 2007 s. 120) is not worked out here.
"""

from __future__ import annotations

from ...record import record


@record
class AfterLosses:
    """taxable: what is left of a profit; used: how much of the losses brought in it took up; on: losses carried on."""

    taxable: int
    used: int
    on: int


def after_losses(result: int, brought: int) -> AfterLosses:
    """A year's result (a loss is below nil) with the losses brought into it, all in one unit, pence or pounds.

    The whole of a profit must be used before anything is carried on. ValueError where `brought` is below nil.
    """
    if brought < 0:
        raise ValueError("losses brought in are told without a sign")
    used = min(max(result, 0), brought)
    return AfterLosses(max(result, 0) - used, used, brought - used + max(-result, 0))
