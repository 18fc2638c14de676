"""The Office place: what waits for the owner, in which order, and where Enter leads."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import pytest

from app.book import tables as t
from app.screens.kit.buttons import Button
from app.trade.bench.flag import Closing, Level, Subject
from app.trade.bench.kinds import Means
from app.trade.bench.stages import Mark, Outcome, Stage
from app.trade.money import Money
from app.trade.sentence import Sentence
from app.work.counter.requests import note_unsafe_request
from app.work.office.invoices import issue_invoice
from app.work.office.overview import owner_sees
from app.work.office.part_orders import OrderEntry, order_part
from app.work.office.parts import PartEntry, parts, save_part
from app.work.office.payments import take_payment
from app.work.office.shop_lists import InstrumentLine, save_instrument
from app.work.people.staff import add_staff
from tests.screens.office.conftest import lines


def stage(bench, stage, **more):
    with bench.book.change(bench.who, Sentence("moved")) as change:
        job = change.get(t.Job, bench.job)
        job.stage = stage
        for name, value in more.items():
            setattr(job, name, value)
        if stage is Stage.READY:
            job.ready_at = change.now
        if stage is Stage.HANDED_BACK:
            job.handed_back_at, job.outcome = change.now, Outcome.MENDED


def owner_flag(bench, subject=Subject.JOB, **more):
    """A caution as the rules leave it, which are not asked here: they would clear what no fact raises."""
    said = Sentence("coil current up")
    bench.book._settle = ()
    with bench.book.change(bench.who, Sentence("raised")) as change:
        change.add(
            t.Flag(
                rule="coil_up_big",
                rule_version=1,
                level=Level.CAUTION,
                subject=subject,
                word=said,
                sentence=said,
                clears=said,
                closing=Closing.SEEN,
                owner_sees=True,
                needs=Mark.OWNER,
                raised_at=change.now,
                detail=str(more),
                **more,
            )
        )


def test_an_empty_office_says_that_nothing_waits_and_offers_the_rest(office):
    page = office.open("office")
    assert not page.empty.isHidden()
    assert page.table.isHidden()
    assert isinstance(office.focus, Button)
    office.press("Return")
    assert office.page.title == "Which repairs come back"


def test_a_ready_job_is_to_be_invoiced_and_enter_opens_its_invoice(office, worked):
    stage(worked, Stage.READY)
    page = office.open("office")
    assert lines(page.table) == [
        "To invoice: 1 job",
        [
            "1001",
            "Benedikt Arnsvik Quellmar Larch 2",
            "none yet",
            "ready Thu\u00a012\u00a0Mar",
            "118.76 EUR",
        ],
    ]
    assert "1 job to invoice." in office.sees()
    office.press("Return")
    assert office.page.title == "Invoice of job 1001"


def test_ctrl_i_opens_the_invoice_of_the_marked_line(office, worked):
    stage(worked, Stage.READY)
    office.open("office")
    office.press("Ctrl+I")
    assert office.page.title == "Invoice of job 1001"


def test_what_holds_a_ready_job_stands_beside_it(office, worked):
    note_unsafe_request(worked.book, worked.who, worked.job, "bridge the fuse")
    stage(worked, Stage.READY)
    row = lines(office.open("office").table)[1]
    assert "bridge the fuse" in row[2]


def test_invoices_stand_by_age_and_overdue_ones_first(office, worked):
    issue_invoice(worked.book, worked.who, worked.job)
    page = office.open("office")
    assert lines(page.table)[0] == "Open, not due yet: 1 invoice, 118.76\u00a0EUR"
    assert lines(page.table)[1][3] == "to pay by Thu\u00a026\u00a0Mar"
    assert "1 invoice open, 118.76\u00a0EUR." in office.sees()
    office.shop.clock.advance(days=15)
    page.reload()
    office.settle()
    assert lines(page.table)[0] == "Overdue: 1 invoice, 118.76\u00a0EUR"
    assert lines(page.table)[1][3] == "1 day late Thu\u00a026\u00a0Mar"
    assert "1 is overdue." in office.sees()
    office.shop.clock.advance(days=2)
    page.reload()
    office.settle()
    assert lines(page.table)[1][3].startswith("3 days late")


def test_money_paid_too_much_is_to_be_given_back(office, worked):
    take_payment(worked.book, worked.who, worked.job, Money(12000, "EUR"), Means.CASH)
    issue_invoice(worked.book, worked.who, worked.job)
    page = office.open("office")
    assert lines(page.table)[0] == "Paid too much, to give back: 1 invoice, \u22121.24\u00a0EUR"
    assert lines(page.table)[1][4] == "\u22121.24 EUR"


def test_a_player_that_went_without_an_invoice_stands_last(office, worked):
    stage(worked, Stage.HANDED_BACK)
    page = office.open("office")
    assert lines(page.table) == [
        "Handed back without an invoice: 1 job",
        [
            "1001",
            "Benedikt Arnsvik Quellmar Larch 2",
            "none mended",
            "handed back Thu\u00a012\u00a0Mar",
            "",
        ],
    ]


@pytest.mark.parametrize("subject", [Subject.JOB, Subject.UNIT])
def test_a_caution_for_the_owner_leads_to_the_job(office, bench, subject):
    owner_flag(bench, subject, **({"job_id": bench.job} if subject is Subject.JOB else {"unit_id": 1}))
    page = office.open("office")
    assert lines(page.table)[0] == "For the owner to see: 1 job"
    assert lines(page.table)[1][2] == "coil current up"
    office.press("Return")
    assert (type(office.page).__name__, office.page.key) == ("Blank", bench.job)


def test_several_cautions_of_one_job_stand_in_one_line(office, bench):
    owner_flag(bench, job_id=bench.job)
    owner_flag(bench, Subject.UNIT, unit_id=1)
    (line,) = owner_sees(bench.book)
    assert len(line.words) == 1  # both say the same


def order_late(office):
    """A belt that should have come yesterday."""
    code = f"B-{len(parts(office.book))}"
    part = save_part(office.book, office.shop.ine, PartEntry(code=code, words="Belt", price=1)).value
    yesterday = office.book.today() - timedelta(days=1)
    entry = OrderEntry(part_id=part, quantity=Decimal(1), ordered_on=yesterday, expected_on=yesterday)
    order_part(office.book, office.shop.ine, entry)


def test_beside_the_links_stands_what_has_to_be_seen_to(office):
    save_instrument(
        office.book, office.shop.ine, InstrumentLine(name="Appliance tester", due_on=date(2026, 3, 1))
    )
    add_staff(office.book, office.shop.ine, "Odile Varenne")
    order_late(office)
    office.open("office")
    assert "1 overdue" in office.sees()
    assert "1 has no PIN yet" in office.sees()
    assert "1 order is late" in office.sees()
    save_instrument(office.book, office.shop.ine, InstrumentLine(name="Meter", due_on=date(2026, 3, 1)))
    add_staff(office.book, office.shop.ine, "Jun Okeland")
    order_late(office)
    office.page.reload()
    office.settle()
    assert "2 overdue" in office.sees()
    assert "2 have no PIN yet" in office.sees()
    assert "2 orders are late" in office.sees()


def test_on_a_narrow_page_the_links_stand_in_a_line(office):
    page = office.open("office")
    assert page.links.isHidden()
    office.window.resize(1024, 700)
    office.settle()
    assert page.links.isVisible()
    assert page.beside.isHidden()
    office.push(page.links.findChildren(Button)[1])
    assert office.page.title == "How long repairs last"
    office.desk.back()
    office.settle()
    office.push(page.links.findChildren(Button)[9])
    assert office.page.title == "Invoices"


def test_a_payment_taken_elsewhere_is_seen_at_once(office, worked):
    issue_invoice(worked.book, worked.who, worked.job)
    page = office.open("office")
    office.desk.announce(
        take_payment(worked.book, worked.who, worked.job, Money(11876, "EUR"), Means.CARD).changes
    )
    office.settle()
    assert lines(page.table) == []
    assert not page.empty.isHidden()


def test_many_of_a_kind_are_counted(office, worked):
    from dataclasses import replace

    from app.work.counter.taking_in import receive_unit
    from tests.work.office.conftest import LARCH

    other = receive_unit(worked.book, worked.who, replace(LARCH, serial="7")).value.job_id
    stage(worked, Stage.READY)
    worked.job = other
    stage(worked, Stage.READY)
    page = office.open("office")
    assert lines(page.table)[0] == "To invoice: 2 jobs"
    assert "2 jobs to invoice." in office.sees()
