"""The invoice page of a job: before, while and after it is issued."""

from __future__ import annotations

import pytest
from sqlalchemy.exc import NoResultFound

from app.book.tables import Unit
from app.trade.bench.kinds import Means
from app.trade.bench.stages import Stage
from app.trade.money import Money
from app.trade.sentence import Sentence
from app.trade.settings import VAT_RATES
from app.work.office.invoice_view import invoice_view
from app.work.office.invoices import issue_invoice
from app.work.office.payments import take_payment


def test_before_it_is_issued_it_shows_what_would_be_asked_for(worked):
    take_payment(worked.book, worked.who, worked.job, Money(1876, "EUR"), Means.CASH)
    view = invoice_view(worked.book, worked.job)
    assert (view.number, view.player, view.serial, view.customer) == (
        1001,
        "Quellmar Larch 2",
        "0420 158",
        "Benedikt Arnsvik",
    )
    assert (view.stage, view.outcome, view.changes) == (Stage.ON_THE_BENCH, None, True)
    assert (view.paid, view.open) == (Money(1876, "EUR"), Money(10000, "EUR"))
    assert (view.currency, view.rates, view.prices_with_vat) == ("EUR", VAT_RATES.default, False)
    assert (view.invoice, view.payments[0].kind, view.payments[0].by) == (None, "deposit", "Ine Varloes")


def test_after_it_is_issued_it_shows_the_very_paper_and_what_is_still_to_pay(worked):
    take_payment(worked.book, worked.who, worked.job, Money(1876, "EUR"), Means.CASH)
    issued = issue_invoice(worked.book, worked.who, worked.job).value
    take_payment(worked.book, worked.who, worked.job, Money(4000, "EUR"), Means.CARD)
    view = invoice_view(worked.book, worked.job)
    assert view.invoice is not None
    assert (view.invoice.number, view.invoice.paper_id, view.invoice.issued_by) == (
        "0001",
        issued.paper_id,
        "Ine Varloes",
    )
    assert (view.invoice.gross, view.invoice.due) == (Money(11876, "EUR"), Money(10000, "EUR"))
    assert (view.open, view.changes) == (Money(6000, "EUR"), False)


def test_a_serial_nobody_could_read_is_not_shown(bench):
    with bench.book.change(bench.who, Sentence("looked again")) as change:
        change.get(Unit, 1).serial_unreadable = True
    assert invoice_view(bench.book, bench.job).serial == ""


def test_a_closed_job_takes_no_more_lines(bench):
    from app.book.tables import Job

    with bench.book.change(bench.who, Sentence("handed back")) as change:
        change.get(Job, bench.job).stage = Stage.HANDED_BACK
    assert invoice_view(bench.book, bench.job).changes is False


def test_a_job_that_is_not_there_is_said_to_be_none(bench):
    with pytest.raises(NoResultFound):
        invoice_view(bench.book, 99)
