"""The mistakes the book language recognises by name, each by a function of its own, in the order they are tried.

A function looks at the spot where a block stopped and gives a problem, or None where the mistake is another one.
"""

from __future__ import annotations

from collections.abc import Callable

from ...problems import Problem
from ..spot import Spot
from . import dates, lines, names, parties, signs, sums, verbs, words

Recogniser = Callable[[Spot], Problem | None]

RECOGNISERS: tuple[Recogniser, ...] = (
    # signs that swallow what follows, and lines that stand in the wrong place
    signs.lone_quote,
    signs.single_quotes,
    lines.indented,
    lines.under_the_wrong_line,
    # figures
    dates.date_in_figures,
    dates.date_in_words,
    dates.month_behind,
    words.missing_blank,
    sums.negative_amount,
    sums.foreign_money,
    sums.unclear_amount,
    dates.tax_year,
    words.count_behind,
    parties.name_with_a_blank,
    words.number_in_letters,
    words.little_word_missing,
    names.other_word,
    words.how_often,
    words.period_open,
    words.period_from,
    names.little_behind,
    sums.bare_number,
    # names and things
    parties.name_in_two_words,
    parties.name_missing,
    words.thing_missing,
    parties.unneeded_quotes,
    # signs and joints
    signs.stray_sign,
    signs.wrong_joint,
    signs.stray_comma,
    # words of the language in the wrong place
    lines.first_column,
    words.missing_comma,
    words.reserved_words,
    parties.needs_quotes,
    # words of other trades, and slips
    verbs.other_verb,
    verbs.verb_behind,
    words.extra_word,
    words.date_out_of_place,
    names.near_here,
    verbs.verb_missing,
    names.glued_word,
    parties.name_in_plain_words,
    words.at_home_elsewhere,
    names.near_elsewhere,
    names.name_alone,
    names.unknown,
)
