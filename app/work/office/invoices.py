"""Invoices: worked out from the job without typing again, issued with a gapless number, then frozen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from sqlalchemy import func, select

from app.book.bench.job_facts import facts_of
from app.book.bench.job_rows import JobRows
from app.book.door import Book, Change
from app.book.office.job_lines import Drafted, Source, draft_of, drafted, standing_invoice
from app.book.office.shop_settings import settings_of
from app.book.tables import Customer, Invoice, InvoiceLine, Job
from app.trade.bench.gates import Asks
from app.trade.bench.holds import held_by, held_sentence
from app.trade.calendar.promise import local_day
from app.trade.office.invoice import Draft, LineKind, Totals, work_out
from app.trade.office.invoice_check import check_draft
from app.trade.office.issue_days import IssueDays
from app.trade.office.numbers import invoice_number
from app.trade.office.on_the_bill import LineOf
from app.trade.office.vat import VatCategory
from app.trade.refusal import FieldRefusal, Held, Refusal
from app.trade.sentence import Sentence
from app.trade.settings.prices import INVOICE_SERIES, PAY_WITHIN
from app.trade.settings.thresholds import thresholds_of
from app.work.office.frozen_lines import line_kept
from app.work.office.guarantees import Given, guarantee_given
from app.work.office.invoice_paper import invoice_facts
from app.work.papers.issuing import issue_paper, preview_paper
from app.work.papers.modification_block import modification_ids
from app.work.shop_book import Done


@dataclass(frozen=True, slots=True)
class InvoiceDraft:
    """What the invoice would be now. ``held``: why it may not be issued; ``fees_only``: an unsafe return.

    ``wrong`` is what cannot be right in it, by field as `check_draft` names them. ``behind``: what its lines come
    from, and the keys of the entries that can be struck out.
    """

    job_id: int
    draft: Draft
    totals: Totals
    held: tuple[Sentence, ...]
    wrong: Mapping[str, Sentence]
    fees_only: bool
    issued: tuple[tuple[int, str], ...]  # invoices of this job so far: id, number
    behind: Drafted

    @property
    def can_strike(self) -> bool:
        """Whether anything on it was put there by hand."""
        behind = self.behind
        entries = (behind.discount_ids, behind.surcharge_ids, behind.line_discount_ids, behind.no_vat_id)
        return any(entries) or any(of is LineOf.CHARGE for of, _ in behind.sources)

    def source(self, line: int) -> Source:
        """Where a line comes from."""
        return self.behind.sources[line]

    def charge_at(self, line: int) -> int | None:
        """The key of the charge behind a line, None for working time, parts and what was estimated."""
        of, key = self.source(line)
        return key if of is LineOf.CHARGE else None


@dataclass(frozen=True, slots=True)
class Issued:
    """An issued invoice and its paper, to be filed next."""

    id: int
    number: str
    paper_id: int


def draft_invoice(book: Book, job_id: int) -> InvoiceDraft:
    """The draft from everything on the job, with what holds it."""
    with book.ask() as session:
        job = session.get_one(Job, job_id)
        return draft_inside(JobRows(session, job), book.today())


def draft_inside(rows: JobRows, today: date) -> InvoiceDraft:
    """The same inside a question."""
    fees_only = rows.unsafe_return is not None
    behind = drafted(rows, fees_only=fees_only)
    draft = behind.draft
    facts = facts_of(rows.session, rows.job, today, rows)
    return InvoiceDraft(
        rows.job.id,
        draft,
        work_out(draft),
        held_by(facts, Asks.INVOICE, thresholds_of(rows.settings)),
        _wrong_in(rows, draft, fees_only),
        fees_only,
        tuple((row.id, invoice_number(row.series, row.number)) for row in rows.invoices),
        behind,
    )


def _wrong_in(rows: JobRows, draft: Draft, fees_only: bool) -> dict[str, Sentence]:
    """What cannot be right in a draft, working time that costs nothing because no rate was ever set, and VAT that a
    customer shall owe whose VAT number nobody knows (BR-AE-02; Directive 2006/112/EC, article 226 (4))."""
    wrong = check_draft(draft, fees_only=fees_only)
    if any(line.category is VatCategory.REVERSE_CHARGE for line in draft.lines):
        if not rows.session.get_one(Customer, rows.job.customer_id).vat_id:
            wrong["customer_vat_id"] = Sentence(
                "The customer owes the VAT of this invoice: enter their VAT number on the card first."
            )
    if any(line.kind is LineKind.LABOUR and not line.price for line in draft.lines):
        wrong["hourly_rate"] = Sentence(
            "Working time costs nothing yet. Set what an hour costs, or enter the time as not charged."
        )
    return wrong


def issue_invoice(book: Book, who: int, job_id: int, *, on: date | None = None) -> Done[Issued]:
    """Issue the invoice of a job: number, frozen lines and sums, and its paper's facts, in one action.

    Raises Held while a stop or gate holds it, FieldRefusal for lines that cannot stand and, under ``on``, for the date.
    """
    with book.change(who, Sentence("issued an invoice")) as change:
        session = change.session
        job = change.get(Job, job_id)
        rows = JobRows(session, job)
        facts = facts_of(session, job, change.today, rows)
        held = held_by(facts, Asks.INVOICE, thresholds_of(rows.settings))
        if held:
            raise Held(held_sentence(Asks.INVOICE), held)
        if standing_invoice(rows) is not None:
            raise Refusal(
                Sentence("This job is invoiced already."),
                Sentence("A wrong invoice is corrected by a credit note, not by a second invoice."),
            )
        fees_only = rows.unsafe_return is not None
        draft = draft_of(rows, fees_only=fees_only)
        if wrong_in := _wrong_in(rows, draft, fees_only):
            raise FieldRefusal(wrong_in)
        series = rows.settings[INVOICE_SERIES]
        day = on or change.today
        if wrong := invoice_days(book, rows, change.today).check(day):
            raise FieldRefusal({"on": wrong})
        totals = work_out(draft)
        given = guarantee_given(rows, facts, day)
        row = _freeze(change, job, draft, totals, series, day, fees_only, given)
        number = invoice_number(series, row.number)
        paper = issue_paper(
            change,
            job.id,
            invoice_facts(book.files, rows, facts, draft, totals, number, day),
            number=number,
            invoice_id=row.id,
            names_modifications=modification_ids(facts),
        )
    return Done(Issued(row.id, number, paper.id), change.changes)


def invoice_days(book: Book, rows: JobRows, today: date) -> IssueDays:
    """Which dates the next invoice may carry, were it of this job."""
    series = rows.settings[INVOICE_SERIES]
    previous = rows.session.scalar(select(func.max(Invoice.issued_on)).where(Invoice.series == series))
    return IssueDays(today, previous, local_day(rows.job.taken_in_at, book.zone))


def _freeze(
    change: Change,
    job: Job,
    draft: Draft,
    totals: Totals,
    series: str,
    day: date,
    fees_only: bool,
    given: Given | None,
) -> Invoice:
    row = change.add(
        Invoice(
            series=series,
            number=change.next_number(f"invoice {series}".strip()),
            job_id=job.id,
            customer_id=job.customer_id,
            issued_on=day,
            issued_at=change.now,
            issued_by=change.by,
            currency=draft.currency,
            lines_net=totals.lines_net.minor,
            discount=totals.discount.minor,
            charge=totals.charge.minor,
            net=totals.net.minor,
            vat=totals.vat.minor,
            gross=totals.gross.minor,
            prepaid=totals.prepaid.minor,
            rounding=totals.rounding.minor,
            due=totals.due.minor,
            groups=[[g.rate, g.category.value, g.base.minor, g.tax.minor, g.reason] for g in totals.groups],
            line_count=len(draft.lines),
            fees_only=fees_only,
            adjustments=adjusted(draft),
            guarantee_days=given.days if given else None,
            guarantee_until=given.until if given else None,
            guarantee_covers=given.covers if given else None,
            pay_by=day + timedelta(days=settings_of(change.session)[PAY_WITHIN]),
        )
    )
    change.session.add_all(
        InvoiceLine(invoice_id=row.id, position=position, **line_kept(line, net))
        for position, (line, net) in enumerate(zip(draft.lines, totals.line_nets, strict=True), start=1)
    )
    change.session.flush()
    return row


def adjusted(draft: Draft) -> list[list[Any]]:
    """Discounts (below zero) and charges on the whole, as they are kept with an invoice."""
    signed = [(-one.amount, one) for one in draft.discounts] + [(one.amount, one) for one in draft.charges]
    return [[amount, one.reason, one.vat_rate, one.category.value, one.vat_reason] for amount, one in signed]


def preview_invoice(book: Book, job_id: int, on: date | None = None) -> bytes:
    """The PDF of the invoice as it would be issued now or ``on`` a day, with "draft" behind every page."""
    with book.ask() as session:
        job = session.get_one(Job, job_id)
        rows = JobRows(session, job)
        draft = draft_of(rows, fees_only=rows.unsafe_return is not None)
        facts = facts_of(session, job, book.today(), rows)
        day = on or book.today()
        paper = invoice_facts(book.files, rows, facts, draft, work_out(draft), "", day, preview=True)
    return preview_paper(paper)
