"""`changes`: what changed from version to version."""

from __future__ import annotations

from importlib.resources import files

import click


@click.command()
def changes() -> None:
    """What changed from version to version.

    For each version what you will see, and which tax years and areas have other answers than before.
    """
    from ..render.text import on_the_page, unwrapped

    told = (files("ledger_tools") / "CHANGES.md").read_text(encoding="utf-8").rstrip()
    click.echo(on_the_page(unwrapped(told)))
