"""Pictures: sound inline SVG with a text alternative, no script, no colour of their own, the same bytes each time."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from ledger_tools.render import pictures
from ledger_tools.render.page import Bars, Months
from ledger_tools.render.pictures import svg, telling

from .pages import STATEMENTS, page, run

BARS = Bars("Where it went", (("Repairs <b> & \"more\"", 4460_00), ("Travel", 58_50)))
MONTHS = Months("Rents", (("Apr", 0, 25), ("May", 925_00, 0), ("Jun", 462_50, 1)))
drawn = pytest.mark.skipif(pictures.missing(), reason="pictures need vl-convert-python (the extra pages)")


def test_the_telling_says_what_the_bars_show() -> None:
    assert telling(BARS) == 'Repairs <b> & "more" £4,460.00; Travel £58.50.'
    assert telling(MONTHS) == "Apr £0.00, 25 empty days; May £925.00; Jun £462.50, 1 empty day."


@drawn
@pytest.mark.parametrize("picture", [BARS, MONTHS], ids=["bars", "months"])
def test_a_picture_is_sound_and_says_what_it_shows(picture: Bars | Months) -> None:
    made = ElementTree.fromstring(svg(picture, "x"))
    name = "{http://www.w3.org/2000/svg}"

    assert made.attrib["role"] == "img" and made.attrib["aria-labelledby"] == "x-title x-telling"
    assert [(e.attrib["id"], e.text) for e in made[:2]] == [("x-title", picture.title), ("x-telling", telling(picture))]
    assert not made.findall(f".//{name}script") and not made.findall(f".//{name}style")
    assert [e for e in made.iter() if "id" in e.attrib] == list(made[:2])
    assert [e for e in made.iter() if "role" in e.attrib or "aria-roledescription" in e.attrib] == [made]


@drawn
def test_a_picture_takes_its_colours_from_the_page_and_fetches_nothing() -> None:
    for picture in (BARS, MONTHS):
        made = svg(picture, "x")
        colours = set(re.findall(r'(?:fill|stroke)="([^"]*)"', made)) - {"none"}
        assert colours <= {"var(--bar)", "var(--ink)", "var(--soft)", "var(--paper)"}
        assert not re.findall(r"url\(|href|https?://(?!www\.w3\.org/)", made)


@drawn
def test_bars_are_in_proportion() -> None:
    paths = re.findall(r'<path[^>]*d="M0,[\d.]+h([\d.]+)v8[^"]*"[^>]*fill="var\(--bar\)"', svg(BARS, "x"))

    assert len(paths) == 2
    assert float(paths[1]) / float(paths[0]) == pytest.approx(5850 / 446000)


@drawn
def test_empty_days_are_told_in_figures() -> None:
    words = re.findall(r"<text[^>]*>([^<]*)</text>", svg(MONTHS, "x"))

    assert words == ["Apr", "May", "Jun", "25", "1"]


@drawn
def test_the_same_picture_is_the_same_bytes_and_stands_on_the_page() -> None:
    assert svg(MONTHS, "x") == svg(MONTHS, "x")
    assert page("profit").count("<figure>") == 2


def test_without_the_library_the_page_stands_without_pictures(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pictures, "missing", lambda: True)
    text = page("profit")

    assert "<svg" not in text and "<figure" not in text and "£8,200.00" in text


def test_months_stand_in_a_table_beside_the_picture() -> None:
    rows = run(*STATEMENTS["profit"], "--format", "csv", "--table", "months").splitlines()

    assert rows[0] == "of,group,month,rent,days held,days empty,note"
    told = [row.split(",,", 1)[1] for row in rows[1:]]
    assert told[:3] == ["Apr 2025,0.00,0,0,", "May 2025,0.00,9,9,", "Jun 2025,0.00,30,30,"] and len(told) == 13
