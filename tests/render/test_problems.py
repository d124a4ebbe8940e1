"""Problems as text: the line with its marks in the right columns; and as data for other programs."""

from __future__ import annotations

import json

from hypothesis import given
from hypothesis import strategies as st

from ledger_tools.problems import Fix, Level, Mark, Problem
from ledger_tools.render.problems import as_json, draw, summary

LINE = "9 Jun 2025 repalced boiler £90.00"
VERB = Mark("diary.book", 12, 12, 20, LINE, "replaced?")


def an_error(**more: object) -> Problem:
    return Problem("unknown-verb", Level.ERROR, '"repalced" is not a verb of the book.', (VERB,), **more)  # type: ignore[arg-type]


def test_a_whole_problem() -> None:
    found = an_error(help='Did you mean "replaced"?', because="the sign said so", fix=Fix(VERB, "replaced"))
    assert draw([found]) == (
        'Error: "repalced" is not a verb of the book.  (unknown-verb)\n'
        "  diary.book:12:12\n"
        "      9 Jun 2025 repalced boiler £90.00\n"
        "                 ~~~~~~~~ replaced?\n"
        '  Did you mean "replaced"?\n'
        "  Write:\n"
        "      9 Jun 2025 replaced boiler £90.00\n"
        "  Because: the sign said so\n"
        "\n"
        "1 error in 1 file"
    )


def test_marks_on_one_line_and_on_another() -> None:
    ended = Mark("house.book", 4, 5, 10, "    ended 1 May 2025", "ended here")
    other = Mark("diary.book", 12, 28, 34, LINE, "this much")
    found = Problem("late", Level.DOUBT, "Late.", (VERB, ended, other))
    assert draw([found]).split("\n")[1:7] == [
        "  diary.book:12:12",
        "      9 Jun 2025 repalced boiler £90.00",
        "                 ~~~~~~~~ replaced?",
        "                                 ~~~~~~ this much",
        "  house.book:4:5",
        "          ended 1 May 2025",
    ]


def _under(text: str, column: int, end: int) -> str:
    """What stands above the wave."""
    drawn = draw([Problem("x", Level.NOTE, "X.", (Mark("a", 1, column, end, text),))], 200).split("\n")
    line, wave = drawn[2], drawn[3]
    return line[wave.index("~") : wave.rindex("~") + 1]


def test_tabs_do_not_move_the_mark() -> None:
    assert _under("\tpaid\tx £9.00", 7, 8) == "x"
    assert _under("\t\towners nell", 3, 9) == "owners"


def test_wide_and_joined_signs_do_not_move_the_mark() -> None:
    drawn = draw([Problem("x", Level.NOTE, "X.", (Mark("a", 1, 4, 5, "漢字 £9"),))]).split("\n")
    assert drawn[3] == " " * (6 + 5) + "~"
    drawn = draw([Problem("x", Level.NOTE, "X.", (Mark("a", 1, 5, 6, "cafe\u0301 £9"),))]).split("\n")
    assert drawn[3] == " " * (6 + 4) + "~"


def test_a_place_between_two_signs_is_one_wide() -> None:
    drawn = draw([Problem("x", Level.NOTE, "X.", (Mark("a", 1, 13, 13, "rent £925.00", "how often?"),))]).split("\n")
    assert drawn[3] == " " * (6 + 12) + "~ how often?"


def test_a_long_line_is_cut_around_the_mark_and_its_correction_is_not() -> None:
    text = "9 Jun 2025 noted " + "word " * 60 + "repalced " + "word " * 60
    at = text.index("repalced") + 1
    mark = Mark("a", 1, at, at + 8, text)
    drawn = draw([Problem("x", Level.ERROR, "X.", (mark,), fix=Fix(mark, "replaced"))], 60).split("\n")
    assert all(len(line) <= 60 for line in drawn[:4])
    assert drawn[2].strip().startswith("…") and drawn[2].endswith("…")
    start = drawn[3].index("~")
    assert drawn[2][start : start + 8] == "repalced" and drawn[3].count("~") == 8
    assert text.replace("repalced", "replaced").rstrip() in drawn[5]


def test_signs_that_steer_a_terminal_are_not_passed_on() -> None:
    mark = Mark("a", 1, 1, 2, "\x1b[31mred\x00", "\x07")
    drawn = draw([Problem("x", Level.ERROR, "\x1b[2J.", (mark,), help="\x9b", fix=Fix(mark, "\x1b"))])
    assert not any(ord(sign) < 32 and sign != "\n" or 127 <= ord(sign) < 160 for sign in drawn)


