"""Pictures of tables as inline SVG, drawn by Vega-Lite: no script, no network, no colour of their own.

What each shows stands in the table beside it, and in its text alternative. Knows the blocks of a page, no statement.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import Any

from ..days import day_words
from ..money import pounds
from .page import Bars, Months, Pairs, Picture, Spans

WIDE = 320  # signs are read on a telephone at their own size, elsewhere larger
STEP = 38  # a bar with its words above it
PAIR = 54  # two of them with one line of words
HIGH = 130  # of the columns of months
BAR, INK, SOFT, EMPTY = "var(--bar)", "var(--ink)", "var(--soft)", "var(--paper)"
PLAIN = {"aria": False, "background": None, "font": "inherit", "view": {"stroke": None}, "padding": 2}
ROLES = re.compile(r' (?:role|aria-[a-z]+)="[^"]*"')  # the picture has one role and one telling, its marks have none
ROOT = re.compile(r'^<svg\b[^>]*?(viewBox="[^"]*")[^>]*>')


def missing() -> bool:
    """Whether the library that draws is not there."""
    from importlib.util import find_spec

    return find_spec("vl_convert") is None


def telling(picture: Picture) -> str:
    """What the picture shows, for those who do not see it."""
    return f"{'; '.join(_told(picture))}."


def _told(picture: Picture) -> Iterator[str]:
    if isinstance(picture, Bars):
        for label, pence in picture.rows:
            yield f"{label} {pounds(pence)}"
    elif isinstance(picture, Months):
        for label, pence, empty in picture.rows:
            yield f"{label} {pounds(pence)}" + (f", {empty} empty day{'' if empty == 1 else 's'}" if empty else "")
    elif isinstance(picture, Pairs):
        for label, full, hollow in picture.rows:
            yield f"{label} {_both(picture, full, hollow)}"
    else:
        for label, amount, first, last, _ in picture.rows:
            yield f"{day_words(first)} to {day_words(last)} {label}" + (f", {amount}" if amount else "")


def svg(picture: Picture, name: str) -> str:
    """The picture as an SVG element, with its title and telling under ids that begin with `name`; "" where the
    library is missing."""
    if missing():
        return ""
    from markupsafe import escape
    from vl_convert import vegalite_to_svg

    draws: dict[type, Callable[[Any], dict[str, Any]]] = {Bars: _bars, Months: _months, Pairs: _pairs, Spans: _spans}
    drawn = vegalite_to_svg(draws[type(picture)](picture))
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


def _both(picture: Pairs, *sums: int) -> str:
    return ", ".join(f"{name} {pounds(pence)}" for name, pence in zip(picture.names, sums, strict=True))


def _pairs(picture: Pairs) -> dict[str, Any]:
    """Two bars a row under its words, the first full, the second hollow."""
    rows = [
        {"at": i, "name": name, "sums": _both(picture, full, hollow), "full": full, "hollow": hollow}
        for i, (name, full, hollow) in enumerate(picture.rows)
    ]
    most = max(max(full, hollow) for _, full, hollow in picture.rows)

    def bar(field: str, offset: int, **mark: Any) -> dict[str, Any]:
        x = {"field": field, "type": "quantitative", "axis": None, "scale": {"domain": [0, most], "nice": False}}
        return {"mark": {"type": "bar", "height": 8, "yOffset": offset, **mark}, "encoding": {"x": x}}

    return {
        "width": WIDE, "height": PAIR * len(rows), "config": PLAIN, "data": {"values": rows},
        "encoding": {"y": {"field": "at", "type": "ordinal", "axis": None, "scale": {"padding": 0}}},
        "layer": [
            bar("full", 6, fill=BAR),
            bar("hollow", 18, fill=EMPTY, stroke=SOFT),
            _text("name", align="left", x=0, dy=-10),
            _text("sums", align="right", x=WIDE, dy=-10),
        ],
    }  # fmt: skip


def _spans(picture: Spans) -> dict[str, Any]:
    """A bar a stretch of days where it stands in the whole time, full where something is due; below, where it begins
    and ends."""
    start, end = min(row[2] for row in picture.rows), max(row[3] for row in picture.rows)
    rows = [
        {"at": i, "what": what, "sum": amount, "from": (first - start).days, "to": (last - start).days + 1, "due": due}
        for i, (what, amount, first, last, due) in enumerate(picture.rows)
    ]
    high = STEP * len(rows)
    x = {"type": "quantitative", "axis": None, "scale": {"domain": [0, (end - start).days + 1], "nice": False}}
    full = {"condition": {"test": "datum.due", "value": BAR}, "value": EMPTY}
    bar = {
        "mark": {"type": "bar", "height": 8, "yOffset": 11, "stroke": SOFT, "strokeWidth": 1},
        "encoding": {"x": {"field": "from", **x}, "x2": {"field": "to"}, "fill": full},
    }
    ends = [{"text": day_words(start), "align": "left", "x": 0}, {"text": day_words(end), "align": "right", "x": WIDE}]
    marks = [
        {"data": {"values": [{}]}, "mark": {"type": "text", "fontSize": 10, "fill": SOFT, "y": high + 12, **each},
         "encoding": {"y": None}}
        for each in ends
    ]  # fmt: skip
    return {
        "width": WIDE, "height": high, "config": PLAIN, "data": {"values": rows},
        "encoding": {"y": {"field": "at", "type": "ordinal", "axis": None, "scale": {"padding": 0}}},
        "layer": [bar, _text("what", align="left", x=0, dy=-2), _text("sum", align="right", x=WIDE, dy=-2), *marks],
    }  # fmt: skip
