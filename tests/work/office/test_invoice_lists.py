"""The Office's lists of money: what is to invoice, what went without one, what is open and for how long."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from app.book.tables import Job
from app.trade.bench.kinds import Means
from app.trade.bench.stages import Outcome, Stage
from app.trade.money import MICRO, Money
from app.trade.office.invoice import LineKind
from app.trade.office.vat import VatRate
from app.trade.sentence import Sentence
from app.trade.settings import PAY_WITHIN, ROUND_DUE_TO
from app.work.bench.work_done import put_part_back
from app.work.counter.requests import note_unsafe_request
from app.work.counter.taking_in import receive_unit
from app.work.office.charges import ChargeEntry, add_charge
from app.work.office.invoice_lists import gone_without_invoice, invoices, jobs_to_invoice
from app.work.office.invoices import issue_invoice
from app.work.office.payments import take_payment
from app.work.office.settings import change_settings
from app.work.office.stock import part_moves
from tests.work.office.conftest import LARCH


def set_ready(bench, job=None):
    with bench.book.change(bench.who, Sentence("ready")) as change:
        row = change.get(Job, job or bench.job)
        row.stage, row.ready_at = Stage.READY, change.now


def set_gone(bench, job=None):
    with bench.book.change(bench.who, Sentence("handed back")) as change:
        row = change.get(Job, job or bench.job)
        row.stage, row.outcome, row.handed_back_at = Stage.HANDED_BACK, Outcome.MENDED, change.now


def test_a_ready_job_is_to_be_invoiced_until_it_is(worked):
    assert jobs_to_invoice(worked.book) == ()
    set_ready(worked)
    (line,) = jobs_to_invoice(worked.book)
    assert (line.number, line.customer, line.player) == (1001, "Benedikt Arnsvik", "Quellmar Larch 2")
    assert (line.so_far, line.held) == (Money(11876, "EUR"), ())
    issue_invoice(worked.book, worked.who, worked.job)
    assert jobs_to_invoice(worked.book) == ()


def test_the_lists_tell_what_is_asked_to_the_coin_that_it_is_paid_in(worked):
    change_settings(worked.book, worked.who, {ROUND_DUE_TO: 5})
    set_ready(worked)
    assert jobs_to_invoice(worked.book)[0].so_far == Money(11875, "EUR")
    issue_invoice(worked.book, worked.who, worked.job)
    (line,) = invoices(worked.book)
    assert (line.asked, line.open) == (Money(11875, "EUR"), Money(11875, "EUR"))


def test_what_holds_a_job_stands_beside_it(worked):
    note_unsafe_request(worked.book, worked.who, worked.job, "bridge the fuse")
    set_ready(worked)
    assert len(jobs_to_invoice(worked.book)[0].held) == 1


def test_a_player_that_went_with_charged_work_and_no_invoice_is_not_forgotten(worked):
    set_gone(worked)
    (line,) = gone_without_invoice(worked.book)
    assert (line.number, line.outcome, line.handed_back) == (1001, Outcome.MENDED, date(2026, 3, 12))
    assert gone_without_invoice(worked.book, most=0) == ()


def test_a_part_alone_or_a_charge_alone_is_enough(bench):
    from decimal import Decimal

    from app.work.bench.work_done import use_part

    use_part(bench.book, bench.who, bench.job, bench.part, Decimal(1))
    other = receive_unit(bench.book, bench.who, replace(LARCH, serial="7")).value.job_id
    fee = ChargeEntry(kind=LineKind.FEE, words="Diagnosis", price=MICRO, vat=VatRate(1900))
    add_charge(bench.book, bench.who, other, fee)
    for job in (bench.job, other):
        set_gone(bench, job)
    assert {line.job_id for line in gone_without_invoice(bench.book)} == {bench.job, other}


def test_a_player_on_which_nothing_is_charged_needs_no_invoice(bench):
    from decimal import Decimal

    from app.work.bench.work_done import use_part

    use_part(bench.book, bench.who, bench.job, bench.part, Decimal(1))
    put_part_back(bench.book, bench.who, part_moves(bench.book, bench.part)[0].id)
    text = ChargeEntry(kind=LineKind.TEXT, words="No fault shown.", vat=VatRate(1900))
    add_charge(bench.book, bench.who, bench.job, text)
    set_gone(bench)
    assert gone_without_invoice(bench.book) == ()


def test_an_invoiced_player_that_went_is_not_listed(worked):
    issue_invoice(worked.book, worked.who, worked.job)
    set_gone(worked)
    assert gone_without_invoice(worked.book) == ()


def test_an_open_invoice_ages_and_a_paid_one_leaves(worked):
    issue_invoice(worked.book, worked.who, worked.job)
    (line,) = invoices(worked.book, open_only=True)
    assert (line.number, line.open, line.days, line.overdue) == ("0001", Money(11876, "EUR"), 0, 0)
    assert line.pay_by == date(2026, 3, 26)
    worked.shop.clock.advance(days=14)
    assert invoices(worked.book)[0].overdue == 0  # the last day counts in full
    worked.shop.clock.advance(days=6)
    assert (invoices(worked.book)[0].days, invoices(worked.book)[0].overdue) == (20, 6)
    take_payment(worked.book, worked.who, worked.job, Money(11876, "EUR"), Means.TRANSFER)
    assert invoices(worked.book, open_only=True) == ()
    assert invoices(worked.book)[0].overdue == 0


def test_what_was_paid_too_much_stays_open_the_other_way(worked):
    take_payment(worked.book, worked.who, worked.job, Money(12000, "EUR"), Means.CASH)
    issue_invoice(worked.book, worked.who, worked.job)
    worked.shop.clock.advance(days=40)
    (line,) = invoices(worked.book, open_only=True)
    assert (line.open, line.overdue) == (Money(-124, "EUR"), 0)


@pytest.mark.parametrize(("within", "pay_by"), [(0, date(2026, 3, 12)), (30, date(2026, 4, 11))])
def test_the_day_to_pay_by_follows_the_settings(worked, within, pay_by):
    change_settings(worked.book, worked.who, {PAY_WITHIN: within})
    issue_invoice(worked.book, worked.who, worked.job)
    assert invoices(worked.book)[0].pay_by == pay_by


def test_the_newest_invoice_stands_first(worked):
    issue_invoice(worked.book, worked.who, worked.job)
    other = receive_unit(worked.book, worked.who, replace(LARCH, serial="7")).value.job_id
    fee = ChargeEntry(kind=LineKind.FEE, words="Diagnosis", price=MICRO, vat=VatRate(1900))
    add_charge(worked.book, worked.who, other, fee)
    issue_invoice(worked.book, worked.who, other)
    assert [line.number for line in invoices(worked.book)] == ["0002", "0001"]
