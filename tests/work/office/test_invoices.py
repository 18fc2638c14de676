"""Invoices: worked out from the job, held by stops and gates, issued once with a gapless number."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from app.book.tables import Invoice, InvoiceLine, Paper
from app.trade.bench.gates import Asks
from app.trade.money import MICRO, Money
from app.trade.office.invoice import LineKind
from app.trade.office.vat import VatCategory, VatRate
from app.trade.refusal import FieldRefusal, Held, Refusal
from app.trade.settings import HOURLY_RATE, INVOICE_SERIES, ROUND_DUE_TO, VAT_RATES
from app.work.bench.work_done import put_part_back, record_labour, use_part
from app.work.counter.requests import note_unsafe_request
from app.work.counter.taking_in import receive_unit
from app.work.office.charges import ChargeEntry, add_charge
from app.work.office.invoices import draft_invoice, issue_invoice, preview_invoice
from app.work.office.payments import take_payment
from app.work.office.settings import change_settings
from app.work.office.stock import part_moves
from app.work.papers.issuing import paper_pdf
from tests.work.office.conftest import LARCH

FEE = ChargeEntry(kind=LineKind.FEE, words="Diagnosis", price=40 * MICRO, vat=VatRate(1900))


def rows(bench, table):
    with bench.book.ask() as session:
        found = list(session.query(table))
        session.expunge_all()
        return found


def test_the_draft_needs_nothing_typed_again(worked):
    drafted = draft_invoice(worked.book, worked.job)
    labour, belt = drafted.draft.lines
    assert (labour.words, labour.kind, labour.quantity, labour.price) == (
        "Arm bearing cleaned",
        LineKind.LABOUR,
        1_500_000,
        64 * MICRO,
    )
    assert (belt.words, belt.quantity, belt.price) == ("Loading belt 22 mm", MICRO, 3_800_000)
    assert (drafted.totals.net, drafted.totals.gross) == (Money(9980, "EUR"), Money(11876, "EUR"))
    assert (drafted.held, drafted.wrong, drafted.issued) == ((), {}, ())
    assert drafted.charge_at(0) is None


def test_a_part_put_back_is_not_charged(worked):
    move = next(m for m in part_moves(worked.book, worked.part) if m.kind == "used")
    put_part_back(worked.book, worked.who, move.id)
    assert [line.kind for line in draft_invoice(worked.book, worked.job).draft.lines] == [LineKind.LABOUR]


def test_time_not_charged_stands_on_no_invoice(bench):
    record_labour(bench.book, bench.who, bench.job, "Looked again", Decimal(1), charged=False)
    assert draft_invoice(bench.book, bench.job).draft.lines == ()


def test_the_shop_without_vat_gives_its_reason_on_labour_and_parts(shop):
    reason = "small business, no VAT is charged"
    exempt = VatRate(0, VatCategory.EXEMPT, reason)
    change_settings(shop.book, shop.ine, {HOURLY_RATE: 60 * MICRO, VAT_RATES: (exempt,)})
    job = receive_unit(shop.book, shop.mirr, LARCH).value.job_id
    record_labour(shop.book, shop.ine, job, "Lens cleaned", Decimal("0.5"))
    (line,) = draft_invoice(shop.book, job).draft.lines
    assert (line.category, line.vat_reason) == (VatCategory.EXEMPT, reason)


def test_a_rate_that_left_the_settings_stays_on_what_was_recorded(worked):
    change_settings(worked.book, worked.who, {VAT_RATES: (VatRate(2000),)})
    assert {line.vat_rate for line in draft_invoice(worked.book, worked.job).draft.lines} == {1900}


def test_what_was_paid_before_is_taken_off(worked):
    from app.trade.bench.kinds import Means

    take_payment(worked.book, worked.who, worked.job, Money(2000, "EUR"), Means.CASH)
    assert draft_invoice(worked.book, worked.job).totals.due == Money(9876, "EUR")


def test_the_balance_is_rounded_to_the_smallest_coin_of_the_shop(worked):
    change_settings(worked.book, worked.who, {ROUND_DUE_TO: 5})
    totals = draft_invoice(worked.book, worked.job).totals
    assert (totals.gross, totals.rounding, totals.due) == (
        Money(11876, "EUR"),
        Money(-1, "EUR"),
        Money(11875, "EUR"),
    )


def test_issuing_freezes_number_lines_sums_and_the_facts_of_the_paper(worked):
    done = issue_invoice(worked.book, worked.who, worked.job)
    (invoice,), lines, papers = rows(worked, Invoice), rows(worked, InvoiceLine), rows(worked, Paper)
    assert (done.value.number, invoice.number, invoice.issued_on) == ("0001", 1, date(2026, 3, 12))
    assert (invoice.gross, invoice.due, invoice.line_count) == (11876, 11876, 2)
    assert [line.net for line in lines] == [9600, 380]
    assert invoice.groups == [[1900, "standard", 9980, 1896, ""]]
    paper = next(row for row in papers if row.id == done.value.paper_id)
    assert (paper.kind, paper.title, paper.invoice_id) == ("invoice", "Invoice 0001", invoice.id)
    assert {"invoices", "invoice_lines", "papers"} <= done.changes.kinds
    assert draft_invoice(worked.book, worked.job).issued == ((invoice.id, "0001"),)


def test_the_filed_paper_is_a_pdf_and_stays_the_same(worked):
    paper = issue_invoice(worked.book, worked.who, worked.job).value.paper_id
    first = paper_pdf(worked.book, paper).pdf
    assert first.startswith(b"%PDF-")
    change_settings(worked.book, worked.who, {HOURLY_RATE: 90 * MICRO})
    assert paper_pdf(worked.book, paper).pdf == first


def test_a_job_is_invoiced_once(worked):
    issue_invoice(worked.book, worked.who, worked.job)
    with pytest.raises(Refusal, match="invoiced already"):
        issue_invoice(worked.book, worked.who, worked.job)
    assert len(rows(worked, Invoice)) == 1


def test_the_series_of_the_settings_stands_before_the_number(worked):
    change_settings(worked.book, worked.who, {INVOICE_SERIES: "R"})
    assert issue_invoice(worked.book, worked.who, worked.job).value.number == "R-0001"


def test_an_empty_job_gives_no_invoice_and_takes_no_number(bench):
    with pytest.raises(FieldRefusal) as refusal:
        issue_invoice(bench.book, bench.who, bench.job)
    assert set(refusal.value.fields) == {"lines"}
    record_labour(bench.book, bench.who, bench.job, "Cleaned", Decimal(1))
    assert issue_invoice(bench.book, bench.who, bench.job).value.number == "0001"


def test_an_hour_entered_before_there_was_a_rate_costs_what_it_costs_now(bench):
    change_settings(bench.book, bench.who, {HOURLY_RATE: 0})
    record_labour(bench.book, bench.who, bench.job, "Cleaned", Decimal(1))
    assert set(draft_invoice(bench.book, bench.job).wrong) == {"hourly_rate"}
    with pytest.raises(FieldRefusal, match="hour"):
        issue_invoice(bench.book, bench.who, bench.job)
    change_settings(bench.book, bench.who, {HOURLY_RATE: 70 * MICRO})
    assert draft_invoice(bench.book, bench.job).totals.net == Money(7000, "EUR")
    assert draft_invoice(bench.book, bench.job).wrong == {}


def test_a_stop_holds_the_invoice_whoever_asks(worked):
    note_unsafe_request(worked.book, worked.who, worked.job, "bridge the fuse")
    drafted = draft_invoice(worked.book, worked.job)
    assert len(drafted.held) == 1
    with pytest.raises(Held) as held:
        issue_invoice(worked.book, worked.who, worked.job)
    assert held.value.reasons == drafted.held
    assert rows(worked, Invoice) == []


def test_an_invoice_is_never_dated_before_the_one_before_it_nor_ahead_of_time(worked):
    issue_invoice(worked.book, worked.who, worked.job)
    another = replace(LARCH, serial="0420 611")
    other = receive_unit(worked.book, worked.shop.mirr, another).value.job_id
    use_part(worked.book, worked.who, other, worked.part, Decimal(1))
    for day in (date(2026, 3, 11), date(2026, 3, 13)):
        with pytest.raises(Refusal):
            issue_invoice(worked.book, worked.who, other, on=day)
    assert issue_invoice(worked.book, worked.who, other, on=date(2026, 3, 12)).value.number == "0002"


def test_a_preview_is_a_draft_and_issues_nothing(worked):
    add_charge(worked.book, worked.who, worked.job, FEE)
    assert preview_invoice(worked.book, worked.job).startswith(b"%PDF-")
    assert rows(worked, Invoice) == []


def test_a_player_returned_unsafe_is_invoiced_for_fees_only(worked, monkeypatch):
    from app.work.office import invoices

    add_charge(worked.book, worked.who, worked.job, FEE)
    text = ChargeEntry(kind=LineKind.TEXT, words="The player is unsafe.", vat=VatRate(1900))
    add_charge(worked.book, worked.who, worked.job, text)
    add_charge(
        worked.book,
        worked.who,
        worked.job,
        ChargeEntry(kind=LineKind.FIXED_CHARGE, words="Packing", price=MICRO, vat=VatRate(1900)),
    )
    decide(worked)
    drafted = draft_invoice(worked.book, worked.job)
    assert drafted.fees_only
    assert [line.words for line in drafted.draft.lines] == ["Diagnosis", "The player is unsafe."]
    assert drafted.totals.net == Money(4000, "EUR")
    assert [drafted.charge_at(0), drafted.charge_at(1)] == [key for _, key in drafted.behind.sources]
    monkeypatch.setattr(invoices, "held_by", lambda facts, asks, thresholds: ())
    issued = issue_invoice(worked.book, worked.who, worked.job)
    assert rows(worked, Invoice)[0].fees_only
    assert paper_pdf(worked.book, issued.value.paper_id).pdf.startswith(b"%PDF-")


def decide(bench):
    """The owner's decision, as the row that it leaves."""
    from app.book.tables import UnsafeReturnKept
    from app.trade.sentence import Sentence

    with bench.book.change(bench.who, Sentence("decided")) as change:
        change.add(
            UnsafeReturnKept(
                job_id=bench.job, reason="mains side open", law_looked_at=True, at=change.now, by=change.by
            )
        )


def test_asking_what_holds_it_is_the_same_question_as_issuing(worked):
    """The page and the deed may not differ, so both ask the one rule."""
    from app.work.office import invoices

    asked = []
    real = invoices.held_by
    try:
        invoices.held_by = lambda facts, asks, thresholds: asked.append(asks) or real(facts, asks, thresholds)
        draft_invoice(worked.book, worked.job)
        issue_invoice(worked.book, worked.who, worked.job)
    finally:
        invoices.held_by = real
    assert asked == [Asks.INVOICE, Asks.INVOICE]
