"""The pages that the tests look at: every statement of both sample books, one of a book with nasty names, and packs."""

from __future__ import annotations

from pathlib import Path

from click.testing import CliRunner

from ledger_tools.commands import cli

SAMPLES = Path(__file__).parents[2] / "sample_books"
SALTMARSH, HARBOUR = str(SAMPLES / "saltmarsh"), str(SAMPLES / "harbour")
ON = ("--on", "2026-11-25")
STATEMENTS: dict[str, tuple[str, ...]] = {
    "profit": ("profit", SALTMARSH, "--year", "2025-26", *ON),
    "profit-harbour": ("profit", HARBOUR, *ON),
    "year-end": ("year-end", SALTMARSH, "--year", "2025-26", *ON),
    "year-end-harbour": ("year-end", HARBOUR, *ON),
    "quarter": ("quarter", SALTMARSH, "--year", "2025-26", "--quarter", "4", *ON),
    "annual": ("quarter", SALTMARSH, "--year", "2025-26", "--quarter", "annual", *ON),
    "base-cost": ("base-cost", SALTMARSH, "--property", "saltmarsh-14", "--price", "200000", *ON),
    "audit": ("audit", SALTMARSH),
    "audit-harbour": ("audit", HARBOUR, "--all"),
    "audit-item": ("audit", SALTMARSH, "boiler"),
    "inventory": ("inventory", SALTMARSH, "--gone", *ON),
    "worth": ("worth", SALTMARSH, "--property", "saltmarsh-14", "--rent", "800", "--empty", "3", *ON),
    "worth-harbour": ("worth", HARBOUR, "--stress", "5.5", "--cover", "145", *ON),
    "rents": ("rents", HARBOUR, *ON),
    "void": ("void", SALTMARSH, *ON),
    "void-harbour": ("void", HARBOUR, *ON),
    "refurb": ("refurb", SALTMARSH, *ON),
    "diary": ("diary", HARBOUR, *ON),
    "next": ("next", SALTMARSH, "--on", "2025-06-10"),
    "consider": ("consider", SALTMARSH, "replace boiler in kitchen £2,400, modern equivalent", *ON),
}
NASTY = '''\
landlord mara "Mara <script>alert(1)</script> & 'Sons' \u202eevil \U0001f469\u200d\U0001f373"
    other income £20,000 in 2025-26
property mill-3 "=cmd|' /C calc'!A1 <img src=x onerror=alert(1)>"
    bought 1 May 2024 for £100,000
    as bought lettable
    price normal
supplier larkin "+44 </td></table> Plumbing"
supplier spout "@SUM(A1:A9) </style></script>"
tenancy one at mill-3
    tenants "-2+3 A. Tenant"
    periodic from 1 Jun 2024
    rent £500 a month, first due 1 Jun 2024
at mill-3
1 Jun 2025  received   rent £500.00 from one
2 Jun 2025  replaced   boiler in kitchen £1,200.00 by larkin, like for like, receipt "=1+1.pdf"
3 Jun 2025  installed  outside tap in garden £90.00 by spout
4 Jun 2025  replaced   worktop in kitchen £300.00 by spout, because "<b>bold</b> & =2+3"   # </ol></section><script>x
'''


def run(*arguments: str) -> str:
    """What a command prints; it must end well."""
    result = CliRunner().invoke(cli, list(arguments))
    assert result.exit_code == 0, result.output
    return result.stdout


def page(name: str) -> str:
    """One of the statements as HTML."""
    return run(*STATEMENTS[name], "--format", "html")


# ── packs ────────────────────────────────────────────────────────────────────────────────────────────────────────

ODD = (
    "=cmd|' calc'.pdf", "<img src=x onerror=alert(1)>.pdf", "\U0001f469\u200d\U0001f373.pdf", "\u202efdp.exe",
    "a&b; c.pdf", "CON.pdf", "-rf", "..pdf", "%2e%2e.pdf", "\u05d0\u05d1.pdf", "#b1-1.html", "x" * 120 + ".pdf",
)  # fmt: skip


def write_nasty(folder: Path) -> None:
    """A book whose names, files and receipts could do harm if they were taken for anything but words."""
    folder.mkdir()
    line = '{n} Jun 2025 repaired tap £1{n}.00 by larkin, receipt "{name}"\n'
    lines = "".join(line.format(n=n, name=name) for n, name in enumerate(ODD, 5))
    (folder / "=1+1 <b>\u202e\n.book").write_text(f"{NASTY}at mill-3\n{lines}", encoding="utf-8")
    for name in ODD:
        (folder / name).write_text(f"the receipt {name}", encoding="utf-8")


def packs(folder: Path, *names: str) -> dict[str, Path]:
    """The packs of both sample books, and of one with nasty names everywhere; of those named, where some are."""
    books = {"saltmarsh": Path(SALTMARSH), "harbour": Path(HARBOUR), "nasty": folder / "nasty"}
    write_nasty(books["nasty"])
    chosen = names or tuple(books)
    for name in chosen:
        run("year-end", str(books[name]), "--year", "2025-26", *ON, "--pack", str(folder / f"of-{name}"))
    return {name: folder / f"of-{name}" for name in chosen}
