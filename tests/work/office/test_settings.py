"""Settings: who may change them, what is kept, and two people at once."""

from __future__ import annotations

from datetime import date

import pytest

from app.book.tables import SettingKept
from app.trade.bench.kinds import Means
from app.trade.bench.stages import Mark
from app.trade.money import MICRO, Money
from app.trade.refusal import FieldRefusal, Refusal, StaleRow
from app.trade.settings import CURRENCY, HOURLY_RATE, LANGUAGE, NO_ANSWER_DAYS, SHOP_NAME, TIME_ZONE
from app.work.office.payments import take_payment
from app.work.office.settings import change_settings, shop_settings
from app.work.people.staff import add_staff, end_mark, give_mark, staff_card


def kept(shop):
    with shop.book.ask() as session:
        return {row.key: row.value for row in session.query(SettingKept)}


def test_only_what_differs_from_the_default_is_kept(shop):
    done = change_settings(shop.book, shop.ine, {SHOP_NAME: "Lanternfield Workshop", HOURLY_RATE: 0})
    assert kept(shop) == {"shop_name": "Lanternfield Workshop"}
    assert done.value[SHOP_NAME] == shop_settings(shop.book)[SHOP_NAME] == "Lanternfield Workshop"
    assert "settings" in done.changes.kinds


def test_a_setting_put_back_to_its_default_is_kept_as_that(shop):
    change_settings(shop.book, shop.ine, {HOURLY_RATE: 64 * MICRO})
    change_settings(shop.book, shop.ine, {HOURLY_RATE: 0})
    assert shop_settings(shop.book)[HOURLY_RATE] == 0


def test_saving_the_same_again_writes_no_history(shop):
    change_settings(shop.book, shop.ine, {SHOP_NAME: "Lanternfield"})
    assert not change_settings(shop.book, shop.ine, {SHOP_NAME: "Lanternfield"}).changes


def test_only_the_owner_changes_what_is_the_owners(shop):
    with pytest.raises(Refusal, match="Only the owner"):
        change_settings(shop.book, shop.mirr, {HOURLY_RATE: MICRO})
    change_settings(shop.book, shop.mirr, {NO_ANSWER_DAYS: 3})
    assert kept(shop) == {"no_answer_days": 3}


def test_an_owner_whose_mark_has_ended_changes_nothing(shop):
    other = add_staff(shop.book, shop.ine, "Odile Varenne").value
    give_mark(shop.book, shop.ine, other, Mark.OWNER, proof="deed", dated=date(2026, 1, 1))
    mark = staff_card(shop.book, other).proofs[0].id
    end_mark(shop.book, shop.ine, mark, date(2026, 3, 11))
    with pytest.raises(Refusal, match="Only the owner"):
        change_settings(shop.book, other, {HOURLY_RATE: MICRO})


def test_what_cannot_be_right_is_refused_by_its_key(shop):
    with pytest.raises(FieldRefusal) as refusal:
        change_settings(shop.book, shop.ine, {TIME_ZONE: "Nowhere/At all", HOURLY_RATE: -1})
    assert set(refusal.value.fields) == {"time_zone", "hourly_rate"}
    assert kept(shop) == {}


def test_another_time_zone_moves_the_shops_day_at_once(shop):
    shop.clock.instant = shop.clock.instant.replace(hour=22, minute=30)
    assert shop.book.today() == date(2026, 3, 12)
    change_settings(shop.book, shop.ine, {TIME_ZONE: "Asia/Tokyo"})
    assert shop.book.today() == date(2026, 3, 13)


def test_the_second_saver_of_the_same_setting_sees_both_values(shop):
    seen = shop_settings(shop.book)
    change_settings(shop.book, shop.ine, {SHOP_NAME: "Lanternfield"}, seen=seen)
    with pytest.raises(StaleRow) as stale:
        change_settings(shop.book, shop.ine, {SHOP_NAME: "Lantern Field"}, seen=seen)
    assert (stale.value.theirs, stale.value.mine) == (
        {"shop_name": "Lanternfield"},
        {"shop_name": "Lantern Field"},
    )
    assert shop_settings(shop.book)[SHOP_NAME] == "Lanternfield"


def test_two_who_change_different_settings_do_not_meet(shop):
    seen = shop_settings(shop.book)
    change_settings(shop.book, shop.ine, {SHOP_NAME: "Lanternfield"}, seen=seen)
    change_settings(shop.book, shop.ine, {HOURLY_RATE: MICRO}, seen=seen)
    change_settings(shop.book, shop.ine, {SHOP_NAME: "Lanternfield"}, seen=seen)  # both want the same
    assert kept(shop) == {"shop_name": "Lanternfield", "hourly_rate": MICRO}


def test_the_currency_can_be_changed_until_money_is_in_the_book(worked):
    """Amounts are kept in minor units: 100 euros and one cent would read as 10001 yen."""
    change_settings(worked.book, worked.who, {CURRENCY: "CHF"})
    change_settings(worked.book, worked.who, {CURRENCY: "EUR"})
    take_payment(worked.book, worked.who, worked.job, Money(1000, "EUR"), Means.CASH)
    with pytest.raises(FieldRefusal) as refusal:
        change_settings(worked.book, worked.who, {CURRENCY: "CHF"})
    assert refusal.value.fields[CURRENCY.key].values == {"currency": "EUR"}
    change_settings(worked.book, worked.who, {CURRENCY: "EUR", LANGUAGE: "de"})  # it stays what it is
    assert shop_settings(worked.book)[LANGUAGE] == "de"
