"""Pictures of tables as inline SVG, drawn by Vega-Lite: no script, no network, no colour of their own.

What each shows stands in the table beside it, and in its text alternative. Knows the blocks of a page, no statement.
"""

from __future__ import annotations

import re
from typing import Any

from ..money import pounds
from .page import Bars, Months

WIDE = 320  # signs are read on a telephone at their own size, elsewhere larger
STEP = 38  # a bar with its words above it
HIGH = 130  # of the columns of months
BAR, INK, SOFT, EMPTY = "var(--bar)", "var(--ink)", "var(--soft)", "var(--paper)"
PLAIN = {"aria": False, "background": None, "font": "inherit", "view": {"stroke": None}, "padding": 2}
ROLES = re.compile(r' (?:role|aria-[a-z]+)="[^"]*"')  # the picture has one role and one telling, its marks have none
ROOT = re.compile(r'^<svg\b[^>]*?(viewBox="[^"]*")[^>]*>')


def missing() -> bool:
    """Whether the library that draws is not there."""
    from importlib.util import find_spec

    return find_spec("vl_convert") is None


def telling(picture: Bars | Months) -> str:
    """What the picture shows, for those who do not see it."""
    if isinstance(picture, Bars):
        return "; ".join(f"{label} {pounds(pence)}" for label, pence in picture.rows) + "."
    said = [
        f"{label} {pounds(pence)}" + (f", {empty} empty day{'' if empty == 1 else 's'}" if empty else "")
        for label, pence, empty in picture.rows
    ]
    return "; ".join(said) + "."


def svg(picture: Bars | Months, name: str) -> str:
    """The picture as an SVG element, with its title and telling under ids that begin with `name`; "" where the
    library is missing."""
    if missing():
        return ""
    from markupsafe import escape
    from vl_convert import vegalite_to_svg

    drawn = vegalite_to_svg(_bars(picture) if isinstance(picture, Bars) else _months(picture))
    root = (
        rf'<svg xmlns="http://www.w3.org/2000/svg" \1 role="img" aria-labelledby="{name}-title {name}-telling">'
        f'<title id="{name}-title">{escape(picture.title)}</title>'
    )
    told = f'<desc id="{name}-telling">{escape(telling(picture))}</desc>'
    made, found = ROOT.subn(lambda m: m.expand(root) + told, ROLES.sub("", str(drawn)))
    assert found == 1
    return made


def _text(field: str, **more: Any) -> dict[str, Any]:
    return {"mark": {"type": "text", "fontSize": 11, "fill": INK, **more}, "encoding": {"text": {"field": field}}}


def _bars(picture: Bars) -> dict[str, Any]:
    """A bar a row, over it what it is and how much."""
    rows = [{"at": i, "what": what, "sum": pounds(pence), "pence": pence} for i, (what, pence) in
            enumerate(picture.rows)]  # fmt: skip
    bar = {
        "mark": {"type": "bar", "height": 8, "yOffset": 11, "fill": BAR},
        "encoding": {"x": {"field": "pence", "type": "quantitative", "axis": None, "scale": {"nice": False}}},
    }
    return {
        "width": WIDE, "height": STEP * len(rows), "config": PLAIN, "data": {"values": rows},
        "encoding": {"y": {"field": "at", "type": "ordinal", "axis": None, "scale": {"padding": 0}}},
        "layer": [
            bar,
            _text("what", align="left", x=0, dy=-2),
            _text("sum", align="right", x=WIDE, dy=-2),
        ],
    }  # fmt: skip


def _months(picture: Months) -> dict[str, Any]:
    """A column a month; under it its name, and under that how many of its days stood empty, in a frame."""
    rows = [
        {"at": i, "name": label, "pence": max(pence, 0), "empty": str(empty)}
        for i, (label, pence, empty) in enumerate(picture.rows)
    ]
    column = {
        "mark": {"type": "bar", "fill": BAR},
        "encoding": {"y": {"field": "pence", "type": "quantitative", "axis": None, "scale": {"nice": False}}},
    }
    void = {"transform": [{"filter": "datum.empty !== '0'"}]}
    frame = {"type": "rect", "fill": EMPTY, "stroke": SOFT, "strokeDash": [3, 2], "y": HIGH + 24, "y2": HIGH + 44}
    return {
        "width": WIDE, "height": HIGH, "config": PLAIN,
        "data": {"values": rows},
        "encoding": {"x": {"field": "at", "type": "ordinal", "axis": None, "scale": {"padding": 0.15}}},
        "layer": [
            column,
            _text("name", y=HIGH + 12, fontSize=10, fill=SOFT),
            {**void, "mark": frame},
            {**void, **_text("empty", y=HIGH + 35, fontSize=10)},
        ],
    }  # fmt: skip
