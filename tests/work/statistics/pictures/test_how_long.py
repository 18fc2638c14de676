"""How long repairs last, drawn: steps, bands, who is still watched, the window."""

from __future__ import annotations

from dataclasses import replace

from app.trade.statistics.picture import Ink
from app.work.statistics.how_long import how_long
from app.work.statistics.pictures.how_long import panels_of_how_long
from app.work.statistics.question import Question


def test_a_curve_begins_at_one_and_steps_down_to_its_longest_watch(past, sound):
    with past.at_once():
        for at in range(12):
            unit = past.unit()
            past.job(unit, 410, 400)
            if at < 7:
                past.job(unit, 390 - 10 * at)
    answer = how_long(past.shop.book, Question())
    (panel,) = sound(panels_of_how_long(answer))
    (curve,) = panel.curves
    row = answer.rows[0]
    assert (curve.x[:2], curve.y[:2]) == ((0.0, 10.0), (1.0, 11 / 12))
    assert (curve.low[0], curve.high[0]) == row.curve.band_at(0.0)
    assert (curve.until, curve.low[1:], curve.ink) == (400.0, row.curve.low, Ink.PLAIN)
    assert (panel.marks, curve.at_risk) == (answer.marks, row.at_risk)
    assert (panel.guide, panel.guide_name.values["n"]) == (180.0, 180)
    told = curve.told.values
    assert told["second"].key == "By day {days} half had come back."
    assert told["first"].values["second"].values["days"] == 180
    assert (panel.x.most, panel.y.least, panel.y.most) == (answer.marks[-1], 0.0, 1.0)


def test_who_came_back_at_once_and_who_was_watched_too_short(past, sound):
    unit = past.unit()
    past.job(unit, 20, 10)
    past.job(unit, 10)
    past.job(past.unit(), 20, 9)
    answer = how_long(past.shop.book, Question())
    (panel,) = sound(panels_of_how_long(answer))
    (curve,) = panel.curves
    assert (curve.x, curve.y, curve.ink) == ((0.0,), (0.5,), Ink.FAINT)
    assert (panel.guide, panel.guide_name) == (None, None)
    assert curve.told.values["first"].values["second"].key == "None was watched for {days} days."


def test_a_repair_handed_back_today_is_drawn_as_well(past, sound):
    past.job(past.unit(), 2, 0)
    (panel,) = sound(panels_of_how_long(how_long(past.shop.book, Question())))
    assert (panel.x.most, panel.curves[0].until) == (1.0, 0.0)
    assert panel.curves[0].told.values["second"].key == "More than half have not come back."


def test_the_axis_begins_at_a_half_where_no_band_comes_down_to_it(past, sound):
    with past.at_once():
        for _ in range(40):
            past.job(past.unit(), 410, 400)
        again = past.unit()
        past.job(again, 410, 400)
        past.job(again, 300)
    (panel,) = sound(panels_of_how_long(how_long(past.shop.book, Question())))
    assert min(panel.curves[0].low) > 0.5
    assert panel.y.least == 0.5


def test_of_many_groups_the_largest_are_drawn_and_the_title_says_so(past, sound):
    past.job(past.unit(), 410, 400)
    answer = how_long(past.shop.book, Question())
    rows = tuple(replace(answer.rows[0], label=f"type {at}", few=False) for at in range(40))
    (panel,) = sound(panels_of_how_long(replace(answer, rows=rows)))
    assert len(panel.curves) == 6
    assert panel.title.values["all"] == 40
