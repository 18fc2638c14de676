"""Facts about credit notes in the book: of the whole, of lines, never twice, numbered by themselves, frozen."""

from __future__ import annotations

from datetime import timedelta

import pytest
from sqlalchemy import select

from app.trade.bench.kinds import Means
from app.trade.money import MICRO, Money
from app.trade.office.invoice import LineKind
from app.trade.office.vat import VatRate
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.settings import CREDIT_SERIES, INVOICE_SERIES

HALF = MICRO // 2


@pytest.fixture
def invoiced(worked):
    """Labour 1.5 h at 64.00 and a belt at 3.80 with 19 %, packing 5.00 with 7 %, 10.00 off: invoice 0001."""
    from app.work.office.charges import ChargeEntry, add_charge, give_discount
    from app.work.office.invoices import issue_invoice

    entry = ChargeEntry(kind=LineKind.FIXED_CHARGE, words="Packing", price=5 * MICRO, vat=VatRate(700))
    add_charge(worked.book, worked.who, worked.job, entry)
    give_discount(worked.book, worked.who, worked.job, "returning", 10 * MICRO, VatRate(1900))
    worked.invoice = issue_invoice(worked.book, worked.who, worked.job).value.id
    return worked


# Net 96.00 + 3.80 - 10.00 = 89.80 at 19 % (17.06) and 5.00 at 7 % (0.35): worked out by hand.
WHOLE = Money(11221, "EUR")


def note(bench, wanted, reason="wrong", **more):
    from app.work.office.credit_notes import issue_credit_note

    return issue_credit_note(bench.book, bench.who, bench.invoice, wanted, reason, **more).value


def view(bench):
    from tests.work.asked import credit_view

    return credit_view(bench.book, bench.invoice)


def page(bench):
    from app.work.office.invoice_view import invoice_view

    return invoice_view(bench.book, bench.job)


def all_left(bench):
    from app.trade.office.credit_note import everything

    return everything(view(bench).left)


def listed(bench):
    from app.work.office.invoice_lists import invoices

    return [(row.number, row.open.minor) for row in invoices(bench.book)]


def test_all_of_an_invoice_is_left_to_credit_at_first(invoiced):
    shown = view(invoiced)
    assert (shown.number, shown.job_id, shown.customer) == ("0001", invoiced.job, "Benedikt Arnsvik")
    assert [line.words for line in shown.invoice.lines] == [
        "Arm bearing cleaned",
        "Loading belt 22 mm",
        "Packing",
    ]
    assert [one.reason for one in shown.invoice.discounts] == ["returning"]
    assert shown.left.quantities == (1_500_000, MICRO, MICRO)
    assert shown.left.amount == shown.open == WHOLE
    assert shown.notes == ()


def test_one_line_goes_back_and_the_balance_of_the_job_with_it(invoiced):
    issued = note(invoiced, {2: MICRO}, "the packing was not used")
    assert issued.number == "C-0001"
    after = page(invoiced)
    assert after.open == WHOLE - Money(535, "EUR")
    assert after.credited_sum == Money(535, "EUR")
    assert [(one.number, one.due.minor, one.reason) for one in after.notes] == [
        ("C-0001", 535, "the packing was not used")
    ]
    assert after.invoice is not None
    assert listed(invoiced) == [("0001", 11221 - 535)]
    assert view(invoiced).left.quantities == (1_500_000, MICRO, 0)


def test_what_was_credited_is_never_credited_again(invoiced):
    note(invoiced, {0: HALF})
    with pytest.raises(FieldRefusal) as refused:
        note(invoiced, {0: MICRO + 1})
    assert set(refused.value.fields) == {"lines.0.quantity"}
    note(invoiced, {0: MICRO})
    note(invoiced, all_left(invoiced))
    assert view(invoiced).left.amount == Money(0, "EUR")
    with pytest.raises(FieldRefusal):
        note(invoiced, {0: 1})
    assert page(invoiced).open == page(invoiced).draft.totals.due
    assert sum(one.due.minor for one in page(invoiced).notes) == WHOLE.minor


def test_a_refused_note_takes_no_number(invoiced):
    with pytest.raises(FieldRefusal):
        note(invoiced, {}, "")
    assert note(invoiced, {1: MICRO}).number == "C-0001"
    assert note(invoiced, {2: MICRO}).number == "C-0002"


def test_the_note_is_frozen_with_its_lines_and_what_it_takes_of_the_discount(invoiced):
    from app.book.tables import CreditNote, CreditNoteLine

    note(invoiced, {1: MICRO})
    with invoiced.book.ask() as session:
        row = session.scalars(select(CreditNote)).one()
        line = session.scalars(select(CreditNoteLine)).one()
        assert (row.series, row.number, row.invoice_id, row.job_id) == (
            "C",
            1,
            invoiced.invoice,
            invoiced.job,
        )
        # 3.80 of 99.80 carries 10.00 x 3.80 / 99.80 = 0.38 of the discount; 3.42 at 19 % is 0.65.
        assert row.adjustments == [[-38, "returning", 1900, "standard", "", 0]]
        assert (row.lines_net, row.net, row.vat, row.gross, row.due) == (380, 342, 65, 407, 407)
        assert (line.invoice_position, line.words, line.quantity, line.net) == (
            2,
            "Loading belt 22 mm",
            MICRO,
            380,
        )


