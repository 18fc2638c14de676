"""The shop's settings: declared once, kept as JSON, checked before they are kept."""

from __future__ import annotations

import contextlib
import json
from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.bench.safety_limits import PROPOSED, CordRule, SafetyLimits
from app.trade.bench.thresholds import DEFAULTS
from app.trade.calendar.promise import Closed
from app.trade.money import MICRO
from app.trade.office.vat import VatCategory, VatRate
from app.trade.refusal import Fault
from app.trade.settings import (
    ADDRESS_LINES,
    BANK_LINES,
    CALIBRATION_GRACE,
    CALLING_CODE,
    CLOSED_DAYS,
    COMEBACK_WINDOW,
    COUNTRY,
    CURRENCY,
    DIAGNOSIS_FEE,
    EMAIL,
    FLAG_COIL_UP,
    FLAG_COIL_UP_BIG,
    FLAG_LASER_UP,
    FLAG_PILE,
    GUARANTEE_DAYS,
    GUARANTEE_WORDS,
    HOURLY_RATE,
    INVOICE_SERIES,
    LANGUAGE,
    LOGO,
    OPEN_DAYS,
    PAGE_SIZE,
    PHONE,
    PRICES_WITH_VAT,
    SAFETY_STANDARD,
    SETTINGS,
    SHOP_NAME,
    TERMS,
    TIME_ZONE,
    VAT_ID,
    VAT_RATES,
    Setting,
    ShopSettings,
    Term,
    Who,
    check_changes,
    fill,
    needing,
)
from app.trade.settings.prices import currency_refused
from app.trade.settings.thresholds import thresholds_of

ENTERED = SafetyLimits("EN 50678", "2020", PROPOSED.protective_conductor, Decimal(1_000_000))

OTHER_VALUES: dict[Setting[Any], Any] = {
    SHOP_NAME: "Lanternfield Workshop",
    ADDRESS_LINES: ("3 Mossgate Quay",),
    COUNTRY: "GB",
    PHONE: "+44 1632 960 017",
    CALLING_CODE: "44",
    EMAIL: "desk@lanternfield.example",
    VAT_ID: "GB000000000",
    LOGO: "ab" * 32,
    CURRENCY: "GBP",
    VAT_RATES: (VatRate(2000), VatRate(0, VatCategory.EXEMPT, "small business")),
    PRICES_WITH_VAT: True,
    HOURLY_RATE: 62 * MICRO,
    INVOICE_SERIES: "R",
    LANGUAGE: "de",
    PAGE_SIZE: "Letter",
    TIME_ZONE: "Europe/London",
    OPEN_DAYS: frozenset({2, 3, 4, 5, 6}),
    CLOSED_DAYS: (Closed(date(2026, 12, 24), date(2027, 1, 1), "Christmas"),),
    TERMS: (Term("Looking", "costs {diagnosis_fee}."), Term("", "{unknown} & <b>")),
    GUARANTEE_DAYS: 181,
    GUARANTEE_WORDS: "Until {until}.\nOn parts.",
    COMEBACK_WINDOW: 90,
    SAFETY_STANDARD: ENTERED,
    FLAG_COIL_UP: Decimal("1.05"),
    FLAG_PILE: 2,
}


def test_every_default_can_be_right_and_survives_being_kept() -> None:
    shop = ShopSettings()
    for setting in SETTINGS.values():
        assert setting.check(setting.default) is None
        kept = json.loads(json.dumps(setting.to_plain(setting.default)))
        assert setting.from_plain(kept) == setting.default
        assert shop[setting] == setting.default
        assert setting.label.key
        assert setting.kind
    assert shop.to_plain() == {}
    assert list(shop) == []


def test_every_changed_value_survives_being_kept() -> None:
    assert check_changes(ShopSettings(), OTHER_VALUES) == {}
    shop = ShopSettings().with_changes(OTHER_VALUES)
    kept = json.loads(json.dumps(shop.to_plain(), sort_keys=True))
    again = ShopSettings.from_plain(kept)
    for setting, value in OTHER_VALUES.items():
        assert again[setting] == value
    assert set(again) == set(OTHER_VALUES)
    assert again.calendar.is_open(date(2026, 11, 28))
    assert not again.calendar.is_open(date(2026, 12, 25))


