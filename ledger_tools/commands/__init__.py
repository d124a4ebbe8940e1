"""The command line: one file a command, each loaded only when it is asked for. Nothing but click is imported here."""

from __future__ import annotations

import gc
from importlib import import_module
from typing import Any

import click

from .. import __version__

# name → (module, one line for the list of commands)
COMMANDS = {
    "new": ("new", "Write a starter book for a house."),
    "proof": ("proof", "Is the book sound? Every mistake and doubt at once."),
    "tidy": ("tidy", "Put the layout of a book right."),
    "next": ("next_", "What is still to do, room by room; whom to book; what a day costs."),
    "refurb": ("refurb", "What the works were to cost, have cost and will have cost."),
    "audit": ("audit", "Repair or improvement? Each item with its reason and authority."),
    "consider": ("consider", "The same for something not done yet: what if I replace it now?"),
    "void": ("void", "Council tax while a home is empty: as it should be, against the bill."),
    "inventory": ("inventory", "What is in each house, since when, and what it cost."),
    "rents": ("rents", "Who owes rent and since when; deposits, and what tenants were asked for."),
    "diary": ("diary", "What falls due: certificates, deposits, returns; as a calendar too."),
    "profit": ("profit", "What each house brought, by money and by tax."),
    "year-end": ("year_end", "The boxes of the tax return, for each owner."),
    "quarter": ("quarter", "The digital quarterly update, and its official JSON body."),
    "base-cost": ("base_cost", "What counts when a house is sold, and the gain if it were."),
    "worth": ("worth", "What each house cost, what it brings for that, and what would change it."),
    "watch": ("watch", "Pages that are drawn anew whenever you save the book."),
    "explain": ("explain", "A word, a message or a rule in plain words."),
    "changes": ("changes", "What changed from version to version."),
}


def _on_the_page(why: click.UsageError) -> click.UsageError:
    """The same words, no line of them wider than a page."""
    from textwrap import wrap

    from ..render.columns import WIDTH

    before = "Error: "  # what is printed in front
    lines = wrap(why.format_message(), WIDTH, initial_indent=before, break_long_words=False, break_on_hyphens=False)
    return click.UsageError("\n".join(lines).removeprefix(before), why.ctx)


class _Late(click.Group):
    """A group whose commands are imported when they are run."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, name: str) -> click.Command | None:
        if name not in COMMANDS:
            return None
        module = import_module(f".{COMMANDS[name][0]}", __package__)
        command = getattr(module, COMMANDS[name][0])
        assert isinstance(command, click.Command)
        return command

    def invoke(self, ctx: click.Context) -> Any:
        try:
            return super().invoke(ctx)
        except click.UsageError as why:
            raise _on_the_page(why) from None

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        name = args[0] if args else ""
        if name and name not in COMMANDS and not name.startswith("-"):
            from difflib import get_close_matches

            near = get_close_matches(name, COMMANDS, n=1, cutoff=0.5)
            hint = f' Did you mean "{near[0]}"?' if near else " `landlord-books --help` lists the commands."
            raise click.UsageError(f'There is no command "{name}".{hint}')
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The list, without importing any command."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, line) for name, (_, line) in COMMANDS.items()])


@click.command("landlord-books", cls=_Late, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="landlord-books")
@click.pass_context
def cli(context: click.Context) -> None:
    """Bookkeeping for UK landlords.

    Note what happens to your houses in trade words, a line an event, in a text file ending in .book;
    these commands prove it and work out the rest. BOOK is such a file, or a folder of them.
    """
    from .progress import done

    context.call_on_close(done)


def main() -> None:
    """The command as a process of its own.

    It lives for a moment and keeps what it makes, so the collector would find nothing and cost a tenth of it. At the
    end all is given back anyway: what is frozen is not looked through once more before that.
    """
    gc.disable()
    try:
        cli(prog_name="landlord-books")
    finally:
        gc.freeze()
