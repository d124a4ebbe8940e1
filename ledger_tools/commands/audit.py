"""`audit`: repair or improvement? Each item with its reasons."""

from __future__ import annotations

from pathlib import Path

import click

from .opening import book_argument, choose_houses, form_option, open_accounts, property_option


@click.command()
@book_argument
@property_option
@form_option
@click.option("--open", "only_open", is_flag=True, help="Only what is open.")
@click.option("--all", "everything", is_flag=True, help="Money lines such as rent and insurance too, not only works.")
def audit(book: Path, house: str | None, form: str, only_open: bool, everything: bool) -> None:
    """Repair or improvement?

    Every item of work with its verdict, the rules that spoke and their authority, what would change the answer, and
    what to keep.
    """
    from ..render import verdicts as render
    from ..render.text import paragraph
    from ..statements.checked import checked_shortly

    accounts = open_accounts(book)
    houses = set(choose_houses(accounts.book, house))
    chosen = [
        v
        for v in accounts.verdicts
        if (everything or only_open or v.item.line.kind == "works")
        and (v.arguable or not only_open)
        and houses & {share.house for share in v.item.line.homes or v.item.head.homes}
    ]
    if form == "json":
        from ..render.json_form import dump

        click.echo(dump({"statement": "audit", "items": render.as_json(chosen)}))
    else:
        click.echo(render.text(chosen) or "Nothing of that kind is in your book.")
        click.echo("\n" + "\n".join(paragraph(checked_shortly(), "", "")))
