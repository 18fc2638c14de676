"""The receipt for one payment: printed when it is wanted, once, and the same paper from then on."""

from __future__ import annotations

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book.bench.job_rows import JobRows
from app.book.door import Book, Change
from app.book.office.job_lines import balance
from app.book.tables import Customer, Invoice, Job, Paper, Payment, Staff, Unit
from app.papers.payment_receipt_facts import PaymentReceiptFacts
from app.trade.money import Money
from app.trade.office.numbers import invoice_number
from app.trade.sentence import Sentence, words
from app.work.office.invoice_paper import MEANS
from app.work.papers.issuing import issue_paper
from app.work.papers.kinds import Kind
from app.work.papers.sheet_facts import player_facts, sheet_of
from app.work.shop_book import Done

GIVEN_BACK = words("Receipt for money given back {number}")


def issue_receipt(book: Book, who: int, payment_id: int) -> Done[int]:
    """Print the receipt for a payment, or find the one that was printed. Gives its paper.

    Its number is that of the job and the place of the payment in it: payments never change, so that stays.
    """
    with book.change(who, Sentence("printed a receipt for payment")) as change:
        payment = change.get(Payment, payment_id)
        job = change.get(Job, payment.job_id)
        change.why = Sentence("printed a receipt for payment of job {number}", {"number": str(job.number)})
        rows = JobRows(change.session, job)
        place = next(at for at, row in enumerate(rows.payments, start=1) if row.id == payment.id)
        number = f"{job.number}-{place}"
        paper_id = _printed(change.session, job.id, number)
        if paper_id is None:
            facts = _facts(change, book, rows, payment, number, place)
            title = GIVEN_BACK if facts.back else ""
            paper_id = issue_paper(
                change, job.id, facts, number=number, title=title, invoice_id=payment.invoice_id
            ).id
    return Done(paper_id, change.changes)


def _printed(session: Session, job_id: int, number: str) -> int | None:
    """The receipt of this number, if there is one. One erased before receipts were kept has no facts."""
    papers = session.execute(
        select(Paper.id, Paper.facts)
        .where(Paper.job_id == job_id, Paper.kind == Kind.PAYMENT_RECEIPT.value)
        .order_by(Paper.id)
    )
    return next((paper for paper, facts in papers if facts.get("number") == number), None)


def _facts(
    change: Change, book: Book, rows: JobRows, payment: Payment, number: str, place: int
) -> PaymentReceiptFacts:
    """How it stood right after this payment, though more may have been paid since."""
    session, settings, job = change.session, rows.settings, rows.job
    customer = session.get_one(Customer, job.customer_id)
    paid = Money(sum(row.amount for row in rows.payments[:place]), payment.currency)
    later = Money(
        sum(row.amount for row in rows.payments[place:])
        + sum(note.due for note in rows.credit_notes if note.issued_at > payment.at),
        payment.currency,
    )
    invoice = session.get(Invoice, payment.invoice_id) if payment.invoice_id is not None else None
    return PaymentReceiptFacts(
        sheet=sheet_of(book.files, settings, customer),
        number=number,
        job=job.number,
        customer_name=customer.name,
        player=player_facts(session, session.get_one(Unit, job.unit_id)),
        at=payment.at,
        amount=Money(abs(payment.amount), payment.currency),
        means=MEANS[payment.means],
        taken_by=session.get_one(Staff, payment.by).name,
        invoice=invoice_number(invoice.series, invoice.number) if invoice is not None else "",
        back=payment.amount < 0,
        note=payment.note,
        total=Money(invoice.gross + invoice.rounding, invoice.currency) if invoice is not None else None,
        paid=paid,
        open=balance(rows) + later if invoice is not None else None,
    )
