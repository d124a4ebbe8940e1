"""`python -m ledger_tools` is the command `landlord-books`."""

from .commands import main

main()
