"""What the tool costs, printed and never judged by the clock: `python tests/speed/what_it_costs.py`.

Reading: lines a second, and the time of a line in a book of 20,000 lines over one of 2,000. Cold commands: a whole
process, as a person waits for it. Reading a book over reading the same rows from a spreadsheet. The audit of a book
of works, and the council tax of many homes, over parsing them. And the tax year of a large book, a whole process, over
another that sums the same rows. The pack of such a year, with the most memory it held.
"""

from __future__ import annotations

import gc
import os
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Callable
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path
from time import perf_counter, process_time

ROUNDS = 3

HEAD = """\
landlord robin "Robin Marsh"
supplier kestrel "Kestrel Heating"
property mill-3 "3 Mill Lane, Anytown"
    bought 6 Apr 2000 for £90,000
    as bought lettable
    price normal
    rooms hall, lounge, kitchen, bathroom, garden
tenancy first at mill-3
    tenants "A. Tenant"
    periodic from 4 May 2000
    rent £925 a month, first due 4 May 2000

at mill-3
"""

YEAR = (
    "{d}  received   rent £925.00 from first",
    "{d}  replaced   boiler in kitchen £2,310.00 by kestrel, modern equivalent, broken",
    "{d}  repaired   tap in bathroom £85.50 by kestrel, worn out",
    '{d}  paid       landlord insurance £286.40 to "The Insurer"',
    "{d}  invoiced   £1,148.00 by kestrel, number {n}\n"
    "    replaced   gutters £560.00, like for like, worn out\n"
    "    installed  outside tap in garden £140.00, none before\n"
    "    hired      scaffold £448.00, shared",
    '{d}  drove      18 miles "merchant and back"',
    '{d}  decorated  lounge £96.40 from "The Counter", own labour',
)


THINGS = (
    "boiler, gutters, tap, door, window, fence, carpet, cooker, fridge, lock, radiator, sink, bath, toilet, "
    "shower pump, extractor fan, light, socket, ceiling, floorboards, skirting, worktop, kitchen unit, blind, "
    "curtain rail, wardrobe, bed, sofa, table, washing machine, chimney, flashing, downpipe, drain, gate, "
    "path, shed, alarm, handrail, stair carpet, letterbox"
).split(", ")
ROOMS = ("hall", "lounge", "kitchen", "bathroom", "garden")
DONE = ("replaced", "repaired", "replaced", "repaired", "installed")
TOLD = ("worn out", "broken", "tenant damage", "like for like, worn out", "modern equivalent, broken")

WORKS = tuple(line for line in YEAR if line.split()[1] in ("replaced", "repaired", "decorated", "invoiced")) + (
    "{d}  serviced   boiler in kitchen £92.00 by kestrel",
    "{d}  replaced   worktop in kitchen £410.00 by kestrel",
    "{d}  bought     fridge freezer in kitchen £279.00, none before",
)


def book(lines: int, kinds: tuple[str, ...] = YEAR) -> str:
    """A sound book of about so many lines, every line another one."""
    out, made, day, number = [HEAD], HEAD.count("\n"), date(2001, 1, 1), 0
    while made < lines:
        day += timedelta(days=1 if lines < 5_000 else number % 2)
        number += 1
        out.append(entry(number, day, kinds))
        made += out[-1].count("\n") + 1
    return "\n".join(out) + "\n"


