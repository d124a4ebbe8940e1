"""`void`: council tax while a home is empty, as it should be against the bills that came; and the letter."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from .opening import book_argument, houses_asked, on_option, open_whole, property_option, read_year, stop
from .output import Output, output_options

if TYPE_CHECKING:
    from ..book.world import Book
    from ..days import TaxYear


@click.command()
@book_argument
@property_option
@click.option("--year", metavar="YEAR", help="The council's year, such as 2025-26, 1 April to 31 March. The years of "
              "the last void, if left out.")  # fmt: skip
@click.option("--letter", is_flag=True, help="Draft the letter to the council about one house.")
@output_options
@on_option
def void(book: Path, house: str | None, year: str | None, letter: bool, on: date, out: Output) -> None:
    """Is the council's bill right?

    Council tax while a home is empty, day by day: who answers, what share of the charge is due and why, what it comes
    to, and what differs from the bills in your book; what another empty day costs; what can be asked for. The
    percentages are those of the `scheme` blocks of your book: copy them from what your council prints.
    """
    from ..render import void as render
    from ..render.text import foot
    from ..render.void_json import as_json
    from ..render.void_page import page
    from ..statements.checked import council_checked
    from ..statements.void import void as work_out

    opened = open_whole(book)
    found = opened.book
    houses = houses_asked(found, house)
    asked = read_year(year) if year else None
    if letter:
        _letter(found, houses, on, asked, out)
        return
    made = [work_out(found, name, on, asked) for name in houses]
    out.statement(
        opened, lambda: as_json(made), lambda: page(made, council_checked()),
        lambda said: f"{render.text(made)}\n\n{foot((), said.checked)}",
    )  # fmt: skip


NOTHING = "There is nothing to ask the council: no bill is too high, and nothing waits to be claimed."
REPAID = "There is nothing to ask the council: what you paid, less what came back, is what is due."
NOT_YET = (
    "There is nothing to ask the council for certain yet.\n"
    "What your book lacks or leaves open decides it: `void` without `--letter` tells what that is."
)


def _letter(book: Book, houses: list[str], on: date, year: TaxYear | None, out: Output) -> None:
    from ..render import void as render
    from ..statements.void import void as work_out
    from ..statements.void_against import against
    from ..statements.void_letter import letter

    if out.form != "text":
        raise click.UsageError("The letter is text: leave out `--format`, or name a file such as letter.txt.")
    if len(houses) > 1:
        raise click.UsageError(f"A letter about which house? Add `--property` and one of {', '.join(houses)}.")
    made = work_out(book, houses[0], on, year)
    if made.nation == "northern ireland":
        stop(made.notes[0])
    found = letter(book, made)
    nothing = REPAID if made.repaid else NOTHING if made.settled else NOT_YET
    out.write(render.letter(found, against(book, made, found)) if found else nothing)
