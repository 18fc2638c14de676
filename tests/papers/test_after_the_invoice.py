"""Receipt, reminder and notice to collect: what the eye meets first, and texts of any length."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date

import pytest
import zxingcpp

from app.papers.facts import Customer, PaperSize
from app.trade.sentence import Sentence
from tests.papers.conftest import pdf_of
from tests.papers.reading import picture, texts, whole
from tests.papers.story import euro
from tests.papers.story_after import PAYMENT_RECEIPT, REMINDER, UNCOLLECTED_NOTICE

Press = Callable[..., bytes]
LONG = "Annabel Wibke von und zu Übermäßiglangenamen " * 7


def test_a_reminder_is_friendly_and_says_what_is_open_until_when() -> None:
    text = whole(pdf_of("reminder"))
    for words in (
        "A friendly reminder",
        "Good day Benedikt Arnsvik",
        "slipped your mind",
        "28 December 2026",
    ):
        assert words in text
    assert "Still open, EUR 59.32" in text.replace("\n", " ")
    assert "−40.00" in text


def test_the_second_reminder_says_that_it_is_one(press: Press) -> None:
    text = whole(press(replace(REMINDER, count=2)))
    assert "Once more, a friendly reminder" in text


def test_the_code_of_a_reminder_pays_what_is_open_now() -> None:
    codes = [code.text for code in zxingcpp.read_barcodes(picture(pdf_of("reminder"), 200))]
    assert any("EUR59.32" in code for code in codes)


def test_nothing_is_added_up_where_nothing_was_paid(press: Press) -> None:
    text = whole(press(replace(REMINDER, payments=(), balance=REMINDER.total, panel=None)))
    assert "Paid on" not in text
    assert "Pay by" not in text


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


def test_a_notice_names_its_day_what_waits_and_the_terms() -> None:
    text = whole(pdf_of("uncollected notice"))
    for words in (
        "Notice to collect 2087",
        "25 December 2026",
        "remote control; power cord",
        "20 October 2026",
        "Terms of storage",
        "Nothing happens by itself",
        "48.20 EUR",
    ):
        assert words in text.replace("\n", " ")


def test_a_notice_says_only_what_is_so(press: Press) -> None:
    bare = replace(UNCOLLECTED_NOTICE, told=None, things=(), earlier=(), open=None, terms="")
    nobody = replace(
        bare, customer=Customer("Xu"), sheet=replace(bare.sheet, shop=replace(bare.sheet.shop, name=""))
    )
    text = whole(press(nobody))
    for words in ("Last message", "With it", "Earlier notices", "Open on", "Terms of storage", "C 0418"):
        assert words not in text


@pytest.mark.parametrize("size", list(PaperSize))
@pytest.mark.parametrize("facts", [REMINDER, PAYMENT_RECEIPT, UNCOLLECTED_NOTICE])
def test_absurdly_long_and_hostile_texts_are_printed_as_they_stand(
    press: Press, facts, size: PaperSize
) -> None:
    hostile = '<b>a & b</b> <img src="x"> שלום ' + LONG
    sheet = replace(facts.sheet, size=size)
    if facts is PAYMENT_RECEIPT:
        long = replace(
            facts, sheet=sheet, customer_name=hostile, note=hostile, taken_by=LONG, amount=euro("1e12")
        )
    else:
        customer = replace(facts.customer, name=hostile)
        long = replace(facts, sheet=sheet, customer=customer, text="\n".join([hostile] * 9), writer=LONG)
    pages = texts(press(long))
    assert "<b>a & b</b>" in " ".join(pages)
    assert f"page {len(pages)} of {len(pages)}" in pages[-1]


def test_a_paragraph_of_the_shop_stands_on_its_own_line(press: Press) -> None:
    text = whole(press(replace(UNCOLLECTED_NOTICE, text="One.\n\nTwo.")))
    assert "One." in text
    assert "Two." in text


def test_a_reminder_without_a_customer_number_says_none(press: Press) -> None:
    text = whole(
        press(replace(REMINDER, customer=Customer("Xu"), issued=date(2026, 11, 26), text=Sentence("Hello.")))
    )
    assert "C 0418" not in text
