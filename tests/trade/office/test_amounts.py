"""Amounts, prices, hours and percentages as people type them."""

from __future__ import annotations

import contextlib
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.money import MICRO, Money
from app.trade.office.amounts import (
    clock,
    parse_amount,
    parse_hours,
    parse_percent,
    parse_price,
    parse_quantity,
    shown,
)
from app.trade.refusal import Refusal
from app.trade.sentence import Measure


@pytest.mark.parametrize(
    ("typed", "cents"),
    [
        ("90", 9000),
        ("90.00", 9000),
        ("90,00", 9000),
        ("90,5", 9050),
        (" 90 ", 9000),
        (".5", 50),
        ("0", 0),
        ("007", 700),
        ("1 234.50", 123450),
        ("1 234,50", 123450),
        ("1'234.50", 123450),
        ("1’234", 123400),
        ("1\u202f234\u00a0567,89", 123456789),
        ("12 345", 1234500),
        ("90 EUR", 9000),
        ("EUR 90", 9000),
        ("€90,00", 9000),
        ("90 €", 9000),
        ("eur90", 9000),
        ("١٢٫"[:2], 1200),
        ("1234567", 123456700),
    ],
)
def test_an_amount_is_read_as_people_write_it(typed: str, cents: int) -> None:
    assert parse_amount(typed, "EUR") == Money(cents, "EUR")


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("1.234,5", "two ways"),
        ("1,234.50", "two ways"),
        ("1.234.567", "two ways"),
        ("1.234", "thousands"),
        ("1,234", "thousands"),
        ("12,345", "thousands"),
        ("1234.567", "At most"),
        ("0.125", "At most"),
        ("12 34", "groups of three"),
        ("1 2345", "groups of three"),
        ("1 234 56", "groups of three"),
        ("-5", "minus"),
        ("\u22125", "minus"),
        ("5-", "minus"),
        ("", "Write a number"),
        ("EUR", "Write a number"),
        (",", "no number"),
        ("5.", "missing"),
        ("5 USD", "{currency}"),
        ("$5", "{currency}"),
        ("ninety", "{currency}"),
        ("5 or 6", "no number"),
        ("1e3", "no number"),
        ("5%", "{currency}"),
        ("1234567890123", "too high"),
        ("9" * 41, "too long"),
        ("inf", "{currency}"),
        ("²", "{currency}"),
    ],
)
def test_what_can_be_read_in_two_ways_or_none_is_refused_and_says_why(typed: str, says: str) -> None:
    with pytest.raises(Refusal) as refused:
        parse_amount(typed, "EUR")
    assert says in refused.value.sentence.key


def test_a_currency_has_its_own_number_of_decimals() -> None:
    # Exponents as in ISO 4217 list one.
    assert parse_amount("1234", "JPY") == Money(1234, "JPY")
    assert parse_amount("1.234", "KWD") == Money(1234, "KWD")
    assert parse_amount("1,2345"[:5], "KWD") == Money(1234, "KWD")
    with pytest.raises(Refusal, match="no smaller coin"):
        parse_amount("5.5", "JPY")
    with pytest.raises(Refusal, match="thousands"):
        parse_amount("1.234", "JPY")


def test_a_price_has_up_to_six_decimals_and_three_are_asked_back() -> None:
    assert parse_price("0.35", "EUR") == 350_000
    assert parse_price("0,0042", "EUR") == 4_200
    assert parse_price("0.125", "EUR") == 125_000
    with pytest.raises(Refusal) as refused:
        parse_price("1.234", "EUR")
    assert refused.value.sentence.values["thousands"] == "1234"
    assert refused.value.sentence.values["part"] == "1.2340"
    assert parse_price("1.2340", "EUR") == 1_234_000
    with pytest.raises(Refusal, match="At most"):
        parse_price("0.1234567", "EUR")


def test_a_quantity_is_above_zero() -> None:
    assert parse_quantity("2,5") == 2_500_000
    for typed in ("0", "0,000", "-1"):
        with pytest.raises(Refusal):
            parse_quantity(typed)


