"""HTML pages by their structure: headings in order, tables with names, links that lead somewhere, text that is text."""

from __future__ import annotations

import re
import sys
import unicodedata
from pathlib import Path

import pytest

from ledger_tools.render.html import STEERS, html, said
from ledger_tools.render.page import Column, Item, Items, Notes, Page, Row, Section, Sum, Table, Words

from .pages import NASTY, SALTMARSH, STATEMENTS, page, run
from .reading import Read


@pytest.fixture(scope="module", params=STATEMENTS)
def read(request: pytest.FixtureRequest) -> Read:
    return Read(page(request.param))


def test_every_tag_is_closed_in_turn(read: Read) -> None:
    assert read.wrong == []


def test_headings_go_down_one_step_at_a_time(read: Read) -> None:
    levels = [level for level, _ in read.headings]

    assert levels[0] == 1 and levels.count(1) == 1
    assert all(after <= before + 1 for before, after in zip(levels, levels[1:], strict=False))
    assert all(words for _, words in read.headings)


def test_every_table_has_a_caption_and_names_for_columns_and_rows(read: Read) -> None:
    for table in read.tables:
        assert table["caption"] == 1 and table["col"] >= 2 and table["row"] >= 1 and table["loose"] == 0


def test_ids_are_used_once_and_every_link_leads_to_one(read: Read) -> None:
    assert len(read.ids) == len(set(read.ids))
    assert {link for link in read.links if not link.startswith("#")} == set()
    assert {link[1:] for link in read.links} <= set(read.ids)
    labelled = [name for _, told in read.tags for name in str(told.get("aria-labelledby") or "").split()]
    assert set(labelled) <= set(read.ids)


def test_nothing_is_fetched_and_nothing_runs(read: Read) -> None:
    assert not [tag for tag, _ in read.tags if tag in ("script", "link", "img", "iframe", "object", "form")]
    assert not [name for _, told in read.tags for name in told if name.startswith("on") or name == "src"]


def test_the_page_says_its_language_and_fits_a_telephone(read: Read) -> None:
    tags = dict(read.tags)

    assert tags["html"]["lang"] == "en-GB"
    assert any(told.get("name") == "viewport" for tag, told in read.tags if tag == "meta")


# ── walking back ─────────────────────────────────────────────────────────────────────────────────────────────────

STEP = re.compile(
    r'<li><span class="day">([^<]*)</span> <bdi class="words">([^<]*)</bdi> <span class="pence">([^<]*)</span> '
    r'<a class="place" href="#([^"]*)"><bdi>([^<]*):(\d+)</bdi></a>'
)


def test_every_step_back_reaches_the_line_it_names() -> None:
    text = page("profit")
    read, steps = Read(text), STEP.findall(text)

    assert len(steps) > 60
    for _, _, _, anchor, file, line in steps:
        told = (Path(SALTMARSH) / file).read_text(encoding="utf-8").split("\n")[int(line) - 1]
        assert read.by_id[anchor] == told


def test_the_lines_behind_a_figure_are_those_of_its_json() -> None:
    import json

    told = json.loads(run(*STATEMENTS["profit"], "--format", "json"))["houses"][0]
    rents = next(line for line in told["income"] if line["slug"] == "rent")["money"]["lines"]
    text = page("profit")
    opened = text[text.index("<summary><bdi>Rents") :]
    steps = STEP.findall(opened[: opened.index("</details>")])

    assert [step[2].replace(",", "") for step in steps] == [f"£{line['amount']}" for line in rents]
    assert [step[5] for step in steps] == [line["source"].rpartition(":")[2] for line in rents]


def test_a_sum_for_money_and_another_for_tax_open_under_their_names() -> None:
    text = run("profit", SALTMARSH, "--year", "2025-26", "--format", "html", "--on", "2026-11-25")
    rates = text[text.index("<summary><bdi>Rates") :]

    assert '<p class="which">in money</p>' in rates[: rates.index("</details>")]
    assert '<p class="which">for tax</p>' in rates[: rates.index("</details>")]


