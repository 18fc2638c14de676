"""Invoices: worked out from the job without typing again, issued with a gapless number, then frozen."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import func, select

from app.book.bench.job_facts import facts_of
from app.book.bench.job_rows import JobRows
from app.book.door import Book, Change
from app.book.office.job_lines import draft_of, work_so_far
from app.book.tables import Customer, Invoice, InvoiceLine, Job, Payment, Unit
from app.trade.bench.gates import Asks
from app.trade.bench.holds import held_by, held_sentence
from app.trade.bench.stages import Stage
from app.trade.money import Money
from app.trade.office.invoice import Draft, Totals, work_out
from app.trade.office.invoice_check import refuse_wrong
from app.trade.office.numbers import check_issue_day, invoice_number
from app.trade.refusal import Held, Refusal
from app.trade.sentence import Sentence
from app.trade.settings.prices import INVOICE_SERIES
from app.trade.settings.thresholds import thresholds_of
from app.work.office.invoice_paper import invoice_facts
from app.work.papers.issuing import issue_paper, preview_paper
from app.work.papers.modification_block import modification_ids
from app.work.shop_book import Done


@dataclass(frozen=True, slots=True)
class InvoiceDraft:
    """What the invoice would be now. ``held``: why it may not be issued; ``fees_only``: an unsafe return."""

    job_id: int
    draft: Draft
    totals: Totals
    held: tuple[Sentence, ...]
    fees_only: bool
    issued: tuple[tuple[int, str], ...]  # invoices of this job so far: id, number


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
        rows = JobRows(session, job)
        fees_only = rows.unsafe_return is not None
        draft = draft_of(rows, fees_only=fees_only)
        facts = facts_of(session, job, book.today(), rows)
        return InvoiceDraft(
            job_id,
            draft,
            work_out(draft),
            held_by(facts, Asks.INVOICE, thresholds_of(rows.settings)),
            fees_only,
            tuple(
                (row.id, invoice_number(row.series, row.number))
                for row in session.scalars(
                    select(Invoice).where(Invoice.job_id == job_id).order_by(Invoice.id)
                )
            ),
        )


def issue_invoice(book: Book, who: int, job_id: int, *, on: date | None = None) -> Done[Issued]:
    """Issue the invoice of a job: number, frozen lines and sums, and its paper's facts, in one action.

    Raises Held while a stop or gate holds it, FieldRefusal for lines that cannot stand, Refusal for the date.
    """
    with book.change(who, Sentence("issued an invoice")) as change:
        session = change.session
        job = change.get(Job, job_id)
        rows = JobRows(session, job)
        facts = facts_of(session, job, change.today, rows)
        held = held_by(facts, Asks.INVOICE, thresholds_of(rows.settings))
        if held:
            raise Held(held_sentence(Asks.INVOICE), held)
        if rows.invoices:
            raise Refusal(
                Sentence("This job is invoiced already."),
                Sentence("A wrong invoice is corrected by a credit note, not by a second invoice."),
            )
        fees_only = rows.unsafe_return is not None
        draft = draft_of(rows, fees_only=fees_only)
        refuse_wrong(draft, fees_only=fees_only)
        series = rows.settings[INVOICE_SERIES]
        day = on or change.today
        previous = session.scalar(select(func.max(Invoice.issued_on)).where(Invoice.series == series))
        if wrong := check_issue_day(day, previous, change.today):
            raise Refusal(wrong)
        totals = work_out(draft)
        row = _freeze(change, job, draft, totals, series, day, fees_only)
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


def _freeze(
    change: Change, job: Job, draft: Draft, totals: Totals, series: str, day: date, fees_only: bool
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
        )
    )
    for position, (line, net) in enumerate(zip(draft.lines, totals.line_nets, strict=True), start=1):
        change.session.add(
            InvoiceLine(
                invoice_id=row.id,
                position=position,
                kind=line.kind.value,
                words=line.words,
                quantity=line.quantity,
                unit=line.unit,
                price=line.price,
                price_with_vat=line.price_with_vat,
                discount=line.discount,
                discount_reason=line.discount_reason,
                net=net.minor,
                vat_rate=line.vat_rate,
                category=line.category,
                vat_reason=line.vat_reason,
            )
        )
        change.session.flush()
    return row


def preview_invoice(book: Book, job_id: int) -> bytes:
    """The PDF of the invoice as it would be issued now, with "draft" behind every page."""
    with book.ask() as session:
        job = session.get_one(Job, job_id)
        rows = JobRows(session, job)
        draft = draft_of(rows, fees_only=rows.unsafe_return is not None)
        facts = facts_of(session, job, book.today(), rows)
        paper = invoice_facts(book.files, rows, facts, draft, work_out(draft), "", book.today(), preview=True)
    return preview_paper(paper)


@dataclass(frozen=True, slots=True)
class InvoiceRow:
    """One invoice in the Office's list."""

    id: int
    number: str
    job_id: int
    job_number: int
    customer: str
    issued_on: date
    gross: Money
    open: Money
    days: int  # since it was issued


@dataclass(frozen=True, slots=True)
class ToInvoice:
    """A job that is ready or handed back and has no invoice yet."""

    job_id: int
    number: int
    customer: str
    player: str
    ready_at: datetime | None
    so_far: Money


def invoices(book: Book, *, open_only: bool = False) -> tuple[InvoiceRow, ...]:
    """Invoices, newest first, with what is open on each."""
    with book.ask() as session:
        paid_on = (
            select(Payment.job_id, func.sum(Payment.amount).label("paid")).group_by(Payment.job_id).subquery()
        )
        due = Invoice.gross + Invoice.rounding - func.coalesce(paid_on.c.paid, 0)
        question = (
            select(Invoice, Job.number, Customer.name, due)
            .join(Job, Job.id == Invoice.job_id)
            .join(Customer, Customer.id == Invoice.customer_id)
            .outerjoin(paid_on, paid_on.c.job_id == Invoice.job_id)
            .order_by(Invoice.series, Invoice.number.desc())
        )
        if open_only:
            question = question.where(due != 0)
        today = book.today()
        return tuple(
            InvoiceRow(
                row.id,
                invoice_number(row.series, row.number),
                row.job_id,
                job_number,
                name,
                row.issued_on,
                Money(row.gross, row.currency),
                Money(rest, row.currency),
                (today - row.issued_on).days,
            )
            for row, job_number, name, rest in session.execute(question)
        )


def jobs_to_invoice(book: Book) -> tuple[ToInvoice, ...]:
    """Jobs that are ready and not invoiced, oldest first."""
    with book.ask() as session:
        found = session.execute(
            select(Job, Customer.name, Unit.maker, Unit.model)
            .join(Customer, Customer.id == Job.customer_id)
            .join(Unit, Unit.id == Job.unit_id)
            .outerjoin(Invoice, Invoice.job_id == Job.id)
            .where(Job.stage == Stage.READY, Invoice.id.is_(None))
            .order_by(Job.ready_at, Job.number)
        ).all()
        return tuple(
            ToInvoice(
                job.id,
                job.number,
                name,
                f"{maker} {model}",
                job.ready_at,
                work_so_far(JobRows(session, job)),
            )
            for job, name, maker, model in found
        )
