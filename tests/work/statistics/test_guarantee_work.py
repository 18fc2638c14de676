"""What counts as guarantee work."""

from __future__ import annotations

from datetime import date

import pytest

from app.book import tables as t
from app.trade.bench.kinds import ComebackStanding
from app.trade.office.guarantee import Answer
from app.work.statistics.guarantee_work import guarantee_work

TODAY = date(2026, 3, 12)


def invoice(past, job, net, number):
    money = ("lines_net", "discount", "charge", "vat", "gross", "prepaid", "rounding", "due")
    return t.Invoice(
        number=number,
        issued_on=TODAY,
        net=net,
        **dict.fromkeys(money, 0),
        job_id=job,
        customer_id=past.customer,
        issued_at=past.at(0),
        issued_by=past.shop.ine,
        currency="EUR",
        groups=[],
        line_count=1,
        adjustments=[],
    )


def credit(past, job, net, of, number):
    money = ("lines_net", "discount", "charge", "vat", "gross", "rounding", "due")
    return t.CreditNote(
        number=number,
        issued_on=TODAY,
        net=net,
        **dict.fromkeys(money, 0),
        invoice_id=of,
        reason="a favour",
        job_id=job,
        customer_id=past.customer,
        issued_at=past.at(0),
        issued_by=past.shop.ine,
        currency="EUR",
        groups=[],
        line_count=1,
        adjustments=[],
    )


@pytest.fixture
def comeback(past):
    """Makes a comeback: of a job whose guarantee ran to so many days ago, said to be one or not."""

    def make(until=40, said=ComebackStanding.CONFIRMED):
        unit = past.unit()
        promised = None if until is None else past.at(until).date()
        former = past.job(unit, 100, 90, guarantee_until=promised)
        return past.job(unit, 40, 30, comeback_of_id=former, comeback=said), former

    return make


def found(past):
    with past.shop.book.ask() as session:
        return guarantee_work(session, past.shop.book.zone)


def test_a_confirmed_comeback_that_asked_for_nothing_counts_without_a_decision(past, comeback):
    on_its_last_day, _ = comeback()
    comeback(until=41)
    comeback(until=None)
    comeback(said=ComebackStanding.PROPOSED)
    comeback(said=ComebackStanding.DENIED)
    past.job(past.unit(), 40, 30)
    assert found(past).undecided == {on_its_last_day}


def test_what_was_asked_for_and_not_given_back_is_no_guarantee_work(past, comeback, add):
    (charged, _), (credited, _), (partly, _), (nothing, _) = comeback(), comeback(), comeback(), comeback()
    first, second, third, _ = add(
        invoice(past, charged, 50_00, 1),
        invoice(past, credited, 50_00, 2),
        invoice(past, partly, 50_00, 3),
        invoice(past, nothing, 0, 4),
    )
    assert first
    add(credit(past, credited, 50_00, second, 1), credit(past, partly, 20_00, third, 2))
    assert found(past).undecided == {credited, nothing}


def test_a_decision_goes_before_what_the_book_makes_of_it(past, comeback, add):
    (free, one), (charged, two), (unsure, three) = (
        comeback(),
        comeback(),
        comeback(said=ComebackStanding.PROPOSED),
    )
    for job, former, said in (
        (free, one, Answer.CHARGED),
        (free, one, Answer.NO_CHARGE),
        (charged, two, Answer.CHARGED),
        (unsure, three, Answer.NO_INVOICE),
    ):
        add(t.GuaranteeAnswer(job_id=job, former_job_id=former, answer=said, at=past.at(1), by=past.shop.ine))
    work = found(past)
    assert (work.decided, work.undecided) == ({free, unsure}, set())
