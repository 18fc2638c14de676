"""Labels at the left, values at the right."""

from __future__ import annotations

from app.papers.labelled_rows import LabelledRows, labelled_rows
from app.papers.text import FINE_GREY, TABLE

PAIRS = [("Job", "2131"), ("Customer", "C 0418"), ("Note", "word " * 60)]


def made(most: int = 40) -> LabelledRows:
    return labelled_rows(PAIRS, 60, FINE_GREY, TABLE, 4.9, most=most)


def test_a_long_value_wraps_and_nothing_is_lost() -> None:
    rows = made()
    assert not rows.clipped
    assert rows.height > 4.9 * 6


def test_a_value_longer_than_its_lines_is_cut_and_the_rows_say_so() -> None:
    rows = made(most=2)
    assert rows.clipped
    assert [len(value.lines) for _, value in rows.rows] == [1, 1, 2]


def test_rows_are_split_between_each_other_first_and_then_inside_a_value() -> None:
    rows = made()
    parts = rows.split(12)
    assert parts is not None
    assert [len(part.rows) for part in parts] == [2, 1]  # type: ignore[attr-defined]
    inner = parts[1].split(20)
    assert inner is not None
    assert all(part.height <= 20.01 for part in inner[:1])
    counted = [sum(len(value.lines) for _, value in part.rows) for part in inner]  # type: ignore[attr-defined]
    assert sum(counted) == len(rows.rows[2][1].lines)


def test_rows_that_fit_or_cannot_be_split_are_left() -> None:
    assert made().split(1000) is None
    assert made().split(1) is None
