"""Pages about what our own pages print: their terms, the boxes of the return, references to manuals and Acts.

Terms stand in glossary.toml; boxes come from the law room. Knows no book.
"""

from __future__ import annotations

import re
import tomllib
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ..law import Box
    from . import Page

BOX = re.compile(r"box[ -]?(\d{1,2}(?:\.\d)?)")
REFERENCE = re.compile(r"([a-z]{2,6})[ -]?(\d{3,6})")
ACT = re.compile(r"(?:s\. ?\d|section \d).*|(ittoia|tcga|ita|caa|fa)\b.*")
MANUALS = {
    "bim": "Business Income Manual", "pim": "Property Income Manual", "cg": "Capital Gains Manual",
    "sdltm": "Stamp Duty Land Tax Manual", "sam": "Self Assessment Manual", "ca": "Capital Allowances Manual",
    "saim": "Savings and Investment Manual", "eim": "Employment Income Manual",
}  # fmt: skip
ACTS = {
    "ittoia": "Income Tax (Trading and Other Income) Act 2005", "tcga": "Taxation of Chargeable Gains Act 1992",
    "ita": "Income Tax Act 2007", "caa": "Capital Allowances Act 2001", "fa": "Finance Act of the year named",
}  # fmt: skip
KINDS = {
    "income": "Money that came in stands here.", "expense": "Costs that come off stand here.",
    "relief": "A sum that comes off, or lowers the bill, stands here.", "adjustment": "A sum added back stands here.",
    "info": "No sum of profit: the office only wants to know.", "total": "Worked out from the other boxes.",
}  # fmt: skip
MOST = 12  # names of sums shown of a box


@cache
def terms() -> dict[str, Page]:
    """Every term by its name and by the other words that ask for it, in small letters."""
    from . import Page

    found: dict[str, Page] = {}
    for entry in tomllib.loads((files(__package__) / "glossary.toml").read_text(encoding="utf-8"))["term"]:
        page = Page(entry["term"], "term", entry["means"], source=entry.get("source", ""))
        for name in (entry["term"], *entry.get("also", "").split("; ")):
            if name:
                found.setdefault(name.lower(), page)
    return found


def page(name: str) -> Page | None:
    """The page of a term, a box or a reference, by its name in small letters; None where it is none of them."""
    if box := BOX.fullmatch(name):
        return _box(box[1])
    return terms().get(name) or _caption(name) or _reference(name)


def _box(number: str) -> Page | None:
    """What a box of the newest pages that have it is for, and for which years."""
    from .. import law

    newest = law.pages_checked_up_to()
    found = next((box for box in law.pages(newest) if box.number == number), None)
    return _of_box(found) if found else None


def _caption(name: str) -> Page | None:
    """The same by the words beside it."""
    from .. import law

    boxes = law.pages(law.pages_checked_up_to())
    found = next((box for box in boxes if box.handled and box.caption.lower() == name), None)
    return _of_box(found) if found else None


def _of_box(box: Box) -> Page:
    from .. import law
    from ..verdicts.catalogue import catalogue
    from . import Page

    until = f" to {box.last}" if box.last else ""
    held = {c.slug for c in law.categories(law.pages_checked_up_to()) if c.box == box.number}
    names = [thing.name for thing in catalogue().things if thing.category in held and thing.money]
    lines = [f"{box.caption[0].upper()}{box.caption[1:]}. {KINDS[box.kind]}"]
    if names:
        lines.append(f"What goes in it: {', '.join(names[:MOST])}{' and more' if len(names) > MOST else ''}.")
    if "repairs" in held:
        lines.append("What goes in it: repairs of the house and of what is fixed to it, where they are no improvement.")
    if "domestic" in held:
        lines.append("What goes in it: loose things, such as a sofa or a fridge, that took the place of old ones.")
    if box.note:
        lines.append(box.note)
    if not box.handled:
        lines.append("It is not worked out here.")
    lines.append(f"The pages have it from {box.first}{until or ' on'}.")
    lines.append(f"Yours, line by line: `explain 2025-26 box-{box.number} --book mill-3.book`, with year and book.")
    return Page(f"box {box.number}", "box of the property pages", "\n".join(lines), source=box.source)


def _reference(name: str) -> Page | None:
    """What BIM46935, PIM3210 or ITTOIA 2005 s.272A names, and where to read it."""
    from . import Page

    found = REFERENCE.fullmatch(name)
    if found and (manual := MANUALS.get(found[1])):
        return Page(
            f"{found[1].upper()}{found[2]}", "reference",
            f"A page of the {manual}, in which the tax office tells its officers how it reads the law. It is free to "
            f'read: search gov.uk for "{found[1].upper()}{found[2]}". A manual is not the law, and a page may have '
            "changed since it was read for this tool.",
        )  # fmt: skip
    act = ACT.fullmatch(name)
    if act and (act[1] in ACTS or act[1] is None and re.match(r"s\. ?\d|section \d", name)):
        called = f"The {ACTS[act[1]]}. " if act[1] else ""
        return Page(
            re.sub(r"^[a-z]+\b(?!\.)", lambda found: found[0].upper(), name), "reference",
            f"{called}Behind s. stands the section. Acts are free to read at legislation.gov.uk, by name and year.",
        )  # fmt: skip
    return None
