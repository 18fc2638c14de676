"""Values of settings in words, as two savers see them side by side."""

from __future__ import annotations

from datetime import UTC, date
from decimal import Decimal

import pytest

from app.screens import language
from app.screens.office.setting_words import value_words
from app.trade.bench.safety_limits import SafetyLimits
from app.trade.calendar.promise import Closed
from app.trade.office.vat import VatCategory, VatRate
from app.trade.settings import (
    ADDRESS_LINES,
    CLOSED_DAYS,
    CURRENCY,
    FLAG_COIL_UP,
    GUARANTEE_WORDS,
    HOURLY_RATE,
    LANGUAGE,
    LOGO,
    NO_ANSWER_DAYS,
    OPEN_DAYS,
    PRICES_WITH_VAT,
    SAFETY_STANDARD,
    SHOP_NAME,
    TERMS,
    VAT_RATES,
)
from app.trade.settings.terms import Term
from app.trade.wording import plain

CASES = [
    (SHOP_NAME, "Lanternfield", "Lanternfield"),
    (LANGUAGE, "de", "German"),
    (CURRENCY, "CHF", "CHF"),
    (LANGUAGE, "eo", "eo"),
    (PRICES_WITH_VAT, True, "yes"),
    (PRICES_WITH_VAT, False, "no"),
    (ADDRESS_LINES, ("Amber Lane 4", "Yard"), "Amber Lane 4, Yard"),
    (HOURLY_RATE, 64_500_000, "64.50"),
    (OPEN_DAYS, frozenset({2, 1}), "Monday, Tuesday"),
    (
        CLOSED_DAYS,
        (Closed(date(2026, 8, 3), date(2026, 8, 21), "away"),),
        "3\u00a0Aug\u00a02026 – 21\u00a0Aug\u00a02026 away",
    ),
    (VAT_RATES, (VatRate(1900), VatRate(0, VatCategory.EXEMPT, "small")), "19\u00a0%, 0\u00a0%, exempt"),
    (TERMS, (Term("Storage", "Two weeks are free."),), "Storage Two weeks are free."),
    (SAFETY_STANDARD, SafetyLimits("EN 50678", "2020"), "EN 50678:2020"),
    (SAFETY_STANDARD, SafetyLimits("", ""), "not named"),
    (LOGO, "ab12", "a picture"),
    (LOGO, "", "No logo"),
    (GUARANTEE_WORDS, "Ask us.", "Ask us."),
    (NO_ANSWER_DAYS, 14, "14"),
    (FLAG_COIL_UP, Decimal("1.08"), "1.08"),
]


@pytest.mark.parametrize(("setting", "value", "said"), CASES)
def test_every_kind_of_value_can_be_read(setting, value, said):
    language.use(plain(UTC))
    assert value_words(setting, value, "EUR") == said


def test_words_that_shipped_are_said_in_the_window_s_language(qapp):
    assert value_words(GUARANTEE_WORDS, GUARANTEE_WORDS.default, "EUR") == language.say(
        GUARANTEE_WORDS.default
    )


def test_a_price_has_as_many_decimals_as_its_money():
    assert value_words(HOURLY_RATE, 6_400_000_000, "JPY") == "6400"
