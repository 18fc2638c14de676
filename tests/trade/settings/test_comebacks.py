"""The settings of what counts as a comeback."""

from __future__ import annotations

from app.trade.settings.comebacks import COMEBACK_FOLLOWS, COMEBACK_SETTINGS
from app.trade.settings.shop_settings import SETTINGS
from app.trade.statistics.definition import Followed


def test_the_shop_may_set_each_part_of_the_definition():
    assert all(SETTINGS[setting.key] is setting for setting in COMEBACK_SETTINGS)
    assert [value for value, _ in COMEBACK_FOLLOWS.choices] == [one.value for one in Followed]
    assert COMEBACK_FOLLOWS.check("the weather") is not None
