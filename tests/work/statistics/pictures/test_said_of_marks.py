"""Words that marks of every picture share."""

from __future__ import annotations

from datetime import UTC
from decimal import Decimal

import pytest

from app.trade.sentence import Sentence
from app.trade.statistics.picture import Ink
from app.trade.wording import plain
from app.work.statistics.pictures.said_of_marks import (
    days_of,
    faint,
    figures_of,
    first_of,
    hours_of,
    jobs_counted,
    together,
    worth_drawing,
)

SAY = plain(UTC)


def test_counts_are_worded_for_one_and_for_many():
    assert SAY(jobs_counted(1)) == "1 job"
    assert SAY(jobs_counted(12)) == "12 jobs"
    assert (SAY(days_of(1.0)), SAY(days_of(6.243))) == ("1 day", "6.2 days")


@pytest.mark.parametrize(
    ("value", "shown"), [(0.0, "0"), (0.17949, "0.179"), (12.0, "12"), (1234.6, "1235"), (100.0, "100")]
)
def test_a_worked_out_number_has_three_figures_and_no_exponent(value, shown):
    assert str(figures_of(value)) == shown


def test_hours_have_two_decimals_at_most():
    assert SAY.value(hours_of(Decimal("3.335"))) == "3.34\u00a0h"
    assert SAY.value(hours_of(Decimal("200.000000"))) == "200\u00a0h"


def test_a_title_says_how_many_are_shown_only_where_not_all_are():
    title = Sentence("Bars")
    assert first_of(title, 3, 3) == title
    assert SAY(first_of(title, 20, 312)) == "Bars: 20 of 312 shown, the others are in the table"


def test_sentences_stand_one_after_the_other():
    assert SAY(together(Sentence("One."), Sentence("Two."), Sentence("Three."))) == "One. Two. Three."


def test_what_rests_on_few_is_drawn_only_where_there_is_nothing_else():
    rows = list("abcdefghij")
    assert worth_drawing(rows, [True] * 3 + [False] * 7) == ("d", "e", "f", "g", "h", "i")
    assert worth_drawing(rows, [True] * 10) == ("a", "b", "c")
    assert (faint(True), faint(False)) == (Ink.FAINT, Ink.PLAIN)
