"""A reminder: friendly, with what is open, and texts of any length."""

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
from tests.papers.story_after import HOSTILE, LONG, REMINDER

Press = Callable[..., bytes]


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


@pytest.mark.parametrize("size", list(PaperSize))
def test_absurdly_long_and_hostile_texts_are_printed_as_they_stand(press: Press, size: PaperSize) -> None:
    sheet = replace(REMINDER.sheet, size=size)
    customer = replace(REMINDER.customer, name=HOSTILE)
    long = replace(REMINDER, sheet=sheet, customer=customer, text="\n".join([HOSTILE] * 9), writer=LONG)
    pages = texts(press(long))
    assert "<b>a & b</b>" in " ".join(pages)
    assert f"page {len(pages)} of {len(pages)}" in pages[-1]


def test_a_reminder_without_a_customer_number_says_none(press: Press) -> None:
    text = whole(
        press(replace(REMINDER, customer=Customer("Xu"), issued=date(2026, 11, 26), text=Sentence("Hello.")))
    )
    assert "C 0418" not in text
