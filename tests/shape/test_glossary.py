"""What our own pages print has a page: terms, margins, answers, boxes, the commands, references."""

from __future__ import annotations

import tomllib
from collections import Counter
from importlib.resources import files

import pytest
from click.testing import CliRunner

from ledger_tools import explain, law
from ledger_tools.commands import cli
from ledger_tools.render.year_end import LEFT_OUT, OF_SALE
from ledger_tools.statements.kinds import PLAIN

ASKED = (
    "price normal", "price reduced", "as bought lettable", "as bought not lettable", "for", "adjusted loss", "box 25",
    "cash basis", "accruals", "property allowance", "profit", "base cost", "capital record", "verdict", "proof",
    "split", "open", "estimate", "digital update", "exempt amount", "BIM46935", "PIM3210", "CG64300", "TCGA 1992 s.38",
)  # fmt: skip
# What stands in the margins and over the columns of the pages.
MARGINS = (
    "why", "either", "to settle", "rides on it", "changes if", "keep", "your ruling", "without it", "in money",
    "for tax", "came in", "result", "exact", "to type", "cautions", "waiting", "what it means in tax",
)  # fmt: skip


@pytest.mark.parametrize("words", [*ASKED, *MARGINS])
def test_what_people_ask_has_a_page(words: str) -> None:
    page = explain.look_up(words)
    assert page is not None and len(page.text) > 40


@pytest.mark.parametrize("words", [*PLAIN.values(), *(heading.lower() for heading in (OF_SALE, *LEFT_OUT.values()))])
def test_every_answer_and_heading_has_a_page(words: str) -> None:
    assert explain.look_up(words) is not None


@pytest.mark.parametrize("box", law.pages(law.pages_checked_up_to()), ids=lambda box: box.number)
def test_every_box_has_a_page_by_number_and_by_caption(box: law.Box) -> None:
    page = explain.look_up(f"box {box.number}")
    assert page is not None and page == explain.look_up(f"box-{box.number}")
    assert box.caption[1:] in page.text and str(box.first) in page.text
    assert not box.handled or explain.look_up(box.caption) is not None


def test_a_box_tells_what_goes_in_it() -> None:
    assert "ground rent" in explain.look_up("box 24").text
    assert "repairs of the house" in explain.look_up("box 25").text
    assert explain.look_up("box 99") is None


def test_a_reference_tells_its_manual_and_where_to_read_it() -> None:
    page = explain.look_up("bim46935")
    assert page is not None and page.subject == "BIM46935"
    assert "Business Income Manual" in page.text and "gov.uk" in page.text
    assert explain.look_up("xyz46935") is None


def test_no_name_asks_for_two_terms() -> None:
    rows = tomllib.loads((files(explain) / "glossary.toml").read_text(encoding="utf-8"))["term"]
    names = [name.lower() for row in rows for name in (row["term"], *row.get("also", "").split("; ")) if name]
    assert [name for name, times in Counter(names).items() if times > 1] == []


def test_the_command_prints_a_term_with_its_source() -> None:
    said = CliRunner().invoke(cli, ["explain", "adjusted", "loss"]).output
    assert said.startswith("adjusted loss: term") and "Source: ITA 2007 s.118" in said
