"""What cannot stand on an invoice is named at its field; whatever can be printed is let through."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.trade.money import MICRO
from app.trade.office.invoice import Adjustment, Draft, Line, LineKind
from app.trade.office.invoice_check import (
    HIGHEST_AMOUNT,
    HIGHEST_PRICE,
    HIGHEST_QUANTITY,
    MOST_LINES,
    check_draft,
)
from app.trade.office.vat import VatCategory, check_vat, percent
from tests.trade.office.test_invoice import TEXT_LINE, WORKED_A, line


def wrong_fields(draft: Draft, *, fees_only: bool = False) -> set[str]:
    return set(check_draft(draft, fees_only=fees_only))


GOOD = line("1", "10")


@pytest.mark.parametrize(
    ("bad", "field"),
    [
        (replace(GOOD, words=" "), "words"),
        (replace(GOOD, words="x" * 301), "words"),
        (replace(GOOD, words="a\x07b"), "words"),
        (replace(GOOD, words="a\u202eb"), "words"),
        (replace(GOOD, quantity=0), "quantity"),
        (replace(GOOD, quantity=-MICRO), "quantity"),
        (replace(GOOD, quantity=HIGHEST_QUANTITY + 1), "quantity"),
        (replace(GOOD, unit="ELL"), "unit"),
        (replace(GOOD, price=-1), "price"),
        (replace(GOOD, price=10**12 * MICRO), "price"),
        (replace(GOOD, price=HIGHEST_PRICE + 1), "price"),
        (replace(GOOD, vat_rate=0), "vat_rate"),
        (replace(GOOD, vat_rate=-1), "vat_rate"),
        (replace(GOOD, vat_rate=10_001), "vat_rate"),
        (replace(GOOD, category=VatCategory.ZERO), "vat_rate"),
        (replace(GOOD, category=VatCategory.EXEMPT, vat_rate=0), "vat_rate"),
        (replace(GOOD, discount=-1), "discount"),
        (replace(GOOD, discount=1001, discount_reason="old"), "discount"),
        (replace(GOOD, discount=1), "discount_reason"),
        (replace(GOOD, discount=1, discount_reason="a\x07b"), "discount_reason"),
        (replace(GOOD, discount=1, discount_reason="x" * 301), "discount_reason"),
        (replace(TEXT_LINE, price=1), "kind"),
    ],
)
def test_a_line_that_cannot_be_right_is_named_at_its_field(bad: Line, field: str) -> None:
    assert wrong_fields(Draft("EUR", (GOOD, bad))) == {f"lines.1.{field}"}


@pytest.mark.parametrize(
    "words",
    ["<b>bold</b> & <img src=x>", "שלום 'עולם'", "e\u0301te\u0301", "x" * 300, "two\nlines", "a\u00a0b"],
)
def test_any_words_of_people_are_printed(words: str) -> None:
    assert check_draft(Draft("EUR", (replace(GOOD, words=words),))) == {}


def test_a_line_of_price_nought_is_no_mistake() -> None:
    assert check_draft(Draft("EUR", (line("1", "0"),))) == {}


def test_an_invoice_without_a_charge_or_with_too_many_lines_is_refused() -> None:
    assert wrong_fields(Draft("EUR", ())) == {"lines"}
    assert wrong_fields(Draft("EUR", (TEXT_LINE,))) == {"lines"}
    assert wrong_fields(Draft("EUR", (GOOD,) * MOST_LINES)) == set()
    assert wrong_fields(Draft("EUR", (GOOD,) * (MOST_LINES + 1))) == {"lines"}


@pytest.mark.parametrize(
    ("bad", "field"),
    [
        (Adjustment(0, "why", 1900), "amount"),
        (Adjustment(HIGHEST_AMOUNT + 1, "why", 1900), "amount"),
        (Adjustment(100, " ", 1900), "reason"),
        (Adjustment(100, "w" * 301, 1900), "reason"),
        (Adjustment(100, "why", 0), "vat_rate"),
        (Adjustment(1001, "why", 1900), "amount"),
        (Adjustment(100, "why", 700), "amount"),
    ],
)
def test_a_discount_that_cannot_be_right_is_named(bad: Adjustment, field: str) -> None:
    assert wrong_fields(Draft("EUR", (GOOD,), discounts=(bad,))) == {f"discounts.0.{field}"}


def test_charges_prepaid_and_step_are_checked_too() -> None:
    assert wrong_fields(Draft("EUR", (GOOD,), charges=(Adjustment(0, "", 1900),))) == {
        "charges.0.amount",
        "charges.0.reason",
    }
    assert wrong_fields(Draft("EUR", (GOOD,), prepaid=-1)) == {"prepaid"}
    assert wrong_fields(Draft("EUR", (GOOD,), round_due_to=0)) == {"round_due_to"}


def test_one_kind_without_vat_has_one_reason() -> None:
    one = replace(GOOD, vat_rate=0, category=VatCategory.EXEMPT, vat_reason="small business")
    other = replace(one, vat_reason="export")
    assert wrong_fields(Draft("EUR", (one, TEXT_LINE, one))) == set()
    assert wrong_fields(Draft("EUR", (one, other))) == {"lines.1.vat_reason"}


def test_only_fees_go_on_the_invoice_of_an_unsafe_return() -> None:
    fee = replace(GOOD, kind=LineKind.FEE)
    assert wrong_fields(Draft("EUR", (fee, TEXT_LINE)), fees_only=True) == set()
    assert wrong_fields(Draft("EUR", (fee, GOOD)), fees_only=True) == {"lines.1.kind"}
    postage = Adjustment(100, "postage", 1900)
    assert wrong_fields(Draft("EUR", (fee,), charges=(postage,)), fees_only=True) == {"charges"}


def test_a_wrong_draft_is_told_with_all_its_fields() -> None:
    assert wrong_fields(WORKED_A) == set()
    wrong = Draft("EUR", (replace(GOOD, quantity=0, price=-1),))
    assert wrong_fields(wrong) == {"lines.0.quantity", "lines.0.price"}


def test_vat_rates_are_shown_in_per_cent() -> None:
    assert [str(percent(rate).value) for rate in (1900, 550, 0, 1000)] == ["19", "5.5", "0", "10"]
    assert check_vat(0, VatCategory.REVERSE_CHARGE, "") is not None
    assert check_vat(0, VatCategory.REVERSE_CHARGE, "the buyer owes it") is None
    assert check_vat(0, VatCategory.ZERO, "") is None
    assert check_vat(0, VatCategory.EXEMPT, "a\x07b") is not None
