"""Why a group's comeback rate is what it is."""

from __future__ import annotations

import pytest

from app.trade.bench.kinds import FaultGroup
from app.trade.statistics.comebacks import By
from app.work.statistics.comeback_rate import comeback_rates
from app.work.statistics.group_reasons import parted_again, rates_of
from app.work.statistics.question import Question

LIGHT, RADIAL = FaultGroup.LIGHT, FaultGroup.RADIAL


def test_the_rates_of_an_answer_say_what_its_rows_say(past):
    for back in (True, False, False):
        unit = past.unit()
        past.job(unit, 700, 690)
        if back:
            past.job(unit, 600)
    past.job(past.unit(transport="Grellin S1"), 700, 690)
    answer = comeback_rates(past.shop.book, Question())
    found = rates_of(answer)
    assert list(found) == [row.label for row in answer.rows]
    for row in answer.rows:
        rate = found[row.label]
        assert (rate.counted.could, rate.counted.came_back) == (row.could, row.came_back)
        assert (rate.share, rate.low, rate.high) == (row.share, row.low, row.high)
        assert (rate.p, rate.adjusted, rate.verdict) == (row.p, row.adjusted, row.verdict)


@pytest.mark.parametrize(
    ("asked", "by", "labels"),
    [
        ({}, By.FAULT_GROUP, {"radial", "light"}),
        ({"group": LIGHT}, By.MODIFICATION, {"without"}),
        ({"by": By.FAULT_GROUP}, By.TRANSPORT_TYPE, {"Velk A1"}),
        ({"by": By.FAULT_GROUP, "transport_type": "Velk A1"}, By.MODIFICATION, {"without"}),
        ({"by": By.MAKER, "transport_type": "Velk A1"}, By.FAULT_GROUP, {"radial", "light"}),
    ],
)
def test_a_group_is_parted_by_what_it_is_neither_parted_nor_filtered_by(past, asked, by, labels):
    unit = past.unit()
    past.job(unit, 700, 690)
    past.job(unit, 600, 590)
    past.job(past.unit(), 700, 690, group=LIGHT)
    past.job(past.unit(transport="Grellin S1"), 30, 20)  # of another type and too young to count
    question = Question(**asked)
    row = comeback_rates(past.shop.book, question).rows[0]
    found = parted_again(past.shop.book, question, row)
    assert found.by is by
    assert {rate.label for rate in found.parts} == labels
    assert sum(rate.counted.could for rate in found.parts) == row.could
    assert sum(rate.counted.came_back for rate in found.parts) == row.came_back
