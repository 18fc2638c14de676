"""The day that jobs like it needed, offered where a player is taken in."""

from __future__ import annotations

from datetime import date
from types import SimpleNamespace

import pytest

from app.trade.bench.kinds import FaultGroup
from app.trade.calendar.promise import ShopCalendar
from app.trade.counter.fault_words import FaultWord, ReportedFault
from app.work.counter import promise_offer as module
from app.work.counter.promise_offer import promise_offer
from tests.work.past import Past

SKIPS, NO_SOUND = (ReportedFault(FaultWord.SKIPS),), (ReportedFault(FaultWord.NO_SOUND),)


@pytest.fixture
def past(shop):
    """Ten jobs with a Velk A1 that skipped, ready after a day; six without sound that took eight days."""
    past = Past(shop)
    with past.at_once():
        for _ in range(10):
            past.job(past.unit(), 45, 10, ready_at=past.at(44))
        for _ in range(6):
            past.job(past.unit(), 45, 10, group=FaultGroup.SOUND, ready_at=past.at(37))
        past.job(past.unit(transport="Grellin S1"), 45, 10, group=FaultGroup.SOUND, ready_at=past.at(37))
        past.job(past.unit(transport=None), 3)
        past.job(past.unit(), 900, 890, ready_at=past.at(899))  # too long ago
    return past


def said(offer):
    return offer.help.n, offer.help.working_days, offer.of_what.key, dict(offer.of_what.values), offer.day


def test_type_and_fault_come_first(past):
    book, velk = past.shop.book, past.types["Velk A1"]
    assert said(promise_offer(book, velk, SKIPS)) == (
        10,
        1,
        "{n} jobs of the last two years with {type} and such a fault",
        {"n": 10, "type": "Velk A1"},
        date(2026, 3, 13),
    )


def test_where_they_are_too_few_it_leans_on_more(past):
    book, velk = past.shop.book, past.types["Velk A1"]
    assert said(promise_offer(book, velk, NO_SOUND))[:3] == (
        16,
        6,
        "{n} jobs of the last two years with {type}",
    )
    assert said(promise_offer(book, past.types["Grellin S1"], NO_SOUND))[:3] == (
        17,
        6,
        "{n} jobs of the last two years",
    )
    assert said(promise_offer(book, None, SKIPS))[:3] == (
        10,
        1,
        "{n} jobs of the last two years with such a fault",
    )
    assert said(promise_offer(book))[:3] == (17, 6, "{n} jobs of the last two years")
    assert promise_offer(book, 999, SKIPS).help.n == 10  # a type that is gone narrows nothing


def test_a_young_book_says_nothing(shop):
    assert promise_offer(shop.book) is None
    past = Past(shop)
    past.job(past.unit(), 45, 10, ready_at=past.at(44))
    assert promise_offer(shop.book, past.types["Velk A1"], SKIPS) is None


def test_without_an_open_day_nothing_is_offered(past, monkeypatch):
    shut = SimpleNamespace(calendar=ShopCalendar(frozenset()))
    monkeypatch.setattr(module, "settings_of", lambda session: shut)
    assert promise_offer(past.shop.book) is None
