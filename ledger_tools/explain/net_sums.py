"""What lies behind a sum an agent sent, where the agent's terms and one let's rent give it to the penny.

Bank statements show only what came; the lines are offered for the agent's own statement to bear out. Decides no tax.
"""

from __future__ import annotations

from datetime import date
from fractions import Fraction

from ..book.rents import dues
from ..book.world import Book, Party
from ..days import months_after
from ..money import pounds, round_half_up

INDENT = "\n    "


def behind(book: Book, agent: Party, day: date, net: int) -> str:
    """The lines of a statement that comes to `net` pence on a day, each indented below its head; "" where no let's rent
    less the agent's charges does, or two do."""
    charge = next((charge for charge in agent.charges if charge.of in ("rent", "rent due")), None)
    if charge is None:
        return ""
    vat = _vat(day) if "vat" in charge.plus.lower() else Fraction(0)
    found = []
    for let in book.tenancies.values():
        due = [due for due in dues(let, day) if due.day >= months_after(day, -2)]
        for rent in {due[-1].pence} if due else ():
            fee = round_half_up(rent * charge.percent / 100)
            tax = round_half_up(fee * vat)
            if rent - fee - tax == net:
                on_top = f", plus vat {pounds(tax)}" if tax else ""
                found.append(
                    f"{INDENT}received rent {pounds(rent)} from {let.name}"
                    f"{INDENT}paid management fee {pounds(fee)}{on_top}"
                )
    return found[0] if len(found) == 1 else ""


def _vat(day: date) -> Fraction:
    from .. import law  # only a book with such a sum pays for it

    try:
        return Fraction(law.figure("vat.standard_rate", day).value)
    except law.NoFigure:
        return Fraction(0)
