"""A box of the tax return walked back to the lines of the book, as text."""

from __future__ import annotations

from collections.abc import Sequence

from ..days import day_words
from ..money import pounds
from ..statements.walk_back import Step, WalkBack
from .columns import columns
from .text import BASES, paragraph, title


def text(found: Sequence[WalkBack]) -> str:
    """The box of each owner, one after the other."""
    return "\n\n".join("\n".join(_one(w)) for w in found)


def _one(w: WalkBack) -> list[str]:
    exact = w.box.figure.pence
    out = [*title(f"Box {w.box.number} of {w.year}, {w.full}: {w.box.caption}"), ""]
    typed = f"{pounds(exact)}; to type: £{w.box.pounds:,}"
    out += paragraph(f"{typed}, {w.rounded}, once for the whole box." if w.rounded else f"{typed}.", "  ")
    if w.how:
        out += paragraph(w.how, "  ")
        rows = [(f"box {b.number}", b.caption, f"{'-' if sign < 0 else ''}£{b.pounds:,}") for sign, b in w.parts]
        out += columns(rows, right=(2,), margin="    ")
    else:
        out += ["", f"  The lines that make it, {BASES[w.basis]}"]
        for step in w.steps:
            out += _step(step)
    return [*out, "", *paragraph(f"The box as told by: {w.source}.", "  ")]


def _step(step: Step) -> list[str]:
    t = step.trace
    part = f" of {pounds(step.whole)}" if step.whole is not None else ""
    counts = f", counts on {day_words(t.counts)}" if t.counts else ""
    out = paragraph(f"{t.source}  {day_words(t.day)}  {t.words}: {pounds(t.pence)}{part}{counts}", "    ", "      ")
    for fired in step.reasons:
        sure = "" if fired.confidence == "clear" else f", {fired.confidence}"
        out += paragraph(f"{fired.says} ({fired.slug}: {fired.authority}{sure})", "        ", "        ")
    return out