def varied(lines: int) -> str:
    """A sound book of about so many works, hardly two told in the same words."""
    out, day = [HEAD], date(2001, 1, 1)
    for number in range(lines - HEAD.count("\n")):
        day += timedelta(days=number % 2)
        thing, room = THINGS[number % len(THINGS)], ROOMS[number // len(THINGS) % len(ROOMS)]
        done, told = DONE[number // 7 % len(DONE)], TOLD[number // 11 % len(TOLD)]
        told = "none before" if done == "installed" else told
        words = f"{day.day} {day:%b} {day.year}  {done} {thing} in {room} £{number % 977 + 20}.00, {told}"
        out.append(f'{words}, because "visit {number}"')
    return "\n".join(out) + "\n"


def entry(number: int, day: date, kinds: tuple[str, ...] = YEAR) -> str:
    """The dated line of that number, of the kinds by turns, with some sums of its own."""
    text = kinds[number % len(kinds)].format(d=f"{day.day} {day:%b} {day.year}", n=number)
    return text.replace("£9", f"£{number % 9 + 1}") if number % 7 in (0, 2, 3) else text


def ten_years(entries: int) -> str:
    """A sound book of so many dated lines, spread evenly over the ten tax years from 2016-17 to 2025-26."""
    first, days = date(2016, 4, 6), (date(2026, 4, 6) - date(2016, 4, 6)).days
    dated = (entry(number, first + timedelta(days=number * days // entries)) for number in range(entries))
    return "\n".join([HEAD, *dated]) + "\n"


def best(work: Callable[[], object], rounds: int = ROUNDS, before: Callable[[], object] = gc.collect) -> float:
    """The median of some rounds, in seconds of the processor: another program on the machine makes no difference."""
    times = []
    for _ in range(rounds):
        before()
        start = process_time()
        work()
        times.append(process_time() - start)
    return statistics.median(times)


def reading(text: str) -> float:
    """Seconds to read every block of a text, nothing remembered."""
    from ledger_tools.language.blocks import cut, plain
    from ledger_tools.language.reading import forget, read_all

    def once() -> None:
        for found in read_all(block.text for block in cut(plain(text))):
            assert found.statement is not None, found.text

    def anew() -> None:
        forget()
        gc.collect()

    anew()
    once()
    return best(once, before=anew)


def auditing(text: str) -> float:
    """What the audit of a book costs over parsing it: from the book as objects to the page, over the text to those.

    Parsing is all that `proof` and every figure need first: reading each block and building the book from them.
    """
    from ledger_tools.book.build import build
    from ledger_tools.language.reading import forget
    from ledger_tools.render import audit as render
    from ledger_tools.statements.accounts import Accounts
    from ledger_tools.statements.audit import audit

    parsed = best(lambda: build({"a.book": text}), before=lambda: (forget(), gc.collect()))
    made = build({"a.book": text})
    return best(lambda: render.text(audit(Accounts(made)))) / parsed


TOWN = """\
landlord robin "Robin Marsh"
council anytown "Anytown District Council"
    nation england
scheme anytown 2025-26
    charge band B £1,655.10
    empty free for 28 days, shared with earlier owner
    furnished full
    premium 100% after 1 year
"""
HOME = """\
property home-{n} "{n} Long Street, Anytown"
    council anytown, band B
    bought {d} May 2025 for £90,000
    empty since {d} May 2025
    as bought lettable
    price normal
tenancy let-{n} at home-{n}
    tenants "A. Tenant"
    periodic from {d} Sep 2025
    rent £900 a month
at home-{n}
2 Jul 2025 paid council tax £120.00 to anytown
"""


def council(homes: int) -> float:
    """What a council's year of so many homes costs over parsing their book. A bill that is wrong costs more: all the
    ways in which it may have come about are tried."""
    from ledger_tools.book.build import build
    from ledger_tools.days import TaxYear
    from ledger_tools.language.reading import forget
    from ledger_tools.statements.void import void

    text = TOWN + "".join(HOME.format(n=n, d=1 + n % 28) for n in range(homes))
    parsed = best(lambda: build({"a.book": text}), before=lambda: (forget(), gc.collect()))
    made, year = build({"a.book": text}), TaxYear(2025)
    return best(lambda: [void(made, name, date(2026, 3, 1), year) for name in made.properties], 1) / parsed


# Commands run as an installed program does, whose modules are compiled once.
ENVIRONMENT = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}


def cold(*arguments: str) -> tuple[float, float]:
    """The command as a whole process, median of some rounds: seconds by the clock and of the processor."""
    process("-m", "ledger_tools", *arguments)
    rounds = [process("-m", "ledger_tools", *arguments) for _ in range(ROUNDS)]
    return statistics.median(clock for clock, _ in rounds), statistics.median(cost for _, cost in rounds)


def process(*arguments: str) -> tuple[float, float]:
    """One run of the interpreter from its start: seconds by the clock as a person waits, and of the processor."""
    before, start = resource.getrusage(resource.RUSAGE_CHILDREN), perf_counter()
    subprocess.run([sys.executable, *arguments], capture_output=True, check=True, env=ENVIRONMENT)
    clock, after = perf_counter() - start, resource.getrusage(resource.RUSAGE_CHILDREN)
    return clock, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


SUMS = """\
import sys, pandas
rows = pandas.read_csv(sys.argv[1], parse_dates=["counts"])
rows["year"] = (rows["counts"] - pandas.Timedelta(days=95)).dt.year
print(rows.groupby(["year", "way", "kind", "category"], dropna=False)["pence"].sum())
"""


def tax_year(folder: Path) -> tuple[float, float]:
    """What `year-end` of 12,000 entries costs over summing the same rows with pandas, and of ten times as many over one
    time: seconds of the processor of whole processes, from the start of the interpreter. The large book is priced once,
    as it takes a while."""
    from ledger_tools.book.build import build
    from ledger_tools.statements.accounts import Accounts

    small, large, table = folder / "small-year.book", folder / "large-year.book", folder / "rows.csv"
    small.write_text(ten_years(12_000), encoding="utf-8")
    large.write_text(ten_years(120_000), encoding="utf-8")
    Accounts(build({"a.book": small.read_text(encoding="utf-8")})).table.to_csv(table, index=False)

    def once(book: Path) -> float:
        return process("-m", "ledger_tools", "year-end", str(book), "--year", "2025-26")[1]

    once(small)
    turns = [(once(small), process("-c", SUMS, str(table))[1]) for _ in range(ROUNDS)]
    one = statistics.median(cost for cost, _ in turns)
    return statistics.median(cost / sums for cost, sums in turns), once(large) / one


def weighed(*arguments: str) -> tuple[float, int]:
    """One run of the interpreter from its start: seconds of the processor, and the most memory it held, in MB."""
    quiet = subprocess.DEVNULL
    run = subprocess.Popen([sys.executable, *arguments], stdout=quiet, stderr=quiet, env=ENVIRONMENT)
    _, status, used = os.wait4(run.pid, 0)
    run.returncode = os.waitstatus_to_exitcode(status)
    assert run.returncode == 0
    return used.ru_utime + used.ru_stime, used.ru_maxrss // 1024


def packing(folder: Path) -> tuple[float, int, int, float]:
    """The pack of a year of 12,000 entries: seconds of the processor, the most memory it held and that of a bare book,
    in MB; and what it costs over one of 1,200, both without what the pack of a bare book costs."""

    def once(entries: int) -> tuple[float, int]:
        book = folder / f"pack-{entries}.book"
        book.write_text(ten_years(entries), encoding="utf-8")
        pack = folder / book.stem
        told = weighed("-m", "ledger_tools", "year-end", str(book), "--year", "2025-26", "--pack", str(pack))
        shutil.rmtree(pack)
        return told

    once(20)  # the first one compiles what only a pack needs
    (bare, least), (small, _), (large, most) = once(20), once(1_200), once(12_000)
    return large, most, least, (large - bare) / (small - bare)


def spreadsheet(text: str, folder: Path) -> float:
    """Seconds to read the same rows from a spreadsheet, read-only: a row a line, a cell for each thing it says."""
    import openpyxl

    from ledger_tools.language.blocks import cut, plain
    from ledger_tools.language.reading import read

    sheet = openpyxl.Workbook(write_only=True)
    page = sheet.create_sheet()
    for block in cut(plain(text)):
        row: list[object] = []
        for piece in read(block.text).pieces:
            if piece.type in ("_NL", "_DEEP"):
                page.append(row)
                row = []
            elif piece.type == "AMOUNT":
                row.append(Decimal(piece.value) / 100)
            elif piece.type != "_COMMA":
                row.append(piece.value)
        page.append(row)
    place = folder / "rows.xlsx"
    sheet.save(place)

    def once() -> None:
        for _ in openpyxl.load_workbook(place, read_only=True).active.iter_rows(values_only=True):
            pass

    return best(once, 3)


def main() -> None:
    small, large = book(2_000), book(20_000)
    lines, many = small.count("\n"), large.count("\n")
    with tempfile.TemporaryDirectory() as folder:
        ENVIRONMENT["PYTHONPYCACHEPREFIX"] = str(Path(folder) / "compiled")
        place = Path(folder) / "small.book"
        place.write_text(small, encoding="utf-8")
        # By turns, since the speed of a shared machine drifts: the ratios are those of neighbours.
        turns = [(reading(small), reading(large), spreadsheet(small, Path(folder))) for _ in range(3)]
        a = statistics.median(turn[0] for turn in turns)
        grown = statistics.median((turn[1] / many) / (turn[0] / lines) for turn in turns)
        sheet = statistics.median(turn[0] / turn[2] for turn in turns)
        print(f"reading a book of {lines:,} lines     {lines / a:>10,.0f} lines a second (floor 15,000)")
        print(f"a line of {many:,} over one of {lines:,} {grown:>10.2f} (at most 1.15)")
        for name, budget, arguments in (
            (f"proof of {lines:,} lines, cold", 300, ("proof", str(place))),
            ("--help, cold", 80, ("--help",)),
        ):
            clock, processor = (seconds * 1000 for seconds in cold(*arguments))
            print(f"{name:33} {clock:>10.0f} ms, {processor:.0f} of the processor (budget {budget})")
        print(f"reading over a spreadsheet's rows {sheet:>10.2f} (below 1)")
        for works, kind in ((varied(10_000), "hardly two in the same words"), (book(10_000, WORKS), "of seven kinds")):
            count = works.count("\n")
            print(f"audit of {count:,} lines, {kind}, over parsing {auditing(works):>6.2f} (at most 2)")
        print(f"council tax of 1,000 homes over parsing {council(1_000):>9.2f} (at most 10)")
        over, grown = tax_year(Path(folder))
        print(f"year-end of 12,000 entries over summing its rows {over:>5.1f} (aim 3)")
        print(f"year-end of ten times the entries {grown:>10.1f} times (at most 11)")
        seconds, most, least, grown = packing(Path(folder))
        print(f"a pack of 12,000 entries {seconds:>10.1f} s of the processor, {most} MB at most (a bare one {least})")
        print(f"a pack of ten times the entries {grown:>10.1f} times (at most 11)")


if __name__ == "__main__":
    main()
