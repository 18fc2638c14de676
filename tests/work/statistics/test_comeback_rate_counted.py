"""What counts as a repair that came back, over a small book whose every job is written out here."""

from __future__ import annotations

from datetime import date

import pytest

from app.book import tables as t
from app.trade.bench.kinds import ComebackStanding, FaultGroup
from app.trade.bench.stages import Outcome
from app.trade.sentence import Sentence
from app.trade.statistics.comebacks import By, Standing
from app.trade.statistics.definition import Followed
from app.work.statistics.comeback_rate import comeback_rates
from app.work.statistics.jobs_behind import jobs_behind
from app.work.statistics.question import Question
from tests.work.past import DAY, NEEDED

RADIAL, LIGHT, SOUND = FaultGroup.RADIAL, FaultGroup.LIGHT, FaultGroup.SOUND


def row(past, label="Velk A1", **question):
    answer = comeback_rates(past.shop.book, Question(**question))
    return next(row for row in answer.rows if row.label == label)


def returns(past, **question):
    """The repairs that came back, each with the key of its return and the day of that."""
    asked = Question(**question)
    back = [job for one in comeback_rates(past.shop.book, asked).rows for job in one.came_back_jobs]
    return [(job.id, job.next_job_id, job.next_in) for job in jobs_behind(past.shop.book, asked, back)]


def test_the_same_group_within_the_window_came_back(past):
    unit = past.unit()
    past.job(unit, 700, 690)
    past.job(unit, 600, 590)
    counted = row(past)
    assert (counted.handed_back, counted.could, counted.came_back) == (2, 2, 1)
    assert row(past, window=30).came_back == 0


def test_another_group_is_no_comeback_unless_any_fault_is_asked_for(past):
    unit = past.unit()
    past.job(unit, 700, 690)
    past.job(unit, 600, 590, group=SOUND)
    assert row(past).came_back == 0
    assert row(past, same_group=False).came_back == 1


def test_a_visit_for_something_else_in_between_hides_no_comeback(past):
    unit = past.unit()
    first = past.job(unit, 700, 690)
    past.job(unit, 660, 655, group=SOUND)
    back = past.job(unit, 600, 590)
    assert [(job, later) for job, later, _ in returns(past)] == [(first, back)]


def test_an_open_visit_counts_by_what_its_fault_may_turn_out_to_be(past):
    unit = past.unit()
    past.job(unit, 300, 290)
    past.job(unit, 200, group=None, words=("skips",))
    assert row(past).came_back == 1


def test_an_open_visit_without_a_word_is_no_comeback_yet(past):
    unit = past.unit()
    past.job(unit, 300, 290)
    past.job(unit, 200, group=None)
    assert row(past).came_back == 0


@pytest.mark.parametrize("left", [None, 190])
def test_what_a_person_denied_is_no_comeback_whatever_group_it_has(past, left):
    unit = past.unit()
    first = past.job(unit, 300, 290)
    denied = {"comeback_of_id": first, "comeback": ComebackStanding.DENIED}
    past.job(unit, 200, left, words=("skips",), **denied)
    assert row(past).came_back == 0
    assert row(past).denied == 1
    back = past.job(unit, 180, comeback_of_id=first, comeback=ComebackStanding.CONFIRMED)
    assert (first, back) in [(job, later) for job, later, _ in returns(past)]
    assert (row(past).confirmed, row(past).denied) == (1, 0)


def test_a_transport_carries_its_repairs_into_another_player(past):
    """Velk A1 number one leaves the first player 650 days ago and comes in with the second."""
    first, second, bare = past.unit(removed=650), past.unit(transport=""), past.unit(transport="")
    job = past.job(first, 700, 690)
    with past.shop.book.change(past.shop.ine, Sentence("moved")) as change:
        change.add(t.Fitting(transport_id=1, unit_id=second, fitted_at=past.at(640)))
    past.job(first, 630, 620)
    past.job(second, 600, 590)
    past.job(bare, 600, 590)
    past.job(second, 3)
    ((back, _, day),) = returns(past, followed=Followed.TRANSPORT)
    assert (back, day) == (job, date(2026, 3, 12) - 600 * DAY)
    assert row(past, followed=Followed.TRANSPORT).could == 2
    ((back, _, day),) = returns(past)
    assert (back, day) == (job, date(2026, 3, 12) - 630 * DAY)


