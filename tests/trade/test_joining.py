"""Sentences joined: one full stop between them, whatever was typed."""

from __future__ import annotations

from datetime import UTC, date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.joining import closed, filled, is_closed
from app.trade.sentence import Sentence
from app.trade.wording import Wording, plain


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("so that it holds the focus", "so that it holds the focus."),
        ("so that it holds the focus. ", "so that it holds the focus."),
        ("does it hold?", "does it hold?"),
        ("it holds, says the owner: “for good.”", "it holds, says the owner: “for good.”"),
        ("it holds (for now)", "it holds (for now)."),
        ("it holds (for now.)", "it holds (for now.)"),
        ("first this, then", "first this, then."),
        ("the lens; ", "the lens."),
        ("and so on…", "and so on…"),
        ("", ""),
        ("  ", ""),
        (";", ";"),
    ],
)
def test_what_was_typed_is_closed_once(typed: str, told: str) -> None:
    assert closed(typed) == told


@given(st.text(max_size=40))
def test_closing_twice_changes_nothing_more(text: str) -> None:
    assert closed(closed(text)) == closed(text)


@given(st.text(st.characters(categories=["L", "N"]), min_size=1, max_size=20))
def test_whatever_word_it_ends_with_a_sentence_can_follow(text: str) -> None:
    assert is_closed(closed(text))
    assert closed(text) == f"{text}."


@pytest.mark.parametrize(
    ("value", "told"),
    [
        ("take out R401", "To undo it: take out R401. Then test."),
        ("take out R401.", "To undo it: take out R401. Then test."),
        ("take out R401?", "To undo it: take out R401? Then test."),
    ],
)
def test_a_template_puts_no_second_stop_behind_a_value(value: str, told: str) -> None:
    assert filled("To undo it: {how}. Then test.", {"how": value}) == told
    assert plain(UTC)(Sentence("To undo it: {how}. Then test.", {"how": value})) == told


def test_only_a_stop_that_ends_a_sentence_is_left_out() -> None:
    assert filled("{name}.pdf and {name}.", {"name": "No."}) == "No..pdf and No."
    assert filled("{name} alone", {"name": "a {b}. c."}) == "a {b}. c. alone"


def test_a_month_cut_short_ends_the_german_sentence_as_well() -> None:
    german = Wording(lambda key: key, "de", UTC)
    day = german.day(date(2026, 11, 24), "d MMM")
    assert day.endswith("Nov.")
    assert german("Seit {day}.", day=day) == f"Seit {day}"
