"""Reads a page of ours without a browser: its headings, ids, links, tables, and whether every tag is closed."""

from __future__ import annotations

from html.parser import HTMLParser

VOID = {"meta", "col", "br", "img", "link"}


class Read(HTMLParser):
    """What stands on a page."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.headings: list[tuple[int, str]] = []
        self.ids: list[str] = []
        self.links: list[str] = []
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.by_id: dict[str, str] = {}
        self.tables: list[dict[str, int]] = []
        self.wrong: list[str] = []
        self._open: list[tuple[str, str, list[str]]] = []
        self.feed(text)
        self.close()
        self.wrong += [f"never closed: {tag}" for tag, _, _ in self._open]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        told = dict(attrs)
        self.tags.append((tag, told))
        if told.get("id"):
            self.ids.append(str(told["id"]))
        if tag == "a":
            self.links.append(str(told.get("href")))
        if tag == "table":
            self.tables.append({"caption": 0, "col": 0, "row": 0, "loose": 0})
        if tag == "caption":
            self.tables[-1]["caption"] += 1
        if tag == "th":
            scope = str(told.get("scope", "loose")).replace("rowgroup", "row")
            self.tables[-1][scope if scope in ("col", "row") else "loose"] += 1
        if tag not in VOID:
            self._open.append((tag, str(told.get("id") or ""), []))

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_data(self, data: str) -> None:
        for _, _, said in self._open:
            said.append(data)

    def handle_endtag(self, tag: str) -> None:
        if not self._open or self._open[-1][0] != tag:
            self.wrong.append(f"closed out of turn: {tag} at {self.getpos()}")
            return
        _, name, said = self._open.pop()
        if name:
            self.by_id[name] = "".join(said)
        if tag in ("h1", "h2", "h3", "h4", "h5", "h6"):
            self.headings.append((int(tag[1]), " ".join("".join(said).split())))
