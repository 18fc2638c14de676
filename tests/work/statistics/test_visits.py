"""The columns of all visits say what the same book says when it is gone through job by job."""

from __future__ import annotations

import pytest
from sqlalchemy import select

from app.book import tables as t
from app.trade.sentence import Sentence
from app.trade.statistics.definition import Followed
from app.work.statistics.ground import ground_of
from app.work.statistics.question import Question
from app.work.statistics.steps import Steps
from app.work.statistics.visits import visits_of
from tests.work.statistics.past_by_lot import a_past_by_lot
from tests.work.statistics.plain_repairs import all_repairs, seen


@pytest.mark.parametrize("seed", [1, 2])
def test_every_repair_is_as_when_the_book_is_gone_through_job_by_job(past, seed):
    book, every = a_past_by_lot(past, seed), []
    with book.ask() as session:
        wrong = session.scalars(select(t.Job.id).where(t.Job.handed_back_at < t.Job.taken_in_at)).all()
    for followed in Followed:
        for same_group in (True, False):
            ground = ground_of(book, Question(followed=followed, same_group=same_group))
            plain = all_repairs(book, same_group=same_group, followed=followed)
            found = list(seen(ground))
            assert found == [one for one in plain.each if one.job_id not in wrong]
            assert ground.wrong == len(wrong) > 0
            every += found
    assert any(one.next_in for one in every)
    assert any(one.denied_in for one in every)
    assert any(one.confirmed for one in every)
    assert any(one.transport_id for one in every)
    assert {one.modified for one in every} == {True, False}


def test_columns_are_gathered_once_while_nobody_changes_a_job(past):
    book = past.shop.book
    job = past.job(past.unit(), 700, 690)

    def gathered():
        with book.ask() as session:
            return visits_of(session, book.zone, Steps(None, 1))

    first = gathered()
    assert gathered() is first
    with book.change(past.shop.ine, Sentence("wrote to a customer")) as change:
        change.add(
            t.JobNote(job_id=job, text="Rang twice.", at=past.at(1), by=past.shop.ine),
        )
    assert gathered() is first
    past.job(past.unit(), 600)
    second = gathered()
    assert second is not first
    assert (len(first.job), len(second.job)) == (1, 2)
