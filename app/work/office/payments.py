"""Money taken and given back: deposits, payments, refunds; rows that never change."""

from __future__ import annotations

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book.bench.job_rows import JobRows
from app.book.door import Book, Change
from app.book.office.job_lines import balance, paid
from app.book.office.shop_settings import settings_of
from app.book.tables import Invoice, Job, Payment
from app.trade.bench.kinds import Means
from app.trade.money import Money
from app.trade.office.invoice_check import HIGHEST_AMOUNT, LONGEST_WORDS
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.trade.settings.prices import CURRENCY
from app.trade.typed_words import check_typed
from app.work.shop_book import Done


def take_payment(
    book: Book, who: int, job_id: int, amount: Money, means: Means, *, note: str = ""
) -> Done[int]:
    """Take money on a job: a deposit before the invoice, a payment after it. Raises FieldRefusal."""
    _check(amount, note)
    with book.change(who, Sentence("took a payment")) as change:
        job = change.get(Job, job_id)
        _same_currency(settings_of(change.session)[CURRENCY], amount)
        invoice = _last_invoice(change.session, job.id)
        kind = "payment" if invoice else "deposit"
        row = payment_row(change, job.id, invoice, kind, amount, means, note)
    return Done(row.id, change.changes)


def give_back(book: Book, who: int, job_id: int, amount: Money, means: Means, *, note: str = "") -> Done[int]:
    """Give money back, never more than what was paid beyond the invoice. Raises FieldRefusal."""
    _check(amount, note)
    with book.change(who, Sentence("gave money back")) as change:
        job = change.get(Job, job_id)
        currency = settings_of(change.session)[CURRENCY]
        _same_currency(currency, amount)
        invoice = _last_invoice(change.session, job.id)
        rows = JobRows(change.session, job)
        over = -balance(rows).minor if invoice else paid(rows)
        if amount.minor > over:
            raise FieldRefusal(
                {
                    "amount": Sentence(
                        "At most {most} was paid too much.", {"most": Money(max(over, 0), currency)}
                    )
                }
            )
        row = payment_row(change, job.id, invoice, "refund", -amount, means, note)
    return Done(row.id, change.changes)


def payment_row(
    change: Change, job_id: int, invoice: int | None, kind: str, amount: Money, means: Means, note: str = ""
) -> Payment:
    """The row of money taken or, below zero, given back, inside the action that does it."""
    return change.add(
        Payment(
            job_id=job_id,
            invoice_id=invoice,
            kind=kind,
            amount=amount.minor,
            currency=amount.currency,
            means=means,
            note=note.strip(),
            at=change.now,
            by=change.by,
        )
    )


def _check(amount: Money, note: str) -> None:
    wrong: dict[str, Sentence] = {}
    if amount.minor <= 0:
        wrong["amount"] = Sentence("A payment is more than zero.")
    elif amount.minor > HIGHEST_AMOUNT:
        wrong["amount"] = Sentence("That amount is too high to be meant.")
    if unprintable := check_typed(note, LONGEST_WORDS, lines=True):
        wrong["note"] = unprintable
    if wrong:
        raise FieldRefusal(wrong)


def _same_currency(currency: str, amount: Money) -> None:
    if amount.currency != currency:
        raise FieldRefusal({"amount": Sentence("The shop works in {currency}.", {"currency": currency})})


def _last_invoice(session: Session, job_id: int) -> int | None:
    return session.scalar(
        select(Invoice.id).where(Invoice.job_id == job_id).order_by(Invoice.id.desc()).limit(1)
    )
