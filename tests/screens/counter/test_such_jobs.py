"""How long such jobs took, said while a player is taken in; the day is put in by one key and never by itself."""

from __future__ import annotations

from datetime import date

import pytest
from PySide6.QtCore import Qt

from app.trade.counter.fault_words import FaultWord, ReportedFault
from tests.work.past import Past


@pytest.fixture
def past(shop):
    """Ten jobs that were ready after seven days."""
    past = Past(shop)
    with past.at_once():
        for _ in range(10):
            past.job(past.unit(), 45, 10, ready_at=past.at(38))
    return past


def test_the_day_is_offered_and_taken_by_its_key(counter, past):
    page = counter.open("take_in")
    such, field = page.fields.such_jobs, page.fields.promised_on
    proposed = field.day()
    assert such.isVisibleTo(page)
    assert such.words.text() == (
        "8 of 10 such jobs were ready within 5 working days (10 jobs of the last two years)."
    )
    page.fields.transport_type.set_value(past.types["Velk A1"])
    page.fields.faults.set_value([ReportedFault(FaultWord.SKIPS)])
    page.fields.faults.changed.emit()
    counter.settle()
    assert "with Velk A1 and such a fault" in such.words.text()
    assert field.day() == proposed
    assert such.button.text() == "Promise Thu\u00a019\u00a0Mar"
    counter.press(Qt.Key.Key_D, Qt.KeyboardModifier.ControlModifier)
    assert field.day() == date(2026, 3, 19)
    assert not such.button.isVisibleTo(page)
    counter.type_into(field.edit, " ")
    field.set_day(proposed)
    assert such.button.isVisibleTo(page)


def test_a_young_book_says_nothing_and_the_key_does_nothing(counter):
    page = counter.open("take_in")
    such, before = page.fields.such_jobs, page.fields.promised_on.day()
    assert not such.isVisibleTo(page)
    such.take()
    assert page.fields.promised_on.day() == before
