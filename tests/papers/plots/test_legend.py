"""What the shapes of a panel mean, in as many lines as it needs."""

from __future__ import annotations

from app.papers.plots.legend import legend
from tests.papers.plots.panels import LONG


def nothing(pen, x, y):
    pass


def test_entries_stand_beside_each_other_as_far_as_they_fit():
    entries = [(nothing, f"entry {at}") for at in range(6)]
    wide, narrow = legend(entries, 200.0), legend(entries, 60.0)
    assert {down for _, down, _, _ in wide.entries} == {0.0}
    assert len({down for _, down, _, _ in narrow.entries}) == 3
    assert narrow.height > wide.height


def test_long_words_take_two_lines_and_are_cut():
    found = legend([(nothing, LONG), (nothing, "short")], 60.0)
    (_, _, _, words), (across, down, _, _) = found.entries
    assert len(words.lines) == 2
    assert (across, down > words.height) == (0.0, True)


def test_nothing_needs_no_room():
    assert legend([], 60.0).height == 0.0
