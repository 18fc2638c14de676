"""Times of day as people type them."""

from __future__ import annotations

from datetime import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.calendar.clock_time import parse_clock
from app.trade.refusal import Refusal


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("14:05", time(14, 5)),
        ("14.05", time(14, 5)),
        ("14h05", time(14, 5)),
        ("1405", time(14, 5)),
        ("9", time(9)),
        (" 9 am ", time(9)),
        ("12 am", time(0)),
        ("12:30 pm", time(12, 30)),
        ("2:05pm", time(14, 5)),
        ("17 Uhr", time(17)),
        ("0:00", time(0)),
        ("23:59", time(23, 59)),
    ],
)
def test_a_time_is_read_as_it_is_typed(typed, read):
    assert parse_clock(typed) == read


@pytest.mark.parametrize("typed", ["", "noon", "24:00", "9:60", "13 pm", "0 am", "9:5", "14:05:00", "-1"])
def test_what_is_no_time_is_refused(typed):
    with pytest.raises(Refusal):
        parse_clock(typed)


@given(st.times())
def test_every_minute_is_read_back(at):
    assert parse_clock(at.strftime("%H:%M")) == at.replace(second=0, microsecond=0)


@given(st.text(max_size=12))
def test_nothing_typed_hurts(text):
    try:
        parse_clock(text)
    except Refusal:
        return
