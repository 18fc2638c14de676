"""Dates along an axis, in the words of the language."""

from __future__ import annotations

from datetime import UTC, date

from app.screens import language
from app.screens.kit.plots.dates import date_marks
from app.trade.wording import Wording


def marks(begin: date, end: date, pieces: float) -> tuple[list[str], list[list[str]]]:
    ticks, spans = date_marks(begin.toordinal(), end.toordinal(), pieces)
    return [word for _, word in ticks], [[word for *_, word in row] for row in spans]


def test_weeks_are_days_over_their_months() -> None:
    ticks, spans = marks(date(2026, 10, 27), date(2026, 11, 22), 5)
    assert ticks == ["27", "3", "10", "17"]
    assert [word.replace("\u00a0", " ") for word in spans[0]] == ["Oct 2026", "Nov 2026"]


def test_months_stand_over_their_years_and_quarters_where_they_would_be_crowded() -> None:
    _, spans = marks(date(2025, 11, 3), date(2026, 2, 20), 6)
    assert spans == [["Nov", "Dec", "Jan", "Feb"], ["2025", "2026"]]
    _, spans = marks(date(2025, 2, 3), date(2026, 2, 20), 6)
    assert spans == [["Jan", "Apr", "Jul", "Oct", "Jan"], ["2025", "2026"]]


def test_many_years_have_years_alone() -> None:
    ticks, spans = marks(date(2001, 2, 3), date(2026, 2, 20), 6)
    assert ticks == []
    assert spans == [["2000", "2005", "2010", "2015", "2020", "2025"]]


def test_a_stretch_reaches_to_the_next() -> None:
    _, spans = date_marks(date(2025, 2, 3).toordinal(), date(2026, 2, 20).toordinal(), 6)
    for row in spans:
        assert [end for _, end, _ in row[:-1]] == [begin for begin, _, _ in row[1:]]


def test_months_are_german_in_german() -> None:
    language.use(Wording(lambda key: key, "de", UTC))
    _, spans = marks(date(2026, 3, 3), date(2026, 10, 20), 9)
    assert spans[0][2:6] == ["Mai", "Juni", "Juli", "Aug."]
