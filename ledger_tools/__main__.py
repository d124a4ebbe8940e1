"""`python -m ledger_tools` is the command `landlord-books`."""

from .commands import cli

cli(prog_name="landlord-books")
