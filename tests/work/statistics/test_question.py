"""The shop's own definition in a question."""

from __future__ import annotations

from app.trade.settings.comebacks import COMEBACK_DECLINED, COMEBACK_FOLLOWS
from app.trade.settings.terms import COMEBACK_WINDOW
from app.trade.statistics.definition import Definition, Followed
from app.work.office.settings import change_settings
from app.work.statistics.question import Question, shop_question


def test_the_shops_definition_fills_what_was_not_asked(shop):
    assert shop_question(shop.book) == Question()
    change_settings(
        shop.book,
        shop.ine,
        {COMEBACK_WINDOW: 90, COMEBACK_FOLLOWS: Followed.TRANSPORT.value, COMEBACK_DECLINED: True},
    )
    asked = shop_question(shop.book, window=30)
    assert asked.definition == Definition(window=30, followed=Followed.TRANSPORT, declined=True)
    assert asked.but(window=365).window == 365