def test_the_count_at_the_end() -> None:
    note = Problem("n", Level.NOTE, "N.", (Mark("b.book", 1, 1, 2, "x"),))
    doubt = Problem("d", Level.DOUBT, "D.", (Mark("diary.book", 1, 1, 2, "x"),))
    assert summary([an_error(), an_error(), doubt]) == "2 errors, 1 doubt in 1 file"
    assert summary([note, note, an_error()]) == "1 error, 2 notes in 2 files"
    assert summary([Problem("x", Level.ERROR, "X.")]) == "1 error"
    assert draw([]) == ""
    assert draw([an_error(), doubt]).endswith("\n\n1 error, 1 doubt in 1 file")


def test_as_data() -> None:
    found = an_error(help="H.", because="B.", fix=Fix(VERB, "replaced", certain=True))
    assert json.loads(json.dumps(as_json([found]))) == [
        {
            "code": "unknown-verb",
            "level": "error",
            "headline": '"repalced" is not a verb of the book.',
            "marks": [
                {"file": "diary.book", "line": 12, "column": 12, "end": 20, "text": LINE, "label": "replaced?"},
            ],
            "help": "H.",
            "because": "B.",
            "fix": {
                "at": {"file": "diary.book", "line": 12, "column": 12, "end": 20, "text": LINE, "label": "replaced?"},
                "text": "replaced",
                "corrected": "9 Jun 2025 replaced boiler £90.00",
                "certain": True,
            },
        }
    ]
    assert as_json([an_error()])[0]["fix"] is None


ONE_LINE = st.text(max_size=200).filter(lambda text: "\n" not in text)


@given(ONE_LINE, st.integers(0, 200), st.integers(0, 30), st.integers(0, 150))
def test_any_line_and_any_mark_is_drawn(text, start, size, width) -> None:
    start = min(start, len(text))
    mark = Mark("a", 1, start + 1, min(start + size, len(text)) + 1, text, "here")
    drawn = draw([Problem("x", Level.ERROR, "X.", (mark,), fix=Fix(mark, "y"))], width).split("\n")
    assert drawn[3].strip(" ~") == "here"
    assert "~" in drawn[3]


@given(ONE_LINE, st.integers(0, 200), st.integers(0, 200), st.integers(0, 40), st.integers(45, 150))
def test_the_wave_and_its_label_stay_on_the_page(text, start, size, label, width) -> None:
    start = min(start, len(text))
    mark = Mark("a", 1, start + 1, min(start + size, len(text)) + 1, text, "a" * label)
    drawn = draw([Problem("x", Level.ERROR, "X.", (mark,))], width).split("\n")
    assert len(drawn[3]) <= max(width, 6 + label + 2 + drawn[3].index("~"))
    assert drawn[3].replace("~", "").replace(" ", "") == "a" * label


def test_a_label_stands_where_there_is_room() -> None:
    text = "9 Jun 2025 certified gas safety £70.00, expires 8 Jun 2025"
    early = Mark("a", 1, 41, 59, text, "earlier than the line")
    whole = Mark("a", 1, 1, 59, text, "the line")
    assert draw([Problem("x", Level.DOUBT, "X.", (early,))], 70).split("\n")[3] == (
        " " * 6 + " " * 18 + "earlier than the line " + "~" * 18
    )
    assert draw([Problem("x", Level.DOUBT, "X.", (whole,))], 70).split("\n")[3] == " " * 6 + "~" * 55 + " the line"


def test_many_that_say_the_same_are_told_together_each_with_its_place_and_its_line() -> None:
    def at(line: int) -> Problem:
        mark = Mark("diary.book", line, 12, 20, LINE, "replaced?")
        return Problem("unknown-verb", Level.ERROR, "No verb.", (mark,), "Once.", fix=Fix(mark, "replaced"))

    other = Problem("late", Level.DOUBT, "Late.", (VERB,), "Else.")
    drawn = draw([at(1), other, at(2), at(3)])

    assert drawn.count("No verb.") == drawn.count("Once.") == 1 and "(unknown-verb, 3 times)" in drawn
    assert all(f"diary.book:{line}:12" in drawn for line in (1, 2, 3)) and drawn.count("replaced boiler") == 3
    assert drawn.index("No verb.") < drawn.index("Late.") and drawn.endswith("3 errors, 1 doubt in 1 file")
    assert draw([at(1), at(2)]).count("No verb.") == 2, "two are told as they stand"
