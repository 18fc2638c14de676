"""The Office's lists of money: jobs to invoice, players that went without an invoice, invoices and what is open."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import case, exists, func, or_, select

from app.book.bench.job_rows import JobRows
from app.book.door import Book
from app.book.office.billed import NO_NOTE, billed_on_jobs, credited_on_jobs, is_invoiced, pay_by_of
from app.book.office.shop_settings import settings_of
from app.book.tables import Charge, CreditNote, Customer, Invoice, Job, Labour, PartMove, Payment, Unit
from app.trade.bench.stages import Outcome, Stage
from app.trade.calendar.promise import local_day
from app.trade.money import Money
from app.trade.office.invoice import LineKind
from app.trade.office.numbers import invoice_number
from app.trade.office.on_the_bill import NO_CHARGE
from app.trade.sentence import Sentence
from app.trade.settings.prices import PAY_WITHIN
from app.work.office.guarantees import decided_without_invoice
from app.work.office.invoices import draft_inside


@dataclass(frozen=True, slots=True)
class InvoiceRow:
    """One invoice in the Office's list. ``overdue`` in days; 0 while it need not be paid yet, or is paid."""

    id: int
    number: str
    job_id: int
    job_number: int
    customer: str
    issued_on: date
    asked: Money  # with VAT, rounded as it is paid
    open: Money
    days: int  # since it was issued
    pay_by: date
    overdue: int
    credited: bool = False  # wholly, by credit notes


@dataclass(frozen=True, slots=True)
class ToInvoice:
    """A job that is ready and has no invoice yet. ``held`` says why it cannot be invoiced now."""

    job_id: int
    number: int
    customer: str
    player: str
    ready_at: datetime | None
    so_far: Money
    held: tuple[Sentence, ...] = ()


@dataclass(frozen=True, slots=True)
class GoneWithout:
    """A job that was handed back without an invoice, though something on it is charged."""

    job_id: int
    number: int
    customer: str
    player: str
    outcome: Outcome | None
    handed_back: date


def invoices(book: Book, *, open_only: bool = False) -> tuple[InvoiceRow, ...]:
    """Invoices, newest first, with what is open on each; a balance below zero is owed to the customer.

    What is open on a job belongs to its last invoice: those before it were credited wholly.
    """
    with book.ask() as session:
        paid_on = (
            select(Payment.job_id, func.sum(Payment.amount).label("paid")).group_by(Payment.job_id).subquery()
        )
        credited_on, billed_on = credited_on_jobs(), billed_on_jobs()
        off = (
            select(CreditNote.invoice_id, func.sum(CreditNote.due).label("sum"))
            .group_by(CreditNote.invoice_id)
            .subquery()
        )
        given = func.coalesce(credited_on.c.credited, 0)
        due = case(
            (Invoice.id == billed_on.c.last, billed_on.c.payable - given - func.coalesce(paid_on.c.paid, 0)),
            else_=0,
        )
        question = (
            select(Invoice, Job.number, Customer.name, due, func.coalesce(off.c.sum, NO_NOTE))
            .join(Job, Job.id == Invoice.job_id)
            .join(Customer, Customer.id == Invoice.customer_id)
            .join(billed_on, billed_on.c.job_id == Invoice.job_id)
            .outerjoin(credited_on, credited_on.c.job_id == Invoice.job_id)
            .outerjoin(off, off.c.invoice_id == Invoice.id)
            .outerjoin(paid_on, paid_on.c.job_id == Invoice.job_id)
            .order_by(Invoice.issued_on.desc(), Invoice.id.desc())
        )
        if open_only:
            question = question.where(due != 0)
        today, within = book.today(), settings_of(session)[PAY_WITHIN]
        return tuple(
            InvoiceRow(
                row.id,
                invoice_number(row.series, row.number),
                row.job_id,
                job_number,
                name,
                row.issued_on,
                Money(row.gross + row.rounding, row.currency),
                Money(rest, row.currency),
                (today - row.issued_on).days,
                pay_by_of(row, within),
                max(0, (today - pay_by_of(row, within)).days) if rest > 0 else 0,
                given_back == row.gross + row.rounding,
            )
            for row, job_number, name, rest, given_back in session.execute(question)
        )


def jobs_to_invoice(book: Book) -> tuple[ToInvoice, ...]:
    """Jobs that are ready and not invoiced, oldest first."""
    with book.ask() as session:
        found = session.execute(
            select(Job, Customer.name, Unit.maker, Unit.model)
            .join(Customer, Customer.id == Job.customer_id)
            .join(Unit, Unit.id == Job.unit_id)
            .where(Job.stage == Stage.READY, ~is_invoiced(), ~decided_without_invoice())
            .order_by(Job.ready_at, Job.number)
        ).all()
        lines = []
        for job, name, maker, model in found:
            drafted = draft_inside(JobRows(session, job), book.today())
            lines.append(
                ToInvoice(
                    job.id,
                    job.number,
                    name,
                    f"{maker} {model}".strip(),
                    job.ready_at,
                    drafted.totals.asked,
                    drafted.held,
                )
            )
        return tuple(lines)


def gone_without_invoice(book: Book, *, most: int = 200) -> tuple[GoneWithout, ...]:
    """Jobs handed back without an invoice though something on them is charged, newest first."""
    labour = exists().where(Labour.job_id == Job.id, Labour.charged, Labour.struck_at.is_(None))
    charge = exists().where(
        Charge.job_id == Job.id,
        Charge.struck_at.is_(None),
        Charge.kind.not_in((*NO_CHARGE, LineKind.TEXT)),
    )
    used = (
        select(func.sum(PartMove.quantity)).where(PartMove.job_id == Job.id).scalar_subquery()
    )  # parts used count below zero
    with book.ask() as session:
        found = session.execute(
            select(Job, Customer.name, Unit.maker, Unit.model)
            .join(Customer, Customer.id == Job.customer_id)
            .join(Unit, Unit.id == Job.unit_id)
            .where(
                Job.stage == Stage.HANDED_BACK,
                Job.handed_back_at.is_not(None),
                ~exists().where(Invoice.job_id == Job.id),
                ~decided_without_invoice(),
                or_(labour, charge, used < 0),
            )
            .order_by(Job.handed_back_at.desc(), Job.id.desc())
            .limit(most)
        )
        lines = []
        for job, name, maker, model in found:
            assert job.handed_back_at is not None  # the question asked for it
            lines.append(
                GoneWithout(
                    job.id,
                    job.number,
                    name,
                    f"{maker} {model}".strip(),
                    job.outcome,
                    local_day(job.handed_back_at, book.zone),
                )
            )
        return tuple(lines)