def test_a_value_put_back_to_its_default_is_not_kept() -> None:
    shop = ShopSettings({LANGUAGE: "de"}).with_changes({LANGUAGE: "en"})
    assert shop.to_plain() == {}


def test_a_row_that_no_program_wrote_is_a_fault() -> None:
    with pytest.raises(Fault, match="does not know"):
        ShopSettings.from_plain({"colour_of_the_door": "green"})
    with pytest.raises(Fault, match="guarantee_days"):
        ShopSettings.from_plain({"guarantee_days": "many"})


@pytest.mark.parametrize("setting", SETTINGS.values(), ids=lambda setting: setting.key)
@pytest.mark.parametrize("plain", [None, {}, {"a": 1}, [1, [2]], [["x"]], 1.5, True, "\x00", -1])
def test_rubbish_in_the_book_is_refused_or_read_as_a_value(setting: Setting[Any], plain: Any) -> None:
    value: Any = None
    with contextlib.suppress(ValueError):
        value = setting.from_plain(plain)
    if value is None:
        with pytest.raises(ValueError, match=setting.key):
            setting.from_plain(plain)
    else:
        assert setting.from_plain(setting.to_plain(value)) == value


@pytest.mark.parametrize("number", ["NaN", "Infinity", "1.1.1", ""])
def test_a_kept_number_is_a_finite_number(number: str) -> None:
    with pytest.raises(ValueError, match="flag_coil_up"):
        FLAG_COIL_UP.from_plain(number)


def test_kept_limits_that_cannot_be_limits_are_refused() -> None:
    plain = {**SAFETY_STANDARD.to_plain(ENTERED), "protective_conductor": ["-1", "5", "0.1", "7.5", "1.0"]}
    with pytest.raises(ValueError, match="safety_standard"):
        SAFETY_STANDARD.from_plain(plain)


@pytest.mark.parametrize(
    ("setting", "value"),
    [
        (SHOP_NAME, "x" * 61),
        (SHOP_NAME, "a\x07"),
        (ADDRESS_LINES, ("1", "2", "3", "4")),
        (ADDRESS_LINES, ("1", " ")),
        (BANK_LINES, ("x" * 61,)),
        (COUNTRY, "Germany"),
        (CALLING_CODE, "+44"),
        (PHONE, "ring me"),
        (EMAIL, "desk"),
        (VAT_ID, "DE 123"),
        (LOGO, "logo.png"),
        (CURRENCY, "EUX"),
        (LANGUAGE, "fr"),
        (COMEBACK_WINDOW, 100),
        (VAT_RATES, ()),
        (VAT_RATES, (VatRate(1900), VatRate(1900))),
        (VAT_RATES, (VatRate(1900), VatRate(0))),
        (HOURLY_RATE, -1),
        (DIAGNOSIS_FEE, 1_000_001 * MICRO),
        (INVOICE_SERIES, "2026"),
        (INVOICE_SERIES, "R-"),
        (TIME_ZONE, "Mars/Base"),
        (TIME_ZONE, "../etc/passwd"),
        (TIME_ZONE, ""),
        (OPEN_DAYS, frozenset[int]()),
        (OPEN_DAYS, frozenset({0, 1})),
        (CLOSED_DAYS, (Closed(date(2026, 2, 2), date(2026, 2, 1)),)),
        (CLOSED_DAYS, (Closed(date(2026, 2, 2), date(2028, 2, 1)),)),
        (CLOSED_DAYS, (Closed(date(2026, 2, 2), date(2026, 2, 3), "x" * 61),)),
        (TERMS, (Term("a", "b"),) * 9),
        (TERMS, (Term("a", " "),)),
        (TERMS, (Term("a" * 61, "b"),)),
        (GUARANTEE_DAYS, -1),
        (GUARANTEE_WORDS, "x" * 901),
        (GUARANTEE_WORDS, "a\tb"),
        (SAFETY_STANDARD, SafetyLimits("", "", None, Decimal(1))),
        (SAFETY_STANDARD, SafetyLimits("EN 50678", "2020", None, Decimal(0))),
        (SAFETY_STANDARD, SafetyLimits("x" * 41, "2020")),
        (FLAG_COIL_UP, Decimal("1.11")),
        (FLAG_COIL_UP, Decimal("0.99")),
        (FLAG_LASER_UP, Decimal(111)),
        (FLAG_PILE, 4),
        (CALIBRATION_GRACE, -1),
    ],
)
def test_a_value_that_cannot_be_right_says_why_at_its_key(setting: Setting[Any], value: Any) -> None:
    assert set(check_changes(ShopSettings(), {setting: value})) == {setting.key}


