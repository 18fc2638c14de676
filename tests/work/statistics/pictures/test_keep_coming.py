"""Players that keep coming, drawn: mean curves, and bars of those with most visits."""

from __future__ import annotations

from dataclasses import replace

from app.trade.statistics.definition import Followed
from app.work.statistics.keep_coming import keep_coming
from app.work.statistics.pictures.keep_coming import panels_of_keep_coming
from app.work.statistics.question import Question


def test_the_mean_rises_with_each_visit_and_the_most_frequent_stand_below(past, sound):
    often = past.unit()
    past.job(often, 810, 800)
    past.job(often, 700, 690)
    past.job(often, 500, 490)
    past.job(past.unit(), 810, 800)
    answer = keep_coming(past.shop.book, Question())
    curves, bars = sound(panels_of_keep_coming(answer))
    (curve,) = curves.curves
    assert (curve.x, curve.y, curve.until) == ((0.0, 100.0, 300.0), (0.0, 0.5, 1.0), 800.0)
    assert (curve.low[0], curve.high[1:]) == (0.0, answer.rows[0].curve.high)
    assert curve.told.values["second"].key.startswith("Within {days} days {mean} for each (95 %")
    assert curves.x.most >= 800.0
    assert (curves.marks, curve.at_risk) == (answer.marks, answer.rows[0].at_risk)
    (bar,) = bars.bars
    assert (bar.value, bar.jobs) == (3.0, answer.most[0].jobs)
    assert bar.name.values == {"name": "Quellmar Larch 2", "serial": "1"}
    assert bars.title.key == "Players with most visits"


def test_one_player_has_no_band_and_one_that_came_the_same_day_starts_with_a_step(past, sound):
    unit = past.unit()
    past.job(unit, 410, 400)
    past.job(unit, 400, 390)
    answer = keep_coming(past.shop.book, Question(followed=Followed.TRANSPORT))
    curves, bars = sound(panels_of_keep_coming(answer))
    (curve,) = curves.curves
    assert (curve.x, curve.y, curve.low) == ((0.0,), (1.0,), ())
    assert curve.told.values["second"].key == "Within {days} days {mean} for each."
    assert (bars.title.key, bars.bars[0].name) == ("Transports with most visits", "Velk A1")
    assert curves.title.key == "Mean number of later visits of a transport"


def test_without_a_later_visit_there_is_a_level_curve_and_no_bars(past, sound):
    past.job(past.unit(), 12, 2)
    past.job(past.unit(), 12, 2)
    answer = keep_coming(past.shop.book, Question())
    (curves,) = sound(panels_of_keep_coming(answer))
    assert (curves.curves[0].x, curves.curves[0].y) == ((0.0,), (0.0,))
    assert curves.curves[0].told.values["second"].key == "None was watched for a year."
    rows = tuple(replace(answer.rows[0], label=f"type {at}") for at in range(9))
    (panel,) = sound(panels_of_keep_coming(replace(answer, rows=rows)))
    assert len(panel.curves) == 3
