"""What is owed, by age, and a friendly reminder: printed by a person, filed with the job, never by itself."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from app.book.tables import Paper
from app.trade.bench.kinds import Means
from app.trade.money import MICRO, Money
from app.trade.office.invoice import LineKind
from app.trade.office.owed import AgeClass
from app.trade.office.vat import VatRate
from app.trade.refusal import Refusal
from app.trade.settings import ROUND_DUE_TO
from app.trade.settings.owed import REMIND_WITHIN, REMINDER_WORDS
from app.trade.settings.prices import PAY_WITHIN
from app.work.counter.taking_in import receive_unit
from app.work.office.charges import ChargeEntry, add_charge
from app.work.office.credit_notes import issue_credit_note
from app.work.office.invoices import issue_invoice
from app.work.office.open_items import issue_reminder, open_items, preview_reminder
from app.work.office.payments import take_payment
from app.work.office.settings import change_settings
from app.work.papers.issuing import paper_pdf
from tests.papers.reading import whole
from tests.work.asked import papers_of_job
from tests.work.office.conftest import LARCH


def euros(minor):
    return Money(minor, "EUR")


@pytest.fixture
def owed(worked):
    """An invoice of 118.76 EUR, due on 26 March 2026, of which 50.00 are paid."""
    invoice = issue_invoice(worked.book, worked.who, worked.job).value.id
    take_payment(worked.book, worked.who, worked.job, euros(5000), Means.CARD)
    worked.invoice = invoice
    return worked


def remind(bench):
    return issue_reminder(bench.book, bench.shop.ine, bench.invoice).value


def facts_of(bench, paper):
    with bench.book.ask() as session:
        return session.get_one(Paper, paper).facts


def test_an_open_invoice_stands_in_the_list_by_its_age(owed):
    (item,) = open_items(owed.book)
    assert (item.open, item.total, item.pay_by) == (euros(6876), euros(11876), date(2026, 3, 26))
    assert (item.age, item.late, item.reminded, item.reminded_on) == (AgeClass.NOT_DUE, 0, 0, None)
    assert item.not_now is not None
    owed.shop.clock.advance(days=15)
    (item,) = open_items(owed.book)
    assert (item.age, item.late, item.not_now) == (AgeClass.TO_14, 1, None)


def test_what_is_paid_is_owed_no_more(owed):
    take_payment(owed.book, owed.who, owed.job, euros(6876), Means.TRANSFER)
    assert open_items(owed.book) == ()
    take_payment(owed.book, owed.who, owed.job, euros(100), Means.TRANSFER)
    assert open_items(owed.book) == ()
    owed.shop.clock.advance(days=30)
    with pytest.raises(Refusal, match="Nothing is open"):
        remind(owed)


def test_nobody_is_reminded_while_there_is_time_to_pay(owed):
    with pytest.raises(Refusal, match="need not be paid before"):
        remind(owed)
    assert [line.kind for line in papers_of_job(owed.book, owed.job)] == ["intake ticket", "invoice"]


def test_a_reminder_is_filed_with_the_job_with_who_and_when(owed):
    owed.shop.clock.advance(days=20)
    paper = remind(owed)
    line = papers_of_job(owed.book, owed.job)[-1]
    assert (line.id, line.kind, line.issued_by) == (paper, "reminder", "Ine Varloes")
    text = whole(paper_pdf(owed.book, paper).pdf).replace("\n", " ")
    for words in ("A friendly reminder", "68.76 EUR is still open", "−50.00", "11 April 2026", "Ine Varloes"):
        assert words in text
    (item,) = open_items(owed.book)
    assert (item.reminded, item.reminded_on) == (1, date(2026, 4, 1))


def test_a_reminder_is_looked_at_before_it_is_printed(owed):
    with pytest.raises(Refusal, match="need not be paid before"):
        preview_reminder(owed.book, owed.shop.ine, owed.invoice)
    owed.shop.clock.advance(days=20)
    text = whole(preview_reminder(owed.book, owed.shop.ine, owed.invoice))
    for words in ("draft", "68.76 EUR is still open", "Ine Varloes"):
        assert words in text
    assert [line.kind for line in papers_of_job(owed.book, owed.job)] == ["intake ticket", "invoice"]


def test_one_reminder_a_day_and_the_next_says_it_is_the_second(owed):
    owed.shop.clock.advance(days=20)
    remind(owed)
    with pytest.raises(Refusal, match="today already"):
        remind(owed)
    owed.shop.clock.advance(days=11)
    assert facts_of(owed, remind(owed))["count"] == 2


def test_the_shop_words_its_reminder_and_sets_the_new_day(owed):
    words = "Dear customer: {open} of {invoice} until {new_day}, {oddity}."
    change_settings(owed.book, owed.who, {REMINDER_WORDS: words, REMIND_WITHIN: 3})
    owed.shop.clock.advance(days=20)
    assert (
        facts_of(owed, remind(owed))["text"]
        == "Dear customer: 68.76\u00a0EUR of 0001 until 4\u00a0Apr\u00a02026, {oddity}."
    )


def test_the_oldest_stands_first(owed):
    owed.shop.clock.advance(days=30)
    other = receive_unit(owed.book, owed.who, replace(LARCH, serial="9", promised_on=None)).value.job_id
    add_charge(
        owed.book,
        owed.who,
        other,
        ChargeEntry(kind=LineKind.FEE, words="Look inside", price=20 * MICRO, vat=VatRate(1900)),
    )
    issue_invoice(owed.book, owed.who, other)
    assert [item.job_id for item in open_items(owed.book)] == [owed.job, other]


def test_what_was_credited_is_owed_no_more_and_stands_on_the_reminder(owed):
    issue_credit_note(owed.book, owed.who, owed.invoice, {1: MICRO}, "the belt was not needed")
    (item,) = open_items(owed.book)
    assert item.open == euros(6876 - 452)  # the belt at 3.80 with 19 %: 0.722 of VAT
    owed.shop.clock.advance(days=20)
    text = whole(paper_pdf(owed.book, remind(owed)).pdf).replace("\n", " ")
    assert "Credit note" in text
    assert "64.24" in text


def test_the_rounding_of_the_invoice_stands_on_its_reminder(worked):
    change_settings(worked.book, worked.who, {ROUND_DUE_TO: 5})
    worked.invoice = issue_invoice(worked.book, worked.who, worked.job).value.id
    worked.shop.clock.advance(days=20)
    facts = facts_of(worked, remind(worked))
    assert facts["balance"] == {"money": [11875, "EUR"]}
    assert [line["amount"] for line in facts["payments"]] == [{"money": [1, "EUR"]}]


def test_an_invoice_stays_to_be_paid_by_the_day_that_it_named(owed):
    before = open_items(owed.book)[0].pay_by
    change_settings(owed.book, owed.who, {PAY_WITHIN: 90})
    (item,) = open_items(owed.book)
    assert item.pay_by == before
