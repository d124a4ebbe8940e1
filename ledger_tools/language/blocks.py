"""Cuts the text of a book into blocks: a line in the first column with the indented lines under it.

Knows nothing of what the lines say, but for `at NAME`, which the cutter carries to the lines after it.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from ..problems import Mark

# What phones and word processors type for plain signs; one sign for one, so that places stay true.
PLAIN = str.maketrans({
    "\u00a0": " ", "\u2007": " ", "\u202f": " ", "\u2009": " ", "\u200b": " ", "\ufeff": " ", "\u3000": " ",
    "“": '"', "”": '"', "„": '"', "‟": '"', "″": '"', "«": '"', "»": '"',
    "‘": "'", "’": "'", "‛": "'", "′": "'", "`": "'",
    "‐": "-", "‑": "-", "‒": "-",
    "\x0b": " ", "\x0c": " ", "\x85": " ", "\u2028": " ", "\u2029": " ",
})  # fmt: skip

_TYPOGRAPHERS = re.compile("[" + re.escape("".join(map(chr, PLAIN))) + "]")
# A line with words, then indented ones with whatever blank lines and comments stand between them.
_BLOCK = re.compile(r"^[ \t]*[^ \t\n#].*(?:(?:\n[ \t]*(?:#.*)?)*\n[ \t]+[^ \t\n#].*)*", re.M)
_AT = re.compile(r"at[ \t]+([^\s#,]+)[ \t]*(?:#.*)?$", re.I)


class Block(NamedTuple):
    """A block of a file: its plain text without the last line's end, and the number of its first line (from 1)."""

    text: str
    line: int
    at: str = ""  # the house of the last `at` heading above it in lower case; "" before the first, "?" if it is no name
    at_line: int = 0  # where that heading stands


def plain(text: str) -> str:
    """The text with line ends as "\\n" and typographers' signs as plain ones; lines and columns stay as they were."""
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    return text.translate(PLAIN) if _TYPOGRAPHERS.search(text) else text


def cut(text: str) -> list[Block]:
    """All blocks of a file's plain text (see `plain`), in order.

    Blank lines and comment lines inside a block stay in it; those after its last line do not. An indented line with
    nothing above it makes a block of its own, which no statement fits.
    """
    blocks: list[Block] = []
    first, before = 1, 0  # the line of a block, and where it is counted from
    at, at_line = "", 0
    for found in _BLOCK.finditer(text):
        body = found[0]
        first, before = first + text.count("\n", before, found.start()), found.start()
        if body[:2].lower() == "at" and body[2:3] in (" ", "\t"):
            # Lines under a heading with a mistake belong to no house one could name, never to the one before.
            heading = _AT.fullmatch(body)
            at, at_line = heading[1].lower() if heading else "?", first
        blocks.append(Block(body, first, at, at_line))
    return blocks


def mark(file: str, block: Block, start: int, end: int, label: str = "") -> Mark:
    """The place of the characters `start` to `end` of a block, in its file; it ends with its line at the latest."""
    head = block.text.rfind("\n", 0, start) + 1
    tail = block.text.find("\n", head)
    tail = len(block.text) if tail < 0 else tail
    line = block.line + block.text.count("\n", 0, head)
    last = max(min(end, tail), start)
    return Mark(file, line, start - head + 1, last - head + 1, block.text[head:tail], label)
