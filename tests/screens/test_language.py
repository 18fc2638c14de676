"""What the window says is worded in one place."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta, timezone
from decimal import Decimal

from app.screens import language
from app.screens.language import clock_time, current, day, moment, money, near_day, number, percent, say, use
from app.trade.money import Money
from app.trade.sentence import Sentence
from app.trade.wording import Wording


def test_a_template_and_a_sentence_are_worded_alike() -> None:
    assert say("{count} flags", count=4) == "4 flags"
    assert say(Sentence("{count} flags", {"count": 4})) == "4 flags"


def test_another_wording_speaks_from_then_on() -> None:
    german = {"Counter": "Annahme"}
    use(Wording(lambda key: german.get(key, key), "de", timezone(timedelta(hours=1))))
    assert say("Counter") == "Annahme"
    assert number(Decimal("0.82")) == "0,82"
    assert clock_time(datetime(2026, 11, 24, 15, 10, tzinfo=UTC)) == "16:10"
    assert current().language == "de"


def test_days_moments_and_money() -> None:
    assert day(date(2026, 11, 27)).replace("\u00a0", " ") == "27 Nov 2026"
    assert near_day(date(2026, 11, 27), date(2026, 11, 25)).replace("\u00a0", " ") == "Fri 27 Nov"
    assert near_day(date(2027, 1, 22), date(2026, 11, 25)).replace("\u00a0", " ") == "Fri 22 Jan 2027"
    assert moment(datetime(2026, 11, 24, 10, 42, tzinfo=UTC)).endswith("10:42")
    assert money(Money(9000, "EUR")).replace("\u00a0", " ") == "90.00 EUR"


def test_a_share_as_per_cent_has_a_space_before_its_sign() -> None:
    assert percent(0.27) == "27\u00a0%"
    assert percent(0.2727, 1) == "27.3\u00a0%"
    assert language.percent(1) == "100\u00a0%"
