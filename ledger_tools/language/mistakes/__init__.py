"""The mistakes the book language recognises by name, each by a function of its own, in the order they are tried.

A function looks at the spot where a block stopped and gives a problem, or None where the mistake is another one.
"""

from __future__ import annotations

from collections.abc import Callable

from ...problems import Problem
from ..spot import Spot
from . import (
    clauses,
    dates,
    heads,
    jobs,
    lets,
    lines,
    names,
    nouns,
    owning,
    parties,
    parts,
    pasted,
    remarks,
    signs,
    sums,
    verbs,
    ways,
    words,
)

Recogniser = Callable[[Spot], Problem | None]

RECOGNISERS: tuple[Recogniser, ...] = (
    # rows and lists from elsewhere
    pasted.spreadsheet_row,
    pasted.bullet,
    # signs that swallow what follows
    signs.lone_quote,
    signs.single_quotes,
    # whole lines told in other words
    heads.loan_told,
    heads.room_in_heading,
    heads.let_told,
    heads.full_name_told,
    owning.owners_told,
    ways.told_another_way,
    # lines that stand in the wrong place
    lines.indented,
    lines.under_the_wrong_line,
    # other ways of saying it, before any word of it is taken for a slip
    remarks.fact_with_more,
    parts.sums_added,
    parts.vat,
    parts.included,
    parts.private_share,
    parts.retention,
    parts.part_turned,
    parts.part_without_verb,
    parts.cost_as_fact,
    clauses.several_houses,
    clauses.house_alone,
    words.room_as_fact,
    clauses.list_of_things,
    clauses.on_whom,
    clauses.paper_number,
    clauses.period_without_for,
    clauses.months_joined,
    clauses.purpose_of_trip,
    lets.hours_worked,
    remarks.measured,
    # figures
    dates.year_out_of_reach,
    dates.date_in_figures,
    dates.date_in_words,
    dates.month_behind,
    words.missing_blank,
    sums.negative_amount,
    sums.foreign_money,
    sums.unclear_amount,
    dates.tax_year,
    words.count_behind,
    words.room_behind,
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
    lets.tenancy_told,
    lets.own_time,
    nouns.sum_without_verb,
    jobs.job_told,
    verbs.other_verb,
    verbs.verb_behind,
    words.extra_word,
    words.date_out_of_place,
    remarks.own_words,
    names.near_here,
    remarks.words_behind,
    nouns.verb_missing,
    names.glued_word,
    parties.name_in_plain_words,
    words.at_home_elsewhere,
    names.near_elsewhere,
    names.name_alone,
    remarks.all_own_words,
    names.unknown,
)