@pytest.mark.parametrize(
    ("typed", "micro"),
    [
        ("1:30", 1_500_000),
        ("0:45", 750_000),
        ("1.5", 1_500_000),
        ("1,5 h", 1_500_000),
        ("1.5h", 1_500_000),
        ("2", 2_000_000),
        ("2 hours", 2_000_000),
        ("1,5 Std.", 1_500_000),
        ("1 h 30", 1_500_000),
        ("1h30min", 1_500_000),
        ("1 h 30 min", 1_500_000),
        ("1h5m", 1_083_333),
        ("90 min", 1_500_000),
        ("20min", 333_333),
        ("0.125", 125_000),
    ],
)
def test_hours_are_read_as_clock_decimal_or_minutes(typed: str, micro: int) -> None:
    assert parse_hours(typed) == micro


@pytest.mark.parametrize(
    "typed", ["", "0", "0:00", "1:75", "1h60", "-1", "1:3", "1001", "1,5,5", "h", "1 day", "90m"]
)
def test_what_is_no_working_time_is_refused(typed: str) -> None:
    with pytest.raises(Refusal):
        parse_hours(typed)


def test_percentages_are_kept_in_ten_thousandths() -> None:
    assert parse_percent("19") == 1900
    assert parse_percent("19 %") == 1900
    assert parse_percent("5,5%") == 550
    assert parse_percent("0") == 0
    assert parse_percent("100") == 10_000
    for typed in ("100.01", "19.123", "-1", "%", "nineteen"):
        with pytest.raises(Refusal):
            parse_percent(typed)


def test_numbers_are_shown_with_the_decimals_they_need() -> None:
    assert str(shown(2_250_000)) == "2.25"
    assert str(shown(1_000_000)) == "1"
    assert str(shown(120_000_000)) == "120"
    assert str(shown(62_000_000, 2)) == "62.00"
    assert str(shown(4_200, 2)) == "0.0042"
    assert str(shown(0)) == "0"


def test_working_time_is_said_in_hours_and_minutes() -> None:
    assert clock(1_500_000).values == {
        "hours": Measure(Decimal(1), "h"),
        "minutes": Measure(Decimal(30), "min"),
    }
    assert clock(2_000_000).values == {"time": Measure(Decimal(2), "h")}
    assert clock(750_000).values == {"time": Measure(Decimal(45), "min")}
    assert clock(1_083_333).values["minutes"] == Measure(Decimal(5), "min")


@given(st.integers(0, 10**14 - 1), st.sampled_from([".", ","]), st.sampled_from(["", " ", "'", "\u202f"]))
def test_every_amount_written_in_full_reads_back_to_the_cent(cents: int, mark: str, group: str) -> None:
    whole, part = divmod(cents, 100)
    text = f"{whole:,}".replace(",", group) + f"{mark}{part:02d}"
    assert parse_amount(text, "EUR") == Money(cents, "EUR")


@given(st.integers(1, 10**12))
def test_every_quantity_shown_reads_back(micro: int) -> None:
    text = str(shown(micro, 0))
    if len(text.partition(".")[2]) == 3:
        text += "0"
    assert parse_quantity(text) == micro


def reads_or_refuses(text: str) -> None:
    for parse in (parse_quantity, parse_hours, parse_percent):
        with contextlib.suppress(Refusal):
            assert parse(text) >= 0
    for currency in ("EUR", "JPY", "KWD"):
        with contextlib.suppress(Refusal):
            assert parse_amount(text, currency).minor >= 0
        with contextlib.suppress(Refusal):
            assert parse_price(text, currency) <= 10**12 * MICRO


@given(st.text(max_size=50))
def test_no_text_does_anything_but_read_or_refuse(text: str) -> None:
    reads_or_refuses(text)


@given(st.text(alphabet="0123456789.,' -%hmin:EUR€", max_size=14))
def test_texts_of_the_right_letters_read_or_refuse(text: str) -> None:
    reads_or_refuses(text)
