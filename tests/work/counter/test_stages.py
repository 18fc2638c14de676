"""Stages: where a job may go, what holds it, what it waits for and when it is promised."""

from __future__ import annotations

from datetime import date

import pytest

from app.book.tables import CaseEvent, Job
from app.trade.bench.stages import Outcome, Stage, Waiting
from app.trade.refusal import FieldRefusal, Held, Refusal
from app.trade.sentence import Sentence
from app.work.counter.stages import promise_day, set_outcome, set_stage, set_waiting


def of(shop, job_id):
    with shop.book.ask() as session:
        row = session.get_one(Job, job_id)
        session.expunge(row)
        return row


def test_a_job_goes_through_its_stages_and_waits_for_the_customer_once_ready(shop, job, waive):
    waive(job)
    set_stage(shop.book, shop.tobbe, job, Stage.ON_THE_BENCH)
    set_stage(shop.book, shop.tobbe, job, Stage.RUNNING_IN)
    set_stage(shop.book, shop.tobbe, job, Stage.READY)
    row = of(shop, job)
    assert (row.stage, row.waiting, row.ready_at) == (Stage.READY, Waiting.CUSTOMER, shop.clock())


def test_back_from_ready_it_is_not_ready_and_waits_for_nobody(shop, job, waive):
    waive(job)
    set_stage(shop.book, shop.tobbe, job, Stage.READY)
    set_stage(shop.book, shop.tobbe, job, Stage.ON_THE_BENCH)
    row = of(shop, job)
    assert (row.stage, row.waiting, row.ready_at) == (Stage.ON_THE_BENCH, Waiting.NOTHING, None)


def test_what_it_waits_for_is_kept_through_ready_and_back(shop, job, waive):
    waive(job)
    set_waiting(shop.book, shop.tobbe, job, Waiting.PART)
    set_stage(shop.book, shop.tobbe, job, Stage.READY)
    set_stage(shop.book, shop.tobbe, job, Stage.ON_THE_BENCH)
    assert of(shop, job).waiting is Waiting.PART


def test_a_move_that_is_none_is_refused(shop, job):
    with pytest.raises(Refusal, match="already"):
        set_stage(shop.book, shop.tobbe, job, Stage.TAKEN_IN)
    with pytest.raises(Refusal, match="cannot become"):
        set_stage(shop.book, shop.tobbe, job, Stage.RUNNING_IN)
    with pytest.raises(Refusal, match="its own page"):
        set_stage(shop.book, shop.tobbe, job, Stage.HANDED_BACK)


def test_an_opened_mains_player_is_held_until_it_is_tested_and_stays_where_it_was(shop, job):
    with shop.book.change(shop.tobbe, Sentence("opened")) as change:
        change.add(CaseEvent(job_id=job, opened=True, at=change.now, by=change.by))
    set_stage(shop.book, shop.tobbe, job, Stage.ON_THE_BENCH)
    with pytest.raises(Held) as held:
        set_stage(shop.book, shop.tobbe, job, Stage.READY)
    assert "close it, then test" in held.value.reasons[0].key
    assert of(shop, job).stage is Stage.ON_THE_BENCH


def test_another_day_is_promised_only_when_the_shop_is_open(shop, job):
    promise_day(shop.book, shop.mirr, job, date(2026, 3, 26), " 17:00 ")
    assert (of(shop, job).promised_on, of(shop, job).promised_time) == (date(2026, 3, 26), "17:00")
    with pytest.raises(FieldRefusal) as refusal:
        promise_day(shop.book, shop.mirr, job, date(2026, 3, 28), "x" * 21)
    assert set(refusal.value.fields) == {"promised_on", "promised_time"}
    promise_day(shop.book, shop.mirr, job, None, "17:00")
    assert (of(shop, job).promised_on, of(shop, job).promised_time) == (None, "")


def test_a_day_that_has_passed_may_keep_standing_while_its_time_changes(shop, job):
    shop.clock.advance(days=20)
    promise_day(shop.book, shop.mirr, job, date(2026, 3, 20), "12:00")
    assert of(shop, job).promised_time == "12:00"


def test_the_outcome_can_be_said_before_the_end(shop, job):
    set_outcome(shop.book, shop.tobbe, job, Outcome.DECLINED)
    assert of(shop, job).outcome is Outcome.DECLINED
