"""A block of a file to put marks on, and its words as typed. Knows nothing of what they say."""

from __future__ import annotations

from ..problems import Fix, Mark
from .blocks import Block, mark
from .records import Clause, Piece, Statement


class Page:
    """A block of a file."""

    def __init__(self, block: Block, file: str) -> None:
        self.block, self.file = block, file

    def mark(self, said: Clause | Piece | Statement, label: str = "") -> Mark:
        """The place of what was said."""
        return mark(self.file, self.block, said.start_pos, said.end_pos, label)

    def text(self, said: Clause | Piece) -> str:
        """The words as typed."""
        return " ".join(self.block.text[said.start_pos : said.end_pos].split())

    def in_place_of(self, said: Clause | Piece, words: str) -> Fix:
        """The edit that puts other words in place of what was said."""
        return Fix(self.mark(said), words)

    def without(self, said: Clause | Piece, led_by: str = ",") -> Fix | None:
        """The edit that leaves a fact out, with the words that lead it and the comma or word in front; None where it
        stands on a line of its own, which would be left empty."""
        text = self.block.text
        start = text.rfind(led_by, 0, said.start_pos)
        if start < 0 or "\n" in text[start : said.start_pos]:
            return None
        return Fix(mark(self.file, self.block, len(text[:start].rstrip()), said.end_pos), "")
