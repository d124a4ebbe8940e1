"""`audit`: repair or improvement? Each item with its reasons, or the whole path of one."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

import click

from .opening import choose_houses, open_whole, property_option, read_year
from .output import Output, output_options

if TYPE_CHECKING:
    from ..statements.accounts import Accounts
    from ..statements.audit import AuditItem
    from ..statements.chosen import Wanted
    from ..verdicts.conflicts import Conflict
    from .opening import Opened

MOST = 3  # paths shown in full; more items than that are listed


@click.command()
@click.argument("words", nargs=-1, metavar="[BOOK] [ITEM]")
@property_option
@click.option("--room", metavar="ROOM", help="Only what was done in this room.")
@click.option("--thing", metavar="THING", help="Only what is about this thing, by any word for it.")
@click.option("--verdict", "answer", metavar="ANSWER", help="Only this answer: repair, improvement, purchase cost, "
              "item replaced, no relief, running cost, private, open, …")  # fmt: skip
@click.option("--year", metavar="YEAR", help="Only what counts in this tax year, such as 2025-26.")
@click.option("--open", "only_open", is_flag=True, help="Only what is open.")
@click.option("--no-proof", is_flag=True, help="Only items for which the book names no proof.")
@click.option("--all", "everything", is_flag=True, help="Money lines such as rent and insurance too, not only works.")
@output_options
def audit(
    words: tuple[str, ...],
    house: str | None,
    room: str | None,
    thing: str | None,
    answer: str | None,
    year: str | None,
    only_open: bool,
    no_proof: bool,
    everything: bool,
    out: Output,
) -> None:
    """Repair or improvement?

    Every item of work with its verdict, the rule that decided, what would change the answer, and what to keep; then
    totals, what is open with what rides on it, and what the reasons rest on.

    BOOK is a file or folder, the current folder if left out. With ITEM, a place such as diary.book:82 (or 82, where
    the book is one file) or a thing such as boiler, you get the whole path of that item: each rule asked, in order.
    """
    from ..statements.audit import items
    from ..statements.chosen import NotInBook, Wanted, choose, find, kind_called, left_out

    place, asked = book_and_item(words)
    opened = open_whole(place)
    accounts = opened.accounts
    houses = frozenset(choose_houses(accounts.book, house)) if house else None
    try:
        every = list(items(accounts))
        if asked:
            every = find(accounts.book, every, asked)
        wanted = Wanted(
            houses, room or "", thing or "", kind_called(answer) if answer else None, read_year(year) if year else None,
            only_open, no_proof, everything or bool(asked),
        )  # fmt: skip
        chosen = choose(accounts.book, every, wanted)
        more = left_out(accounts.book, every, wanted)
    except NotInBook as why:
        raise click.UsageError(str(why)) from None
    _print(opened, chosen, wanted, out, asked, more)


def book_and_item(words: tuple[str, ...]) -> tuple[Path, str]:
    """The book and the item meant: the first word is the book where it is a file or folder, or can be nothing else.

    A place that names its folder (`books/mill/diary.book:12`) means the book in that folder, where none is named.
    """
    if words and (Path(words[0]).exists() or _only_a_book(words[0])):
        return Path(words[0]), " ".join(words[1:])
    asked = " ".join(words)
    folder = re.match(r"(.*)[/\\][^/\\]+:\d+$", asked)
    return Path(folder[1]) if folder else Path("."), asked


def _only_a_book(word: str) -> bool:
    """Whether a word that is no file or folder here cannot be meant as a place or a thing."""
    return not re.search(r":\d+$", word) and (word.endswith(".book") or "/" in word or "\\" in word)


def _conflicts(accounts: Accounts, wanted: Wanted) -> list[Conflict]:
    """What was told elsewhere and does not sit well with the answers, about the houses asked for."""
    from ..verdicts.conflicts import conflicts

    found = conflicts(accounts.book, accounts.verdicts)
    return [c for c in found if wanted.houses is None or c.told.house.name in wanted.houses]


def _print(
    opened: Opened, chosen: list[AuditItem], wanted: Wanted, out: Output, asked: str, left_out: int
) -> None:
    from ..render import audit as render
    from ..render import conflicts as held_against
    from ..render import path as paths
    from ..statements.audit import audit as work_out
    from ..statements.audit import walk

    accounts = opened.accounts
    statement = work_out(accounts, chosen, wanted.houses, left_out)
    followed = [walk(accounts, item) for item in chosen] if asked and len(chosen) <= MOST else []
    if out.data:
        from ..render.json_form import dump

        told = render.as_data(statement)
        for item, looks in zip(told["items"], followed, strict=False):
            item["asked"] = paths.as_data(looks)
        told["conflicts"] = held_against.as_json(_conflicts(accounts, wanted))
        out.write(dump(told))
    elif not chosen:
        out.page(render.page(statement), opened, lambda: f"{render.NONE}\n\n{render.foot(statement)}")
    elif followed:
        ways = [paths.way(item, looks) for item, looks in zip(statement.items, followed, strict=True)]
        out.page(paths.page(statement, followed), opened, lambda: "\n\n".join([*ways, render.foot(statement)]))
    elif asked:
        out.page(render.listing_page(statement, asked), opened, lambda: render.listing(statement, asked))
    else:
        told_elsewhere = _conflicts(accounts, wanted)
        page = render.page(statement, held_against.sections(told_elsewhere))
        out.page(page, opened, lambda: render.text(statement, told_elsewhere))
