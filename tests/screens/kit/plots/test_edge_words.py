"""Words beside a plot do not lie on each other."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QRectF

from app.screens.kit.plots.edge_words import EdgeWord, edge_rooms, gutter, spread


@given(st.lists(st.floats(0, 300), min_size=1, max_size=8))
def test_words_keep_their_order_their_distance_and_the_room(wanted: list[float]) -> None:
    tall = [18.0] * len(wanted)
    places = spread(wanted, tall, 0, 300)
    order = sorted(range(len(wanted)), key=lambda i: (wanted[i], i))
    for a, b in pairwise(order):
        assert places[b] - places[a] >= 18 - 1e-6
    assert max(places) <= 318
    assert min(places) >= -18


def test_words_with_room_stand_where_they_want() -> None:
    assert spread([200, 10, 100], [18, 18, 18], 0, 300) == [200, 10, 100]


@pytest.mark.usefixtures("qapp")
def test_a_long_word_goes_on_in_the_next_line() -> None:
    words = [EdgeWord("all quarters of the last years together: 8.7 %", 100, soft=True)]
    (room,) = edge_rooms(words, QRectF(60, 0, 300, 200), 360 + gutter(words, 500))
    assert len(room.lines) > 1
    assert room.rect.center().y() == 100
