"""Settings of the shop's money: currency, VAT, what an hour and a look inside cost, numbers of invoices."""

from __future__ import annotations

import re
from typing import Any

from app.trade.money import MICRO
from app.trade.office.vat import VatCategory, VatRate, check_vat
from app.trade.sentence import Sentence, words
from app.trade.settings.setting import (
    CHOICE,
    PARAGRAPH,
    PRICE,
    TEXT,
    WHOLE,
    WHOLE_CHOICE,
    YES_NO,
    Group,
    Kind,
    Setting,
    Shape,
    between,
    whole_number,
)
from app.trade.typed_words import check_typed

# ISO 4217 codes a shop can choose; how many decimals each has is in app/trade/money.py.
# fmt: off
CURRENCIES = (
    "AUD", "BHD", "BGN", "BRL", "CAD", "CHF", "CNY", "CZK", "DKK", "EUR", "GBP", "HKD",
    "HUF", "ILS", "INR", "ISK", "JPY", "KRW", "KWD", "MXN", "MYR", "NOK", "NZD", "PHP",
    "PLN", "RON", "RSD", "SEK", "SGD", "THB", "TND", "TRY", "TWD", "UAH", "USD", "ZAR",
)
# fmt: on
HIGHEST_PRICE = 1_000_000 * MICRO


def _pack_rates(rates: tuple[VatRate, ...]) -> list[list[Any]]:
    return [[rate.rate, rate.category.value, rate.reason] for rate in rates]


def _unpack_rates(plain: Any) -> tuple[VatRate, ...]:
    return tuple(VatRate(whole_number(rate), VatCategory(kind), str(reason)) for rate, kind, reason in plain)


def _rates(rates: tuple[VatRate, ...]) -> Sentence | None:
    if not rates:
        return Sentence("Enter at least one VAT rate; without VAT, a rate of 0 % with its reason.")
    if len({(rate.rate, rate.category) for rate in rates}) < len(rates):
        return Sentence("Each VAT rate stands here once.")
    checks = (check_vat(rate.rate, rate.category, rate.reason) for rate in rates)
    return next((wrong for wrong in checks if wrong), None)


def _price(micro: int) -> Sentence | None:
    if micro < 0:
        return Sentence("A price is not below zero.")
    if micro > HIGHEST_PRICE:
        return Sentence("That price is too high to be meant.")
    return None


def _no_vat_words(value: str) -> Sentence | None:
    if not value.strip():
        return Sentence("Write why there is no VAT: it has to stand on the invoice.")
    return check_typed(value, 200)


def series(value: str) -> Sentence | None:
    """A rule: up to six letters and figures, no year that could clash with a number."""
    if value and not re.fullmatch(r"[A-Z][A-Z0-9]{0,5}", value):
        return Sentence("A series is up to six capital letters and figures, and begins with a letter.")
    return None


def same_series(invoices: str, credit_notes: str) -> Sentence | None:
    """Why both cannot be numbered so, or None: a number that is said must mean one paper."""
    if invoices == credit_notes:
        return Sentence("Invoices and credit notes need different letters in front of their numbers.")
    return None


def currency_refused(now: str, wanted: str, *, money_stands: bool) -> Sentence | None:
    """Why the shop's currency cannot become another one; None when it can.

    ``money_stands``: an invoice or a payment is in the book. Amounts are minor units of the shop's currency, so
    that after a change the old ones would read as the new money.
    """
    if wanted == now or not money_stands:
        return None
    return Sentence("Invoices or payments in {currency} stand in the book, so it stays.", {"currency": now})


VAT_RATES_SHAPE: Shape[tuple[VatRate, ...]] = Shape(Kind.VAT_RATES, _pack_rates, _unpack_rates)

CURRENCY = Setting(
    "currency",
    CHOICE,
    "EUR",
    Sentence("Currency"),
    Group.MONEY,
    choices=tuple((code, Sentence(code)) for code in CURRENCIES),
    hint=Sentence("It can be changed until the first invoice or payment."),
)
VAT_RATES = Setting(
    "vat_rates",
    VAT_RATES_SHAPE,
    (VatRate(1900), VatRate(700)),
    Sentence("VAT rates"),
    Group.MONEY,
    rule=_rates,
    hint=Sentence("The first one is proposed for a new line."),
)
PRICES_WITH_VAT = Setting(
    "prices_with_vat", YES_NO, False, Sentence("Prices are typed with VAT"), Group.MONEY
)
SMALL_BUSINESS = Setting(
    "small_business",
    YES_NO,
    False,
    Sentence("Exempt from VAT as a small business"),
    Group.MONEY,
    hint=Sentence("Then no line has VAT, whatever stands above, and every invoice says why."),
)
SMALL_BUSINESS_WORDS = Setting(
    "small_business_words",
    PARAGRAPH,
    words("No VAT is charged: small business exemption."),
    Sentence("What the invoice says then"),
    Group.MONEY,
    rule=_no_vat_words,
    hint=Sentence("As the law of your country wants it. It is translated while it stands as shipped."),
)
HOURLY_RATE = Setting(
    "hourly_rate",
    PRICE,
    0,
    Sentence("An hour of work"),
    Group.MONEY,
    rule=_price,
    hint=Sentence("Without VAT. An invoice asks for it while it is 0."),
)
DIAGNOSIS_FEE = Setting(
    "diagnosis_fee",
    PRICE,
    0,
    Sentence("Diagnosis fee"),
    Group.MONEY,
    rule=_price,
    hint=Sentence("With VAT, as it is told at the counter. 0: looking costs nothing."),
)
INVOICE_SERIES = Setting(
    "invoice_series",
    TEXT,
    "",
    Sentence("Letters in front of invoice numbers"),
    Group.MONEY,
    rule=series,
    hint=Sentence("Numbers rise without a gap in each series; a new series begins at 1."),
)
CREDIT_SERIES = Setting(
    "credit_series",
    TEXT,
    "C",
    Sentence("Letters in front of credit note numbers"),
    Group.MONEY,
    rule=series,
    hint=Sentence(
        "Credit notes are numbered by themselves, without a gap; other letters than the invoices have."
    ),
)
PAY_WITHIN = Setting(
    "pay_within",
    WHOLE,
    14,
    Sentence("To be paid within"),
    Group.MONEY,
    rule=between(0, 120),
    unit=Sentence("days"),
)
ROUND_DUE_TO = Setting(
    "round_due_to",
    WHOLE_CHOICE,
    1,
    Sentence("Round the amount to pay to"),
    Group.MONEY,
    choices=tuple(
        (step, Sentence("{step} of the smallest unit", {"step": step})) for step in (1, 5, 10, 50, 100)
    ),
    hint=Sentence("5 where the smallest coin is five hundredths. The difference shows as rounding."),
)

MONEY_SETTINGS = (
    CURRENCY,
    VAT_RATES,
    PRICES_WITH_VAT,
    SMALL_BUSINESS,
    SMALL_BUSINESS_WORDS,
    HOURLY_RATE,
    DIAGNOSIS_FEE,
    INVOICE_SERIES,
    CREDIT_SERIES,
    PAY_WITHIN,
    ROUND_DUE_TO,
)
