"""Places in a book, "file:line", as people call them: without the folder that all its files lie in. Knows no layout."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence

Place = Callable[[str], str]


def places(sources: Sequence[str]) -> tuple[str, Place]:
    """The folder that all places lie in, and how a place, or a sentence that names some, is written without it."""
    folders = [source.rpartition("/")[0].split("/") for source in sources]
    common: list[str] = []
    for names in zip(*folders, strict=False):
        if len(set(names)) > 1:
            break
        common.append(names[0])
    folder = "/".join(common)
    inside = re.compile(rf"(?<![\w/]){re.escape(folder)}/" if folder else r"(?!)")
    return folder, lambda words: inside.sub("", words)


class Places:
    """The files of a book in order, and where each of its lines stands among them; `at` is the page that holds them,
    seen from the one that speaks of them: "" where that is the same."""

    def __init__(self, texts: Mapping[str, str], at: str = "") -> None:
        self._at = at
        _, short = places([f"{name}:1" for name in texts])
        self._names = {name: (number, short(f"{name}:1")[:-2]) for number, name in enumerate(sorted(texts), 1)}
        self._texts = texts
        names = "|".join(map(re.escape, sorted(texts, key=len, reverse=True)))
        self._place = re.compile(rf"(?<![\w/])((?:{names}):\d+)" if texts else r"(?!)()")
        self._lines = {name: len(_lines(text)) for name, text in texts.items()}

    def files(self) -> Iterator[tuple[int, str, str, list[str]]]:
        """The number of each file, its name as people call it and as lines name it, and its lines."""
        for name, (number, short) in self._names.items():
            yield number, short, name, _lines(self._texts[name])

    def anchor(self, source: str) -> str:
        """Where a line of the book stands on a page that holds it; "" for what is no line of it."""
        name, _, line = source.rpartition(":")
        known = name in self._names and line.isdecimal() and 0 < int(line) <= self._lines[name]
        return f"b{self._names[name][0]}-{line}" if known else ""

    def link(self, source: str) -> str:
        """The address of a line of the book; "" for what is no line of it."""
        anchor = self.anchor(source)
        return f"{self._at}#{anchor}" if anchor else ""

    def short(self, words: str) -> str:
        """Words with every line they name written without the folder that all files lie in."""
        return "".join(self._short(piece) for piece, _ in self.parts(words))

    def parts(self, words: str) -> Iterator[tuple[str, str]]:
        """Words in pieces, each line of the book a piece with its address; that of other words is ""."""
        for i, piece in enumerate(self._place.split(words)):
            if piece:
                yield piece, self.link(piece) if i % 2 else ""

    def _short(self, source: str) -> str:
        name, _, line = source.rpartition(":")
        return f"{self._names[name][1]}:{line}" if name in self._names else source


def _lines(text: str) -> list[str]:
    return text.replace("\r\n", "\n").replace("\r", "\n").removesuffix("\n").split("\n")
