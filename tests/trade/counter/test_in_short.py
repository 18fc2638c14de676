"""A fault in short."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.counter.in_short import ROOM, first_words


@pytest.mark.parametrize(
    ("fault", "short"),
    [
        ("", ""),
        ("dead after a storm", "dead after a storm"),
        ("Stops when it gets warm. A tap on the lid helps.", "Stops when it gets warm"),
        ("Track 1.5 jumps; the rest plays.", "Track 1.5 jumps"),
        ("first line\nsecond line", "first line"),
        ("  two   spaces ", "two spaces"),
        (
            "Plays nicely from the start, but when I jump to the last songs it hangs for ages and then stops.",
            "Plays nicely from the start, but when I jump to the last…",
        ),
        ("x" * 80, "x" * (ROOM - 1) + "…"),
    ],
)
def test_the_first_sentence_stands_for_the_fault(fault, short):
    assert first_words(fault) == short


@given(st.text())
def test_it_is_one_line_that_has_room(fault):
    short = first_words(fault)
    assert len(short) <= ROOM
    assert "\n" not in short