def test_the_whole_book_stands_on_the_page() -> None:
    read = Read(page("year-end"))
    for number, file in enumerate(sorted(Path(SALTMARSH).glob("*.book")), 1):
        lines = file.read_text(encoding="utf-8").removesuffix("\n").split("\n")
        assert [read.by_id[f"b{number}-{i}"] for i in range(1, len(lines) + 1)] == lines


def test_an_item_of_the_audit_tells_verdict_reason_and_source() -> None:
    text = page("audit")
    boiler = text[text.index("replaced boiler in kitchen") :]
    boiler = boiler[: boiler.index("</details>")]

    assert ">repair<" in boiler and "BIM46920" in boiler
    assert 'href="#rule-closest-modern-equivalent"' in boiler and 'id="rule-closest-modern-equivalent"' in text
    assert re.search(r'href="#b\d+-37"', boiler)


# ── what comes from a book is text ───────────────────────────────────────────────────────────────────────────────


def one(cell: str) -> str:
    """A page on which some words stand everywhere."""
    lines = (Sum(1, ()), cell)
    table = Table("t", cell, (Column(cell), Column("sum", right=True)), (Row((cell, Sum(5)), under=cell),))
    item = Item(cell, cell, ((lines[0], cell),), ((cell, cell),), cell, beside=cell)
    blocks = (table, Words(cell), Notes((cell,)), Items((item,)), Section(cell, (), cell))
    return html(Page("t", cell, (Section(cell, blocks, cell),), cell, (cell,), cell), {f"{cell}.book": cell})


@pytest.mark.parametrize(
    "words",
    ["<script>alert(1)</script>", '"><img src=x onerror=x>', "</style></title><b>", "&lt;b&gt; & &amp;", "'<i>'"],
)
def test_marks_of_the_language_of_pages_are_words(words: str) -> None:
    read = Read(one(words))

    assert read.wrong == []
    assert not {"script", "img", "b", "i"} & {tag for tag, _ in read.tags}
    assert read.headings[0] == (1, words)


def test_signs_that_steer_a_program_become_dots_and_others_stay() -> None:
    text = one("a\x00b\x07c\x1bd\u2028e\x7f \U0001f469\u200d\U0001f373 \u202efg \u05d0\u05d1")

    assert "a·b·c·d·e· \U0001f469\u200d\U0001f373 \u202efg \u05d0\u05d1" in text
    assert not re.search(r"[\x00-\x08\x0b-\x1f\x7f]", text)


def test_every_control_sign_and_half_of_a_sign_steers() -> None:
    kinds = {sign: unicodedata.category(sign) for sign in map(chr, range(sys.maxunicode + 1))}
    steer = {sign for sign, kind in kinds.items() if kind in ("Cc", "Cs") and sign not in "\n\t"}

    assert {sign for sign in kinds if STEERS.match(sign)} == steer | set("\u2028\u2029\ufeff")


def test_words_that_run_the_other_way_are_kept_apart() -> None:
    read = one("\u202eabc")
    start = read.index("</style>")

    body = read[start:]
    apart = re.findall(r"<bdi[^>]*>[^<]*\u202e[^<]*", body)
    assert len(apart) >= 8


def test_a_book_with_nasty_names_makes_a_sound_page(tmp_path: Path) -> None:
    (tmp_path / "a.book").write_text(NASTY, encoding="utf-8")
    for command in ("profit", "year-end", "audit", "base-cost"):
        read = Read(run(command, str(tmp_path), "--format", "html"))
        assert read.wrong == []
        assert not [tag for tag, _ in read.tags if tag in ("script", "img", "b")]
        assert "<script>alert(1)</script>" in read.by_id["b1-1"]


def test_what_is_typed_stands_apart_from_the_sentence() -> None:
    assert said("add `a < b` or `c`") == "add <code>a &lt; b</code> or <code>c</code>"


def test_the_same_book_and_day_make_the_same_bytes() -> None:
    assert page("profit") == page("profit")


def test_the_folder_a_page_was_made_in_is_not_on_it() -> None:
    for name in ("profit", "year-end", "audit", "inventory"):
        assert str(Path(SALTMARSH).parent) not in page(name)