def test_a_caution_comes_before_the_owners_turn() -> None:
    shop = ShopSettings()
    assert set(check_changes(shop, {FLAG_COIL_UP_BIG: Decimal("1.05")})) == {FLAG_COIL_UP_BIG.key}
    assert check_changes(shop, {FLAG_COIL_UP_BIG: Decimal("1.05"), FLAG_COIL_UP: Decimal("1.05")}) == {}
    strict = shop.with_changes({FLAG_COIL_UP_BIG: Decimal("1.05"), FLAG_COIL_UP: Decimal("1.05")})
    assert set(check_changes(strict, {FLAG_COIL_UP: Decimal("1.10")})) == {FLAG_COIL_UP.key}


def test_the_rules_are_asked_with_the_shops_numbers() -> None:
    assert thresholds_of(ShopSettings()) == DEFAULTS
    strict = ShopSettings({FLAG_COIL_UP: Decimal("1.05"), COMEBACK_WINDOW: 30, FLAG_PILE: 2})
    asked = thresholds_of(strict)
    assert (asked.coil_up, asked.comeback_days, asked.pile) == (Decimal("1.05"), 30, 2)


def test_money_law_and_safety_are_the_owners_to_change() -> None:
    anyones = {setting.key for setting in SETTINGS.values() if setting.who is Who.ANYONE}
    assert anyones == {"no_answer_days", "open_days", "closed_days", "promise_days"}


def test_places_in_a_text_are_filled_and_nothing_else_is_read() -> None:
    text = "Looking costs {diagnosis_fee}; {until} {unknown} {0} {} { % %s"
    assert fill(text, {"diagnosis_fee": "45.00 EUR", "until": "27 May"}) == (
        "Looking costs 45.00 EUR; 27 May {unknown} {0} {} { % %s"
    )
    assert fill("{a}", {"a": "{b}", "b": "no"}) in ("{b}", "no")


def test_a_term_about_a_fee_that_is_not_charged_is_left_out() -> None:
    terms = ShopSettings()[TERMS]
    assert len(needing(terms, ())) == 6
    left = needing(terms, ("diagnosis_fee",))
    assert len(left) == 5
    assert all("{diagnosis_fee}" not in term.lead for term in left)


@given(st.text(max_size=80), st.dictionaries(st.sampled_from(["until", "handed_back"]), st.text(max_size=9)))
def test_no_text_of_the_shop_breaks_filling(text: str, values: dict[str, str]) -> None:
    fill(text, values)


def test_a_cord_rule_without_figures_is_none() -> None:
    bare = SafetyLimits("EN 50678", "2020")
    assert SAFETY_STANDARD.from_plain(SAFETY_STANDARD.to_plain(bare)) == bare
    plain = SAFETY_STANDARD.to_plain(ENTERED)
    assert plain["protective_conductor"] == ["0.3", "5", "0.1", "7.5", "1.0"]
    assert isinstance(SAFETY_STANDARD.from_plain(plain).protective_conductor, CordRule)


@pytest.mark.parametrize(
    ("wanted", "money", "refused"),
    [("EUR", True, False), ("CHF", False, False), ("CHF", True, True)],
)
def test_the_currency_stays_once_money_stands_in_it(wanted, money, refused):
    assert (currency_refused("EUR", wanted, money_stands=money) is not None) is refused
