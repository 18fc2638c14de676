"""What the invoice page of a job shows: who and what, the draft, the issued invoice with its paper, payments."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import select

from app.book.bench.job_rows import JobRows
from app.book.door import Book
from app.book.office.estimate_lines import taken_of
from app.book.office.job_lines import balance, paid, standing_invoice
from app.book.tables import Customer, Invoice, Job, Paper, Unit
from app.trade.bench.kinds import Means
from app.trade.bench.stages import Outcome, Stage
from app.trade.money import Money
from app.trade.office.estimate import Taken
from app.trade.office.issue_days import IssueDays
from app.trade.office.numbers import invoice_number
from app.trade.office.on_the_bill import rates_offered
from app.trade.office.vat import VatRate
from app.trade.settings.prices import CURRENCY, PRICES_WITH_VAT
from app.work.office.credit_notes import CreditView, NoteLine, credit_inside, notes_of
from app.work.office.invoices import InvoiceDraft, draft_inside, invoice_days
from app.work.papers.kinds import Kind


@dataclass(frozen=True, slots=True)
class PaymentLine:
    """Money taken (above zero) or given back (below)."""

    id: int
    kind: str  # deposit, payment, refund
    amount: Money
    means: Means
    note: str
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class InvoiceIssued:
    """The invoice as it was issued. ``paper_id`` is the paper that is filed."""

    id: int
    number: str
    issued_on: date
    issued_by: str
    gross: Money
    due: Money
    paper_id: int


@dataclass(frozen=True, slots=True)
class InvoiceView:
    """The page. ``open`` is what is still to be paid on the invoice, below zero what was paid too much;
    without an invoice it is what the draft would ask for. ``changes`` says whether lines can be put on it."""

    job_id: int
    number: int
    player: str
    serial: str
    customer: str
    stage: Stage
    outcome: Outcome | None
    currency: str
    rates: tuple[VatRate, ...]
    prices_with_vat: bool
    draft: InvoiceDraft
    invoice: InvoiceIssued | None
    credited: tuple[InvoiceIssued, ...]  # invoices before it, each credited wholly
    notes: tuple[NoteLine, ...]
    credit: CreditView | None  # what of the invoice can be credited
    payments: tuple[PaymentLine, ...]
    paid: Money
    open: Money
    changes: bool
    days: IssueDays  # which dates the invoice may carry
    taken: Taken | None  # what it takes over from an estimate; None while none was answered

    @property
    def credited_sum(self) -> Money:
        """What credit notes gave back on the invoice that counts."""
        given = self.credit.notes if self.credit is not None else ()
        return Money(sum(note.due.minor for note in given), self.currency)


def invoice_view(book: Book, job_id: int) -> InvoiceView:
    """Everything on the invoice page of a job. Raises NoResultFound for a job that is not there."""
    with book.ask() as session:
        job = session.get_one(Job, job_id)
        unit, customer = session.get_one(Unit, job.unit_id), session.get_one(Customer, job.customer_id)
        rows = JobRows(session, job)
        drafted = draft_inside(rows, book.today())
        currency = rows.settings[CURRENCY]
        issued = _issued(rows)
        invoice = issued.pop() if standing_invoice(rows) is not None else None
        return InvoiceView(
            job_id=job.id,
            number=job.number,
            player=f"{unit.maker} {unit.model}".strip(),
            serial="" if unit.serial_unreadable else unit.serial,
            customer=customer.name,
            stage=job.stage,
            outcome=job.outcome,
            currency=currency,
            rates=rates_offered(rows.settings),
            prices_with_vat=rows.settings[PRICES_WITH_VAT],
            draft=drafted,
            invoice=invoice,
            credited=tuple(issued),
            credit=None
            if invoice is None
            else credit_inside(session.get_one(Invoice, invoice.id), rows, book.today()),
            notes=tuple(note for row in rows.invoices for note in notes_of(session, row.id)),
            payments=tuple(
                PaymentLine(
                    row.id,
                    row.kind,
                    Money(row.amount, row.currency),
                    row.means,
                    row.note,
                    row.at,
                    rows.staff[row.by],
                )
                for row in rows.payments
            ),
            paid=Money(paid(rows), currency),
            open=balance(rows) if invoice is not None else drafted.totals.due,
            changes=invoice is None and job.stage is not Stage.HANDED_BACK,
            days=invoice_days(book, rows, book.today()),
            taken=taken_of(rows) if rows.estimate_answers else None,
        )


def _issued(rows: JobRows) -> list[InvoiceIssued]:
    """The invoices of the job in the order of issue, each with its paper."""
    found = rows.session.execute(
        select(Paper.invoice_id, Paper.id).where(
            Paper.job_id == rows.job.id, Paper.kind == Kind.INVOICE.value
        )
    )
    papers: dict[int | None, int] = dict(found.all())
    return [
        InvoiceIssued(
            row.id,
            invoice_number(row.series, row.number),
            row.issued_on,
            rows.staff[row.issued_by],
            Money(row.gross, row.currency),
            Money(row.due, row.currency),
            papers[row.id],
        )
        for row in rows.invoices
    ]
