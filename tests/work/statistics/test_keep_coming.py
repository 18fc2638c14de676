"""Players that keep coming, and transports."""

from __future__ import annotations

from datetime import date

from app.book import tables as t
from app.trade.statistics.definition import Followed
from app.work.statistics.keep_coming import keep_coming
from app.work.statistics.question import Question
from tests.work.past import DAY, SOUND

TODAY = date(2026, 3, 12)


def test_every_later_visit_of_a_player_counts_from_its_first_handing_back(past):
    often, quiet = past.unit(), past.unit()
    first = past.job(often, 810, 800)
    later = [past.job(often, 700, 690), past.job(often, 500, 490, group=SOUND), past.job(often, 100)]
    past.job(quiet, 810, 800)
    past.job(past.unit(transport="Grellin S1"), 5)
    found = keep_coming(past.shop.book, Question())
    (row,) = found.rows
    assert (row.units, row.visits, row.few) == (2, 3, True)
    assert row.curve.times == (100.0, 300.0, 700.0)
    assert row.curve.mean == (0.5, 1.0, 1.5)
    assert (found.marks[-1], row.at_risk[0], row.at_risk[-1]) == (800.0, 2, 2)
    assert found.headline.values == {"again": 1, "units": 2, "visits": 3}
    assert (row.year_mean, row.jobs) == (1.0, tuple(later))
    assert row.year_low < 1.0 < row.year_high
    assert (found.why.n, found.why.events) == (2, 3)
    (most,) = found.most
    assert (most.name, most.serial, most.visits) == ("Quellmar Larch 2", "1", 4)
    assert (most.first, most.last) == (TODAY - 800 * DAY, TODAY - 100 * DAY)
    assert most.jobs == (first, *later)


def test_none_that_came_again_is_said(past):
    past.job(past.unit(), 810, 800)
    found = keep_coming(past.shop.book, Question())
    assert found.headline.key == "None of {units} came in again"
    (row,) = found.rows
    assert (row.year_mean, row.year_low) == (0.0, None)


def test_one_player_alone_has_no_band_and_days_to_come_are_left_out(past):
    unit = past.unit()
    past.job(unit, 810, 800)
    past.job(unit, 700, 690)
    past.job(past.unit(), 2, -3)
    (row,) = keep_coming(past.shop.book, Question()).rows
    assert (row.units, row.year_mean, row.year_low) == (1, 1.0, None)


def test_a_transport_is_followed_into_another_player(past, add):
    first, second = past.unit(removed=650), past.unit(transport="")
    past.job(first, 700, 690)
    add(t.Fitting(transport_id=1, unit_id=second, fitted_at=past.at(640)))
    past.job(second, 600, 590)
    past.job(first, 500, 490)
    found = keep_coming(past.shop.book, Question(followed=Followed.TRANSPORT))
    assert (found.why.n, found.why.events) == (1, 1)
    assert found.most[0].name == "Velk A1"


def test_an_empty_book_is_a_sentence(past):
    found = keep_coming(past.shop.book, Question())
    assert (found.headline.key, found.rows, found.most) == ("No repair has been handed back yet.", (), ())


def test_of_players_with_as_many_visits_those_that_came_last_stand_first(past):
    for ago in (300, 100, 200):
        unit = past.unit()
        past.job(unit, 810, 800)
        past.job(unit, ago)
    found = keep_coming(past.shop.book, Question())
    assert [(TODAY - one.last).days for one in found.most] == [100, 200, 300]
