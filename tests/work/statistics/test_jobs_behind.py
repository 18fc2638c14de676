"""The jobs behind a number."""

from __future__ import annotations

from datetime import date

from app.trade.bench.kinds import ComebackStanding, FaultGroup
from app.trade.statistics.comebacks import Standing
from app.work.statistics.jobs_behind import JobBehind, Named, jobs_behind, named_jobs
from app.work.statistics.question import Question
from tests.work.past import DAY

RADIAL = FaultGroup.RADIAL
TODAY = date(2026, 3, 12)


def test_only_those_asked_for_and_what_came_back_first_then_the_newest(past):
    unit = past.unit()
    first = past.job(unit, 700, 690)
    second = past.job(unit, 600, 590, comeback_of_id=first, comeback=ComebackStanding.CONFIRMED)
    third = past.job(past.unit(transport="Grellin S1"), 500, 490)
    past.job(past.unit(), 500, 490)
    assert jobs_behind(past.shop.book, Question(), [first, second, third]) == (
        JobBehind(
            first,
            1001,
            TODAY - 690 * DAY,
            RADIAL,
            "Velk A1",
            Standing.CAME_BACK,
            TODAY - 600 * DAY,
            second,
            1002,
            confirmed=True,
        ),
        JobBehind(third, 1003, TODAY - 490 * DAY, RADIAL, "Grellin S1", Standing.HELD, None, None, None),
        JobBehind(second, 1002, TODAY - 590 * DAY, RADIAL, "Velk A1", Standing.HELD, None, None, None),
    )


def test_the_definition_of_the_question_says_what_became_of_them_its_filters_do_not(past):
    unit = past.unit()
    first = past.job(unit, 700, 690)
    past.job(unit, 600, 590)
    asked = Question(window=30, transport_type="another")
    (line,) = jobs_behind(past.shop.book, asked, [first])
    assert line.standing is Standing.HELD


def test_a_job_still_in_the_shop_has_no_day_and_no_standing(past):
    here = past.job(past.unit(), 5, group=None)
    assert jobs_behind(past.shop.book, Question(), [here]) == (
        JobBehind(here, 1001, None, None, "", None, None, None, None),
    )
    assert jobs_behind(past.shop.book, Question(), []) == ()


def test_whose_player_it_was(past):
    job = past.job(past.unit(), 700, 690)
    assert named_jobs(past.shop.book, [job]) == {job: Named("Quellmar Larch 2", "Benedikt Arnsvik")}
