"""The receipt for one payment: the amount first, who paid, and what is left."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from app.papers.facts import PaperSize
from tests.papers.conftest import pdf_of
from tests.papers.reading import texts, whole
from tests.papers.story import euro
from tests.papers.story_after import HOSTILE, LONG, PAYMENT_RECEIPT

Press = Callable[..., bytes]


def test_a_receipt_shows_the_amount_who_paid_and_what_is_left() -> None:
    text = whole(pdf_of("payment receipt"))
    for words in ("Receipt for payment 2131-2", "100.00 EUR", "by card", "Benedikt Arnsvik", "59.32 EUR"):
        assert words in text
    assert "the rest follows in December" in text


def test_money_given_back_is_signed_for(press: Press) -> None:
    text = whole(press(replace(PAYMENT_RECEIPT, back=True, open=euro("0"))))
    assert "Receipt for money given back 2131-2" in text
    assert "signature of the person who received it" in text
    assert "Still open nothing" in text.replace("\n", " ")


def test_a_deposit_has_no_invoice_yet(press: Press) -> None:
    facts = replace(PAYMENT_RECEIPT, invoice="", total=None, open=None, paid=None, note="")
    text = whole(press(replace(facts, sheet=replace(facts.sheet, specimen=False))))
    assert "job 2131, before the invoice" in text
    assert "How it stands" not in text
    assert "specimen" not in text


def test_what_was_paid_too_much_is_owed(press: Press) -> None:
    text = whole(press(replace(PAYMENT_RECEIPT, open=euro("-5")))).replace("\n", " ")
    assert "We owe you 5.00 EUR" in text


@pytest.mark.parametrize("size", list(PaperSize))
def test_absurdly_long_and_hostile_texts_are_printed_as_they_stand(press: Press, size: PaperSize) -> None:
    sheet = replace(PAYMENT_RECEIPT.sheet, size=size)
    long = replace(
        PAYMENT_RECEIPT, sheet=sheet, customer_name=HOSTILE, note=HOSTILE, taken_by=LONG, amount=euro("1e12")
    )
    pages = texts(press(long))
    assert "<b>a & b</b>" in " ".join(pages)
    assert f"page {len(pages)} of {len(pages)}" in pages[-1]
