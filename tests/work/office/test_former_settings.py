"""How settings stood before each change."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from app.trade.money import MICRO
from app.trade.settings import FLAG_COIL_HOT, FLAG_COIL_UP, HOURLY_RATE, NO_ANSWER_DAYS, Group
from app.work.office.former_settings import former_settings
from app.work.office.settings import change_settings


def test_a_threshold_tells_who_changed_it_from_what_and_its_first_value_is_the_default(shop: Any) -> None:
    change_settings(shop.book, shop.ine, {FLAG_COIL_UP: Decimal("1.05")})
    change_settings(shop.book, shop.ine, {FLAG_COIL_UP: Decimal("1.08"), FLAG_COIL_HOT: Decimal(35)})
    changes = former_settings(shop.book, Group.BENCH)
    later, first = (one for one in changes if one.before[0] is FLAG_COIL_UP)
    (hot,) = (one for one in changes if one.before[0] is FLAG_COIL_HOT)
    assert (first.by, first.before, first.after) == (
        "Ine Varloes",
        (FLAG_COIL_UP, FLAG_COIL_UP.default),
        (FLAG_COIL_UP, Decimal("1.05")),
    )
    assert (later.before[1], later.after[1]) == (Decimal("1.05"), Decimal("1.08"))
    assert hot.before == (FLAG_COIL_HOT, Decimal(40))


def test_each_group_tells_its_own_newest_first(shop: Any) -> None:
    change_settings(shop.book, shop.mirr, {NO_ANSWER_DAYS: 3})
    change_settings(shop.book, shop.ine, {HOURLY_RATE: 64 * MICRO})
    change_settings(shop.book, shop.sanna, {NO_ANSWER_DAYS: 5})
    newest, oldest = former_settings(shop.book, Group.COUNTER)
    assert (newest.by, newest.before[1], newest.after[1]) == ("Sanna Wickerel", 3, 5)
    assert (oldest.by, oldest.before[1]) == ("Mirr Quistan", NO_ANSWER_DAYS.default)
    assert [one.before[1] for one in former_settings(shop.book, Group.MONEY)] == [0]
    assert former_settings(shop.book, Group.SAFETY) == ()
