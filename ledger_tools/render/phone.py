"""Pages for a phone: screens of so many columns and lines. Knows no statement."""

from __future__ import annotations

from collections.abc import Sequence

from .text import paragraph

ACROSS, DOWN = 40, 20


def wrap(text: str, first: str = "", rest: str = "") -> list[str]:
    """Words wrapped to the width of the screen; a word longer than that is cut."""
    out = []
    for line in paragraph(text, first, rest, ACROSS):
        while len(line) > ACROSS:
            out.append(line[:ACROSS])
            line = rest + line[ACROSS:]
        out.append(line)
    return out


def screens(heading: str, blocks: Sequence[Sequence[str]]) -> list[list[str]]:
    """Blocks of lines under a heading, on as many screens as they need; a block goes on over two only where it is
    longer than one."""
    head = [*wrap(heading), ""]
    room = DOWN - len(head)
    found: list[list[str]] = [[]]
    for block in blocks:
        if len(found[-1]) + len(block) > room and found[-1]:
            found.append([])
        for line in block:
            if len(found[-1]) == room:
                found.append([])
            found[-1].append(line)
    count = len([page for page in found if page])
    if count < 2:
        return [head + page for page in found if page]
    out = []
    for n, page in enumerate((page for page in found if page), 1):
        named = wrap(f"{heading} ({n} of {count})")
        out.append([*named, "", *page][:DOWN] if len(named) == len(head) - 1 else [*named, *page])
    return out
