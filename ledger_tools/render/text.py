"""Pages as plain text for a terminal, and what the text forms of all statements share. No arithmetic."""

from __future__ import annotations

from collections.abc import Sequence

from ..days import day_words
from ..money import pounds
from ..statements.figures import Figure, Trace
from .columns import WIDTH, columns, lined_up
from .page import Block, Cell, Code, Item, Items, Link, Notes, Page, Row, Section, Sum, Table, Words, trails

BASES = {"cash": "by payment (cash basis)", "accruals": "by what was owed (accruals)"}


def indent(lines: Sequence[str], by: str = "  ") -> list[str]:
    """The lines moved in."""
    return [by + line if line else line for line in lines]


def paragraph(text: str, first: str = "  ", rest: str = "  ", width: int = WIDTH) -> list[str]:
    """Words wrapped to the width of a page; a word longer than that has a line of its own."""
    left, lead, out = " ".join(text.split()), first, []
    while len(lead) + len(left) > width:
        cut = left.rfind(" ", 0, width - len(lead) + 1)
        cut = left.find(" ") if cut < 0 else cut
        if cut < 0:
            break
        out.append(lead + left[:cut])
        left, lead = left[cut + 1 :], rest
    return [*out, lead + left] if left else out


def on_the_page(text: str) -> str:
    """A text of several lines, of which those that are too wide are wrapped, what goes on standing as far in.

    What stands in a fence, between two lines of three backquotes, is kept.
    """
    out: list[str] = []
    fenced = False
    for line in text.split("\n"):
        fenced ^= line.startswith("```")
        if len(line) <= WIDTH or fenced:
            out.append(line)
            continue
        inset = len(line) - len(line.lstrip())
        bullet = 2 * line.lstrip().startswith("- ")
        out += paragraph(line, " " * inset, " " * (inset + bullet))
    return "\n".join(out)


def unwrapped(text: str) -> str:
    """A text with each of its paragraphs and points on one line: lines that go on stand further in or under words."""
    out: list[str] = []
    for line in text.split("\n"):
        goes_on = out and out[-1] and line.strip() and not line.lstrip().startswith(("- ", "#"))
        if goes_on and not out[-1].startswith("#"):
            out[-1] += f" {line.strip()}"
        else:
            out.append(line)
    return "\n".join(out)


def title(words: str, margin: int = 0) -> list[str]:
    """What stands over something; its second line, where it needs one, stands further in. Nothing for no words."""
    return paragraph(words, " " * margin, " " * (margin + 2))


def trail(*figures: Figure) -> list[str]:
    """The lines of the book that figures are made of, lined up together."""
    return _traced([t for figure in figures for t in figure.trail])


def _traced(traces: Sequence[Trace]) -> list[str]:
    rows = [
        (t.source, day_words(t.day), t.words, pounds(t.pence), f"counts on {day_words(t.counts)}" if t.counts else "")
        for t in traces
    ]
    return columns(rows, right=(3,), margin="        ")


def draw(page: Page, lines: bool = False) -> str:
    """A page; with `lines`, under every row of a table the lines of the book that make its first sum."""
    out = ["\n".join(paragraph(page.opening, "", ""))] if page.opening else []
    out += ["\n".join(_section(section, lines)) for section in page.sections]
    return "\n\n".join([*out, foot(page.cautions, page.checked, page.so_far)])


def foot(cautions: Sequence[str], checked: str, so_far: str = "") -> str:
    """What stands under a page: the cautions it calls for, which year it is of, how far the law was checked."""
    out = ["Cautions"] if cautions else []
    for caution in cautions:
        out += paragraph(caution, "  - ", "    ")
    for said in (so_far, checked):
        out += [*([""] if out else []), *paragraph(said, "", "")] if said else []
    return "\n".join(out)


def _section(section: Section, lines: bool, margin: int = 0, top: bool = True) -> list[str]:
    """A section: its name, what stands under the name, its blocks. A paragraph that is not its first stands apart."""
    out = [line for words in (section.title, section.sub) for line in title(words, margin)]
    out += [""] if top and section.blocks else []
    inset = margin + section.inset
    for i, block in enumerate(section.blocks):
        out += [""] if isinstance(block, Section) or i and isinstance(block, Words) else []
        out += _block(block, lines, inset)
    return out


