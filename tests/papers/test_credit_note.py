"""Facts about the printed credit note: it names its invoice and reason, and tells where the job stands."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from app.papers.credit_note_facts import CreditedLine, StandLine
from app.papers.invoice_facts import Discount, InvoiceLine
from app.trade.money import Money
from tests.papers.conftest import pdf_of
from tests.papers.reading import right_edges, texts, whole
from tests.papers.story_credit import CREDIT_NOTE
from tests.papers.story_shop import euro

HEBREW = "נגן תקליטורים"


def test_it_says_what_it_is_and_which_invoice_it_corrects() -> None:
    text = whole(pdf_of("credit note"))
    for words in (
        "Credit note 2026-0019",
        "Corrects invoice 2026-0412",
        "Invoice of 26 November 2026",
        "Correction of invoice 2026-0412",
        "Reason: the care booklet was out of stock",
        "line 1 0.25 h 62.00 19 % 15.50",
        "line 6 1 piece 6.50 7 % 6.50",
        "Credited to you, EUR 25.41",
    ):
        assert words in text


def test_the_account_of_the_job_goes_down_to_what_is_open() -> None:
    text = whole(pdf_of("credit note"))
    for words in (
        "Invoice 2026-0412, with VAT 199.32",
        "Credit note 2026-0019 \u221225.41",
        "by card \u2212159.32",
        "in cash 25.41 Open 0.00",
    ):
        assert words in text


def test_money_that_the_shop_owes_is_said_without_a_minus(press) -> None:
    facts = replace(CREDIT_NOTE, stand=CREDIT_NOTE.stand[:-1], open=euro("-25.41"))
    assert "We owe you 25.41" in whole(press(facts))


def test_only_money_over_the_counter_is_signed_for(press) -> None:
    assert "received: signature of customer" in whole(pdf_of("credit note"))
    assert "received" not in whole(press(replace(CREDIT_NOTE, signed=False)))


def test_a_note_without_an_account_leaves_it_out(press) -> None:
    assert "stands" not in whole(press(replace(CREDIT_NOTE, stand=(), open=None)))


def test_the_part_of_a_discount_and_the_rounding_are_told(press) -> None:
    part = Discount("<b>goodwill</b> & more", Decimal(19), euro("1.50"))
    facts = replace(CREDIT_NOTE, discounts=(part,), rounding=Money(-1, "EUR"))
    text = whole(press(facts))
    assert "Sum of lines, net 22.00 <b>goodwill</b> & more (VAT 19 %) \u22121.50" in text
    assert "Total with VAT 25.41 Rounding \u22120.01" in text
    assert "Total with VAT" not in whole(pdf_of("credit note"))


def test_all_amounts_of_the_sums_have_one_right_edge() -> None:
    pdf = pdf_of("credit note")
    edges = [*right_edges(pdf, "15.50")[:1], *right_edges(pdf, "2.95"), *right_edges(pdf, "22.00")]
    assert max(edges) - min(edges) < 0.3


@pytest.mark.parametrize("words", ["w" * 300, HEBREW, "e\u0301te\u0301", "<img src=x>", "two\nlines"])
def test_a_reason_of_any_kind_is_printed(press, words: str) -> None:
    assert texts(press(replace(CREDIT_NOTE, reason=words)))


def test_five_hundred_lines_flow_over_pages_with_what_is_carried_forward(press) -> None:
    line = InvoiceLine("x" * 60, Decimal(1), "piece", Decimal("10.00"), Decimal(19), euro("10"))
    lines = tuple(CreditedLine(line, at) for at in range(1, 501))
    pages = texts(press(replace(CREDIT_NOTE, lines=lines)))
    assert len(pages) > 10
    assert "carried forward" in pages[0]
    assert "Credited to you" in pages[-1]
    assert "line 500" in pages[-1]


def test_amounts_of_a_million_millions_stay_within_their_columns(press) -> None:
    high = Money(10**14, "EUR")
    facts = replace(
        CREDIT_NOTE,
        lines=(replace(CREDIT_NOTE.lines[0], line=replace(CREDIT_NOTE.lines[0].line, net=high)),),
        net=high,
        total=high,
        credited=high,
        stand=(StandLine("all", high),),
        open=high,
    )
    assert "1,000,000,000,000.00" in whole(press(facts)).replace("\u202f", ",").replace(" 000", ",000")
