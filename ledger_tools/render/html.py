"""A page as one HTML file that needs no network and no script: its sections, and the book its figures lead back to.

Knows nothing of what a statement means; what comes from a book is text here, never markup.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from typing import TYPE_CHECKING, Any

from ..days import day_words
from ..money import pounds
from ..record import record
from .page import Link, Page, Picture, Row, Table, trails
from .pictures import svg
from .places import Places
from .text import cell_words, sum_words

if TYPE_CHECKING:
    from jinja2 import Environment
    from markupsafe import Markup

# Control characters but tabs and ends of lines, halves of signs, ends of lines of other kinds, the mark of byte order.
STEERS = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff\u2028\u2029\ufeff]")
MOST_COLUMNS = 7
MOST_SIGNS = 24  # of sums, which beside their labels still stand there
MOST_WORDS = 2  # columns of words beside which sums still stand on a narrow screen; more of them are laid under another


@record
class Pack:
    """What lies with a page: where its pack begins and what that is called, and the page that holds the book; all ""
    for a page that stands alone and holds the book itself. broken: what is wrong with the book since it was drawn."""

    start: str = ""
    name: str = ""
    book: str = ""
    broken: str = ""


ALONE = Pack()


def html(page: Page, texts: Mapping[str, str]) -> str:
    """The whole file. `texts` are those of the book's files by name, as lines of the page name them."""
    return "".join(pieces(page, texts))


def pieces(page: Page, texts: Mapping[str, str], pack: Pack = ALONE) -> Iterator[str]:
    """The same in pieces, one after the other, so that a long page is never held whole."""
    template = _environment().get_template("page.html.jinja")
    return _joined(template.generate(page=page, book=Places(texts, pack.book), pack=pack))


def book_pieces(
    texts: Mapping[str, str], papers: Mapping[str, Sequence[Link]], opening: str, pack: Pack
) -> Iterator[str]:
    """The book as a page of its own, in pieces. papers: the files that a line, "file:line", names."""
    template, page = _environment().get_template("book.html.jinja"), Page("book", "The book", (), "", opening=opening)
    return _joined(template.generate(page=page, book=Places(texts), pack=pack, papers=papers))


def _joined(stream: Iterator[str]) -> Iterator[str]:
    """Little pieces put together to some that are worth writing."""
    held: list[str] = []
    for number, piece in enumerate(stream, 1):
        held.append(piece)
        if number % 1_000 == 0:
            yield "".join(held)
            held.clear()
    yield "".join(held)


# ── what the templates ask ───────────────────────────────────────────────────────────────────────────────────────


@cache
def _environment() -> Environment:
    from jinja2 import Environment, PackageLoader, StrictUndefined, pass_context

    made = Environment(
        loader=PackageLoader("ledger_tools.render"), autoescape=True, undefined=StrictUndefined, finalize=_plain,
        trim_blocks=True, lstrip_blocks=True,
    )  # fmt: skip
    linked = pass_context(lambda context, words: said(words, context["book"]))
    made.filters |= {"said": linked, "day": day_words, "pounds": pounds, "sum": sum_words, "cell": cell_words}
    made.globals |= {"kind": lambda block: type(block).__name__, "svg": _picture,
                     "pictured": lambda block: isinstance(block, Picture),
                     "trails": _named_trails, "opens": opens, "wide": wide, "broad": broad, "width": width,
                     "lead": lead, "style": _style(made)}  # fmt: skip
    return made


def _style(environment: Environment) -> Markup:
    from markupsafe import Markup

    assert environment.loader is not None
    return Markup(environment.loader.get_source(environment, "style.css")[0])


def _plain(value: Any) -> Any:
    """What is put into the page, with signs that no page may hold, or that steer a reader's program, as a dot."""
    if not isinstance(value, str) or STEERS.search(value) is None:
        return value
    from markupsafe import Markup

    shown = STEERS.sub("·", value)
    return Markup(shown) if isinstance(value, Markup) else shown


def _picture(picture: Picture, name: str) -> Markup:
    from markupsafe import Markup

    return Markup(svg(picture, name))


def said(words: str, book: Places | None = None) -> Markup:
    """A sentence, what is typed into a book or a terminal set apart from it; lines it names lead to the book."""
    from markupsafe import Markup

    parts = re.split(r"`([^`]+)`", words)
    return Markup("").join(
        Markup("<code>{}</code>").format(p) if i % 2 else _linked(p, book) if book else p for i, p in enumerate(parts)
    )


def _linked(words: str, book: Places) -> Markup:
    from markupsafe import Markup

    link = Markup('<a class="place" href="{}"><bdi>{}</bdi></a>')
    return Markup("").join(
        link.format(there, _plain(book.short(piece))) if there else book.short(piece)
        for piece, there in book.parts(words)
    )


def wide(table: Table) -> bool:
    """Whether a table has more words, or more sums, than a narrow screen can hold side by side."""
    right = [i for i, column in enumerate(table.columns) if column.right]
    return len(table.columns) - len(right) > MOST_WORDS or sum(longest(table, i) for i in right) > MOST_SIGNS


def broad(table: Table) -> bool:
    """Whether its columns are more than a page has room for, so that it may stand out at both sides."""
    return len(table.columns) > MOST_COLUMNS


def opens(table: Table) -> bool:
    """Whether some row of a table has lines to show."""
    return any(row.made or any(trails(row)) for row in table.rows)


def width(table: Table, i: int) -> str:
    """How wide a column of sums must be for its longest, with the blank before it."""
    return f"calc({longest(table, i)}ch{' + var(--gap)' if i else ''})"


def longest(table: Table, i: int) -> int:
    """The signs of the longest word over a column, or of its longest sum."""
    words = [*table.columns[i].name.split(), *(cell_words(row.cells[i]) for row in table.rows if len(row.cells) > i)]
    return max(map(len, words))


def lead(table: Table) -> int:
    """The column that names a row: the first of words."""
    return next((i for i, column in enumerate(table.columns) if not column.right), 0)


def _named_trails(table: Table, row: Row) -> list[tuple[str, Any]]:
    """The lines behind a row; where its sums have different ones, each under the name of its column."""
    found = list(trails(row))
    return [(table.columns[i].name if len(found) > 1 else "", traces) for i, traces in found]
