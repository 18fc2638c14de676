"""What jobs were invoiced and credited, for questions over many of them. Of one job `job_lines` tells it."""

from __future__ import annotations

from datetime import date, timedelta

from sqlalchemy import ColumnElement, Subquery, exists, func, select

from app.book.office.credit_notes import CreditNote
from app.book.office.invoices import Invoice
from app.book.tables import Job

NO_NOTE = -1  # no sum of credit notes; one of an invoice at no charge gives back 0


def pay_by_of(invoice: Invoice, within: int) -> date:
    """The day by which an invoice asked to be paid; where it kept none, ``within`` days after its issue."""
    return invoice.pay_by or invoice.issued_on + timedelta(days=within)


def billed_on_jobs() -> Subquery:
    """By job: ``payable`` of all its invoices, and ``last``, the key of the last one."""
    payable = func.sum(Invoice.gross + Invoice.rounding)
    return (
        select(Invoice.job_id, payable.label("payable"), func.max(Invoice.id).label("last"))
        .group_by(Invoice.job_id)
        .subquery()
    )


def credited_on_jobs() -> Subquery:
    """By job: ``credited``, what all its credit notes gave back."""
    return (
        select(CreditNote.job_id, func.sum(CreditNote.due).label("credited"))
        .group_by(CreditNote.job_id)
        .subquery()
    )


def is_invoiced() -> ColumnElement[bool]:
    """Whether the job that a question is about has an invoice that was not credited wholly."""
    given = select(func.sum(CreditNote.due)).where(CreditNote.invoice_id == Invoice.id).correlate(Invoice)
    credited = func.coalesce(given.scalar_subquery(), NO_NOTE)
    stands = credited != Invoice.gross + Invoice.rounding
    return exists().where(Invoice.job_id == Job.id, stands).correlate(Job)
