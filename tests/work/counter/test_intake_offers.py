"""What the empty form offers."""

from __future__ import annotations

from datetime import date

from app.book.tables import TransportType
from app.trade.bench.kinds import Arrangement
from app.trade.calendar.promise import Closed
from app.trade.money import MICRO, Money
from app.trade.sentence import Sentence
from app.trade.settings.papers_and_days import CLOSED_DAYS, PROMISE_DAYS
from app.trade.settings.prices import CURRENCY, DIAGNOSIS_FEE
from app.work.counter.intake_offers import intake_offers
from app.work.office.settings import change_settings


def test_a_new_book_offers_the_first_number_and_a_working_day(shop):
    offers = intake_offers(shop.book)
    assert offers.number == 1001
    assert offers.promised == date(2026, 3, 23)  # seven working days after Thursday the 12th
    assert (offers.diagnosis_fee, offers.players, offers.shelves) == (None, (), ())


def test_it_offers_what_the_book_has_seen(shop, take_in):
    take_in(shelf="C 4")
    take_in(serial="2", shelf="A 1")
    take_in(serial="3", maker="Ostrind", model="Osier 7")
    with shop.book.change(shop.ine, Sentence("types")) as change:
        change.add(TransportType(name="Velk A1", arrangement=Arrangement.SWING_ARM, has_transit_lock=True))
        change.add(TransportType(name="Drevvo S8", arrangement=Arrangement.SLED, retired=True))
    change_settings(shop.book, shop.ine, {DIAGNOSIS_FEE: 45 * MICRO, PROMISE_DAYS: 2})
    offers = intake_offers(shop.book)
    assert offers.number == 1004
    assert offers.players == (("Quellmar", "Larch 2"), ("Ostrind", "Osier 7"))
    assert offers.shelves == ("A 1", "C 4")
    assert [kind.name for kind in offers.transport_types] == ["Velk A1"]
    assert offers.diagnosis_fee == Money(4500, "EUR")
    assert offers.promised == date(2026, 3, 16)


def test_a_fee_in_a_currency_without_cents_keeps_its_amount(shop):
    change_settings(shop.book, shop.ine, {DIAGNOSIS_FEE: 4500 * MICRO, CURRENCY: "JPY"})
    assert intake_offers(shop.book).diagnosis_fee == Money(4500, "JPY")


def test_a_shop_that_never_opens_promises_nothing(shop):
    closed = tuple(Closed(date(year, 1, 1), date(year, 12, 31)) for year in (2026, 2027, 2028))
    change_settings(shop.book, shop.ine, {CLOSED_DAYS: closed})
    assert intake_offers(shop.book).promised is None