def test_the_filed_paper_says_which_invoice_it_corrects(invoiced):
    from app.work.papers.issuing import paper_pdf
    from tests.papers.reading import whole
    from tests.work.asked import papers_of_job

    issued = note(invoiced, {2: MICRO}, "<b>Packing</b> & more was not used")
    paper = paper_pdf(invoiced.book, issued.paper_id)
    assert paper.kind == "credit note"
    assert paper.title == "Credit note C-0001"
    text = whole(paper.pdf)
    assert "Corrects invoice 0001" in text
    assert "<b>Packing</b> & more was not used" in text
    assert [one.kind for one in papers_of_job(invoiced.book, invoiced.job)][-2:] == ["invoice", "credit note"]
    assert page(invoiced).invoice.paper_id != issued.paper_id


def test_a_preview_is_a_draft_and_issues_nothing(invoiced):
    from app.work.office.credit_notes import preview_credit_note
    from tests.papers.reading import whole

    text = whole(preview_credit_note(invoiced.book, invoiced.invoice, {2: MICRO}, "not used"))
    assert "draft" in text
    assert page(invoiced).notes == ()


def test_money_paid_too_much_is_paid_out_with_the_note(invoiced):
    from app.work.office.payments import take_payment

    take_payment(invoiced.book, invoiced.who, invoiced.job, WHOLE, Means.CARD)
    note(invoiced, {2: MICRO}, pay_out=Means.CASH)
    after = page(invoiced)
    assert after.open == Money(0, "EUR")
    assert [(one.kind, one.amount.minor, one.means) for one in after.payments][-1] == (
        "refund",
        -535,
        Means.CASH,
    )


def test_nothing_is_paid_out_while_the_invoice_is_open(invoiced):
    with pytest.raises(FieldRefusal) as refused:
        note(invoiced, {2: MICRO}, pay_out=Means.CASH)
    assert set(refused.value.fields) == {"pay_out"}
    assert page(invoiced).notes == ()


def test_what_was_paid_too_much_can_be_given_back_later(invoiced):
    from app.work.office.payments import give_back, take_payment

    take_payment(invoiced.book, invoiced.who, invoiced.job, WHOLE, Means.CARD)
    note(invoiced, {2: MICRO})
    assert page(invoiced).open == Money(-535, "EUR")
    give_back(invoiced.book, invoiced.who, invoiced.job, Money(535, "EUR"), Means.TRANSFER)
    assert page(invoiced).open == Money(0, "EUR")


@pytest.mark.parametrize(
    ("paid", "means", "says"),
    [
        (0, None, "It comes off what is open on the job. To pay remains 106.86 EUR."),
        (10686, None, "It comes off what was open on the job. Nothing remains to be paid."),
        (11221, None, "You have paid 5.35 EUR too much; we give it back to you."),
        (11221, Means.CASH, "Paid out in cash on"),
        (11221, Means.TRANSFER, "Paid back by transfer on"),
    ],
)
def test_the_paper_says_how_the_money_reaches_the_customer(invoiced, paid, means, says):
    from app.work.office.payments import take_payment
    from app.work.papers.issuing import paper_pdf
    from tests.papers.reading import whole

    if paid:
        take_payment(invoiced.book, invoiced.who, invoiced.job, Money(paid, "EUR"), Means.CARD)
    issued = note(invoiced, {2: MICRO}, pay_out=means)
    text = whole(paper_pdf(invoiced.book, issued.paper_id).pdf)
    assert says in text
    assert ("received: signature of customer" in text) == (means is Means.CASH)


def test_after_a_note_of_the_whole_the_job_is_invoiced_anew(invoiced):
    from app.work.office.charges import ChargeEntry, add_charge
    from app.work.office.invoice_lists import invoices, jobs_to_invoice
    from app.work.office.invoices import issue_invoice
    from app.work.office.payments import take_payment

    take_payment(invoiced.book, invoiced.who, invoiced.job, Money(5000, "EUR"), Means.CASH)
    entry = ChargeEntry(kind=LineKind.FEE, words="Storage", price=2 * MICRO, vat=VatRate(1900))
    with pytest.raises(Refusal, match="invoiced already"):
        add_charge(invoiced.book, invoiced.who, invoiced.job, entry)
    note(invoiced, all_left(invoiced), "wrong address")
    between = page(invoiced)
    assert between.credited_sum == Money(0, "EUR")
    assert between.invoice is None
    assert between.changes
    assert [one.number for one in between.credited] == ["0001"]
    assert between.draft.totals.prepaid == Money(5000, "EUR")
    assert jobs_to_invoice(invoiced.book) == ()  # it is on the bench still
    add_charge(invoiced.book, invoiced.who, invoiced.job, entry)
    second = issue_invoice(invoiced.book, invoiced.who, invoiced.job).value
    after = page(invoiced)
    assert second.number == after.invoice.number == "0002"
    assert after.open == WHOLE + Money(238, "EUR") - Money(5000, "EUR")
    assert listed(invoiced) == [("0002", after.open.minor), ("0001", 0)]
    assert [row.credited for row in invoices(invoiced.book)] == [False, True]
    with pytest.raises(Refusal):
        issue_invoice(invoiced.book, invoiced.who, invoiced.job)