def _block(block: Block, lines: bool, margin: int) -> list[str]:
    left = " " * margin
    if isinstance(block, Section):
        return _section(block, lines, margin, top=False)
    if isinstance(block, Table):
        return _table(block, lines, margin)
    if isinstance(block, Words):
        return paragraph(block.said, left, left)
    if isinstance(block, Notes):
        return [line for said in block.said for line in paragraph(said, f"{left}{block.sign} ", " " * (margin + 2))]
    if isinstance(block, Items):
        return [line for item in block.items for line in _item(item, margin)]
    return indent(block.lines, left) if isinstance(block, Code) else []  # the table beside a picture says it all


def _table(table: Table, lines: bool, margin: int) -> list[str]:
    """Lined up under the names of the columns; under headings the rows stand a little further in."""
    headed = any(row.kind == "heading" for row in table.rows)
    names = [] if table.unheaded else [tuple("" if column.quiet else column.name for column in table.columns)]
    drawn = lined_up([*names, *(_cells(row, len(table.columns), headed) for row in table.rows)],
                     [i for i, column in enumerate(table.columns) if column.right], margin=" " * margin)  # fmt: skip
    out = [line for heads in drawn[: len(names)] for line in heads]
    for i, (row, said) in enumerate(zip(table.rows, drawn[len(names) :], strict=True)):
        out += said
        if lines and row.kind == "line":
            out += _traced(next((traces for _, traces in trails(row)), ()))
        if row.under and row.under != (table.rows[i + 1].under if i + 1 < len(table.rows) else ""):
            out += paragraph(row.under, " " * (margin + 4), " " * (margin + 4))
    return out


def _cells(row: Row, wide: int, headed: bool) -> tuple[str, ...]:
    cells = [cell_words(cell) for cell in row.cells]
    cells[0] = f"  {cells[0]}" if headed and row.kind == "line" else cells[0]
    return (*cells, *[""] * (wide - len(cells)))


def cell_words(cell: Cell) -> str:
    """What stands in a cell, as it is read."""
    if isinstance(cell, str):
        return cell
    if isinstance(cell, Sum):
        return sum_words(cell)
    if isinstance(cell, Link):
        return cell.words
    return day_words(cell)


def sum_words(cell: Sum) -> str:
    """A sum as it is read: "£1,234.50", or in whole pounds "£1,234"."""
    return pounds(cell.pence).removesuffix(".00") if cell.whole else pounds(cell.pence)


def _item(item: Item, margin: int) -> list[str]:
    """One line of the book with what there is to say of it."""
    said = ", ".join(f"{sum_words(pence)} ({what})" if what else sum_words(pence) for pence, what in item.sums)
    out = paragraph(f"{item.words}: {said}", f"{' ' * margin}{item.source}  ", " " * (margin + 4))
    lead = " " * (margin + 4)
    for label, words in item.told:
        out += paragraph(words, f"{lead}{label}: " if label else lead, f"{lead}  ")
    return out


def settling(ask: Sequence[str]) -> str:
    """What would settle an open question: facts to add to the line, or lines and words to write."""
    facts = [words for words in ask if words[:1] in (",", " ")]
    house = [words for words in ask if words.startswith(("as bought", "price ", "marketed"))]
    instead = [words for words in ask if words.startswith(("old one", "improvement "))]  # a line has one of each
    others = [words for words in ask if words not in facts and words not in house and words not in instead]
    said = []
    if facts:
        said.append("add " + " or ".join(f"`{words.strip()}`" for words in facts))
    if house:
        asked = house == ["as bought lettable", "as bought not lettable"]
        both = " with `price normal` or `price reduced`" if asked else ""
        said.append("write under the heading of the house " + " or ".join(f"`{words}`" for words in house) + both)
    if instead:
        said.append("write " + " or ".join(f"`{words}`" for words in instead) + " in place of what the line says there")
    if others:
        said.append("write " + " or ".join(f"`{words}`" for words in others))
    return "to settle it " + ", or ".join(said)
