"""The shop itself, drawn: weeks, stays, promises, work in hand, hours and turnover."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

from app.trade.money import Money
from app.trade.statistics.picture import Course
from app.work.statistics.pictures.shop import panels_of_shop
from app.work.statistics.question import Question
from app.work.statistics.shop import HoursRow, MonthRow, WeekRow, the_shop


def test_every_part_of_the_shop_has_its_panel(past, sound):
    first = past.job(past.unit(), 20, 10, promised_on=date(2026, 3, 1))
    past.job(past.unit(), 5)
    answer = replace(
        the_shop(past.shop.book, Question()),
        technicians=(HoursRow("Ada", Decimal("1.5"), (1,)), HoursRow("Bo", Decimal(9), (1, 2))),
        turnover=(
            MonthRow(date(2025, 11, 1), Money(12000, "EUR")),
            MonthRow(date(2026, 1, 1), Money(-500, "EUR")),
        ),
    )
    weeks, stay, promises, ages, hours, turnover = sound(panels_of_shop(answer))
    came, left = weeks.series
    assert sum(point.y for point in came.points) == 2
    assert [point.jobs for point in left.points if point.y] == [(first,)]
    assert stay.bars[0].value == answer.stay.median
    assert [(bar.key, bar.value) for bar in promises.bars] == [
        ("kept", 0.0),
        ("broken", 1.0),
        ("without", 0.0),
    ]
    assert promises.bars[1].jobs == answer.promises.broken_jobs
    assert [bar.value for bar in ages.bars] == [1.0, 0.0, 0.0, 0.0]
    assert ages.bars[-1].name.key == "{least} days and more"
    assert [bar.key for bar in hours.bars] == ["hours Bo", "hours Ada"]
    (series,) = turnover.series
    assert turnover.y.least is None
    assert [point.y for point in series.points] == [120.0, 0.0, -5.0]
    assert date.fromordinal(int(series.points[1].x)) == date(2025, 12, 1)


def test_long_times_show_their_end_and_say_so(past, sound):
    past.job(past.unit(), 20, 10)
    weeks = tuple(WeekRow(date(2020, 1, 6) + timedelta(7 * at), at, 0, ()) for at in range(300))
    months = (MonthRow(date(2000, 1, 1), Money(100, "EUR")), MonthRow(date(2026, 1, 1), Money(100, "EUR")))
    answer = replace(the_shop(past.shop.book, Question()), rows=weeks, turnover=months)
    panels = sound(panels_of_shop(answer))
    first, last = panels[0], panels[-1]
    assert isinstance(first, Course)
    assert isinstance(last, Course)
    assert (first.title.values["shown"], first.title.values["all"]) == (104, 300)
    assert first.series[0].points[-1].y == 299
    assert (last.title.values["shown"], last.title.values["all"]) == (120, 313)
    assert last.y.least == 0.0


def test_panels_with_nothing_in_them_are_left_out(past, sound):
    past.job(past.unit(), 5)
    panels = sound(panels_of_shop(the_shop(past.shop.book, Question())))
    assert [panel.title.key for panel in panels] == [
        "Jobs in and out, week by week",
        "Work in hand, by the days since it was taken in",
    ]


def test_a_week_and_a_month_that_are_not_over_wait(past, sound):
    past.job(past.unit(), 1)
    turnover = (MonthRow(date(2026, 3, 1), Money(100, "EUR")),)
    answer = replace(the_shop(past.shop.book, Question()), turnover=turnover)
    weeks, _, months = sound(panels_of_shop(answer))  # there is nothing else to show yet
    assert [point.key for point in weeks.series[0].points] == ["2026-03-09"]
    assert (weeks.x.name.key, months.x.name.key) == ("week", "month")
    past.job(past.unit(), 9)
    turnover = (MonthRow(date(2026, 2, 1), Money(900, "EUR")), *turnover)
    answer = replace(the_shop(past.shop.book, Question()), turnover=turnover)
    weeks, _, months = sound(panels_of_shop(answer))
    assert [point.key for point in weeks.series[0].points] == ["2026-03-02"]
    assert [point.y for point in months.series[0].points] == [9.0]
    assert (weeks.x.name.key, months.x.name.key) == ("weeks that are over", "months that are over")
