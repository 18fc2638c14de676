"""Comeback rates of groups, what the shop said of them, and differences between two."""

from __future__ import annotations

import pytest

from app.trade.bench.kinds import ComebackStanding
from app.trade.bench.stages import Outcome
from app.trade.sentence import Sentence
from app.trade.statistics.comebacks import By
from app.trade.statistics.proportions import newcombe, wilson
from app.work.statistics.comeback_rate import comeback_rates
from app.work.statistics.question import Question
from tests.work.past import RADIAL


def repairs(past, count, back, **unit):
    """So many repairs 400 days ago, so many of which came back after 50."""
    keys = []
    for at in range(count):
        here = past.unit(**unit)
        keys.append(past.job(here, 410, 400))
        if at < back:
            past.job(here, 350, outcome=Outcome.DECLINED, left=340)
    return keys


def test_shares_intervals_and_differences_of_two_types(past):
    with past.at_once():
        arms = repairs(past, 12, 6)
        repairs(past, 20, 1, transport="Grellin S1")
    found = comeback_rates(past.shop.book, Question())
    arm, sled = found.rows
    assert (arm.label, arm.could, arm.came_back, arm.undecided, arm.not_counted) == ("Velk A1", 12, 6, 6, 6)
    assert (arm.share, (arm.low, arm.high)) == (0.5, wilson(6, 12))
    assert (arm.apart, (arm.apart_low, arm.apart_high)) == (0.5 - 0.05, newcombe(6, 12, 1, 20))
    assert arm.jobs[:6] == arm.came_back_jobs == tuple(sorted(arms[:6], reverse=True))
    assert set(arm.jobs) == set(arms)
    (pair,) = found.pairs
    assert (pair.first, pair.second, pair.low, pair.high) == (
        "Velk A1",
        "Grellin S1",
        *newcombe(6, 12, 1, 20),
    )
    assert found.headline == Sentence("{group} comes back more often than the rest", {"group": "Velk A1"})
    assert (found.why.n, found.why.events) == (32, 7)
    assert not sled.few


def test_confirmed_denied_and_undecided_are_counted_apart(past):
    with past.at_once():
        for word, ago in ((ComebackStanding.CONFIRMED, 300), (None, 300), (ComebackStanding.DENIED, 300)):
            unit = past.unit()
            first = past.job(unit, 410, 400)
            more = {} if word is None else {"comeback_of_id": first, "comeback": word}
            past.job(unit, ago, **more)
        late = past.unit()
        first = past.job(late, 410, 400)
        past.job(late, 100, comeback_of_id=first, comeback=ComebackStanding.DENIED)
    (row,) = comeback_rates(past.shop.book, Question()).rows
    assert (row.could, row.came_back, row.confirmed, row.undecided, row.denied) == (4, 2, 1, 1, 1)


def test_few_repairs_and_days_that_cannot_be_right_are_said(past):
    unit = past.unit()
    past.job(unit, 700, 590)
    past.job(unit, 600, 580)
    past.job(past.unit(), 20, 10)
    found = comeback_rates(past.shop.book, Question())
    (row,) = found.rows
    assert (row.set_aside, row.too_young, row.few, row.apart) == (1, 1, True, None)
    said = [sentence.key for sentence in found.said]
    assert "1 job was set aside: its days cannot be right." in said
    assert "Of 1 group there are too few repairs to say anything." in said
    assert "Only repairs watched for {days} days count: 1 is too young for that." in said
    assert found.pairs == ()
    past.job(past.unit(transport="Grellin S1"), 20, 10)
    said = [sentence.key for sentence in comeback_rates(past.shop.book, Question()).said]
    assert "Of {few} groups there are too few repairs to say anything." in said
    assert "Only repairs watched for {days} days count: {young} are too young for that." in said


def test_names_are_words_where_the_group_is_a_word(past):
    past.job(past.unit(), 410, 400)
    (row,) = comeback_rates(past.shop.book, Question(by=By.FAULT_GROUP)).rows
    assert row.name == Sentence(RADIAL.value)


@pytest.mark.parametrize("asked", [{}, {"maker": "nobody"}])
def test_nothing_to_count_is_a_sentence(past, asked):
    found = comeback_rates(past.shop.book, Question(**asked))
    assert (found.rows, found.headline.key) == ((), "No repair has been handed back yet.")
    past.job(past.unit(), 410, 400)
    if asked:
        assert comeback_rates(past.shop.book, Question(**asked)).headline.key.startswith("No job fits")
