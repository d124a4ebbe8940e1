"""Pictures: sound inline SVG with a text alternative, no script, no colour of their own, the same bytes each time."""

from __future__ import annotations

import re
from datetime import date
from xml.etree import ElementTree

import pytest

from ledger_tools.render import pictures
from ledger_tools.render.page import Bars, Months, Pairs, Picture, Spans
from ledger_tools.render.pictures import svg, telling

from .pages import STATEMENTS, page, run

BARS = Bars("Where it went", (("Repairs <b> & \"more\"", 4460_00), ("Travel", 58_50)))
MONTHS = Months("Rents", (("Apr", 0, 25), ("May", 925_00, 0), ("Jun", 462_50, 1)))
PAIRS = Pairs("In and out", ("in", "out"), (("2024-25", 9250_00, 3000_00), ("2025-26 <b>", 0, 1500_00)))
SPANS = Spans("Days", (
    ("empty, 0% due", "£0.00", date(2025, 5, 1), date(2025, 5, 10), False),
    ("granted, 75% due", "£228.83", date(2025, 5, 11), date(2025, 5, 30), True),
    ("answered by \"A & B\"", "", date(2025, 5, 31), date(2025, 6, 9), False),
))  # fmt: skip
ALL = {"bars": BARS, "months": MONTHS, "pairs": PAIRS, "spans": SPANS}
drawn = pytest.mark.skipif(pictures.missing(), reason="pictures need vl-convert-python (the extra pages)")


def test_the_telling_says_what_the_bars_show() -> None:
    assert telling(BARS) == 'Repairs <b> & "more" £4,460.00; Travel £58.50.'
    assert telling(MONTHS) == "Apr £0.00, 25 empty days; May £925.00; Jun £462.50, 1 empty day."
    assert telling(PAIRS) == "2024-25 in £9,250.00, out £3,000.00; 2025-26 <b> in £0.00, out £1,500.00."
    assert telling(SPANS).startswith("1 May 2025 to 10 May 2025 empty, 0% due, £0.00; 11 May 2025 to 30 May 2025 g")
    assert telling(SPANS).endswith('31 May 2025 to 9 Jun 2025 answered by "A & B".')


@drawn
@pytest.mark.parametrize("name", ALL)
def test_a_picture_is_sound_and_says_what_it_shows(name: str) -> None:
    picture: Picture = ALL[name]
    made = ElementTree.fromstring(svg(picture, "x"))
    svgs = "{http://www.w3.org/2000/svg}"

    assert made.attrib["role"] == "img" and made.attrib["aria-labelledby"] == "x-title x-telling"
    assert [(e.attrib["id"], e.text) for e in made[:2]] == [("x-title", picture.title), ("x-telling", telling(picture))]
    assert not made.findall(f".//{svgs}script") and not made.findall(f".//{svgs}style")
    assert [e for e in made.iter() if "id" in e.attrib] == list(made[:2])
    assert [e for e in made.iter() if "role" in e.attrib or "aria-roledescription" in e.attrib] == [made]


@drawn
def test_a_picture_takes_its_colours_from_the_page_and_fetches_nothing() -> None:
    for picture in ALL.values():
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
def test_pairs_are_in_proportion_to_the_largest_of_all() -> None:
    made, bar = svg(PAIRS, "x"), r'd="M0,[\d.]+h([\d.]+)v8[^"]*"[^>]*'
    full = [float(n) for n in re.findall(rf'{bar}fill="var\(--bar\)"', made)]
    hollow = [float(n) for n in re.findall(rf'{bar}stroke="var\(--soft\)"', made)]

    assert [n for n in full if n] == [320] and hollow == pytest.approx([320 * 3000 / 9250, 320 * 1500 / 9250])


@drawn
def test_stretches_of_days_stand_where_they_are_in_the_whole_time() -> None:
    bars = re.findall(r'd="M([\d.]+),[\d.]+h([\d.]+)v8[^"]*"[^>]*fill="([^"]*)"', svg(SPANS, "x"))

    assert [float(at) for at, _, _ in bars] == pytest.approx([0, 80, 240])
    assert [float(wide) for _, wide, _ in bars] == pytest.approx([80, 160, 80])
    assert [fill for _, _, fill in bars] == ["var(--paper)", "var(--bar)", "var(--paper)"]
    words = re.findall(r"<text[^>]*>([^<]*)</text>", svg(SPANS, "x"))
    assert words[-2:] == ["1 May 2025", "9 Jun 2025"]


@drawn
def test_empty_days_are_told_in_figures() -> None:
    words = re.findall(r"<text[^>]*>([^<]*)</text>", svg(MONTHS, "x"))

    assert words == ["Apr", "May", "Jun", "25", "1"]


@drawn
def test_the_same_picture_is_the_same_bytes_and_stands_on_the_page() -> None:
    assert svg(MONTHS, "x") == svg(MONTHS, "x")
    assert page("profit").count("<figure>") == 2
    assert page("worth").count("<figure>") == 2 and page("void").count("<figure>") == 1
    assert page("refurb").count("<figure>") == 1
    assert page("base-cost").count("<figure>") == 1


def test_without_the_library_the_page_stands_without_pictures(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pictures, "missing", lambda: True)
    text = page("profit")

    assert "<svg" not in text and "<figure" not in text and "£8,200.00" in text


def test_months_stand_in_a_table_beside_the_picture() -> None:
    rows = run(*STATEMENTS["profit"], "--format", "csv", "--table", "months").splitlines()

    assert rows[0] == "of,group,month,rent,days held,days empty,note"
    told = [row.split(",,", 1)[1] for row in rows[1:]]
    assert told[:3] == ["Apr 2025,0.00,0,0,", "May 2025,0.00,9,9,", "Jun 2025,0.00,30,30,"] and len(told) == 13
