"""How long repairs last: watched until the comeback or until today, also where the law is known."""

from __future__ import annotations

import math
import random

from app.trade.bench.stages import Outcome
from app.trade.statistics.comebacks import By
from app.trade.statistics.log_rank import log_rank
from app.work.statistics.comeback_rate import comeback_rates
from app.work.statistics.how_long import how_long
from app.work.statistics.over_time import over_time
from app.work.statistics.question import Question
from tests.work.past import SOUND


def test_repairs_are_watched_until_they_come_back_or_until_today(past):
    unit = past.unit()
    first = past.job(unit, 410, 400)
    past.job(unit, 300, 290, outcome=Outcome.DECLINED)
    second = past.job(past.unit(), 110, 100)
    found = how_long(past.shop.book, Question())
    (row,) = found.rows
    assert (row.n, row.came_back, set(row.jobs)) == (2, 1, {first, second})
    assert (row.curve.times, row.curve.at_risk, row.curve.share) == ((100.0,), (2,), (0.5,))
    assert (row.holds, row.median, row.few) == (None, 100.0, True)
    assert (found.marks[0], row.at_risk[0]) == (0.0, 2)
    assert found.headline.key == "Too few repairs to say how long they last"


def test_days_that_cannot_be_right_are_set_aside(past):
    unit = past.unit()
    past.job(unit, 700, 590)
    past.job(unit, 600, 580)
    past.job(past.unit(), 2, -3)
    found = how_long(past.shop.book, Question())
    assert found.why.n == 1
    assert found.said[-1].values == {"count": 2}


def test_groups_are_compared_and_pairs_corrected(past):
    with past.at_once():
        for at in range(12):
            past.job(past.unit(), 410, 400)
            other = past.unit(transport="Grellin S1")
            past.job(other, 410, 400)
            past.job(other, 390 - at)
            past.job(past.unit(), 410, 400, group=SOUND)
    found = how_long(past.shop.book, Question())
    assert found.headline.key == "Not all groups last equally long (log-rank p {p})"
    assert found.test.p < 0.001
    assert found.test == log_rank([([400] * 24, [False] * 24), ([10 + at for at in range(12)], [True] * 12)])
    assert found.pairs == ()
    same = how_long(past.shop.book, Question(transport_type="Velk A1", by=By.FAULT_GROUP))
    assert same.headline.key == "There is no other group to compare with"
    with past.at_once():
        for at in range(12):
            for group in ("radial", "sound"):
                unit = past.unit()
                past.job(unit, 410, 400, group=group)
                past.job(unit, 390 - at, group=group)
            past.job(past.unit(), 410, 400, group="light")
    several = how_long(past.shop.book, Question(transport_type="Velk A1", by=By.FAULT_GROUP))
    assert len(several.pairs) == 3
    assert all(pair.adjusted >= pair.p for pair in several.pairs)
    alone = how_long(past.shop.book, Question(transport_type="Grellin S1"))
    assert alone.headline.key == "There is no other group to compare with"


def test_no_difference_is_said_as_such(past):
    with past.at_once():
        for transport in ("Velk A1", "Grellin S1"):
            for at in range(10):
                unit = past.unit(transport=transport)
                past.job(unit, 410, 400)
                if at < 3:
                    past.job(unit, 350 - at)
    assert how_long(past.shop.book, Question()).headline.key.startswith("No difference between the groups")


def test_nothing_to_watch_is_a_sentence(past):
    assert how_long(past.shop.book, Question()).headline.key == "No repair has been handed back yet."


def test_a_book_with_a_known_law_gives_that_law_back_within_its_band(past):
    """Repairs that fail at a constant rate, on average after 300 days, watched for up to two years."""
    draw = random.Random(300)
    with past.at_once():
        for _ in range(120):
            unit, ago = past.unit(), draw.randint(30, 730)
            past.job(unit, ago + 5, ago)
            fails = round(draw.expovariate(1 / 300))
            if fails <= ago:
                past.job(unit, ago - fails, outcome=Outcome.DECLINED)
    (row,) = how_long(past.shop.book, Question()).rows
    assert row.n == 120
    for days in (60, 180, 365, 500):
        low, high = row.curve.band_at(days)
        assert low <= math.exp(-days / 300) <= high
    (rate,) = comeback_rates(past.shop.book, Question()).rows
    assert rate.low <= 1 - math.exp(-180 / 300) <= rate.high
    assert over_time(past.shop.book, Question()).headline.key == "No trend shown"