def test_what_was_not_mended_and_what_is_too_young_is_told_and_does_not_count(past):
    past.job(past.unit(), 700, 690, outcome=Outcome.DECLINED)
    past.job(past.unit(), 100, 90)
    past.job(past.unit(), 700, 690)
    counted = row(past)
    assert (counted.handed_back, counted.not_counted, counted.too_young, counted.could) == (3, 1, 1, 1)


def test_a_repair_whose_next_visit_begins_before_it_ended_is_set_aside(past):
    unit = past.unit()
    past.job(unit, 700, 590)
    past.job(unit, 600, 580)
    assert row(past).set_aside == 1


def test_the_transport_is_the_one_that_was_inside_when_the_player_went(past):
    past.job(past.unit(removed=680), 700, 690)
    past.job(past.unit(removed=695), 700, 690)
    past.job(past.unit(fitted=600), 700, 690)
    past.job(past.unit(transport=""), 700, 690)
    labels = {row.label: row.handed_back for row in comeback_rates(past.shop.book, Question()).rows}
    assert labels == {"Velk A1": 1, "not known": 3}


def test_only_the_group_and_the_days_asked_for(past):
    past.job(past.unit(), 700, 690)
    past.job(past.unit(), 500, 490, group=LIGHT)
    day = date(2026, 3, 12)
    assert row(past, group=LIGHT).handed_back == 1
    assert row(past, since=day - 600 * DAY).handed_back == 1
    assert row(past, until=day - 600 * DAY).handed_back == 1


def test_by_fault_group_and_by_modification(past):
    modified, plain = past.unit(), past.unit()
    job = past.job(modified, 700, 690)
    past.modification(modified, job, 695)
    past.job(plain, 700, 690, group=None)
    assert row(past, "radial", by=By.FAULT_GROUP).handed_back == 1
    assert row(past, "not known", by=By.FAULT_GROUP).handed_back == 1
    assert row(past, "with", by=By.MODIFICATION).handed_back == 1
    assert row(past, "without", by=By.MODIFICATION).handed_back == 1


@pytest.mark.parametrize(
    "more", [{"made": 600}, {"made": 699, "reversed_at": 695}, {"made": 699, "struck": True}]
)
def test_a_modification_made_later_reversed_or_struck_out_was_not_inside(past, more):
    unit = past.unit()
    past.modification(unit, past.job(unit, 700, 690), **more)
    assert row(past, "without", by=By.MODIFICATION).handed_back == 1


def test_a_modification_goes_with_its_transport_into_another_player(past):
    first, second = past.unit(removed=650), past.unit(transport="")
    job = past.job(first, 700, 690)
    with past.shop.book.change(past.shop.ine, Sentence("moved")) as change:
        change.add(t.Fitting(transport_id=1, unit_id=second, fitted_at=past.at(640)))
        change.add(t.Modification(transport_id=1, job_id=job, **NEEDED, at=past.at(695), by=past.shop.ine))
    past.job(second, 600, 590)
    assert row(past, "with", by=By.MODIFICATION).handed_back == 2


def test_days_are_the_shops_own(past):
    """23:30 UTC is the next day in Berlin, where the shop stands."""
    unit = past.unit()
    job = past.job(unit, 700, 690)
    with past.shop.book.change(past.shop.ine, Sentence("late")) as change:
        row = change.get(t.Job, job)
        row.handed_back_at = row.handed_back_at.replace(hour=23, minute=30)
    (line,) = jobs_behind(past.shop.book, Question(), [job])
    assert line.handed_back == date(2026, 3, 12) - 689 * DAY
    assert line.standing is Standing.HELD