def test_a_note_never_bears_an_earlier_date_than_its_invoice_or_the_note_before(invoiced):
    with pytest.raises(Refusal, match="cannot be earlier"):
        note(invoiced, {2: MICRO}, on=page(invoiced).invoice.issued_on - timedelta(days=1))
    with pytest.raises(Refusal, match="not come yet"):
        note(invoiced, {2: MICRO}, on=page(invoiced).invoice.issued_on + timedelta(days=1))


def test_invoices_and_notes_never_share_their_letters(invoiced):
    from app.work.office.settings import change_settings

    with pytest.raises(FieldRefusal) as refused:
        change_settings(invoiced.book, invoiced.who, {CREDIT_SERIES: ""})
    assert set(refused.value.fields) == {CREDIT_SERIES.key}
    with pytest.raises(FieldRefusal) as refused:
        change_settings(invoiced.book, invoiced.who, {INVOICE_SERIES: "C"})
    assert set(refused.value.fields) == {INVOICE_SERIES.key}
    change_settings(invoiced.book, invoiced.who, {INVOICE_SERIES: "R", CREDIT_SERIES: "K"})
    assert note(invoiced, {2: MICRO}).number == "K-0001"


def test_a_shop_whose_invoices_had_these_letters_before_is_told_to_choose(invoiced):
    from app.book.tables import SettingKept
    from app.trade.sentence import Sentence

    with invoiced.book.change(invoiced.who, Sentence("as an older program let it be")) as change:
        change.add(SettingKept(key=INVOICE_SERIES.key, value="C"))
    with pytest.raises(Refusal, match="different letters"):
        note(invoiced, {2: MICRO})


def test_a_ready_job_whose_invoice_was_credited_waits_for_its_invoice_again(invoiced):
    from app.work.counter.jobs_list import shop_counts
    from app.work.office.invoice_lists import jobs_to_invoice
    from tests.work.office.test_invoice_lists import set_ready

    set_ready(invoiced)
    assert jobs_to_invoice(invoiced.book) == ()
    note(invoiced, all_left(invoiced))
    assert [row.job_id for row in jobs_to_invoice(invoiced.book)] == [invoiced.job]
    assert shop_counts(invoiced.book).to_invoice == 1


def test_an_invoice_at_no_charge_is_taken_back_and_the_job_is_charged_after_all(worked):
    from app.work.office.charges import give_discount
    from app.work.office.invoice_lists import invoices, jobs_to_invoice
    from app.work.office.invoices import draft_invoice, issue_invoice
    from tests.work.office.test_invoice_lists import set_ready

    base = draft_invoice(worked.book, worked.job).totals.net.minor
    give_discount(worked.book, worked.who, worked.job, "guarantee", base * MICRO // 100, VatRate(1900))
    worked.invoice = issue_invoice(worked.book, worked.who, worked.job).value.id
    set_ready(worked)
    assert (jobs_to_invoice(worked.book), invoices(worked.book)[0].credited) == ((), False)
    note(worked, all_left(worked), "not under guarantee")
    assert invoices(worked.book)[0].credited
    assert page(worked).invoice is None
    assert [row.job_id for row in jobs_to_invoice(worked.book)] == [worked.job]
    assert issue_invoice(worked.book, worked.who, worked.job).value.number == "0002"
    with pytest.raises(FieldRefusal):
        note(worked, {0: MICRO}, "once more")


def test_an_invoice_of_nothing_after_one_that_was_credited_stands(invoiced):
    from app.work.office.charges import give_discount
    from app.work.office.invoice_lists import jobs_to_invoice
    from app.work.office.invoices import draft_invoice, issue_invoice
    from tests.work.office.test_invoice_lists import set_ready

    note(invoiced, all_left(invoiced))
    for group in draft_invoice(invoiced.book, invoiced.job).totals.groups:
        amount = group.base.minor * MICRO // 100
        give_discount(invoiced.book, invoiced.who, invoiced.job, "guarantee", amount, VatRate(group.rate))
    issue_invoice(invoiced.book, invoiced.who, invoiced.job)
    set_ready(invoiced)
    assert jobs_to_invoice(invoiced.book) == ()
