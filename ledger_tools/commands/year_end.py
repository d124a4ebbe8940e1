"""`year-end`: the boxes of the tax return, for each owner; and the whole year as a pack."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from .files import shown
from .opening import Opened, book_argument, choose_year, on_option, open_whole, so_far, stop, year_option
from .output import Output, output_options
from .papers import Shelf, receipts_option
from .progress import done
from .writing import NotWritten


@click.command("year-end")
@book_argument
@year_option
@output_options
@on_option
@click.option("--lines", is_flag=True, help="Under every box the lines of the book that make it.")
@click.option("--pack", "folder", metavar="FOLDER", type=click.Path(path_type=Path), help="Put the whole year into a "
              "new folder: every statement as a page, the workbook, the book, its receipts.")  # fmt: skip
@click.option("--zip", "as_zip", is_flag=True, help="With --pack: one file to send, FOLDER.zip, and no folder.")
@receipts_option
def year_end(
    book: Path, year: str | None, on: date, lines: bool, folder: Path | None, as_zip: bool, allowed: tuple[Path, ...],
    out: Output,
) -> None:  # fmt: skip
    """What goes on the tax return?

    Every box of the UK property pages that the book reaches, for each owner: the exact sum and the whole pounds to
    type; then what was left out and why, and what is open, with the words that would settle it.

    With --pack the year becomes a folder to keep, print or send: begin with its index.html.
    """
    if folder is not None:
        if out.file or out.form != "text" or lines:
            raise click.UsageError("A pack holds every form: leave out `--output`, `--format` and `--lines`.")
        opened = open_whole(book, inside=True)
        _pack(book, opened, folder, year, on, as_zip, allowed, out.force)
        return
    if as_zip or allowed:
        raise click.UsageError(f"`{'--zip' if as_zip else '--receipts-from'}` goes with `--pack FOLDER`.")
    from ..statements.year_end import year_end as work_out

    opened = open_whole(book)
    chosen = choose_year(opened.book, year, on)
    statement = work_out(opened.accounts, chosen, on)
    if out.data:
        from ..render import json_form

        out.write(json_form.dump(json_form.year_end(statement)))
        return
    from ..render.text import draw
    from ..render.year_end import page as said

    page = said(statement, so_far(chosen, year, on))
    out.page(page, opened, lambda: draw(page, lines))


def _pack(
    book: Path, opened: Opened, folder: Path, year: str | None, on: date, as_zip: bool, allowed: tuple[Path, ...],
    force: bool,
) -> None:  # fmt: skip
    from .filling import Filling
    from .opening import folder_of
    from .pack import Packing, may_replace

    chosen = choose_year(opened.book, year, on)
    target = Path(f"{shown(folder).removesuffix('.zip')}.zip") if as_zip else folder
    try:
        with Filling(target.absolute()) as into:
            papers = Packing(opened, Shelf(book, allowed, folder_of(book)), chosen, on, into).fill()
            if as_zip:
                into.put_zip(target.absolute(), f"tax-year-{chosen}", force)
            else:
                into.put(force, may_replace)
    except NotWritten as why:
        stop(f'"{shown(target)}": {why}.')
    done()
    for paper in papers:
        if not paper.file:
            click.echo(f'{paper.sources[0]}: "{paper.name}" is {paper.told}.', err=True)
    click.echo(f'Wrote "{shown(target)}".' + ("" if as_zip else " Begin with its index.html."), err=True)
