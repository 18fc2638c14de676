"""What was written down at the counter can be put right, and only that."""

from __future__ import annotations

import pytest

from app.book.tables import Job
from app.trade.bench.kinds import TransitLock
from app.trade.refusal import FieldRefusal, StaleRow
from app.work.counter.intake_changes import IntakeChanges, change_intake, note_shelf


def of(shop, job_id):
    with shop.book.ask() as session:
        row = session.get_one(Job, job_id)
        session.expunge(row)
        return row


def test_only_what_is_given_changes_and_the_short_fault_follows(shop, job):
    changes = IntakeChanges(
        fault="Stops when warm. A tap helps.", transit_lock=TransitLock.RELEASED, opened_before=False
    )
    change_intake(shop.book, shop.mirr, job, of(shop, job).version, changes)
    row = of(shop, job)
    assert (row.fault, row.fault_short) == ("Stops when warm. A tap helps.", "Stops when warm")
    assert (row.transit_lock, row.opened_before, row.screws_missing) == (TransitLock.RELEASED, False, None)
    change_intake(shop.book, shop.mirr, job, row.version, IntakeChanges(marks=" lid scuffed "))
    assert (of(shop, job).marks, of(shop, job).fault_short) == ("lid scuffed", "Stops when warm")


def test_the_second_saver_is_told(shop, job):
    version = of(shop, job).version
    change_intake(shop.book, shop.mirr, job, version, IntakeChanges(smell="burnt"))
    with pytest.raises(StaleRow):
        change_intake(shop.book, shop.mirr, job, version, IntakeChanges(smell="none"))


def test_what_cannot_be_right_is_named_by_field(shop, job):
    with pytest.raises(FieldRefusal) as refusal:
        change_intake(
            shop.book, shop.mirr, job, of(shop, job).version, IntakeChanges(shelf="x" * 21, rust="a\x00b")
        )
    assert set(refusal.value.fields) == {"shelf", "rust"}


def test_a_player_is_put_on_another_shelf(shop, job):
    note_shelf(shop.book, shop.tobbe, job, " C 4 ")
    assert of(shop, job).shelf == "C 4"
    with pytest.raises(FieldRefusal):
        note_shelf(shop.book, shop.tobbe, job, "x" * 21)
