"""The layout: pairs of files typed and tidied, and what holds for every text there is."""

from __future__ import annotations

import random
from collections import Counter
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from ledger_tools.language.blocks import PLAIN, cut, plain
from ledger_tools.language.layout import lay_out
from ledger_tools.language.reading import read
from ledger_tools.language.tidy import TidyRefused, tidy, tidy_block, unread
from tests.language.generated import COMMENTS, blocks, books, grammar_rules, messy, reads, walk

LAYOUT = Path(__file__).parent / "layout"
BLANKS = " \t" + "".join(chr(sign) for sign, as_read in PLAIN.items() if as_read == " ")
unhurried = settings(deadline=None)  # the first example may build the tables of the grammar
SAMPLES = Path(__file__).parents[2] / "sample_books"


def _text(path: Path) -> str:
    return path.read_bytes().decode("utf-8")


def _meanings(text: str) -> list[tuple[str, Any]]:
    """What each block says, with its house; the text itself where it does not read."""
    readings = [(block, read(block.text)) for block in cut(plain(text))]
    return [(b.at, r.statement.meaning if r.statement is not None else b.text) for b, r in readings]


# ── pairs ────────────────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("path", sorted(LAYOUT.glob("*.in")), ids=lambda path: path.stem)
def test_a_file_as_typed_gets_the_layout_beside_it(path: Path) -> None:
    assert tidy(_text(path)) == _text(path.with_suffix(".out"))


@pytest.mark.parametrize("path", sorted(LAYOUT.glob("*.out")), ids=lambda path: path.stem)
def test_the_layout_is_its_own_layout(path: Path) -> None:
    assert tidy(_text(path)) == _text(path)


def test_every_pair_is_whole() -> None:
    names = {suffix: {path.stem for path in LAYOUT.glob(f"*.{suffix}")} for suffix in ("in", "out")}

    assert names["in"] == names["out"] and len(names["in"]) >= 6


@pytest.mark.parametrize("path", sorted(SAMPLES.rglob("*.book")), ids=lambda path: path.name)
def test_the_sample_books_are_tidy(path: Path) -> None:
    assert tidy(_text(path)) == _text(path)


# ── the edges ────────────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("text", ["", "\n", " \t\r\n\u00a0", "\n\n\n"])
def test_nothing_stays_nothing(text: str) -> None:
    assert tidy(text) == ""


def test_the_verb_begins_in_column_14_and_what_follows_in_column_25() -> None:
    for line in tidy("9 Jun 2025 paid water £3\nmay 2009 certified wiring £4").splitlines():
        assert line[11:13] == "  " and line[13] != " "
        assert line[22:24] == "  " and line[24] != " "


def test_a_file_keeps_its_line_ends_where_all_are_alike() -> None:
    assert tidy("at  mill-3\r\n9 Jun 2025 paid water £3\r\n") == "at mill-3\r\n9 Jun 2025   paid       water £3\r\n"
    assert tidy("at  mill-3\r\n9 Jun 2025 paid water £3\n") == "at mill-3\n9 Jun 2025   paid       water £3\n"
    assert tidy("at  mill-3\r9 Jun 2025 paid water £3") == "at mill-3\n9 Jun 2025   paid       water £3\n"


def test_a_letter_without_a_small_form_stays() -> None:
    assert tidy_block("thing İron-Gate is GARDEN") == "thing İron gate is garden"


def test_the_letters_of_councils_are_large() -> None:
    assert tidy_block("1 Aug 2024 claimed Class f exemption") == "1 Aug 2024   claimed    class F exemption"


def test_one_needed_hyphen_does_not_keep_the_others() -> None:
    text = "9 Jun 2025 replaced front-door and walk-in wardrobe and back-door £3"

    assert tidy_block(text) == "9 Jun 2025   replaced   front door and walk-in wardrobe and back door £3"


def test_a_line_of_very_many_hyphens_is_tidied_in_good_time() -> None:
    things = " and ".join(["walk-in wardrobe"] * 2000)

    assert tidy_block(f"9 Jun 2025 replaced  {things} £3") == f"9 Jun 2025   replaced   {things} £3"


def test_a_block_comes_back_without_a_new_line_of_its_own() -> None:
    assert tidy_block("at  Mill-3") == "at mill-3"
    assert tidy_block("") == ""
    assert tidy_block("  at  Mill-3\r\n") == "  at  Mill-3\r\n"


def test_blocks_that_do_not_read_are_named_by_line() -> None:
    assert unread('# a\n  x\nsupplier volt "Volt"\n\nrepalced boiler\n  broken\n9 Jun 2025\n') == [2, 5, 7]


# ── the promise is kept even where the layout is at fault ────────────────────────────────────────────────────────


def _swap(old: str, new: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """A layout with a fault of our making."""
    real = lay_out
    monkeypatch.setattr(
        "ledger_tools.language.tidy.lay_out", lambda *given: [row.replace(old, new) for row in real(*given)]
    )


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("boiler", "door"),  # another word
        ("  # why", ""),  # a comment lost
        ("# why", "# WHY"),  # a comment changed
        ("it’s", "it's"),  # a sign between quotation marks changed
        ("£3", "£4"),
        ("paid", "repaid"),
        ("9 Jun 2025 ", "9 Jun 2025\n"),
    ],
)
def test_a_wrong_layout_is_never_handed_out(old: str, new: str, monkeypatch: pytest.MonkeyPatch) -> None:
    text = 'at mill-3\n\n9 Jun 2025 paid boiler £3 "it’s"  # why\n'
    _swap(old, new, monkeypatch)

    with pytest.raises(TidyRefused) as refused:
        tidy(text)

    assert refused.value.line == 3


