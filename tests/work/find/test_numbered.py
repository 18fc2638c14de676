"""Papers of money are found by the number that stands on them."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from app.trade.money import MICRO, Money
from app.trade.office.creditor_reference import creditor_reference
from app.trade.office.invoice import LineKind
from app.trade.office.vat import VatRate
from app.trade.settings import INVOICE_SERIES
from app.work.counter.taking_in import receive_unit
from app.work.find.find import find
from app.work.office.charges import ChargeEntry, add_charge
from app.work.office.credit_notes import issue_credit_note
from app.work.office.estimate_rows import options_of
from app.work.office.estimates import EstimatedLine, add_line, begin_estimate, issue_estimate
from app.work.office.invoices import issue_invoice
from app.work.office.settings import change_settings
from app.work.papers.kinds import Kind
from tests.work.counter.test_taking_in import LARCH

FULL = VatRate(1900)


@pytest.fixture
def papers(shop):
    """Estimate 0001, invoice 0001 with credit note C-0001, and invoice R-0001 of a second job."""
    two = (LARCH, replace(LARCH, serial="77 301"))
    jobs = [receive_unit(shop.book, shop.mirr, entry).value.job_id for entry in two]
    estimate = begin_estimate(shop.book, shop.ine, jobs[0]).value
    with shop.book.ask() as session:
        option = options_of(session, estimate)[0].id
    line = EstimatedLine(kind=LineKind.FIXED_CHARGE, words="Cleaning", price=30 * MICRO, vat=FULL)
    add_line(shop.book, shop.ine, option, line)
    issue_estimate(shop.book, shop.ine, estimate)
    for job, series in zip(jobs, ("", "R"), strict=True):
        change_settings(shop.book, shop.ine, {INVOICE_SERIES: series})
        entry = ChargeEntry(kind=LineKind.FIXED_CHARGE, words="Cleaning", price=30 * MICRO, vat=FULL)
        add_charge(shop.book, shop.ine, job, entry)
        issued = issue_invoice(shop.book, shop.ine, job).value
        if not series:
            issue_credit_note(shop.book, shop.ine, issued.id, {0: MICRO // 2}, "half of it")
    return jobs


def asked(shop, question):
    return [(one.kind, one.number) for one in find(shop.book, question).numbered]


def test_a_number_without_letters_finds_every_paper_that_bears_it(shop, papers):
    assert asked(shop, "1") == [
        (Kind.INVOICE, "R-0001"),
        (Kind.INVOICE, "0001"),
        (Kind.CREDIT_NOTE, "C-0001"),
        (Kind.ESTIMATE, "0001"),
    ]
    assert asked(shop, " 0001 ") == asked(shop, "1")


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("c-1", [(Kind.CREDIT_NOTE, "C-0001")]),
        ("R-0001", [(Kind.INVOICE, "R-0001")]),
        ("C-2", []),
        ("X-1", []),
        ("0002", []),
        ("0", []),
        ("0420 158", []),
    ],
)
def test_the_letters_of_a_series_choose_it(shop, papers, typed, found):
    assert asked(shop, typed) == found


def test_a_line_says_whose_paper_it_is_when_and_how_much(shop, papers):
    _, invoice, note, estimate = find(shop.book, "1").numbered
    assert {one.customer for one in (invoice, note, estimate)} == {"Benedikt Arnsvik"}
    assert {one.issued_on for one in (invoice, note, estimate)} == {date(2026, 3, 12)}
    assert {one.job_id for one in (invoice, note, estimate)} == {papers[0]}
    assert (invoice.amount, note.amount, estimate.amount) == (Money(3570, "EUR"), Money(1785, "EUR"), None)


def test_an_estimate_that_is_still_written_has_no_number_to_be_found_by(shop, papers):
    begin_estimate(shop.book, shop.ine, papers[1])
    assert asked(shop, "2") == []


def test_a_question_with_no_figure_and_a_book_without_papers_find_none(shop):
    assert asked(shop, "C-") == asked(shop, "1") == []
    assert not find(shop.book, "c-1")


def test_the_reference_of_a_transfer_finds_its_invoice(shop, papers):
    assert asked(shop, creditor_reference("R-0001")) == [(Kind.INVOICE, "R-0001")]
    assert asked(shop, creditor_reference("0001").lower()) == [(Kind.INVOICE, "0001")]
    assert asked(shop, creditor_reference("0007")) == []
    assert asked(shop, "RF00R0001") == []
