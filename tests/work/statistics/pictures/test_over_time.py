"""Better or worse over time, drawn: quarters between their limits."""

from __future__ import annotations

from datetime import date

from app.trade.statistics.picture import Ink
from app.work.statistics.over_time import over_time
from app.work.statistics.pictures.over_time import panels_over_time
from app.work.statistics.question import Question


def test_a_quarter_stands_at_its_middle_with_its_own_limits(past, sound):
    with past.at_once():
        for at in range(60):
            for ago, back in ((400, 3), (720, 30), (1400, 0)):
                unit = past.unit()
                past.job(unit, ago + 10, ago)
                if at < back:
                    past.job(unit, ago - 50)
        past.job(past.unit(), 310, 300)
    answer = over_time(past.shop.book, Question())
    (panel,) = sound(panels_over_time(answer))
    quarters = [row for row in answer.rows if row.share is not None]
    assert len(quarters) == len(panel.series[0].points) == 4 < len(answer.rows)
    first, worst, later, few = panel.series[0].points
    assert date.fromordinal(int(worst.x)) == date(2024, 2, 15)
    assert (worst.y, worst.low, worst.high) == (0.5, quarters[1].low, quarters[1].high)
    assert (first.ink, worst.ink, later.ink, few.ink) == (Ink.LESS, Ink.MORE, Ink.PLAIN, Ink.FAINT)
    assert worst.told.values["second"].key == "It lies above the limits."
    assert first.told.values["second"].key == "It lies below the limits."
    quarter = worst.told.values["first"].values["quarter"].values
    assert (quarter["number"], quarter["year"]) == (1, 2024)
    assert (panel.x.least, panel.x.most) == (
        date(2022, 4, 1).toordinal(),
        date(2025, 7, 1).toordinal(),
    )
    assert (panel.centre, worst.jobs) == (answer.centre, quarters[1].jobs)


def test_nothing_is_drawn_while_no_repair_was_watched_long_enough(past):
    past.job(past.unit(), 12, 2)
    assert panels_over_time(over_time(past.shop.book, Question())) == ()