def test_a_layout_that_is_never_done_is_never_handed_out(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("ledger_tools.language.tidy.lay_out", lambda typed, *_: [f"{typed} "])

    with pytest.raises(TidyRefused, match="second pass"):
        tidy("at mill-3\n")


def test_a_layout_that_moves_lines_to_another_house_is_never_handed_out(monkeypatch: pytest.MonkeyPatch) -> None:
    _swap("at mill-3", "at  mill-3,", monkeypatch)

    with pytest.raises(TidyRefused):
        tidy("at mill-3\n9 Jun 2025 paid water £3\n")


# ── whatever is typed ────────────────────────────────────────────────────────────────────────────────────────────


def test_the_made_up_blocks_reach_every_rule_of_the_grammar_and_all_can_be_tidied() -> None:
    source = random.Random(1)
    missing, taken = grammar_rules(), Counter[Any]()
    made = read_back = 0
    while missing and made < 40_000:
        tokens, rules = walk(source.choice, taken, (18, 30, 60)[made % 3])
        made += 1
        if missing.isdisjoint(rules) and made % 20:
            continue
        text = messy(tokens, source.choice)
        if reads(text, tokens):
            tidy(text)  # raises where it cannot keep its promise
            missing -= set(rules)
            read_back += 1

    assert not missing
    assert read_back > 500


@unhurried
@given(books())
def test_a_tidied_book_says_the_same(text: str) -> None:
    assert _meanings(tidy(text)) == [
        (at, meaning if not isinstance(meaning, str) else plain(meaning)) for at, meaning in _meanings(text)
    ]


@unhurried
@given(books())
def test_a_tidied_book_is_tidy(text: str) -> None:
    once = tidy(text)

    assert tidy(once) == once


@unhurried
@given(blocks())
def test_lines_stay_lines(text: str) -> None:
    assert tidy_block(text).count("\n") == text.count("\n")


@unhurried
@given(blocks())
def test_a_tidied_block_holds_no_blank_to_spare(text: str) -> None:
    for line in tidy_block(text).split("\n"):
        assert line == line.rstrip() and "\t" not in line.partition("#")[0]


@unhurried
@given(blocks(), st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\r\n"), max_size=30))
def test_no_sign_of_a_comment_is_lost(block: str, words: str) -> None:
    comment = f"#{words}".rstrip(BLANKS)
    once = tidy(f"{comment}\n{block}\n   {comment}\n\n{comment}")

    assert [line.strip(" ") for line in once.split("\n") if line.strip(" ") == comment.strip(" ")].count(comment) >= 3


@unhurried
@given(st.text(st.characters(exclude_categories=["Cs"], exclude_characters='\r\n"“”„‟″«»'), max_size=30))
def test_no_sign_between_quotation_marks_is_lost(words: str) -> None:
    assert tidy(f"9 Jun 2025  noted “{words}”  ") == f'9 Jun 2025   noted      "{words}"\n'


@unhurried
@given(books())
def test_every_made_up_comment_is_kept_where_it_was(text: str) -> None:
    def kept(text: str) -> list[str]:
        return [found for line in plain(text).split("\n") for found in COMMENTS if line.rstrip().endswith(plain(found))]

    assert kept(tidy(text)) == kept(text)


@unhurried
@given(st.lists(blocks(), min_size=2, max_size=4), st.randoms(use_true_random=False))
def test_the_order_of_blocks_does_not_matter(made: list[str], shuffled: random.Random) -> None:
    parts = [f"{block}\n" for block in made]
    order = list(range(len(parts)))
    shuffled.shuffle(order)
    each = [tidy(part) for part in parts]

    assert tidy("".join(parts[i] for i in order)) == "".join(each[i] for i in order)


@unhurried
@given(st.text(max_size=200))
def test_text_that_does_not_read_keeps_every_sign(text: str) -> None:
    """Any text at all: nothing is raised, and what no block reads loses blanks at the ends of lines at most."""
    once = tidy(text)
    if len(unread(text)) == len(cut(plain(text))):
        blanks = str.maketrans("", "", f"{BLANKS}\r\n")
        assert once.translate(blanks) == text.translate(blanks)


# fmt: off
TYPED = [
    "9 Jun 2025", "paid", "at mill-3", " ", "\n", "\n  ", ",", '"x"', "£3", "# c", "boiler", "for", "worn-out", "\t",
    "“", "in", "kitchen", "by", "-", "İ", "\u00a0", "\r\n", "invoiced", "\n\t\t",
]
# fmt: on


@settings(unhurried, max_examples=300)
@given(st.lists(st.sampled_from(TYPED), max_size=25).map("".join))
def test_words_in_any_order_raise_nothing(text: str) -> None:
    once = tidy(text)

    assert tidy(once) == once
